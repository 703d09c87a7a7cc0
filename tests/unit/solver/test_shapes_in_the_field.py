"""First plans of every shape: feed and compute solve the same wires, low ones are refused."""

from __future__ import annotations

import numpy as np
import pytest

from boomwright.design import Targets
from boomwright.design.figures_of import band_figures
from boomwright.feed import FieldSetting, split_load
from boomwright.plan import read_plan
from boomwright.plan.shapes import SHAPES, shape_plan
from boomwright.solver import FREE_SPACE, remembering, solve_beam, working_detail
from boomwright.study.requests import RequestError, Wishes
from boomwright.study.shapes import shaped_text

#: each shape with the bands it is asked for
PLANS = [(shape, ("20 m",)) for shape in SHAPES if shape != "two-band-dipole"]
PLANS += [("two-band-dipole", ("20 m", "15 m")), ("hexagon", ("20 m", "15 m"))]


@pytest.mark.parametrize(("shape", "bands"), PLANS)
def test_compute_and_feed_agree_to_the_printed_digit(shape, bands):
    """As printed, a tenth of an ohm: single wires over the ground of the plan, others without."""
    plan = read_plan(shape_plan(shape, band=bands[0], further=bands[1:]))
    prepare = remembering()
    single = len(plan.beams) == 1 and len(plan.beams[0].elements) == 1
    ground = plan.site.ground if single or plan.beams[0].stands_on_ground else FREE_SPACE
    for beam in plan.beams:
        load = split_load(beam=beam, setting=FieldSetting(ground=ground, prepare=prepare))
        there = int(np.abs(load.frequency - beam.design_frequency).argmin())
        computed = solve_beam(
            beam=beam,
            frequencies=load.frequency[there : there + 1],
            detail=working_detail(frequency=float(load.frequency.max())),
            ground=ground,
            prepare=prepare,
        ).impedance[0]
        fed = load.impedance[there]
        assert (round(fed.real, 1), round(fed.imag, 1)) == (
            round(computed.real, 1),
            round(computed.imag, 1),
        )


@pytest.mark.parametrize(
    ("shape", "height", "least"),
    [
        ("hexagon", "1 m", '"2.6 m"'),
        ("end-loaded-dipole", "2 m", '"4.1 m"'),
        ("raised-vertical", "4 m", '"5.9 m"'),
    ],
)
def test_wires_within_reach_of_people_are_refused(shape, height, least):
    with pytest.raises(RequestError, match="within reach of people") as caught:
        shaped_text(Wishes(band="20 m", shape=shape, height=height))
    assert least in str(caught.value)
    assert "mast" not in str(caught.value)


@pytest.mark.parametrize("bands", [("20 m", "15 m"), ("20 m", "15 m", "10 m")])
def test_nested_hexagons_begin_well_beside_each_other(bands):
    """First lengths were searched for in the nest: usable as written, none far behind alone."""
    wishes = Wishes(band=bands[0], further_bands=bands[1:], shape="hexagon")
    plan = read_plan(shaped_text(wishes, tried=False))
    keep = remembering()
    for beam in plan.beams:
        gain, back, _, swr = band_figures(beam=beam, targets=Targets(), prepare=keep).worst
        assert swr < 1.8
        assert gain > 3.3
        # An octave below, the largest costs the smallest some of its rear.
        assert back > (7.0 if beam.name == "10 m" else 11.0)
