"""``[site]``: where the station stands, its ground, wind and ice."""

from __future__ import annotations

from itertools import pairwise

from boomwright.plan.building import build_table, build_value
from boomwright.plan.directions import (
    LOCATOR_EXAMPLE,
    checked_locator,
    locator_centre,
    locator_square,
)
from boomwright.plan.faults import Place
from boomwright.plan.fields import (
    above_zero,
    choice,
    count,
    entry,
    flag,
    from_zero,
    number,
    within,
    words,
)
from boomwright.plan.kinds import Choice, Parsed
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.model import Site
from boomwright.plan.model_wind import WindBasisPlan
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import NameOrTable, TableSpec, Values
from boomwright.plan.tables.permits import ELEVATION, POSITION
from boomwright.plan.vocabulary import EXPOSURES, SPEED_KINDS, TERRAINS
from boomwright.solver import GROUND_CLASSES, Ground

_GROUND_EXAMPLE = 'ground = "medium dry"'

GROUND = TableSpec(
    noun="ground",
    model=Ground,
    always=(("kind", "real"),),
    fields=(
        number("permittivity", "Relative permittivity of the ground.", low=1.0, high=100.0,
               required=True, example="15"),
        from_zero("conductivity", "conductivity", "Conductivity of the ground.", high=20.0,
                  required=True, example="1 mS/m"),
    ),
)  # fmt: skip

#: the ground by its class or its constants
GROUND_FIELD = entry(
    "ground",
    "Ground below the antennas: a class, or its two constants.",
    NameOrTable(
        name=Choice(options=tuple(GROUND_CLASSES), noun="ground"),
        table=GROUND,
        named="solver:GROUND_CLASSES",
    ),
    required=True,
    example=_GROUND_EXAMPLE,
)

_PRESSURE = Row(
    items=(
        Quantity(dimension="length", low=0.0, high=500.0),
        Quantity(dimension="pressure", low=0.0, high=20e3, above_low=True),
    ),
    least=2,
    example='["15 m", "0.95 kPa"]',
    names=("height", "peak pressure"),
)
_PRESSURES = '[["6 m", "0.75 kPa"], ["15 m", "0.95 kPa"]]'


def _check_wind_basis(values: Values, at: Place) -> None:
    points = values.get("pressure") or []
    heights = [point[0] for point in points if point is not None]
    if None not in heights and any(high <= low for low, high in pairwise(heights)):
        remedy = f"write the lowest height first: {_PRESSURES}"
        at.child("pressure").fault("the heights of the pressures do not rise", remedy=remedy)
    if points and not ("by" in values and "edition" in values):
        key = "edition" if "by" in values else "by"
        message = "pressures stand here but not who gave them, or by which code"
        example = "SIA 261" if key == "edition" else "name of the engineer, 2026-03-01"
        at.child(key).fault(message, remedy=f'add {key} = "{example}"')


WIND_BASIS = TableSpec(
    noun="wind basis",
    model=WindBasisPlan,
    check=_check_wind_basis,
    fields=(
        choice("kind", SPEED_KINDS, "kind of wind speed", "By an American edition ultimate or "
               "nominal; by other codes characteristic, with no factor in it, or design, with the "
               "factor on wind in it.", required=True),
        words("edition", "Code and edition: ASCE 7-16, EN 1991-1-4, or that of the pressures.",
              longest=80, example="ASCE 7-16"),
        choice("exposure", EXPOSURES, "exposure category",
               "Exposure category of an American edition: B suburb, C open, D water."),
        choice("terrain", TERRAINS, "terrain category",
               "Terrain category of EN 1991-1-4: 0 sea, I lakes, II open, III suburb, IV town."),
        number("topography", "Factor for hills and bluffs on the pressure, 1 on flat ground; "
               "American editions.", low=1.0, high=5.0, example="1.2"),
        number("orography", "Factor of hills on the mean speed, 1 on flat ground; EN 1991-1-4.",
               low=1.0, high=2.0, example="1.1"),
        number("importance", "Importance factor, for American editions that have one.",
               low=0.5, high=2.0, example="1.15"),
        number("direction", "Directional factor of EN 1991-1-4, 1 when left out.",
               low=0.5, high=1.2, example="1").usually("1", "EN 1991-1-4"),
        number("season", "Season factor of EN 1991-1-4, 1 when left out.", low=0.5,
               high=1.2, example="1").usually("1", "EN 1991-1-4"),
        number("probability", "Probability factor of EN 1991-1-4, 1 for fifty years.",
               low=0.7, high=1.3, example="1").usually("1", "EN 1991-1-4"),
        within("air_density", "density",
               "Density of air for EN 1991-1-4, 1.25 kg/m3 when left out.", 0.5, 1.5,
               example="1.25 kg/m3").usually("1.25 kg/m3", "EN 1991-1-4"),
        count("reliability_class", "Class of a mast by EN 1993-3-1, for its factors on loads.",
              least=1, most=3),
        number("load_factor", "Factor on wind of a national annex or an engineer, in place of "
               "the code's.", low=1.0, high=2.5, example="1.6"),
        entry("pressure", "Heights above ground, lowest first, each with the peak pressure there, "
              "as an engineer gives them by any code; in place of a speed.",
              ListOf(item=_PRESSURE, most=20, example=_PRESSURES)),
        words("by", "Who gave the pressures, and when.", longest=120,
              example="name of the engineer, 2026-03-01"),
    ),
)  # fmt: skip

