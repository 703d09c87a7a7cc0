"""May it stand: the permissions and clearances of a plan."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from importlib import resources
from typing import Any

from boomwright.base import Notice, PlanError, SolverError
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.permits import (
    Airport,
    CountryShapes,
    Installation,
    Jurisdiction,
    LandingTable,
    LimitCheck,
    PermitFinding,
    PermitSheet,
    SurfaceCheck,
    countries_at,
    exposure_finding,
    lowest_first,
    permit_sheet,
    read_jurisdiction,
    surface_over_site,
)
from boomwright.plan import Plan
from boomwright.plan.resolve import average_power_told
from boomwright.plan.resolve.further import in_further_bands
from boomwright.solver import Preparer, prepare_run

_WHOM = {
    "US": "the Federal Communications Commission",
    "GB": "the communications regulator and the health security agency",
}
_ELSEWHERE = "the national radio and health authorities"


def exposure_findings(plan: Plan, *, prepare: Preparer) -> tuple[PermitFinding, ...]:
    """Hold every place with people against the limits, each beam alone in each of its bands.

    Returns:
        for each place and standard the limit with the least margin; a place that could not be
        computed says
            why
    """
    listed = plan.permits.exposure if plan.permits is not None else ()
    if not listed:
        return ()
    places = ", ".join(each.place for each in listed)
    if plan.transmitter is None:
        return (_not_checked(plan, places, "Add [transmitter] with power and emission."),)
    found: dict[tuple[str, str], tuple[Beam, LimitCheck]] = {}
    refused = []
    for beam in plan.beams:
        try:
            checks = [
                (each, check)
                for each in (beam, *in_further_bands(plan, beam))
                for check in _checks(plan, each, prepare)
            ]
        except (SolverError, PlanError) as error:
            refused.append(_not_checked(plan, places, f"{beam.name}: {error}"))
            continue
        for each, check in checks:
            key = (check.place.place, check.limit.standard)
            if key not in found or check.governing > found[key][1].governing:
                found[key] = (each, check)
    return (*(_finding(plan, *each) for each in found.values()), *refused)


def _checks(plan: Plan, beam: Beam, prepare: Preparer) -> Sequence[LimitCheck]:
    from boomwright.study.reach_parts.exposure import read_places

    found = read_places(plan, beam, prepare=prepare)
    return () if found is None else [each for each in found.checks if each.applies]


def _whom(plan: Plan) -> str:
    country = "" if plan.permits is None else plan.permits.country
    return _WHOM.get(country, _ELSEWHERE)


def _not_checked(plan: Plan, places: str, why: str) -> PermitFinding:
    return PermitFinding(
        subject="Fields where people are",
        verdict="not checked",
        value=places,
        limit="exposure limits",
        basis="47 CFR 1.1310; ICNIRP 2020",
        whom_to_ask=_whom(plan),
        dated="text as known in 2024",
        text=why,
    )


def _finding(plan: Plan, beam: Beam, check: LimitCheck) -> PermitFinding:
    near_field = check.method == "near field"
    made = exposure_finding(
        check.near if near_field else check.far,
        place=check.place.place,
        near_field=True,
        whom_to_ask=_whom(plan),
    )
    shares = {"computed near field": check.near, "far-field formula": check.far,
              "near field averaged over the body": check.averaged}  # fmt: skip
    told = ", ".join(
        f"{name} {100.0 * ratio.governing:.3g} %"
        for name, ratio in shares.items()
        if ratio.governing is not None
    )
    power = average_power_told(plan, averaging_time=check.limit.averaging_time)
    return replace(
        made,
        value=f"{made.value}, margin {check.margin_db:+.1f} dB of power ({check.method})",
        text=f"{made.text} {beam.name} transmitting on "
        f"{beam.design_frequency / 1e6:.6g} MHz, {power}. Of the limit: {told}.",
    )


#: airfields further away than this are left out [m]: rules look 15 km far, and a runway may reach
#: 8 km from its airfield's reference point
AIRPORT_RADIUS = 25_000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitCheck:
    """A plan and everything found about what it may do."""

    plan: Plan
    #: heights, distances and surroundings that were held against the rules
    installation: Installation
    sheet: PermitSheet  #: the findings
    #: notice surfaces of airfields over the site, lowest first; empty away from the United States
    #: and where none may reach the site (n_surfaces,)
    surfaces: tuple[SurfaceCheck, ...] = ()

    @property
    def all_notices(self) -> tuple[Notice, ...]:
        """The findings that are not kept, as notices."""
        return self.sheet.notices

    @property
    def exceeded(self) -> tuple[PermitFinding, ...]:
        """Findings that ask for a notice or pass a limit."""
        return tuple(
            finding
            for finding in self.sheet.findings
            if finding.verdict in {"notice needed", "exceeded"}
        )


@cache
def known_jurisdictions() -> tuple[Jurisdiction, ...]:
    """Read the places and their rules that the package carries."""
    folder = resources.files("boomwright.permits") / "data"
    names = sorted(item.name for item in folder.iterdir() if item.name.endswith(".toml"))
    return tuple(
        read_jurisdiction((folder / name).read_text(encoding="utf-8"), name=name) for name in names
    )


def _shipped_arrays(name: str) -> dict[str, Any]:
    import numpy as np

    path = resources.files("boomwright.permits") / "data" / name
    with path.open("rb") as file, np.load(file) as held:
        return dict(held)


@cache
def _landing_table() -> LandingTable:
    return LandingTable.unpacked(_shipped_arrays("landing-places.npz"))


@cache
def _country_shapes() -> CountryShapes:
    return CountryShapes.unpacked(_shipped_arrays("country-shapes.npz"))


def airports_around(*, latitude: float, longitude: float) -> tuple[Airport, ...]:
    """Look up the airfields and heliports around a place.

    Returns:
        landing places within 25 km, nearest first {landing-places}
    """
    return _landing_table().near(latitude=latitude, longitude=longitude, radius=AIRPORT_RADIUS)


def tables_dated() -> str:
    """How old the tables are in which airfields are looked up."""
    table = _landing_table()
    return f"runways and heliports of {table.dated}, more airfields of {table.dated_newer}"


def countries_around(*, latitude: float, longitude: float) -> tuple[str, ...]:
    """Look up in which country a place lies, and which are near.

    Returns:
        two-letter codes {country-shapes} (n_countries,)
    """
    return countries_at(_country_shapes(), latitude=latitude, longitude=longitude)


def permit_plan(
    plan: Plan,
    *,
    exposure: tuple[PermitFinding, ...] | None = None,
    prepare: Preparer = prepare_run,
) -> PermitCheck:
    """Hold a plan against the rules that may apply to it.

    Args:
        exposure: findings on fields where people are; None to compute the fields

    Raises:
        PlanError: when values of the plan contradict each other
    """
    from boomwright.plan.resolve import installation

    latitude, longitude = plan.site.latitude, plan.site.longitude
    around, lies_in, tables = None, None, ""
    if latitude is not None and longitude is not None:
        around = airports_around(latitude=latitude, longitude=longitude)
        lies_in = countries_around(latitude=latitude, longitude=longitude)
        tables = tables_dated()
    held = installation(
        plan, airports=around, lies_in=lies_in, tables=tables, jurisdictions=known_jurisdictions()
    )
    fields = exposure_findings(plan, prepare=prepare) if exposure is None else exposure
    return PermitCheck(
        plan=plan,
        installation=held,
        sheet=permit_sheet(held, exposure=fields),
        surfaces=_surfaces(held),
    )


def _surfaces(held: Installation) -> tuple[SurfaceCheck, ...]:
    latitude, longitude = held.latitude, held.longitude
    if not held.american or latitude is None or longitude is None:
        return ()
    found = [
        surface_over_site(airport, latitude=latitude, longitude=longitude)
        for airport in held.airports or ()
    ]
    return tuple(lowest_first(check for check in found if check is not None))
