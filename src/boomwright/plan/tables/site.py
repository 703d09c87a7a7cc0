"""``[site]``: where the station stands, its ground, wind and ice."""

from __future__ import annotations

from boomwright.plan.directions import (
    LOCATOR_EXAMPLE,
    checked_locator,
    locator_centre,
    locator_square,
)
from boomwright.plan.faults import Place
from boomwright.plan.fields import above_zero, flag, number
from boomwright.plan.kinds import Choice, Parsed, Text
from boomwright.plan.model import Site
from boomwright.plan.model_station import GroundPlan
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.spec import Field, NameOrTable, TableSpec, Values
from boomwright.plan.tables.permits import ELEVATION, POSITION
from boomwright.solver import GROUND_CLASSES, Ground

_GROUND_EXAMPLE = 'ground = "medium dry"'

GROUND = TableSpec(
    noun="ground",
    model=GroundPlan,
    fields=(
        Field(
            key="permittivity",
            kind=Number(low=1.0, high=100.0),
            help="Relative permittivity of the ground.",
            required=True,
            example="permittivity = 15",
        ),
        Field(
            key="conductivity",
            kind=Quantity(dimension="conductivity", low=0.0, high=20.0),
            help="Conductivity of the ground.",
            required=True,
            example='conductivity = "1 mS/m"',
        ),
    ),
)

#: the ground by its class or its constants
GROUND_FIELD = Field(
    key="ground",
    kind=NameOrTable(name=Choice(options=tuple(GROUND_CLASSES), noun="ground"), table=GROUND),
    help="Ground below the antennas: a class, or its two constants.",
    required=True,
    example=_GROUND_EXAMPLE,
)

WIND_BASIS = TableSpec(
    noun="wind basis",
    fields=(
        Field(
            key="kind",
            kind=Choice(options=("ultimate", "nominal"), noun="kind of wind speed"),
            help="Whether the wind speed is an ultimate or a nominal one.",
            required=True,
            example='kind = "ultimate"',
        ),
        Field(
            key="edition",
            kind=Text(longest=80),
            help="Code and edition the wind speed is taken from.",
        ),
        Field(
            key="exposure",
            kind=Choice(options=("B", "C", "D"), noun="exposure category"),
            help="Terrain exposure category of that code.",
        ),
        number("topography", "Factor for hills and bluffs on the pressure, 1 on flat ground.",
               low=1.0, high=5.0),
        number("importance", "Importance factor, for code editions that have one.",
               low=0.5, high=2.0),
    ),
)  # fmt: skip

ICE_BASIS = TableSpec(
    noun="ice basis",
    fields=(
        above_zero("gust", "speed", "Gust (3 s) at 10 m that acts together with the ice.",
                   high=150.0, example="18 m/s"),
        flag("mapped", "Whether the thickness is from a code map and must grow with height; "
             "false when it is the ice expected on the beam itself."),
        Field(key="density", kind=Quantity(dimension="density", low=100.0, high=920.0),
              help="Density of the ice; 897 kg/m3 is the least the code allows for glaze."),
        number("importance", "Importance factor on mapped thickness.", low=0.5, high=2.0),
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
        Field(
            key="position",
            kind=POSITION,
            help="Latitude and longitude of the station.",
        ),
        Field(
            key="locator",
            kind=Parsed(
                parse=checked_locator,
                example=LOCATOR_EXAMPLE,
                pattern=r"^\s*[A-Ra-r]{2}([0-9]{2}([A-Xa-x]{2}([0-9]{2})?)?)?\s*$",
            ),
            help="Locator square, in place of the position; its centre is used.",
        ),
        GROUND_FIELD,
        Field(
            key="wind",
            kind=Quantity(dimension="speed", low=0.0, high=150.0, above_low=True),
            help="Gust speed (3 s) at 10 m above ground the structure must stand.",
        ),
        Field(
            key="wind_basis",
            kind=WIND_BASIS,
            help="What the wind speed is based on.",
        ),
        Field(
            key="ice",
            kind=Quantity(dimension="length", low=0.0, high=0.2),
            help="Radial thickness of ice the structure must stand.",
        ),
        Field(key="ice_basis", kind=ICE_BASIS, help="What the ice thickness is based on."),
        Field(key="elevation", kind=ELEVATION, help="Ground above mean sea level."),
    ),
)


def build_site(values: Values) -> Site:
    """Make the site out of fault-free values.

    Parameters
    ----------
    values
        what ``SITE`` read [SI]
    """
    place: tuple[float, float] | None = values.get("position")
    if place is None and "locator" in values:
        place = locator_centre(values["locator"])
    basis, ice = values.get("wind_basis", {}), values.get("ice_basis", {})
    return Site(
        ground=_build_ground(values["ground"]),
        latitude=place[0] if place else None,
        longitude=place[1] if place else None,
        wind_speed=values.get("wind"),
        wind_kind=basis.get("kind", ""),
        wind_edition=basis.get("edition", ""),
        exposure=basis.get("exposure", ""),
        ice_thickness=values.get("ice"),
        elevation=values.get("elevation"),
        topography=basis.get("topography"),
        importance=basis.get("importance"),
        ice_gust=ice.get("gust"),
        ice_mapped=ice.get("mapped"),
        ice_density=ice.get("density"),
        ice_importance=ice.get("importance"),
    )


def _build_ground(value: str | Values) -> Ground:
    if isinstance(value, str):
        return GROUND_CLASSES[value]
    return Ground(
        kind="real", permittivity=value["permittivity"], conductivity=value["conductivity"]
    )
