"""Second conductor of a folded element: what is sawn, how it hangs, where it shows."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

from boomwright.export.cut_list_table import cut_list_csv
from boomwright.plan import read_plan
from boomwright.plan.resolve import beam_cutting, station_assembly
from boomwright.report.work.build import make_build
from boomwright.study.clashes import clash_findings

DEMO = files("boomwright.session").joinpath("data/demo.toml").read_text(encoding="utf-8")


def folded(rod="10 mm", stock='["3.66 m", "6.4 m"]'):
    feed = (
        f'feed = {{ kind = "folded", gap = "40 mm", rod_diameter = "{rod}", '
        'rod_spacing = "120 mm", balun = 4 }'
    )
    text = re.sub(r"feed = \{[^}]*\}", feed, DEMO, count=1)
    return read_plan(text.replace('stock = ["3.66 m", "6.4 m"]', f"stock = {stock}"))


def of_feed(plan):
    return {part.mark: part for part in station_assembly(plan).of("20m") if part.group == "feed"}


def test_each_half_runs_from_the_gap_to_the_tip_and_is_tied_there():
    parts = of_feed(folded())
    # The element is 5.14 m to its tip, the gap 40 mm.
    for mark, sign in (("R1", 1.0), ("R2", -1.0)):
        (bar,) = parts[mark].solids
        assert parts[mark].cut.sawn == pytest.approx(5.14 - 0.02)
        assert (bar.start[1], bar.end[1]) == pytest.approx((sign * 0.02, sign * 5.14))
        # Beside the element, away from the mast: 2.7 m from the rear end less 120 mm.
        assert bar.start[0] == pytest.approx(2.7 - 0.12)
        assert parts[mark].mass == pytest.approx(3.14159265 / 4 * 0.01**2 * 5.12 * 2700.0)
    assert {mark for mark in parts if mark.startswith("RS")} == {"RS1", "RS2"}
    # A spacer beside the gap, then at least one a metre.
    assert len([mark for mark in parts if mark.startswith("RP1.")]) == 6
    assert not parts["RP1.1"].conductor


def test_it_is_billed_sawn_and_drawn():
    plan = folded()
    (beam,) = plan.beams
    assert {"R1", "R2"} <= {p.mark for order in beam_cutting(plan, beam).tubes
                            for p in order.pieces}  # fmt: skip
    assert b"R1 R2" in cut_list_csv(plan, beam)
    drawings = {each.name: each for each in make_build(plan, beam).drawings}
    assert "gap 40 mm" in drawings["feed"].description
    apart = drawings["exploded"].description.replace("\u00a0", " ")
    assert "R1, R2: half of the second conductor, saw to 5120 mm" in apart
    assert {each.verdict for each in clash_findings(plan)} == {"within"}


def test_rods_longer_than_the_stock_are_coupled_and_thin_ones_are_wire():
    parts = of_feed(folded(stock='["3.66 m"]'))
    assert parts["R1a"].cut.sawn == pytest.approx(2.56)
    assert [hole.purpose for hole in parts["R1b"].holes] == ["coupling"]
    assert parts["RC1.1"].solids[0].bore == pytest.approx(0.01)
    wire = of_feed(folded(rod="2 mm"))["R1"]
    assert (wire.role, wire.cut, wire.unit) == ("wire", None, "m")
    assert wire.quantity == pytest.approx(5.12 + 0.3)
