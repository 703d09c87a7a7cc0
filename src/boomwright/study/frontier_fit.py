"""The frontier for an owner's own beam: what its tubes can reach, and a design made of them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from boomwright.base import Fault, PlanError
from boomwright.base.array_types import Floats
from boomwright.design import FrontierPoint, Wish, WishError, band_figures
from boomwright.design.frontier import DIAMETERS_WL, REARS_DB, RESONANCES_WL, cell_targets, short_of
from boomwright.design.minimax import climb
from boomwright.design.setting_up import Setting, set_up
from boomwright.design.shop_grid import on_grid, shop_grid
from boomwright.design.targets import asking_more
from boomwright.parts import MATERIALS, Beam, Element, Feed, Role, TubeSection
from boomwright.plan import QuantityError, band_edges, read_plan
from boomwright.study.found_beam import put_found_beam
from boomwright.study.frontier import FrontierRow, TradeOff, read_trade_off
from boomwright.study.requests import RequestError, read_quantity

#: so much more is demanded of ratio, loss and resistance while fitting: what search and full
#: solver differ by (own trial) [dB]
_MORE_DB = np.array([0.05, 0.04, 0.08])
#: a demand missed by no more than this counts as kept; by no more than that, fitting is repeated,
#: so often at most [dB]
_SLACK_DB, _AGAIN_DB, _FITS = 0.05, 0.7, 3


def fit_point(
    beam: Beam, *, point: FrontierPoint, rear_db: float, boom: float, diameter: float
) -> Beam:
    """Make a design of the frontier of the tubes of a beam.

    Each element is scaled by its own resonance against that of the plain tube of the table;
    then one climb fits the design to the tubes, under the table's own demands.

    Args:
        rear_db: front-to-rear ratio it was asked for, 0 for none [dB]
        boom: longest boom [m]
        diameter: diameter of plain elements that it was read for [m]

    Raises:
        RequestError: when the beam has no element behind its driven one
        WishError: when its tubes cannot be pulled that far
    """
    setting, free = _fitted(beam, point=point, rear_db=rear_db, boom=boom, diameter=diameter)
    after, _ = on_grid(setting=setting, free=free, places=shop_grid(wavelength=beam.wavelength))
    start = min(element.position for element in beam.elements)
    moved = (replace(each, position=each.position + start) for each in after.elements)
    return replace(after, elements=tuple(moved))


def _fitted(
    beam: Beam,
    *,
    point: FrontierPoint,
    rear_db: float,
    boom: float,
    diameter: float,
    more: Floats = _MORE_DB,
) -> tuple[Setting, Floats]:
    """The search problem of a beam's own tubes, and where climbs from a design end."""
    low, high = beam.band
    targets = cell_targets(bandwidth=(high - low) / beam.design_frequency, rear_db=rear_db)
    targets = asking_more(targets, more)
    wish = Wish(targets=targets, boom_limit=boom * (1.0 + 1e-6))
    setting = set_up(beam=beam, wish=wish, count=len(beam.elements))
    if setting.problem.tables.driven != 1:
        raise RequestError(
            "the table's beams have one reflector behind the driven element, this beam has not",
            remedy="search with improve instead",
        )
    wavelength = 2.0 * beam.wavelength * beam.design_frequency / (low + high)
    thick = np.clip(diameter / wavelength, DIAMETERS_WL[0], DIAMETERS_WL[-1])
    own = float(np.interp(np.log(thick), np.log(DIAMETERS_WL), RESONANCES_WL))
    halves = point.half_lengths / own * setting.ground.resonances
    places = point.positions * wavelength
    # As it is, and drawn out over the whole boom; climbed, for scaling alone leaves the match off.
    ended = [
        climb(
            problem=setting.problem,
            start=setting.problem.space.nearest(positions=places * drawn, half_lengths=halves),
        )
        for drawn in (1.0, max(1.0, boom / places[-1]))
    ]
    return setting, max(ended, key=lambda one: one.score).free


def ask_trade_off(
    *, elements: int, boom: str, band: str, diameter: str = "", region: int = 1
) -> TradeOff:
    """Read the trade-off for a request as people write it.

    What the boom asked for reaches is fitted to band and diameter asked for and solved, so that
    each design does what is said of it.

    Args:
        band: amateur band, such as ``20 m``, or two frequencies, such as ``14.0 to 14.35 MHz``
        diameter: diameter of the elements with its unit, or empty

    Raises:
        RequestError: when something cannot be read, or the frontier does not reach there
    """
    made = read_trade_off(
        elements=elements,
        boom=read_quantity(boom, "length", noun="boom"),
        band=_edges(band, region),
        diameter=read_quantity(diameter, "length", noun="diameter") if diameter else None,
    )
    asked: list[FrontierRow] = []
    for row in reversed(made.asked):
        solved = _solved_row(made, row)
        # What keeps a higher demand on the rear keeps this one too.
        if asked and asked[-1].point.kept and asked[-1].point.gain_dbi > solved.point.gain_dbi:
            solved = replace(solved, point=asked[-1].point)
        asked.append(solved)
    return replace(made, asked=tuple(reversed(asked)))


