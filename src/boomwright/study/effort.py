"""What an answer will take is told before it is begun; what takes too long is refused."""

from __future__ import annotations

from collections.abc import Iterable

from boomwright.parts import Beam
from boomwright.solver import Ground, beam_effort, refuse_long


def refuse_long_work(
    beams: Iterable[Beam], *, ground: Ground, solutions: int, asked: str, remedy: str
) -> None:
    """Refuse an answer that would take too long.

    Args:
        solutions: times that each beam is solved
        asked: what is asked for, as it follows the number of elements: "at 21 frequencies"
        remedy: what to ask for instead
    """
    every = tuple(beams)
    count = sum(len(beam.elements) for beam in every)
    refuse_long(
        seconds=[
            beam_effort(beam=beam, ground=ground).seconds(solutions=solutions) for beam in every
        ],
        what=f"{count} elements {asked}",
        remedy=remedy,
    )
