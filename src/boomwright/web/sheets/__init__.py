"""The sheets of the page, in the order of the job. A sheet is one module and one context."""

from boomwright.web.sheets.beam import BEAM
from boomwright.web.sheets.beam_context import BeamContext
from boomwright.web.sheets.build import BUILD
from boomwright.web.sheets.compare import COMPARE
from boomwright.web.sheets.compare_context import CompareContext
from boomwright.web.sheets.cost import COST
from boomwright.web.sheets.feed import FEED
from boomwright.web.sheets.feed_context import FeedContext
from boomwright.web.sheets.frame_context import FrameContext, Mark
from boomwright.web.sheets.permits import PERMITS
from boomwright.web.sheets.permits_context import PermitsContext
from boomwright.web.sheets.plans import PLANS
from boomwright.web.sheets.plans_context import PlansContext
from boomwright.web.sheets.raising import RAISING
from boomwright.web.sheets.reach import REACH
from boomwright.web.sheets.reach_context import ReachContext
from boomwright.web.sheets.sheet import Paint, Sheet
from boomwright.web.sheets.structure import STRUCTURE
from boomwright.web.sheets.structure_context import StructureContext
from boomwright.web.sheets.tuning import TUNING
from boomwright.web.sheets.tuning_context import TuningContext
from boomwright.web.sheets.waves import WAVES
from boomwright.web.sheets.waves_context import WavesContext
from boomwright.web.sheets.work_context import WorkContext

#: every sheet there is, in the order of the job
SHEETS: tuple[Sheet, ...] = (
    BEAM,
    WAVES,
    FEED,
    REACH,
    STRUCTURE,
    PERMITS,
    COST,
    BUILD,
    RAISING,
    TUNING,
    COMPARE,
    PLANS,
)

__all__ = [
    "BEAM",
    "BUILD",
    "COMPARE",
    "COST",
    "FEED",
    "PERMITS",
    "PLANS",
    "RAISING",
    "REACH",
    "SHEETS",
    "STRUCTURE",
    "TUNING",
    "WAVES",
    "BeamContext",
    "CompareContext",
    "FeedContext",
    "FrameContext",
    "Mark",
    "Paint",
    "PermitsContext",
    "PlansContext",
    "ReachContext",
    "Sheet",
    "StructureContext",
    "TuningContext",
    "WavesContext",
    "WorkContext",
]
