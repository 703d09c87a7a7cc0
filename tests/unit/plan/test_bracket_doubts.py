"""What ``check`` asks about a tube on house brackets, and how its figures reach the bill."""

from __future__ import annotations

import pytest

from boomwright.plan import Plan, plan_notices, read_plan
from boomwright.plan.resolve.cost import plan_bill
from full_plan import bracketed


def plan(*, heights: tuple[float, ...], foot: float) -> Plan:
    listed = ", ".join(f'"{height} m"' for height in heights)
    return read_plan(
        bracketed(
            ('["4.5 m", "20 ft"]', f"[{listed}]"),
            ('foot = "4.2 m"', f'foot = "{foot} m"'),
            ('height = "26 ft"', 'height = "13 m"'),
        )
    )


def doubts(given: Plan) -> list[tuple[str, str]]:
    return [(each.code, each.value) for each in plan_notices(given) if "plan.brackets" in each.code]


@pytest.mark.parametrize(
    ("heights", "found"),
    [
        # The highest beam hangs at 17 m: 6 m above the bracket, a third of it is 2 m.
        ((8.5, 11.0), []),
        ((9.0, 11.0), []),
        ((9.5, 11.0), [("plan.brackets-close", "0.25 of the free length")]),
        ((6.0, 9.5, 11.0), [("plan.brackets-close", "0.25 of the free length")]),
    ],
)
def test_brackets_close_to_each_other_are_doubted(
    heights: tuple[float, ...], found: list[tuple[str, str]]
) -> None:
    assert doubts(plan(heights=heights, foot=4.0)) == found


def test_more_tube_free_than_held_is_doubted() -> None:
    (found,) = doubts(plan(heights=(2.0, 7.0), foot=0.0))
    assert found[0] == "plan.brackets-low"


def test_the_bill_has_the_tube_as_long_as_it_is_and_every_bracket() -> None:
    lines = {
        line.item: line.quantity for line in plan_bill(plan(heights=(9.0, 11.0), foot=8.7)).lines
    }
    assert lines["house bracket with its fixings"] == 2.0
    (tube,) = [value for name, value in lines.items() if name.startswith("support tube")]
    assert tube == pytest.approx(4.3)
    (whole,) = [
        line.quantity
        for line in plan_bill(plan(heights=(9.0,), foot=0.0)).lines
        if line.item.startswith("support tube")
    ]
    assert whole == pytest.approx(13.0)
