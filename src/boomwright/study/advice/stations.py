"""Candidates: whole stations, each a complete plan, put together for one place."""

from __future__ import annotations

import math
from collections.abc import Iterator

from boomwright.base import SPEED_OF_LIGHT, UnitSystem
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.plan import Plan, band_edges, read_plan, write_plan
from boomwright.plan.bands import Region
from boomwright.plan.forms import restated
from boomwright.plan.model_station import LinePlan, PlacePlan, StandingPlan
from boomwright.plan.model_support import MastPlan, SupportPlan
from boomwright.plan.model_wish import WishPlan
from boomwright.plan.model_work import PricesPlan, RaisingPlan
from boomwright.plan.resolve.variants import taller_plan
from boomwright.structure import HouseBrackets, Rotator
from boomwright.study.advice.antennas import Antenna
from boomwright.study.advice.table import LineRow, ShapeRow, SupportRow, Table

#: a mast ends so far above the boom that its plate clamps it, or below the hub it carries
#: {common-practice-stations} [m]
_ABOVE_BOOM, _BELOW_HUB = 0.4, 0.05
#: a height limit is used up down to this share of the lowest usual height of a support [-]
_LOWEST_SHARE = 0.7
#: least that a tube reaches above its highest bracket {common-practice-stations} [m]
_OVER_BRACKET = 0.3
#: a pole on several brackets begins so far below the lowest one {common-practice-stations} [m]
_UNDER_BRACKET = 0.2
#: half of what is thickest at the middle of a wire antenna, rounded up [m]
_THICK = 0.05
#: from the middle up to the terminals of two dipoles on one feed, rounded up [m]
_TERMINALS = 0.2
#: post of nested hexagons, whose spreaders rise, rounded up [wavelengths of the lowest band]
_POST = 0.08
#: steps of lengths in the ground [m]
_TAPE = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """One antenna of a station to be tried."""

    shape: ShapeRow
    bands: tuple[str, ...]  #: what it is to serve, lowest frequency first (n_bands,)
    above: float = 0.0  #: above the lowest antenna of the station [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A station to be tried: what hangs on what, how high."""

    hung: tuple[Hung, ...]  #: its antennas, the lowest first (n_antennas,)
    support: SupportRow
    height: float  #: middle of its lowest antenna above ground [m]
    owned: str = ""  #: owner's name for a support that stands there, or empty

    @property
    def name(self) -> str:
        """Antennas and support in words; the height stands beside them."""
        return f"{self.antennas} on {self.owned or self.support.kind}"

    @property
    def antennas(self) -> str:
        """Antennas in words, with their bands where there are several antennas."""
        if len(self.hung) == 1:
            return self.hung[0].shape.name
        return " below ".join(
            f"{each.shape.name} for {' and '.join(each.bands)}" for each in self.hung
        )

    @property
    def turns(self) -> bool:
        """Whether a rotator turns it."""
        return any(each.shape.turns for each in self.hung)


def stations(table: Table, place: PlacePlan) -> Iterator[Station]:
    """List the stations worth trying at a place, simplest antenna and lowest support first.

    Each serves every band that is wanted. What stands there already is tried at its own height.
    Heights above the highest part allowed are left out.
    """
    rows = [(row, "") for row in table.support if not row.found]
    rows += [
        (_standing_row(row, each), each.name)
        for each in place.standing
        for row in table.support
        if row.kind == each.kind
    ]
    for hung, suits in _served(table, place):
        for row, owned in rows:
            if row.kind not in suits:
                continue
            for height in _heights(row, hung, place, owned=bool(owned)):
                if place.highest is None or height + hung[-1].above <= place.highest:
                    yield Station(hung=hung, support=row, height=height, owned=owned)


def _served(table: Table, place: PlacePlan) -> Iterator[tuple[tuple[Hung, ...], tuple[str, ...]]]:
    """Antennas that serve every band together, and the supports that suit them."""
    bands = tuple(sorted(place.bands, key=lambda band: band_edges(band, region=place.region)))
    shapes = {shape.name: shape for shape in table.shape}
    for shape in table.shape:
        if shape.serves(len(bands)):
            yield (Hung(shape=shape, bands=bands),), shape.on
    for pair in table.pair:
        if pair.lower not in shapes or pair.upper not in shapes:
            continue
        lower, upper = shapes[pair.lower], shapes[pair.upper]
        for split in range(1, len(bands)):
            below, over = bands[:split], bands[split:]
            if lower.serves(len(below)) and upper.serves(len(over)):
                high = Hung(shape=upper, bands=over, above=pair.apart)
                yield (Hung(shape=lower, bands=below), high), pair.on


