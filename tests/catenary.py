"""The elastic catenary {irvine-cables}, which hanging guys are held against."""

from __future__ import annotations

from math import asinh, hypot, sqrt

from scipy.optimize import root


def sagging_tensions(
    *, out: float, up: float, unstretched: float, weight_per_length: float, axial_stiffness: float
) -> tuple[float, float]:
    """Tension at the top and the bottom of a sagging guy (elastic catenary) {irvine-cables}.

    Args:
        out: horizontal distance of the ends [m]
        up: difference in height of the ends [m]
        unstretched: length of the guy with no load [m]
        weight_per_length: weight of a metre [N/m]
        axial_stiffness: EA [N]

    Returns:
        tension at the top and at the bottom [N] (2,)

    Raises:
        ValueError: when no catenary of that length fits
    """
    weight = weight_per_length * unstretched

    def misfit(forces: tuple[float, float]) -> tuple[float, float]:
        pull, lift = forces
        pull = abs(pull)
        low = lift - weight
        across = pull * unstretched / axial_stiffness + pull / weight_per_length * (
            asinh(lift / pull) - asinh(low / pull)
        )
        rise = (lift * unstretched - weight * unstretched / 2.0) / axial_stiffness + (
            hypot(pull, lift) - hypot(pull, low)
        ) / weight_per_length
        return across - out, rise - up

    chord = hypot(out, up)
    slack = max(unstretched / chord - 1.0, 1e-6)
    pull = weight * out / chord / sqrt(24.0 * slack)
    guess = (pull, pull * up / out + weight / 2.0)
    found = root(misfit, guess, tol=1e-12)
    if not found.success:
        message = f"no catenary of {unstretched} m fits between ends {out} m and {up} m apart"
        raise ValueError(message)
    horizontal, vertical = abs(float(found.x[0])), float(found.x[1])
    return hypot(horizontal, vertical), hypot(horizontal, vertical - weight)
