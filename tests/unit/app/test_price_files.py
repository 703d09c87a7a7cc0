"""Price lists as files: both forms, and what is said of a file that is none."""

from __future__ import annotations

import pytest

from boomwright.base import PlanError
from boomwright.session.files import load_prices

CSV = """item,unit,low,likely,high,currency,supplier,dated
feed line,m,1.0,2.0,4.0,EUR,invented,2026-06-01
"""
TOML = """currency = "EUR"
supplier = "invented"
dated = 2026-06-01
[[price]]
item = "feed line"
unit = "m"
low = 1
likely = 2.0
high = 4
"""


def file_of(folder, text, name):
    (folder / name).write_text(text, encoding="utf-8")
    return folder / name


def test_both_forms_say_the_same(tmp_path):
    table = load_prices(file_of(tmp_path, CSV, "prices.csv")).prices
    assert load_prices(file_of(tmp_path, TOML, "prices.toml")).prices == table
    assert (table[0].low, table[0].high, table[0].dated) == (1.0, 4.0, "2026-06-01")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("root:x:0:0\nsecret\n", "p.csv"),
        ('password = "secret"\n', "p.toml"),
        ("secret = yes\n", "p.toml"),
        ('[secret]\nprice_of = "secret"\n', "p.toml"),
    ],
)
def test_nothing_is_repeated_of_a_file_that_is_no_price_list(tmp_path, text, name):
    with pytest.raises(PlanError) as caught:
        load_prices(file_of(tmp_path, text, name))
    assert "secret" not in repr(caught.value.faults)
    assert caught.value.faults[0].remedy


@pytest.mark.parametrize(
    "text",
    [
        "[[price]]\n" + "a" + ".a" * 200_000 + " = 1\n",
        "[[price]]\nx = " + "[" * 200_000,
        "[[price]]\nx = " + "9" * 5000,
        "price = 3\n",
        "[[price]]\nitem = \n",
    ],
)
def test_a_damaged_toml_list_is_refused_with_a_remedy(tmp_path, text):
    with pytest.raises(PlanError) as caught:
        load_prices(file_of(tmp_path, text, "p.toml"))
    assert "[[price]]" in caught.value.faults[0].remedy


def test_a_quotation_mark_without_end_is_named(tmp_path):
    text = CSV + 'tube,m,1,2,3,EUR,"x,2026-06-01\n' + "mast,m,1,2,3,EUR,x,2026-06-01\n" * 6000
    with pytest.raises(PlanError) as caught:
        load_prices(file_of(tmp_path, text, "p.csv"))
    assert caught.value.faults[0].path == "after line 2"
    assert "quotation mark" in caught.value.faults[0].remedy


def test_an_amount_no_sum_could_hold_is_refused(tmp_path):
    text = CSV + "mast,m,1e300,1e308,1e308,EUR,x,2026-06-01\n"
    with pytest.raises(PlanError) as caught:
        load_prices(file_of(tmp_path, text, "p.csv"))
    assert {fault.line for fault in caught.value.faults} == {3}
    assert "from 0 to" in caught.value.faults[0].message


def test_the_line_of_a_fault_is_that_of_the_file(tmp_path):
    text = (
        CSV + '"two\nlines",m,1,2,3,EUR,x,2026-06-01\n# remark\nmast,m,three,2,3,EUR,x,2026-06-01\n'
    )
    with pytest.raises(PlanError) as caught:
        load_prices(file_of(tmp_path, text, "p.csv"))
    assert [fault.line for fault in caught.value.faults] == [6]
