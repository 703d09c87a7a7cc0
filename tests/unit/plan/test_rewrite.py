"""Rewriting: the right values change, all else stays to the letter."""

from __future__ import annotations

import tomllib

import pytest
import tomlkit

from boomwright.base import PlanError
from boomwright.plan import read_plan, rewrite, set_element_length
from boomwright.session.files import packaged_text

WHOLE_DEMO = packaged_text("demo.toml")
# Up to its beam: what is appended to a beam then stands at the end.
DEMO = WHOLE_DEMO[: WHOLE_DEMO.index("\n  [beam.boom]")]
US = (
    DEMO.replace('"16 m"', '"52 ft 6 in"')
    .replace('"2.60 m"', '"0.123 wl"')
    .replace('gap = "40 mm"', 'gap = "1-1/2 in"')
    .replace('["15.88 mm", "1.44 m", "1.47 mm"]', '["5/8 in", "4 ft 10-5/8 in", "0.058 in"]')
)


def changed_lines(before: str, after: str) -> list[str]:
    old = before.splitlines()
    return [line for line in after.splitlines() if line not in old]


def comments(text: str) -> list[str]:
    return [line[line.index("#") :] for line in text.splitlines() if "#" in line]


def test_values_change_and_comments_stay() -> None:
    after = rewrite(DEMO, {"beam[0].element[1].at": "2.71 m", "beam[0].height": "15.2 m"})
    assert changed_lines(DEMO, after) == [
        'height = "15.2 m"                       # boom above ground',
        '  at = "2.71 m"',
    ]
    assert len(after.splitlines()) == len(DEMO.splitlines())
    assert comments(after) == comments(DEMO)


def test_an_independent_reader_sees_only_the_change() -> None:
    after = rewrite(DEMO, {"beam[0].height": 15.2, "site.wind_basis.edition": "an edition"})
    expected = tomllib.loads(DEMO)
    expected["beam"][0]["height"] = "15.2 m"
    expected["site"]["wind_basis"]["edition"] = "an edition"
    assert tomlkit.parse(after).unwrap() == expected


@pytest.mark.parametrize(
    ("place", "value", "line"),
    [
        (
            "beam[0].height",
            15.24,
            'height = "50 ft 0 in"                       # boom above ground',
        ),
        (
            "beam[0].height",
            15.2421,
            'height = "50 ft 1/16 in"                       # boom above ground',
        ),
        (
            "beam[0].feed.gap",
            0.034925,
            'feed = { kind = "hairpin", gap = "1-3/8 in", rod_diameter = "10 mm", '
            'rod_spacing = "80 mm", rod_length = "565 mm" }',
        ),
        ("beam[0].element[1].at", 2.5, '  at = "0.118207 wl"'),
        (
            "beam[0].heading",
            1.0,
            'heading = "57.2958 deg"                   # clockwise from true north',
        ),
        ("beam[0].design", 14.2e6, 'design = "14.2 MHz"'),
        ("site.wind", 41.23456, 'wind = "41.235 m/s"                       # 3 s gust at 10 m'),
        ("site.ice", 0.00512, 'ice = "5.1 mm"'),
    ],
)
def test_numbers_take_the_owners_unit(place: str, value: float, line: str) -> None:
    after = rewrite(US, {place: value})
    assert changed_lines(US, after) == [line]
    read_plan(after)


def test_decimal_inches_stay_decimal() -> None:
    after = rewrite(US, {"beam[0].element[1].half[3][2]": 0.0016})
    assert '"0.063 in"' in after


def test_plain_number_stays_a_plain_number() -> None:
    text = DEMO.replace('"16 m"', "16")
    assert "height = 15.5 " in rewrite(text, {"beam[0].height": 15.5})


def test_table_is_appended_and_removed() -> None:
    director = {"role": "director", "at": 9.1, "diameter": 0.0222, "length": 9.4}
    longer = rewrite(DEMO, {"beam[0].element[3]": director})
    beam = read_plan(longer).beams[0]
    assert beam.elements[3].position == 9.1
    assert '  at = "9.1 m"' in longer.splitlines()
    assert longer.startswith(DEMO.rstrip("\n"))
    shorter = rewrite(longer, {"beam[0].element[3]": None})
    assert read_plan(shorter) == read_plan(DEMO)


def test_several_removals_mean_the_elements_as_they_stood() -> None:
    doubled = DEMO + DEMO[DEMO.index("[[beam]]") :].replace('"20m"', '"other"')
    after = rewrite(
        doubled, {"beam[0].element[0]": None, "beam[0].element[2]": None, "beam[1]": None}
    )
    (beam,) = read_plan(after).beams
    assert [element.role for element in beam.elements] == ["driven"]
    assert comments(DEMO)[0] in after


def test_new_beam_and_wire() -> None:
    wire = {"name": "w", "diameter": 0.002, "points": [[0, 0, 0], [0.0, 0.0, -1.0]]}
    after = rewrite(DEMO, {"beam[0].wire[0]": wire})
    assert read_plan(after).beams[0].wires[0].points[1, 2] == -1.0


def test_keys_are_added_to_tables_inline_tables_and_lists() -> None:
    after = rewrite(
        DEMO,
        {"site.wind_basis.edition": "2022", "beam[0].element[0].half[3]": ["15.9 mm", 0.1]},
    )
    plan = read_plan(after)
    assert plan.site.wind_basis.edition == "2022"
    assert plan.beams[0].elements[0].half[3].length == 0.1
    bare = "boomwright = 1\n"
    assert tomllib.loads(rewrite(bare, {"site.wind_basis.kind": "nominal"}))["site"] == {
        "wind_basis": {"kind": "nominal"}
    }
    inline = 'site = { ground = "wet" } # here\n'
    assert (
        rewrite(inline, {"site.ice": 0.004}) == 'site = { ground = "wet", ice = "4 mm" } # here\n'
    )
    assert rewrite("[site]\n[[beam]]\n", {"title": "t", "site.wind": 3.0}) == (
        'title = "t"\n[site]\nwind = "3 m/s"\n[[beam]]\n'
    )


