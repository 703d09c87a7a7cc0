"""Price lists and estimates: three points, missing and old prices, budget, sensitivities."""

import csv
import io
import math
from dataclasses import replace
from importlib import resources

import pytest

from boomwright.base import PlanError
from boomwright.base.quantity import write
from boomwright.cost import (
    Bill,
    BillLine,
    blank_prices,
    estimate,
    join_bills,
    open_line,
    read_prices,
    sensitivities,
)
from boomwright.plan import read_plan
from boomwright.plan.resolve import plan_bill, plan_estimate
from boomwright.session.files import packaged_text

TODAY = "2026-06-30"
HEADER = "item,unit,low,likely,high,currency,supplier,dated\n"
LIST = HEADER + (
    "# remark\n"
    "Feed  line,m,1.0,2.0,4.0,EUR,invented,2026-06-01\n"
    "connector,each,3,3,3,EUR,invented,2025-12-31\n"
    "earth rod with clamp,each,10,20,30,USD,invented,2026-06-01\n"
)


def bill_of(**quantities):
    units = {"feed line": "m"}
    lines = tuple(
        BillLine(group="g", name=item, quantity=count, unit=units.get(item, "each"), driver="test")
        for item, count in ((name.replace("_", " "), n) for name, n in quantities.items())
    )
    return Bill(lines=lines, tubes=(), labour_hours=5.0, notices=())


def test_three_points_and_band():
    text = HEADER + "a,each,1,2,4,EUR,x,2026-06-01\nb,each,10,20,26,EUR,x,2026-06-01\n"
    result = estimate(
        bill_of(a=10.0, b=2.0),
        prices=read_prices(text),
        currency="EUR",
        today=TODAY,
        contingency=0.1,
    )
    assert (result.priced.low, result.priced.likely, result.priced.high) == (30.0, 60.0, 92.0)
    assert result.contingency == pytest.approx(6.0, rel=1e-12)
    assert result.total.likely == pytest.approx(66.0, rel=1e-12)
    assert result.total.low == pytest.approx(66.0 - math.hypot(10.0, 20.0), rel=1e-12)
    assert result.total.high == pytest.approx(66.0 + math.hypot(20.0, 12.0), rel=1e-12)
    assert result.labour_hours == 5.0


def test_tax_is_added_to_every_price_and_to_the_band():
    text = HEADER + "a,each,1,2,4,EUR,x,2026-06-01\n"
    result = estimate(
        bill_of(a=10.0), prices=read_prices(text), currency="EUR", today=TODAY, contingency=0.1,
        tax=0.2,
    )  # fmt: skip
    # 20 and a fifth are 24; a tenth of that comes on top; 10 down and 20 up grow by a fifth too.
    assert (result.tax, result.contingency) == pytest.approx((4.0, 2.4))
    total = result.total
    assert (total.low, total.likely, total.high) == pytest.approx((14.4, 26.4, 50.4))


def test_a_line_nobody_said_anything_of_is_in_no_sum_and_settles_no_budget():
    text = HEADER + "a,each,1,2,4,EUR,x,2026-06-01\nfreight,delivery,9,9,9,EUR,x,2026-06-01\n"
    bill = bill_of(a=10.0)
    bill = replace(bill, lines=(*bill.lines, open_line("freight", say="deliveries")))
    result = estimate(bill, prices=read_prices(text), currency="EUR", today=TODAY, budget=1e6)
    assert (result.unsaid, result.unpriced) == (("freight",), ())
    assert result.priced.likely == 20.0
    assert result.budget_verdict == "cannot tell"
    assert not result.nothing_priced
    assert estimate(bill, prices=(), currency="EUR", today=TODAY).nothing_priced


