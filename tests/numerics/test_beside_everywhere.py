"""One antenna: a beam with another one on its mast is the same to every room, and all say so."""

import json
from dataclasses import replace

import numpy as np
import pytest

from antennas import beam
from boomwright.base.quantity import Quantity, write
from boomwright.feed import FieldSetting
from boomwright.feed.field_split import split_impedance
from boomwright.plan import read_plan
from boomwright.reach import solve_at_height
from boomwright.render.json.computation import computation_document
from boomwright.report.beam.computed import beam_report
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    assemble,
    solve_beam,
    solve_currents,
    surrounded_beam,
    working_detail,
)
from boomwright.study.computing import compute
from boomwright.study.feed import feed_plan
from boomwright.study.feed_parts.results import NotMeasured
from boomwright.study.reach import reach_plan
from boomwright.tuning import Bench, Installation
from boomwright.tuning.braid_family import braided_wires

FREQUENCY = 28.4e6
AT = np.array([FREQUENCY])
GROUND = GROUND_CLASSES["medium dry"]
ONE = """
[[beam]]
name = "{name}"
band = ["28.2 MHz", "28.6 MHz"]
design = "28.4 MHz"
height = "{height}"
heading = "60 deg"
material = "6061-T6"
feed = {{ kind = "split", gap = "40 mm" }}
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  diameter = "16 mm"
  length = "5.3 m"
  [[beam.element]]
  role = "driven"
  at = "1.6 m"
  diameter = "16 mm"
  length = "5.05 m"
  [[beam.element]]
  role = "director"
  at = "3.2 m"
  diameter = "16 mm"
  length = "4.75 m"
"""
HEAD = 'boomwright = 1\ntitle = "two on one mast"\n[site]\nposition = "52.2 N, 0.1 E"\n'
PLAN = (
    HEAD
    + 'ground = "medium dry"\n'
    + ONE.format(name="low", height="15 m")
    + ONE.format(name="high", height="16.5 m")
)


def antenna(turn=0.0, idle="matched"):
    made = beam(
        lengths=[5.3, 5.05, 4.75],
        places=[0.0, 1.6, 3.2],
        diameter=0.016,
        driven=1,
        frequency=FREQUENCY,
        height=15.0,
        material="6061-T6",
    )
    other = replace(made, name="other", height=17.0, heading=turn, idle_feed=idle)
    return replace(made, neighbours=(other,))


def own(antenna, ground=FREE_SPACE):
    solution = solve_beam(
        beam=antenna,
        frequencies=AT,
        detail=working_detail(frequency=max(antenna.band)),
        ground=ground,
    )
    return complex(solution.impedance[0])


@pytest.mark.parametrize("turn", [0.0, 0.8])
@pytest.mark.parametrize("idle", ["open", "shorted", "matched", ""])
def test_every_room_solves_the_neighbour(turn, idle):
    made = antenna(turn, idle)
    alone = own(made.alone)
    wanted = own(made)
    assert abs(wanted - alone) > 1.0
    assert split_impedance(beam=made, setting=FieldSetting()) == pytest.approx(wanted, abs=0.05)
    system = surrounded_beam(
        system=braided_wires(beam=made, braid=0.0, ground=FREE_SPACE), beam=made
    )
    assembly = assemble(
        system=system,
        detail=working_detail(frequency=FREQUENCY),
        highest_frequency=FREQUENCY,
    )
    sound = 1.0 / solve_currents(assembly=assembly, frequencies=AT).admittance[0, 0, 0]
    assert complex(sound) == pytest.approx(wanted, abs=0.05)


def test_tuning_predicts_the_beam_with_its_neighbour():
    made = antenna(idle="")
    for ground in (FREE_SPACE, GROUND):
        installation = Installation(beam=made, ground=ground)
        bench = Bench(installation)
        found = bench.impedance(bench.installation, AT)
        assert complex(found[0]) == pytest.approx(own(made, ground), abs=0.05)


def test_a_plan_with_two_beams_says_it_everywhere():
    plan = read_plan(PLAN)
    computed = compute(plan, points=3)
    document = json.loads(json.dumps(computation_document(computed)))
    for number, each in enumerate(document["beams"]):
        beside = each["beside"]
        (other,) = beside["neighbours"]
        assert other["name"] == plan.beams[1 - number].name
        assert other["computed_together"]
        assert other["closest_m"] == pytest.approx(1.5)
        assert beside["idle_feeds_unsaid"] == [other["name"]]
        assert set(beside["by_idle_feed"]) == {"open", "shorted", "matched"}
        assert beside["alone"]["gain_dbi"] - beside["together"]["gain_dbi"] > 1.0
        assert beside["together"]["gain_dbi"] == pytest.approx(
            each["free_space"]["gain_dbi"], abs=1e-6
        )
        codes = {notice["code"] for notice in each["notices"]}
        assert {"beside.together", "beside.feed-unsaid"} <= codes
    for number, readings in enumerate(computed.beams):
        unmatched = NotMeasured(beam=readings.beam, refusal="")
        report = beam_report(readings, plan=plan, measured=unmatched)
        (told,) = (fact for fact in report.answer if str(fact.label).startswith("Beside"))
        assert told.label == f"Beside {plan.beams[1 - number].name}"
        assert "not said, so" in write(told.value, system="metric")
        assert write(Quantity(readings.beside.alone.gain_dbi, "gain"), system="us") in write(
            told.value, system="us"
        )
    fed = feed_plan(plan)
    for each, readings in zip(fed.beams, computed.beams, strict=True):
        assert {"beside.together", "beside.feed-unsaid"} <= {n.code for n in each.notices}
        at = int(np.argmin(np.abs(each.bare.frequency - FREQUENCY)))
        assert complex(each.bare.impedance[at]) == pytest.approx(
            readings.over_ground.impedance, abs=0.1
        )
    reached = reach_plan(plan)
    assert "reach.heights-alone" in {notice.code for notice in reached.notices}
    for each, readings in zip(reached.beams, computed.beams, strict=True):
        assert each.cut.gain_dbi.max() == pytest.approx(
            readings.over_ground.peak_gain_dbi, abs=0.01
        )


def test_a_single_beam_says_nothing_of_neighbours():
    plan = read_plan(HEAD + 'ground = "free space"\n' + ONE.format(name="one", height="15 m"))
    (readings,) = compute(plan, points=3).beams
    assert readings.beside is None
    assert not [notice for notice in readings.notices if notice.code.startswith("beside")]
    made = antenna().alone
    solution = solve_at_height(beam=made, ground=FREE_SPACE, height=15.0)
    assert len(solution.currents.assembly.system.runs) == 3
