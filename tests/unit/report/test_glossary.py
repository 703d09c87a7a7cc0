"""Words of the trade: each once, short, and found from the labels of the sheets."""

from __future__ import annotations

import pytest

from boomwright.report.glossary import GLOSSARY, explained
from boomwright.web.sheets import SHEETS


def test_every_word_stands_once_in_order_and_names_a_sheet_that_is_there():
    names = [term.name for term in GLOSSARY]
    assert names == sorted(set(names), key=str.lower)
    assert {term.sheet for term in GLOSSARY} - {""} <= {sheet.slug for sheet in SHEETS}


def test_no_sentence_is_longer_than_twenty_words():
    for term in GLOSSARY:
        for sentence in term.says.split(". "):
            assert len(sentence.split()) <= 20, term.name


@pytest.mark.parametrize(
    ("label", "name"),
    [
        ("Take-off angle", "Take-off angle"),
        ("SWR as measured, worst", "Standing wave ratio"),
        ("Front-to-rear, worst in band", "Front-to-rear ratio"),
        ("Elements", "Element"),
        ("Elementary", None),
        ("Country", None),
    ],
)
def test_a_label_leads_to_the_word_that_it_begins_with(label, name):
    found = explained(label)
    assert (found and found.name) == name
