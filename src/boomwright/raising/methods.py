"""Ways to get the beam up with ropes, each with its verdict, reasons and forces."""

from __future__ import annotations

from typing import Final

from boomwright.base.quantity import phrase, settled
from boomwright.base.records import dataclass
from boomwright.raising.answers import BACK_GUYED, CLEAR_OF_GUYS, TRAINED_RIGGER
from boomwright.raising.job import Capstan, HaulLine, Raising
from boomwright.raising.rigging import (
    GUST_FACTOR,
    HAND_SHOCK,
    KNOT_SHARE,
    breaking_strength_needed,
    gin_pole_forces,
    tram_forces,
    weight,
    wind_force,
)
from boomwright.raising.tackle import JERK, WET_DRUM_FRICTION, capstan_ratio, tackle_pull
from boomwright.raising.weather import WeatherStops
from boomwright.raising.weighing import (
    Force,
    MethodChoice,
    TowerTopLoad,
    Way,
    Weighing,
    need_people,
    tower_top_load,
)
from boomwright.raising.wording import force, span

#: heaviest load that two people haul by hand over a top and a foot block
#: [kg] {common-practice-raising}
HAND_LIMIT: Final = 35.0
#: steady pull that goes with it: more parts in a tackle take more load [N]
HAND_PULL: Final = tackle_pull(load=weight(mass=HAND_LIMIT), parts=1, lead=1)
#: most that one hand holds behind a capstan [N] {common-practice-tackle}
TAIL_PULL: Final = 150.0
#: fewest turns on a capstan {common-practice-tackle}
LEAST_TURNS: Final = 3

_CLIMBERS: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Hauling:
    """The hauling rope of a method."""

    top: float  #: load on the top block, jerks counted [N]
    forces: tuple[Force, ...]  #: strengths it needs


def haulers(line: HaulLine | None) -> int:
    """People at the hauling rope: two by hand, one at a capstan winch {common-practice-raising}."""
    return 1 if line is not None and line.capstan is not None else 2


def kept_strength(marked: float | None, *, knotted: bool) -> float | None:
    """What a rope still holds where it is made fast.

    Args:
        marked: marked breaking strength; None when not known [N]

    Returns:
        breaking strength; None when not known [N]
    """
    return None if marked is None else marked * (KNOT_SHARE if knotted else 1.0)


def hauling(weighing: Weighing, job: Raising, *, line_load: float) -> Hauling:
    """Check rope, blocks and whoever pulls: a tackle at the top, a foot block below.

    Args:
        line_load: what the rope lifts [N]
    """
    line = job.haul_line
    parts, bearing = (1, None) if line is None else (line.parts, line.bearing)
    steady = tackle_pull(load=line_load, parts=parts, lead=1, bearing=bearing)
    pull = HAND_SHOCK * steady
    top = HAND_SHOCK * (line_load + tackle_pull(load=line_load, parts=parts, bearing=bearing))
    rope_needs = breaking_strength_needed(static_load=pull)
    block_needs = breaking_strength_needed(static_load=top)
    knotted = line is not None and line.ends == "knot"
    rope_has = kept_strength(line.breaking_strength if line else None, knotted=knotted)
    block_has = line.block_breaking_strength if line else None
    weighing.least(
        has=rope_has,
        needs=rope_needs,
        unknown="no hauling rope entered with its breaking strength",
        short="hauling rope too weak" + (", a knot counting for half" if knotted else ""),
    )
    if line is not None:
        weighing.least(
            has=block_has,
            needs=block_needs,
            unknown="blocks, shackles or slings without marked strength",
            short="weakest block or shackle too weak",
        )
    forces = [
        Force(name="hauling rope, least breaking strength", value=rope_needs, limit=rope_has),
        Force(name="top block, least breaking strength", value=block_needs, limit=block_has),
    ]
    if line is not None and line.capstan is not None:
        forces += _capstan(weighing, line.capstan, steady=steady)
    else:
        weighing.need(
            steady <= HAND_PULL,
            phrase(
                "a pull of {steady} is over {hand_pull} by hand: a tackle of two or three "
                "parts or a capstan winch takes more",
                steady=force(steady),
                hand_pull=force(HAND_PULL),
            ),
        )
        forces.append(Force(name="pull by hand", value=steady, limit=HAND_PULL))
    return Hauling(top=top, forces=tuple(forces))


