"""Values that Reach proposes for the plan: where to turn, how high to hang it, how much power."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.report.model import Offered
from boomwright.report.reach.heights import MOST_TIMES, WORTH_DB, target_heights
from boomwright.report.wording import clean
from boomwright.study.reach_parts.results import BeamReach, ReachResult

#: turning is proposed where it brings this much
_WORTH_TURNING_DB = 0.1


def reach_offers(result: ReachResult, each: BeamReach, *, number: int) -> tuple[Offered, ...]:
    """Propose what would help, most pressing first."""
    return (*_power(result, each), *_headings(each, number), *_height(each, number))


def _power(result: ReachResult, each: BeamReach) -> list[Offered]:
    """Power at which every limit of the people there is kept."""
    sender = result.plan.transmitter
    if each.exposure is None or sender is None:
        return []
    worst = max((check for check in each.exposure.checks if check.applies),
                key=lambda check: check.governing, default=None)  # fmt: skip
    if worst is None or worst.governing <= 1.0:
        return []
    # Exposure goes with power; rounded down to two figures.
    power = sender.power / worst.governing
    step = 10.0 ** (math.floor(math.log10(power)) - 1)
    kept = math.floor(power / step) * step
    words = "transmit with {:power} instead of {:power}, which keeps the limit at {}"
    text = phrase(words, kept, sender.power, clean(worst.place.place))
    return [Offered(text=text, place="transmitter.power", value=f"{kept:g} W")]


def _headings(each: BeamReach, number: int) -> list[Offered]:
    """Headings to the targets, the short way."""
    return [
        Offered(
            text=phrase(
                "turn the beam to {:angle} true for {}, worth {:advantage} towards it",
                path.path.bearing_deg,
                clean(path.target),
                path.off_heading_db,
            ),
            place=f"beam[{number}].heading",
            value=f"{path.path.bearing_deg:.1f} deg",
        )
        for path in each.paths
        if path.path.way == "short" and path.off_heading_db >= _WORTH_TURNING_DB
    ]


def _height(each: BeamReach, number: int) -> list[Offered]:
    """The height that gives most towards the targets, or at the lowest wanted angle without any."""
    found = list(target_heights(each))
    if found:
        height = max(found, key=lambda best: best.more).height
        gains = [
            phrase("{:advantage} towards {}", best.more, clean(best.target))
            for best in found
            if best.height == height and best.more >= WORTH_DB
        ]
        return [_hung(height, listed(gains), number)] if gains else []
    if not each.wanted_deg:
        return []
    angle, scan, now = min(each.wanted_deg), each.scan, each.beam.height
    gains_at = scan.gain_at(elevation_deg=angle)
    allowed = scan.heights <= MOST_TIMES * now
    if not allowed.any():
        return []
    best = int(np.argmax(np.where(allowed, gains_at, -np.inf)))
    more = float(gains_at[best] - np.interp(now, scan.heights, gains_at))
    if more < WORTH_DB:
        return []
    gain = phrase("{:advantage} at {:wanted angle}", more, angle)
    return [_hung(float(scan.heights[best]), gain, number)]


def _hung(height: float, gain: Value, number: int) -> Offered:
    text = phrase(
        "hang the boom at {height:height}, the best up to twice the plan's height: {gain}; "
        "structure and cost change with it",
        height=height,
        gain=gain,
    )
    return Offered(text=text, place=f"beam[{number}].height", value=Quantity(height, "height"))
