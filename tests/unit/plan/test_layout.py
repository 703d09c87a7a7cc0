"""Places in the text, for every form TOML allows."""

from __future__ import annotations

import tomllib

from boomwright.plan.layout import lay_out

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