def _heights(
    row: SupportRow, hung: tuple[Hung, ...], place: PlacePlan, *, owned: bool
) -> tuple[float, ...]:
    """Heights to try, and where a limit falls among them the one that just keeps it [m].

    Args:
        owned: whether it stands there, at one height
    """
    highest = place.highest
    most = math.inf
    if highest is not None:
        most = math.floor(10.0 * (highest - _rise(hung, place.region))) / 10.0
    if owned and row.plan is None:
        # Ropes hold nothing above the tree they are tied to, and anything below.
        return tuple(min(height - hung[-1].above, most) for height in row.heights)
    if owned or highest is None or row.plan is None or highest >= max(row.heights):
        return row.heights
    brackets = None if row.plan.tube is None else row.plan.tube.brackets
    held = max(brackets.heights) + row.clear + _OVER_BRACKET if brackets is not None else 0.0
    if most < max(held, _LOWEST_SHARE * min(row.heights)):
        return row.heights
    return (*(height for height in row.heights if height < most), most)


def _rise(hung: tuple[Hung, ...], region: Region) -> float:
    """What the station reaches above the middle of its lowest antenna [m]."""
    top = hung[-1]
    if not top.shape.wire:
        return top.above + _ABOVE_BOOM
    if not top.shape.turns or len(top.bands) == 1:
        return top.above + (_TERMINALS if len(top.bands) > 1 else _THICK)
    low, high = band_edges(top.bands[0], region=region)
    return top.above + _THICK + _POST * 2.0 * SPEED_OF_LIGHT / (low + high)


def _standing_row(row: SupportRow, standing: StandingPlan) -> SupportRow:
    """The row of a support that the place has, at its height and of its tube."""
    if row.plan is None or row.plan.tube is None:
        return replace(row, heights=(standing.height + row.clear,), found=False)
    tube, tubes = row.plan.tube, row.tubes
    if standing.diameter is not None and standing.wall is not None:
        tubes = ((standing.diameter, standing.wall),)
    if standing.material:
        tube = replace(tube, material=standing.material)
    if standing.heights:
        foot = standing.foot
        if foot is None and len(standing.heights) > 1:
            foot = round(max(0.0, standing.heights[0] - _UNDER_BRACKET), 3)
        tube = replace(tube, brackets=HouseBrackets(heights=standing.heights, foot=foot or 0.0))
    return replace(
        row, heights=(standing.height + row.clear,), tubes=tubes, plan=replace(row.plan, tube=tube)
    )


def station_plan(
    station: Station,
    antennas: tuple[Antenna, ...],
    *,
    place: Plan,
    table: Table,
    heavier: int = 0,
    system: UnitSystem = "metric",
) -> Plan:
    """Put a station together as a complete plan, as it will be read from its file.

    Args:
        antennas: designed for their heights, in the station's order (n_antennas,)
        place: the place; its own tables go before usual values
        heavier: how many heavier tubes than the lightest carry it
        system: units that its lengths are rounded in
    """
    row = station.support
    beams = [
        _roped(beam, table)
        for hung, antenna in zip(station.hung, antennas, strict=True)
        for beam in antenna.at(row.at + hung.above).beams
    ]
    support = _support(station, antennas[-1], table, heavier=heavier)
    first = Plan(
        title=f"{', '.join(beam.name for beam in beams)}: {station.name}",
        dated=place.dated,
        site=place.site,
        beams=tuple(beams),
        booms=tuple(each.boom for each in antennas if each.boom is not None),
        support=_own_words(support, place.support),
        transmitter=place.transmitter,
        line=place.line or _line(table.line, row.at, turns=station.turns),
        permits=place.permits,
        reach=place.reach,
        prices=_prices(place.prices, owned=bool(station.owned) and support is not None, row=row),
        raising=_raising(station, place.raising),
        place=place.place,
        wish=_wish(place.wish, antennas),
    )
    step = station.height - row.at
    plan = taller_plan(first, step=step) if step else first
    plan = replace(plan, support=None if plan.support is None else _workable(plan.support))
    return read_plan(restated(write_plan(plan), system=system))


def _wish(own: WishPlan | None, antennas: tuple[Antenna, ...]) -> WishPlan | None:
    """The place's own wishes, and the further bands of an antenna that serves several."""
    wish = None if own is None else replace(own, beam="", frozen=())
    for antenna in antennas:
        further = antenna.further_bands
        if further:
            wish = replace(wish or WishPlan(), beam=antenna.beams[0].name, bands=further)
    return wish


