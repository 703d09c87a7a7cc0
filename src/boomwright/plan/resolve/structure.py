"""What the structure room needs of a plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any, cast

from boomwright.base import STANDARD_GRAVITY, Notice, made_at
from boomwright.base.quantity import InPlan, Value, phrase, settled
from boomwright.parts import (
    GROUND,
    JOINT,
    MAST,
    MATERIALS,
    TIP_JOINT,
    Assembly,
    Bar,
    Beam,
    BeamFrame,
    Block,
    Element,
    Part,
    TubeKind,
    centre_of,
    element_group,
    element_parts,
    hole_through,
    left_tubes,
    passes_through,
)
from boomwright.plan.doubts import support_notices
from boomwright.plan.faults import key_words, table_named
from boomwright.plan.model import Plan, Site
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.model_support import BasePlan, SupportPlan
from boomwright.plan.model_wind import WindBasisPlan
from boomwright.plan.resolve.assembly import beam_frame, station_assembly
from boomwright.plan.resolve.carried import carried_by
from boomwright.plan.vocabulary import PLAIN_STEEL
from boomwright.structure import (
    EDITIONS,
    JOINT_ROOM,
    MAST_STEELS,
    Boom,
    EnWind,
    IceBasis,
    Mast,
    MountedBeam,
    NominalSpeed,
    PadBase,
    PierBase,
    Rotator,
    SiteWind,
    StatedWind,
    StructureInputs,
    TubeJoint,
    TubeShape,
    TubularSupport,
    UltimateSpeed,
    WindBasis,
    partial_factors,
    recalled,
)


def joints_of(plan: Plan, *, beam: int, index: int, element: Element) -> tuple[TubeJoint, ...]:
    """List the joints of one half of an element that takes the place of another.

    Args:
        beam, index: numbers of the beam and of the element it replaces, from 0
    """
    elements = list(plan.beams[beam].elements)
    elements[index] = element
    frame = beam_frame(plan, replace(plan.beams[beam], elements=tuple(elements)))
    return element_joints(element_parts(frame), frame)[index]


def element_joints(parts: Sequence[Part], frame: BeamFrame) -> tuple[tuple[TubeJoint, ...], ...]:
    """List the joints of one half of every element, in the order of the plan; walls are given.

    Args:
        parts: those of the beam
    """
    found: dict[int, tuple[TubeJoint, ...]] = {}
    halves = left_tubes(parts)
    sleeves = [part for part in parts if part.role == "sleeve"]
    for number, element in enumerate(frame.order, start=1):
        # A bent element is wire in one piece.
        if not element.path and all(section.wall > 0.0 for section in element.half):
            group = element_group(number)
            mine = [part for part in sleeves if part.group == group]
            found[id(element)] = (*_slid_in(halves[group]), *_sleeved(halves[group], mine))
    return tuple(found.get(id(element), ()) for element in frame.beam.elements)


def _slid_in(left: list[Part]) -> list[TubeJoint]:
    """Joints of tubes that sit in the next larger one."""
    joints = []
    for outer, part in pairwise(left):
        if part.cut is not None and part.cut.overlap > 0.0 and outer.cut is not None:
            bar, reach = _bar(part), part.cut.overlap
            hole = next((each for each in part.holes if each.purpose in {JOINT, TIP_JOINT}), None)
            joints.append(
                TubeJoint(
                    name=f"{part.mark} in {outer.mark}", place=bar.start[1] + reach,
                    outer=_shape(outer.cut.kind), inner=_shape(part.cut.kind), reach=reach,
                    hole=0.0 if hole is None else hole.diameter,
                    holes=() if hole is None else tuple(reach - at for at in hole.at
                                                        if at < reach),
                )
            )  # fmt: skip
    return joints


def _sleeved(left: list[Part], sleeves: list[Part]) -> list[TubeJoint]:
    """Joints of tubes that meet on a sleeve."""
    joints = []
    for part in sleeves:
        middle = _bar(part).middle[1]
        outer = next((tube for tube in left if _meets(tube, middle)), None)
        if middle < -1e-9 or outer is None:
            continue
        if part.cut is not None and outer.cut is not None:
            joints.append(
                TubeJoint(
                    name=f"sleeve {part.mark} in {outer.mark}", place=middle, sleeve=True,
                    outer=_shape(outer.cut.kind), inner=_shape(part.cut.kind),
                    reach=0.5 * part.cut.sawn,
                )
            )  # fmt: skip
    return joints


def _meets(tube: Part, place: float) -> bool:
    bar = _bar(tube)
    return min(abs(bar.start[1] - place), abs(bar.end[1] - place)) < 1e-9


def boom_joints(assembly: Assembly, frame: BeamFrame) -> tuple[TubeJoint, ...]:
    """List the joints of a boom, on the beam's x axis."""
    sleeves = [part for part in assembly.of(frame.beam.name, "sleeve") if part.group == "boom"]
    tube = next(iter(assembly.of(frame.beam.name, "boom")), None)
    plates = [(part.name.removesuffix(", element plate"), centre_of(part)[0])
              for part in assembly.of(frame.beam.name, "element plate")]  # fmt: skip
    joints = []
    for part in sleeves:
        if tube is None or tube.cut is None or part.cut is None or tube.cut.kind.wall <= 0.0:
            continue
        reach = 0.5 * part.cut.sawn
        (hole,) = part.holes
        middle = _bar(part).middle[0]
        joints.append(
            TubeJoint(
                name=f"sleeve {part.mark}" + (", assumed" if part.known == "assumed" else ""),
                place=frame.rear + middle, sleeve=True,
                outer=_shape(tube.cut.kind), inner=_shape(part.cut.kind), reach=reach,
                hole=hole.diameter, holes=tuple(sorted({abs(at - reach) for at in hole.at})),
                under=tuple((name, abs(at - middle)) for name, at in plates
                            if abs(at - middle) < JOINT_ROOM),
            )
        )  # fmt: skip
    if tube is not None and tube.cut is not None and tube.cut.kind.wall > 0.0:
        shape = _shape(tube.cut.kind)
        # An element through the boom leaves its tube the wall beside the hole.
        joints += [
            TubeJoint(name=label, place=each.position, outer=shape, inner=shape, reach=0.0,
                      hole=hole_through(each), holes=(0.0,), bored=True)
            for label, each in zip(frame.beam.element_labels, frame.beam.elements, strict=True)
            if passes_through(each)
        ]  # fmt: skip
    return tuple(joints)


