"""A measured sweep of one port, and what can be said of its quality by itself."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import Notice, ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.tuning.errors import MeasurementError

#: reflection of a passive antenna cannot exceed one; this much is put down to calibration, or so
#: many standard deviations of the readings to noise
_PASSIVE_SLACK, _PASSIVE_SIGMAS = 0.03, 3.0
#: share of impossible readings that may be set aside; of five readings on one may
_FEW, _ENOUGH = 0.1, 5
#: impossible readings told one by one
_MOST_TOLD = 5
#: doubts about how a file was read; they may be why its readings make no sense
_READ_BY_GUESS = frozenset({"tuning.no-option-line", "tuning.frequency-unit"})
#: readings of one frequency that differ by more than this are not the same reading
_SAME_READING = 0.05
#: units that a frequency is written in, and what a wrong one among them multiplies it by
_WRITTEN = ((1e9, "GHz"), (1e6, "MHz"), (1e3, "kHz"))
_UNITS = (1e3, 1e6, 1e9, 1e-3, 1e-6, 1e-9)
#: above this the sweep is that of an open or shorted cable, not of an antenna
_NOTHING_THERE = 0.97
#: phase from one point to the next beyond which a turn may have been missed [rad]
_COARSE_STEP = 1.6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sweep(ReadOnlyArrays):
    """Reflection against frequency, as measured or with the line taken away."""

    frequencies: Floats  #: rising frequencies [Hz] (f,)
    #: reflection coefficient against ``reference``; its modulus alone when the phase is not known
    #: (f,)
    reflection: Complexes
    reference: float = 50.0  #: real reference resistance [ohm]
    phase_known: bool = True  #: False for a sweep of the standing wave ratio alone
    notices: tuple[Notice, ...] = ()  #: what was noticed on reading it

    @property
    def impedance(self) -> Complexes:
        """Impedance [ohm] (f,).

        Raises:
            MeasurementError: when only the standing wave ratio was measured
        """
        if not self.phase_known:
            msg = "this sweep holds the SWR alone; measure R and X to get an impedance"
            raise MeasurementError(msg)
        gap = 1.0 - self.reflection
        gap = np.where(np.abs(gap) < 1e-9, 1e-9, gap)
        found: Complexes = self.reference * (1.0 + self.reflection) / gap
        return found

    @property
    def swr(self) -> Floats:
        """Standing wave ratio against the reference, at most 999 (f,)."""
        size = np.minimum(np.abs(self.reflection), 0.998)
        found: Floats = (1.0 + size) / (1.0 - size)
        return found

    def between(self, *, lowest: float, highest: float) -> Sweep:
        """Keep the frequencies between two limits.

        Args:
            lowest, highest: limits, included [Hz]

        Raises:
            MeasurementError: when nothing lies between them
        """
        kept = (self.frequencies >= lowest) & (self.frequencies <= highest)
        if not kept.any():
            first, last = float(self.frequencies[0]), float(self.frequencies[-1])
            other = any(lowest <= first * by and last * by <= highest for by in _UNITS)
            remedy = (
                "its frequencies are in another unit than the file says, correct the unit"
                if other
                else "sweep the band of the beam"
            )
            raise MeasurementError(
                f"no measured frequency lies between {lowest / 1e6:.3f} and {highest / 1e6:.3f} "
                f"MHz, the sweep runs from {_written(first)} to {_written(last)}; {remedy}"
                + _hint(self.notices)
            )
        return replace(self, frequencies=self.frequencies[kept], reflection=self.reflection[kept])

    def thinned(self, *, points: int) -> Sweep:
        """Average neighbours until at most so many points are left."""
        if len(self.frequencies) <= points:
            return self
        size = -(-len(self.frequencies) // points)
        groups = np.split(
            np.arange(len(self.frequencies)), range(size, len(self.frequencies), size)
        )
        return replace(
            self,
            frequencies=np.array([self.frequencies[each].mean() for each in groups]),
            reflection=np.array([self.reflection[each].mean() for each in groups]),
        )


def _written(frequency: float) -> str:
    """Write a frequency [Hz], however far off it is."""
    size, unit = next(((each, name) for each, name in _WRITTEN if frequency >= each), (1.0, "Hz"))
    return f"{frequency / size:.6g} {unit}"


def make_sweep(
    *,
    frequencies: ArrayLike,
    reflection: ArrayLike,
    reference: float = 50.0,
    phase_known: bool = True,
    place: str = "sweep",
    notices: tuple[Notice, ...] = (),
    lines: Sequence[int] = (),
    noise: float = 0.0,
) -> Sweep:
    """Put readings in order: rising frequency, one reading each, nothing impossible.

    A few readings that no antenna gives are set aside, with a notice that names them.

    Args:
        frequencies: frequencies in any order [Hz] (n,)
        reflection: reflection coefficients [-] (n,)
        reference: real reference resistance [ohm]
        phase_known: whether the phase was measured
        lines: line of each reading in its file; none when they are not known (n,)
        noise: standard deviation of one part of a reading [-]

    Raises:
        MeasurementError: for no readings, frequencies that are not positive, readings that are
            not numbers,
            more than a few that no antenna gives, and one frequency with two different readings
    """
    hertz = np.asarray(frequencies, dtype=float)
    values = np.asarray(reflection, dtype=complex)
    _refuse_senseless(hertz, values, reference, place, lines)
    limit = 1.0 + max(_PASSIVE_SLACK, _PASSIVE_SIGMAS * noise)
    wrong = np.abs(values) > limit
    if not phase_known:
        # A standing wave ratio below one.
        wrong |= values.real < 0.0
    found = list(notices)
    if wrong.any():
        told = _impossible(hertz, values, wrong, lines=lines, phase_known=phase_known)
        text = f"{place}: {told}"
        if np.count_nonzero(wrong) > max(_FEW * len(wrong), float(len(wrong) >= _ENOUGH)):
            column = "" if phase_known else ", and check which column holds the SWR"
            raise MeasurementError(
                f"{text}. Calibrate the meter at the connector where the line is measured, and "
                f"sweep again{column}{_hint(notices)}"
            )
        found.append(
            Notice(
                code="tuning.impossible-readings",
                severity="doubt",
                text=f"{text}. Not used; the other readings are.",
                value=f"{np.abs(values).max():.3g}",
                limit=f"{limit:.3g}",
            )
        )
        hertz, values = hertz[~wrong], values[~wrong]
    if np.any(np.diff(hertz) < 0.0):
        falling = bool(np.all(np.diff(hertz) <= 0.0))
        order = "falling" if falling else "mixed"
        found.append(
            Notice(
                code="tuning.order",
                text=f"{place}: frequencies were in {order} order and have been sorted.",
            )
        )
        ranks = np.argsort(hertz, kind="stable")
        hertz, values = hertz[ranks], values[ranks]
    unique, group = np.unique(hertz, return_inverse=True)
    if len(unique) < len(hertz):
        values = _merged(unique, group, values, place)
        found.append(
            Notice(
                code="tuning.repeated-frequency",
                text=f"{place}: {len(hertz) - len(unique)} repeated readings agreed with the "
                "first ones and were averaged.",
            )
        )
    return Sweep(
        frequencies=unique,
        reflection=values,
        reference=reference,
        phase_known=phase_known,
        notices=tuple(found),
    )


def _hint(notices: Sequence[Notice]) -> str:
    """How the file was read, where that was a guess: perhaps what is wrong."""
    guessed = [str(notice.text) for notice in notices if notice.code in _READ_BY_GUESS]
    return "".join(f". {text.removesuffix('.')}" for text in guessed)


def _impossible(
    hertz: Floats,
    values: Complexes,
    wrong: NDArray[np.bool_],
    *,
    lines: Sequence[int],
    phase_known: bool,
) -> str:
    """Name readings that no passive antenna gives."""
    named = []
    for index in np.flatnonzero(wrong)[:_MOST_TOLD]:
        where = _where(int(index), lines)
        size = f"reflection {abs(values[index]):.3g}"
        if not phase_known:
            ratio = (1.0 + values[index].real) / (1.0 - values[index].real)
            size = f"SWR {ratio:.3g}"
        named.append(f"{where} ({hertz[index] / 1e6:.6g} MHz, {size})")
    count = int(np.count_nonzero(wrong))
    more = f" and {count - len(named)} more" if count > len(named) else ""
    return (
        f"{count} of {len(wrong)} readings {'reflects' if count == 1 else 'reflect'} more than was "
        f"sent, as no antenna does: {', '.join(named)}{more}"
    )


def _refuse_senseless(
    hertz: Floats, values: Complexes, reference: float, place: str, lines: Sequence[int]
) -> None:
    if hertz.size == 0:
        raise MeasurementError(f"{place}: holds no readings; save the sweep again")
    refuse_gaps(hertz, values.real, values.imag, place=place, lines=lines)
    if np.any(hertz <= 0.0):
        msg = f"{place}: frequency {hertz.min():g} Hz is not above zero; check its unit"
        raise MeasurementError(msg)
    if not (np.isfinite(reference) and reference > 0.0):
        msg = f"{place}: reference resistance {reference:g} ohm is not above zero; 50 ohm is usual"
        raise MeasurementError(msg)


def refuse_gaps(*columns: Floats, place: str, lines: Sequence[int] = ()) -> None:
    """Refuse readings that are not numbers.

    Args:
        columns: columns of readings, any unit (n,)
        lines: line of each reading in its file; none when they are not known (n,)

    Raises:
        MeasurementError: with the place of the first such reading
    """
    bad = ~np.isfinite(np.stack(columns)).all(axis=0)
    if bad.any():
        where = _where(int(np.flatnonzero(bad)[0]), lines)
        msg = f"{place}, {where}: is not a number; leave it out or measure it again"
        raise MeasurementError(msg)


def _where(index: int, lines: Sequence[int]) -> str:
    return f"line {lines[index]}" if len(lines) else f"reading {index + 1}"


def _merged(unique: Floats, group: NDArray[np.intp], values: Complexes, place: str) -> Complexes:
    count = np.bincount(group)
    mean: Complexes = np.zeros(len(unique), dtype=complex)
    np.add.at(mean, group, values)
    mean = mean / count
    apart = np.abs(values - mean[group])
    if apart.max() > _SAME_READING:
        at = unique[group[int(apart.argmax())]]
        raise MeasurementError(
            f"{place}: {at / 1e6:.6g} MHz stands there more than once with readings that differ by "
            f"{2.0 * apart.max():.2f} in reflection; keep one sweep per file"
        )
    return mean


def reading_noise(*, sweep: Sweep) -> float:
    """Scatter of a sweep about a smooth curve, from its third differences.

    Args:
        sweep: at least five evenly spaced points

    Returns:
        standard deviation of one part of the reflection; 0 when there are too few points [-]
    """
    if len(sweep.frequencies) < 5:
        return 0.0
    third = np.diff(sweep.reflection, n=3)
    parts = np.concatenate([third.real, third.imag]) if sweep.phase_known else third.real
    # Third differences of white noise have 1 + 9 + 9 + 1 times its variance; the median
    # keeps single spikes out.
    return float(1.4826 * np.median(np.abs(parts)) / np.sqrt(20.0))


def check_sweep(*, sweep: Sweep, band: tuple[float, float]) -> tuple[Notice, ...]:
    """Doubts about a sweep that can be seen without knowing the antenna.

    Args:
        band: lowest and highest frequency of use [Hz] (2,)
    """
    size = np.abs(sweep.reflection)
    found: list[Notice] = []

    def doubt(code: str, text: str, value: str, limit: str) -> None:
        found.append(Notice(code=code, text=text, severity="doubt", value=value, limit=limit))

    if size.min() > _NOTHING_THERE:
        doubt(
            "tuning.nothing-connected",
            "Nearly everything is reflected at every frequency, as by an open or shorted line: "
            "check the connectors.",
            f"{size.min():.3f}",
            f"{_NOTHING_THERE}",
        )
    low, high = float(sweep.frequencies[0]), float(sweep.frequencies[-1])
    if low > band[0] or high < band[1]:
        doubt(
            "tuning.band-not-covered",
            "The sweep does not reach both band edges; sweep somewhat beyond them.",
            f"{low / 1e6:.3f} to {high / 1e6:.3f} MHz",
            f"{band[0] / 1e6:.3f} to {band[1] / 1e6:.3f} MHz",
        )
    if sweep.phase_known and len(size) > 1:
        turn = np.abs(np.angle(sweep.reflection[1:] * sweep.reflection[:-1].conj()))
        clear = np.minimum(size[1:], size[:-1]) > 0.1
        if clear.any() and turn[clear].max() > _COARSE_STEP:
            doubt(
                "tuning.coarse-sweep",
                "The phase turns so far from one point to the next that the line length cannot "
                "be told: sweep with more points.",
                f"{np.degrees(turn[clear].max()):.0f} deg",
                f"{np.degrees(_COARSE_STEP):.0f} deg",
            )
    return tuple(found)