def _workable(support: SupportPlan) -> SupportPlan:
    """The support with heights and footings that a tape can measure, none smaller."""
    base, anchor = support.base, support.anchor
    rings = tuple(
        replace(ring, height=round(ring.height, 2), anchor_radius=_up(ring.anchor_radius))
        for ring in support.guy
    )
    if anchor is not None:
        anchor = replace(anchor, length=_up(anchor.length))
    if base is not None:
        depth = None if base.depth is None else _up(base.depth)
        base = replace(base, width=_up(base.width), depth=depth)
    return replace(support, guy=rings, anchor=anchor, base=base)


def _up(length: float) -> float:
    """The next length on a tape [m]."""
    return round(math.ceil(length / _TAPE - 1e-6) * _TAPE, 2)


def _roped(beam: Beam, table: Table) -> Beam:
    """A beam whose ropes, if it hangs on any, are as strong as those to buy."""
    if beam.frame is None or not beam.frame.held:
        return beam
    return replace(beam, frame=replace(beam.frame, rope_strength=table.rope.strength))


def _support(station: Station, top: Antenna, table: Table, *, heavier: int) -> SupportPlan | None:
    """What carries a station, with the mast that its highest antenna needs."""
    row = station.support
    support = row.plan
    if support is None:
        return None
    if support.tube is not None and row.tubes:
        diameter, wall = row.tubes[min(heavier, len(row.tubes) - 1)]
        support = replace(support, tube=replace(support.tube, diameter=diameter, wall=wall))
    if not station.turns:
        return support
    mast, bearing = table.mast, row.at - row.clear
    highest = row.at + station.hung[-1].above
    diameter, wall = mast.tubes[min(heavier, len(mast.tubes) - 1)]
    return replace(
        support,
        mast=MastPlan(
            diameter=diameter,
            wall=wall,
            bearing=bearing,
            top=highest - _BELOW_HUB if top.boom is None else highest + _ABOVE_BOOM,
            material=mast.material,
            rotator_below=mast.rotator_below,
        ),
        rotator=Rotator(place=mast.rotator, turning_gust=mast.turning_gust),
    )


def _own_words(support: SupportPlan | None, own: SupportPlan | None) -> SupportPlan | None:
    """What the place says of soil, frost and its own rotator goes before the usual."""
    if support is None or own is None:
        return support
    rotator = None if support.rotator is None else own.rotator or support.rotator
    return replace(
        support,
        method=own.method,
        damping=own.damping,
        frost_depth=own.frost_depth,
        soil=own.soil,
        rotator=rotator,
    )


def _line(row: LineRow, height: float, *, turns: bool) -> LinePlan:
    return LinePlan(
        line_type=row.type,
        length=height + row.shack,
        connectors=row.connectors,
        choke_cores=row.choke_cores,
        control_cable=height + row.shack if turns else 0.0,
    )


def _prices(own: PricesPlan | None, *, owned: bool, row: SupportRow) -> PricesPlan | None:
    """The place's prices; a support that stands there need not be bought, a machine is hired."""
    if own is None:
        return None
    if owned and "tower" not in own.owned:
        own = replace(own, owned=(*own.owned, "tower"))
    hire = own.hire
    hired = row.raising is not None and row.raising.lift_truck is not None
    if hire is None or hire.lift_truck_days is not None:
        return own
    return replace(own, hire=replace(hire, lift_truck_days=1.0 if hired else 0.0))


def _raising(station: Station, own: RaisingPlan | None) -> RaisingPlan | None:
    """The place's people and answers, with the usual gear of the support where it names none.

    Without people there is no way up to plan: who is there is asked, never guessed.
    """
    row = station.support
    if row.raising is None or own is None:
        return own
    usual = _grown(row.raising, (station.height + station.hung[-1].above) / row.at)
    return replace(
        own,
        haul_line=own.haul_line or usual.haul_line,
        tilt=own.tilt or usual.tilt,
        lift_truck=own.lift_truck or usual.lift_truck,
    )


def _grown(usual: RaisingPlan, grown: float) -> RaisingPlan:
    """Gear for a support that is so many times as high as the one it is for."""
    tilt, truck = usual.tilt, usual.lift_truck
    if tilt is not None:
        tilt = replace(
            tilt,
            line_at=round(tilt.line_at * grown, 2),
            lifter_height=_up(tilt.lifter_height * math.sqrt(grown)),
            winch_distance=_up((tilt.winch_distance or 0.0) * grown) or None,
            operator_out=_up((tilt.operator_out or 0.0) * grown) or None,
        )
    if truck is not None:
        truck = replace(truck, platform_height=_up(truck.platform_height * grown))
    return replace(usual, tilt=tilt, lift_truck=truck)
