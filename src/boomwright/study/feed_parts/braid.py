"""The outside of the line down boom and mast: the ways it is solved for."""

from __future__ import annotations

from boomwright.base import SPEED_OF_LIGHT, Notice, SolverError
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.feed import Braid, FieldSetting, smallest_choke, solve_braid
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.resolve import coax_type, mast_place
from boomwright.solver.ground_coupling import LOWEST_WAVELENGTHS
from boomwright.study.feed_parts.results import BraidCase

#: the pattern shall keep within this of the beam without any braid [dB]
WITHIN_DB = 0.1
#: choking impedances shown besides the plan's own [ohm]
_SHOWN: dict[str, complex] = {
    "bypassed": 0.0,
    "100 ohm": 100.0,
    "500 ohm": 500.0,
    "1 kohm": 1000.0,
    "5 kohm": 5000.0,
}
#: braid and bare mast where the plan gives no line [m]
_USUAL_DIAMETER = 0.010
_USUAL_DROP = 0.10
#: least height above ground of the lower end, as if the line left the mast there by a choke [m]
_ABOVE_GROUND = 0.5


def braid_cases(
    plan: Plan, beam: Beam, *, setting: FieldSetting
) -> tuple[tuple[BraidCase, ...], tuple[Notice, ...]]:
    """Solve the braid as the plan runs it, and at its worst length."""
    if beam.stands_on_ground and beam.radials is not None:
        return (), (_on_ground(beam.radials.count),)
    if len(beam.driven_indices) > 1:
        return (), (_SEVERAL,)
    if beam.post_line is not None:
        return (), (_ON_POST,)
    line, driven = plan.line, beam.elements[beam.driven_index]
    at = driven.position if beam.upright else mast_place(plan, beam)
    notices = [_UPRIGHT if beam.upright else _MODEL]
    if at is None:
        places = [element.position for element in beam.elements]
        at = 0.5 * (min(places) + max(places))
        notices.append(_MAST_GUESSED)
    diameter = (coax_type(line.line_type).outer_diameter if line else 0.0) or _USUAL_DIAMETER
    tube = driven.half[0].diameter
    drop = max(_USUAL_DROP, 2.5 * tube, 2.5 * diameter)
    along = abs(at - driven.position)
    # The solver holds wires over real ground from this many wavelengths up.
    above = max(_ABOVE_GROUND, 1.05 * LOWEST_WAVELENGTHS * SPEED_OF_LIGHT / beam.band[0])
    down = beam.height + driven.corners[0][2] - drop - above
    quarter = beam.wavelength / 4.0
    longest = max(down, quarter) if setting.ground.kind == "free space" else down
    # An open wire of odd quarter waves takes up most current when it is fed at its other end.
    odd = [n * quarter - drop - along for n in range(1, 40, 2)]
    worst = [each for each in odd if max(2.0 * tube, 0.1) < each <= longest]
    runs = []
    if down > 0.3:
        ends = Quantity(above, "sawn length")
        runs.append((phrase("down the mast to {ends} above ground", ends=ends), down))
    if worst:
        nearest = min(worst, key=lambda each: abs(each - down))
        worst_length = Quantity(nearest, "sawn length")
        runs.append((phrase("worst length, {length} down the mast", length=worst_length), nearest))
    own = complex(*line.choke) if line and line.choke else None
    cases = []
    for words, length in runs:
        braid = Braid(diameter=diameter, drop=drop, mast_at=at, down=length)
        try:
            cases.append(_case(words, beam, braid, own=own, setting=setting))
        except SolverError as refusal:
            text = phrase(
                "The braid {words} is not computed: {why}.", words=words, why=refusal.said
            )
            notices.append(Notice(code="feed.braid-not-computed", text=text, severity="doubt"))
    return tuple(cases), tuple(notices)


def _case(
    words: Value, beam: Beam, braid: Braid, *, own: complex | None, setting: FieldSetting
) -> BraidCase:
    solution = solve_braid(beam=beam, braid=braid, setting=setting)
    chokes: dict[str, complex] = _SHOWN if own is None else {**_SHOWN, "plan's choke": own}
    return BraidCase(
        words=words,
        solution=solution,
        readings=tuple(
            (name, solution.reading(choke=complex(size))) for name, size in chokes.items()
        ),
        enough=smallest_choke(solution=solution, within_db=WITHIN_DB),
    )


_MODEL = Notice(
    code="feed.braid-model",
    text="The braid is a wire tied to one half of a split driven element, down boom and mast, open "
    "at its lower end. Boom, mast, guys and a bonded earth also take part on a real tower: "
    "choose the choke for the worst length, with margin.",
    source="common-practice-choke",
)
_SEVERAL = Notice(
    code="feed.braid-several",
    text="Current on the lines' outsides: not modelled where several elements are driven. Put a "
    "choke at each of them.",
)
_ON_POST = Notice(
    code="feed.braid-on-post",
    text="This beam hangs on a line along the post, taken as without loss and without current on "
    "its outside. Put a choke where the line to the radio ends, and see its own beam for the rest.",
)
_UPRIGHT = Notice(
    code="feed.braid-upright",
    text="The braid is a wire tied to the radials at the foot, straight down, open at its lower "
    "end. A metal pole, guys and a bonded earth also take part: choose the choke for the worst "
    "length, with margin.",
    source="common-practice-choke",
)


def _on_ground(count: int) -> Notice:
    """Say what the line of a foot on the ground takes: its share of the return current."""
    text = phrase(
        "The line leaves the foot along the ground as one more radial: without a choke about one "
        "part in {parts} of the feed current flows on its outside there, {share} (all radials "
        "taken alike). Lay it on the ground or bury it, with a choke at the foot and one where it "
        "enters the house.",
        parts=count + 1,
        share=Quantity(1.0 / (count + 1), "share"),
    )
    return Notice(code="feed.braid-on-ground", text=text)


_MAST_GUESSED = Notice(
    code="feed.mast-guessed",
    text="The plan does not say where the mast holds the boom; for the outside of the line it is "
    "taken at the middle of the boom.",
    how='Write clamp = "..." under [beam.boom].',
)
