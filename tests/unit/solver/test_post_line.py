"""Nested hexagons on one line along their post, held against nodal equations of the lines."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import PlanError
from boomwright.feed import FieldSetting, split_load
from boomwright.parts import PostLine
from boomwright.plan import read_plan, write_plan
from boomwright.plan.resolve import station_assembly
from boomwright.plan.shapes import shape_plan
from boomwright.solver import (
    FREE_SPACE,
    assemble,
    beam_wires,
    remembering,
    solve_beam,
    solve_currents,
    working_detail,
)
from boomwright.study.feed_parts.braid import braid_cases
from written import metric

SPEED = 299792458.0


def on_post(*, lengths=("0.6 m", "1.2 m"), wire="2 mm", spacing="30 mm", further=""):
    """Three hexagons, the line to the radio at the lowest feed: that of 10 m."""
    text = shape_plan("hexagon", band="20 m", further=("15 m", "10 m"))
    for name, length in zip(("15 m", "20 m"), lengths, strict=True):
        line = f'wire = "{wire}", spacing = "{spacing}", length = "{length}"{further}'
        text = text.replace(
            f'name = "{name}"\n',
            f'name = "{name}"\nfed_with = "10 m"\npost_line = {{ {line} }}\n',
        )
    lines = [line for line in text.splitlines() if not line.startswith("idle_feed")]
    return "\n".join(lines)


@pytest.fixture(scope="module")
def plan():
    return read_plan(on_post())


def through_lines(gaps, lines, frequency):
    """Impedance at the first of some gaps on one line, by the admittances of its pieces.

    Args:
        gaps: admittance matrix of the gaps, in their order along the line [S] (n, n)
        lines: impedance [ohm] and length in metres of each piece
    """
    nodes = np.array(gaps, dtype=complex)
    for number, (impedance, length) in enumerate(lines):
        turn = 2.0 * np.pi * frequency * length / SPEED
        own, across = -1j / (impedance * np.tan(turn)), 1j / (impedance * np.sin(turn))
        nodes[number : number + 2, number : number + 2] += [[own, across], [across, own]]
    return np.linalg.inv(nodes)[0, 0]


@pytest.mark.parametrize("number", [0, 2])
def test_feeds_on_one_line_are_a_network_between_ports(plan, number):
    """The field's gaps as ports, the line's pieces between them, and the foot as the feed."""
    beam = plan.beams[number]
    frequency = np.array([beam.design_frequency])
    keep = remembering()
    detail = working_detail(frequency=max(beam.band))
    system = beam_wires(beam=beam)
    currents = solve_currents(
        assembly=assemble(
            system=replace(system, ports=system.fed_gaps, feeders=()),
            detail=detail,
            highest_frequency=max(beam.band),
            prepare=keep,
        ),
        frequencies=frequency,
    )
    # By themselves the gaps come own first, then the others from the foot of the line up.
    names = [beam.name, *(name for name in ("10 m", "15 m", "20 m") if name != beam.name)]
    order = [names.index(name) for name in ("10 m", "15 m", "20 m")]
    gaps = currents.admittance[0][np.ix_(order, order)]
    impedance = plan.beams[0].post_line.ohms
    expected = through_lines(gaps, [(impedance, 0.6), (impedance, 0.6)], frequency[0])
    found = solve_beam(
        beam=beam, frequencies=frequency, detail=detail, ground=FREE_SPACE, prepare=keep
    )
    assert found.impedance[0] == pytest.approx(expected, rel=1e-6)
    power = (found.radiated + found.lost) / found.accepted
    assert power[0] == pytest.approx(1.0, abs=2e-3)


def test_compute_and_feed_ask_the_same_line(plan):
    beam = plan.beams[1]
    load = split_load(beam=beam, setting=FieldSetting())
    at = int(np.abs(load.frequency - beam.design_frequency).argmin())
    found = solve_beam(
        beam=beam,
        frequencies=load.frequency[at : at + 1],
        detail=working_detail(frequency=max(beam.band)),
        ground=FREE_SPACE,
        prepare=remembering(),
    )
    assert found.impedance[0] == pytest.approx(load.impedance[at], rel=1e-6)


def test_what_is_taken_of_the_line_is_said(plan):
    for beam in plan.beams[:2]:
        cases, notices = braid_cases(plan, beam, setting=FieldSetting())
        assert cases == ()
        assert [each.code for each in notices] == ["feed.braid-on-post"]


def test_impedance_of_two_parallel_wires():
    """376.73 / pi times arcosh(D / d): 300 ohm at D / d = 6.14 {pozar-2012, table 2.1}."""
    line = PostLine(wire=0.001, spacing=0.00614, length=1.0)
    assert line.ohms == pytest.approx(300.0, abs=0.2)
    assert PostLine(wire=1.0, spacing=20.0, length=1.0).ohms == pytest.approx(
        120.0 * np.log(40.0), rel=2e-3
    )


def test_a_line_along_a_post_survives_a_rewrite(plan):
    assert read_plan(write_plan(plan)).beams == plan.beams
    two = 'wire = "2 mm", spacing = "30 mm"'
    bought = read_plan(on_post().replace(two, 'impedance = "50 ohm"'))
    assert read_plan(write_plan(bought)).beams == bought.beams
    assert bought.beams[0].post_line.ohms == 50.0


def test_a_line_along_a_post_is_bought_piece_by_piece(plan):
    pieces = [p for p in station_assembly(plan).parts if p.name == "line along the post"]
    # Two wires over 0.6 m each: from 10 m to 15 m, and on to 20 m.
    assert [(p.carrier, p.quantity) for p in pieces] == [
        ("20 m", pytest.approx(1.2)),
        ("15 m", pytest.approx(1.2)),
    ]


@pytest.mark.parametrize(
    ("old", "new", "path", "words"),
    [
        ('"0.6 m" }', '"0.1 m" }', "beam[1].post_line.length", "shorter"),
        ('"1.2 m" }', '"0.6 m" }', "beam[0].post_line.length", "as long as"),
        ('spacing = "30 mm", length = "1.2 m"', 'spacing = "1 mm", length = "1.2 m"',
         "beam[0].post_line.spacing", "touch"),
        ('wire = "2 mm", spacing = "30 mm", length = "1.2 m"',
         'wire = "3 mm", spacing = "30 mm", length = "1.2 m"', "beam[0].post_line.wire", "differ"),
        ('wire = "2 mm", spacing = "30 mm", length = "0.6 m"', 'wire = "2 mm", length = "0.6 m"',
         "beam[1].post_line", "impedance"),
        ('fed_with = "10 m"\npost_line = { wire = "2 mm", spacing = "30 mm", length = "1.2 m"',
         'post_line = { wire = "2 mm", spacing = "30 mm", length = "1.2 m"',
         "beam[0].post_line", "fed_with"),
    ],
)  # fmt: skip
def test_lines_that_cannot_be_are_faults(old, new, path, words):
    text = on_post()
    assert old in text
    with pytest.raises(PlanError) as caught:
        read_plan(text.replace(old, new))
    here = [fault for fault in caught.value.faults if fault.path == path]
    assert any(words in metric(each.message) + metric(each.remedy) for each in here)
