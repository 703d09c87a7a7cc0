"""``[wish]``: what an improved beam shall do, and what it must not exceed."""

from __future__ import annotations

from boomwright.plan.faults import Place
from boomwright.plan.fields import above_zero, count, entry, flag, from_zero, number, within, words
from boomwright.plan.kinds import Text
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.model_wish import BandPlan, MattersPlan, WishPlan
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.spec import Field, TableSpec, Values
from boomwright.plan.tables.feed import FEED, FEED_EXAMPLE, UNCUT, ask_gap

_COUNT = Number(low=1, high=100, whole=True)
_OHM = Quantity(dimension="resistance", low=0.0, high=1e5)

MATTERS = TableSpec(
    noun="matters",
    model=MattersPlan,
    fields=(
        number("gain", "How much a decibel of gain counts.", low=0.0, high=1000.0, example="1"),
        number("front_to_rear", "How much a decibel of front-to-rear ratio counts.",
               low=0.0, high=1000.0, example="0.2"),
        number("swr", "How much a decibel less lost by reflection counts.",
               low=0.0, high=1000.0, example="1"),
    ),
)  # fmt: skip


_STOCK_EXAMPLE = '[{ diameter = "19 mm", length = "1.83 m", count = 6 }]'
STOCK = TableSpec(
    noun="stock",
    model="design.stock:TubeStock",
    fields=(
        above_zero("diameter", "length", "Outer diameter.", high=1.0, required=True,
                   example="19 mm"),
        above_zero("length", "length", "Length of each tube.", high=50.0, required=True,
                   example="1.83 m"),
        count("count", "How many there are.", least=1, required=True),
        from_zero("wall", "length", "Wall thickness; left out, whatever the beam has.", high=0.1,
                  example="1.5 mm"),
    ),
)  # fmt: skip


def _check_band(values: Values, at: Place) -> None:
    feed = values.get("feed")
    if feed is not None and feed.get("kind") in UNCUT and "gap" not in feed:
        ask_gap(at.child("feed"))
    band, design = values.get("band"), values.get("design")
    if band is None or None in band:
        return
    low, high = band
    if low >= high:
        message = "the band runs from high to low" if low > high else "the band has no width"
        at.child("band").fault(message, remedy="write the lower edge first")
    elif design is not None and not low <= design <= high:
        message = "the design frequency lies outside the band"
        remedy = f'write one within it, such as "{(low + high) / 2e6:.6g} MHz"'
        at.child("design").fault(message, remedy=remedy)


_FREQUENCY = Quantity(dimension="frequency", low=1e4, high=1e11)
_BAND_EXAMPLE = '{ band = ["21.0 MHz", "21.45 MHz"], design = "21.2 MHz", driven = 3 }'
BAND = TableSpec(
    noun="band",
    model=BandPlan,
    check=_check_band,
    fields=(
        Field(key="band", help="Lowest and highest frequency of the further band.", required=True,
              kind=Row(items=(_FREQUENCY, _FREQUENCY), least=2,
                       example='["21.0 MHz", "21.45 MHz"]', names=("lowest", "highest"))),
        entry("design", "Frequency it is matched at.", _FREQUENCY, required=True,
              attribute="design_frequency"),
        count("driven", "Number of the element fed in it, counted from 1 in this plan.", least=1,
              required=True).names("element", 1),
        from_zero("handicap", "ratio in dB", "What this band may fall short of the others in gain.",
                  high=20.0, attribute="handicap_db"),
        entry("feed", "How that element is fed; left out, with the beam's own kind of feed.", FEED,
              example=FEED_EXAMPLE),
    ),
)  # fmt: skip


def _check(values: Values, at: Place) -> None:
    for key in ("elements", "resistance"):
        low_high = values.get(key)
        if low_high and None not in low_high and low_high[0] > low_high[1]:
            message = "the range runs from high to low"
            at.child(key).fault(message, remedy="write the lower one first")
    matters = values.get("matters")
    if matters and None not in matters.values() and not any(matters.values()):
        message = "nothing matters: every weight is 0"
        at.child("matters").fault(message, remedy="give one of them a number above 0")


WISH = TableSpec(
    noun="wish",
    model=WishPlan,
    check=_check,
    fields=(
        words("beam", "Name of the beam it is about; not needed when there is one.",
              longest=64, example="20m").names("beam"),
        entry("elements", "Fewest and most elements.",
              Row(items=(_COUNT, _COUNT), least=2, example="[2, 4]", names=("fewest", "most"))),
        above_zero("boom", "length", "Longest boom.", high=200.0, attribute="boom_length"),
        above_zero("element", "length", "Longest element, tip to tip.", high=200.0,
                   attribute="element_length"),
        within("gain", "gain", "Least gain over the band.", -20.0, 40.0, attribute="gain_dbi"),
        from_zero("front_to_rear", "ratio in dB", "Least front-to-rear ratio over the band.",
                  high=80.0, attribute="front_to_rear_db"),
        above_zero("rear_angle", "angle",
                   "Half angle about the rear the ratio is taken over; left out, all of the "
                   "rear half.", high=1.5708, example="60 deg"),
        number("swr", "Greatest standing wave ratio over the band.", low=1.0, high=20.0,
               example="2"),
        flag("matched", "Whether that counts after a match at the design frequency."),
        from_zero("take_off", "angle", "Elevation at which the gain is wanted.", high=1.5,
                  example="15 deg"),
        above_zero("closest", "length", "Smallest distance of neighbours.", high=200.0),
        flag("even_spacing", "Whether all spacings stay equal."),
        flag("equal_directors", "Whether all directors stay alike."),
        entry("resistance", "Lowest and highest feed resistance at the design frequency.",
              Row(items=(_OHM, _OHM), least=2, example='["20 ohm", "60 ohm"]',
                  names=("lowest", "highest"))),
        above_zero("wind_area", "area", "Largest area that the elements show broadside.",
                   high=100.0, example="0.6 m2"),
        above_zero("mass", "mass", "Largest mass of the elements; every tube needs its wall.",
                   high=10000.0, example="12 kg"),
        number("cost", "Largest cost of the elements' tubes, in the currency of the prices.",
               low=0.0, high=1e9, example="400"),
        entry("stock", "Tubes on hand that elements must be cut from; other kinds can be bought.",
              ListOf(item=STOCK, least=0, most=100, example=_STOCK_EXAMPLE)),
        above_zero("cutting_error", "length",
                   "Error of every half length that the beam must bear: its worst counts.",
                   high=1.0, example="3 mm"),
        entry("matters", "How much each aim counts.", MATTERS),
        entry("frozen", "Places of the plan that must stay as they are.",
              ListOf(item=Text(longest=80), least=0, most=200,
                     example='["beam[0].element[1].length"]')),
        entry("bands", "Further bands that the same boom shall serve, searched all at once.",
              ListOf(item=BAND, least=0, most=8, example=f"[{_BAND_EXAMPLE}]")),
    ),
)  # fmt: skip
