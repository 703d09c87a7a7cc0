"""A rotator under its bearing needs room: a cage on the pole, or a pole wide enough."""

from __future__ import annotations

import pytest

from boomwright.plan import read_plan
from boomwright.plan.resolve import station_assembly, structure_inputs
from boomwright.session.files import packaged_text
from boomwright.structure import check_structure

DEMO = packaged_text("demo.toml")
CAGE = next(line for line in DEMO.split("\n") if "cage = {" in line)


def lines(cage: str) -> dict[str, str]:
    plan = read_plan(DEMO.replace(CAGE, cage))
    ledger = check_structure(inputs=structure_inputs(plan)).ledger
    found = ("cage", "rotator: room")
    return {str(line.name): line.verdict for line in ledger if str(line.name).startswith(found)}


@pytest.mark.parametrize(
    ("cage", "expected"),
    [
        # A rotator 190 mm across stands in no bore of 114.3 - 2 x 5.4 mm.
        ("", {"rotator: room in the pole": "not checked"}),
        ('cage = { height = "0.95 m" }', {"cage: side force": "not checked"}),
        ('cage = { height = "0.95 m", side_force = "6 kN" }', {"cage: side force": "within"}),
        ('cage = { height = "0.95 m", side_force = "1 kN" }', {"cage: side force": "exceeded"}),
        # 0.6 m from the bearing down to it and 0.3 m of its own.
        ('cage = { height = "0.89 m", side_force = "6 kN" }',
         {"cage: room for the rotator": "exceeded", "cage: side force": "within"}),
    ],
)  # fmt: skip
def test_what_the_pole_says_of_the_place_of_its_rotator(cage, expected):
    assert lines(cage) == expected


def test_the_tube_ends_under_its_cage_and_in_its_pier_without_bolts():
    parts = station_assembly(read_plan(DEMO)).parts
    (pole,) = (part for part in parts if part.role == "pole")
    assert pole.cut.sawn == pytest.approx(15.0 - 0.95 + 1.4)
    assert pole.cut.overlap == pytest.approx(1.4)
    assert not [part for part in parts if part.role == "anchor bolts"]
    hinged = DEMO.replace('height = "15 m"\n', 'height = "15 m"\n  hinged = true\n')
    parts = station_assembly(read_plan(hinged)).parts
    assert [part.name for part in parts if part.role == "anchor bolts"]
