"""The sheets of the page, in the order of the job. A sheet is one module and one context."""

from boomwright.web.sheets.beam import BEAM
from boomwright.web.sheets.build import BUILD
from boomwright.web.sheets.compare import COMPARE
from boomwright.web.sheets.cost import COST
from boomwright.web.sheets.feed import FEED
from boomwright.web.sheets.permits import PERMITS
from boomwright.web.sheets.raising import RAISING
from boomwright.web.sheets.reach import REACH
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.structure import STRUCTURE
from boomwright.web.sheets.tuning import TUNING
from boomwright.web.sheets.waves import WAVES

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
