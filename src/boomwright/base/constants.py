"""Physical constants, exact by SI definition or derived from them {si-brochure-9}; the S-unit."""

from __future__ import annotations

import math
from typing import Final

#: speed of light in vacuum [m/s] {si-brochure-9}
SPEED_OF_LIGHT: Final = 299_792_458.0
#: vacuum permeability [H/m] {codata-2018}
VACUUM_PERMEABILITY: Final = 1.25663706212e-6
#: vacuum permittivity [F/m]
VACUUM_PERMITTIVITY: Final = 1.0 / (VACUUM_PERMEABILITY * SPEED_OF_LIGHT**2)
#: wave impedance of vacuum [ohm]
VACUUM_IMPEDANCE: Final = math.sqrt(VACUUM_PERMEABILITY / VACUUM_PERMITTIVITY)
#: standard gravity [m/s^2] {si-brochure-9}
STANDARD_GRAVITY: Final = 9.80665
#: one S-unit [dB] {iaru-r1-r1}; few meters keep to it below S9
DECIBELS_PER_S_UNIT: Final = 6.0
