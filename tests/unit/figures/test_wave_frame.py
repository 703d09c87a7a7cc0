"""The frame of the moving pictures and what is said of them."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import numpy as np
import pytest

from boomwright.charts import full_colour, share_sentence, wave_frame, wave_sentence
from boomwright.plan import read_plan, starter_plan
from boomwright.reach import wave_picture


@pytest.fixture(scope="module")
def picture():
    plan = read_plan(starter_plan(band="20 m", element_count=3, ground="medium dry"))
    beam = plan.beams[0]
    return wave_picture(beam=beam, ground=plan.site.ground, frequency=beam.design_frequency)


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("name", ["level", "upright"])
def test_the_frame_maps_the_grid_to_one_scale_in_both_directions(picture, name, system):
    plane = getattr(picture, name)
    root = ET.fromstring(wave_frame(picture, plane, system=system))  # noqa: S314  (our own text)
    _, _, wide, tall = map(float, root.attrib["data-plot"].split())
    across = float(np.ptp(plane.along)) / wide
    up = float(np.ptp(plane.across)) / tall
    assert across == pytest.approx(up, rel=1e-3)
    marks = [g for g in root.iter() if g.attrib.get("data-part") == "marks"]
    assert len(marks) == 1
    shares = [g for g in marks[0].iter() if "data-share" in g.attrib]
    assert len(shares) == len(picture.shares)


def test_every_dial_shows_the_current_it_names(picture):
    root = ET.fromstring(wave_frame(picture, picture.level))  # noqa: S314  (our own text)
    hands = {int(g.attrib["data-hand"]): g for g in root.iter() if "data-hand" in g.attrib}
    largest = max(abs(share.current) for share in picture.shares)
    for index, share in enumerate(picture.shares):
        drawn = next(child for child in hands[index] if child.tag.endswith("line"))
        x1, y1, x2, y2 = (float(drawn.attrib[k]) for k in ("x1", "y1", "x2", "y2"))
        hand = complex(x2 - x1, y1 - y2)
        assert hand / 15.0 == pytest.approx(share.current / largest, abs=2e-3)


def test_lobe_rays_carry_the_elevations_of_the_lobes(picture):
    svg = wave_frame(picture, picture.upright)
    for elevation, _ in picture.lobes:
        assert f">{elevation:.0f}°" in svg


def test_the_sentence_says_the_sums_of_the_shares(picture):
    ahead = abs(sum(share.forward for share in picture.shares))
    behind = abs(sum(share.backward for share in picture.shares))
    numbers = [float(n) for n in re.findall(r"\d+\.\d+", wave_sentence(picture))]
    assert numbers == pytest.approx([ahead, behind, 20 * np.log10(ahead / behind)], abs=0.06)
    parts = [
        float(found[1].replace("−", "-")) * (-1 if "takes" in text else 1)
        for i in range(len(picture.shares))
        for text in [share_sentence(picture, i)]
        if (found := re.search(r"(\d+) %", text))
    ]
    assert sum(parts) == pytest.approx(100.0, abs=len(parts))


def test_one_element_alone_and_a_beam_that_fires_backward_are_told_so(picture):
    driven = [share for share in picture.shares if share.role == "driven"]
    alone = replace(picture, shares=tuple(driven))
    assert "alone" in wave_sentence(alone)
    turned = tuple(
        replace(share, forward=share.backward, backward=share.forward) for share in picture.shares
    )
    assert "fires backward" in wave_sentence(replace(picture, shares=turned))


def test_full_colour_is_a_round_strength(picture):
    value = full_colour(picture)
    assert re.fullmatch(r"[125](e[+-]\d+)?", f"{value:.0e}".replace("e+00", ""))