def _capstan(weighing: Weighing, winch: Capstan, *, steady: float) -> list[Force]:
    """Hold a capstan winch against the pull; wet rope decides what the hand must hold."""
    pull, bolted = HAND_SHOCK * steady, JERK * steady
    tail = pull / capstan_ratio(turns=winch.turns, friction=WET_DRUM_FRICTION)
    weighing.least(
        has=winch.rated_pull,
        needs=pull,
        unknown="capstan winch without a marked pull",
        short="capstan winch too weak",
    )
    weighing.least(
        has=winch.fastening,
        needs=bolted,
        unknown="what the capstan winch is fastened to: nobody knows what it may take",
        short="fastening of the capstan winch too weak",
    )
    weighing.need(
        winch.turns >= LEAST_TURNS, f"{winch.turns} turns on the capstan, at least {LEAST_TURNS}"
    )
    weighing.need(
        tail <= TAIL_PULL,
        phrase(
            "with wet rope a hand behind the capstan holds {tail}: take more turns",
            tail=force(tail),
        ),
    )
    weighing.notes.append("the capstan hauls loads only: nobody rides on its rope or hangs from it")
    return [
        Force(name="capstan winch, pull", value=pull, limit=winch.rated_pull),
        Force(name="fastening of the capstan winch", value=bolted, limit=winch.fastening),
        Force(name="hand behind the capstan, rope wet", value=tail, limit=TAIL_PULL),
    ]


def _sideways(job: Raising) -> float:
    """Wind on the hanging beam at the hoisting limit, gusts and swing included."""
    speed = WeatherStops().stop_hoist_at
    return wind_force(drag_area=job.load.drag_area, wind_speed=speed, factor=GUST_FACTOR)


def _choice(
    way: Way,
    name: str,
    weighing: Weighing,
    *,
    ground: int,
    top: TowerTopLoad | None = None,
    forces: tuple[Force, ...] = (),
    planned: bool = True,
) -> MethodChoice:
    return MethodChoice(
        way=way,
        name=name,
        verdict=weighing.verdict,
        reasons=weighing.reasons,
        deciding=weighing.deciding,
        forces=forces,
        tower_top=top or TowerTopLoad(vertical=0.0, horizontal=0.0, base_moment=0.0),
        people=(_CLIMBERS, ground),
        answers=tuple(weighing.answers),
        planned=planned,
    )


def _clear_of_guys(weighing: Weighing, job: Raising) -> None:
    if job.guys or (job.clear_of_guys is not None and not job.clear_of_guys.yes):
        weighing.ask(CLEAR_OF_GUYS, job.clear_of_guys)


def hand_line(job: Raising) -> MethodChoice:
    """Haul the beam up on a rope, by hand or with a capstan winch, two climbers at the top."""
    weighing, ground = Weighing(), 3 + haulers(job.haul_line)
    need_people(weighing, job, climbers=_CLIMBERS, ground=ground)
    _clear_of_guys(weighing, job)
    line = hauling(weighing, job, line_load=weight(mass=job.load.mass))
    top = tower_top_load(weighing, job, vertical=line.top, horizontal=_sideways(job))
    weighing.notes.append("two tag lines, one at each end of the boom")
    return _choice(
        "hand line",
        "climbers with a hauling line",
        weighing,
        ground=ground,
        top=top,
        forces=line.forces,
    )


