"""The tables of reach, as page and book both show them."""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.charts import ReadingTable, ShownTable
from boomwright.reach import Advantage
from boomwright.report.reach.drawing import band_words, far_unit, length_words
from boomwright.study.reach_results import BeamReach, ReachResult, StackResult


def _number(value: complex, spec: str) -> str:
    """A number for people, with a true minus sign."""
    return f"{value:{spec}}".replace("-", "−")


def _gain(gain_dbi: float) -> str:
    """Deep in the null at the horizon only the fact counts, not the figure."""
    return "below −20" if gain_dbi < -20.0 else _number(gain_dbi, ".1f")


def _advantage(found: Advantage) -> str:
    return f"{_number(found.decibels, '+.1f')} dB ({_number(found.s_units, '+.1f')} S)"


def advantage_table(each: BeamReach) -> ShownTable:
    """List what the beam is worth against plain antennas."""
    count = len(each.plain)
    return ShownTable(
        name="advantages",
        caption="Gain over plain antennas at wanted elevations, dB and S-units of 6 dB",
        table=ReadingTable(
            header=("over", *(f"at {angle:g}°" for angle in each.wanted_deg)),
            rows=tuple(
                (
                    plain.name,
                    *(_advantage(a) for a in each.advantages[index::count]),
                )
                for index, plain in enumerate(each.plain)
            ),
        ),
        note="The vertical stands on a lossless radial system: the best it can do.",
    )


def pointing_table(each: BeamReach) -> ShownTable:
    """List how far off the heading costs how much."""
    return ShownTable(
        name="pointing",
        caption=f"Off the heading, at elevation {each.take_off_deg:.1f}°",
        table=ReadingTable(
            header=("loss, dB", "left, degrees", "right, degrees"),
            rows=tuple(
                (f"{p.loss_db:g}", f"{p.left_deg:.0f}", f"{p.right_deg:.0f}") for p in each.pointing
            ),
        ),
    )


def path_table(each: BeamReach, *, system: UnitSystem = "metric") -> ShownTable:
    """List the paths to the targets."""
    unit, name = far_unit(system)
    return ShownTable(
        name="paths",
        caption="Paths, the short and the long way",
        table=ReadingTable(
            header=(
                "to",
                "way",
                "bearing",
                f"distance, {name}",
                "off the heading",
                "costs, dB",
                "time to turn, s",
            ),
            rows=tuple(
                (
                    path.target,
                    path.path.way,
                    f"{path.path.bearing_deg:.1f}°",
                    f"{path.path.distance / unit:.0f}",
                    f"{abs(path.off_heading_deg):.0f}° "
                    + ("right" if path.off_heading_deg < 0 else "left"),
                    f"{path.off_heading_db:.1f}",
                    "not known" if path.turn_time is None else f"{path.turn_time:.0f}",
                )
                for path in each.paths
            ),
        ),
        note="Geodesics of WGS84; the place of a locator is the middle of its square.",
    )


def hop_table(each: BeamReach, *, system: UnitSystem = "metric") -> ShownTable:
    """List the ways to cover each path by hops, with the gain the antenna has there."""
    unit, name = far_unit(system)
    return ShownTable(
        name="hops",
        caption="Elevations for equal hops, the beam turned there, and what it is worth",
        table=ReadingTable(
            header=(
                "to",
                "way",
                f"layer, {name}",
                "hops",
                "elevation",
                "gain, dBi",
                "over dipole, same height",
                "over dipole at 10 m",
                "over vertical",
            ),
            rows=tuple(
                (
                    path.target,
                    path.path.way,
                    f"{h.hop.layer.name}, {h.hop.layer.lowest / unit:.0f} to "
                    f"{h.hop.layer.highest / unit:.0f}",
                    str(h.hop.hops),
                    f"{h.hop.lowest_elevation_deg:.1f} to {h.hop.highest_elevation_deg:.1f}°",
                    f"{_gain(h.hop.lowest_gain_dbi)} to {_gain(h.hop.highest_gain_dbi)}",
                    *(_advantage(a) for a in h.advantages),
                )
                for path in each.paths
                for h in path.hops
            ),
        ),
        note="Mirror geometry; whether a layer reflects at that hour is another question.",
    )


def stack_table(stack: StackResult) -> ShownTable:
    """List the ways of feeding a stack."""
    rows: list[tuple[str, ...]] = []
    for (name, cut), impedances in zip(stack.cuts, stack.impedances, strict=True):
        best = int(cut.gain_dbi.argmax())
        rows.append(
            (
                name,
                f"{cut.gain_dbi[best]:.1f}",
                f"{cut.angle_deg[best]:.1f}°",
                "; ".join("idle" if z is None else _number(z, ".1f") for z in impedances),
            )
        )
    gain = stack.gain
    return ShownTable(
        name="stack-feeding",
        caption="Beams fed alone and together",
        table=ReadingTable(
            header=("fed", "peak gain, dBi", "at", "impedance of each feed, ohm"), rows=tuple(rows)
        ),
        note=(
            f"In phase {gain.decibels:+.2f} {band_words(gain.error_db)} dB over the best alone, "
            f"{gain.over_bare_db:+.2f} dB over it with the others off the tower."
        ),
    )


def best_table(stack: StackResult, *, system: UnitSystem = "metric") -> ShownTable:
    """List the best phase and the best spacing of two beams at the wanted elevations."""
    return ShownTable(
        name="stack-best",
        caption="Best phase and best height of the lower beam",
        table=ReadingTable(
            header=(
                "elevation",
                "best phase",
                "gain, dBi",
                "no feeding exceeds, dBi",
                "best lower height, in phase",
                "gain there, dBi",
            ),
            rows=tuple(
                (
                    f"{phase.elevation_deg:.1f}°",
                    f"{phase.best_phase_deg:.0f}°",
                    _number(phase.best_gain_dbi, ".2f"),
                    _number(phase.bound_dbi, ".2f"),
                    length_words(spacing.best_height, system),
                    _number(float(spacing.gain_dbi.max()), ".2f"),
                )
                for phase, spacing in zip(stack.phases, stack.spacings, strict=True)
            ),
        ),
        note="Phase: the upper feed current behind the lower, both equal.",
    )


def isolation_table(result: ReachResult) -> ShownTable:
    """List how much of one beam's power reaches another's feed."""
    return ShownTable(
        name="stack-isolation",
        caption="Isolation between the beams",
        table=ReadingTable(
            header=("from", "to", "at, MHz", "isolation, dB", "arrives, W"),
            rows=tuple(
                (
                    each.sender,
                    each.receiver,
                    f"{each.frequency / 1e6:.3f}",
                    f"{each.decibels:.1f}",
                    "no transmitter named" if each.received is None else f"{each.received:.3g}",
                )
                for each in result.isolation
            ),
        ),
        note="Both feeds end in 50 ohm; filters come on top.",
    )
