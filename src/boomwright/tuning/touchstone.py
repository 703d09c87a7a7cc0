"""Touchstone files of one or two ports, from their text or bytes {touchstone-1, touchstone-2}.

Line by line, so that whatever is wrong is told with its place. Comments count for nothing, whoever
writes figures into them. Of two ports one reflection is wanted: which transfer term comes first in
a line does not matter to it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from boomwright.base import Notice
from boomwright.base.array_types import Complexes
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.sweep import Sweep, make_sweep, refuse_gaps

_UNITS = {"hz": 1.0, "khz": 1e3, "mhz": 1e6, "ghz": 1e9}
_FORMATS = ("ri", "ma", "db")
_PARAMETERS = ("s", "y", "z")
#: numbers on a line of readings, by ports; a line of noise parameters has five
_NUMBERS = {1: 3, 2: 9}
_NOISE_NUMBERS = 5


@dataclass(slots=True, kw_only=True)
class _File:
    """What of a file was read so far; the defaults are those of its standard."""

    name: str
    ports: int | None
    part: str = "readings"  #: of version 2 files header, then readings, then rest; else no header
    absolute: bool = False  #: impedances in ohm (version 2), not as multiples of the reference
    options: int = 0  #: option lines so far; the first one counts
    unit: str = "ghz"
    parameter: str = "s"
    form: str = "ma"
    references: list[complex] = field(default_factory=lambda: [50.0 + 0.0j])
    announced: int | None = None
    waiting: int = 0  #: reference resistances that may follow on lines of their own
    rows: list[list[float]] = field(default_factory=list)
    lines: list[int] = field(default_factory=list)


def read_touchstone(
    *, content: str | bytes, name: str, reference: float = 50.0, port: int = 1, noise: float = 0.0
) -> Sweep:
    """Read the reflection at one port.

    Args:
        name: its name, of which the ending ``.s1p`` or ``.s2p`` tells the number of ports
        reference: resistance the result is held against, whatever the file's own [ohm]
        noise: standard deviation of one part of a reading [-]

    Raises:
        MeasurementError: for a file that is malformed, truncated or empty, and for more than a
            few readings
            that no antenna gives; the message names the line, never what stands there
    """
    text = _decoded(content, name)
    file = _File(name=name, ports=_ports_of(name))
    for number, raw in enumerate(text.splitlines(), start=1):
        if line := raw.split("!", 1)[0].strip():
            _take(line, file, number)
    ports = _complete(file)
    if not 1 <= port <= ports:
        msg = f"{name}: has {ports} port(s), port {port} was asked for; ask for port 1"
        raise MeasurementError(msg)
    frequencies, reflection = _readings(file, port - 1)
    own = file.references[port - 1]
    notices = []
    if not file.options:
        notices.append(
            Notice(
                code="tuning.no-option-line",
                severity="doubt",
                text=f"{name}: has no option line, so it was read as GHz, modulus and angle, 50 "
                "ohm. Write above the readings what they are, for instance '# MHz S RI R 50'.",
                source="touchstone-1",
            )
        )
    if ports > 1:
        notices.append(
            Notice(
                code="tuning.two-port-file",
                text=f"{name}: reflection at port {port}, as if the other port ended in its "
                "reference resistance.",
            )
        )
    if own.imag != 0.0:
        notices.append(
            Notice(
                code="tuning.complex-reference",
                text=f"{name}: its reference impedance is complex; read as power waves.",
                value=f"{own:.4g} ohm",
                source="kurokawa-1965",
            )
        )
    lines = tuple(file.lines)
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


def has_option_line(content: bytes) -> bool:
    """Whether a file begins as Touchstone does, whatever its name says."""
    text = content[:10_000].decode("utf-8-sig", errors="replace")
    lines = (line.strip().lower() for line in text.splitlines())
    first = next((line for line in lines if line and not line.startswith("!")), "")
    words = first.removeprefix("#").split()
    return first.startswith("#") and bool({*_UNITS} & {*words}) and bool({*_FORMATS} & {*words})


def _against(reflection: Complexes, own: complex, reference: float) -> Complexes:
    """Refer a reflection to another resistance; what is too large to compute with is no number."""
    # Power waves {kurokawa-1965, eq. 12}: Z = (Z0* + S Z0) / (1 - S); for real Z0 the usual one.
    gap = np.where(np.abs(1.0 - reflection) < 1e-12, 1e-12, 1.0 - reflection)
    with np.errstate(over="ignore", invalid="ignore", divide="ignore"):
        impedance = (own.conjugate() + reflection * own) / gap
        found: Complexes = (impedance - reference) / (impedance + reference)
    return found


def _decoded(content: str | bytes, name: str) -> str:
    if isinstance(content, str):
        return content.removeprefix("\ufeff")
    if b"\x00" in content:
        raise MeasurementError(f"{name}: is not text; save the sweep as Touchstone (.s1p)")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("latin-1")


def _take(line: str, file: _File, number: int) -> None:
    """Take one line, without its comment, into what was read so far."""
    if line.startswith("["):
        key, _, rest = line[1:].partition("]")
        _take_keyword(key.strip().lower(), rest.strip(), file, number)
    elif line.startswith("#"):
        file.options += 1
        if file.options == 1:
            _take_options(line, file, number)
    elif file.part == "header":
        if file.waiting > 0:
            _take_references(line, file, number)
    elif file.part == "readings":
        _take_reading(_floats(line, file.name, number), file, number)


def _take_keyword(key: str, rest: str, file: _File, number: int) -> None:
    """Take a keyword of version 2; what none of a reflection's figures hang on is passed over."""
    if file.rows and key not in {"noise data", "end"}:
        msg = f"{file.name}, line {number}: a keyword among the readings; save the sweep again"
        raise MeasurementError(msg)
    if key == "version":
        if not rest.startswith("1"):
            file.absolute, file.part = True, "header"
    elif not file.absolute:
        msg = f"{file.name}, line {number}: a keyword without [Version] above; save the sweep again"
        raise MeasurementError(msg)
    elif key == "number of ports":
        file.ports = _whole(rest, file.name, number)
    elif key == "number of frequencies":
        file.announced = _whole(rest, file.name, number)
    elif key == "reference":
        file.references, file.waiting = [], file.ports or 1
        _take_references(rest, file, number)
    elif key == "mixed-mode order":
        raise MeasurementError(
            f"{file.name}, line {number}: its ports are mixed modes; save the antenna's port alone"
        )
    elif key == "network data":
        file.part = "readings"
    elif key in {"noise data", "end"}:
        file.part = "rest"


