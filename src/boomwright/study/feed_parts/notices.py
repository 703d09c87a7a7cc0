"""Doubts, limits and cautions of the feed."""

from __future__ import annotations

import numpy as np

from boomwright.base import Notice
from boomwright.base.quantity import phrase
from boomwright.feed import FEED_CAUTIONS, FieldMatch
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.study.feed_parts.results import BraidCase, LineResult

#: standing wave ratio above which radios commonly give less power {common-practice-swr-limit}
SWR_LIMIT = 2.0


def feed_notices(
    *,
    plan: Plan,
    beam: Beam,
    used: FieldMatch | None,
    proposed: FieldMatch | None,
    line: LineResult | None,
    cases: tuple[BraidCase, ...],
    extra: tuple[Notice, ...],
) -> tuple[Notice, ...]:
    """Gather everything that is to be said about a beam's feed."""
    found: list[Notice] = []
    if line is not None:
        found += _swr_limit(beam, line)
        if line.rating is not None:
            found += line.rating.notices
    found += _choke_limit(plan, cases)
    if proposed is not None:
        found += proposed.notices
    if used is not None and used is not proposed:
        found += used.notices
    found += extra
    found += _gaps(plan)
    return (*dict.fromkeys(found), *FEED_CAUTIONS)


def _swr_limit(beam: Beam, line: LineResult) -> list[Notice]:
    worst = int(np.argmax(line.shack_swr))
    if line.shack_swr[worst] <= SWR_LIMIT:
        return []
    return [
        Notice(
            code="feed.swr-at-radio",
            text=(
                f"Beam {beam.name}: at {line.frequency[worst] / 1e6:.3f} MHz the radio sees more "
                "than it commonly takes at full power. Take the proposed dimensions, narrow the "
                "band, or count on a tuner and the loss stated."
            ),
            severity="limit",
            value=f"{line.shack_swr[worst]:.2f}",
            limit=f"{SWR_LIMIT:g}",
            source="common-practice-swr-limit",
        )
    ]


def _choke_limit(plan: Plan, cases: tuple[BraidCase, ...]) -> list[Notice]:
    if plan.line is None or plan.line.choke is None:
        return []
    own = [(case, case.own) for case in cases if case.own is not None]
    if not own:
        return []
    case, worst = max(own, key=lambda pair: pair[1].harm_db)
    if worst.harm_db <= 0.1:
        return []
    enough = f"{case.enough:.0f} ohm resistive" if case.enough is not None else "none found"
    return [
        Notice(
            code="feed.choke-too-small",
            text=phrase(
                "With the plan's choke the braid still changes the pattern ({line}). Enough there: "
                "{enough}.",
                line=case.words,
                enough=enough,
            ),
            severity="doubt",
            value=f"{worst.harm_db:.2f} dB",
            limit="0.1 dB",
            source="common-practice-choke",
        )
    ]


def _gaps(plan: Plan) -> list[Notice]:
    found = []
    if plan.line is None:
        found.append(_NO_LINE)
    elif plan.line.choke is None:
        found.append(_NO_CHOKE)
    if plan.transmitter is None:
        found.append(_NO_POWER)
    return found


_NO_LINE = Notice(
    code="feed.no-line",
    text="Line not computed, because the plan has none.",
    how='Write [line] type = "RG-213" and length = "40 m".',
)
_NO_CHOKE = Notice(
    code="feed.no-choke",
    text="No choke in the plan: what it stands was not computed.",
    how="Write its impedance at the design frequency, "
    'choke = ["2000 ohm", "1500 ohm"], under [line].',
)
_NO_POWER = Notice(
    code="feed.no-power",
    text="Voltages, currents and heat not computed, because the plan has no power.",
    how='Write [transmitter] power = "400 W".',
)
