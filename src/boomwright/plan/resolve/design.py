"""What the design room needs of a plan: what is wanted, and what it must keep to."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from boomwright.base import place_error
from boomwright.base.quantity import phrase
from boomwright.cost import DEFAULT_STOCK, Price
from boomwright.cost.prices import listed_price, price_key
from boomwright.design import BandUse, Targets, Tips, TubePrice, Wish
from boomwright.design.frontier import LEAST_RESISTANCE, MOST_SWR
from boomwright.parts import Beam, Feed, Joints, TubeKind
from boomwright.plan.faults import split_path, table_named
from boomwright.plan.layout import Path
from boomwright.plan.model import Plan
from boomwright.plan.model_wish import MattersPlan, WishPlan
from boomwright.plan.model_work import PricesPlan
from boomwright.plan.resolve.places import beam_named

#: what counts when the plan does not say {common-practice-usual-wishes}
USUAL_MATTERS = MattersPlan(gain=1.0, front_to_rear=0.1)


def wished_beam(plan: Plan) -> Beam:
    """Beam that the wishes are about."""
    return beam_named(plan, plan.wish.beam if plan.wish else "")


def design_targets(plan: Plan) -> Targets:
    """Turn wishes into targets; what they do not say is taken as usual.

    Usual is what most owners want of a beam: gain first, a decibel of it worth ten of front-to-rear
    ratio; a standing wave ratio of 2 at most over the band; 12.5 ohm or more at the feed
    {common-practice-usual-wishes}.
    """
    wish = plan.wish or WishPlan()
    weights = wish.matters or USUAL_MATTERS
    given: dict[str, Any] = {
        "least_gain_dbi": wish.gain_dbi,
        "least_front_to_rear_db": wish.front_to_rear_db,
        "rear_from": None if wish.rear_angle is None else math.pi - wish.rear_angle,
        "take_off": wish.take_off,
    }
    return Targets(
        gain_weight=weights.gain,
        rear_weight=weights.front_to_rear,
        match_weight=weights.swr,
        most_swr=MOST_SWR if wish.swr is None else wish.swr,
        match="matched" if wish.matched or wish.swr is None else "direct",
        resistance=wish.resistance or (LEAST_RESISTANCE, math.inf),
        **{key: value for key, value in given.items() if value is not None},
    )


def usual_wishes(plan: Plan) -> tuple[str, ...]:
    """Say which wishes were taken as usual because the plan does not speak of them, if any."""
    wish = plan.wish or WishPlan()
    said = (
        (
            wish.matters,
            f"gain counts, and front-to-rear ratio by {USUAL_MATTERS.front_to_rear:g} dB a decibel",
        ),
        (wish.swr, f"an SWR of {MOST_SWR:g} at most over the band, match in place"),
        (wish.resistance, f"{LEAST_RESISTANCE:g} ohm or more at the feed"),
        (wish.boom_length, "no longer boom than now"),
        (wish.elements, "as many elements as now"),
    )
    return tuple(words for value, words in said if value is None)


def frozen_places(plan: Plan) -> tuple[Path, ...]:
    """Places of the plan that a search must leave alone."""
    texts = plan.wish.frozen if plan.wish else ()
    paths = (split_path(text) for text in texts)
    return tuple(path for path in paths if path is not None)


def design_wish(plan: Plan, *, prices: tuple[Price, ...] = ()) -> Wish:
    """Turn a plan's wishes into the wish of a search; what they do not say is taken as usual.

    Returns:
        what is wanted and what stays; its numbers of elements count along the boom
    """
    kept_places, kept_lengths = _kept(plan)
    wish = plan.wish or WishPlan()
    thickest = max(
        (one.diameter for element in wished_beam(plan).elements for one in element.half[1:]),
        default=0.0,
    )
    given = plan.prices.overlap if plan.prices is not None else None
    joints = Joints() if given is None else Joints(least_overlap=given)
    return Wish(
        targets=design_targets(plan),
        elements=wish.elements,
        boom_limit=wish.boom_length,
        closest=wish.closest,
        longest_element=wish.element_length,
        even=wish.even_spacing,
        even_directors=wish.equal_directors,
        keep_positions=kept_places,
        keep_lengths=kept_lengths,
        tips=Tips(overlap=joints.overlap(thickest)),
        most_wind_area=wish.wind_area,
        most_mass=wish.mass,
        most_cost=wish.cost,
        tube_prices=() if wish.cost is None else _tube_prices(plan, prices),
        stock=wish.stock,
        length_error=wish.cutting_error or 0.0,
    )


def _tube_prices(plan: Plan, prices: tuple[Price, ...]) -> tuple[TubePrice, ...]:
    """Cheapest likely price of a metre of each tube in the wished beam, from the owner's list."""
    paid = plan.prices or PricesPlan(currency="")
    beam = wished_beam(plan)
    listed = {price_key(one.item, one.unit): one for one in prices}
    found = []
    for section in {(one.diameter, one.wall) for each in beam.elements for one in each.half}:
        kind = TubeKind(material=beam.material.name, diameter=section[0], wall=section[1])
        per_metre = [
            found_price[0].likely / length
            for length in paid.stock or DEFAULT_STOCK
            if (found_price := listed_price(listed, kind.stock(length), "length"))
            and found_price[0].currency == paid.currency
        ]
        if not per_metre:
            lengths = " or ".join(f"{length:.3f} m" for length in paid.stock or DEFAULT_STOCK)
            currency = paid.currency or "a currency"
            raise place_error(
                "wish.cost",
                f"the price list has no price in {currency} for {kind.name}, {lengths}",
                remedy=phrase(
                    "add one to the price list named in {prices}, or take the cost out",
                    prices=table_named("prices"),
                ),
            )
        found.append(TubePrice(diameter=section[0], wall=section[1], per_metre=min(per_metre)))
    return tuple(sorted(found, key=lambda one: one.diameter))