def test_keys_are_removed_everywhere() -> None:
    after = rewrite(DEMO, {"site.ice": None, "beam[0].element[0].half[0][2]": None})
    plan = read_plan(after)
    assert plan.site.ice_thickness is None
    assert plan.beams[0].elements[0].half[0].wall == 0
    assert (
        rewrite("a = { b = 1, c = 2 }\nboomwright = 1\n", {"boomwright": None})
        == "a = { b = 1, c = 2 }\n"
    )


def test_line_ends_and_byte_order_mark_stay() -> None:
    text = "\ufeff" + DEMO.replace("\n", "\r\n")
    director = {"role": "director", "at": 9.1, "diameter": 0.0222, "length": 9.4}
    after = rewrite(
        text, {"beam[0].height": 12.0, "site.ice": None, "beam[0].element[3]": director}
    )
    assert after.startswith("\ufeff")
    assert after.count("\n") == after.count("\r\n")
    assert read_plan(after).beams[0].height == 12.0


def test_owner_text_is_escaped() -> None:
    after = rewrite(DEMO, {"title": 'a "quoted" \\ title\u00e9'})
    assert read_plan(after).title == 'a "quoted" \\ title\u00e9'


@pytest.mark.parametrize(
    ("place", "value", "words"),
    [
        ("beam[0].heigth", 3.0, "height"),
        ("beam0.height", 3.0, '"beam"'),
        ("zzz", 3.0, "known here"),
        ("beam[0]..height", 3.0, "write it as"),
        ("[0]", 3.0, "write it as"),
        ("", 3.0, "write it as"),
        ("beam[0]height", 3.0, "write it as"),
        ("beam[4].height", 3.0, "around it first"),
        ("beam[0].element[7]", {"role": "director"}, "around it first"),
        ("beam[0].element[3]", 4.0, "keys and values"),
        ("beam[0].height", float("nan"), "finite"),
        ("beam[0].height", object(), "finite"),
        ("site.locator", None, "stands in the plan"),
        ("site.wind_basis", {"kind": "nominal"}, "one by one"),
        ("beam[0].element[0].half[5]", ["1 mm", "1 m"], "around it first"),
    ],
)
def test_what_cannot_be_done_is_refused(place: str, value: object, words: str) -> None:
    with pytest.raises(PlanError) as caught:
        rewrite(DEMO, {place: value})
    assert words in caught.value.faults[0].remedy


def test_text_that_is_no_toml_is_refused() -> None:
    with pytest.raises(PlanError, match="fault"):
        rewrite("height = 16 m", {"beam[0].height": 3.0})


def test_length_of_an_element_in_sections_changes_its_tips() -> None:
    after = set_element_length(DEMO, "20m", 0, 10.8)
    before, new = read_plan(DEMO).beams[0].elements[0], read_plan(after).beams[0].elements[0]
    assert new.length == pytest.approx(10.8, abs=1e-4)
    assert new.half[:-1] == before.half[:-1]
    assert set_element_length(DEMO, 0, 0, 10.8) == after


def test_length_in_short_form_and_in_feet() -> None:
    short = rewrite(DEMO, {"beam[0].element[1].half": None, "beam[0].element[1].diameter": 0.022,
                           "beam[0].element[1].length": "33 ft 2 in"})  # fmt: skip
    after = set_element_length(short, 0, 1, 10.0)
    assert '"32 ft 9-11/16 in"' in after
    us = set_element_length(US, 0, 1, 10.0)
    assert read_plan(us).beams[0].elements[1].length == pytest.approx(10.0, abs=0.0254 / 16)


@pytest.mark.parametrize(
    ("beam", "element", "length"), [(0, 0, 6.0), (0, 9, 10.0), (3, 0, 10.0), ("none", 0, 10.0)]
)
def test_length_that_cannot_be_set(beam: int | str, element: int, length: float) -> None:
    with pytest.raises(PlanError) as caught:
        set_element_length(DEMO, beam, element, length)
    assert caught.value.faults[0].remedy


def test_the_first_table_of_its_sort_needs_nothing_around_it() -> None:
    """Targets named one after the other, then a key of the table they made implicit."""
    text = rewrite(DEMO, {"reach.target[0]": {"name": "far", "locator": "FN42"}})
    text = rewrite(text, {"reach.target[1]": {"name": "north", "position": "60 N, 10 E"}})
    text = rewrite(text, {"reach.far_ground[0]": {"distance": "80 m", "ground": "sea water"}})
    text = rewrite(text, {"reach.wanted": ["10 deg", "20 deg"]})
    reach = read_plan(text).reach
    assert reach is not None
    assert [target.name for target in reach.target] == ["far", "north"]
    assert reach.far_ground[0].distance == 80.0
    assert len(reach.wanted) == 2


def test_a_table_is_appended_to_a_list_on_one_line() -> None:
    own = (
        DEMO
        + '\n[reach]\ntarget = [{ name = "a", locator = "FN42" }, '
        + '{ name = "b", locator = "EN61" }]\n'
    )
    text = rewrite(own, {"reach.target[2]": {"name": "north", "position": "60 N, 10 E"}})
    reach = read_plan(text).reach
    assert reach is not None
    assert [target.name for target in reach.target] == ["a", "b", "north"]
    assert "[[reach.target]]" not in text
    assert rewrite(text, {"reach.target[2]": None}) == own
