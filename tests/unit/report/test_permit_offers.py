"""What Permits proposes keeps the limit that it is proposed for."""

from __future__ import annotations

import pytest

from boomwright.base.quantity import write
from boomwright.plan import read_plan, rewrite
from boomwright.plan.shapes import shape_plan
from boomwright.report.permits import permits_report
from boomwright.study.permits import permit_plan

LIMIT = '[permits]\n[[permits.local_limit]]\nheight = "8 m"\nbasis = "deed, clause 7"\n' \
        'ask = "the estate company"\ndated = "2026-10-04"\n'  # fmt: skip


def heights(found):
    return [one.verdict for one in found.sheet.findings if one.subject == "Height (local)"]


@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_boom_that_is_too_high_is_proposed_lower_and_then_keeps_the_limit(system):
    text = shape_plan("hexagon", band="20 m", further=["15 m"], height=9.0)
    assert permits_report(permit_plan(read_plan(text + LIMIT))).offers == ()  # its pipe is too high
    text = text[: text.index("[support")] + LIMIT
    found = permit_plan(read_plan(text))
    assert heights(found) == ["exceeded"]
    (offer,) = permits_report(found).offers
    assert offer.place == "beam[0].height"
    both = dict.fromkeys((offer.place, "beam[1].height"), write(offer.value, system=system))
    after = permit_plan(read_plan(rewrite(text, both)))
    assert heights(after) == ["within"]
    # As high as the limit lets it be, to a hand's breadth and its rounding.
    assert 7.75 < after.installation.heights.permanent_top < 8.0
    assert permits_report(after).offers == ()
