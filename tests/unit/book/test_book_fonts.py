"""What the packaged fonts hold, found by setting every character and reading it back."""

from __future__ import annotations

import io
import unicodedata

import typst
from pypdf import PdfReader

from boomwright.render.book.fonts import (
    _COVERED,
    _COVERED_SINGLES,
    book_fonts,
    strings_in,
    uncovered,
)


def test_every_character_of_the_named_blocks_is_drawn():
    codes = [code for first, last in _COVERED for code in range(first, last + 1)]
    wanted = {chr(code) for code in codes} | set(_COVERED_SINGLES)
    wanted = {c for c in wanted if c.isprintable() and not c.isspace()}
    source = '#set text(font: ("Roboto", "Libertinus Serif", "New Computer Modern Math"))\n'
    source += "#for c in sys.inputs.text.codepoints() [#c ]"
    pdf = typst.Compiler(
        source.encode(), font_paths=book_fonts(), sys_inputs={"text": "".join(sorted(wanted))}
    ).compile(format="pdf", timestamp=0)
    found = "".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)
    # The ohm sign and the capital omega share a glyph, so the text comes back composed.
    assert {unicodedata.normalize("NFC", c) for c in wanted} - set(found) == set()


def test_missing_characters_are_found_once_in_order():
    assert uncovered("東京 東 abc Ω Жук – ½") == "京東"
    assert uncovered("plain text, 50 Ω\n") == ""


def test_strings_are_found_at_any_depth():
    assert list(strings_in({"a": ["b", ("c", 1)], "d": {"e": "f"}, "g": None})) == ["b", "c", "f"]
