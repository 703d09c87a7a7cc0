"""``[prices]``: price list, currency, budget, tax, stock lengths, freight and hire."""

from __future__ import annotations

import re

from boomwright.plan.faults import Place
from boomwright.plan.fields import above_zero, count, entry, from_zero, number, words
from boomwright.plan.kinds import Choice, Parsed
from boomwright.plan.lists import ListOf
from boomwright.plan.model_work import PricesPlan
from boomwright.plan.numbers import Quantity
from boomwright.plan.quantity import QuantityError
from boomwright.plan.spec import TableSpec, Values

_CURRENCY = re.compile(r"[A-Z]{3}")
#: what an owner may have already
OWNED = ("tower", "mast", "rotator", "ring", "guys", "footing", "line")


def _currency(text: str) -> str:
    code = text.strip().upper()
    if _CURRENCY.fullmatch(code) is None:
        message = "this is not a three-letter currency code"
        raise QuantityError(message, 'write the three letters of ISO 4217, such as "EUR"')
    return code


HIRE = TableSpec(
    noun="hire",
    model="cost.services:Services",
    fields=(
        count("deliveries", "Deliveries to pay freight for; 0 where all is fetched."),
        number(
            "lift_truck_days",
            "Days of a lift truck; 0 where none comes.",
            low=0.0,
            high=366.0,
            example="1",
        ),
        number(
            "crane_days",
            "Days of a crane with its operator; 0 for none.",
            low=0.0,
            high=366.0,
            example="0.5",
        ),
        number(
            "climber_days", "Days of a trained climbing crew.", low=0.0, high=366.0, example="1"
        ),
        count("permits", "Permits and notices to pay for; 0 where none is."),
        count("engineer_stamps", "Drawings an engineer stamps; 0 where none is asked."),
        number(
            "insurance_years", "Years of insurance counted in.", low=0.0, high=100.0, example="1"
        ),
        from_zero("own_time", "time", "Owner's own time; it is listed, not priced.", high=1e8),
    ),
)


def _check(values: Values, at: Place) -> None:
    owned = values.get("owned") or []
    for index, item in enumerate(owned):
        if item is not None and item in owned[:index]:
            at.child("owned", index).fault(f"{item} is listed twice", remedy="keep it once")


PRICES = TableSpec(
    noun="prices",
    model=PricesPlan,
    check=_check,
    fields=(
        words("list", "File with the price list.", attribute="price_list", example="prices.csv"),
        entry("currency", "Currency of all sums.",
              Parsed(parse=_currency, example="EUR", pattern=r"^\s*[A-Za-z]{3}\s*$"),
              required=True),
        number("budget", "Budget in that currency.", low=0.0, high=1e9, example="3000"),
        from_zero("contingency", "ratio", "Share added to the likely sum.", high=1.0,
                  example="10 %").usually("10 %"),
        from_zero("tax", "ratio",
                  "Tax on top of the prices, as a share; 0 where the prices hold it.", high=1.0,
                  example="8 %"),
        from_zero("concrete_minimum", "volume", "Least volume of concrete that is delivered; 0 "
                  "where it is mixed by hand.", high=1000.0),
        above_zero("old_after", "time", "Age at which a price is flagged.", high=1e9,
                   example="180 d").usually("180 d"),
        entry("stock", "Lengths of tube that can be bought.",
              ListOf(item=Quantity(dimension="length", low=0.1, high=30.0), most=20,
                     example='["6 m", "12 ft"]')).usually("6 m"),
        from_zero("kerf", "length", "Length lost in a saw cut.", high=0.02,
                  example="3 mm").usually("3 mm"),
        above_zero("overlap", "length", "Least length of a tube inside the next larger one.",
                   high=2.0, example="100 mm"),
        entry("owned", "What is there already and need not be bought.",
              ListOf(item=Choice(options=OWNED, noun="owned part"), most=len(OWNED),
                     example='["tower", "rotator"]')),
        entry("hire", "Freight, machines, people and papers to pay for.", HIRE),
    ),
)  # fmt: skip
