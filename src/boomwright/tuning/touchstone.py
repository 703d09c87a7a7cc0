"""Touchstone files of one or two ports, from their text or bytes {touchstone-1}.

The numbers are read by scikit-rf; what it lets pass or reports without a place is checked
here first, line by line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from io import StringIO

import numpy as np
from numpy.typing import NDArray

from boomwright.base import Notice
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.sweep import Sweep, make_sweep, refuse_gaps

Complexes = NDArray[np.complex128]

_UNITS = ("hz", "khz", "mhz", "ghz")
_FORMATS = ("ri", "ma", "db")
_PARAMETERS = ("s", "y", "z")
#: numbers on a data line of a version 1 file, by ports; noise lines of a two-port have five
_NUMBERS = {1: 3, 2: 9}
_NOISE_NUMBERS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scan:
    ports: int
    has_options: bool
    lines: tuple[int, ...]
    announced: int | None


def read_touchstone(
    *, content: str | bytes, name: str, reference: float = 50.0, port: int = 1, noise: float = 0.0
) -> Sweep:
    """Read the reflection at one port.

    Parameters
    ----------
    name
        its name, of which the ending ``.s1p`` or ``.s2p`` tells the number of ports
    reference
        resistance the result is held against, whatever the file's own [ohm]
    noise
        standard deviation of one part of a reading [-]

    Raises
    ------
    MeasurementError
        for a file that is malformed, truncated or empty, and for more than a few readings that
        no antenna gives; the message names the line, never what stands there
    """
    text = _decoded(content, name)
    scan = _scan(text, name)
    if not 1 <= port <= scan.ports:
        msg = f"{name}: has {scan.ports} port(s), port {port} was asked for; ask for port 1"
        raise MeasurementError(msg)
    frequencies, reflection, own = _numbers(text, name, scan, port - 1)
    notices = []
    if not scan.has_options:
        notices.append(
            Notice(
                code="tuning.no-option-line",
                severity="doubt",
                text=f"{name}: has no option line, so it was read as GHz, modulus and angle, 50 "
                "ohm. Write above the readings what they are, for instance '# MHz S RI R 50'.",
                source="touchstone-1",
            )
        )
    if scan.ports > 1:
        notices.append(
            Notice(
                code="tuning.two-port-file",
                text=f"{name}: reflection at port {port}, as if the other port ended in its "
                "reference resistance.",
            )
        )
    if np.any(own.imag != 0.0):
        notices.append(
            Notice(
                code="tuning.complex-reference",
                text=f"{name}: its reference impedance is complex; read as power waves.",
                value=f"{own[0]:.4g} ohm",
                source="kurokawa-1965",
            )
        )
    lines = scan.lines if len(scan.lines) == len(frequencies) else ()
    refuse_gaps(frequencies, reflection.real, reflection.imag, place=name, lines=lines)
    return make_sweep(
        frequencies=frequencies,
        reflection=_against(reflection, own, reference),
        reference=reference,
        place=name,
        notices=tuple(notices),
        lines=lines,
        noise=noise,
    )


def _against(reflection: Complexes, own: Complexes, reference: float) -> Complexes:
    """Refer a reflection to another resistance; what is too large to compute with is no number."""
    # Power waves {kurokawa-1965, eq. 12}: Z = (Z0* + S Z0) / (1 - S); for real Z0 the usual one.
    gap = np.where(np.abs(1.0 - reflection) < 1e-12, 1e-12, 1.0 - reflection)
    with np.errstate(over="ignore", invalid="ignore", divide="ignore"):
        impedance = (own.conj() + reflection * own) / gap
        found: Complexes = (impedance - reference) / (impedance + reference)
    return found


def _decoded(content: str | bytes, name: str) -> str:
    if isinstance(content, str):
        return content.removeprefix("\ufeff")
    if b"\x00" in content:
        msg = f"{name}: is not text; save the sweep as Touchstone (.s1p)"
        raise MeasurementError(msg)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("latin-1")


def _scan(text: str, name: str) -> _Scan:
    options, announced, keyed_ports, ports = 0, None, None, _ports_of(name)
    keyworded = False
    lines: list[int] = []
    for number, raw in enumerate(text.splitlines(), start=1):
        line = raw.split("!", 1)[0].strip()
        if not line:
            continue
        if line.startswith("["):
            keyworded = True
            key, _, rest = line[1:].partition("]")
            if key.lower() == "number of frequencies":
                announced = _whole(rest, name, number)
            if key.lower() == "number of ports":
                keyed_ports = _whole(rest, name, number)
            continue
        if line.startswith("#"):
            options += 1
            if options == 1:
                _check_options(line, name, number)
            continue
        if keyworded and announced is None:
            continue
        values = _floats(line, name, number)
        ports = ports or (2 if len(values) == _NUMBERS[2] else 1)
        _check_count(len(values), ports, name, number, len(lines))
        if len(values) != _NOISE_NUMBERS:
            lines.append(number)
    ports = keyed_ports or ports or 1
    if ports not in _NUMBERS:
        msg = f"{name}: has {ports} ports; save the port of the antenna as a .s1p file"
        raise MeasurementError(msg)
    if not lines:
        msg = f"{name}: holds no readings; the sweep was not saved or the file was cut off"
        raise MeasurementError(msg)
    return _Scan(ports=ports, has_options=options > 0, lines=tuple(lines), announced=announced)


def _ports_of(name: str) -> int | None:
    match = re.search(r"\.s(\d+)p$", name.lower())
    return int(match.group(1)) if match else None


def _whole(text: str, name: str, number: int) -> int:
    try:
        return int(text)
    except ValueError:
        msg = f"{name}, line {number}: its keyword wants a whole number; save the sweep again"
        raise MeasurementError(msg) from None


def _floats(line: str, name: str, number: int) -> list[float]:
    values = []
    for place, word in enumerate(line.split(), start=1):
        try:
            values.append(float(word))
        except ValueError:
            msg = f"{name}, line {number}: word {place} is not a number; save the sweep again"
            raise MeasurementError(msg) from None
    return values


def _check_count(found: int, ports: int, name: str, number: int, before: int) -> None:
    wanted = _NUMBERS.get(ports)
    noise = ports == 2 and found == _NOISE_NUMBERS and before > 0
    if wanted is not None and found != wanted and not noise:
        msg = (
            f"{name}, line {number}: {found} numbers where a {ports}-port file has {wanted}; the "
            "file was cut off or damaged, save the sweep again"
        )
        raise MeasurementError(msg)


def _check_options(line: str, name: str, number: int) -> None:
    words = line[1:].lower().split()
    count = len(words)
    while words:
        word = words.pop(0)
        if word in (*_UNITS, *_FORMATS, *_PARAMETERS):
            continue
        if word == "r":
            _check_reference(words, name, number)
            return
        msg = (
            f"{name}, line {number}: word {count - len(words)} of the option line is unknown; "
            "write for instance '# MHz S RI R 50'"
        )
        raise MeasurementError(msg)


def _check_reference(words: list[str], name: str, number: int) -> None:
    try:
        values = [complex(word.strip("()").replace("i", "j")) for word in words]
    except ValueError:
        values = []
    if len(values) != 1 or not values[0].real > 0.0 or not np.isfinite(values[0]):
        msg = (
            f"{name}, line {number}: the reference impedance is not one number with a positive "
            "resistance; write 'R 50', or 'R 50+10j' for a complex one"
        )
        raise MeasurementError(msg)


def _numbers(
    text: str, name: str, scan: _Scan, port: int
) -> tuple[NDArray[np.float64], Complexes, Complexes]:
    from skrf.io.touchstone import Touchstone  # slow to import, only needed here

    stream = StringIO(text)
    stream.name = name if _ports_of(name) else f"{name}.s{scan.ports}p"
    try:
        with np.errstate(all="ignore"):
            file = Touchstone(stream)
        frequencies = np.asarray(file.f, dtype=float)
        reflection = np.asarray(file.s, dtype=complex)[:, port, port]
        own = np.asarray(file.z0, dtype=complex)
    except (
        ValueError,
        IndexError,
        KeyError,
        TypeError,
        AttributeError,
        NotImplementedError,
    ) as why:
        msg = f"{name}: cannot be read as Touchstone; save the sweep again"
        raise MeasurementError(msg) from why
    if own.ndim == 2:
        own = own[:, port]
    if scan.announced not in (None, len(frequencies)):
        msg = (
            f"{name}: announces {scan.announced} frequencies and holds {len(frequencies)}; the "
            "file was cut off"
        )
        raise MeasurementError(msg)
    if len(own) != len(frequencies):
        msg = f"{name}: holds {len(own)} reference impedances for {len(frequencies)} frequencies"
        raise MeasurementError(msg)
    return frequencies, reflection, own
