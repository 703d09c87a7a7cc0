"""Ledger lines for the joints of elements and booms, each checked at its own place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import accumulate
from math import hypot

from boomwright.base.quantity import InPlan, Quantity, Value, listed, phrase
from boomwright.base.records import dataclass
from boomwright.parts import Material, TubeSection
from boomwright.structure.beam.boom import Boom, BoomCourse
from boomwright.structure.beam.joints import JOINT_ROOM, TubeJoint, joint_stress
from boomwright.structure.beam.stepped import half_segments, moment_at, weight_loads, wind_loads
from boomwright.structure.beam.tubing import StressLimit
from boomwright.structure.checks.elements import element_label, element_trouble
from boomwright.structure.checks.findings import Blow, Findings, SiteLoads
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.wording import stretch, thickness

#: places nearer than this are one [m]
_SAME_PLACE = 1e-6

_Loaded = tuple[TubeJoint, str, Callable[[float], float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class GoverningJoint:
    """A joint that is closest to its limit."""

    joint: TubeJoint
    of: str  #: what it belongs to
    outer: bool  #: whether its outer tube is closest, not the inner one
    stress: float  #: [Pa]
    limit: StressLimit

    @property
    def use(self) -> float:
        """Stress over limit [-]."""
        return self.stress / self.limit.value


def joint_section(governing: GoverningJoint, half: Sequence[TubeSection]) -> int:
    """Number of the section of an element's half whose wall the governing joint needs, from 0."""
    ends = accumulate(section.length for section in half)
    number = sum(end <= governing.joint.place + _SAME_PLACE for end in ends)
    return min(number, len(half) - 1) - (governing.outer and not governing.joint.sleeve)


def governing_joint(*, mounted: MountedBeam, index: int, site: SiteLoads) -> GoverningJoint | None:
    """The joint of one element that is closest to its limit, bare or iced; None without any."""
    found = []
    for blow in site.blows(height=mounted.beam.height):
        if blow.pressure is not None:
            loaded = _element_loaded(mounted, index, blow, site)
            found += _governing(loaded, mounted.beam.material, site)
    return max(found, key=lambda each: each.use, default=None)


def check_element_joints(*, mounted: MountedBeam, site: SiteLoads, findings: Findings) -> None:
    """Write one line for the joint of a beam's elements that is closest to its limit."""
    beam = mounted.beam
    for blow in site.blows(height=beam.height):
        loaded: list[_Loaded] = []
        unknown, name = "", f"{beam.name}: element joints{blow.suffix}"
        for index, (element, joints) in enumerate(
            zip(beam.elements, mounted.joints, strict=bool(mounted.joints))
        ):
            label = element_label(beam=beam, index=index)
            trouble = element_trouble(element=element, material=beam.material)
            if trouble and not element.bent:
                unknown = unknown or f"{label}: {trouble}"
            if joints and not trouble:
                loaded += _element_loaded(mounted, index, blow, site)
        if loaded and unknown:
            findings.skip(name, unknown)
        elif loaded:
            part = f"element joints of {beam.name}"
            _line(name, loaded, beam.material, blow, site, findings, part=part)


def check_boom_joints(
    *, name: str, boom: Boom, clamp: float, courses: Sequence[BoomCourse | None],
    blows: Sequence[Blow], site: SiteLoads, findings: Findings,
) -> None:  # fmt: skip
    """Write one line for the joint of a boom that is closest to its limit, and name near ones.

    Args:
        clamp: mast clamp on the beam's x axis [m]
        courses: moments along it, bare and with ice (2,)
        blows: wind on it, bare and with ice (n_cases,)
    """
    met = [joint for joint in boom.joints if not joint.bored]
    bored = [joint for joint in boom.joints if joint.bored]
    longer = phrase(
        "take a longer or thicker sleeve{sleeve}, or let the tubes meet further from "
        "the mast clamp{joints}", sleeve=InPlan("beam.boom.hardware", ("sleeve",)),
        joints=InPlan("beam.boom", ("joints",)),
    )  # fmt: skip
    larger = "hold the elements above the boom, or take a larger boom or smaller holes"
    for course, blow in zip(courses, blows, strict=False):
        if course is None:
            continue
        for joints, what, change in (
            (bored, "boom at the holes of its elements", larger),
            (met, "boom joints", longer),
        ):
            loaded = [(joint, name, course.strain) for joint in joints]
            if loaded:
                title = f"{name}: {what}{blow.suffix}"
                _line(title, loaded, boom.material, blow, site, findings, change=change)
    for joint in met:
        _clear_of_clamps(name, joint, boom, clamp, findings)


