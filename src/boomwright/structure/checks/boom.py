"""Ledger lines for one boom; weights, balance, torque and inertia on the way."""

from __future__ import annotations

from math import isfinite, radians, tan

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.structure.beam.boom import (
    ArmBending,
    BoomPress,
    PointMass,
    balance_point,
    boom_arms,
    boom_inertia,
    moment_of_inertia,
)
from boomwright.structure.beam.boom_course import BoomCourse, boom_course
from boomwright.structure.beam.torque import (
    WindTorque,
    ballast_for_middle,
    vane_drag_area,
    wind_torque,
)
from boomwright.structure.checks.elements import element_trouble
from boomwright.structure.checks.findings import Findings, SiteLoads, is_steel
from boomwright.structure.checks.joints import check_boom_joints
from boomwright.structure.checks.margins import margin
from boomwright.structure.inputs import Boom, MountedBeam
from boomwright.structure.memory import recalled
from boomwright.structure.weather.beam_wind import BeamWind
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.frame_wind import (
    frame_presses,
    frame_torque,
    seen_diameter,
    wind_middle,
)
from boomwright.structure.weather.ice import IceCoat
from boomwright.structure.weather.wind import VelocityPressure
from boomwright.structure.wording import thickness

#: sag of a boom arm past this share of its length calls for a tie (common practice)
SAG_SHARE = 1.0 / 50.0
#: where a tie holds an arm, of its length {common-practice-building} [-]
_TIE_AT = 0.65


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomFindings:
    """What is known of a boom; nothing of it without tube walls."""

    weight: float | None = None  #: weight of elements, boom and fittings [N]
    iced_weight: float | None = None  #: the same with ice; None without ice [N]
    balance: float | None = None  #: balance point on the beam's x axis [m]
    clamp: float | None = None  #: mast clamp on the beam's x axis [m]
    inertia: float | None = None  #: moment of inertia about the mast [kg m^2]
    arms: tuple[ArmBending, ...] = ()  #: rear and front arm, bare
    iced_arms: tuple[ArmBending, ...] = ()  #: the same with ice, empty without
    torque: WindTorque | None = None  #: wind torque, nominal; None without wind [N m]
    iced_torque: WindTorque | None = None  #: the same with ice and its gust; None without [N m]
    #: drag area that cancels the boom's torque at the end of the short arm [m^2]
    vane_drag_area: float | None = None
    #: ballast at the end of the light arm that lets the clamp sit at mid boom [kg]
    ballast: float | None = None
    course: BoomCourse | None = None  #: moment and sag from place to place, bare
    iced_course: BoomCourse | None = None  #: the same with ice


def weight_trouble(*, beam: Beam) -> str:
    """Say why a beam's weight cannot be known, or nothing."""
    if not beam.elements:
        return "the beam has no elements"
    for number, element in enumerate(beam.elements, start=1):
        trouble = (
            ""
            if element.bent and beam.material.density > 0.0
            else element_trouble(element=element, material=beam.material)
        )
        if trouble:
            return f"the weight of element {number} is not known ({trouble})"
        if not isfinite(element.position):
            return f"the place of element {number} is no number"
    return ""


def boom_trouble(*, beam: Beam, boom: Boom | None) -> str:
    """Say why a boom cannot be worked out, or nothing."""
    if boom is None:
        return "the boom tube is not given"
    trouble = weight_trouble(beam=beam)
    if trouble:
        return trouble
    front = boom.rear_end + boom.length
    for number, element in enumerate(beam.elements, start=1):
        if not boom.rear_end - 1e-6 <= element.position <= front + 1e-6:
            return f"element {number} is not on the boom"
    if not (boom.material.elastic_modulus > 0.0 and boom.material.density > 0.0):
        return f"density or stiffness of {boom.material.name} is not known"
    return ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Loading:
    masses: tuple[PointMass, ...]
    line_weight: float
    line_wind: float
    presses: tuple[BoomPress, ...]


def _loading(
    mounted: MountedBeam,
    boom: Boom,
    masses: tuple[PointMass, ...],
    site: SiteLoads,
    pressure: VelocityPressure | None,
    ice: IceCoat | None,
) -> _Loading:
    metal = boom.shape.area * boom.material.density
    coat = 0.0 if ice is None else ice.mass_per_length(diameter=boom.diameter)
    seen = boom.diameter if ice is None else ice.iced_diameter(diameter=boom.diameter)
    force = 0.0 if pressure is None else pressure.for_force
    factor = site.dead_factor
    return _Loading(
        masses=tuple(
            PointMass(name=p.name, position=p.position, mass=p.mass * factor) for p in masses
        ),
        line_weight=(metal + coat) * factor * STANDARD_GRAVITY,
        line_wind=force * ROUND_DRAG * seen,
        presses=tuple(
            BoomPress(
                place=each.place,
                across=force * each.across,
                couple=force * each.couple,
                twist=force * each.twist,
            )
            for each in frame_presses(strung=mounted.strung, hub=_hub(mounted.beam), ice=ice)
        )
        + tuple(
            BoomPress(
                place=each.position, across=force * each.drag_area(ice=ice), couple=0.0, twist=0.0
            )
            for each in mounted.exposed
        ),
    )


