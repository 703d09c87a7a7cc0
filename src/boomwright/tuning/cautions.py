"""What can hurt people while tuning, said wherever advice on tuning is shown."""

from __future__ import annotations

from typing import Final

from boomwright.base import Notice

#: cautions of tuning, common practice {common-practice-tuning-cautions}
TUNING_CAUTIONS: Final[tuple[Notice, ...]] = (
    Notice(
        code="tuning.work-at-height",
        text=(
            "Bring the antenna down to move its tips where that can be done; work up the tower is "
            "for people trained and equipped for it, never alone, never under a raised load, with "
            "the weather limits, power lines and local rules of the Raising sheet."
        ),
        severity="caution",
        source="common-practice-tuning-cautions",
    ),
    Notice(
        code="tuning.transmitter-off",
        text=(
            "Lock the transmitter off while anyone is at the antenna: elements and match burn "
            "under power. Measure with the meter's own milliwatts only, and take the meter off "
            "the line before transmitting and before thunderstorms come near."
        ),
        severity="caution",
        source="common-practice-tuning-cautions",
    ),
)
