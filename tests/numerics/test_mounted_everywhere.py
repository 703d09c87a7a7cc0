"""One antenna: a mounted and a coated beam are the same to every room that builds wires of it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam
from boomwright.design.array_slopes import array_slopes
from boomwright.design.setting_up import set_up
from boomwright.design.targets import Targets
from boomwright.design.wish import Wish
from boomwright.feed.field_model import FieldSetting
from boomwright.feed.field_split import split_impedance
from boomwright.parts import Feed, Insulation, Mount, Wire
from boomwright.reach import feed_stack, solve_stack
from boomwright.reach.stack import Feeding
from boomwright.solver import FREE_SPACE, assemble, solve_beam, solve_currents, working_detail
from boomwright.tuning import Bench, Installation
from boomwright.tuning.braid_family import braided_wires

FREQUENCY = 144.3e6
AT = np.array([FREQUENCY])
BARE = replace(
    beam(
        lengths=[1.03, 0.98, 0.92],
        places=[0.0, 0.38, 0.80],
        diameter=0.006,
        driven=1,
        frequency=FREQUENCY,
        height=12.0,
        material="6061-T6",
    ),
    band=(144e6, 145e6),
    feed=Feed(kind="split", gap=0.01),
)
ABOVE = Mount(kind="insulated above", boom=(0.0254, 0.0016), clearance=0.005)
PLATE = replace(ABOVE, plate=(0.08, 0.04, 0.003))
THROUGH = Mount(kind="bonded through", boom=(0.0254, 0.0016))
COAT = Insulation(thickness=0.002, permittivity=2.3)


def held(mounts, *, insulation=None):
    elements = (
        replace(element, mount=mount, insulation=insulation)
        for element, mount in zip(BARE.elements, mounts, strict=True)
    )
    return replace(BARE, elements=tuple(elements))


BEAMS = {
    "mounted": held((THROUGH, PLATE, ABOVE)),
    "coated": held((None, None, None), insulation=COAT),
    "both": held((THROUGH, ABOVE, PLATE), insulation=COAT),
}


def own(antenna):
    solution = solve_beam(
        beam=antenna, frequencies=AT, detail=working_detail(frequency=antenna.band[1])
    )
    return complex(solution.impedance[0])


def in_full(antenna):
    # A short wire far away makes the solver model every element from tip to tip.
    aside = Wire(name="aside", diameter=1e-4, points=np.array([[0.0, 9.0, 9.0], [0.01, 9.0, 9.0]]))
    return own(replace(antenna, wires=(aside,)))


def in_the_feed(antenna):
    return split_impedance(beam=antenna, setting=FieldSetting())


def in_a_stack(antenna):
    stack = solve_stack(beams=(antenna,), ground=FREE_SPACE, frequency=FREQUENCY)
    reading = feed_stack(stack, feeding=Feeding(name="alone", weights=(1.0,)))
    return complex(reading.feed_impedances[0])


def in_a_turned_stack(antenna):
    # Beams of different headings are modelled in full; the other one is far away.
    far = replace(BARE, name="far", height=4000.0, heading=1.0)
    stack = solve_stack(beams=(antenna, far), ground=FREE_SPACE, frequency=FREQUENCY)
    reading = feed_stack(stack, feeding=Feeding(name="first", weights=(1.0, 0.0)))
    return complex(reading.feed_impedances[0])


def in_tuning(antenna):
    installation = Installation(
        beam=antenna, ground=FREE_SPACE, stages=(), line=None, line_length=0.0
    )
    return complex(Bench(installation).impedance(installation, AT)[0])


def with_a_braid_of_no_length(antenna):
    assembly = assemble(
        system=braided_wires(beam=antenna, braid=0.0, ground=FREE_SPACE),
        detail=working_detail(frequency=145e6),
        highest_frequency=145e6,
    )
    currents = solve_currents(assembly=assembly, frequencies=AT)
    return complex(1.0 / currents.admittance[0, 0, 0])


def in_the_search(antenna):
    setting = set_up(beam=antenna, wish=Wish(targets=Targets()), count=3)
    found = array_slopes(
        tables=setting.problem.tables,
        positions=np.array([[element.position for element in antenna.elements]]),
        half_lengths=np.array([[element.half_length for element in antenna.elements]]),
        towards=Targets().directions(),
    )
    return complex(found.impedance[0, setting.problem.design_number])


ROOMS = {
    # Whole elements are cut a little otherwise than mirrored halves.
    "in full": (in_full, 0.05),
    "feed": (in_the_feed, 1e-6),
    "stack": (in_a_stack, 1e-6),
    "turned stack": (in_a_turned_stack, 0.05),
    "tuning": (in_tuning, 1e-6),
    # The search carries mutual fields on a few polynomials, and cuts all lengths alike.
    "search": (in_the_search, 0.2),
    "tuning, whole": (with_a_braid_of_no_length, 0.05),
}


@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("kind", BEAMS)
def test_every_room_has_the_same_impedance(kind, room):
    solve, within = ROOMS[room]
    antenna = BEAMS[kind]
    assert solve(antenna) == pytest.approx(own(antenna), abs=within)
    # And what is compared is there: bare, the beam is another one.
    assert abs(own(antenna) - own(BARE)) > 3.0


@pytest.mark.parametrize("millimetres", [5.0, 6.0, 6.6, 7.0])
def test_the_search_cuts_all_lengths_alike(millimetres):
    # Were a length cut in other pieces than its neighbour, the table between them would ripple.
    half = (replace(BARE.elements[0].half[0], diameter=1e-3 * millimetres),)
    elements = (
        replace(each, half=(replace(half[0], length=each.half_length),)) for each in BARE.elements
    )
    antenna = replace(BARE, elements=tuple(elements))
    assert in_the_search(antenna) == pytest.approx(own(antenna), abs=0.2)
