"""The sheets of the page, in the order of the job. A sheet is one module and one context."""

from boomwright.web.sheets.beam import BEAM as BEAM
from boomwright.web.sheets.build import BUILD as BUILD
from boomwright.web.sheets.compare import COMPARE as COMPARE
from boomwright.web.sheets.cost import COST as COST
from boomwright.web.sheets.feed import FEED as FEED
from boomwright.web.sheets.permits import PERMITS as PERMITS
from boomwright.web.sheets.raising import RAISING as RAISING
from boomwright.web.sheets.reach import REACH as REACH
from boomwright.web.sheets.sheet import Sheet as Sheet
from boomwright.web.sheets.structure import STRUCTURE as STRUCTURE
from boomwright.web.sheets.tuning import TUNING as TUNING
from boomwright.web.sheets.waves import WAVES as WAVES

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
)