def _solved_row(made: TradeOff, row: FrontierRow) -> FrontierRow:
    """A row whose design is fitted to the very band and diameter, with figures solved."""
    targets = cell_targets(bandwidth=made.band[1] - made.band[0], rear_db=row.rear_db)
    more, solved = _MORE_DB, row
    for _ in range(_FITS):
        solved = _fitted_row(made, row, more)
        point = solved.point
        short = short_of(
            targets=targets,
            front_to_rear_db=point.front_to_rear_db,
            swr=point.swr,
            resistance=point.resistance,
        )
        solved = replace(solved, point=replace(point, kept=bool(short.max() <= _SLACK_DB)))
        if not _SLACK_DB < short.max() < _AGAIN_DB:
            break
        more = more + np.maximum(short, 0.0)
    return solved


def _fitted_row(made: TradeOff, row: FrontierRow, more: Floats) -> FrontierRow:
    """The design of a row fitted while so much more is demanded [dB] (3,)."""
    beam = _plain_beam(made)
    setting, free = _fitted(
        beam, point=row.point, rear_db=row.rear_db, boom=row.boom, diameter=made.diameter, more=more
    )
    places, halves = setting.problem.space.dimensions(free)
    places = np.minimum(places, row.boom)
    elements = (
        replace(each, position=float(place), half=(replace(each.half[0], length=float(half)),))
        for each, place, half in zip(beam.elements, places, halves, strict=True)
    )
    figures = band_figures(
        beam=replace(beam, elements=tuple(elements)), targets=setting.problem.targets
    )
    gain, _, rear, swr = figures.worst
    middle = int(np.argmin(np.abs(figures.frequencies - beam.design_frequency)))
    point = FrontierPoint(
        gain_dbi=gain,
        front_to_rear_db=rear,
        swr=swr,
        resistance=float(figures.impedance[middle].real),
        kept=False,
        positions=places / made.wavelength,
        half_lengths=halves / made.wavelength,
    )
    return replace(row, point=point)


def _plain_beam(made: TradeOff) -> Beam:
    """As many plain elements as asked for, in free space and without loss."""
    tube = TubeSection(diameter=made.diameter, length=0.24 * made.wavelength)
    directors: list[Role] = ["director"] * (made.elements - 2)
    roles: tuple[Role, ...] = ("reflector", "driven", *directors)
    return Beam(
        name="trade-off",
        band=made.band,
        design_frequency=sum(made.band) / 2.0,
        height=0.0,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="hairpin", gap=made.diameter),
        elements=tuple(
            Element(role=role, position=0.2 * number * made.wavelength, half=(tube,))
            for number, role in enumerate(roles)
        ),
    )


def _edges(band: str, region: int) -> tuple[float, float]:
    if " to " in band:
        low_text, high_text = (part.strip() for part in band.split(" to ", 1))
        unit = high_text.split()[-1] if " " in high_text else ""
        low_text = low_text if " " in low_text else f"{low_text} {unit}"
        low = read_quantity(low_text, "frequency", noun="band")
        high = read_quantity(high_text, "frequency", noun="band")
        if not 0.0 < low <= high:
            raise RequestError(
                f"the band runs from high to low ({band})", remedy="write the lower edge first"
            )
        return low, high
    if region not in {1, 2, 3}:
        raise RequestError(f"there is no ITU region {region}", remedy="give 1, 2 or 3")
    try:
        return band_edges(band, region=region)  # type: ignore[arg-type]
    except QuantityError as error:
        raise RequestError(f"band: {error.message} ({band})", remedy=error.remedy) from None


def beam_trade_off(beam: Beam) -> TradeOff:
    """Read what as many elements as a beam has can reach on its band.

    Raises:
        RequestError: when the frontier does not reach there
    """
    diameters = [section.diameter for element in beam.elements for section in element.half]
    # The curves span all booms; the one asked for must only be within them.
    return read_trade_off(
        elements=len(beam.elements),
        boom=max(beam.boom_length, 0.5 * beam.wavelength * len(beam.elements)),
        band=beam.band,
        diameter=sum(diameters) / len(diameters),
    )


def with_trade_off_point(text: str, *, beam: int, curve: int, number: int) -> str:
    """Put a design of the trade-off into a plan, for the owner's own tubing.

    Args:
        curve, number: curve of the trade-off and point along it, from 0

    Raises:
        PlanError: when there is no such point, or the tubes cannot be pulled that far
    """
    try:
        plan = read_plan(text)
        before = plan.beams[beam]
        made = beam_trade_off(before)
        rear = REARS_DB[min(curve, len(REARS_DB) - 1)]
        rows = [row for row in made.curve if row.rear_db == rear]
        if number >= len(rows):
            raise RequestError(
                f"the trade-off has no point {number + 1}", remedy=f"choose one of {len(rows)}"
            )
        row = rows[number]
        after = fit_point(
            before, point=row.point, rear_db=row.rear_db, boom=row.boom, diameter=made.diameter
        )
    except (RequestError, WishError) as error:
        fault = Fault(path=f"beam[{beam}]", message=error.fault, remedy=error.remedy)
        raise PlanError((fault,)) from None
    return put_found_beam(text, plan, before=before, after=after)
