"""Starter plans: they read, follow the first guess, and refuse what makes no sense."""

from __future__ import annotations

from itertools import pairwise

import pytest

from boomwright.plan import QuantityError, band_edges, plan_notices, read_plan, starter_plan
from boomwright.plan.bands import AMATEUR_BANDS


@pytest.mark.parametrize("band", list(AMATEUR_BANDS))
@pytest.mark.parametrize("units", ["metric", "us"])
def test_every_band_gives_a_sound_plan(band: str, units: str) -> None:
    plan = read_plan(starter_plan(band=band, units=units))  # type: ignore[arg-type]
    (beam,) = plan.beams
    # Nobody but the owner knows how the elements will be held; on VHF that matters.
    open_questions = {"plan.mount-unsaid"} if beam.design_frequency > 100e6 else set()
    assert {notice.code for notice in plan_notices(plan)} == open_questions
    assert beam.band == pytest.approx(band_edges(band))
    assert [element.role for element in beam.elements] == ["reflector", "driven", "director"]
    # The sixteenth of an inch is up to 0.8 mm, which at 70 cm is 0.0012 wavelengths.
    reflector, driven, director = (element.length / beam.wavelength for element in beam.elements)
    assert driven == pytest.approx(0.473, abs=2e-3)
    assert reflector / driven == pytest.approx(1.05, abs=4e-3)
    assert director / driven == pytest.approx(0.95, abs=4e-3)


def test_boom_limit_and_element_count() -> None:
    beam = read_plan(starter_plan(band="20 m", element_count=5, boom_limit=8.0)).beams[0]
    assert beam.boom_length == pytest.approx(8.0, abs=1e-3)
    places = [element.position for element in beam.elements]
    assert [after - before for before, after in pairwise(places)] == pytest.approx([2.0] * 4)
    assert [element.role for element in beam.elements][2:] == ["director"] * 3
    free = read_plan(starter_plan(band="20 m", element_count=2)).beams[0]
    assert free.boom_length == pytest.approx(0.15 * free.wavelength, abs=1e-3)


def test_own_band_design_names_and_place() -> None:
    text = starter_plan(
        band=(144.0e6, 144.4e6), design=144.2e6, title='The "weak" end', name="low end",
        height=7.0, heading_deg=45.0, ground="wet", position="52.20 N, 0.10 E", material="copper",
    )  # fmt: skip
    plan = read_plan(text)
    beam = plan.beams[0]
    assert (plan.title, beam.name, beam.height, beam.design_frequency) == (
        'The "weak" end', "low end", 7.0, 144.2e6)  # fmt: skip
    assert plan.site.ground.name == "wet"
    assert beam.material.name == "copper"


def test_comments_say_what_to_look_at() -> None:
    text = starter_plan(band="20 m")
    assert "licence" in text
    assert "first guess" in text
    assert "1 to 2 % longer" in text


def test_regions_differ() -> None:
    assert band_edges("40m", region=1) == (7.0e6, 7.2e6)
    assert band_edges("40 M", region=2) == (7.0e6, 7.3e6)
    assert band_edges("2m", region=3) == (144e6, 148e6)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ({"band": "21 m"}, "did you mean"),
        ({"band": "long wave"}, "write one of"),
        ({"band": (7.2e6, 7.0e6)}, "two frequencies"),
        ({"band": (float("nan"), 7.0e6)}, "two frequencies"),
        ({"band": "20 m", "design": 21e6}, "14.35"),
        ({"band": "20 m", "boom_limit": 0.5}, "fewer elements"),
        ({"band": "20 m", "boom_limit": float("nan")}, "metres"),
        ({"band": "20 m", "element_count": 1}, "2 to"),
        ({"band": "20 m", "element_count": 500}, "2 to"),
        ({"band": "20 m", "ground": "medum dry"}, "medium dry"),
        ({"band": "20 m", "position": "52, 0"}, "52.20 N"),
        ({"band": "20 m", "region": 4}, "1, 2 or 3"),
    ],
)
def test_refusals(arguments: dict[str, object], words: str) -> None:
    with pytest.raises(QuantityError) as caught:
        starter_plan(**arguments)  # type: ignore[arg-type]
    assert words in caught.value.remedy
