"""Reading, de-embedding and calibration against scikit-rf and the measured data it ships.

scikit-rf 2.2, BSD-3-Clause; its package holds measured one-port sweeps (skrf.data).
"""

import json
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

from boomwright.charts import LIGHT
from boomwright.feed import COAX_TYPES
from boomwright.render.laid import lay_out
from boomwright.report.model import Canvas
from boomwright.report.tuning import tuning_report
from boomwright.session.files import PlanFolder, load_plan
from boomwright.solver import FREE_SPACE
from boomwright.study.tuning import tune_plan
from boomwright.tuning import (
    Sweep,
    check_sweep,
    corrected,
    error_terms,
    read_touchstone,
    without_line,
)
from boomwright.tuning.sweep import reading_noise
from fakes.tuned_example import PLAN

skrf = pytest.importorskip("skrf")
DATA = Path(skrf.__file__).parent / "data"


@pytest.mark.parametrize(
    "name", ["ring slot measured.s1p", "ro,1.s1p", "ro,2.s1p", "delay_short.s1p", "line.s2p"]
)
def test_files_read_as_scikit_rf_reads_them(name):
    sweep = read_touchstone(content=(DATA / name).read_bytes(), name=name)
    network = skrf.Network(str(DATA / name))
    np.testing.assert_allclose(sweep.frequencies, network.f, rtol=1e-12)
    np.testing.assert_allclose(sweep.reflection, network.s[:, 0, 0], rtol=1e-9, atol=1e-9)


def test_measured_sweep_is_quiet_and_passive():
    sweep = read_touchstone(
        content=(DATA / "ring slot measured.s1p").read_bytes(), name="ring slot measured.s1p"
    )
    band = (float(sweep.frequencies[0]), float(sweep.frequencies[-1]))
    assert check_sweep(sweep=sweep, band=band) == ()
    assert 1e-3 < reading_noise(sweep=sweep) < 2e-2


def test_measured_sweep_behind_a_line_of_known_length():
    """The measured sweep of a slot, put behind a line by scikit-rf, comes back."""
    name = "ring slot measured.s1p"
    plain = read_touchstone(content=(DATA / name).read_bytes(), name=name)
    line = COAX_TYPES["RG-213"]
    # The same reflections at frequencies at which the line is one, 100 times lower or so.
    frequencies = plain.frequencies / 5000.0
    gamma = np.array([line.propagation(frequency=f) for f in frequencies])
    media = skrf.media.DefinedGammaZ0(
        skrf.Frequency.from_f(frequencies, unit="hz"), gamma=gamma[:, 0], z0=gamma[:, 1]
    )
    load = skrf.Network(frequency=media.frequency, s=plain.reflection, z0=50.0)
    piece = media.line(3.7, unit="m")
    piece.renormalize(50.0)
    seen = (piece**load).s[:, 0, 0]
    found = without_line(
        sweep=Sweep(frequencies=frequencies, reflection=seen), line=line, length=3.7
    )
    np.testing.assert_allclose(found.reflection, plain.reflection, rtol=1e-6, atol=1e-8)


def test_measured_sweep_goes_from_its_file_to_the_pictures(tmp_path):
    """Import, line taken away, pictures: all of tuning on measured data, seen through a line.

    The measured slot, its frequencies divided so that it resonates about 20 m, put behind 18 m of
    line by scikit-rf. It is no beam, and tuning says so.
    """
    plan = load_plan(PLAN).plan
    plan = replace(plan, site=replace(plan.site, ground=FREE_SPACE))
    measured = skrf.Network(str(DATA / "ring slot measured.s1p"))
    frequencies = measured.f * (14.175e6 / measured.f.mean())
    line = COAX_TYPES["RG-213"]
    gamma, ohms = np.array([line.propagation(frequency=each) for each in frequencies]).T
    media = skrf.media.DefinedGammaZ0(
        skrf.Frequency.from_f(frequencies, unit="hz"), gamma=gamma, z0=ohms
    )
    piece = media.line(18.0, unit="m")
    piece.renormalize(50.0)
    seen = piece ** skrf.Network(frequency=media.frequency, s=measured.s, z0=50.0)
    seen.write_touchstone("slot", dir=str(tmp_path))
    plan = replace(plan, measured=replace(plan.measured, sweep="slot.s1p", heading=(), aim=()))
    result = tune_plan(plan, files=PlanFolder(tmp_path))
    inside = (frequencies >= 0.98 * 14.0e6) & (frequencies <= 1.02 * 14.35e6)
    np.testing.assert_allclose(result.sweep.reflection, seen.s[inside, 0, 0], atol=1e-9)
    trimming = result.last.trimming
    found = dict(zip(trimming.model.index, trimming.mean.tolist(), strict=True))
    away = without_line(
        sweep=result.sweep,
        line=line,
        length=18.0 + found["line.length"],
        loss_factor=1.0 + found["line.loss"],
    )
    shown = lay_out(tuning_report(result), canvas=Canvas(palette=LIGHT, system="metric"))
    assert [picture.name for picture in shown.pictures] == ["swr", "r", "x"]
    picture = shown.pictures[1]
    drawing = ElementTree.fromstring(picture.svg)  # noqa: S314
    curve = drawing.find(".//*[@data-series='measured']")
    assert curve is not None
    np.testing.assert_allclose(
        json.loads(curve.attrib["data-value"]), away.impedance.real, rtol=0.0, atol=0.01
    )
    assert "tuning.not-explained" in {notice.code for notice in result.notices}


def test_one_port_calibration():
    rng = np.random.default_rng(4)
    frequency = skrf.Frequency(14.0, 14.35, 21, unit="mhz")
    box = rng.uniform(-0.3, 0.3, size=(2, 21, 2))
    e00 = box[0, :, 0] + 1j * box[0, :, 1]
    e11 = box[1, :, 0] + 1j * box[1, :, 1]
    tracking = 0.8 * np.exp(1j * np.linspace(0.0, 2.0, 21))

    def seen(true):
        return e00 + tracking * true / (1.0 - e11 * true)

    ideal = [np.full(21, value, dtype=complex) for value in (1.0, -1.0, 0.0)]
    unknown = 0.4 * np.exp(1j * np.linspace(1.0, -1.0, 21))

    def network(values):
        return skrf.Network(frequency=frequency, s=values, z0=50.0)

    theirs = skrf.calibration.OnePort(
        ideals=[network(each) for each in ideal], measured=[network(seen(each)) for each in ideal]
    )
    ours = [Sweep(frequencies=frequency.f, reflection=seen(each)) for each in ideal]
    terms = error_terms(open_end=ours[0], short_end=ours[1], load_end=ours[2])
    sweep = Sweep(frequencies=frequency.f, reflection=seen(unknown))
    found = corrected(sweep=sweep, terms=terms)
    expected = theirs.apply_cal(network(seen(unknown))).s[:, 0, 0]
    np.testing.assert_allclose(found.reflection, expected, rtol=1e-9, atol=1e-12)
    np.testing.assert_allclose(found.reflection, unknown, rtol=1e-9)
