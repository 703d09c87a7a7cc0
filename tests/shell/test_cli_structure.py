"""``boomwright structure`` and ``boomwright permits``: table, document, statuses."""

from __future__ import annotations

import json

import pytest

from example_stations import station
from fakes.desk import PLAN


def test_the_ledger_comes_first_and_each_mark_has_its_basis(shell):
    ran = shell("structure", station("04"), "--full")
    assert ran.status == 0
    first = ran.out.index("Margins, worst first")
    fixes = ran.out.index("Fixes for weak elements")
    assert first < fixes < ran.out.index("20m: tubes of one half")
    for told in ("base: pressure on the soil: verdict exceeded, use 172 %", "exposure C, ASCE 7-16",
                 "(from memory)",
                 "Lightning and earthing", "Older sum rule",
                 "licensed engineer overrule"):  # fmt: skip
        assert told in " ".join(ran.out.split()), told


def test_what_is_missing_is_said_and_passes_nothing(shell):
    ran = shell("structure", "-", "--full", stdin=PLAN.encode())
    assert ran.status == 0
    assert "verdict not checked, basis because the wall of section 1 is not given" in " ".join(
        ran.out.split()
    )
    assert "no wind speed with its kind, edition and exposure is given" in ran.out
    assert "verdict within" not in ran.out


@pytest.mark.parametrize("command", ["structure", "permits"])
def test_the_document_is_one_and_nothing_else(shell, command):
    ran = shell(command, station("05"), "--json")
    assert ran.status == 0
    assert ran.err == ""
    document = json.loads(ran.out, parse_constant=lambda name: pytest.fail(name))
    assert document["notices"]
    if command == "structure":
        within = [line for line in document["ledger"] if line["verdict"] == "within"]
        assert within
        assert all(0.0 <= line["use"] <= 1.0 for line in within)
        assert len(document["guys"]["directions"]) == 36
    else:
        assert {f["verdict"] for f in document["findings"]} >= {"notice needed", "ask", "within"}
        known = {surface["airport"]: surface["known"] for surface in document["surfaces"]}
        assert known["KSLN"] == "ends of the table"
        assert known["9KS9"] == "reference point"
        assert "2022-10-11" in document["tables"]


@pytest.mark.parametrize(
    ("command", "start", "status"),
    [
        ("structure", "04", 3),
        ("structure", "01", 0),
        ("permits", "05", 3),
        ("permits", "01", 0),
    ],
)
def test_strict_ends_with_three_when_a_limit_is_exceeded(shell, command, start, status):
    ran = shell(command, station(start), "--strict")
    assert ran.status == status
    assert ("limit exceeded" in ran.err) is (status == 3)


def test_bad_input_ends_with_two_and_a_place(shell):
    text = station("06").read_text(encoding="utf-8")
    text = text.replace('edition = "ASCE 7-22"', 'edition = "ASCE 7-05"')
    ran = shell("structure", "-", stdin=text.encode())
    assert ran.status == 2
    assert "site.wind_basis" in ran.err
    assert "->" in ran.err
    # Permissions ask for no wind: they answer, and say that the structure is open.
    ran = shell("permits", "-", stdin=text.encode())
    assert ran.status == 0
    assert "structure" in ran.out[: ran.out.index("General information")]


def test_permits_say_that_they_are_no_advice_and_whom_to_ask(shell):
    ran = shell("permits", station("10"), "--full")
    told = " ".join(ran.out[ran.out.index("General information") :].split())
    assert "General information, not legal advice" in told
    assert "Exceeded island supply: advised distance: yours" in told
    assert told.index("Exceeded ") < told.index("To ask ") < told.index("Within the limit ")
    assert told.count("Ask ") >= 15


def test_lengths_come_in_feet_when_asked(shell):
    assert "ft" in shell("permits", station("01"), "--system", "us").out
    assert "mph" in shell("structure", station("01"), "--system", "us").out
