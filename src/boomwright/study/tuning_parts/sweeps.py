"""Measured sweeps from the owner's files."""

from __future__ import annotations

from boomwright.base import BoomwrightError
from boomwright.base.files import SWEEP_FILE, ReadFile, last_part
from boomwright.base.quantity import InPlan, phrase
from boomwright.tuning import Sweep, read_sweep_table, read_touchstone
from boomwright.tuning.touchstone import has_option_line

_TOUCHSTONE = (".s1p", ".s2p")


def load_sweep(
    name: str, *, files: ReadFile, reference: float, place: str, noise: float = 0.0
) -> Sweep:
    """Read a sweep that a plan names: Touchstone by its ending or its option line, else a table.

    Args:
        reference: resistance the result is held against [ohm]
        place: where the plan names it
        noise: standard deviation of one part of a reading [-]

    Raises:
        BoomwrightError: when it cannot be read
        MeasurementError: when it holds no sweep; the message names the line
    """
    shown = last_part(name)
    try:
        content = files(name, place, SWEEP_FILE)
    except OSError as error:
        said = phrase(
            "{shown} cannot be read ({reason}); put it beside the plan, or correct its name{place}",
            shown=shown, reason=error.strerror or str(error), place=_named(place),
        )  # fmt: skip
        raise BoomwrightError(said) from error
    if shown.lower().endswith(_TOUCHSTONE) or has_option_line(content):
        return read_touchstone(content=content, name=shown, reference=reference, noise=noise)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        said = phrase(
            "{shown} is no text; save the sweep as Touchstone or as CSV in UTF-8{place}",
            shown=shown, place=_named(place),
        )  # fmt: skip
        raise BoomwrightError(said) from error
    return read_sweep_table(text=text, name=shown, reference=reference, noise=noise)


def _named(place: str) -> InPlan:
    table, _, key = place.rpartition(".")
    return InPlan(table, (key,))
