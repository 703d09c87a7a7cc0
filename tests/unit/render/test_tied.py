"""Lines of a terminal break between words, never between a figure and its unit or band."""

from __future__ import annotations

import io

from boomwright.render.terminal.lines import make_console, words

TEXT = "through 42.00 m of line, gain 12.86 ±0.05 dBi at 16.4 m, span 36 ft 1-7/8 in, force 7000 N."


def test_no_line_begins_with_a_unit_or_a_band(monkeypatch):
    for width in range(60, 100):
        monkeypatch.setenv("COLUMNS", str(width))
        file = io.StringIO()
        make_console(file).print(words(f"{TEXT} {TEXT}"))
        lines = file.getvalue().splitlines()
        assert " ".join(" ".join(lines).split()) == f"{TEXT} {TEXT}"
        for line in lines:
            assert line.split()[0] not in {"m", "dBi", "ft", "in,", "N.", "±0.05"}
