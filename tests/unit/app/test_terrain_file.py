"""Terrain profiles from CSV: what is read and how a bad line is named."""

from __future__ import annotations

import pytest

from boomwright.base import BoomwrightError
from boomwright.session.files import PlanFolder
from boomwright.study.reach_parts.terrain import read_terrain, terrain_from_csv


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_two_columns_with_or_without_heading(mark):
    lines = [f"0{mark}50", f"120.5{mark}48", f"400{mark}10"]
    plain = terrain_from_csv("\n".join(lines), name="t.csv")
    headed = terrain_from_csv("\n".join([f"distance{mark}height", *lines, ""]), name="t.csv")
    assert plain.distance.tolist() == headed.distance.tolist() == [0.0, 120.5, 400.0]
    assert plain.height.tolist() == [50.0, 48.0, 10.0]


def test_notes_are_skipped():
    found = terrain_from_csv("# walked in May\n0,1\n100,2\n", name="t.csv")
    assert found.height.tolist() == [1.0, 2.0]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("0,1\n100,steep\n200,3\n", "line 2"),
        ("0,1\n100\n", "line 2"),
        ("0,1\n", "at least two lines"),
        ("", "at least two lines"),
        ("100,1\n50,2\n", "does not rise"),
        ("10,1\n50,2\n", "start it at the mast"),
    ],
)
def test_a_bad_profile_is_refused_with_its_place_and_a_remedy(text, told):
    with pytest.raises(BoomwrightError, match=told) as caught:
        terrain_from_csv(text, name="t.csv")
    assert "t.csv" in str(caught.value)


def test_a_missing_or_foreign_file_is_named(tmp_path):
    with pytest.raises(BoomwrightError, match=r"away\.csv"):
        read_terrain("away.csv", files=PlanFolder(tmp_path))
    (tmp_path / "picture.csv").write_bytes(b"\xff\xd8\xff\xe0\x00")
    with pytest.raises(BoomwrightError, match="not a text file"):
        read_terrain("picture.csv", files=PlanFolder(tmp_path))


def test_nothing_is_repeated_of_a_file_that_is_no_profile():
    for text in ("root:x:0:0\nsecret\n", "1,2\nsecret,3\n", '"\n' + "secret " * 40_000):
        with pytest.raises(BoomwrightError) as caught:
            terrain_from_csv(text, name="t.csv")
        assert "secret" not in str(caught.value)
    # Of a profile the owner is shown what is wrong.
    with pytest.raises(BoomwrightError, match="line 3: '200, steep' is no distance and height"):
        terrain_from_csv("0,1\n100,2\n200,steep\n", name="t.csv")


def test_a_stray_quotation_mark_swallows_no_lines():
    found = terrain_from_csv('0,"1\n100,2"\n200,3\n', name="t.csv")
    assert found.height.tolist() == [1.0, 2.0, 3.0]
