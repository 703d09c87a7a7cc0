"""Taking the line between meter and feed point away, and learning what line it is."""

from __future__ import annotations

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, Notice
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.feed import CoaxType
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.installation import line_chain
from boomwright.tuning.sweep import Sweep

#: loss one way beyond which the feed point is hidden behind the line
_HIDING_LOSS_DB = 6.0
#: share of a wave sent to the far end and back below which an end is not told from another [-]
_LEAST_LEFT = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class LineReading:
    """What open and shorted ends tell of a line."""

    impedance: float  #: characteristic impedance, mean over the sweep [ohm]
    electrical_length: float  #: length times the speed of light over the speed on the line [m]
    loss_db: float  #: loss one way, mean over the sweep [dB]


def without_line(*, sweep: Sweep, line: CoaxType, length: float, loss_factor: float = 1.0) -> Sweep:
    """Move a sweep from the meter to the far end of a line.

    Args:
        loss_factor: its loss over that of the type [-]

    Raises:
        MeasurementError: when the phase was not measured or the length is negative
    """
    if not sweep.phase_known:
        msg = "an SWR alone cannot be moved along a line; measure R and X, or SWR at the antenna"
        raise MeasurementError(msg)
    if not (np.isfinite(length) and length >= 0.0):
        msg = f"line length {length:g} m is negative; give the length of line that was measured"
        raise MeasurementError(msg)
    m = line_chain(line=line, length=length, frequencies=sweep.frequencies, loss_factor=loss_factor)
    seen = sweep.impedance
    far = (m[:, 1, 1] * seen - m[:, 0, 1]) / (m[:, 0, 0] - m[:, 1, 0] * seen)
    notices = list(sweep.notices)
    loss = line.attenuation_db(frequency=float(sweep.frequencies[-1])) * length * loss_factor
    if loss > _HIDING_LOSS_DB:
        notices.append(
            Notice(
                code="tuning.line-hides-antenna",
                severity="doubt",
                text="The line loses so much that errors of the meter are magnified at the feed "
                "point; measure closer to the antenna.",
                value=f"{loss:.1f} dB",
                limit=f"{_HIDING_LOSS_DB:g} dB",
            )
        )
    return replace(
        sweep,
        reflection=(far - sweep.reference) / (far + sweep.reference),
        notices=tuple(notices),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ErrorTerms:
    """The three error terms of a one-port measurement {pozar-2012, sec. 4.5}."""

    frequencies: Floats  #: frequencies [Hz] (f,)
    directivity: Complexes  #: what the meter sees of a perfect load (f,)
    source_match: Complexes  #: reflection looking back from the reference plane (f,)
    tracking: Complexes  #: gain of the way out and back (f,)


def error_terms(
    *,
    open_end: Sweep,
    short_end: Sweep,
    load_end: Sweep,
) -> ErrorTerms:
    """Error terms from sweeps with an open, a short and a load at the feed point.

    Returns:
        the terms; they hold for everything between meter and the place of the standards

    Raises:
        MeasurementError: when frequencies differ or two standards look alike
    """
    sweeps = (open_end, short_end, load_end)
    _same_frequencies(sweeps)
    measured = np.array([each.reflection for each in sweeps]).T
    true = np.broadcast_to(np.array([1.0, -1.0, 0.0], dtype=complex), measured.shape)
    # m = e00 + t (e11 m) - t (e00 e11 - tracking), linear in e00, e11 and the last bracket.
    system = np.stack([np.ones_like(measured), true * measured, -true], axis=-1)
    if np.min(np.abs(np.linalg.det(system))) < 1e-3:
        raise MeasurementError(
            "two of the open, short and load sweeps look alike at some frequency; check that each "
            "standard was really connected"
        )
    found = np.linalg.solve(system, measured[..., None])[..., 0]
    return ErrorTerms(
        frequencies=open_end.frequencies,
        directivity=found[:, 0],
        source_match=found[:, 1],
        tracking=found[:, 0] * found[:, 1] - found[:, 2],
    )


def corrected(*, sweep: Sweep, terms: ErrorTerms) -> Sweep:
    """Apply error terms: what stands where the standards stood.

    Raises:
        MeasurementError: when the frequencies differ from those of the terms or the phase is
            not known
    """
    if not sweep.phase_known:
        raise MeasurementError("an SWR alone cannot be corrected; measure R and X")
    if not _alike(sweep.frequencies, terms.frequencies):
        msg = "the sweep and its open, short and load sweeps must share their frequencies"
        raise MeasurementError(msg)
    rest = sweep.reflection - terms.directivity
    return replace(sweep, reflection=rest / (terms.tracking + terms.source_match * rest))


def check_calibration(*, open_end: Sweep, short_end: Sweep, load_end: Sweep) -> tuple[Notice, ...]:
    """Doubts about open, short and load sweeps."""
    _same_frequencies((open_end, short_end, load_end))
    found: list[Notice] = []

    def doubt(code: str, text: str, value: str) -> None:
        found.append(Notice(code=code, text=text, severity="doubt", value=value))

    sizes = [np.abs(each.reflection) for each in (open_end, short_end, load_end)]
    if max(size.max() for size in sizes) > 1.03:
        doubt(
            "tuning.standard-active",
            "A standard reflects more than it receives: the meter needs its own calibration.",
            f"{max(size.max() for size in sizes):.3f}",
        )
    if np.median(sizes[2]) > 0.3 * np.median(sizes[0]):
        doubt(
            "tuning.load-reflects",
            "The load reflects much: is it connected, and are the sweeps in the right order?",
            f"{np.median(sizes[2]):.3f}",
        )
    apart = np.angle(-open_end.reflection * short_end.reflection.conj())
    if np.median(np.abs(apart)) > 0.5:
        doubt(
            "tuning.open-short-phase",
            "Open and short are not opposite in phase: one was taken at another place.",
            f"{np.degrees(np.median(np.abs(apart))):.0f} deg",
        )
    unlike = np.abs(np.log(np.median(sizes[0]) / np.median(sizes[1])))
    if unlike > 0.1:
        doubt(
            "tuning.open-short-loss",
            "Open and short show different losses: a connector is bad.",
            f"{8.686 * unlike:.1f} dB",
        )
    return tuple(found)


def read_open_and_short(*, open_end: Sweep, short_end: Sweep) -> LineReading:
    """Impedance, length and loss of a line from sweeps with its end open and shorted.

    Returns:
        Z0 = sqrt(Zo Zs), the rest from the reflection against it {pozar-2012, sec. 2.3}

    Raises:
        MeasurementError: for fewer than three points, or points too wide apart to follow the phase
    """
    _same_frequencies((open_end, short_end))
    frequencies = open_end.frequencies
    if len(frequencies) < 3:
        raise MeasurementError("three frequencies or more are needed to tell the length of a line")
    z0 = np.sqrt(open_end.impedance * short_end.impedance)
    z0 = np.where(z0.real < 0.0, -z0, z0)
    mean = complex(np.median(z0.real), np.median(z0.imag))
    back = (open_end.impedance - mean) / (open_end.impedance + mean)
    back = back - (short_end.impedance - mean) / (short_end.impedance + mean)
    left = float(np.median(np.abs(back))) / 2.0
    if left < _LEAST_LEFT:
        raise MeasurementError(
            "the sweeps of the line's open and shorted end read nearly the same: one file may be "
            "given for both, or the line lets nothing through; sweep each end again"
        )
    phase = np.unwrap(np.angle(back))
    steps = np.abs(np.diff(phase))
    if steps.max() > 0.8 * np.pi:
        raise MeasurementError(
            f"the phase turns by {np.degrees(steps.max()):.0f} degrees from one point to the next; "
            "sweep the line with more points"
        )
    slope = np.polyfit(frequencies - frequencies.mean(), phase, 1)[0]
    return LineReading(
        impedance=float(mean.real),
        electrical_length=float(-slope * SPEED_OF_LIGHT / (4.0 * np.pi)),
        loss_db=float(-10.0 * np.log10(left)),
    )


def _alike(first: Floats, second: Floats) -> bool:
    return first.shape == second.shape and bool(np.allclose(first, second, rtol=1e-9, atol=0.0))


def _same_frequencies(sweeps: tuple[Sweep, ...]) -> None:
    if not all(_alike(sweeps[0].frequencies, each.frequencies) for each in sweeps[1:]):
        msg = "all sweeps with standards must share their frequencies; take them in one sitting"
        raise MeasurementError(msg)
    if not all(each.phase_known for each in sweeps):
        raise MeasurementError("an SWR alone says nothing of a standard; measure R and X")
