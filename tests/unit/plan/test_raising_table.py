"""Old plans of a raising still read; a bare yes is asked about, and a key that is gone says so."""

from __future__ import annotations

import pytest

from boomwright.base import PlanError
from boomwright.plan import plan_notices, read_plan, write_plan
from boomwright.raising import Said
from boomwright.session.files import packaged_text

DEMO = packaged_text("demo.toml")
HEAD = DEMO[: DEMO.index("[raising]")].replace(
    '{ answer = true, by = "club chairman", on = "2026-10-04" }', "true"
)
#: as plans were written before answers were signed
OLD = """[raising]
trained_climbers = 0
ground_crew = 5
rescue_plan = true
trained_rigger = true
level_access = true
guys_in_the_way = false
forecast_gust = "4 m/s"
haul_line = { breaking_strength = "22 kN", block_breaking_strength = "30 kN" }
tram = { span = "40 m", sag = "3 m", breaking_strength = "30 kN", back_guyed = true }
lift_truck = { platform_height = "17 m", outreach = "7 m", needed_outreach = "5 m" }
"""


def unsigned(text: str) -> list[str]:
    notices = plan_notices(read_plan(text))
    return [each.text.split(" ")[0] for each in notices if each.code == "plan.unsigned-answer"]


def test_an_old_plan_reads_and_every_bare_answer_is_asked_about() -> None:
    assert unsigned(HEAD + OLD) == [
        "raising.rescue_plan", "raising.trained_rigger", "raising.guys_in_the_way",
        "raising.level_access", "raising.tram.back_guyed", "permits.power_lines_surveyed",
    ]  # fmt: skip
    # A bare no stops the lift whoever said so.
    denied = OLD.replace("= true", "= false").replace("way = false", "way = true")
    assert unsigned(HEAD + denied) == ["permits.power_lines_surveyed"]
    assert unsigned(DEMO) == []


def test_bare_and_signed_answers_survive_a_rewrite() -> None:
    plan = read_plan(HEAD + OLD)
    again = read_plan(write_plan(plan))
    assert again.raising == plan.raising
    assert again.raising is not None
    assert again.raising.level_access == Said(yes=True)
    signed = read_plan(write_plan(read_plan(DEMO))).raising
    assert signed is not None
    assert signed.level_access == Said(yes=True, by="club chairman", on="2026-10-04")


def test_a_day_of_toml_is_a_day() -> None:
    text = DEMO.replace('on = "2026-10-04"', "on = 2026-10-04")
    raising = read_plan(text).raising
    assert raising is not None
    assert isinstance(raising.level_access, Said)
    assert raising.level_access.on == "2026-10-04"


@pytest.mark.parametrize("value", ["true", '"yes"', "1"])
def test_tilt_over_says_what_to_write_instead(value: str) -> None:
    with pytest.raises(PlanError) as caught:
        read_plan(HEAD + OLD + f"tilt_over = {value}\n")
    (fault,) = caught.value.faults
    assert fault.path == "raising.tilt_over"
    assert fault.line == (HEAD + OLD).count("\n") + 1
    assert "[raising.tilt]" in fault.remedy


def test_tilt_over_false_said_nothing() -> None:
    assert read_plan(HEAD + OLD + "tilt_over = false\n").raising == read_plan(HEAD + OLD).raising
