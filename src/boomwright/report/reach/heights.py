"""What the height of the boom gives and costs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from typing import Any, Final

import numpy as np

from boomwright import charts
from boomwright.base.array_types import Floats
from boomwright.base.quantity import PerSystem, Phrase, Quantity, Value, listed, phrase
from boomwright.base.records import dataclass, replace
from boomwright.reach import COMPARED_RADIALS, LOW_DIPOLE_HEIGHT, Advantage, HopReading
from boomwright.report.model import Column, Picture, Table, column, drawing, thinned
from boomwright.report.reach.curves import curves, front_gain
from boomwright.study.reach_parts.results import BeamReach

#: rows of heights on a terminal
_ROWS: Final = 12
#: one step more, as readers of each system think of it [m]
_METRE, _TEN_FEET = 1.0, 3.048
_LOW: Final = Quantity(LOW_DIPOLE_HEIGHT, "whole length")
_PLAIN_NAMES: Final[dict[str, Value]] = {
    "half-wave dipole at the same height": "dipole, same height",
    "half-wave dipole at 10 m": phrase("dipole at {height}", height=_LOW),
    f"quarter-wave vertical over {COMPARED_RADIALS} radials": (
        f"vertical with {COMPARED_RADIALS} radials"
    ),
}
#: heights are proposed up to this many times the plan's, and where they bring this much
MOST_TIMES: Final = 2.0
WORTH_DB: Final = 0.5
#: what the best height towards each target is headed, targets at most
BEST_HEIGHT: Final = "Best height up to twice the plan's, beam turned to each place"
_MOST_TARGETS: Final = 3
#: heights that a quick look shows
_FEW: Final = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetHeight:
    """The height that gives most towards a target."""

    target: str
    hop: HopReading  #: fewest hops off the highest layer
    height: float  #: best height [m]
    more: float  #: gain over that at the plan's height [dB]
    last: bool  #: whether no greater height was looked at


def target_heights(each: BeamReach) -> Iterator[TargetHeight]:
    """Find the height that gives most towards each target, up to ``MOST_TIMES`` the plan's.

    Gain is the mean of power over the elevations of the hop.
    """
    scan, now = each.scan, each.beam.height
    allowed = scan.heights <= MOST_TIMES * now
    for path in each.paths:
        if path.path.way != "short" or not path.hops or allowed.sum() < 2:
            continue
        hop = path.hops[0].hop
        at = np.linspace(hop.lowest_elevation_deg, hop.highest_elevation_deg, 15)
        power = [10.0 ** (scan.gain_at(elevation_deg=angle) / 10.0) for angle in at]
        gain = 10.0 * np.log10(np.mean(power, axis=0))
        best = int(np.argmax(np.where(allowed, gain, -np.inf)))
        yield TargetHeight(
            target=path.target,
            hop=hop,
            height=float(scan.heights[best]),
            more=float(gain[best] - np.interp(now, scan.heights, gain)),
            last=allowed[best:].sum() == 1,
        )


def best_heights(each: BeamReach) -> Value:
    """Say which height gives most towards each target, and at which elevations.

    Returns:
        empty without a target, or where the beam has one height
    """
    told = []
    for best in islice(target_heights(each), _MOST_TARGETS):
        words = "{target} {height}{up} {more} ({low} to {high}, {hops} by {layer})"
        if best.more < WORTH_DB:
            words = "{target} as planned ({low} to {high}, {hops} by {layer})"
        hops = best.hop.hops
        told.append(
            phrase(
                words,
                target=best.target,
                height=Quantity(best.height, "height"),
                up=" and still rising," if best.last else ",",
                more=Quantity(best.more, "advantage"),
                low=Quantity(best.hop.lowest_elevation_deg, "whole angle"),
                high=Quantity(best.hop.highest_elevation_deg, "whole angle"),
                layer=best.hop.layer.name,
                hops=f"{hops} hop{'' if hops == 1 else 's'}",
            )
        )
    return listed(told, between="; ") if told else ""


def plain_name(name: str) -> Value:
    """Name a plain antenna that the beam is held against."""
    return _PLAIN_NAMES.get(name, name)


def at_angle(angle: float, kind: str = "wanted angle") -> Phrase:
    """Name an elevation.

    Args:
        angle: elevation [deg]
    """
    return phrase("at {angle}", angle=Quantity(angle, kind))


def advantage(over: Advantage) -> Phrase:
    """Write what the beam is worth against a plain antenna."""
    gain, units = Quantity(over.decibels, "advantage"), Quantity(over.s_units, "s units")
    return phrase("{gain} ({units})", gain=gain, units=units)


def step_up(each: BeamReach, words: str, wanted_deg: Sequence[float]) -> PerSystem:
    """Put into words what a metre or ten feet more cost, and bring at some elevations.

    Args:
        words: with places for ``step``, ``height``, ``price`` and ``gains``
        wanted_deg: elevations [deg] (n,)
    """
    height, costs = each.beam.height, each.costs
    gain_at = [(_gain_at(each, angle), at_angle(angle)) for angle in wanted_deg]

    def told(said: str, step: float) -> Phrase:
        price: Value = phrase("not priced, because {reason}", reason=costs.reason)
        if costs.priced:
            more = Quantity(costs.likely_at(height + step) - costs.likely_at(height), "money")
            price = listed([more, costs.currency], between=" ")
            if costs.unpriced:
                price = phrase("{price} and what has no price", price=price)
        gains = [
            listed(
                [Quantity(float(gain(height + step) - gain(height)), "gain change"), at],
                between=" ",
            )
            for gain, at in gain_at
        ]
        own = Quantity(height, "height")
        return phrase(words, step=said, height=own, price=price, gains=listed(gains))

    return PerSystem(metric=told("One metre", _METRE), us=told("Ten feet", _TEN_FEET))


def _gain_at(each: BeamReach, angle: float) -> Callable[[Any], Any]:
    """Gain at an elevation as it follows from the height."""
    gain = each.scan.gain_at(elevation_deg=angle)
    return lambda height: np.interp(height, each.scan.heights, gain)


def _gains(each: BeamReach, heights: Floats) -> tuple[Column[int], ...]:
    """Columns of the gain at each wanted elevation, for numbers of heights."""

    def told(angle: float) -> Column[int]:
        gain = _gain_at(each, angle)(heights)
        return column(at_angle(angle), lambda row: float(gain[row]), kind="gain over ground")

    return tuple(told(angle) for angle in each.wanted_deg)


def height_pictures(each: BeamReach) -> tuple[Picture, ...]:
    """Everything about height."""
    table = _heights(each)

    def scanned(
        name: str, title: str, chart: Callable[..., str], caption: str, **given: Any
    ) -> Picture:
        return Picture(
            name=name,
            title=title,
            group="height",
            draw=drawing(chart, scan=each.scan, **given),
            caption=caption,
            # A terminal prints it once.
            behind=table if name == "heights" else replace(table, rows=0),
        )

    return (
        scanned(
            "heights",
            "Gain at wanted angles against height",
            charts.height_chart,
            "Gain towards the heading at wanted angles against the height of the boom. Dashed: "
            "from there up the pattern has one more lobe.",
            wanted_deg=each.wanted_deg,
        ),
        scanned(
            "height-map",
            "Elevation pattern against height",
            charts.height_map,
            "Elevation patterns side by side, shaded by gain below the strongest. Dots trace the "
            "lobes, dashes the minima.",
        ),
        scanned(
            "lobe-steps",
            "Lobes step by step",
            charts.lobe_steps,
            "The elevation pattern towards the heading as the beam goes up, all to one scale.",
        ),
        *([_costs(each)] if each.costs.priced else []),
        curves(
            "plain-antennas",
            "Gain against plain antennas",
            group="height",
            x=each.scan.elevation_deg,
            lines=antennas(each),
            deepest=35.0,
            caption=phrase(
                "The beam against a half-wave dipole at its height, one at {height}, and a "
                "quarter-wave vertical over {radials} buried radials, all over the same ground.",
                height=_LOW,
                radials=COMPARED_RADIALS,
            ),
        ),
    )


def _heights(each: BeamReach) -> Table[int]:
    scan = each.scan

    def lobes(row: int) -> Value:
        gains = [Quantity(lobe.gain_dbi, "gain over ground") for lobe in scan.lobes[row]]
        angles = [at_angle(lobe.elevation_deg, "angle") for lobe in scan.lobes[row]]
        return listed([listed(pair, between=" ") for pair in zip(gains, angles, strict=True)])

    splits = [
        phrase(
            "From {height:height} up there are {lobes} lobes; the new minimum comes in {at}.",
            height=split.height,
            lobes=split.lobes,
            at=at_angle(split.null_deg, "whole angle"),
        )
        for split in scan.splits
    ]
    return Table(
        name="heights",
        caption="Lobes, minima and gains against height",
        columns=(
            column("height", lambda row: float(scan.heights[row]), kind="height"),
            column("lobes at elevation", lobes, kind="gain over ground"),
            column(
                "minima",
                lambda row: listed([Quantity(null, "angle") for null in scan.nulls_deg[row]]),
                kind="angle",
            ),
            *_gains(each, scan.heights),
        ),
        items=range(len(scan.heights)),
        note=listed(splits, between=" ") if splits else None,
        rows=_ROWS,
    )


def height_brief(each: BeamReach) -> Table[int]:
    """Gain at the wanted elevations for a few heights, all that a quick look shows of them."""
    table = _heights(each)
    columns = (table.columns[0], *table.columns[-len(each.wanted_deg) :])
    own = int(np.abs(each.scan.heights - each.beam.height).argmin())
    few = sorted({*thinned(table.items, _FEW - 1), own})
    return replace(
        table, caption="Gain by height of the boom", columns=columns, items=few, note=None
    )


def _costs(each: BeamReach) -> Picture:
    costs = each.costs
    words = "{step} more than the plan's {height} costs {price} and brings {gains}."
    said = step_up(each, words, each.wanted_deg)
    prices = {name: getattr(costs, name) for name in ("heights", "likely", "low", "high")}
    table = cost_table(each)
    parts: list[Value] = [
        said,
        "The estimate is that of the whole plan by the owner's price list, its support, guys and "
        "line as much longer.",
        *([table.note] if table.note else []),
        "Whether a taller support stands is shown under Structure.",
    ]
    return Picture(
        name="height-costs",
        title="What height gains and costs",
        group="height",
        draw=drawing(
            charts.height_cost_chart,
            scan=each.scan,
            wanted_deg=each.wanted_deg,
            currency=costs.currency,
            description=said,
            **prices,
        ),
        caption=listed(parts, between=" "),
        behind=table,
    )


def cost_table(each: BeamReach) -> Table[int]:
    """Gain and estimate at each height that is priced."""
    costs = each.costs

    def money(head: str, key: str) -> Column[int]:
        told = getattr(costs, key)
        return column(
            f"{head}, {costs.currency}", lambda row: float(told[row]), kind="money", key=key
        )

    def against(row: int) -> Value:
        if abs(costs.heights[row] - each.beam.height) < 1e-9:
            return "the plan"
        more = float(costs.likely[row]) - costs.likely_at(each.beam.height)
        return Quantity(more, "money change")

    lacking = f"Without a price, so not in it: {', '.join(costs.unpriced)}." * bool(costs.unpriced)
    return Table(
        name="height-costs",
        caption="Gain and estimate against height",
        columns=(
            column("height", lambda row: float(costs.heights[row]), kind="height", key="height_m"),
            *_gains(each, costs.heights),
            money("estimate", "likely"),
            money("low", "low"),
            money("high", "high"),
            column("against the plan", against),
        ),
        items=range(len(costs.heights)),
        note=f"{lacking} {costs.lacks}".strip() or None,
        rows=len(costs.heights),
    )


def antennas(each: BeamReach) -> list[tuple[Value, Floats]]:
    """Name and gain over elevation of the beam and of the plain antennas [dBi]."""
    plain = [(plain_name(antenna.name), antenna.cut.gain_dbi) for antenna in each.plain]
    return [("beam", front_gain(each)), *plain]


def height_tables(each: BeamReach) -> tuple[Table[Any], ...]:
    """What the beam is worth against plain antennas, and what off the heading costs."""
    return (_advantages(each), pointing_table(each))


def _advantages(each: BeamReach) -> Table[int]:
    count = len(each.plain)

    def told(place: int, angle: float) -> Column[int]:
        return column(
            at_angle(angle),
            lambda row: advantage(each.advantages[place * count + row]),
            kind="advantage",
        )

    return Table(
        name="advantages",
        group="height",
        caption="Gain over plain antennas at wanted elevations, in brackets S-units of 6 dB",
        columns=(
            column("over", lambda row: plain_name(each.plain[row].name)),
            *(told(place, angle) for place, angle in enumerate(each.wanted_deg)),
        ),
        items=range(count),
        note=f"The vertical stands on the ground, a quarter wave over {COMPARED_RADIALS} buried "
        "radials as long. The loss in soil and radials comes from a simple model: the true loss "
        "may be half of it or twice as much.",
    )


def pointing_table(each: BeamReach) -> Table[Any]:
    """How far off the heading costs how much."""
    at = at_angle(each.take_off_deg, "angle")
    return Table(
        name="pointing",
        group="paths",
        caption=phrase("Off the heading, {at} of elevation", at=at),
        columns=(
            column("loss", lambda loss: loss.loss_db, kind="whole loss", key="loss_db"),
            column("left", lambda loss: loss.left_deg, kind="whole angle", key="left_deg"),
            column("right", lambda loss: loss.right_deg, kind="whole angle", key="right_deg"),
        ),
        items=each.pointing,
    )
