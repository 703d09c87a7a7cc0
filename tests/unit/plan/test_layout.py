"""Places in the text, for every form TOML allows."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from boomwright.plan.layout import lay_out
from boomwright.plan.read import with_value

STATIONS = Path(__file__).parents[3] / "examples" / "stations"

TEXT = '''\
# a comment with [brackets] and = signs
top = 1   # after
"quoted key" = 'literal # not a comment'
a.b."c d" = [ 1, [2, 3], # inside
  "x]y", { k = """multi
line""", l = [true] }, ]
when = 1979-05-27 07:32:00Z

[ table . 'sub' ]   # header comment
key = "with \\" quote"
empty = {}
none = []

[[many]]
v = 1
[[many.inner]]
w = -1.5e3
[[many.inner]]
w = \'\'\'a
''b\'\'\'
[[many]]
[many.only]
v = 0x_f
'''.replace("0x_f", "0xf")


def at(data: object, path: tuple[str | int, ...]) -> object:
    for step in path:
        data = data[step]  # type: ignore[index]
    return data


def test_every_value_is_found_where_it_stands() -> None:
    data, layout = tomllib.loads(TEXT), lay_out(TEXT)
    for path in layout.spans:
        again = tomllib.loads(f"v = {layout.written(path)}")["v"]
        assert again == at(data, path), path
    assert ("a", "b", "c d", 3, "l", 0) in layout.spans
    assert ("many", 1, "only", "v") in layout.spans
    assert ("many", 0, "inner", 1, "w") in layout.spans


def test_lines() -> None:
    layout = lay_out(TEXT)
    rows = TEXT.split("\n")
    for path, start in (
        (("top",), "top ="),
        (("a", "b", "c d", 1, 0), "a.b"),
        (("a", "b", "c d", 3, "k"), '  "x]y"'),
        (("table", "sub", "key"), "key ="),
        (("table", "sub", "absent"), "[ table"),
        (("many", 0, "inner", 1), "[[many.inner]]"),
        (("many", 1, "only"), "[many.only]"),
    ):
        assert rows[layout.line(path) - 1].startswith(start), path
    assert layout.line(("absent",)) == 0
    assert layout.written(("many",)) == ""


@pytest.mark.parametrize("new", ['"4.75 m"', "1", '"longer, with \\"quotes\\", # and [x]"'])
@pytest.mark.parametrize("station", [None, "05-four-elements", "10-two-beams"])
def test_one_value_written_otherwise_is_as_if_the_text_was_read_anew(station, new) -> None:
    text = TEXT
    if station:
        (plan,) = STATIONS.glob(f"{station}*.toml")
        text = plan.read_text(encoding="utf-8")
    data, layout = tomllib.loads(text), lay_out(text)
    plain = {
        path: (start, end)
        for path, (start, end) in layout.spans.items()
        if text[start] not in "[{" and "\n" not in text[start:end]
    }
    for path, (start, end) in plain.items():
        changed = layout.with_value(path, new)
        assert changed.text == text[:start] + new + text[end:]
        assert with_value(changed.text, data, path, new) == tomllib.loads(changed.text)
        # A blank line more is another text, which is walked and not just taken from what is kept.
        walked = lay_out(changed.text + "\n")
        assert (changed.spans, changed.keys) == (walked.spans, walked.keys)
        assert changed.bodies == walked.bodies
        assert changed.line(path) == walked.line(path)
    assert len(plain) > 5
