"""Ledger lines for one beam: its elements, its areas and its boom."""

from __future__ import annotations

from math import isfinite

import numpy as np

from boomwright.base.records import replace
from boomwright.structure.checks.boom import check_boom
from boomwright.structure.checks.elements import check_elements, ice_missing
from boomwright.structure.checks.findings import Findings, SiteLoads
from boomwright.structure.checks.frame import HUB_OVER_TOP, check_frame, frame_unsaid, turns
from boomwright.structure.checks.joints import check_element_joints
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.report import BeamReport
from boomwright.structure.weather.beam_wind import beam_wind
from boomwright.structure.weather.frame_wind import wind_middle


def beam_trouble(*, mounted: MountedBeam) -> str:
    """Say why a beam's wind area cannot be found, or nothing."""
    beam = mounted.beam
    if not (isfinite(beam.height) and beam.height >= 0.0):
        return f"its height of {beam.height} m is no height"
    sizes = [wire.diameter for wire in beam.wires]
    for element in beam.elements:
        for section in element.half:
            sizes += [section.diameter, section.length]
    if not all(isfinite(size) and size > 0.0 for size in sizes):
        return "an element or wire has a size that makes no tube"
    if not all(bool(np.all(np.isfinite(wire.points))) for wire in beam.wires):
        return "a wire has a point that is no number"
    return ""


def check_beam(*, mounted: MountedBeam, site: SiteLoads, findings: Findings) -> BeamReport | None:
    """Work out one beam and write its ledger lines; None when its sizes make no beam."""
    beam, boom = mounted.beam, mounted.boom
    trouble = beam_trouble(mounted=mounted)
    if trouble:
        findings.skip(f"{beam.name}: wind area", trouble)
        return None
    coat = site.coat(height=beam.height)
    elements = check_elements(mounted=mounted, site=site, findings=findings)
    check_element_joints(mounted=mounted, site=site, findings=findings)
    no_ice = ice_missing(site=site)
    if no_ice:
        findings.skip(f"{beam.name}: ice", no_ice)
    bare, iced = (
        beam_wind(
            pieces=(*mounted.tubes, *mounted.strung),
            boom_diameter=0.0 if boom is None else boom.diameter,
            boom_length=0.0 if boom is None else boom.length,
            extra_drag_area=mounted.drag_area(ice=ice),
            ice=ice,
        )
        for ice in (None, coat)
    )
    rise = wind_middle(beam=beam, strung=mounted.strung)
    nominal = site.nominal_pressure(height=beam.height + rise)
    report = BeamReport(
        name=beam.name,
        height=beam.height,
        elements=elements,
        wind=bare,
        iced_wind=None if coat is None else iced,
        force=None if nominal is None else nominal.for_force * bare.worst.drag,
        rise=rise,
        over_top=HUB_OVER_TOP if beam.bent else 0.0,
        turns=boom is not None or turns(beam),
    )
    framed, unsaid = report, frame_unsaid(beam=beam, on_boom=boom is not None)
    if beam.bent:
        framed = check_frame(
            mounted=mounted, report=report, trouble=unsaid, site=site, findings=findings
        )
    if boom is not None and unsaid:
        findings.skip(f"{beam.name}: boom in wind", unsaid)
    elif boom is not None or not beam.bent:
        report = replace(report, pull=framed.pull, iced_pull=framed.iced_pull)
        return check_boom(mounted=mounted, report=report, site=site, findings=findings)
    return framed
