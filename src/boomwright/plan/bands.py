"""Amateur bands by their trade names, with their edges in the three ITU regions {itu-rr-5}.

National rules differ from the regional edges; a licence may allow less, or more.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import Final, Literal

from boomwright.plan.kinds import nearest
from boomwright.plan.quantity import QuantityError

Region = Literal[1, 2, 3]

# MHz, regions 1, 2, 3, as generally allotted to the amateur service {itu-rr-5}. 4 m has no
# regional allocation: edges of the countries that allow it {common-practice-bands}.
_EDGES_MHZ: Final = {
    "160 m": ((1.81, 1.85), (1.8, 2.0), (1.8, 2.0)),
    "80 m": ((3.5, 3.8), (3.5, 4.0), (3.5, 3.9)),
    "60 m": ((5.3515, 5.3665), (5.3515, 5.3665), (5.3515, 5.3665)),
    "40 m": ((7.0, 7.2), (7.0, 7.3), (7.0, 7.2)),
    "30 m": ((10.1, 10.15), (10.1, 10.15), (10.1, 10.15)),
    "20 m": ((14.0, 14.35), (14.0, 14.35), (14.0, 14.35)),
    "17 m": ((18.068, 18.168), (18.068, 18.168), (18.068, 18.168)),
    "15 m": ((21.0, 21.45), (21.0, 21.45), (21.0, 21.45)),
    "12 m": ((24.89, 24.99), (24.89, 24.99), (24.89, 24.99)),
    "10 m": ((28.0, 29.7), (28.0, 29.7), (28.0, 29.7)),
    "6 m": ((50.0, 52.0), (50.0, 54.0), (50.0, 54.0)),
    "4 m": ((70.0, 70.5), (70.0, 70.5), (70.0, 70.5)),
    "2 m": ((144.0, 146.0), (144.0, 148.0), (144.0, 148.0)),
    "70 cm": ((430.0, 440.0), (430.0, 440.0), (430.0, 440.0)),
}

#: band name -> lowest and highest frequency in regions 1, 2 and 3 [Hz]
AMATEUR_BANDS: Final = MappingProxyType(
    {
        name: tuple((round(low * 1e6), round(high * 1e6)) for low, high in regions)
        for name, regions in _EDGES_MHZ.items()
    }
)


def band_edges(name: str, *, region: Region = 1) -> tuple[float, float]:
    """Find lowest and highest frequency of an amateur band {itu-rr-5} [Hz] (2,).

    Args:
        name: trade name such as ``20 m`` or ``70cm``
        region: ITU region 1, 2 or 3

    Raises:
        QuantityError: no such band or region
    """
    wanted = "".join(name.lower().split())
    for known, regions in AMATEUR_BANDS.items():
        if known.replace(" ", "") == wanted:
            if region not in {1, 2, 3}:
                raise QuantityError(f"there is no ITU region {region}", "write region 1, 2 or 3")
            low, high = regions[region - 1]
            return float(low), float(high)
    close = nearest(name, AMATEUR_BANDS)
    message = "this band is not known"
    listed = ", ".join(AMATEUR_BANDS)
    remedy = f"write one of {listed}, or the two frequencies"
    raise QuantityError(message, f'did you mean "{close}"? Otherwise {remedy}' if close else remedy)
