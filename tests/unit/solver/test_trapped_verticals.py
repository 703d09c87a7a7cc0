"""An upright wire with a trap: on each band it is the plain vertical that its current says."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import solved_beam
from boomwright.base import PlanError
from boomwright.parts import Beam
from boomwright.plan import read_plan, write_plan
from boomwright.plan.resolve import station_assembly
from boomwright.plan.shapes import shape_plan
from boomwright.solver import GROUND_CLASSES, foot_resistance
from boomwright.solver.ground_screen import current_end

GROUND = GROUND_CLASSES["medium dry"]
TRAP = (
    '  traps = [{ at = "5.0 m", width = "0.1 m", length = "0.2 m", inductance = "2.8 uH", '
    'capacitance = "45 pF", quality = 200 }]\n'
)
TEXT = shape_plan("vertical", band="40 m")
TRAPPED = TEXT.replace("  through =", f"{TRAP}  through =")


def _seen(beam: Beam, frequency: float) -> complex:
    tuned = replace(beam, band=(frequency, frequency), design_frequency=frequency)
    found = solved_beam(tuned, ground=GROUND)
    return complex(found.impedance[0])


@pytest.mark.parametrize("frequency", [7.1e6, 14.0e6, 14.175e6])
def test_the_plain_vertical_of_that_height_is_seen(frequency: float) -> None:
    """The line above the trap {common-practice-open-line} against the solved antenna."""
    beam = read_plan(TRAPPED).beams[0]
    (wire,) = beam.elements
    end = current_end(wire, frequency=frequency)
    plain = replace(wire, traps=(), half=(replace(wire.half[0], length=end),))
    other = replace(beam, elements=(plain,))
    trapped, alike = _seen(beam, frequency), _seen(other, frequency)
    assert trapped.real == pytest.approx(alike.real, rel=0.15)
    assert trapped.imag == pytest.approx(alike.imag, abs=15.0)
    at = np.array([frequency])
    lost = [foot_resistance(beam=each, ground=GROUND, frequencies=at)[0] for each in (beam, other)]
    assert lost[0] == pytest.approx(lost[1], rel=1e-9)


def test_a_trap_ends_the_current_where_it_blocks() -> None:
    (wire,) = read_plan(TRAPPED).beams[0].elements
    (trap,) = wire.traps
    assert current_end(wire, frequency=trap.resonance) == pytest.approx(trap.place, abs=1e-3)
    # Below its resonance it is a coil, and the wire acts longer.
    assert current_end(wire, frequency=7.1e6) > wire.half_length - 0.6
    assert current_end(replace(wire, traps=()), frequency=7.1e6) == wire.half_length


def test_traps_of_upright_wire_are_written_back_and_cut() -> None:
    plan = read_plan(TRAPPED)
    assert read_plan(write_plan(plan)) == plan
    parts = [each for each in station_assembly(plan).parts if each.mark.startswith("1.")]
    wires = [each for each in parts if each.role == "wire"]
    (trap,) = (each for each in parts if each.role == "trap")
    element = plan.beams[0].elements[0]
    lengths = [sum(bar.length for bar in each.solids) for each in wires]
    assert lengths == pytest.approx([4.95, element.half_length - 5.05])
    assert [each.mark for each in wires] == ["1.WU", "1.WUn"]
    assert trap.solids[0].start[2] == pytest.approx(4.9)
    assert trap.price_key == "trap for 14.18 MHz"


@pytest.mark.parametrize(
    ("text", "path"),
    [
        (TRAPPED.replace('at = "5.0 m"', 'at = "12 m"'), "beam[0].element[0].traps[0].at"),
        (
            shape_plan("inverted-vee", band="40 m").replace("  through =", f"{TRAP}  through ="),
            "beam[0].element[0].traps",
        ),
    ],
)
def test_traps_elsewhere_are_refused_in_their_place(text: str, path: str) -> None:
    with pytest.raises(PlanError) as refusal:
        read_plan(text)
    assert [fault.path for fault in refusal.value.faults] == [path]
