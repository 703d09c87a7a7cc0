"""The plan as a whole: its version, title, site, beams and the optional tables."""

from __future__ import annotations

from typing import Any, Final

from boomwright.plan.building import build_table
from boomwright.plan.faults import Place
from boomwright.plan.fields import entry
from boomwright.plan.kinds import Day, Text
from boomwright.plan.model import Plan
from boomwright.plan.numbers import Number
from boomwright.plan.spec import Tables, TableSpec, Values
from boomwright.plan.surroundings import surround
from boomwright.plan.tables.beam import BEAM, build_beam
from boomwright.plan.tables.boom import BOOM
from boomwright.plan.tables.further import FIELDS, build_further, check_further
from boomwright.plan.tables.site import SITE, build_site

#: version of the plan file this program reads and writes
PLAN_VERSION: Final = 1


class _Version(Number):
    __slots__ = ()

    def read(self, raw: Any, at: Place) -> float | None:
        """Read the version number and refuse every other than the present one."""
        if type(raw) is int and raw == PLAN_VERSION:
            return raw
        message = f"this program reads plans of version {PLAN_VERSION} only"
        newer = type(raw) is int and raw > PLAN_VERSION
        remedy = f"write boomwright = {PLAN_VERSION}"
        if newer:
            remedy = f"use a newer boomwright, or {remedy} if that was meant"
        at.fault(message, remedy=remedy)
        return None


def _check(values: Values, at: Place) -> None:
    beams: list[Values] = values.get("beam") or []
    seen: dict[str, int] = {}
    for index, beam in enumerate(beams):
        name = beam.get("name")
        if name is None:
            continue
        if name in seen:
            message = f"beam[{seen[name]}] has the same name"
            at.child("beam", index, "name").fault(message, remedy="give each beam its own name")
        seen.setdefault(name, index)
    for index, beam in enumerate(beams):
        _check_shared_boom(beam, beams, at.child("beam", index))
    ground = (values.get("site") or {}).get("ground")
    if ground is not None and ground != "free space":
        for index, beam in enumerate(beams):
            _check_height(beam, at.child("beam", index))
    check_further(values, at, ROOT)


def _check_shared_boom(beam: Values, beams: list[Values], at: Place) -> None:
    name = beam.get("on_boom_of")
    if name is None:
        return
    place = at.child("on_boom_of")
    host = next((other for other in beams if other.get("name") == name), None)
    if host is None or host is beam:
        names = ", ".join(f'"{o["name"]}"' for o in beams if o.get("name") and o is not beam)
        message = "no other beam of the plan has this name"
        place.fault(message, remedy=f"write one of {names}" if names else "take on_boom_of out")
        return
    if host.get("on_boom_of") is not None:
        message = "that beam sits on the boom of a third one"
        place.fault(message, remedy=f'write on_boom_of = "{host["on_boom_of"]}"')
        return
    for key in ("height", "heading"):
        if None not in {beam.get(key), host.get(key)} and beam[key] != host[key]:
            message = f"both beams sit on one boom but their {key} differs"
            at.child(key).fault(
                message, remedy=f"write the {key} of {name}, or take on_boom_of out"
            )


def _check_height(beam: Values, at: Place) -> None:
    height = beam.get("height")
    if height is None:
        return
    if height <= 0:
        message = "the height over a ground must be greater than 0"
        remedy = 'write the boom\'s height, such as "16 m", or take ground = "free space"'
        at.child("height").fault(message, remedy=remedy)
        return
    for number, wire in enumerate(beam.get("wire") or []):
        for corner, point in enumerate(wire.get("points") or []):
            if point and point[2] is not None and height + point[2] <= 0:
                message = "this point lies on the ground or below it"
                remedy = f"keep z above {-height:g} m, or raise the beam"
                at.child("wire", number, "points", corner).fault(message, remedy=remedy)


ROOT = TableSpec(
    noun="plan",
    check=_check,
    fields=(
        entry("boomwright", "Version of the plan file.",
              _Version(whole=True, low=PLAN_VERSION, high=PLAN_VERSION), required=True,
              example=f"boomwright = {PLAN_VERSION}"),
        entry("title", "Owner's title of the plan.", Text(), required=True,
              example='title = "Three elements for 20 m"'),
        entry("dated", "Day of issue: printed in the book, and ages of prices are counted to it.",
              Day(), example='dated = "2026-01-31"'),
        entry("site", "Where the station stands.", SITE, required=True,
              example='[site] with ground = "medium dry"'),
        entry("beam", "The antennas.", Tables(spec=BEAM, header="[[beam]]", most=50), required=True,
              example="[[beam]] with name, band, design, height, heading, material, feed"),
        *FIELDS,
    ),
)  # fmt: skip


def build_plan(values: Values) -> Plan:
    """Make the plan out of fault-free values.

    Args:
        values: what ``ROOT`` read [SI]
    """
    further = build_further(values)
    return Plan(
        title=values["title"],
        dated=values.get("dated", ""),
        site=build_site(values["site"]),
        beams=surround(
            [build_beam(beam) for beam in values["beam"]], support=further.get("support")
        ),
        booms=tuple(
            build_table(BOOM, beam["boom"], beam=beam["name"])
            for beam in values["beam"]
            if "boom" in beam
        ),
        **further,
    )