ICE_BASIS = TableSpec(
    noun="ice basis",
    fields=(
        above_zero("gust", "speed", "Gust (3 s) that acts together with the ice, at the height of "
                   "the code's maps.", high=150.0, example="18 m/s"),
        flag("mapped", "Whether the thickness is from a code map and must grow with height; "
             "false when it is the ice expected on the beam itself."),
        within("density", "density",
               "Density of the ice; 897 kg/m3 is the least the code allows for glaze.",
               100.0, 920.0).usually("897 kg/m3", "ASCE 7"),
        number("importance", "Importance factor on mapped thickness.", low=0.5, high=2.0,
               example="1.15"),
    ),
)  # fmt: skip


def _check(values: Values, at: Place) -> None:
    position, locator = values.get("position"), values.get("locator")
    if position is None or locator is None:
        return
    south, west, north, east = locator_square(locator)
    latitude, longitude = position
    slack = 1e-9
    inside = (
        south - slack <= latitude <= north + slack and west - slack <= longitude <= east + slack
    )
    if not inside:
        message = "the position does not lie in the locator square given beside it"
        remedy = "keep the one that is right and remove the other"
        at.child("locator").fault(message, remedy=remedy)


SITE = TableSpec(
    noun="site",
    check=_check,
    fields=(
        entry("position", "Latitude and longitude of the station.", POSITION),
        entry("locator", "Locator square, in place of the position; its centre is used.",
              Parsed(parse=checked_locator, example=LOCATOR_EXAMPLE,
                     pattern=r"^\s*[A-Ra-r]{2}([0-9]{2}([A-Xa-x]{2}([0-9]{2})?)?)?\s*$")),
        GROUND_FIELD,
        within("wind", "speed", "Wind the structure must stand, at the height of the code's maps: "
               "a 3 s gust by an American edition, the basic 10 min mean speed by EN 1991-1-4.",
               1.0, 150.0),
        entry("wind_basis", "What the wind speed is based on.", WIND_BASIS),
        from_zero("ice", "length", "Radial thickness of ice the structure must stand.", high=0.2,
                  example="25.4 mm"),
        entry("ice_basis", "What the ice thickness is based on.", ICE_BASIS),
        entry("elevation", "Ground above mean sea level.", ELEVATION,
              example='elevation = "120 m"'),
    ),
)  # fmt: skip


def build_site(values: Values) -> Site:
    """Make the site out of fault-free values."""
    place: tuple[float, float] | None = values.get("position")
    if place is None and "locator" in values:
        place = locator_centre(values["locator"])
    basis, ice = values.get("wind_basis"), values.get("ice_basis", {})
    return Site(
        ground=build_value(GROUND_FIELD.kind, values["ground"]),
        latitude=place[0] if place else None,
        longitude=place[1] if place else None,
        wind_speed=values.get("wind"),
        wind_basis=WindBasisPlan(kind="") if basis is None else build_table(WIND_BASIS, basis),
        ice_thickness=values.get("ice"),
        elevation=values.get("elevation"),
        ice_gust=ice.get("gust"),
        ice_mapped=ice.get("mapped"),
        ice_density=ice.get("density"),
        ice_importance=ice.get("importance"),
    )
