"""Figures that are known from memory only, each with the key of its own source.

A result that used one names it: ``recalled("strand-modulus")`` gives the words that stand beside
it, and ``recalled_keys`` finds them again in what was said.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from boomwright.base.quantity import Phrase, Source, Value, cited

#: what is from memory, by the key of its source
FROM_MEMORY: dict[str, str] = {
    "tia-222-g-directionality": "directionality 0.95 of round things and 0.85 of lattice",
    "tia-222-h": "floors, elevation and ice rules of TIA-222-H",
    "tia-222-g-gust": "gust factor 1.35 of a pole on another structure",
    "tia-222-f": "height and gust rules of TIA-222-F",
    "bare-pole-damping": "damping of 0.5 % of a bare steel pole",
    "en-1993-3-1": "factors of masts by their class, and 2 on guys, of EN 1993-3-1",
    "en-1999-1-1": "factors 1.1 on yield and 1.25 on rupture of aluminium of EN 1999-1-1",
    "asce-7-ice-growth": "growth of mapped ice with height and topography",
    "asce-7-ice-doubling": "doubling of 50-year ice in ASCE 7-05 and 7-10",
    "ibc-fastest-mile": "formula between fastest mile and 3 s gust",
    "strand-modulus": "modulus of 165 GPa of guy strand",
    "tia-222-g-guy-factor": "factor of 2 on the breaking strength of guys",
    "aisc-360": "factors 1.67 and 0.9 on the yield of steel",
    "adm-resistance-factors": "factors 0.9 on yield and 0.75 on rupture of aluminium",
    "aluminum-columns": "buckling constants of aluminium columns",
    "astm-a53": "yield of A53 pipe",
    "astm-b210": "rupture strength of drawn 6063-T832",
    "blevins-strouhal": "Strouhal number 0.2",
}

_WORDS: Final = "from memory"


def recalled(key: str) -> Value:
    """Give the words that stand beside a result that used a figure from memory; none for no key.

    Raises:
        KeyError: when that figure is not among those from memory
    """
    if not key:
        return ""
    if key not in FROM_MEMORY:
        raise KeyError(key)
    return cited(_WORDS, key)


def recalled_keys(told: Iterable[Value]) -> tuple[str, ...]:
    """Find the figures from memory that some results named."""
    said = {key for value in told for key in _keys(value)}
    return tuple(key for key in FROM_MEMORY if key in said)


def _keys(value: Value) -> Iterator[str]:
    if isinstance(value, Phrase):
        said, source = value.values.get("words"), value.values.get("source")
        if said == _WORDS and isinstance(source, Source):
            yield source.key
        for each in value.values.values():
            yield from _keys(each)
