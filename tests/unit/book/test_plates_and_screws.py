"""The order of plates and screws: what is closed first leaves room for what comes after."""

import pytest

from boomwright.report.work.steps import boom_steps, feed_steps


def place(items, words):
    return next(k for k, item in enumerate(items) if words in str(item))


@pytest.mark.parametrize("side", ["left side", "right side", ""])
def test_the_mast_plate_stands_upright_where_the_element_plates_lie_level(side):
    items = boom_steps(side).items
    mast = str(items[place(items, "mast plate")])
    assert "upright while the element plates lie level" in mast
    assert (side or "beside the boom") in mast
    assert not any("all plates" in str(item) for item in items)
    assert place(items, "mast plate") < place(items, "Tighten the plates")


def test_terminal_screws_are_in_before_the_u_bolts_close():
    items = feed_steps(cut=True, kind="hairpin", gap="40 mm").items
    assert place(items, "put in the terminal screws") < place(items, "close the U-bolts")
