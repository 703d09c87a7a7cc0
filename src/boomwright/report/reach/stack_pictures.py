"""The pictures of beams together: fed in every way, and one on a ring that turns."""

from __future__ import annotations

from typing import Any

from boomwright.charts import ReadingTable, ShownPicture, ShownTable
from boomwright.reach import RingReading, RingSweep
from boomwright.report.reach.drawing import Drawing, band_words, length_unit, length_words
from boomwright.study.reach_results import StackResult


def stack_pictures(stack: StackResult, draw: Drawing) -> list[ShownPicture]:
    """Draw beams fed alone and together."""
    unit, name = length_unit(draw.system)
    made = [
        draw.curves(
            "stack",
            "Beams fed alone and together",
            x=stack.cuts[0][1].angle_deg,
            curves=[(name, cut.gain_dbi) for name, cut in stack.cuts],
            x_label="elevation above the horizon, degrees",
            x_name="elevation",
            caption="An idle beam stays on the tower, its feed open; coupling is solved.",
            deepest=35.0,
        )
    ]
    if stack.phases:
        bounds = ", ".join(
            f"{each.bound_dbi:.2f} dBi at {each.elevation_deg:.1f}°" for each in stack.phases
        )
        made.append(
            draw.curves(
                "stack-phase",
                "Phase between two beams",
                x=stack.phases[0].phase_deg,
                curves=[(f"at {each.elevation_deg:.1f}°", each.gain_dbi) for each in stack.phases],
                x_label="upper beam behind the lower, degrees",
                x_name="turn",
                deepest=25.0,
                caption=(
                    "Gain at the strongest lobe and at the wanted angles, equal feed currents. "
                    f"No feeding of any size and phase exceeds {bounds}."
                ),
            )
        )
    if stack.spacings:
        curves = [(f"both, at {each.elevation_deg:.1f}°", each.gain_dbi) for each in stack.spacings]
        first = stack.spacings[0]
        curves.append((f"upper alone, at {first.elevation_deg:.1f}°", first.alone_dbi))
        best = ", ".join(
            f"{length_words(each.best_height, draw.system)} at {each.elevation_deg:.1f}°"
            for each in stack.spacings
        )
        made.append(
            draw.curves(
                "stack-spacing",
                "Height of the lower beam, both in phase",
                x=first.heights / unit,
                curves=curves,
                x_label=f"lower boom above ground, {name}",
                x_name="height" if draw.system == "metric" else "feet",
                deepest=25.0,
                caption=(
                    "The upper beam stays where the plan has it; alone means the lower one idle. "
                    f"Best from {best}."
                ),
            )
        )
    return made


def ring_pictures(ring: RingSweep, draw: Drawing) -> list[ShownPicture]:
    """Draw what each beam does as the other turns on its ring."""
    both = (ring.fixed, ring.turning)
    shared: dict[str, Any] = {
        "x": ring.turn_deg,
        "x_label": f"heading of {ring.turning.name} against {ring.fixed.name}, degrees",
        "mark": _mark(ring),
    }
    return [
        draw.curves(
            "stack-ring-gain",
            "Gain as one beam turns on its ring",
            curves=[(_label(each), each.gain_dbi) for each in both],
            x_name="ring",
            caption=(
                "Each fed alone, towards its own heading at its own strongest lobe; the other's "
                f"feed is {ring.idle}. Coupling is solved at every heading. {_swing(both)}"
            ),
            **shared,
        ),
        draw.curves(
            "stack-ring-front-to-back",
            "Front-to-back ratio as one beam turns on its ring",
            curves=[(_label(each), each.front_to_back_db) for each in both],
            x_name="ring_ratio",
            y_label="front-to-back ratio, dB",
            y_unit="dB",
            caption="At the same elevations, exactly backwards.",
            **shared,
        ),
        draw.curves(
            "stack-ring-impedance",
            "Impedance as one beam turns on its ring",
            curves=[
                curve
                for each in both
                for curve in (
                    (f"{each.name}: R", each.impedance.real),
                    (f"{each.name}: X", each.impedance.imag),
                )
            ],
            x_name="ring_ohm",
            y_label="impedance, ohm",
            y_unit="ohm",
            caption="At each feed, at the design frequency of its beam.",
            **shared,
        ),
    ]


def _label(each: RingReading) -> str:
    return f"{each.name}, {each.frequency / 1e6:.3f} MHz, {each.elevation_deg:.1f}°"


def _mark(ring: RingSweep) -> tuple[float, str] | None:
    # Left and right are alike unless the sweep runs all round.
    own = ring.own_deg % 360.0 if ring.turn_deg[-1] > 180.0 else abs(ring.own_deg)
    return (own, "plan") if ring.turn_deg[0] <= own <= ring.turn_deg[-1] else None


def _swing(both: tuple[RingReading, RingReading]) -> str:
    return " ".join(
        f"{each.name} swings by {each.gain_dbi.max() - each.gain_dbi.min():.2f} dB, each figure "
        f"{band_words(each.gain_error_db)} dB."
        for each in both
    )


def ring_table(ring: RingSweep) -> ShownTable:
    """List both beams against the difference of their headings."""
    both = (ring.fixed, ring.turning)
    return ShownTable(
        name="stack-ring",
        caption=f"{ring.turning.name} on a ring, turned against {ring.fixed.name}",
        table=ReadingTable(
            header=(
                "apart, degrees",
                *(
                    f"{each.name}: {what}"
                    for each in both
                    for what in ("gain, dBi", "front-to-back, dB", "impedance, ohm")
                ),
            ),
            rows=tuple(
                (
                    f"{turn:.0f}",
                    *(
                        cell
                        for each in both
                        for cell in (
                            f"{each.gain_dbi[row]:.2f}".replace("-", "−"),
                            f"{each.front_to_back_db[row]:.1f}".replace("-", "−"),
                            f"{each.impedance[row]:.1f}".replace("-", "−"),
                        )
                    ),
                )
                for row, turn in enumerate(ring.turn_deg)
            ),
        ),
        note=" ".join(
            f"{each.name} at {each.frequency / 1e6:.3f} MHz and elevation "
            f"{each.elevation_deg:.1f}°: {band_words(each.gain_error_db)} dB, "
            f"{band_words(each.front_to_back_error_db, 1)} dB, "
            f"{band_words(each.impedance_error, 1)} ohm."
            for each in both
        ),
    )
