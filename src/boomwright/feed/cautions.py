"""What can hurt people at the feed, said wherever the feed is shown."""

from __future__ import annotations

from typing import Final

from boomwright.base import Notice

#: cautions of the feed, common practice {common-practice-rf-cautions}
FEED_CAUTIONS: Final[tuple[Notice, ...]] = (
    Notice(
        code="feed.rf-burns",
        text=(
            "Radio-frequency voltage on the feed, the line and the elements burns deeply without "
            "warning. Nobody touches or comes near any of them while anyone could transmit; lock "
            "the transmitter off before work on the antenna."
        ),
        severity="caution",
        source="common-practice-rf-cautions",
    ),
    Notice(
        code="feed.high-voltage",
        text=(
            "Element tips, and a matching capacitor where there is one, can carry kilovolts. "
            "Keep tips out of reach of people and clear of branches and gutters; house a "
            "capacitor, and buy it with the voltage margin given."
        ),
        severity="caution",
        source="common-practice-rf-cautions",
    ),
    Notice(
        code="feed.lightning",
        text=(
            "Bond the mast and the line's shield to earth where the line enters the building, fit "
            "an arrester there, and disconnect and move the line away before thunderstorms come "
            "near. Never connect, disconnect or touch it during one. Local electrical codes and a "
            "licensed electrician decide how earthing is done."
        ),
        severity="caution",
        source="common-practice-rf-cautions",
    ),
)
