"""Aluminum Association specification: factors on yield and rupture, the same for every member.

1.65 and 1.95 are published; 0.90 and 0.75 of strength design are from memory.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from structure_reference import KSI, expected

import boomwright.session
from boomwright.plan import read_plan
from boomwright.plan.resolve import structure_inputs
from boomwright.structure import allowable_stress
from boomwright.structure.beam.tubing import factored_strength
from fakes.told import check_structure, told

DEMO = Path(boomwright.session.__file__).parent / "data" / "demo.toml"


def test_allowable_tension_of_6061_t6():
    by_yield = allowable_stress(yield_strength=35.0 * KSI, steel=False)
    both = allowable_stress(yield_strength=35.0 * KSI, ultimate=38.0 * KSI, steel=False)
    found = [by_yield.value / KSI, both.value / KSI]
    assert found == pytest.approx(expected("adm_allowable"), abs=0.05)
    assert by_yield.kind == both.kind == "nominal"


def test_design_strength_of_6061_t6():
    by_yield = factored_strength(yield_strength=35.0 * KSI, steel=False)
    both = factored_strength(yield_strength=35.0 * KSI, ultimate=38.0 * KSI, steel=False)
    found = [by_yield.value / KSI, both.value / KSI]
    assert found == pytest.approx(expected("adm_factored"), rel=1e-12)
    assert "0.75 x rupture 262 MPa" in told(both.rule)
    assert by_yield.kind == both.kind == "ultimate"


def ledger(metal, method):
    """Lines of the demo with every tube of one metal."""
    text = DEMO.read_text(encoding="utf-8")
    for other in ('"6061-T6"', '"A53 B"', '"A500 B round"'):
        text = text.replace(f"material = {other}", f'material = "{metal}"')
    text = text.replace("[support]", f'[support]\nmethod = "{method}"')
    report = check_structure(inputs=structure_inputs(read_plan(text)))
    return {line.name: line for line in report.ledger if line.unit == "MPa"}


@pytest.mark.parametrize(
    ("metal", "allowable", "factored"),
    [
        # by hand: the lower of yield / 1.65 and rupture / 1.95; of 0.90 yield and 0.75 rupture
        ("6061-T6", 262.0 / 1.95, 0.75 * 262.0),
        ("6063-T6", 172.0 / 1.65, 0.90 * 172.0),
        ("6005A-T61", 262.0 / 1.95, 0.75 * 262.0),
        ("6005A-T5", 214.0 / 1.65, 0.90 * 214.0),
        ("6082-T6", 295.0 / 1.95, 0.75 * 295.0),
    ],
)
@pytest.mark.parametrize("method", ["allowable", "strength"])
def test_every_member_of_one_alloy_has_one_limit(metal, allowable, factored, method):
    lines = ledger(metal, method)
    mast = lines["mast: bending at the top bearing"].capacity
    boom = lines["20m: boom in wind"].capacity
    elements = {line.capacity for name, line in lines.items() if "bending in wind" in name}
    limit = allowable if method == "allowable" else factored
    assert [mast, boom, *elements] == pytest.approx([limit] * (2 + len(elements)), rel=1e-9)
    # The pole always stands in nominal wind, whatever the method.
    pole = lines["support tube: bending"]
    assert pole.capacity == pytest.approx(allowable, rel=1e-9)


def test_a_certified_yield_does_not_lift_the_rupture_of_the_alloy():
    text = DEMO.read_text(encoding="utf-8").replace('material = "A500 B round"',
        'material = "6061-T6"\n  yield_strength = "300 MPa"')  # fmt: skip
    report = check_structure(inputs=structure_inputs(read_plan(text)))
    (mast,) = (line for line in report.ledger if line.name == "mast: bending at the top bearing")
    assert mast.capacity == pytest.approx(262.0 / 1.95, rel=1e-9)
    assert "rupture 262 MPa" in mast.basis
