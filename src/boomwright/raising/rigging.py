"""Forces in ropes, blocks, bridles, tram lines and gin poles: plain statics.

All of it is for planning: the marked rating of each part and a person trained in rigging decide.
"""

from __future__ import annotations

import math
from typing import Final

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.records import dataclass

#: times the steady pull when people haul by hand in jerks [-] {common-practice-rigging}
HAND_SHOCK: Final = 1.25
#: breaking strength over static load for rope, sheaves and shackles [-] {michigan-r408-42943},
#: and for wire and web slings {asme-b30-9}
BREAKING_FACTOR: Final = 5.0
#: share of its strength that a rope keeps at a knot [-] {common-practice-tackle}
KNOT_SHARE: Final = 0.5
#: half the density of air at 15 degrees and sea level [kg/m^3] {asce-7-10}
_HALF_AIR_DENSITY: Final = 0.613
#: times the steady wind force in gusts and swing [-] {common-practice-rigging}
GUST_FACTOR: Final = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TramForces:
    """Forces of a carrier line with the load hanging on it."""

    horizontal: float  #: horizontal pull, the same at both ends [N]
    vertical_top: float  #: downward pull on the tower [N]
    vertical_anchor: float  #: downward pull on the ground anchor, negative when it lifts [N]

    @property
    def tension_top(self) -> float:
        """Line tension at the tower [N]."""
        return math.hypot(self.horizontal, self.vertical_top)

    @property
    def tension_anchor(self) -> float:
        """Line tension at the ground anchor [N]."""
        return math.hypot(self.horizontal, self.vertical_anchor)


@dataclass(frozen=True, slots=True, kw_only=True)
class BridleForces:
    """Two-legged bridle under one hook."""

    left: float  #: tension of the left leg [N]
    right: float  #: tension of the right leg [N]
    compression: float  #: compression of the boom between the picks [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class GinPoleForces:
    """What a gin pole carries."""

    hoist_line: float  #: tension of the hoist line at the pole's head [N]
    gross_load: float  #: load with the pull of the tag line [N]
    head_block: float  #: load on the head block, rope turning half round [N]
    heel_block: float  #: load on the heel block, rope turning a quarter [N]
    tag_pull: float  #: horizontal pull of the tag line [N]


def block_load(*, line_tension: float, angle_between: float) -> float:
    """Load on a block from the two parts of a rope, ``2 P cos(theta / 2)``.

    Args:
        line_tension: tension of the rope [N]
        angle_between: angle between the two rope parts, 0 when the rope turns half round [rad]

    Returns:
        load on the block and its fastening [N]
    """
    return 2.0 * line_tension * abs(math.cos(angle_between / 2.0))


def breaking_strength_needed(*, static_load: float) -> float:
    """Least marked breaking strength {michigan-r408-42943} [N].

    Args:
        static_load: static load on rope, sheave or shackle [N]
    """
    return BREAKING_FACTOR * static_load


def tram_forces(
    *,
    load: float,
    span: float,
    drop: float,
    sag: float,
    place: float = 0.5,
    line_weight: float = 0.0,
) -> TramForces:
    """Forces of a carrier line from tower to ground anchor.

    At midspan of a level line ``H = W L / (4 sag) + w L^2 / (8 sag)``; on a slope the
    chord's slope adds to the tower's share and takes from the anchor's.

    Args:
        load: weight of beam and rigging on the line [N]
        span: horizontal distance from tower to anchor [m]
        drop: height of the tower end above the anchor [m]
        sag: vertical distance from the straight chord down to the load [m]
        place: place of the load from the tower, 0 to 1 of the span [-]
        line_weight: weight of the line for each metre of span [N/m]

    Raises:
        ValueError: when span or sag is not positive, or the load hangs at an end
    """
    if span <= 0.0 or sag <= 0.0 or not 0.0 < place < 1.0:
        msg = f"span {span} m and sag {sag} m must be above 0, place {place} between 0 and 1"
        raise ValueError(msg)
    from_top = place * span
    moment = load * from_top * (1.0 - place) + line_weight * from_top * (span - from_top) / 2.0
    horizontal = moment / sag
    slope_share = horizontal * drop / span
    return TramForces(
        horizontal=horizontal,
        vertical_top=load * (1.0 - place) + line_weight * span / 2.0 + slope_share,
        vertical_anchor=load * place + line_weight * span / 2.0 - slope_share,
    )


def bridle_forces(*, load: float, left: float, right: float, rise: float) -> BridleForces:
    """Tension of a bridle whose hook stands over the centre of gravity.

    Args:
        load: weight of the beam [N]
        left: distance of the left pick from the centre of gravity [m]
        right: distance of the right pick from the centre of gravity [m]
        rise: height of the hook above the boom [m]

    Raises:
        ValueError: when a distance or the rise is not positive
    """
    if min(left, right, rise) <= 0.0:
        raise ValueError(f"picks at {left} m and {right} m and rise {rise} m must all be above 0")
    compression = load / (rise / left + rise / right)
    return BridleForces(
        left=compression * math.hypot(left, rise) / left,
        right=compression * math.hypot(right, rise) / right,
        compression=compression,
    )


def gin_pole_forces(*, load: float, offset_angle: float, tag_slope: float) -> GinPoleForces:
    """Forces on a gin pole while a tag line holds the load away from the tower.

    Args:
        load: weight of load and rigging [N]
        offset_angle: angle of the hoist rope from upright [rad]
        tag_slope: angle of the tag line below level [rad]

    Raises:
        ValueError: when hoist rope and tag line stand in one line
    """
    # Level balance: hoist sin(a) = tag cos(b); upright: hoist cos(a) = load + tag sin(b).
    shared = math.cos(offset_angle + tag_slope)
    if shared <= 0.0:
        msg = "hoist rope and tag line stand in one line: use a flatter tag or less offset"
        raise ValueError(msg)
    tag = load * math.sin(offset_angle) / shared
    hoist = load * math.cos(tag_slope) / shared
    return GinPoleForces(
        hoist_line=hoist,
        gross_load=load + tag * math.sin(tag_slope),
        head_block=block_load(line_tension=hoist, angle_between=offset_angle),
        heel_block=block_load(line_tension=hoist, angle_between=math.pi / 2.0),
        tag_pull=tag * math.cos(tag_slope),
    )


def wind_force(*, drag_area: float, wind_speed: float, factor: float = 1.0) -> float:
    """Wind on the hanging beam, ``0.613 V^2 CdA`` {asce-7-10} [N].

    Args:
        drag_area: drag coefficient times area [m^2]
        wind_speed: [m/s]
        factor: 1 for steady wind, 3 with gusts and swing [-] {common-practice-rigging}
    """
    return _HALF_AIR_DENSITY * wind_speed**2 * drag_area * factor


def weight(*, mass: float) -> float:
    """Weight of a mass [N].

    Args:
        mass: [kg]
    """
    return mass * STANDARD_GRAVITY