def _hub(beam: Beam) -> float | None:
    return None if beam.frame is None else beam.frame.hub


def _arms(boom: Boom, clamp: float, loading: _Loading) -> tuple[ArmBending, ArmBending]:
    return boom_arms(
        shape=boom.shape,
        elastic_modulus=boom.material.elastic_modulus,
        rear_end=boom.rear_end,
        length=boom.length,
        clamp=clamp,
        masses=loading.masses,
        line_weight=loading.line_weight,
        line_wind=loading.line_wind,
        tie=boom.tie,
        presses=loading.presses,
    )


def _course(boom: Boom, clamp: float, loading: _Loading) -> BoomCourse:
    return boom_course(
        boom=boom,
        masses=loading.masses,
        clamp=clamp,
        line_weight=loading.line_weight,
        line_wind=loading.line_wind,
        presses=loading.presses,
    )


def _boom_line(
    name: str,
    boom: Boom,
    arms: tuple[ArmBending, ...],
    pressure: VelocityPressure | None,
    site: SiteLoads,
    findings: Findings,
    missing: Value,
    part: str,
    ice: IceCoat | None = None,
) -> None:
    if pressure is None:
        findings.skip(name, missing)
        return
    if not boom.material.yield_strength > 0.0:
        findings.skip(name, f"the yield strength of {boom.material.name} is not known")
        return
    limit = site.limit(
        yield_strength=boom.material.minimum_yield(wall=boom.wall),
        steel=is_steel(boom.material),
        ultimate=boom.material.ultimate_strength,
        known=recalled(boom.material.recalled_strength),
    )
    findings.add(
        margin(
            name=name,
            demand=max(arm.stress for arm in arms) / 1e6,
            capacity=limit.value / 1e6,
            unit="MPa",
            basis=phrase(
                "{pressure}; {rule}; {dead_text}{more}", pressure=pressure.text, rule=limit.rule,
                dead_text=site.dead_text,
                more="" if ice is None else phrase(", ice too; {ice}", ice=ice.text),
            ),
            change="take a larger or thicker boom, or tie it from above and to the sides",
            part=part,
            load_kind=pressure.kind,
            limit_kind=limit.kind,
        )
    )  # fmt: skip


def sag_told(arms: tuple[ArmBending, ...], *, above: float | None = None) -> Value | None:
    """Say which arms of a boom sag past a fiftieth of their length, the worst first.

    Args:
        above: mast above the boom; None where it is not looked at [m]

    Returns:
        None when none does
    """
    past = [
        (which, arm)
        for which, arm in zip(("rear", "front"), arms, strict=False)
        if arm.length > 0.0 and arm.sag > SAG_SHARE * arm.length
    ]
    if not past:
        return None
    past.sort(key=lambda one: one[1].sag / one[1].length, reverse=True)
    told = [
        phrase(
            "{which} arm {sag}, limit {limit}",
            which=which,
            sag=thickness(arm.sag),
            limit=thickness(arm.length * SAG_SHARE),
        )
        for which, arm in past
    ]
    rise = max(arm.length for _, arm in past) * _TIE_AT * tan(radians(15.0))
    short: Value = ""
    if above is not None and above < rise:
        short = phrase(
            " The mast has {above}: take a longer one, or leave the tie out and see that the sag "
            "does no harm; the boom's strength is checked without it.",
            above=Quantity(above, "span"),
        )
    return phrase(
        "the boom sags past a fiftieth of its arm (common practice): {arms}. A tie from above "
        "at 0.6 to 0.7 of the arm, steeper than 15 degrees and of no metal or in short pieces, "
        "takes it up; it needs {rise} of mast above the boom. It holds against sag only, not "
        "against side wind.{short}",
        arms=listed(told, between="; "),
        rise=Quantity(rise, "span"),
        short=short,
    )


def _sag(name: str, arms: tuple[ArmBending, ...], findings: Findings) -> None:
    told = sag_told(arms)
    if told is not None:
        findings.doubt("boom-sag", phrase("{name}: {told}", name=name, told=told))


