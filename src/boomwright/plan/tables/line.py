"""``[transmitter]`` and ``[line]``: power, emission, feed line, choke and earth."""

from __future__ import annotations

from boomwright.parts import LineHardware
from boomwright.plan.faults import Place
from boomwright.plan.fields import above_zero, choice, count, entry, from_zero, within, words
from boomwright.plan.kinds import Choice
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.model_station import CoaxPlan, LinePlan, TransmitterPlan
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import NameOrTable, TableSpec, Values
from boomwright.plan.tables.boom import sides
from boomwright.plan.vocabulary import COAX_TYPES, EMISSIONS

_POINTS_EXAMPLE = '[["10 MHz", "2.0 dB/100 m"], ["100 MHz", "6.8 dB/100 m"]]'

TRANSMITTER = TableSpec(
    noun="transmitter",
    model=TransmitterPlan,
    fields=(
        above_zero("power", "power", "Peak envelope power.", high=1e6, required=True,
                   example="400 W"),
        choice("emission", EMISSIONS, "kind of emission", "Kind of emission used most.").usually(
            "carrier", "the most exposing emission"),
        above_zero("transmit", "time", "Length of each transmission.", high=86400.0,
                   example="3 min"),
        from_zero("listen", "time", "Pause after each transmission.", high=86400.0),
    ),
)  # fmt: skip


def _check_points(values: Values, at: Place) -> None:
    before = 0.0
    for index, point in enumerate(values.get("attenuation") or []):
        frequency = point[0] if point else None
        if frequency is None:
            continue
        if frequency <= before:
            message = "this frequency does not lie above the one before it"
            remedy = "list the points of the data sheet by rising frequency"
            at.child("attenuation", index, 0).fault(message, remedy=remedy)
        before = max(before, frequency)


_POINT = Row(
    items=(
        Quantity(dimension="frequency", low=1e3, high=1e12),
        Quantity(dimension="attenuation", low=0.0, high=1e3, above_low=True),
    ),
    least=2,
    example='["10 MHz", "2.0 dB/100 m"]',
    names=("frequency", "attenuation"),
)
COAX = TableSpec(
    noun="line data sheet",
    model=CoaxPlan,
    check=_check_points,
    fields=(
        words("name", "What it is.", longest=64, required=True, example="line of the attic"),
        above_zero("impedance", "resistance", "Characteristic impedance.", high=1000.0,
                   required=True),
        within("velocity_factor", "ratio", "Speed on the line over that of light.", 0.2, 1.0,
               required=True, example="0.85"),
        entry("attenuation", "Attenuation at two frequencies or more, from the data sheet.",
              ListOf(item=_POINT, least=2, most=100, example=_POINTS_EXAMPLE), required=True),
        above_zero("voltage_limit", "voltage", "Greatest effective voltage."),
        above_zero("diameter", "length", "Diameter over the jacket.", high=0.5,
                   example="10.3 mm"),
    ),
)  # fmt: skip


#: a type of line by its name or by its data sheet
LINE_TYPE = entry(
    "type",
    "Type of line by its designation, or its data sheet.",
    NameOrTable(name=Choice(options=COAX_TYPES, noun="type of line"), table=COAX),
    required=True,
    attribute="line_type",
    example='type = "RG-213"',
).usually("RG-213")


def _check(values: Values, at: Place) -> None:
    length, loop = values.get("length"), values.get("loop")
    if length is not None and loop is not None and loop > length:
        message = "the rotation loop is longer than the whole line"
        remedy = "write the whole length from radio to antenna, loop included"
        at.child("loop").fault(message, remedy=remedy)


LINE_HARDWARE = TableSpec(
    noun="hardware of the line",
    model=LineHardware,
    fields=(
        from_zero("mass", "mass per length", "One metre of the feed line; left out, 0.16 kg/m.",
                  high=10.0, example="0.16 kg/m"),
        above_zero("diameter", "length", "Diameter of the feed line over its jacket; left out, "
                   "10 mm.", high=0.5, example="10 mm"),
        from_zero("control_mass", "mass per length", "One metre of the control cable; left out, "
                  "0.1 kg/m.", high=10.0, example="0.1 kg/m"),
        above_zero("control_diameter", "length", "Diameter of the control cable; left out, 8 mm.",
                   high=0.5, example="8 mm"),
        from_zero("drip_loop", "length", "Line in the drip loop; left out, 0.5 m.", high=20.0,
                  example="0.5 m"),
        entry("earth_rod", "Earth rod: length, diameter; your code for lightning earths decides.",
              sides('["2.44 m", "16 mm"]', "length", "diameter", most=30.0)),
        from_zero("earth_from", "length", "From the outside of footing and support to the first "
                  "earth rod; left out, 0.3 m.", high=100.0, example="0.3 m"),
    ),
)  # fmt: skip


LINE = TableSpec(
    noun="line",
    model=LinePlan,
    check=_check,
    fields=(
        LINE_TYPE,
        above_zero("length", "length", "From radio to antenna, rotation loop included.",
                   required=True, example="40 m"),
        from_zero("loop", "length", "Part of it that is the rotation loop."),
        entry("choke", "Impedance of the choke at the design frequency: resistance and reactance.",
              Row(items=(Quantity(dimension="resistance", low=0.0, high=1e6),
                         Quantity(dimension="resistance", low=-1e6, high=1e6)), least=2,
                  example='["2000 ohm", "3000 ohm"]', names=("resistance", "reactance"))),
        from_zero("suppression", "ratio in dB",
                  "Wanted ratio of feed current to current on the outside of the line.", high=80.0,
                  attribute="suppression_db"),
        count("connectors", "Connectors."),
        from_zero("control_cable", "length", "Control cable of the rotator."),
        count("earth_rods", "Earth rods besides those at the tower's legs."),
        from_zero("bonding", "length", "Strap or wire of the earth system."),
        count("arresters", "Lightning arresters."),
        count("choke_cores", "Ferrite cores of the choke at the feed."),
        entry("hardware", "Cable and earth rods as their makers state; what is left out is taken "
              "from common practice.", LINE_HARDWARE),
    ),
)  # fmt: skip
