"""Write what belongs to the worked places: their invented price lists, and docs/places.md.

python tools/worked_places.py            write the page
python tools/worked_places.py --prices   give every line that has none an invented price first
python tools/worked_places.py --check    fail when the page is not what the places give
"""

from __future__ import annotations

import csv
import io
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Final

import boomwright as bw
from boomwright.base import UnitSystem
from boomwright.base.quantity import write
from boomwright.plan import written_system
from boomwright.report.advice.words import cost_of, kinds_of, numbered, reasons, verdict_of
from boomwright.session.files import PlanFolder
from boomwright.study.advice.advise import Advice
from boomwright.study.advice.choosing import prices_to_fill

ROOT = Path(__file__).resolve().parents[1]
PLACES = ROOT / "examples" / "places"
PAGE = ROOT / "docs" / "places.md"

HEAD = """# Worked places

Three invented places, each with its limits, wishes and a list of invented prices in
[examples/places](../examples/places): `boomwright advise` says which station suits each. This page
is written by `tools/worked_places.py`. Nothing here is a design or a price: local codes, makers'
ratings and licensed practice overrule every figure.

"""

#: what money is worth in each list, so that its prices are of a likely size
_LEVEL: Final = {"GBP": 0.62, "CHF": 1.3, "USD": 1.0}
_DAY: Final = "2026-10-01"
_INCH, _FOOT, _POUND, _YARD_3 = 25.4, 0.3048, 0.4536, 0.7646

#: invented likely prices of tubes and rods by diameter and wall [mm] and length [m]
_TUBES: Final[tuple[tuple[str, Callable[[float, float, float], float]], ...]] = (
    (r"tube .* glass fibre", lambda size, wall, length: (0.32 * size + 1.0) * length),
    (r"tube ", lambda size, wall, length: (0.085 * size * wall + 2.2) * length),
    (r"rod .* glass fibre", lambda size, wall, length: 0.36 * size * length),
    (r"rod ", lambda size, wall, length: 0.25 * size * length),
    (r"support tube|mast ", lambda size, wall, length: 0.052 * size * wall + 3.0),
)
_PRICES: Final[dict[str, float]] = {
    "wire": 0.7, "guy strand": 1.6, "guy grip": 7.0, "turnbuckle": 19.0, "thimble": 1.5,
    "concrete": 190.0, "reinforcing": 2.2, "anchor bolts": 95.0, "guy anchor": 48.0,
    "excavation": 45.0, "feed line": 2.4, "connector": 6.0, "choke core": 9.0,
    "choke or balun": 45.0, "end insulator": 3.0, "rope": 1.2, "house bracket": 70.0, "cord": 0.5,
    "hub": 75.0, "hose clamp": 2.0, "top bearing": 60.0, "rotator with": 520.0,
    "rotator shelf": 60.0, "rotator control": 1.8, "tip plug": 0.5, "boom cap": 3.0,
    "element bracket": 18.0, "strap": 6.0, "boom to mast": 48.0, "rivet": 0.15, "terminal": 0.9,
    "ring terminal": 0.3, "feed block": 12.0, "wire loop": 1.0, "eye of the truss": 12.0,
    "bushing": 2.0,
    "through bolt": 1.1, "tower": 420.0, "freight": 60.0, "lift truck": 260.0, "crane": 520.0,
    "permit": 90.0, "engineer": 650.0, "insurance": 70.0, "trap": 40.0, "coil": 25.0,
    "guy ring": 32.0, "hinge": 90.0, "base plate": 80.0, "tower section": 420.0,
    "tower base": 160.0, "crank-up": 3800.0, "earth rod": 24.0, "radial": 0.4,
}  # fmt: skip
#: what a price in a unit is worth of that in its metric one
_UNITS: Final = {"ft": _FOOT, "lb": _POUND, "yd3": _YARD_3}


def invented(item: str, unit: str) -> float | None:
    """Give a likely price of an item as it stands in a list; None where there is no rule."""
    numbers = [float(each) for each in re.findall(r"\d+\.\d+", item)] + [0.0, 0.0]
    scale = _INCH if re.search(r"\d in\b", item) else 1.0
    feet = re.search(r"(\d+) ft", item)
    length = float(feet[1]) * _FOOT if feet else numbers[2] if len(numbers) > 4 else numbers[1]
    for pattern, price in _TUBES:
        if re.match(pattern, item):
            return price(numbers[0] * scale, numbers[1] * scale, length) * _UNITS.get(unit, 1.0)
    found = [price for name, price in _PRICES.items() if item.startswith(name)]
    return found[0] * _UNITS.get(unit, 1.0) if found else None


def _amount(value: float) -> str:
    return f"{value:.2f}" if value < 10.0 else f"{value:.0f}"


def filled(text: str) -> str:
    """Give every row of a price list that has no amounts an invented price."""
    lines = []
    for line in text.splitlines():
        row = next(csv.reader([line]))
        if line.startswith(("#", "item,")) or row[2]:
            lines.append(line)
            continue
        likely = invented(row[0], row[1])
        if likely is None:
            sys.stderr.write(f"no price for {row[0]}: add it to _PRICES\n")
            lines.append(line)
            continue
        likely *= _LEVEL[row[5]]
        row[2:5] = [_amount(share * likely) for share in (0.85, 1.0, 1.3)]
        row[6:8] = ["invented", _DAY]
        out = io.StringIO()
        csv.writer(out, lineterminator="").writerow(row)
        lines.append(out.getvalue())
    return "\n".join(lines) + "\n"


def places() -> tuple[Path, ...]:
    """The places in the order of the page."""
    return tuple(PLACES / f"{name}.toml" for name in ("suburban-lot", "farm-ridge", "island"))


def write_prices(path: Path) -> None:
    """Write the price list of a place anew, each price of it kept."""
    system = written_system(path.read_text(encoding="utf-8"))
    advice = bw.advise(bw.load(path, place=True))
    text = prices_to_fill(advice, system=system, files=PlanFolder(path.parent))
    head = "# Invented prices: no shop, no offer, no market. Replace every one with your own.\n"
    body = "".join(line for line in text.splitlines(keepends=True) if not line.startswith("# Fill")
                   and line != head)  # fmt: skip
    (PLACES / f"{path.stem}-prices.csv").write_text(head + filled(body), encoding="utf-8")


def place_section(path: Path, advice: Advice) -> str:
    """Tell what suits one place."""
    place = advice.plan
    system: UnitSystem = written_system(place.file.text) if place.file else "metric"
    told = [
        f"## {place.title}",
        f"[{path.name}](../examples/places/{path.name}), {len(advice.candidates)} stations tried.",
    ]
    for pick in advice.picks:
        one = advice.candidates[pick.number]
        words = (
            f"**{write(kinds_of(pick), system=system)}: "
            f"{write(numbered(advice, pick.number), system=system)}.** "
            f"{write(cost_of(one), system=system)}; {verdict_of(one)}. "
        )
        told.append(words + " ".join(write(each, system=system) for each in reasons(advice, pick)))
    if not advice.picks:
        told.append("Every station breaks a limit or a check.")
    return "\n\n".join(told) + "\n"


def page() -> str:
    """Write the page."""
    parts = [place_section(path, bw.advise(bw.load(path, place=True))) for path in places()]
    return HEAD + "\n".join(parts)


def main(arguments: list[str]) -> int:
    """Write price lists and page, or compare the page."""
    if "--prices" in arguments:
        for path in places():
            write_prices(path)
    made = page()
    if "--check" in arguments:
        return int(PAGE.read_text(encoding="utf-8") != made)
    PAGE.write_text(made, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
