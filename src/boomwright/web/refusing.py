"""Why something cannot be done, as who has forms reads it: nothing is spelled as in the file."""

from __future__ import annotations

from dataclasses import replace

from boomwright.base import BoomwrightError, Fault, PlanError, UnitSystem
from boomwright.base.quantity import write
from boomwright.plan.places import place_words
from boomwright.plan.read import parse_toml
from boomwright.web.form_edits import table_path


def told(error: PlanError, text: str, *, system: UnitSystem = "metric") -> PlanError:
    """Say faults as who has forms reads them: places, tables and keys in the owner's words.

    Args:
        text: the plan they are about
    """
    data = parse_toml(text.removeprefix("\ufeff"))

    def words(fault: Fault) -> Fault:
        path = table_path(fault.path)
        where = fault.where or (fault.path if path is None else place_words(path, data))
        message, remedy = (
            write(each, system=system, forms=True) for each in (fault.message, fault.remedy)
        )
        return replace(fault, where=where, message=message, remedy=remedy)

    return PlanError(tuple(map(words, error.faults)))


def refusal(
    error: BoomwrightError | OSError, text: str = "", *, system: UnitSystem = "metric"
) -> str:
    """Say why something cannot be done, in whole sentences."""
    if isinstance(error, OSError):
        return f"The file could not be used: {error.strerror or type(error).__name__}."
    if not isinstance(error, PlanError):
        parts = (error.fault, error.remedy)
        return _sentences(*(write(part, system=system, forms=True) for part in parts))
    return " ".join(
        _sentences(
            f"{f'{each.where}: ' if each.where != 'plan' else ''}{each.message}"
            f"{f' ({each.value})' if each.value else ''}",
            str(each.remedy),
        )
        for each in told(error, text, system=system).faults
    )


def _sentences(*parts: str) -> str:
    said = (part.strip() for part in parts)
    return " ".join(
        f"{part[0].upper()}{part[1:]}{'' if part[-1] in '.?!' else '.'}" for part in said if part
    )
