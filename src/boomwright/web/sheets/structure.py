"""The Structure sheet: will it stand, and what must it carry."""

from __future__ import annotations

from dataclasses import asdict

from boomwright.base import quantity_text
from boomwright.base.quantity import PerSystem, Value, phrase
from boomwright.charts import ShownSubject
from boomwright.plan import Plan, Site
from boomwright.web.readout import long_length, tube_size
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import (
    AskedField,
    Lack,
    SubjectChange,
    asked_fields,
    beam_subject,
    subject_parts,
)
from boomwright.web.sheets.structure_context import StructureContext
from boomwright.web.view import View

#: parts of the sheet, and what belongs to each
_GROUPS = (
    ("margins", "Margins", "Every check: demand, limit, what to change"),
    ("beam", "Elements and boom", "Bending, sag and vibration of each element; the boom's load"),
    (
        "support",
        "Mast, support, guys, footing",
        "What each part carries, from wind, weight and ice",
    ),
    ("reminders", "To remember", "What to look at when building and every year after"),
)


def _speed(speed: float | None, view: View) -> str:
    return "" if speed is None else quantity_text(speed, unit="m/s", system=view.system)


_YES_NO = {True: "yes", False: "no", None: ""}


def _asked(plan: Plan, view: View) -> tuple[AskedField, ...]:
    site = plan.site
    ice = "" if site.ice_thickness is None else tube_size(site.ice_thickness, system=view.system)
    height = "" if site.elevation is None else long_length(site.elevation, system=view.system)
    rows = (
        *_asked_of_wind(site, view),
        (
            "Ice",
            "site.ice",
            ice,
            phrase(
                "radial thickness: {ice}; 0 where there is none",
                ice=PerSystem(metric="6 mm", us="1/4 in"),
            ),
        ),
        (
            "Ice from a code map",
            "site.ice_basis.mapped",
            _YES_NO[site.ice_mapped],
            "yes for a map value, no for the ice on the beam itself",
        ),
        (
            "Gust with ice",
            "site.ice_basis.gust",
            _speed(site.ice_gust, view),
            PerSystem(metric="such as 18 m/s", us="such as 40 mph"),
        ),
        (
            "Ground above sea",
            "site.elevation",
            height,
            PerSystem(metric="such as 22 m", us="such as 72 ft"),
        ),
    )
    return asked_fields(rows, view)


def _asked_of_wind(site: Site, view: View) -> list[tuple[str, str, str, Value]]:
    """Rows of label, place, text and hint, by the family of the code that is named."""
    basis, here = site.wind_basis, "site.wind_basis."
    european = basis.european
    rows: list[tuple[str, str, str, Value]] = [
        ("kind", f"{here}kind", basis.kind, "ultimate or nominal; elsewhere characteristic"),
        ("edition", f"{here}edition", basis.edition, "ASCE 7-16, EN 1991-1-4, or your own code"),
    ]
    if basis.pressure:
        heights = f"pressures at {len(basis.pressure)} heights stand in the plan"
        return [*rows, ("from", f"{here}by", basis.by, heights)]
    wind = (
        PerSystem(metric="basic speed, 10 min mean: 24 m/s", us="basic speed, 10 min mean: 54 mph")
        if european
        else PerSystem(metric="3 s gust at 10 m: 40 m/s", us="3 s gust at 33 ft: 90 mph")
    )
    rows.insert(0, ("Wind", "site.wind", _speed(site.wind_speed, view), wind))
    if not european or basis.exposure:
        hint = "of no use with EN 1991-1-4: empty it" if european else "B suburb, C open, D water"
        rows.append(("exposure", f"{here}exposure", basis.exposure, hint))
    if european or basis.terrain:
        hint = "0 sea, I lakes, II open, III suburb, IV town" if european else "empty it"
        rows.append(("terrain", f"{here}terrain", basis.terrain, hint))
    if european:
        hill = "" if basis.orography is None else f"{basis.orography:g}"
        rows.append(("orography", f"{here}orography", hill, "1 on flat ground, more near a crest"))
    return rows


def _lacks(plan: Plan, view: View) -> tuple[Lack, ...]:
    from boomwright.structure.checks.frame import frame_unsaid

    at = min(view.beam, len(plan.beams) - 1)
    beam = plan.beams[at]
    found = []
    basis = plan.site.wind_basis
    if not basis.pressure and (plan.site.wind_speed is None or not basis.kind):
        text = (
            "The plan gives no wind speed with its kind, edition and exposure or terrain, so "
            "nothing is checked against wind. Type kind, then edition and exposure or terrain, "
            "then the speed. Outside these codes an engineer gives the pressure itself."
        )
        wind = (("site.wind_basis", "Enter what the wind is based on"), ("site.wind", "Enter wind"))
        found.append(Lack(text=text, forms=wind))
    tubes = [element for element in beam.elements if not element.bent]
    thin = [
        number
        for number, element in enumerate(beam.elements)
        if not element.bent and any(section.wall == 0.0 for section in element.half)
    ]
    if thin:
        text = (
            f"Some tubes of {beam.name} have no wall thickness, so its weight and strength are not "
            "known."
        )
        names = [each if each != "driven" else "driven element" for each in beam.element_labels]
        forms = tuple(
            (f"beam[{at}].element[{number}].half", f"Enter walls of {names[number]}")
            for number in thin
        )
        found.append(Lack(text=text, forms=forms))
    on_boom = plan.boom_of(beam.name) is not None
    held = frame_unsaid(beam=beam, on_boom=on_boom)
    if held:
        found.append(Lack(text=f"{beam.name} is not checked: {held}."))
    if tubes and not on_boom:
        text = f"The boom of {beam.name} is not given."
        found.append(Lack(text=text, forms=((f"beam[{at}].boom", "Add the boom"),)))
    if plan.support is None:
        text = "Nothing says what carries the beams: a tower or a tube, then mast and rotator."
        parts = ("tower", "tube", "mast", "rotator")
        carriers = tuple((f"support.{part}", f"Add the {part}") for part in parts)
        found.append(Lack(text=text, forms=carriers))
    return tuple(found)


def context(desk: PlanDesk, view: View, *, whole: bool) -> StructureContext:
    """Build the context of the Structure sheet."""
    plan = desk.plan
    found = beam_subject(desk, view, name="structure", compute=desk.session.structure, whole=whole)
    changes = found.changes if isinstance(found, ShownSubject) else ()
    return StructureContext(
        lacks=_lacks(plan, view),
        asked=_asked(plan, view),
        changes=tuple(SubjectChange(**asdict(each)) for each in changes),
        **subject_parts(found, system=view.system, groups=_GROUPS),
    )


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come."""
    plan = desk.plan
    lacks_wind = plan.site.wind_speed is None and not plan.site.wind_basis.pressure
    if plan.support is None or lacks_wind:
        return Mark(state="missing", text="the plan lacks wind or support")
    lacks = _lacks(plan, view)
    if lacks:
        return Mark(state="doubtful", text="walls, boom or wind basis are lacking")
    return Mark(state="done", text="wind, boom and support are given; look at the margins")


STRUCTURE = Sheet(
    noun="Structure",
    slug="structure",
    template="structure.html",
    doing="Checking the structure",
    context=context,
    mark=mark,
)
