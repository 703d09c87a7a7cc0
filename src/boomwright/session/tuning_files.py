"""Measured sweeps from the owner's files."""

from __future__ import annotations

from boomwright.base import BoomwrightError
from boomwright.session.files import SWEEP_FILE, Folder, beside, read_file
from boomwright.tuning import Sweep, read_sweep_table, read_touchstone

_TOUCHSTONE = (".s1p", ".s2p")


def load_sweep(
    name: str, *, folder: Folder, reference: float, place: str, noise: float = 0.0
) -> Sweep:
    """Read a sweep, Touchstone by its ending ``.s1p`` or ``.s2p``, otherwise a table.

    Parameters
    ----------
    reference
        resistance the result is held against [ohm]
    noise
        standard deviation of one part of a reading [-]

    Raises
    ------
    BoomwrightError
        when it cannot be read
    MeasurementError
        when it holds no sweep; the message names the line
    """
    path = beside(folder, name, place=place)
    try:
        content = read_file(path, kind=SWEEP_FILE)
    except OSError as error:
        msg = (
            f"{place}: {path.name} cannot be read ({error.strerror or error}); put it beside the "
            "plan, or correct its name"
        )
        raise BoomwrightError(msg) from error
    if path.suffix.lower() in _TOUCHSTONE:
        return read_touchstone(content=content, name=path.name, reference=reference, noise=noise)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        msg = f"{place}: {path.name} is no text; save the sweep as Touchstone or as CSV in UTF-8"
        raise BoomwrightError(msg) from error
    return read_sweep_table(text=text, name=path.name, reference=reference, noise=noise)