def _take_references(text: str, file: _File, number: int) -> None:
    for value in _floats(text, file.name, number):
        _refuse_reference(complex(value), file, number)
        file.references.append(complex(value))
        file.waiting -= 1


def _take_reading(values: list[float], file: _File, number: int) -> None:
    file.ports = file.ports or (2 if len(values) == _NUMBERS[2] else 1)
    noise = (
        file.ports == 2
        and len(values) == _NOISE_NUMBERS
        and bool(file.rows)
        and values[0] <= max(row[0] for row in file.rows)
    )
    if noise and not file.absolute:  # noise parameters follow where the frequency falls back
        file.part = "rest"
        return
    wanted = _NUMBERS.get(file.ports)
    if wanted is not None and len(values) != wanted:
        raise MeasurementError(
            f"{file.name}, line {number}: {len(values)} numbers where a {file.ports}-port file has "
            f"{wanted}; the file was cut off or damaged, save the sweep again"
        )
    file.rows.append(values)
    file.lines.append(number)


def _complete(file: _File) -> int:
    """Hold the file against what it says of itself; gives its ports."""
    ports = file.ports or 1
    if ports not in _NUMBERS:
        msg = f"{file.name}: has {ports} ports; save the port of the antenna as a .s1p file"
        raise MeasurementError(msg)
    if not file.rows:
        msg = f"{file.name}: holds no readings; the sweep was not saved or the file was cut off"
        raise MeasurementError(msg)
    if file.announced not in (None, len(file.rows)):
        raise MeasurementError(
            f"{file.name}: announces {file.announced} frequencies and holds {len(file.rows)}; the "
            "file was cut off"
        )
    if len(file.references) == 1:
        file.references *= ports
    normalised = file.parameter != "s" and not file.absolute
    if len(file.references) != ports or (normalised and len(set(file.references)) > 1):
        msg = f"{file.name}: does not name one reference resistance a port; write 'R 50'"
        raise MeasurementError(msg)
    return ports


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
            comma = re.fullmatch(r"[-+]?\d*,\d+(e[-+]?\d+)?", word.lower())
            fault = (
                "has a decimal comma; save the sweep with decimal points, or as a table"
                if comma
                else "is not a number; save the sweep again, a table with a name ending in .csv"
            )
            raise MeasurementError(f"{name}, line {number}: word {place} {fault}") from None
    return values