def held_half(assembly: Assembly, beam: str) -> float:
    """Half the length along the boom of the plate that holds it; 0 while it has no place [m]."""
    for part in assembly.of(beam, "mast plate"):
        for solid in part.solids:
            if isinstance(solid, Block):
                return 0.5 * solid.size[0]
    return 0.0


def _bar(part: Part) -> Bar:
    (solid,) = part.solids
    if not isinstance(solid, Bar):
        raise TypeError(f"{part.mark} is no tube")
    return solid


def _shape(kind: TubeKind) -> TubeShape:
    return TubeShape(diameter=kind.diameter, wall=0.5 * kind.diameter if kind.is_rod else kind.wall)


#: roles of what sits on the support besides mast and beams
_ON_SUPPORT = ("bearing", "rotator", "shelf", "guy ring")


def _given(**values: Any) -> dict[str, Any]:
    """Keep what the plan says, so that the room's own word for unknown stands for the rest."""
    return {key: value for key, value in values.items() if value not in (None, "")}


def structure_inputs(plan: Plan) -> StructureInputs:
    """Turn a plan into the inputs of the structure room; what it does not say stays None."""
    site, assembly = plan.site, station_assembly(plan)
    beams = tuple(_mounted(plan, beam, assembly) for beam in plan.beams)
    support = plan.stand
    return StructureInputs(
        beams=beams,
        wind=_wind(site),
        ice=_ice(site),
        method=cast(Any, support.method),
        mast=_mast(support, assembly),
        rotator=_rotator(support),
        rings=plan.rings,
        gear_weight=STANDARD_GRAVITY
        * sum(part.mass or 0.0 for part in assembly.of(GROUND, *_ON_SUPPORT)),
        tower=support.tower,
        tube=_tube(support),
        guying=support.guy,
        anchor=support.anchor,
        base=None if support.base is None else _base(support.base),
        base_reactions=support.base_loads,
        soil=support.soil,
        frost_depth=support.frost_depth,
        damping=support.damping,
        sway_hz=support.sway,
    )


#: keys of [site.wind_basis] by the family of codes they belong to, with the name in the plan
_AMERICAN = ("exposure", "topography", "importance")
_EUROPEAN = ("terrain", "orography", "direction", "season", "probability", "air_density")


