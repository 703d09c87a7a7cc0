"""A hairpin joined beside the feed: the circuit against its rods as wires."""

from __future__ import annotations

import numpy as np
import pytest
from field_scenarios import THREE_FOR_20, TWO_FOR_15

from boomwright.feed import (
    HAIRPIN_SHARE,
    FieldSetting,
    HairpinShape,
    ShuntStub,
    design_hairpin,
    hairpin_stages,
    solve_planned,
    split_load,
    through_stages,
)


def _both(beam, spacing, length, diameter=0.01):
    setting = FieldSetting()
    frequency = beam.design_frequency
    shape = HairpinShape(rod_diameter=diameter, spacing=spacing, length=length, gap=beam.feed.gap)
    field = solve_planned(beam=beam, shape=shape, setting=setting).impedance
    bare = complex(split_load(beam=beam, setting=setting).at(frequency))
    stages = hairpin_stages(
        element=beam.elements[beam.driven_index],
        gap=beam.feed.gap,
        spacing=spacing,
        diameter=diameter,
        length=length,
        frequency=frequency,
    )
    circuit = complex(through_stages(stages, impedance=bare, frequency=frequency))
    plain = [each for each in stages if isinstance(each, ShuntStub)]
    published = complex(through_stages(plain, impedance=bare, frequency=frequency))
    return field, circuit, published


@pytest.mark.parametrize("beam", [THREE_FOR_20, TWO_FOR_15], ids=lambda beam: beam.name)
@pytest.mark.parametrize(("spacing", "length"), [(0.06, 0.7), (0.08, 0.5), (0.08, 0.7)])
def test_meets_the_field_and_better_than_a_hairpin_at_the_feed_itself(beam, spacing, length):
    field, circuit, published = _both(beam, spacing, length)
    assert abs(circuit - field) <= HAIRPIN_SHARE * abs(field)
    assert abs(circuit - field) < abs(published - field)


def test_rods_at_the_very_split_are_the_published_hairpin():
    beam = THREE_FOR_20
    stages = hairpin_stages(
        element=beam.elements[beam.driven_index],
        gap=0.08,
        spacing=0.08,
        diameter=0.01,
        length=0.5,
        frequency=beam.design_frequency,
    )
    load = split_load(beam=beam, setting=FieldSetting())
    published = design_hairpin(
        load=load, frequency=beam.design_frequency, spacing=0.08, diameter=0.01
    )
    assert len(stages) == 1
    assert stages[0].impedance == pytest.approx(published.line_impedance, rel=1e-12, abs=0.0)
    assert np.isclose(stages[0].length, 0.5, rtol=1e-12, atol=0.0)