def boom_order(beam: Beam) -> tuple[int, ...]:
    """Plan's element numbers in the order along the boom, which searches count by."""
    places = [element.position for element in beam.elements]
    return tuple(sorted(range(len(places)), key=places.__getitem__))


def _kept(plan: Plan) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Elements, counted along the boom, that keep place and length."""
    beam = wished_beam(plan)
    number, order = plan.beams.index(beam), boom_order(beam)
    places: set[int] = set()
    lengths: set[int] = set()
    for text, path in zip(plan.wish.frozen if plan.wish else (), frozen_places(plan), strict=True):
        # What lies outside the elements of this beam no search touches anyway.
        if path not in {("beam",), ("beam", number)} and path[:3] != ("beam", number, "element"):
            continue
        if len(path) > 3 and path[3] not in order:
            remedy = f"count its elements from 0 to {len(order) - 1}"
            message = f"beam {beam.name} has no such element"
            raise place_error("wish.frozen", message, remedy=remedy, value=text)
        found = set(range(len(order))) if len(path) < 4 else {order.index(int(path[3]))}
        part = path[4] if len(path) > 4 else None
        places |= found if part in {None, "at"} else set()
        lengths |= found if part in {None, "length", "half"} else set()
    return tuple(sorted(places)), tuple(sorted(lengths))


def band_uses(plan: Plan) -> tuple[BandUse, ...]:
    """List the bands that the wished beam shall serve.

    Raises:
        PlanError: no such beam, or a band fed at an element that it does not have
    """
    beam = wished_beam(plan)
    order = boom_order(beam)
    driven = order.index(beam.driven_index)
    uses = [BandUse(band=beam.band, design_frequency=beam.design_frequency, driven=driven)]
    for number, one in enumerate(plan.wish.bands if plan.wish else ()):
        if one.driven > len(order):
            path, remedy = f"wish.bands[{number}].driven", f"write a number from 1 to {len(order)}"
            message = f"beam {beam.name} has {len(order)} elements"
            raise place_error(path, message, remedy=remedy, value=str(one.driven))
        uses.append(
            BandUse(
                band=one.band,
                design_frequency=one.design_frequency,
                driven=order.index(one.driven - 1),
                handicap_db=one.handicap_db,
            )
        )
    return tuple(uses)


def served_beams(plan: Plan) -> tuple[Beam, ...]:
    """The wished beam as each of its bands uses it and feeds it, its own band first (n_bands,)."""
    beam, wish = wished_beam(plan), plan.wish
    feeds = [beam.feed, *(band.feed or _uncut(beam.feed) for band in (wish.bands if wish else ()))]
    order = boom_order(beam)
    return tuple(
        _served(beam, use, order[use.driven], feed)
        for use, feed in zip(band_uses(plan), feeds, strict=True)
    )


def _uncut(feed: Feed) -> Feed:
    """The same kind of match and material, with no dimension that belongs to one band."""
    return replace(
        feed,
        rod_length=None,
        capacitance=None,
        inductance=None,
        section_impedance=None,
        section_length=None,
        stub_length=None,
    )


def _served(beam: Beam, use: BandUse, driven: int, feed: Feed) -> Beam:
    """The array with one element driven and all others idle, in the order of the plan."""
    fed_at = beam.elements[driven].position
    elements = [
        replace(each, role="reflector" if each.position < fed_at else "director")
        for each in beam.elements
    ]
    elements[driven] = replace(elements[driven], role="driven")
    return replace(
        beam,
        band=use.band,
        design_frequency=use.design_frequency,
        feed=feed,
        elements=tuple(elements),
    )
