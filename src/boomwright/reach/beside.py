"""What stands beside a beam, what it does to it, and how that is said."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from boomwright.base import Notice
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.parts import Beam, IdleFeed
from boomwright.reach.readings import Beside, BesideFigures
from boomwright.solver import (
    Preparer,
    gain_dbi,
    idle_cases,
    neighbour_reach,
    settled_feeds,
    solve_beam,
    working_detail,
)

#: a gain that changes by less than this by the answer for an idle feed need not be asked about [dB]
_NO_MATTER_DB = 0.02


def read_beside(*, beam: Beam, prepare: Preparer) -> Beside | None:
    """Compute a beam alone, together with its neighbours, and with each answer for their feeds.

    Returns:
        None when nothing stands beside it
    """
    reach = neighbour_reach(beam=beam)
    if not reach:
        return None
    settled = settled_feeds(beam=beam)
    cases = idle_cases(beam=beam)
    answers: tuple[IdleFeed, ...] = ("open", "shorted", "matched")
    counted = {each.name for each in reach if each.counts}
    asked = tuple(
        other.name for other in beam.neighbours if not other.idle_feed and other.name in counted
    )
    alone = _figures(beam.alone, prepare)
    return Beside(
        reach=reach,
        feeds=tuple((other.name, other.idle_feed) for other in settled.neighbours),
        asked=asked,
        alone=alone,
        together=_figures(settled, prepare) if counted else alone,
        answers=tuple(
            (answer, _figures(case, prepare)) for answer, case in zip(answers, cases, strict=True)
        )
        if asked
        else (),
    )


def _figures(beam: Beam, prepare: Preparer) -> BesideFigures:
    solution = solve_beam(
        beam=beam,
        frequencies=np.array([beam.design_frequency]),
        detail=working_detail(frequency=float(max(*beam.band, beam.design_frequency))),
        prepare=prepare,
    )
    ahead, behind = gain_dbi(
        solution=solution, azimuth=np.array([0.0, np.pi]), elevation=np.zeros(2)
    )[0]
    return BesideFigures(
        gain_dbi=float(ahead),
        front_to_back_db=float(ahead - behind),
        impedance=complex(solution.impedance[0]),
    )


def beside_notices(*, beam: Beam, prepare: Preparer) -> tuple[Notice, ...]:
    """Say what stands beside a beam, for those who do not read all of it."""
    beside = read_beside(beam=beam, prepare=prepare)
    return () if beside is None else notices_of(beside)


def notices_of(beside: Beside) -> tuple[Notice, ...]:
    """Say what was computed together, what was left out and why, and what is still to be told."""
    found = []
    counted = [each for each in beside.reach if each.counts]
    if counted:
        names = _listed([_beside(each.name, each.closest) for each in counted])
        found.append(
            Notice(
                code="beside.together",
                text=phrase(
                    "Computed together with {names}. Free-space gain at the design frequency: "
                    "{together}; the beam alone would have {alone}.",
                    names=names,
                    together=Quantity(beside.together.gain_dbi, "gain"),
                    alone=Quantity(beside.alone.gain_dbi, "gain"),
                ),
                severity="note" if beside.loss_db < 1.0 else "doubt",
            )
        )
    if beside.asked and beside.spread_db > _NO_MATTER_DB:
        gains = _listed([f"{name} {one.gain_dbi:.2f} dBi" for name, one in beside.answers])
        found.append(
            Notice(
                code="beside.feed-unsaid",
                severity="doubt",
                text=phrase(
                    "The plan does not say what hangs on the feed of {asked} while this beam is "
                    "in use: {gains}. The figures are those with the least gain.",
                    asked=_listed(beside.asked),
                    gains=gains,
                ),
                how='Write idle_feed = "open", "shorted" or "matched" into its [[beam]].',
            )
        )
    return (*found, *_left_out(beside))


def _left_out(beside: Beside) -> list[Notice]:
    """What is not computed together, and why."""
    found = []
    far = [each for each in beside.reach if not each.in_reach]
    if far:
        most = max(far, key=lambda each: each.share)
        others = f" and {len(far) - 1} more" if len(far) > 1 else ""
        who = f"The strongest of them, {most.name}," if others else "It"
        found.append(
            Notice(
                code="beside.too-far",
                text=(
                    f"Not computed together, because the effect is too small: {most.name}{others}. "
                    f"{who} "
                    f"changes the gain by at most {most.gain_db:.3f} dB."
                ),
            )
        )
    found += [
        Notice(
            code="beside.touches",
            severity="doubt",
            text=f"As drawn, {near.name} runs into this beam, so it is not computed "
            "together with it. Correct heights, or places along the boom.",
        )
        for near in beside.reach
        if near.in_reach and near.touches
    ]
    return found


def _beside(name: str, closest: float) -> Value:
    return phrase("{name}, {closest} away", name=name, closest=Quantity(closest, "clearance"))


def _listed(names: Sequence[Value]) -> Value:
    if len(names) > 4:
        return phrase("{names} and {more} more", names=listed(names[:3]), more=str(len(names) - 3))
    if len(names) == 1:
        return names[0]
    return phrase("{names} and {last}", names=listed(names[:-1]), last=names[-1])
