"""The plan as a whole: its version, title, site, beams and the optional tables."""

from __future__ import annotations

import math
from typing import Any, Final

from boomwright.base.quantity import Value, phrase
from boomwright.plan.building import build_table
from boomwright.plan.faults import Place, written
from boomwright.plan.fields import entry
from boomwright.plan.kinds import Day, Text
from boomwright.plan.model import Plan
from boomwright.plan.numbers import Number
from boomwright.plan.spec import Tables, TableSpec, Values
from boomwright.plan.surroundings import surround
from boomwright.plan.tables.beam import BEAM, build_beam
from boomwright.plan.tables.boom import BOOM
from boomwright.plan.tables.frame import check_carried, drooped, feed_point
from boomwright.plan.tables.further import FIELDS, build_further, check_further
from boomwright.plan.tables.site import SITE, build_site

#: feed points that share their terminals are no further apart [m]
_LONGEST_LEADS = 0.3
#: rounding of lengths [m]
_ROUNDED = 2e-3
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
            message = f"beam {seen[name] + 1} of this plan has the same name"
            at.child("beam", index, "name").fault(message, remedy="give each beam its own name")
        seen.setdefault(name, index)
    for index, beam in enumerate(beams):
        _check_shared_boom(beam, beams, at.child("beam", index))
        _check_shared_feed(beam, beams, at.child("beam", index))
    ground = (values.get("site") or {}).get("ground")
    if ground is not None and ground != "free space":
        for index, beam in enumerate(beams):
            _check_height(beam, at.child("beam", index))
    check_further(values, at, ROOT)


def _host(key: str, beam: Values, beams: list[Values], at: Place) -> Values | None:
    """The beam that a key names; None without the key, or when it cannot be that one."""
    name = beam.get(key)
    if name is None:
        return None
    place = at.child(key)
    host = next((other for other in beams if other.get("name") == name), None)
    if host is None or host is beam:
        names = ", ".join(f'"{o["name"]}"' for o in beams if o.get("name") and o is not beam)
        message = "no other beam of the plan has this name"
        place.fault(message, remedy=f"write one of {names}" if names else f"take {key} out")
        return None
    if host.get(key) is not None:
        message = f"that beam has {key} itself, with a third one"
        place.fault(message, remedy=f'write {key} = "{host[key]}"')
        return None
    return host


def _check_shared_feed(beam: Values, beams: list[Values], at: Place) -> None:
    host = _host("fed_with", beam, beams, at)
    if host is None:
        return
    if None not in (beam.get("feed"), host.get("feed")) and beam["feed"] != host["feed"]:
        message = f"both beams hang on the feed point of {host['name']} but their feed differs"
        at.child("feed").fault(message, remedy=f"write the feed of {host['name']} here too")
    if beam.get("post_line") is not None:
        _check_post_line(beam, host, beams, at)
        return
    points = feed_point(beam), feed_point(host)
    if None not in points and math.dist(*points) > _LONGEST_LEADS:  # type: ignore[arg-type]
        apart = at.far(math.dist(*points))  # type: ignore[arg-type]
        message = f"its feed point lies {apart} from that of {host['name']}; leads are not computed"
        at.child("fed_with").fault(
            message,
            remedy=phrase(
                f"bring both within {at.far(_LONGEST_LEADS)}, lead a {{line}} there, or take "
                "{host} out",
                line=written("post_line"),
                host=written("fed_with"),
            ),
        )


def _check_post_line(beam: Values, host: Values, beams: list[Values], at: Place) -> None:
    """One line leads to all that hang on it, long enough for where their feeds are."""
    line, place = beam["post_line"], at.child("post_line")
    for other in (beam, host):
        driven = [e for e in other.get("element") or [] if e.get("role") == "driven"]
        if len(driven) > 1:
            message: Value = (
                f"{other['name']} drives several elements, and a post line leads to one"
            )
            remedy = phrase("drive one element of each, or take {it} out", it=written("post_line"))
            place.fault(message, remedy=remedy)
    for other in beams:
        if other is beam or other.get("fed_with") != host["name"]:
            continue
        for key in ("impedance", "wire", "spacing", "velocity_factor"):
            theirs = (other.get("post_line") or line).get(key)
            if theirs != line.get(key):
                message = phrase("it is one line with that to {other}, but their {key} differs",
                                 other=other["name"], key=written(key))  # fmt: skip
                remedy = phrase("write one {key} for both", key=written(key))
                place.child(key).fault(message, remedy=remedy)
        same = (other.get("post_line") or {}).get("length")
        if same is not None and same == line.get("length"):
            message = f"it is as long as that to {other['name']}, on one post"
            place.child("length").fault(message, remedy="write where on the post each feed is")
    points = feed_point(beam), feed_point(host)
    if None in points or line.get("length") is None:
        return
    apart = math.dist(*points)  # type: ignore[arg-type]
    if line["length"] < apart - _ROUNDED:
        message = f"the feed points lie {apart:.3f} m apart, and the line between them is shorter"
        place.child("length").fault(message, remedy=f'write "{apart:.3f} m" or more')


def _check_shared_boom(beam: Values, beams: list[Values], at: Place) -> None:
    host = _host("on_boom_of", beam, beams, at)
    if host is None:
        return
    name = host["name"]
    for key in ("height", "heading"):
        if None not in {beam.get(key), host.get(key)} and beam[key] != host[key]:
            message = f"both beams sit on one boom but their {key} differs"
            remedy = phrase("write the {key} of {name}, or take {it} out", key=key, name=name,
                            it=written("on_boom_of"))  # fmt: skip
            at.child(key).fault(message, remedy=remedy)
    check_carried(beam, host, at)


def _check_height(beam: Values, at: Place) -> None:
    height = beam.get("height")
    if height is None:
        return
    if height <= 0:
        message = "the height over a ground must be greater than 0"
        remedy: Value = phrase('write the boom\'s height, such as "16 m", or take {ground}',
                        ground=written("ground", '"free space"'))  # fmt: skip
        at.child("height").fault(message, remedy=remedy)
        return
    for number, wire in enumerate(beam.get("wire") or []):
        for corner, point in enumerate(wire.get("points") or []):
            if point and point[2] is not None and height + point[2] <= 0:
                message = "this point lies on the ground or below it"
                remedy = f"keep z above {at.far(-height)}, or raise the beam"
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
        entry("beam", "The antennas; none yet in a place that asks which.",
              Tables(spec=BEAM, header="[[beam]]", least=0, most=50)),
        *FIELDS,
    ),
)  # fmt: skip


def build_plan(values: Values) -> Plan:
    """Make the plan out of fault-free values."""
    further = build_further(values)
    support = further.get("support")
    drawn = surround([build_beam(beam) for beam in values.get("beam", ())], support=support)
    hung = [drooped(beam) for beam in drawn]
    return Plan(
        title=values["title"],
        dated=values.get("dated", ""),
        site=build_site(values["site"]),
        beams=surround(hung, support=support),
        booms=tuple(
            build_table(BOOM, beam["boom"], beam=beam["name"])
            for beam in values.get("beam", ())
            if "boom" in beam
        ),
        **further,
    )
