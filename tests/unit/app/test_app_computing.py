"""Use cases around the computation: what is asked, what is refused, what becomes of it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

import boomwright as bw
from boomwright import reach
from boomwright.base import Notice, PlanError
from boomwright.plan import Plan, Site, read_plan, set_element_length
from boomwright.reach import QuickLook
from boomwright.session.book import sources_behind
from boomwright.session.drawings import file_stem
from boomwright.session.giving_way import OvertakenError
from boomwright.session.new_plan import make_starter
from boomwright.session.plan_session import PlanSession
from boomwright.solver import FREE_SPACE
from boomwright.study.computing import Computation, compute
from boomwright.study.requests import RequestError, Wishes
from boomwright.web import PlanDesk
from fakes.readings import fake_beam, fake_readings


@pytest.fixture
def plan() -> Plan:
    return Plan(title="made up", site=Site(ground=FREE_SPACE), beams=(fake_beam(), fake_beam()))


def test_every_beam_is_computed_over_the_plans_ground(
    plan: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = []

    def read_beam(**arguments: object) -> object:
        asked.append(arguments)
        return fake_readings()

    monkeypatch.setattr(reach, "read_beam", read_beam)
    computation = compute(plan, frequencies=[14.2e6, 14.1e6])
    assert len(computation.beams) == 2
    assert [call["ground"] for call in asked] == [FREE_SPACE, FREE_SPACE]
    assert [list(call["frequencies"]) for call in asked] == 2 * [[14.1e6, 14.2e6]]


@pytest.mark.parametrize(
    "request_",
    [
        {"frequencies": []},
        {"frequencies": [0.0]},
        {"frequencies": [float("nan")]},
        {"frequencies": [14e6, float("inf")]},
        {"points": 0},
        {"points": 1_000_000},
        {"reference": 0.0},
        {"reference": float("inf")},
    ],
)
def test_requests_without_sense_are_refused(plan: Plan, request_: dict[str, object]) -> None:
    with pytest.raises(RequestError, match="->"):
        compute(plan, **request_)  # type: ignore[arg-type]


def test_package_front(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    make_starter(path, Wishes(band="10 m", elements=2))
    plan = bw.load(path)
    assert isinstance(plan, bw.Plan)
    assert bw.compute is compute
    assert set(bw.__all__) == set(dir(bw))
    with pytest.raises(AttributeError, match="no_such_name"):
        _ = bw.no_such_name  # type: ignore[attr-defined]


def test_sources_behind_a_computation_are_those_used_and_those_named(plan: Plan) -> None:
    computation = Computation(plan=plan, beams=(fake_readings(),))
    usual = sources_behind(computation)
    assert "si-brochure-9" in usual
    assert usual["si-brochure-9"].endswith("(from memory)")
    named = Notice(code="made.up", text="Made up.", source="nist-sp-811")
    assert "nist-sp-811" in sources_behind(
        Computation(plan=plan, beams=(fake_readings(),), notices=(named,))
    )


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("20m", "20m"),
        ("../../etc/passwd", "etc-passwd"),
        ("20 m / west", "20-m-west"),
        ("Ж", "beam-2"),
    ],
)
def test_file_names_hold_letters_and_digits_only(name: str, stem: str) -> None:
    assert file_stem(replace(fake_beam(), name=name), number=2) == stem


@pytest.fixture
def demo_plan(tmp_path: Path) -> Path:
    path = tmp_path / "plan.toml"
    make_starter(path, Wishes(band="20 m"))
    return path


def test_desk_changes_a_length_and_saves(demo_plan: Path) -> None:
    tools = PlanSession(demo_plan)
    before = tools.load()
    after = set_element_length(before, 0, 1, 10.1)
    assert read_plan(after).beams[0].elements[1].length == pytest.approx(10.1, rel=1e-9)
    assert before.count("#") == after.count("#")
    tools.save(after, expected=before)
    assert tools.load() == after


def test_desk_names_the_file_of_a_fault(demo_plan: Path) -> None:
    with pytest.raises(PlanError) as caught:
        PlanDesk(session=PlanSession(demo_plan), name="plan.toml", text="boomwright = 1")
    assert caught.value.source == "plan.toml"


def test_desk_makes_files_from_the_plan_on_the_desk(
    demo_plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reach, "read_beam", lambda **given: fake_readings(beam=given["beam"]))
    tools = PlanSession(demo_plan)
    plan = read_plan(tools.load())
    assert tools.compute(beam=plan.beams[0], ground=plan.site.ground).beam is plan.beams[0]
    assert tools.make_book(plan).startswith(b"%PDF-")
    assert b"reflector" in tools.cut_list_csv(plan)
    assert b"EOF" in tools.plan_view_dxf(plan)


def test_desk_keeps_the_error_band_until_the_hand_pauses(
    demo_plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first look pays for its band; a whole computation renews it."""
    given: list[object] = []
    readings = fake_readings(beam=fake_beam())

    def quick_look(**arguments: object) -> QuickLook:
        known = arguments["previous"]
        given.append(known and known.point)
        return QuickLook(
            point=readings.sweep[0], azimuth_pattern=readings.azimuth_pattern, over_ground=None
        )

    monkeypatch.setattr(reach, "quick_look", quick_look)
    monkeypatch.setattr(reach, "read_beam", lambda **_: readings)
    tools = PlanSession(demo_plan)
    beam = fake_beam()

    def look(frequency: float) -> None:
        tools.quick_look(beam=beam, ground=FREE_SPACE, frequency=frequency)

    look(beam.design_frequency)
    look(beam.design_frequency)
    look(14.2e6)
    tools.compute(beam=beam, ground=FREE_SPACE)
    look(beam.design_frequency)
    look(14.2e6)
    assert given == [None, readings.sweep[0], None, readings.free_space, None]


def test_desk_looks_the_same_with_and_without_what_it_remembers(demo_plan: Path) -> None:
    beam = fake_beam()
    tools = PlanSession(demo_plan)
    frequency = beam.design_frequency
    for _ in range(2):
        look = tools.quick_look(beam=beam, ground=FREE_SPACE, frequency=frequency)
    plain = reach.quick_look(beam=beam, ground=FREE_SPACE, frequency=frequency)
    assert look.point.impedance == plain.point.impedance
    assert look.point.gain_dbi == plain.point.gain_dbi


def test_work_that_is_overtaken_is_broken_off_in_its_own_thread_only(demo_plan: Path) -> None:
    beam, tools = fake_beam(), PlanSession(demo_plan)
    asked: list[bool] = []

    def overtaken() -> bool:
        asked.append(True)
        return len(asked) > 1

    with tools.giving_way.when(overtaken), pytest.raises(OvertakenError):
        tools.compute(beam=beam, ground=FREE_SPACE)
    assert len(asked) == 2
    # Nothing half done is kept, and who did not ask for it is not broken off.
    look = tools.quick_look(beam=beam, ground=FREE_SPACE, frequency=beam.design_frequency)
    plain = reach.quick_look(beam=beam, ground=FREE_SPACE, frequency=beam.design_frequency)
    assert look.point.impedance == plain.point.impedance