def _clear_of_clamps(
    name: str, joint: TubeJoint, boom: Boom, clamp: float, findings: Findings
) -> None:
    """Name the clamps that a joint of the boom lies under, the mast's and those of elements."""
    near = [(apart, label, JOINT_ROOM) for label, apart in joint.under]
    apart, room = abs(joint.place - clamp), joint.reach + boom.held
    if apart < room:
        near.insert(0, (apart, "the mast clamp", room))
    if not near:
        return
    apart, nearest, room = near[0]
    findings.doubt(
        "boom-joint-at-clamp",
        phrase(
            "{beam}: the boom's tubes meet under {near}. Its plate sits on the sleeve's bolts"
            "{bends}. Let the tubes meet further out{joints}, and buy a longer tube where it needs "
            "one.", joints=InPlan("beam.boom", ("joints",)),
            beam=name, near=listed([label for _, label, _ in near]),
            bends=", and there the boom bends most" if nearest == "the mast clamp" else "",
        ),
        value=phrase(
            "{apart} from {nearest}, {place} from the rear end",
            apart=stretch(apart), nearest=nearest, place=stretch(joint.place - boom.rear_end),
        ),
        limit=phrase("{room} or more", room=stretch(room)),
    )  # fmt: skip


def _element_loaded(mounted: MountedBeam, index: int, blow: Blow, site: SiteLoads) -> list[_Loaded]:
    """Joints of one element, each with the moment along it."""
    beam = mounted.beam
    segments = half_segments(
        element=beam.elements[index], material=beam.material, beside=mounted.beside(index)
    )
    weight = weight_loads(segments=segments, ice=blow.coat)
    wind = wind_loads(segments=segments, pressure=blow.force, ice=blow.coat)

    def moment(place: float) -> float:
        out = abs(place)
        return hypot(
            site.dead_factor * moment_at(segments=segments, loads=weight, place=out),
            moment_at(segments=segments, loads=wind, place=out),
        )

    label = element_label(beam=beam, index=index)
    return [(joint, label, moment) for joint in mounted.joints[index]]


def _element_change(governing: GoverningJoint) -> Value:
    joint = governing.joint
    if joint.sleeve:
        return phrase(
            "{joint} governs: take a thicker sleeve{wall}, or buy longer tubes{stock}, so that no "
            "sleeve is needed", joint=joint.name, stock=InPlan("prices", ("stock",)),
            wall=InPlan("beam.boom.hardware", ("element_sleeve",)),
        )  # fmt: skip
    if governing.outer:
        return phrase("{joint} governs: take a thicker wall for the outer tube", joint=joint.name)
    return phrase(
        "{joint} governs: take a thicker wall for the inner tube, or let the outer tube reach "
        "further out", joint=joint.name,
    )  # fmt: skip


def _governing(
    loaded: Sequence[_Loaded], material: Material, site: SiteLoads
) -> list[GoverningJoint]:
    """Hold each joint against the limit of the weaker wall of its two tubes."""
    found = []
    for joint, of, moment in loaded:
        stress, outer = joint_stress(joint, moment=moment)
        limit = site.alloy_limit(material, walls=(joint.outer.wall, joint.inner.wall))
        found.append(GoverningJoint(joint=joint, of=of, outer=outer, stress=stress, limit=limit))
    return found


def _line(
    name: str,
    loaded: Sequence[_Loaded],
    material: Material,
    blow: Blow,
    site: SiteLoads,
    findings: Findings,
    change: Value | None = None,
    part: str = "",
) -> None:
    """Write one line; no change given stands for what helps the joint that governs."""
    pressure, coat = blow.pressure, blow.coat
    if pressure is None:
        findings.skip(name, blow.missing)
        return
    if not material.yield_strength > 0.0:
        findings.skip(name, f"the yield strength of {material.name} is not known")
        return
    worst = max(_governing(loaded, material, site), key=lambda each: each.use)
    joint, of, limit = worst.joint, worst.of, worst.limit
    findings.hold(
        name=name,
        demand=worst.stress / 1e6,
        capacity=limit.value / 1e6,
        unit="MPa",
        basis=phrase(
            "{pressure}; {rule}; {dead}{ice}; {of}: {joint}, {inner} x {wall}{outer}{holes}",
            pressure=pressure.text, rule=limit.rule, dead=site.dead_text,
            ice="" if coat is None else phrase(", ice too; {ice}", ice=coat.text),
            of=of, joint=joint.name, inner=thickness(joint.inner.diameter),
            wall=Quantity(joint.inner.wall, "wall"), outer="" if joint.bored
            else phrase(" in {outer}", outer=thickness(joint.outer.diameter)),
            holes=phrase(", holes of {hole} counted", hole=thickness(joint.hole))
            if joint.holes else "",
        ),
        change=_element_change(worst) if change is None else change,
        part=part,
        load_kind=pressure.kind,
        limit_kind=limit.kind,
    )  # fmt: skip
