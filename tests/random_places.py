"""Places drawn by chance, each as a friend might describe it, and prices for what they ask.

Everything is invented; none of it is about anybody's garden or anybody's shop.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

import numpy as np

#: what a line of the bill costs, by a word in its name and else by its unit [currency]
_DEAR = {
    "rotator with": 420.0,
    "tower section": 380.0,
    "house bracket": 70.0,
    "top bearing": 65.0,
    "hub": 80.0,
    "lift truck": 260.0,
    "insurance": 90.0,
    "support tube": 11.0,
    "mast": 13.0,
}
_USUAL = {"m": 2.4, "each": 9.0, "length": 24.0, "kg": 1.9, "m3": 170.0, "set": 35.0}

_BANDS = (("20 m",), ("15 m",), ("10 m",), ("20 m", "15 m"), ("17 m",), ("40 m",))
_GROUNDS = ("wet", "medium dry", "very dry")
_TARGETS = (
    ("Azores", "38 N, 27 W"),
    ("Boston", "42.4 N, 71.1 W"),
    ("Nairobi", "1.3 S, 36.8 E"),
    ("Osaka", "34.7 N, 135.5 E"),
    ("Recife", "8.0 S, 34.9 W"),
    ("Perth", "31.9 S, 115.9 E"),
)
_EUROPE = """
[site.wind_basis]
kind = "characteristic"
edition = "BS EN 1991-1-4"
terrain = "{terrain}"
orography = 1
[site.ice_basis]
gust = "18 m/s"
mapped = false
"""
_AMERICA = """
[site.wind_basis]
kind = "ultimate"
edition = "ASCE 7-16"
exposure = "{exposure}"
topography = 1
"""


def random_place(seed: int) -> str:
    """Draw a place.

    Args:
        seed: the same one, the same place
    """
    chance = np.random.default_rng([22, seed])

    def one_of(values: Iterable[str]) -> str:
        return str(chance.choice([*values]))

    bands = _BANDS[int(chance.integers(len(_BANDS)))]
    american = bool(chance.random() < 0.4)
    where = ("{:.1f} N, {:.1f} W", 38.0, 84.0) if american else ("{:.1f} N, {:.1f} E", 48.0, 9.0)
    north, out = where[1] + chance.uniform(-4.0, 4.0), where[2] + chance.uniform(-5.0, 5.0)
    wind = chance.uniform(46.0, 54.0) if american else chance.uniform(21.0, 26.0)
    lines = [
        "boomwright = 1",
        f'title = "Place {seed}"',
        'dated = "2026-05-01"',
        "[site]",
        f'position = "{where[0].format(north, out)}"',
        f'ground = "{one_of(_GROUNDS)}"',
        f'wind = "{wind:.0f} m/s"',
        f'ice = "{0 if american else int(chance.integers(0, 8))} mm"',
        f'elevation = "{int(chance.integers(20, 400))} m"',
        _AMERICA.format(exposure=one_of("BC"))
        if american
        else _EUROPE.format(terrain=one_of(("II", "III"))),
        "[place]",
        f"bands = [{', '.join(f'{chr(34)}{band}{chr(34)}' for band in bands)}]",
        *([f"region = {2 if american else 1}"]),
        *([f'highest = "{chance.uniform(8.5, 22.0):.1f} m"'] if chance.random() < 0.7 else []),
        f'lot = ["{chance.uniform(18.0, 60.0):.0f} m", "{chance.uniform(14.0, 40.0):.0f} m"]',
    ]
    if chance.random() < 0.6:
        height = f"{chance.uniform(8.0, 15.0):.1f} m"
        lines += [
            "[[place.standing]]",
            'name = "the oaks"',
            'kind = "trees"',
            f'height = "{height}"',
        ]
    lines += ["[support]", f'soil = "{one_of(("clay", "sandy gravel"))}"', 'frost_depth = "0.6 m"']
    drawn = chance.choice(len(_TARGETS), size=int(chance.integers(1, 4)), replace=False)
    told = [f'{{ name = "{_TARGETS[n][0]}", position = "{_TARGETS[n][1]}" }}' for n in drawn]
    lines += ["[reach]", f"target = [{', '.join(told)}]"]
    lines += [
        "[prices]",
        'currency = "EUR"',
        'list = "prices.csv"',
        "tax = 0",
        'concrete_minimum = "0 m3"',
        "[prices.hire]",
        "deliveries = 1",
        "crane_days = 0",
        "climber_days = 0",
        "permits = 0",
        "engineer_stamps = 0",
        "insurance_years = 0",
        "[raising]",
        f"ground_crew = {int(chance.integers(4, 7))}",
        f"trained_climbers = {int(chance.integers(0, 3))}",
        'forecast_gust = "3 m/s"',
    ]
    return "\n".join(lines) + "\n"


def invented_prices(rows: Iterable[tuple[str, str]]) -> bytes:
    """Write a price list.

    Args:
        rows: name and unit of what is bought
    """
    lines = ["item,unit,low,likely,high,currency,supplier,dated"]
    for item, unit in dict.fromkeys(rows):
        usual = next((price for word, price in _DEAR.items() if word in item), None)
        usual = _USUAL.get(unit, 60.0) if usual is None else usual
        spread = hashlib.sha256(item.encode()).digest()[0] / 255.0
        likely = usual * (0.75 + 0.5 * spread)
        amounts = ",".join(f"{likely * share:.2f}" for share in (0.85, 1.0, 1.25))
        lines.append(f'"{item}",{unit},{amounts},EUR,,2026-05-01')
    return ("\n".join(lines) + "\n").encode()