def test_a_row_that_matches_nothing_is_named_with_its_place_and_what_it_may_mean():
    text = HEADER + (
        "feed lime,m,1,2,4,EUR,x,2026-06-01\n"
        "connector,kg,3,3,3,EUR,x,2026-06-01\n"
        "Connector,each,3,3,3,EUR,x,2026-06-01\n"
        "feed line,ft,1,1,1,EUR,x,2026-06-01\n"
        "moon dust,kg,1,1,1,EUR,x,2026-06-01\n"
        "freight,delivery,9,9,9,EUR,x,2026-06-01\n"
    )
    result = estimate(
        bill_of(feed_line=10.0, connector=1.0), prices=read_prices(text), currency="EUR",
        today=TODAY,
    )  # fmt: skip
    (notice,) = [each for each in result.notices if each.code == "cost.price-matches-nothing"]
    said = write(notice.text, system="metric")
    assert said.startswith("Not found in the bill, 3 rows of the price list:")
    assert "line 2: feed lime (m), perhaps feed line (" in said
    assert "line 3: connector (kg), perhaps connector (each)" in said
    assert "line 6: moon dust (kg). " in said
    # The foot is another unit of the same line: 10 m are 32.8 ft.
    assert result.priced.likely == pytest.approx(10.0 / 0.3048 + 3.0)


@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_list_to_fill_in_takes_every_line_and_loses_no_price(system):
    plan = read_plan(packaged_text("demo.toml"))
    bill = plan_bill(plan)
    lines = [(line.group, line.name, line.unit) for line in bill.lines if not line.is_open]
    known = read_prices(
        LIST + '"moon ""dust"", fine",kg,0.1,0.125,1e3,EUR,"my note, old",2026-06-01\n'
    )
    text = blank_prices(lines, prices=known, currency="GBP", system=system)
    # Rows without amounts wait; every price that was there is there again.
    assert set(read_prices(text)) == set(known)
    header, *rows = [row for row in csv.reader(text.splitlines()) if not row[0].startswith("#")]
    assert header == HEADER.strip().split(",")
    filled = [
        [*row[:2], "1", "2", "3", "GBP", "", "2026-06-01"] if row[2] == "" else row for row in rows
    ]
    out = io.StringIO()
    csv.writer(out).writerows([header, *filled])
    made = estimate(bill, prices=read_prices(out.getvalue()), currency="GBP", today=TODAY)
    wrong = [line.bill.item for line in made.lines if line.amounts is None]
    assert wrong == ["connector", "earth rod with clamp"]  # those are priced in another currency


def test_unpriced_is_never_zero():
    bill = bill_of(feed_line=10.0, gadget=1.0, earth_rod_with_clamp=1.0)
    result = estimate(bill, prices=read_prices(LIST), currency="EUR", today=TODAY)
    lines = {line.bill.item: line for line in result.lines}
    assert lines["gadget"].amounts is None
    assert lines["gadget"].remark == "not priced"
    assert lines["earth rod with clamp"].amounts is None
    assert "only in USD" in lines["earth rod with clamp"].remark
    assert result.unpriced == ("gadget", "earth rod with clamp")
    assert result.priced.likely == 20.0
    assert "cost.not-priced" in {notice.code for notice in result.notices}


@pytest.mark.parametrize(
    ("today", "old"),
    [("2026-06-29", False), ("2026-06-30", True)],
)
def test_prices_older_than_180_days_are_flagged(today, old):
    # the connector's price is of 2025-12-31: 180 days on 2026-06-29
    result = estimate(bill_of(connector=1.0), prices=read_prices(LIST), currency="EUR", today=today)
    assert result.lines[0].old is old
    assert result.lines[0].remark == ("price is 181 days old: ask again" if old else "")
    assert (result.old == ("connector",)) is old
    assert ("cost.old-price" in {notice.code for notice in result.notices}) is old
    assert result.lines[0].amounts.likely == 3.0


def test_price_dated_ahead_is_remarked():
    result = estimate(
        bill_of(feed_line=1.0),
        prices=read_prices(LIST),
        currency="EUR",
        today="2026-05-01",
    )
    assert "days ahead" in result.lines[0].remark


@pytest.mark.parametrize(
    ("budget", "gadget", "verdict"),
    [
        (None, 0, "no budget"),
        (100.0, 0, "within"),
        (25.0, 0, "cannot tell"),
        (22.0, 0, "over"),
        (100.0, 1, "cannot tell"),
        (22.0, 1, "over"),
    ],
)
def test_budget(budget, gadget, verdict):
    # likely 10 m at 2.00 and 15 per cent: 23.00; band up to 43.00
    bill = bill_of(feed_line=10.0, **({"gadget": 1.0} if gadget else {}))
    result = estimate(bill, prices=read_prices(LIST), currency="EUR", today=TODAY, budget=budget)
    assert result.budget_verdict == verdict


