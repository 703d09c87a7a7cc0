"""Power lines over the fall arc, local limits, fall and swing circles."""

import math

import numpy as np
import pytest

from boomwright.permits import (
    LocalLimits,
    Neighbourhood,
    PowerLine,
    StructureHeights,
    fall_gap,
    standing_gap,
)
from boomwright.permits.local_limits import circle_findings, local_findings
from boomwright.permits.power_lines import power_line_findings


def test_fall_gap_against_points_of_the_arc():
    # The tip of an element at the top, swung over from upright to flat, 3 600 places.
    line = PowerLine(name="street", distance=30.0, height=9.0, voltage=11e3)
    height, radius = 20.0, 6.0
    start = math.atan2(height, radius)
    reach = math.hypot(height, radius)
    angles = np.linspace(start, -0.3, 3600)
    gaps = np.hypot(reach * np.cos(angles) - line.distance, reach * np.sin(angles) - line.height)
    assert fall_gap(line=line, height=height, swing_radius=radius) == pytest.approx(
        gaps.min(), abs=1e-4
    )


def test_standing_gap():
    line = PowerLine(name="street", distance=10.0, height=9.0)
    assert standing_gap(line=line, height=20.0, swing_radius=4.0) == pytest.approx(6.0, rel=1e-12)
    assert standing_gap(line=line, height=6.0, swing_radius=6.0) == pytest.approx(5.0, rel=1e-12)
    assert standing_gap(line=line, height=20.0, swing_radius=11.0) == 0.0


@pytest.mark.parametrize(
    ("distance", "voltage", "verdicts"),
    [
        (60.0, 11e3, ["within", "within", "within"]),
        (25.0, 11e3, ["within", "within", "exceeded"]),
        (20.0, 11e3, ["within", "exceeded", "exceeded"]),
        (7.0, 11e3, ["exceeded", "exceeded", "exceeded"]),
        (60.0, None, ["ask", "ask", "within"]),
        (25.0, None, ["ask", "exceeded", "exceeded"]),
    ],
)
def test_power_line_verdicts(distance, voltage, verdicts):
    line = PowerLine(name="street", distance=distance, height=8.0, voltage=voltage)
    findings = power_line_findings(line, height=20.0, swing_radius=5.0)
    assert [finding.verdict for finding in findings] == verdicts


def test_fall_and_swing_circles():
    findings = circle_findings(
        heights=StructureHeights(structure_top=15.0, antenna_top=16.0),
        around=Neighbourhood(swing_radius=6.0, boundary_distance=16.5, walkway_distance=5.0),
    )
    assert [finding.verdict for finding in findings] == ["ask", "ask", "within", "ask"]


def test_local_limits():
    limits = LocalLimits(
        basis="Ordinance 12-3",
        dated="2024-05-01",
        maximum_height=20.0,
        setback=5.0,
        setback_ratio=1.1,
    )
    heights = StructureHeights(structure_top=18.0, antenna_top=20.5)
    around = Neighbourhood(swing_radius=6.0, boundary_distance=22.0)
    findings = local_findings(limits=limits, heights=heights, around=around)
    assert [finding.verdict for finding in findings] == ["exceeded", "within", "exceeded"]
    assert all(finding.basis == "Ordinance 12-3" for finding in findings)
    unmeasured = local_findings(
        limits=limits, heights=heights, around=Neighbourhood(swing_radius=6.0)
    )
    assert [finding.verdict for finding in unmeasured] == ["exceeded", "not checked", "not checked"]
    empty = local_findings(
        limits=LocalLimits(basis="none found", dated="2026-01-01"), heights=heights, around=around
    )
    assert [finding.verdict for finding in empty] == ["ask"]
