"""The ground floor: constants, notices, errors, read-only arrays, unit text.

Imports nothing from the rest of the package. Everything is SI inside, radians, e^(+jwt);
a name that ends in another unit says so (``gain_dbi``, ``azimuth_deg``).
"""

from boomwright.base.arrays import read_only as read_only
from boomwright.base.constants import SPEED_OF_LIGHT as SPEED_OF_LIGHT
from boomwright.base.constants import STANDARD_GRAVITY as STANDARD_GRAVITY
from boomwright.base.constants import VACUUM_IMPEDANCE as VACUUM_IMPEDANCE
from boomwright.base.constants import VACUUM_PERMEABILITY as VACUUM_PERMEABILITY
from boomwright.base.constants import VACUUM_PERMITTIVITY as VACUUM_PERMITTIVITY
from boomwright.base.errors import BoomwrightError as BoomwrightError
from boomwright.base.errors import Fault as Fault
from boomwright.base.errors import PlanError as PlanError
from boomwright.base.errors import SaveConflictError as SaveConflictError
from boomwright.base.errors import SolverError as SolverError
from boomwright.base.notices import Notice as Notice
from boomwright.base.notices import Severity as Severity
from boomwright.base.notices import written_notices as written_notices
from boomwright.base.quantity_text import both_quantities as both_quantities
from boomwright.base.quantity_text import in_system as in_system
from boomwright.base.quantity_text import quantity_text as quantity_text
from boomwright.base.unit_text import METRES_PER_INCH as METRES_PER_INCH
from boomwright.base.unit_text import UnitSystem as UnitSystem
from boomwright.base.unit_text import feet_inches_sixteenths as feet_inches_sixteenths
from boomwright.base.unit_text import inches_sixteenths as inches_sixteenths
from boomwright.base.unit_text import length_text as length_text
from boomwright.base.verdict_text import counts_text as counts_text
from boomwright.base.verdict_text import exceeded_texts as exceeded_texts
from boomwright.base.verdict_text import finding_text as finding_text
from boomwright.base.verdict_text import open_text as open_text
from boomwright.base.verdict_text import open_texts as open_texts
from boomwright.base.verdict_text import stamp_text as stamp_text
from boomwright.base.verdict_text import tally_text as tally_text
from boomwright.base.verdict_text import use_text as use_text
from boomwright.base.verdict_text import verdict_text as verdict_text
from boomwright.base.verdicts import Finding as Finding
from boomwright.base.verdicts import PlanVerdict as PlanVerdict
from boomwright.base.verdicts import VerdictWord as VerdictWord
from boomwright.base.verdicts import plan_verdict as plan_verdict