def structure_notices(plan: Plan) -> tuple[Notice, ...]:
    """Say which given values the structure room cannot use, and why, and what to look at again."""
    return (*_wind_notices(plan.site), *support_notices(plan))


def _wind_notices(site: Site) -> tuple[Notice, ...]:
    basis = site.wind_basis
    if site.wind_speed is None and not basis.pressure:
        return ()
    trouble = _wind_trouble(site)
    if trouble is not None:
        return (trouble,)
    stray = _stray(basis)
    if not stray:
        return ()
    words = ", ".join(map(key_words, stray))
    text = settled(
        f"The basis of the wind holds {words}, which {basis.edition} does not use. Remove what "
        "belongs to another code.",
        "site.wind_basis", *stray,
    )  # fmt: skip
    return (Notice(code="plan.wind-basis-stray", text=text, severity="doubt"),)


def _stray(basis: WindBasisPlan) -> list[str]:
    """Keys that belong to another family of codes than the one named."""
    unused: list[str] = []
    if basis.european or basis.pressure:
        unused += _AMERICAN
    if basis.pressure or not basis.european:
        unused += _EUROPEAN
    if not (basis.european or basis.pressure):
        unused += ["reliability_class", "load_factor", "by"]
    return [key for key in unused if getattr(basis, key) not in (None, "")]


def _wind_trouble(site: Site) -> Notice | None:
    """Why the wind cannot be turned into a pressure; None when it can."""
    basis = site.wind_basis
    if basis.pressure and site.wind_speed is not None:
        text: Value = settled(
            "The plan gives a wind speed and pressures as well. Nothing is checked against wind "
            "until one of them is removed.",
            "site.wind_basis", "pressure",
        )  # fmt: skip
        return Notice(code="plan.wind-given-twice", text=text, severity="doubt")
    needed = _needed(basis)
    missing = [key for key in needed if not getattr(basis, key)]
    if missing:
        text = settled(
            "The wind cannot be turned into a pressure: its basis lacks "
            f"{', '.join(map(key_words, missing))}. Nothing is checked against wind until it is "
            "there.",
            "site.wind_basis", *missing,
        )  # fmt: skip
        return Notice(code="plan.wind-basis-incomplete", text=text, severity="doubt")
    american = not (basis.pressure or basis.european)
    if american and basis.edition not in EDITIONS:
        text = phrase(
            "No rule is known for the wind edition {edition}, so nothing is checked against wind. "
            "Give the peak pressure at its height as your engineer states it{place}, or name "
            "EN 1991-1-4 or one of {editions}.",
            edition=repr(basis.edition), editions=", ".join(EDITIONS),
            place=InPlan("site.wind_basis", ("pressure", "by")),
        )  # fmt: skip
        return Notice(code="plan.wind-edition-unknown", text=text, severity="doubt")
    fitting = _fitting(basis)
    if basis.kind not in fitting:
        text = (
            f"{basis.edition} does not know {basis.kind} wind: its kind is "
            f"{' or '.join(fitting)}. Nothing is checked against wind until they agree."
        )
        return Notice(code="plan.wind-kind-mixed", text=text, severity="doubt")
    return None


def _needed(basis: WindBasisPlan) -> tuple[str, ...]:
    if basis.pressure:
        # Factored pressures without their factor could not stand where none belongs.
        return ("kind", "load_factor") if basis.kind == "design" else ("kind",)
    return ("kind", "edition", "terrain" if basis.european else "exposure")


def _fitting(basis: WindBasisPlan) -> tuple[str, ...]:
    if basis.pressure:
        return ("characteristic", "design")
    return ("characteristic",) if basis.european else ("ultimate", "nominal")


def _wind(site: Site) -> SiteWind | None:
    basis, speed = site.wind_basis, site.wind_speed
    if (speed is None and not basis.pressure) or _wind_trouble(site) is not None:
        return None
    return made_at(
        "site.wind_basis",
        lambda: _site_wind(basis, speed, site.elevation),
        remedy=phrase(
            "let kind, edition and factors of {basis} agree", basis=table_named("site.wind_basis")
        ),
    )


