"""Bill of everything besides the beam, as far as the owner gave figures for it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.cost.bill import Bill, BillLine
from boomwright.cost.counting import counted

#: ordered over computed for concrete [-] {common-practice-estimating}
CONCRETE_WASTE: Final = 0.08
#: reinforcing steel for each cubic metre [kg/m^3] {common-practice-estimating}
REBAR_RATE: Final = 75.0
#: bought over needed for guy strand and for feed line [-] {common-practice-estimating}
STRAND_WASTE: Final = 0.05
LINE_WASTE: Final = 0.10


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyLevel:
    """One level of guys."""

    height: float  #: where they meet the tower [m]
    anchor_distance: float  #: tower to anchor [m]
    guys: int = 3  #: guys at this level
    strand: str = "guy strand"  #: strand as bought


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportParts:
    """Tower, mast, guys and footing."""

    tower_height: float = 0.0  #: height of the tower; 0 when there is none to buy [m]
    section_length: float = 3.048  #: length of one tower section [m]
    mast_length: float = 0.0  #: exposed and inside length of the mast; 0 when none [m]
    mast: Value = "mast tube"  #: mast tube as bought
    guy_levels: tuple[GuyLevel, ...] = ()  #: guy levels (n_levels,)
    anchors: int = 0  #: guy anchors
    footing_volume: float = 0.0  #: concrete of the footing and anchor blocks [m^3]
    excavation_volume: float = 0.0  #: soil dug; 0 takes the concrete's volume [m^3]
    rotator: bool = False  #: True when a rotator is bought
    rings: int = 0  #: rings around the support, each for one beam
    brackets: int = 0  #: brackets of a building that hold the support


@dataclass(frozen=True, slots=True, kw_only=True)
class LineParts:
    """Feed line, control cable and earthing."""

    run: float = 0.0  #: feed line from station to tower top [m]
    loop: float = 0.0  #: rotation loop [m]
    line: str = "feed line"  #: feed line as bought
    connectors: int = 0
    control_run: float = 0.0  #: control cable of the rotator; 0 when none [m]
    tower_legs: int = 0  #: legs with a rod of their own
    rods: int = 0  #: further earth rods
    bonding_length: float = 0.0  #: strap or wire of the earth system [m]
    arresters: int = 0  #: lightning arresters
    choke_cores: int = 0  #: ferrite cores of the choke at the feed


@dataclass(frozen=True, slots=True, kw_only=True)
class Services:
    """Hired machines, people, papers and the owner's own hours."""

    lift_truck_days: float = 0.0  #: days of a lift truck, in half days [day]
    crane_days: float = 0.0  #: days of a crane, in half days [day]
    climber_days: float = 0.0  #: days of a trained climbing crew [day]
    permits: int = 0  #: permits and notices
    engineer_stamps: int = 0  #: engineer's stamps
    insurance_years: float = 0.0  #: years of insurance rider counted in [year]
    owner_hours: float = 0.0  #: owner's own hours [h]


def _lines(group: str, rows: tuple[tuple[Value, float, str, Value], ...]) -> list[BillLine]:
    return [
        BillLine(group=group, name=item, quantity=quantity, unit=unit, driver=driver)
        for item, quantity, unit, driver in rows
        if quantity > 0.0
    ]


def _guy_lines(parts: SupportParts) -> list[BillLine]:
    lines: list[BillLine] = []
    for level in parts.guy_levels:
        slant = math.hypot(level.height, level.anchor_distance)
        height = Quantity(level.height, "height")
        lines += _lines(
            "Guys",
            (
                (
                    level.strand,
                    level.guys * slant * (1.0 + STRAND_WASTE),
                    "m",
                    phrase(
                        "{guys} guys of {slant} at {height} and {waste}",
                        guys=level.guys,
                        slant=Quantity(slant, "bought length"),
                        height=height,
                        waste=Quantity(STRAND_WASTE, "share"),
                    ),
                ),
                (
                    "turnbuckle",
                    level.guys,
                    "each",
                    phrase("{guys} at {height}", guys=counted(level.guys, "guy"), height=height),
                ),
                ("guy grip", 2.0 * level.guys, "each", f"two ends of {level.guys} guys"),
                ("thimble", 2.0 * level.guys, "each", f"two ends of {level.guys} guys"),
            ),
        )
    return lines


