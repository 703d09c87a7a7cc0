"""Measured sweeps from the owner's files."""

from __future__ import annotations

from pathlib import Path

from boomwright.base import BoomwrightError
from boomwright.tuning import Sweep, read_sweep_table, read_touchstone

#: largest sweep read [bytes]
_LARGEST = 5_000_000
_TOUCHSTONE = (".s1p", ".s2p")


def load_sweep(name: str, *, folder: Path, reference: float, place: str) -> Sweep:
    """Read a sweep, Touchstone by its ending ``.s1p`` or ``.s2p``, otherwise a table.

    Parameters
    ----------
    reference
        resistance the result is held against [ohm]

    Raises
    ------
    BoomwrightError
        when it cannot be read
    MeasurementError
        when it holds no sweep; the message names the line
    """
    path = folder / name
    try:
        if path.stat().st_size > _LARGEST:
            msg = f"{place}: {path.name} is over {_LARGEST // 1_000_000} MB; keep one sweep a file"
            raise BoomwrightError(msg)
        content = path.read_bytes()
    except OSError as error:
        msg = (
            f"{place}: {path.name} cannot be read ({error.strerror or error}); put it beside the "
            "plan, or correct its name"
        )
        raise BoomwrightError(msg) from error
    if path.suffix.lower() in _TOUCHSTONE:
        return read_touchstone(content=content, name=path.name, reference=reference)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        msg = f"{place}: {path.name} is no text; save the sweep as Touchstone or as CSV in UTF-8"
        raise BoomwrightError(msg) from error
    return read_sweep_table(text=text, name=path.name, reference=reference)