def _site_wind(basis: WindBasisPlan, speed: float | None, elevation: float | None) -> SiteWind:
    factors = partial_factors(
        reliability_class=basis.reliability_class, wind_factor=basis.load_factor
    )
    if basis.pressure or speed is None:
        return StatedWind(
            points=basis.pressure,
            by=basis.by,
            code=basis.edition,
            given_factored=basis.kind == "design",
            factors=factors,
        )
    if basis.european:
        return EnWind(
            basic_speed=speed,
            terrain=cast(Any, basis.terrain),
            factors=factors,
            code=basis.edition,
            **_given(
                orography=basis.orography,
                direction=basis.direction,
                season=basis.season,
                probability=basis.probability,
                air_density=basis.air_density,
            ),
        )
    kind = UltimateSpeed if basis.kind == "ultimate" else NominalSpeed
    return WindBasis(
        speed=kind(gust=speed),
        edition=cast(Any, basis.edition),
        exposure=cast(Any, basis.exposure),
        **_given(
            topography=basis.topography, site_elevation=elevation, importance=basis.importance
        ),
    )


def _ice(site: Site) -> IceBasis | None:
    if site.ice_thickness is None:
        return None
    return IceBasis(
        thickness=site.ice_thickness,
        **_given(
            mapped=site.ice_mapped,
            concurrent_gust=site.ice_gust,
            density=site.ice_density,
            importance=site.ice_importance,
        ),
    )


def _mounted(plan: Plan, beam: Beam, assembly: Assembly) -> MountedBeam:
    boom, frame = plan.boom_of(beam.name), beam_frame(plan, beam)
    axis, made = assembly.carrier(beam.name).axis, None
    if boom is not None:
        made = replace(
            _boom(boom, 0.0 if axis is None else -axis[1]),
            joints=boom_joints(assembly, frame),
            held=held_half(assembly, beam.name),
        )
    joints = element_joints(assembly.of(beam.name), frame)
    return replace(carried_by(assembly, frame), boom=made, joints=joints)


def _boom(boom: BoomPlan, offset: float) -> Boom:
    return Boom(
        diameter=boom.diameter,
        wall=boom.wall,
        length=boom.length,
        rear_end=boom.rear_end,
        material=MATERIALS[boom.material],
        clamp=boom.clamp,
        offset=offset if boom.offset is None else boom.offset,
        tie=boom.tie,
        extra_drag_area=boom.drag_area,
    )


def _metal(material: str, wall: float, certified: float | None) -> dict[str, Any]:
    if material == PLAIN_STEEL:
        return {"steel": True, "yield_strength": certified}
    if material in MAST_STEELS:
        grade = MAST_STEELS[material]
        return {
            "steel": True,
            "yield_strength": certified or grade.yield_strength,
            "yield_known": "" if certified else grade.words,
            "wall_share": grade.wall_share,
        }
    metal = MATERIALS[material]
    return {
        "steel": material == "stainless steel",
        "yield_strength": certified or metal.minimum_yield(wall=wall) or None,
        "ultimate_strength": metal.ultimate_strength,
        "yield_known": recalled(metal.recalled_strength),
        "elastic_modulus": metal.elastic_modulus,
        "density": metal.density,
    }


def _mast(support: SupportPlan, assembly: Assembly) -> Mast | None:
    mast = support.mast
    if mast is None:
        return None
    return Mast(
        diameter=mast.diameter,
        wall=mast.wall,
        bearing_height=mast.bearing,
        top_height=mast.top,
        rotator_below=mast.rotator_below,
        mass=assembly.mass(MAST),
        **_metal(mast.material, mast.wall, mast.yield_strength),
    )


def _tube(support: SupportPlan) -> TubularSupport | None:
    tube = support.tube
    if tube is None:
        return None
    return TubularSupport(
        diameter=tube.diameter,
        wall=tube.wall,
        height=tube.height,
        fixed=not tube.hinged,
        brackets=tube.brackets,
        cage=tube.cage,
        **_metal(tube.material, tube.wall, tube.yield_strength),
    )


def _rotator(support: SupportPlan) -> Rotator | None:
    """The rotator with its size, which stands with the hardware of the support."""
    turned, own = support.rotator, support.hardware
    if turned is None or own is None or own.rotator is None:
        return turned
    across, high = own.rotator
    return replace(turned, size=(across, high))


def _base(base: BasePlan) -> PadBase | PierBase:
    if base.thickness is not None:
        return PadBase(
            side=base.width,
            thickness=base.thickness,
            soil_cover=base.cover,
            stands_out=base.stands_out,
            water_table=base.water_table,
        )
    return PierBase(
        width=base.width, depth=base.depth or 0.0, square=not base.is_round, may_move=base.may_move
    )
