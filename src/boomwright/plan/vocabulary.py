"""Words of the plan that the rooms below know under the same name; tests hold them equal.

They stand here so that reading a plan does not load the rooms that compute with them.
"""

from __future__ import annotations

from typing import Final

from boomwright.parts import MATERIALS

#: code editions behind a wind speed
EDITIONS: Final = (
    "ASCE 7-05",
    "ASCE 7-10",
    "ASCE 7-16",
    "ASCE 7-22",
    "TIA-222-F",
    "TIA-222-G",
    "TIA-222-H",
)
#: code of the terrain categories, as a rating names it
EN_EDITION: Final = "EN 1991-1-4"
EXPOSURES: Final = ("B", "C", "D")
#: terrain categories of EN 1991-1-4, from the open sea to the town
TERRAINS: Final = ("0", "I", "II", "III", "IV")
#: kinds of wind: by American editions, then by other codes, each without and with its factor
SPEED_KINDS: Final = ("ultimate", "nominal", "characteristic", "design")
#: conventions of a wind area: of the parts as seen, times drag, or of flat plate
AREA_RULES: Final = ("projected", "drag", "flat")
AVERAGING: Final = ("3 s gust", "fastest mile", "10 min mean")
JOINTS: Final = ("welded", "preloaded bolts", "bolts")
TOWER_KINDS: Final = ("self-supporting", "guyed", "crank-up", "bracketed")
ROTATOR_PLACES: Final = ("inside tower", "mast-mounted")
#: what can carry an antenna, simplest first
SUPPORT_KINDS: Final = (
    "trees",
    "light pole",
    "house bracket",
    "tilting tube",
    "guyed tube",
    "guyed lattice",
    "crank-up tower",
    "tower",
)
METHODS: Final = ("allowable", "strength")
#: steel whose grade nobody knows
PLAIN_STEEL: Final = "steel"
STEEL_GRADES: Final = (
    "A500 B round",
    "A500 C round",
    "A53 A",
    "A53 B",
    "4130 normalized",
    "unmarked pipe",
)
#: metals of the parts room that a tube is made of
METALS: Final = tuple(name for name in MATERIALS if name != "perfect")
STRANDS: Final = ("1/8 in EHS", "3/16 in EHS", "1/4 in EHS", "5/16 in EHS")
SOILS: Final = ("sandy gravel", "sand", "clay")
COAX_TYPES: Final = (
    "RG-58C",
    "RG-213",
    "RG-8A",
    "RG-58",
    "RG-174",
    "RG-223",
    "RG-11A",
    "RG-59B",
    "RG-141",
)
EMISSIONS: Final = (
    "carrier",
    "frequency modulation",
    "data, keyed tones",
    "morse",
    "single sideband, unprocessed",
    "single sideband, processed",
)