def _take_options(line: str, file: _File, number: int) -> None:
    """Take the option line: its words come in any order, the resistance after its R."""
    words = line[1:].lower().split()
    count = len(words)
    while words:
        word = words.pop(0)
        if word in _UNITS:
            file.unit = word
        elif word in _PARAMETERS:
            file.parameter = word
        elif word in _FORMATS:
            file.form = word
        elif word == "r":
            _take_resistance(words, file, number)
        else:
            raise MeasurementError(
                f"{file.name}, line {number}: word {count - len(words)} of the option line is "
                "unknown; write for instance '# MHz S RI R 50'"
            )


def _take_resistance(words: list[str], file: _File, number: int) -> None:
    """Take the numbers after the R: one, or in version 1.1 one a port."""
    found = []
    while words and words[0] not in (*_UNITS, *_PARAMETERS, *_FORMATS):
        try:
            found.append(complex(words.pop(0).strip("()").replace("i", "j")))
        except ValueError:
            found = []
            break
    if len(found) not in {1, file.ports}:
        found = [complex("nan")]
    for value in found:
        _refuse_reference(value, file, number)
    file.references = found


def _refuse_reference(value: complex, file: _File, number: int) -> None:
    if not value.real > 0.0 or not np.isfinite(value):
        raise MeasurementError(
            f"{file.name}, line {number}: the reference impedance is not one number with a "
            "positive resistance; write 'R 50', or 'R 50+10j' for a complex one"
        )


def _readings(file: _File, port: int) -> tuple[NDArray[np.float64], Complexes]:
    """Frequencies [Hz] and the reflection at one port against its own reference."""
    table = np.array(file.rows)
    pairs = table[:, 1:].reshape(len(table), -1, 2)
    with np.errstate(all="ignore"):  # what is no number is refused with its line
        frequencies = table[:, 0] * _UNITS[file.unit]
        if file.form == "ri":
            terms = pairs[:, :, 0] + 1j * pairs[:, :, 1]
        else:
            size = 10.0 ** (pairs[:, :, 0] / 20.0) if file.form == "db" else pairs[:, :, 0]
            terms = size * np.exp(1j * np.radians(pairs[:, :, 1]))
        if file.parameter != "s":
            return frequencies, _reflection(terms, file, port)
    return frequencies, terms[:, 0 if port == 0 else -1]


def _reflection(terms: Complexes, file: _File, port: int) -> Complexes:
    """Reflection of impedances or admittances, the other port ended in its reference.

    Power waves {kurokawa-1965}: (Z - G*)(Z + G)^-1, of admittances (1 - G* Y)(1 + G Y)^-1, with G
    the diagonal of the references. Version 1 holds multiples of the reference.
    """
    ports = len(file.references)
    matrix = terms.reshape(-1, ports, ports)
    if not file.absolute:
        own = file.references[port]
        matrix = matrix * own if file.parameter == "z" else matrix / own
    ends = np.diag(file.references)
    if file.parameter == "z":
        above, below = matrix - ends.conj(), matrix + ends
    else:
        above, below = np.eye(ports) - ends.conj() @ matrix, np.eye(ports) + ends @ matrix
    one, other = port, ports - 1 - port
    if ports == 1:
        return np.asarray(above[:, 0, 0] / below[:, 0, 0])
    far, back = below[:, other, other], below[:, other, one]
    found: Complexes = (above[:, one, one] * far - above[:, one, other] * back) / (
        below[:, one, one] * far - below[:, one, other] * back
    )
    return found
