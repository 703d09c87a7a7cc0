"""Ledger lines for one boom; weights, balance, torque and inertia on the way."""

from __future__ import annotations

from math import isfinite, radians, tan

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.structure.beam.boom import (
    ArmBending,
    Boom,
    BoomCourse,
    BoomLoading,
    BoomPress,
    PointMass,
    balance_point,
    boom_arms,
    boom_course,
    boom_inertia,
    mass_of,
    moment_of_inertia,
)
from boomwright.structure.beam.torque import (
    WindTorque,
    ballast_for_middle,
    vane_drag_area,
    wind_torque,
)
from boomwright.structure.checks.elements import element_trouble
from boomwright.structure.checks.findings import Blow, Findings, SiteLoads
from boomwright.structure.checks.joints import check_boom_joints
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.report import BeamReport
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.frame_wind import frame_presses, frame_torque
from boomwright.structure.weather.ice import IceCoat, coat_mass, seen_diameter
from boomwright.structure.wording import thickness

#: sag of a boom arm past this share of its length calls for a tie (common practice)
SAG_SHARE = 1.0 / 50.0
#: where a tie holds an arm, of its length {common-practice-building} [-]
_TIE_AT = 0.65


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bent:
    """A boom in one case of wind."""

    weight: float | None = None  # of the whole beam
    arms: tuple[ArmBending, ...] = ()
    course: BoomCourse | None = None
    torque: WindTorque | None = None


def weight_trouble(*, beam: Beam) -> str:
    """Say why a beam's weight cannot be known, or nothing."""
    if not beam.elements:
        return "the beam has no elements"
    for number, element in enumerate(beam.elements, start=1):
        trouble = element_trouble(element=element, material=beam.material)
        if trouble and not (element.bent and beam.material.density > 0.0):
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


def _whole(mounted: MountedBeam, boom: Boom, ice: IceCoat | None) -> tuple[PointMass, ...]:
    mass = boom.mass + coat_mass(boom.diameter, ice) * boom.length
    return (*mounted.weighed(ice=ice), PointMass(name="boom", position=boom.middle, mass=mass))


def _loading(
    mounted: MountedBeam, boom: Boom, masses: tuple[PointMass, ...], blow: Blow, site: SiteLoads
) -> BoomLoading:
    frame, ice, force, factor = mounted.beam.frame, blow.coat, blow.force, site.dead_factor
    metal = boom.shape.area * boom.material.density
    strung = frame_presses(strung=mounted.strung, hub=None if frame is None else frame.hub, ice=ice)
    return BoomLoading(
        masses=tuple(
            PointMass(name=p.name, position=p.position, mass=p.mass * factor) for p in masses
        ),
        line_weight=(metal + coat_mass(boom.diameter, ice)) * factor * STANDARD_GRAVITY,
        line_wind=force * ROUND_DRAG * seen_diameter(boom.diameter, ice),
        presses=(
            *(each.times(force) for each in strung),
            *(
                BoomPress(place=each.position, across=force * each.drag_area(ice=ice))
                for each in mounted.exposed
            ),
        ),
    )


def _bent(
    mounted: MountedBeam,
    boom: Boom,
    clamp: float,
    blow: Blow,
    torque: WindTorque | None,
    site: SiteLoads,
) -> _Bent:
    whole = _whole(mounted, boom, blow.coat)
    loading = _loading(mounted, boom, whole[:-1], blow, site)
    return _Bent(
        weight=mass_of(whole) * STANDARD_GRAVITY,
        arms=boom_arms(
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
        ),
        course=boom_course(boom=boom, clamp=clamp, loading=loading),
        torque=torque,
    )


def _boom_line(
    name: str, boom: Boom, bent: _Bent, blow: Blow, site: SiteLoads, findings: Findings
) -> None:
    what, pressure, ice = f"{name}: boom{blow.suffix}", blow.pressure, blow.coat
    if pressure is None:
        findings.skip(what, blow.missing)
        return
    if not boom.material.yield_strength > 0.0:
        findings.skip(what, f"the yield strength of {boom.material.name} is not known")
        return
    limit = site.alloy_limit(boom.material, walls=(boom.wall,))
    findings.hold(
        name=what,
        demand=max(arm.stress for arm in bent.arms) / 1e6,
        capacity=limit.value / 1e6,
        unit="MPa",
        basis=phrase(
            "{pressure}; {rule}; {dead_text}{more}", pressure=pressure.text, rule=limit.rule,
            dead_text=site.dead_text,
            more="" if ice is None else phrase(", ice too; {ice}", ice=ice.text),
        ),
        change="take a larger or thicker boom, or tie it from above and to the sides",
        part=f"boom of {name}",
        load_kind=pressure.kind,
        limit_kind=limit.kind,
    )  # fmt: skip


