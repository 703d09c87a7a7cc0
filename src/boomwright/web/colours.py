"""The page's colours: the same two palettes the figures are printed with.

Figures on the page are drawn with names of CSS variables instead of colours, so that the
change from light to dark costs no redrawing.
"""

from __future__ import annotations

from dataclasses import fields, replace

from boomwright.charts.palette import DARK, LIGHT, Palette


def _named(palette: Palette) -> dict[str, str]:
    plain = {
        f.name: getattr(palette, f.name)
        for f in fields(palette)
        if f.name not in {"name", "series"}
    }
    return plain | {f"series-{i + 1}": colour for i, colour in enumerate(palette.series)}


def page_palette() -> Palette:
    """Make the palette whose colours are the page's variables."""
    plain = {name: f"var(--{name})" for name in _named(LIGHT) if not name.startswith("series-")}
    series = tuple(f"var(--series-{i + 1})" for i in range(len(LIGHT.series)))
    return replace(LIGHT, name="page", series=series, **plain)


def colour_sheet() -> str:
    """Write the style sheet that gives the variables their colours."""
    dark = _named(DARK)
    lines = [f"  --{name}: light-dark({day}, {dark[name]});" for name, day in _named(LIGHT).items()]
    return ":root {\n" + "\n".join(lines) + "\n}\n"