def support_bill(parts: SupportParts) -> Bill:
    """Bill of tower, mast, guys, anchors and footing."""
    sections = math.ceil(parts.tower_height / parts.section_length - 1e-9)
    lines = _lines(
        "Support",
        (
            (
                "tower section",
                sections,
                "each",
                phrase(
                    "{tower} of tower in sections of {section}",
                    tower=Quantity(parts.tower_height, "height"),
                    section=Quantity(parts.section_length, "bought length"),
                ),
            ),
            ("top plate, shelf and bearing", 1.0 if sections else 0.0, "set", "one tower"),
            (
                parts.mast,
                parts.mast_length,
                "m",
                phrase("{length} in all", length=Quantity(parts.mast_length, "bought length")),
            ),
            (
                "house bracket with its fixings",
                float(parts.brackets),
                "each",
                counted(parts.brackets, "bracket"),
            ),
            ("rotator with control box", float(parts.rotator), "each", "one rotator"),
            (
                "ring mount with motor and control box",
                float(parts.rings),
                "each",
                counted(parts.rings, "ring mount"),
            ),
        ),
    )
    lines += (*_guy_lines(parts), *_ground_lines(parts))
    return Bill(lines=tuple(lines), tubes=(), labour_hours=0.0, notices=())


def _ground_lines(parts: SupportParts) -> list[BillLine]:
    concrete = parts.footing_volume * (1.0 + CONCRETE_WASTE)
    dug = parts.excavation_volume or parts.footing_volume
    volume = phrase("{volume} of concrete", volume=Quantity(parts.footing_volume, "volume"))
    return _lines(
        "Ground",
        (
            ("guy anchor", parts.anchors, "each", counted(parts.anchors, "anchor")),
            (
                "excavation and spoil",
                dug,
                "m3",
                phrase("{volume} dug", volume=Quantity(dug, "volume")),
            ),
            (
                "concrete",
                concrete,
                "m3",
                phrase(
                    "{volume} and {waste}",
                    volume=volume,
                    waste=Quantity(CONCRETE_WASTE, "share"),
                ),
            ),
            (
                "reinforcing steel",
                parts.footing_volume * REBAR_RATE,
                "kg",
                phrase(
                    "{volume} at {rate}; the maker's drawing decides",
                    volume=volume,
                    rate=Quantity(REBAR_RATE, "steel rate"),
                ),
            ),
            (
                "anchor bolts and template",
                1.0 if parts.footing_volume else 0.0,
                "set",
                "one footing",
            ),
        ),
    )


def line_bill(parts: LineParts) -> Bill:
    """Bill of feed line, control cable and earthing."""
    length = (parts.run + parts.loop) * (1.0 + LINE_WASTE)
    rods = parts.tower_legs + parts.rods
    lines = _lines(
        "Line and earth",
        (
            (
                parts.line,
                length,
                "m",
                phrase(
                    "{run} run, {loop} loop and {waste}",
                    run=Quantity(parts.run, "height"),
                    loop=Quantity(parts.loop, "height"),
                    waste=Quantity(LINE_WASTE, "share"),
                ),
            ),
            ("connector", parts.connectors, "each", counted(parts.connectors, "connector")),
            (
                "rotator control cable",
                parts.control_run * (1.0 + LINE_WASTE),
                "m",
                phrase(
                    "{run} and {waste}",
                    run=Quantity(parts.control_run, "height"),
                    waste=Quantity(LINE_WASTE, "share"),
                ),
            ),
            (
                "earth rod with clamp",
                rods,
                "each",
                " and ".join(
                    counted(number, noun)
                    for number, noun in (
                        (parts.tower_legs, "tower leg"),
                        (parts.rods, "further rod"),
                    )
                    if number
                ),
            ),
            (
                "bonding strap",
                parts.bonding_length,
                "m",
                phrase(
                    "{length} of earth system",
                    length=Quantity(parts.bonding_length, "height"),
                ),
            ),
            (
                "lightning arrester",
                parts.arresters,
                "each",
                "one line entry" if parts.arresters == 1 else f"{parts.arresters} line entries",
            ),
            ("choke core", parts.choke_cores, "each", "one choke at the feed"),
        ),
    )
    return Bill(lines=tuple(lines), tubes=(), labour_hours=0.0, notices=())


def services_bill(services: Services) -> Bill:
    """Bill of hire, crews, papers, and the owner's own hours.

    Returns:
        lines with their drivers; the owner's hours stand beside them, without a price
    """

    def half_days(days: float) -> float:
        return math.ceil(2.0 * days - 1e-9) / 2.0

    lines = _lines(
        "Hire and papers",
        (
            (
                "lift truck",
                half_days(services.lift_truck_days),
                "day",
                f"{counted(services.lift_truck_days, 'day')}, in half days",
            ),
            (
                "crane with operator",
                half_days(services.crane_days),
                "day",
                f"{counted(services.crane_days, 'day')}, in half days",
            ),
            (
                "trained climbing crew",
                services.climber_days,
                "day",
                counted(services.climber_days, "crew day"),
            ),
            (
                "permit or notice",
                services.permits,
                "each",
                counted(services.permits, "application"),
            ),
            (
                "engineer's stamp",
                services.engineer_stamps,
                "each",
                counted(services.engineer_stamps, "drawing"),
            ),
            (
                "insurance rider",
                services.insurance_years,
                "year",
                counted(services.insurance_years, "year"),
            ),
        ),
    )
    return Bill(lines=tuple(lines), tubes=(), labour_hours=services.owner_hours, notices=())
