"""Why something cannot be done, as who has forms reads it: nothing is spelled as in the file."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from boomwright.base import BoomwrightError, Fault, PlanError, UnitSystem
from boomwright.base.quantity import write
from boomwright.plan.places import key_words, place_words
from boomwright.plan.read import parse_toml
from boomwright.web.form_edits import table_path

#: how the file writes something -> how a form does: tables as ``[support.tower]`` and
#: ``[[beam.wire]]``, keys with their values, keys, and what stands in quotes or without
_WORDS: Final = (
    (re.compile(r"\[{1,2}(?:[a-z_]+\.)*([a-z_]+)\]{1,2}"), lambda m: f"the {key_words(m[1])}"),
    (re.compile(r"\b([a-z_]+) = (?=[\"{])"), lambda m: f"{m[1]} "),
    (re.compile(r"\b[a-z]+(?:_[a-z]+)+\b"), lambda m: key_words(m[0])),
    (re.compile(r"\ba text stands where an? ([a-z ]+) is wanted"), lambda m: f"this is no {m[1]}"),
    (re.compile(r",? without quotes|\""), lambda _: ""),
    (re.compile(r"\btrue or false\b"), lambda _: "yes or no"),
)


def _form_words(text: str) -> str:
    for written, words in _WORDS:
        text = written.sub(words, text)
    return text


def told(error: PlanError, text: str) -> PlanError:
    """Say faults as who has forms reads them: places, tables and keys in the owner's words."""
    data = parse_toml(text.removeprefix("\ufeff"))

    def words(fault: Fault) -> Fault:
        path = table_path(fault.path)
        where = fault.where or (fault.path if path is None else place_words(path, data))
        message, remedy = _form_words(fault.message), _form_words(fault.remedy)
        return replace(fault, where=where, message=message, remedy=remedy)

    return PlanError(tuple(map(words, error.faults)))


def refusal(
    error: BoomwrightError | OSError, text: str = "", *, system: UnitSystem = "metric"
) -> str:
    """Say why something cannot be done, in whole sentences."""
    if isinstance(error, OSError):
        return f"The file could not be used: {error.strerror or type(error).__name__}."
    if not isinstance(error, PlanError):
        return _sentences(*write(error.said, system=system, forms=True).split(" -> "))
    return " ".join(
        _sentences(
            f"{f'{each.where}: ' if each.where != 'plan' else ''}{each.message}"
            f"{f' ({each.value})' if each.value else ''}",
            each.remedy,
        )
        for each in told(error, text).faults
    )


def _sentences(*parts: str) -> str:
    said = (part.strip() for part in parts)
    return " ".join(
        f"{part[0].upper()}{part[1:]}{'' if part[-1] in '.?!' else '.'}" for part in said if part
    )
