"""May it stand: the permissions and clearances of a plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from boomwright.app.permits_exposure import exposure_findings
from boomwright.base import Notice
from boomwright.permits import (
    Airport,
    Installation,
    Jurisdiction,
    PermitFinding,
    PermitSheet,
    SurfaceCheck,
    airports_near,
    permit_sheet,
    read_jurisdiction,
    surface_over_site,
)
from boomwright.plan import Plan
from boomwright.solver import Preparer, prepare_run
from boomwright.structure import StructureReport, check_structure

#: airports further away than this are left out [m]; the longest surface ends at 6.1 km
AIRPORT_RADIUS = 20_000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitCheck:
    """A plan and everything found about what it may do.

    Parameters
    ----------
    installation
        heights, distances and surroundings that were held against the rules
    sheet
        the findings
    surfaces
        notice surfaces of airports over the site, lowest first; empty outside the United
        States and where none reaches the site (n_surfaces,)
    """

    plan: Plan
    installation: Installation
    sheet: PermitSheet
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


@cache
def _airport_table() -> tuple[Mapping[str, Any], ...]:
    """The table of airports, read once: it takes a tenth of a second each time."""
    import airportsdata

    return tuple(dict(row) for row in airportsdata.load("ICAO").values())


def airports_around(*, latitude: float, longitude: float) -> tuple[Airport, ...]:
    """Look up the airports around a place.

    Parameters
    ----------
    latitude
        north positive [rad]
    longitude
        east positive [rad]

    Returns
    -------
    tuple of Airport
        airports within 20 km, nearest first {airports-table}
    """
    return airports_near(
        _airport_table(),
        latitude=latitude,
        longitude=longitude,
        radius=AIRPORT_RADIUS,
    )


def permit_plan(
    plan: Plan,
    *,
    exposure: tuple[PermitFinding, ...] | None = None,
    structure: StructureReport | None = None,
    prepare: Preparer = prepare_run,
) -> PermitCheck:
    """Hold a plan against the rules that may apply to it.

    Parameters
    ----------
    exposure
        findings on fields where people are; None to compute the fields
    structure
        what the structure room found, for the place of the mast on each boom; None to ask
        it
    prepare
        prepares one run of wire for the field solver; pass one that remembers to be sooner

    Raises
    ------
    PlanError
        when values of the plan contradict each other
    """
    from boomwright.plan.resolve import installation, structure_inputs

    report = structure or check_structure(inputs=structure_inputs(plan))
    latitude, longitude = plan.site.latitude, plan.site.longitude
    around = None
    if latitude is not None and longitude is not None:
        around = airports_around(latitude=latitude, longitude=longitude)
    held = installation(
        plan,
        airports=around,
        jurisdictions=known_jurisdictions(),
        reports={beam.name: beam for beam in report.beams},
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
    if held.country != "US" or latitude is None or longitude is None:
        return ()
    found = [
        surface_over_site(airport, latitude=latitude, longitude=longitude)
        for airport in held.airports or ()
    ]
    reaching = [check for check in found if check is not None]
    return tuple(sorted(reaching, key=lambda check: check.allowed_amsl))
