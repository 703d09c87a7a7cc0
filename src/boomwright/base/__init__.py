"""The ground floor: constants, notices, errors, read-only arrays, unit text.

Imports nothing from the rest of the package. Everything is SI inside, radians, e^(+jwt);
a name that ends in another unit says so (``gain_dbi``, ``azimuth_deg``).
"""

from boomwright.base.arrays import ReadOnlyArrays, read_only
from boomwright.base.constants import (
    SPEED_OF_LIGHT,
    STANDARD_GRAVITY,
    VACUUM_IMPEDANCE,
    VACUUM_PERMEABILITY,
    VACUUM_PERMITTIVITY,
)
from boomwright.base.errors import (
    BoomwrightError,
    Fault,
    PlanError,
    SaveConflictError,
    SolverError,
    made_at,
    place_error,
)
from boomwright.base.notices import Notice, Severity, written_notices
from boomwright.base.quantity_text import both_quantities, in_system, quantity_text
from boomwright.base.unit_text import (
    METRES_PER_INCH,
    UnitSystem,
    feet_inches_sixteenths,
    inches_sixteenths,
    length_text,
)
from boomwright.base.verdict_text import (
    counts_text,
    exceeded_texts,
    finding_text,
    open_text,
    open_texts,
    stamp_text,
    tally_text,
    use_text,
    verdict_text,
)
from boomwright.base.verdicts import Finding, PlanVerdict, VerdictWord, plan_verdict
