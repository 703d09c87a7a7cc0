"""Which sheet a table or a key of the plan is changed on: each on one, the nearest name decides."""

from __future__ import annotations

from typing import Final

from boomwright.plan.layout import Path

#: table or key, without numbers -> the sheet of its subject; what stands below goes with it
HOMES: Final[dict[tuple[str, ...], str]] = {
    (): "beam",
    ("site",): "structure",
    ("site", "position"): "reach",
    ("site", "locator"): "reach",
    ("site", "ground"): "reach",
    ("beam", "feed"): "feed",
    ("beam", "boom"): "structure",
    ("support",): "structure",
    ("transmitter",): "feed",
    ("line",): "feed",
    ("reach",): "reach",
    ("permits",): "permits",
    ("place",): "permits",
    ("prices",): "cost",
    ("raising",): "raising",
    ("measured",): "tuning",
}
#: tables that a sheet lays out, in their order; ``None`` stands for the beam in view
_ROOTS: Final[dict[str, tuple[tuple[str | None, ...], ...]]] = {
    "beam": ((),),
    "feed": (("beam", None, "feed"), ("line",), ("transmitter",)),
    "reach": (("site",), ("reach",)),
    "structure": (("site",), ("beam", None, "boom"), ("support",)),
    "permits": (("permits",), ("place",)),
    "cost": (("prices",),),
    "raising": (("raising",),),
    "tuning": (("measured",),),
}
#: what the program writes itself: the version of the file
_FIXED: Final = ("boomwright",)


def home_of(path: Path) -> str:
    """Sheet that a place of the plan is changed on; empty for what nobody changes."""
    steps = tuple(step for step in path if isinstance(step, str))
    if steps == _FIXED:
        return ""
    return next(HOMES[steps[:n]] for n in range(len(steps), -1, -1) if steps[:n] in HOMES)


def roots_of(slug: str, *, beam: int) -> tuple[Path, ...]:
    """Tables that a sheet lays out; none for a sheet that changes nothing."""
    return tuple(
        tuple(beam if step is None else step for step in root) for root in _ROOTS.get(slug, ())
    )


def reaches(path: Path, slug: str) -> bool:
    """Whether a sheet lays out a place, or anything below it."""
    steps = tuple(step for step in path if isinstance(step, str))
    below = {home for key, home in HOMES.items() if key[: len(steps)] == steps and key != steps}
    return home_of(path) == slug or slug in below