def _torque(
    mounted: MountedBeam,
    boom: Boom,
    clamp: float,
    wind: BeamWind,
    pressure: VelocityPressure | None,
    ice: IceCoat | None = None,
) -> WindTorque | None:
    if pressure is None:
        return None
    # Of one half: each tube's own, from the boom outwards.
    first = 0.25 * sum(
        seen_diameter(bar.diameter, ice)
        * abs(bar.end[1] * abs(bar.end[1]) - bar.start[1] * abs(bar.start[1]))
        for bar in mounted.tubes
    )
    tubes = wind_torque(
        pressure=pressure.for_force,
        boom_diameter=seen_diameter(boom.diameter, ice),
        arms=(clamp - boom.rear_end, boom.rear_end + boom.length - clamp),
        element_drag_area=wind.elements.drag,
        element_first_moment=first,
        offset=boom.offset,
        hardware_first_moment=sum(
            each.drag_area(ice=ice) * (each.position - clamp) for each in mounted.exposed
        ),
    )
    if not mounted.beam.bent:
        return tubes
    frame = frame_torque(strung=mounted.strung, pressure=pressure.for_force, ice=ice, axis=clamp)
    return replace(
        tubes,
        boom=tubes.boom + frame.boom,
        gust_elements=tubes.gust_elements + frame.gust_elements,
        gust_boom=tubes.gust_boom + frame.gust_boom,
        worst=tubes.worst + frame.worst,
    )


def _whole(mounted: MountedBeam, boom: Boom, ice: IceCoat | None) -> tuple[PointMass, ...]:
    coat = 0.0 if ice is None else ice.mass_per_length(diameter=boom.diameter) * boom.length
    itself = PointMass(name="boom", position=boom.middle, mass=boom.mass + coat)
    return (*mounted.weighed(ice=ice), itself)


def _lines(
    name: str,
    boom: Boom,
    bare: tuple[ArmBending, ...],
    iced: tuple[ArmBending, ...],
    height: float,
    site: SiteLoads,
    findings: Findings,
) -> None:
    _boom_line(
        f"{name}: boom in wind",
        boom,
        bare,
        site.pressure(height=height),
        site,
        findings,
        site.missing,
        f"boom of {name}",
    )
    if iced:
        _boom_line(
            f"{name}: boom, ice with its wind",
            boom,
            iced,
            site.ice_pressure(height=height),
            site,
            findings,
            site.missing or "the gust that comes with the ice is not given",
            f"boom of {name}",
            site.coat(height=height),
        )
    _sag(name, bare, findings)


def check_boom(
    *, mounted: MountedBeam, winds: tuple[BeamWind, BeamWind], site: SiteLoads, findings: Findings
) -> BoomFindings:
    """Work out the boom of one beam and write its ledger lines.

    Args:
        winds: areas of the beam, bare and iced (2,)
    """
    beam, boom = mounted.beam, mounted.boom
    trouble = boom_trouble(beam=beam, boom=boom)
    if boom is None or trouble:
        findings.skip(f"{beam.name}: boom in wind", trouble)
        return BoomFindings()
    whole = _whole(mounted, boom, None)
    balance = balance_point(masses=whole)
    clamp = boom.clamp
    if clamp is None:
        clamp = min(max(balance, boom.rear_end), boom.rear_end + boom.length)
    height = beam.height + wind_middle(beam=beam, strung=mounted.strung)
    coat = site.coat(height=height)
    loading = _loading(mounted, boom, whole[:-1], site, site.pressure(height=height), None)
    bare = _arms(boom, clamp, loading)
    iced: tuple[ArmBending, ...] = ()
    iced_weight, iced_course, iced_torque = None, None, None
    if coat is not None:
        on_ice = _whole(mounted, boom, coat)
        iced_weight = sum(point.mass for point in on_ice) * STANDARD_GRAVITY
        heavy = _loading(mounted, boom, on_ice[:-1], site, site.ice_pressure(height=height), coat)
        iced, iced_course = _arms(boom, clamp, heavy), _course(boom, clamp, heavy)
        gust = site.nominal_ice_pressure(height=height)
        iced_torque = _torque(mounted, boom, clamp, winds[1], gust, coat)
    _lines(beam.name, boom, bare, iced, height, site, findings)
    course = _course(boom, clamp, loading)
    check_boom_joints(
        name=beam.name, boom=boom, clamp=clamp, courses=(course, iced_course), height=height,
        site=site, findings=findings,
    )  # fmt: skip
    arms = (clamp - boom.rear_end, boom.rear_end + boom.length - clamp)
    short = min(arms)
    return BoomFindings(
        weight=sum(point.mass for point in whole) * STANDARD_GRAVITY,
        iced_weight=iced_weight,
        balance=balance,
        clamp=clamp,
        inertia=moment_of_inertia(masses=whole[:-1], axis=clamp)
        + boom_inertia(mass=boom.mass, length=boom.length, middle=boom.middle, axis=clamp),
        arms=bare,
        iced_arms=iced,
        torque=_torque(mounted, boom, clamp, winds[0], site.nominal_pressure(height=height)),
        iced_torque=iced_torque,
        course=course,
        iced_course=iced_course,
        ballast=ballast_for_middle(
            mass=sum(point.mass for point in whole),
            balance=balance,
            middle=boom.middle,
            ballast_arm=boom.length / 2.0,
        ),
        vane_drag_area=vane_drag_area(diameter=boom.diameter, arms=arms, vane_arm=short)
        if short > 0.0
        else None,
    )