def sag_told(arms: tuple[ArmBending, ...], *, above: float | None = None) -> Value | None:
    """Say which arms of a boom sag past a fiftieth of their length, worst first; None if none.

    Args:
        above: mast above the boom; None where it is not looked at [m]
    """
    past = [
        (which, arm)
        for which, arm in zip(("rear", "front"), arms, strict=False)
        if arm.length > 0.0 and arm.sag > SAG_SHARE * arm.length
    ]
    if not past:
        return None
    past.sort(key=lambda one: one[1].sag / one[1].length, reverse=True)
    told = []
    for which, arm in past:
        sag, limit = thickness(arm.sag), thickness(arm.length * SAG_SHARE)
        told.append(phrase("{which} arm {sag}, limit {limit}", which=which, sag=sag, limit=limit))
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


def _torque(
    mounted: MountedBeam, boom: Boom, clamp: float, element_area: float, blow: Blow
) -> WindTorque | None:
    """Wind torque about the mast, from the drag area of the elements; None without wind."""
    if blow.pressure is None:
        return None
    # Of one half: each tube's own, from the boom outwards.
    first = 0.25 * sum(
        seen_diameter(bar.diameter, blow.coat)
        * abs(bar.end[1] * abs(bar.end[1]) - bar.start[1] * abs(bar.start[1]))
        for bar in mounted.tubes
    )
    tubes = wind_torque(
        pressure=blow.force,
        boom_diameter=seen_diameter(boom.diameter, blow.coat),
        arms=boom.arms(clamp),
        element_drag_area=element_area,
        element_first_moment=first,
        offset=boom.offset,
        hardware_first_moment=sum(
            each.drag_area(ice=blow.coat) * (each.position - clamp) for each in mounted.exposed
        ),
    )
    if not mounted.beam.bent:
        return tubes
    frame = frame_torque(strung=mounted.strung, pressure=blow.force, ice=blow.coat, axis=clamp)
    return replace(
        tubes,
        boom=tubes.boom + frame.boom,
        gust_elements=tubes.gust_elements + frame.gust_elements,
        gust_boom=tubes.gust_boom + frame.gust_boom,
        worst=tubes.worst + frame.worst,
    )


def check_boom(
    *, mounted: MountedBeam, report: BeamReport, site: SiteLoads, findings: Findings
) -> BeamReport:
    """Add to a beam's report what its boom makes known, and write its ledger lines."""
    beam, boom = mounted.beam, mounted.boom
    trouble = boom_trouble(beam=beam, boom=boom)
    if boom is None or trouble:
        findings.skip(f"{beam.name}: boom in wind", trouble)
        return report
    whole = _whole(mounted, boom, None)
    balance = balance_point(masses=whole)
    clamp = boom.clamp
    if clamp is None:
        clamp = min(max(balance, boom.rear_end), boom.rear_end + boom.length)
    blows = site.blows(height=report.centre)
    found = []
    for blow, nominal in zip(blows, site.blows(height=report.centre, nominal=True), strict=True):
        area = report.areas(iced=blow.coat is not None).elements.drag
        torque = _torque(mounted, boom, clamp, area, nominal)
        found.append(_bent(mounted, boom, clamp, blow, torque, site))
        _boom_line(beam.name, boom, found[-1], blow, site, findings)
    bare, iced = (*found, _Bent())[:2]
    told = sag_told(bare.arms)
    if told is not None:
        findings.doubt("boom-sag", phrase("{name}: {told}", name=beam.name, told=told))
    check_boom_joints(
        name=beam.name, boom=boom, clamp=clamp, courses=(bare.course, iced.course), blows=blows,
        site=site, findings=findings,
    )  # fmt: skip
    arms = boom.arms(clamp)
    return replace(
        report,
        weight=bare.weight,
        iced_weight=iced.weight,
        balance=balance,
        clamp=clamp,
        inertia=moment_of_inertia(masses=whole[:-1], axis=clamp)
        + boom_inertia(mass=boom.mass, length=boom.length, middle=boom.middle, axis=clamp),
        arms=bare.arms,
        iced_arms=iced.arms,
        torque=bare.torque,
        iced_torque=iced.torque,
        course=bare.course,
        iced_course=iced.course,
        ballast=ballast_for_middle(
            mass=mass_of(whole), balance=balance, middle=boom.middle, ballast_arm=boom.length / 2.0
        ),
        vane_drag_area=vane_drag_area(diameter=boom.diameter, arms=arms, vane_arm=min(arms))
        if min(arms) > 0.0
        else None,
    )
