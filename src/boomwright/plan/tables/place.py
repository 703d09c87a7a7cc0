"""``[place]``: limits and wishes of a place that has no station yet, and what stands there."""

from __future__ import annotations

from boomwright.base.quantity import phrase
from boomwright.plan.bands import AMATEUR_BANDS, band_edges
from boomwright.plan.faults import Place, written
from boomwright.plan.fields import (
    LONGEST,
    above_zero,
    choice,
    count,
    either_sign,
    entry,
    from_zero,
    tables,
    words,
)
from boomwright.plan.kinds import Parsed
from boomwright.plan.lists import ListOf
from boomwright.plan.model_station import PlacePlan, StandingPlan
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.tables.boom import check_wall, sides
from boomwright.plan.tables.element import WIDEST
from boomwright.plan.tables.support import TUBE_METALS, check_brackets
from boomwright.plan.vocabulary import SUPPORT_KINDS

_LENGTH = Quantity(dimension="length", low=0.0, high=LONGEST, above_low=True)
_BRACKETS_EXAMPLE = '["3.2 m", "5.5 m"]'
_BAND_EXAMPLE = '["20 m"]'


def _band(text: str) -> str:
    """Take a band by its trade name, spelled as the table of bands does."""
    edges = band_edges(text)
    return next(name for name, regions in AMATEUR_BANDS.items() if regions[0] == edges)


def _check_standing(values: Values, at: Place) -> None:
    check_wall(values, at)
    height, brackets = values.get("height"), values.get("brackets") or []
    if values.get("kind") == "house bracket" and "brackets" not in values:
        message = "nothing says where the brackets hold"
        remedy = phrase("add {brackets}", brackets=written("brackets", _BRACKETS_EXAMPLE))
        at.child("brackets").fault(message, remedy=remedy)
    if brackets and height is not None and None not in brackets:
        check_brackets(at.child("brackets"), brackets, foot=values.get("foot") or 0.0, top=height)


STANDING = TableSpec(
    noun="support at hand",
    model=StandingPlan,
    check=_check_standing,
    fields=(
        words("name", "Owner's name for it.", longest=64, required=True, example="house"),
        choice("kind", SUPPORT_KINDS, "kind of support", "What it is.", required=True),
        above_zero("height", "length", "Highest point it offers, above ground.", high=200.0,
                   required=True, example="12 m"),
        entry("brackets", "Where brackets hold it to the house, above ground, upwards.",
              ListOf(item=_LENGTH, most=12, example=_BRACKETS_EXAMPLE), attribute="heights"),
        from_zero("foot", "length", "Lower end of a pole that brackets hold, above ground; left "
                  "out, a hand below the lowest bracket."),
        above_zero("diameter", "length", "Outer diameter at its foot, of a pole or tube.",
                   high=WIDEST, example="60.3 mm"),
        above_zero("wall", "length", "Wall thickness of a pole or tube.", high=WIDEST,
                   example="3.9 mm"),
        choice("material", TUBE_METALS, "metal", "Steel grade or alloy of a pole or tube."),
    ),
)  # fmt: skip


def _check(values: Values, at: Place) -> None:
    bands = values.get("bands") or []
    for index, band in enumerate(bands):
        if band is not None and band in bands[:index]:
            at.child("bands", index).fault(f"{band} is listed twice", remedy="keep it once")


PLACE = TableSpec(
    noun="place",
    model=PlacePlan,
    check=_check,
    fields=(
        entry("bands", "Bands wanted, the most wanted first.",
              ListOf(item=Parsed(parse=_band, example="20 m"), most=len(AMATEUR_BANDS),
                     example=_BAND_EXAMPLE), required=True),
        count("region", "ITU region, for the edges of the bands; left out, region 1.", least=1,
              most=3),
        above_zero("highest", "length", "Highest part that may stand here, above ground.",
                   high=500.0, example="9 m"),
        entry("lot", "Length and width of the clear ground.",
              sides('["24 m", "15 m"]', "length", "width", most=LONGEST)),
        either_sign("least", "ratio in dB", "Least that a station must be worth against a flat "
                    "dipole at 10 m, on average over the targets; left out, 3 dB less.", size=30.0,
                    attribute="least_db", example="0 dB"),
        words("table", "File with shapes and supports of your own, beside the usual ones.",
              longest=200, example="my-stations.toml"),
        tables("standing", "What can carry an antenna already: trees, poles, a tower.",
               STANDING, "place"),
    ),
)  # fmt: skip
