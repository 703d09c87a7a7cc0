"""What an earlier search found, read back from its plain data for tables and pictures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from boomwright.charts.spacing_comparison import SpacingCurves
from boomwright.design import Allowance, Spread, Tolerance
from boomwright.solver import PatternCut

#: keys of the figures that are worst in the band, in their order
WORST = ("gain_dbi", "front_to_back_db", "front_to_rear_db", "swr")


def spacing_curves(documents: Sequence[dict[str, Any]]) -> tuple[SpacingCurves, ...]:
    """Read compared spacings back, for their pictures.

    Parameters
    ----------
    documents
        what :func:`compared_document` wrote (n,)
    """
    return tuple(
        SpacingCurves(
            spacing=one["spacing"],
            places=tuple(one["at_m"]),
            worst=_four(one["worst"]),
            kept=one["kept"],
            frequencies=np.array(one["frequency_hz"]),
            gain_dbi=np.array(one["gain_dbi"]),
            swr=np.array(one["swr"]),
            azimuth=PatternCut(
                plane="azimuth",
                at_deg=0.0,
                angle_deg=np.array(one["azimuth_deg"]),
                gain_dbi=np.array(one["azimuth_gain_dbi"]),
            ),
        )
        for one in documents
    )


def _four(worst: dict[str, float]) -> tuple[float, float, float, float]:
    gain, back, rear, swr = (worst[name] for name in WORST)
    return gain, back, rear, swr


def tolerance_from(document: dict[str, Any]) -> Tolerance:
    """Read a build tolerance back."""
    gain, back, swr = document["nominal"]
    return Tolerance(
        nominal=(gain, back, swr),
        cut_within=document["cut_within_m"],
        allowance=Allowance(**document["allowance"]),
        spreads=tuple(
            Spread(
                cause=one["cause"],
                lengthening=one["lengthening_m"],
                gain_db=(one["gain_db"][0], one["gain_db"][1]),
                front_to_back_db=(one["front_to_back_db"][0], one["front_to_back_db"][1]),
                swr=(one["swr"][0], one["swr"][1]),
            )
            for one in document["spreads"]
        ),
    )
