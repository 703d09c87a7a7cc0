"""The trade-off picture: exact data on every point, hollow where not reached, nothing cut off."""

from __future__ import annotations

import numpy as np
import pytest
from svg_reading import cut_off, every, overlaps, parsed

from boomwright.charts import LIGHT, TradeOffCurve, trade_off_chart
from boomwright.charts.beam.frontier import trade_off_sentence, trade_off_table
from boomwright.charts.palette import DARK

BOOMS = np.array([5.0, 8.0, 12.0])


def curves():
    return [
        TradeOffCurve(
            rear_db=rear,
            boom=BOOMS,
            gain_dbi=np.array([7.5, 9.0, 9.8]) - 0.05 * rear,
            front_to_rear_db=np.array([rear + 1.0, rear + 2.0, rear - 1.0]),
            kept=np.array([True, True, rear < 20.0]),
        )
        for rear in (0.0, 12.0, 16.0, 20.0, 25.0)
    ]


@pytest.mark.parametrize(("width", "palette"), [(600.0, LIGHT), (340.0, DARK)])
@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_point_carries_its_numbers(width, palette, system):
    svg = trade_off_chart(
        curves=curves(), elements=4, own=(7.0, 8.0, "this beam"), palette=palette, system=system,
        width=width,
    )  # fmt: skip
    points = [each for each in every(parsed(svg), "g") if "data-choice" in each.attrib]
    assert len(points) == 15
    told = {each.attrib["data-choice"]: each.attrib for each in points}
    assert float(told["3.1"]["data-boom"]) == 8.0
    assert float(told["3.1"]["data-gain"]) == 8.0
    assert float(told["3.1"]["data-rear"]) == 22.0
    assert [told[f"{i}.2"]["data-kept"] for i in range(5)] == ["yes", "yes", "yes", "no", "no"]
    assert cut_off(svg) == []
    # The label of the own beam and its rim are one text drawn twice.
    assert [pair for pair in overlaps(svg) if pair != ("this beam", "this beam")] == []


def test_sentence_and_table_hold_the_same_numbers():
    sentence = trade_off_sentence(curves=curves(), elements=4)
    assert "7.50 dBi on a boom of 5.00 m and 9.80 dBi on one of 12.00 m" in sentence
    assert "25 dB costs up to 1.25 dB" in sentence
    table = trade_off_table(curves=curves())
    assert table.header[:2] == ("boom, m", "gain, dBi, any rear")
    assert table.rows[2] == (
        "12.00", "9.80", "9.20", "9.00", "8.80 (not reached)", "8.55 (not reached)",
    )  # fmt: skip