def gin_pole(job: Raising) -> MethodChoice:
    """Haul the beam over the top with a gin pole clamped to the tower."""
    weighing, pole, ground = Weighing(), job.gin_pole, 3 + haulers(job.haul_line)
    need_people(weighing, job, climbers=_CLIMBERS, ground=ground)
    if pole is None:
        weighing.against.append(settled("no gin pole entered", "raising.gin_pole"))
        return _choice("gin pole", "gin pole", weighing, ground=ground, planned=False)
    weighing.ask(TRAINED_RIGGER, job.crew.trained_rigger)
    _clear_of_guys(weighing, job)
    parts = gin_pole_forces(
        load=weight(mass=job.load.mass),
        offset_angle=pole.offset_angle,
        tag_slope=pole.tag_slope,
    )
    weighing.least(
        has=pole.rated_load,
        needs=parts.gross_load,
        unknown="gin pole without a marked rated load",
        short="gin pole too weak for load and tag pull",
    )
    if weighing.known(pole.maximum_overhang is not None, "maker's largest overhang not known"):
        weighing.need(
            pole.overhang <= (pole.maximum_overhang or 0.0),
            phrase(
                "overhang {overhang} is over the maker's {span}",
                overhang=span(pole.overhang),
                span=span(pole.maximum_overhang or 0.0),
            ),
        )
    line = hauling(weighing, job, line_load=parts.hoist_line)
    forces = (
        *line.forces,
        Force(name="gross load on the pole", value=parts.gross_load, limit=pole.rated_load),
        Force(name="pull of the tag line", value=parts.tag_pull),
        Force(name="heel block", value=parts.heel_block),
    )
    top = tower_top_load(
        weighing,
        job,
        vertical=max(line.top, parts.head_block),
        horizontal=parts.tag_pull + _sideways(job),
    )
    return _choice("gin pole", "gin pole", weighing, ground=ground, top=top, forces=forces)


def tram_line(job: Raising) -> MethodChoice:
    """Haul the beam along a tensioned line from a ground anchor, clear of the guys."""
    weighing, tram, ground = Weighing(), job.tram, 4 + haulers(job.haul_line)
    need_people(weighing, job, climbers=_CLIMBERS, ground=ground)
    if tram is None:
        weighing.against.append(settled("no tram line entered", "raising.tram"))
        return _choice("tram", "tram line", weighing, ground=ground, planned=False)
    weighing.ask(TRAINED_RIGGER, job.crew.trained_rigger)
    load = weight(mass=job.load.mass)
    carrier = tram_forces(
        load=load,
        span=tram.span,
        drop=job.lift_height,
        sag=tram.sag,
        line_weight=tram.line_weight,
    )
    needs = breaking_strength_needed(static_load=carrier.tension_top)
    weighing.least(
        has=tram.breaking_strength,
        needs=needs,
        unknown="",
        short="carrier too weak, allow more sag or take a stronger line",
    )
    held = JERK * carrier.tension_anchor
    weighing.least(
        has=tram.anchor,
        needs=held,
        unknown="ground anchor of the tram line: nobody knows what it may take",
        short="ground anchor of the tram line too weak",
    )
    weighing.ask(BACK_GUYED, tram.back_guyed)
    # On the line the hauling rope pulls along a slope; near the top it comes close to the weight.
    line = hauling(weighing, job, line_load=load)
    forces = (
        *line.forces,
        Force(name="carrier, least breaking strength", value=needs, limit=tram.breaking_strength),
        Force(name="pull on the ground anchor", value=held, limit=tram.anchor),
        Force(name="lift on the ground anchor", value=max(0.0, -carrier.vertical_anchor)),
        Force(name="sideways on the ground anchor", value=carrier.horizontal),
    )
    top = tower_top_load(
        weighing, job, vertical=carrier.vertical_top + line.top, horizontal=carrier.horizontal
    )
    return _choice("tram", "tram line", weighing, ground=ground, top=top, forces=forces)