def test_sensitivities_estimate_again():
    prices = read_prices(LIST + "guy strand,m,1,1,1,EUR,x,2026-06-01\n")

    def run(choices):
        guys = 3 * math.hypot(choices["height"], 8.0)
        strand = BillLine(group="g", name="guy strand", quantity=1.05 * guys, unit="m", driver="t")
        line = bill_of(feed_line=1.1 * (choices["height"] + choices["run"]))
        bills = (line, Bill(lines=(strand,), tubes=(), labour_hours=0.0, notices=()))
        return estimate(
            join_bills(bills), prices=prices, currency="EUR", today=TODAY, contingency=0.0
        )

    base = {"height": 15.0, "run": 20.0}
    planned = run(base)
    found = sensitivities(run, planned=planned, base=base, steps={"run": 1.0, "height": 1.0})
    assert [item.name for item in found] == ["height", "run"]
    strand = 3 * 1.05 * (math.hypot(16.0, 8.0) - math.hypot(15.0, 8.0))
    assert found[0].change.likely == pytest.approx(2.2 + strand, rel=1e-9)
    assert found[1].change.likely == pytest.approx(2.2, rel=1e-9)
    assert found[1].unpriced_change == 0
    with pytest.raises(KeyError):
        sensitivities(run, planned=planned, base=base, steps={"width": 1.0})


def test_every_fault_of_a_price_list_is_reported():
    text = HEADER + (
        "a,each,5,4,6,EUR,x,2026-06-01\n"
        "b,,1,two,3,EUR,x,2026-06-01\n"
        "\n"
        "c,each,1,-2,3,,x,June\n"
        "A,each,1,2,3,EUR,x,2026-06-01\n"
    )
    with pytest.raises(PlanError) as caught:
        read_prices(text)
    paths = {fault.path for fault in caught.value.faults}
    assert paths == {
        "line 2.likely",
        "line 3.unit",
        "line 3.likely",
        "line 5.likely",
        "line 5.currency",
        "line 5.dated",
        "line 6.item",
    }
    assert all(fault.remedy for fault in caught.value.faults)


def test_a_list_of_a_program_that_writes_decimal_commas_is_read():
    dotted = HEADER + "a,each,1.50,2.5,3,EUR,x,2026-06-01\n"
    comma = dotted.replace(",", ";").replace(".", ",")
    assert read_prices(comma) == read_prices(dotted)


@pytest.mark.parametrize(
    ("text", "path", "said"),
    [
        # The rows after a quotation mark that nobody closed would be lost in its cell.
        (HEADER + '"a,each,1,2,3,EUR,x,2026-06-01\nb,each,1,2,3,EUR,x,2026-06-01\n',
         "after line 1", "cell without end"),
        (HEADER + 'b,each,1,2,3,EUR,x,2026-06-01\n"3" tube",each,1,2,3,EUR,x,2026-06-01\n',
         "after line 2", "quotation mark inside"),
        (HEADER.encode("utf-16").decode("utf-8-sig", errors="replace"), "line 1", "UTF-8"),
    ],
)  # fmt: skip
def test_a_list_that_cannot_be_told_apart_is_refused(text, path, said):
    with pytest.raises(PlanError) as caught:
        read_prices(text)
    (fault,) = caught.value.faults
    assert fault.path == path
    assert said in fault.message
    assert fault.remedy


def test_missing_columns():
    for text in ("", "item,price\nx,1\n"):
        with pytest.raises(PlanError) as caught:
            read_prices(text)
        assert "dated" in caught.value.faults[0].value


def test_invented_demo_prices_cover_the_demo():
    data = resources.files("boomwright.session").joinpath("data")
    text = data.joinpath("demo_prices.csv").read_text(encoding="utf-8")
    assert "invented" in text.splitlines()[0].lower()
    prices = read_prices(text)
    assert all(price.supplier == "invented" for price in prices)
    plan = read_plan(data.joinpath("demo.toml").read_text(encoding="utf-8"), source="demo.toml")
    result = plan_estimate(plan, prices=prices, today="2026-11-25")
    assert result is not None
    assert result.unpriced == ()
    assert result.old == ()
    assert result.currency == "GBP"
