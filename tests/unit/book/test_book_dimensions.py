"""Shop dimensions: rounding does not accumulate, order and names along the boom."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boomwright.parts import Beam, Element, TubeSection
from boomwright.report.build.dimensions import cut_length
from boomwright.report.build.shop import rounded_beam
from fakes.readings import fake_beam, fake_beam_of, shop_of

lengths = st.lists(st.floats(min_value=0.05, max_value=3.0), min_size=1, max_size=8)


def _beam_with_half(parts: list[float]) -> Beam:
    half = tuple(TubeSection(diameter=0.02, length=length) for length in parts)
    beam = fake_beam()
    return replace(beam, elements=(replace(beam.elements[1], half=half),))


def _inches(text: str) -> Fraction:
    """Read ``17 ft 0-3/8 in`` back, independently of the code that wrote it."""
    found = re.fullmatch(r"(?:(\d+) ft )?(?:(\d+)-)?(\d+)(?:/(\d+))? in", text)
    assert found, text
    feet, whole, number, below = found.groups()
    total = Fraction(int(feet or 0) * 12) + int(whole or 0)
    return total + (Fraction(int(number), int(below)) if below else int(number))


@given(lengths)
def test_exposed_lengths_add_up_to_the_half_length_in_every_unit(parts):
    (shop,) = shop_of(_beam_with_half(parts))
    cut, exposed = shop.cut, [tube.exposed for tube in shop.tubes]
    assert sum(e.millimetres for e in exposed) == cut.half_length.millimetres
    assert sum(e.thousandths for e in exposed) == cut.half_length.thousandths
    assert sum(_inches(e.us_text) for e in exposed) == _inches(cut.half_length.us_text)
    assert 2 * _inches(cut.half_length.us_text) == _inches(cut.full_length.us_text)


@given(lengths)
def test_no_mark_is_more_than_half_a_step_off(parts):
    (shop,) = shop_of(_beam_with_half(parts))
    reached = 0.0
    for part, section in zip(parts, shop.tubes, strict=True):
        reached += part
        assert abs(section.reaches.millimetres - reached * 1000.0) <= 0.5 + 1e-6
        assert abs(float(_inches(section.reaches.us_text)) - reached / 0.0254) <= 1 / 32 + 1e-6


def test_rounding_each_tube_alone_would_not_add_up():
    # 3 x 333.6 mm: each alone rounds to 334, which makes 1002; the half is 1001 (1000.8).
    (shop,) = shop_of(_beam_with_half([0.3336, 0.3336, 0.3336]))
    assert [tube.exposed.millimetres for tube in shop.tubes] == [334, 333, 334]
    assert shop.cut.half_length.millimetres == 1001


def test_places_along_the_boom_are_counted_from_both_ends_and_add_up():
    beam = fake_beam_of(elements=12, design_frequency=28.5e6)
    cuts = [each.cut for each in shop_of(beam)]
    whole = cuts[-1].from_rear
    assert [c.from_rear.millimetres + c.from_front.millimetres for c in cuts] == [
        whole.millimetres
    ] * 12
    steps = [c.to_next for c in cuts[:-1]]
    assert sum(s.sixteenths for s in steps) == whole.sixteenths
    assert cuts[-1].to_next is None


def test_elements_stand_in_boom_order_whatever_the_order_of_the_plan():
    beam = fake_beam()
    turned = replace(
        beam,
        elements=tuple(
            replace(element, position=element.position - 7.0) for element in beam.elements[::-1]
        ),
    )
    cuts = [each.cut for each in shop_of(turned)]
    assert [c.label for c in cuts] == ["reflector", "driven", "director 1"]
    assert [c.index for c in cuts] == [2, 1, 0]
    assert cuts[0].from_rear.millimetres == 0
    assert cuts[0].tape.millimetres == 0


@pytest.mark.parametrize("system", ["metric", "us"])
def test_the_rounded_beam_has_exactly_the_lengths_of_the_tables(system):
    half = tuple(TubeSection(diameter=0.02, length=0.33363) for _ in range(5))
    beam = fake_beam()
    beam = replace(
        beam,
        elements=tuple(replace(e, half=half, position=e.position + 0.3) for e in beam.elements),
    )
    elements = shop_of(beam)
    drawn = rounded_beam(elements, beam=beam, system=system)
    for shop in elements:
        cut = shop.cut
        element: Element = drawn.elements[cut.index]
        assert cut_length(element.half_length).metres(system=system) == pytest.approx(
            cut.half_length.metres(system=system), abs=1e-12
        )
        for section, shown in zip(element.half, shop.tubes, strict=True):
            assert section.length == pytest.approx(shown.exposed.metres(system=system), abs=1e-12)
        assert abs(element.position - beam.elements[cut.index].position) < 0.001


# Exact by definition: 1 in = 25.4 mm {nist-sp-811, Appendix B}.
@pytest.mark.parametrize(
    ("metres", "millimetres", "us", "sixteenths", "decimal"),
    [
        (0.0254, 25, "1 in", "1", "1.000"),
        (5.18, 5180, "16 ft 11-15/16 in", "203 15/16", "203.937"),
        (0.0079375, 8, "5/16 in", "0 5/16", "0.312"),
        (0.3048, 305, "1 ft 0 in", "12", "12.000"),
    ],
)
def test_known_lengths(metres, millimetres, us, sixteenths, decimal):
    length = cut_length(metres)
    assert length.millimetres == millimetres
    assert length.us_text == us
    assert length.sixteenths_text == sixteenths
    assert length.decimal_inch_text == decimal
