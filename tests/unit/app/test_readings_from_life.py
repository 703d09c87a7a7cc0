"""Sweeps as owners have them: any order, any unit, no sign, no phase, no line; other readings."""

from dataclasses import replace

import numpy as np
import pytest

from boomwright.plan import read_plan
from boomwright.plan.resolve.tuning import tuning_installation
from boomwright.study.tuning import tune_plan
from boomwright.study.tuning_parts.sweeps import load_sweep
from boomwright.tuning import Tolerance
from tuned_antennas import sweep_of, swr_of

PLAN = """\
boomwright = 1
title = "Two elements"
site = { ground = "free space" }
[[beam]]
name = "two"
band = ["28.0 MHz", "29.0 MHz"]
design = "28.5 MHz"
height = "12 m"
heading = "40 deg"
material = "6061-T6"
feed = { kind = "split", gap = "20 mm" }
[[beam.element]]
role = "reflector"
at = "0 m"
half = [["22 mm", "2.60 m"]]
[[beam.element]]
role = "driven"
at = "2.6 m"
half = [["22 mm", "2.478 m"]]
[measured]
sweep = "antenna.csv"
line = { type = "RG-213", length = "12 m" }
"""
#: the driven tips are cut 12 mm too long, three times the usual error
ERRORS = {"tip.0": 0.004, "tip.1": 0.012, "line.length": 0.05}
AT = np.linspace(28.0e6, 29.0e6, 21)


def plan_of(more="", line=True):
    text = PLAN if line else PLAN.split("line =")[0]
    return read_plan(text + more)


def seen(errors=ERRORS, *, line=True, seed=3):
    planned = tuning_installation(plan_of(line=line))
    if not line:
        errors = {key: value for key, value in errors.items() if key != "line.length"}
    parts = 0.002 * np.random.default_rng(seed).normal(size=(2, len(AT)))
    return sweep_of(planned, errors, AT) + parts[0] + 1j * parts[1]


def table(*, line=True, unit=1e6, order=slice(None), comma=False, sign=True, swr=False, head=None):
    gamma = seen(line=line)
    ohms = 50.0 * (1.0 + gamma) / (1.0 - gamma)
    name = {1e6: "MHz", 1e3: "kHz"}[unit]
    columns = [AT / unit, ohms.real, ohms.imag if sign else np.abs(ohms.imag)]
    heads = [f"frequency ({name})", "R", "X"]
    if swr:
        size = np.abs(gamma)
        columns, heads = [AT / unit, (1.0 + size) / (1.0 - size)], [heads[0], "SWR"]
    between = ";" if comma else ","
    rows = [between.join(f"{value:.4f}" for value in row) for row in np.array(columns).T[order]]
    if comma:
        rows = [row.replace(".", ",") for row in rows]
    return "\n".join([between.join(heads), *rows])


def tuned(text, plan=None):
    def files(name, place, most):
        return text.encode()

    return tune_plan(plan or plan_of(), files=files)


SHUFFLED = np.random.default_rng(1).permutation(len(AT))
LIFE = {
    "as it should be": ({}, set()),
    "any order": ({"order": SHUFFLED}, {"tuning.order"}),
    "kHz": ({"unit": 1e3}, set()),
    "decimal comma": ({"comma": True}, set()),
    "SWR alone": ({"swr": True}, set()),
    "no sign of the reactance": ({"sign": False}, {"tuning.unsigned"}),
    "no line": ({"line": False}, {"tuning.no-line"}),
}


@pytest.mark.parametrize("kind", LIFE)
def test_each_is_read_and_the_long_tips_are_found(kind):
    how, said = LIFE[kind]
    result = tuned(table(**how), plan_of(line=how.get("line", True)))
    codes = {notice.code for notice in result.notices}
    assert said <= codes
    assert said or not codes & {"tuning.order", "tuning.unsigned", "tuning.no-line"}
    trimming = result.last.trimming
    assert trimming.explained
    assert abs(trimming.mean[1] - ERRORS["tip.1"]) < 3.0 * trimming.spread[1]
    moves = result.last.advice.moves()
    made = {key: ERRORS.get(key, 0.0) + moves.get(key, 0.0) for key in (*ERRORS, *moves)}
    planned = tuning_installation(plan_of())
    assert swr_of(planned, made) <= swr_of(planned, ERRORS) + 0.01


