"""How far off an antenna usually is from its plan, and how exactly it is moved."""

from __future__ import annotations

from boomwright.base.records import dataclass

#: places of a tip and of a strap where nobody says; at most this share of the wavelength [m], [-]
_CUTTING, _STRAP, _MOST_CUTTING = 4e-3, 5e-3, 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerance:
    """How far off things usually are, as standard deviations {common-practice-tolerances}."""

    #: place of one tip, cutting and assembly together; None when nobody says [m]
    cutting: float | None = None
    #: place of a strap or short along its rods; None when nobody says [m]
    strap: float | None = None
    component: float = 0.05  #: value of a capacitor or coil, as a share [-]
    height: float = 0.3  #: height above ground [m]
    ground_factor: float = 2.0  #: permittivity and conductivity of the ground, as a factor [-]
    radials: float = 0.03  #: length of the radials as they act, as a share [-]
    foot_loss: float = 0.4  #: loss in the ground at the foot of a vertical, as a share [-]
    line_length: float = 0.01  #: electrical length of the line, as a share of its length [-]
    line_loss: float = 0.15  #: loss of the line, as a share [-]
    line_impedance: float = 0.02  #: impedance of the line, as a share [-]
    plane: float = 0.02  #: place the meter was calibrated at, in front of the connector [m]
    #: stray capacitance across the feed and wire in series with it, as a share of the usual [-]
    stray: float = 1.0

    def tip_at(self, wavelength: float) -> float:
        """Place of one tip [m]."""
        usual = min(_CUTTING, _MOST_CUTTING * wavelength)
        return usual if self.cutting is None else self.cutting

    def strap_at(self, wavelength: float) -> float:
        """Place of a strap or short along its rods [m]."""
        usual = min(_STRAP, _MOST_CUTTING * wavelength)
        return usual if self.strap is None else self.strap


@dataclass(frozen=True, slots=True, kw_only=True)
class MovingCare:
    """How exactly moves are made, as standard deviations {common-practice-tolerances}."""

    length: float = 1e-3  #: place of a tip or a strap [m]
    share: float = 0.02  #: setting of a capacitor or coil, as a share [-]