@pytest.mark.parametrize("name", ["sweep.csv", "sweep.txt", "sweep"])
def test_a_touchstone_file_is_known_by_its_option_line_whatever_its_name(name):
    text = b"! of a meter\n# MHz S RI R 50\n28.4 0.1 0.2\n28.5 0.1 0.1\n"
    found = load_sweep(name, files=lambda *_: text, reference=50.0, place="measured.sweep")
    np.testing.assert_allclose(found.reflection, [0.1 + 0.2j, 0.1 + 0.1j], rtol=1e-9)
    remark = b"# saved by hand in MHz\n28.4,1.5\n28.5,1.6\n"
    found = load_sweep(name, files=lambda *_: remark, reference=50.0, place="measured.sweep")
    np.testing.assert_allclose(found.swr, [1.5, 1.6], rtol=1e-9)


def test_one_reading_moves_nothing_and_names_no_fault():
    files = "frequency (MHz),SWR\n28.5,3.4"

    def read(name, place, most):
        return files.encode()

    result = tune_plan(plan_of(), files=read, faults=True)
    assert result.faults is None
    assert "tuning.no-fault-search" in {notice.code for notice in result.notices}
    assert result.last.advice.verdict != "move" or result.last.advice.worse < 0.1


@pytest.fixture(scope="module")
def usual():
    return tuned(table())


def test_readings_of_probe_signal_and_other_height_join_the_sweep(usual):
    asked = """
[[measured.probe]]
element = 0
ratio = 0.62
within = "3 %"
[[measured.front_to_back]]
ratio = 11
within = 1
[[measured.trial]]
sweep = "higher.csv"
rise = "1 m"
"""
    plan = plan_of(asked)
    both = tuned(table(), plan)
    assert [reading.rise for reading in both.last.trimming.model.readings] == [0.0, 1.0]
    kinds = [each.reading.kind for each in both.last.trimming.model.sides]
    assert kinds == ["probe", "front to back"]
    # Each narrows what the sweep alone leaves open.
    assert both.last.trimming.spread[0] < usual.last.trimming.spread[0]


def test_tips_cut_far_off_are_read_as_such_and_said():
    errors = ERRORS | {"tip.1": 0.04}
    gamma = seen(errors)
    rows = [f"{f:.0f} {v.real:.6f} {v.imag:.6f}" for f, v in zip(AT, gamma, strict=True)]
    plan = plan_of()
    plan = replace(plan, measured=replace(plan.measured, sweep="antenna.s1p"))
    text = "\n".join(["# Hz S RI R 50", *rows])
    result = tuned(text, plan)
    assert "tuning.cut-worse" in {notice.code for notice in result.notices}
    assert result.last.trimming.explained
    moves, planned = result.last.advice.moves(), tuning_installation(plan)
    made = {key: errors.get(key, 0.0) + moves.get(key, 0.0) for key in (*errors, *moves)}
    assert swr_of(planned, made) < swr_of(planned, errors) - 0.4
    # Who says how well he cuts is believed.
    said = replace(plan.measured, tolerance=Tolerance(cutting=0.004))
    believed = tuned(text, replace(plan, measured=said))
    assert believed.last.advice.verdict == "cannot tell"


def test_75_ohm_of_the_file_changes_no_target(usual):
    gamma = seen()
    ohms = 50.0 * (1.0 + gamma) / (1.0 - gamma)
    other = (ohms - 75.0) / (ohms + 75.0)
    rows = [f"{f:.0f} {v.real:.6f} {v.imag:.6f}" for f, v in zip(AT, other, strict=True)]
    plan = plan_of()
    assert plan.measured is not None
    plan = replace(plan, measured=replace(plan.measured, sweep="antenna.s1p"))
    result = tuned("\n".join(["# Hz S RI R 75", *rows]), plan)
    assert result.installation.target == usual.installation.target == 50.0
    assert result.last.advice.now.middle == pytest.approx(usual.last.advice.now.middle, abs=0.02)
