"""Places as data: the shipped files, their faults, and the findings they give."""

from importlib import resources

import pytest

from boomwright.base import PlanError, exceeded_texts, plan_verdict
from boomwright.permits import StructureHeights, read_jurisdiction
from boomwright.permits.jurisdiction_findings import PermitSite, jurisdiction_findings

SHIPPED = sorted(
    entry.name
    for entry in resources.files("boomwright.permits").joinpath("data").iterdir()
    if entry.name.endswith(".toml")
)


def shipped(name):
    entry = resources.files("boomwright.permits").joinpath("data").joinpath(name)
    return read_jurisdiction(entry.read_text(encoding="utf-8"), name=name)


@pytest.mark.parametrize("name", SHIPPED)
def test_shipped_files_read_and_answer(name):
    place = shipped(name)
    site = PermitSite(heights=StructureHeights(structure_top=18.0))
    findings = jurisdiction_findings(place, site=site)
    assert len(findings) == len(place.rules)
    for finding in findings:
        assert finding.basis
        assert finding.whom_to_ask
        assert finding.dated
        assert finding.seen in {"read", "from memory", "common practice"}


def test_united_kingdom_garden_heights():
    # Part 1 class E figures: 3.0 m, and 2.5 m within 2 m of the boundary
    def verdicts(top, boundary):
        site = PermitSite(
            heights=StructureHeights(structure_top=top), boundary_distance=boundary, airports=()
        )
        found = jurisdiction_findings(shipped("united-kingdom.toml"), site=site)
        return [finding.verdict for finding in found[:2]]

    assert verdicts(2.9, 5.0) == ["within", "within"]
    assert verdicts(2.9, 1.5) == ["within", "ask"]
    assert verdicts(3.1, 5.0) == ["ask", "within"]
    assert verdicts(2.9, None) == ["within", "not checked"]


def test_a_height_rule_says_what_share_of_it_is_taken():
    # A height over its limit, and a boundary nearer than a height asks for, share by share.
    def uses(top, boundary):
        site = PermitSite(
            heights=StructureHeights(structure_top=top), boundary_distance=boundary, airports=()
        )
        found = jurisdiction_findings(shipped("united-kingdom.toml"), site=site)
        return [finding.use for finding in found[:2]]

    assert uses(12.0, 1.5) == pytest.approx([4.0, 4.8])
    assert uses(2.4, 5.0) == [pytest.approx(0.8), None]
    assert uses(2.4, None) == [pytest.approx(0.8), None]


def test_a_height_rule_that_is_exceeded_counts_with_its_share():
    place = read_jurisdiction(TOWN_HEIGHT, name="town.toml")
    site = PermitSite(heights=StructureHeights(structure_top=18.0))
    (found,) = jurisdiction_findings(place, site=site)
    assert (found.finding.verdict, found.finding.use) == ("exceeded", pytest.approx(1.5))
    verdict = plan_verdict((found.finding,))
    assert exceeded_texts(verdict, system="metric") == (
        "A town: Height of masts, 150 % of its limit. Next: ask town office.",
    )


TOWN_HEIGHT = """
boomwright_jurisdiction = 1
id = "town"
name = "A town"
edited_on = "2026-01-31"
[[rule]]
id = "height"
kind = "height_over"
limit_m = 12.0
outcome = "exceeded"
subject = "Height of masts"
text = "No mast above 12 m."
basis = "Ordinance 1"
whom_to_ask = "town office"
dated = "2020"
seen = "read"
"""


def test_aerodrome_rule():
    place = shipped("international.toml")
    index = [rule.identity for rule in place.rules].index("aerodrome-15km")

    def verdict(airports):
        site = PermitSite(heights=StructureHeights(structure_top=10.0), airports=airports)
        return jurisdiction_findings(place, site=site)[index].verdict

    assert verdict(None) == "not checked"
    assert verdict((("A field", 15_001.0),)) == "within"
    assert verdict((("A field", 14_999.0),)) == "ask"


def test_every_fault_is_reported_with_its_place():
    text = """
boomwright_jurisdiction = 2
id = "x"
name = ""
edited_on = "yesterday"
countries = ["Germany"]
[[rule]]
id = "a"
kind = "height_over"
subject = "s"
text = "t"
basis = "b"
whom_to_ask = "w"
dated = "d"
seen = "heard"
ratio = 2.0
colour = "red"
[[rule]]
id = "a"
kind = "tall"
outcome = "safe"
"""
    with pytest.raises(PlanError) as caught:
        read_jurisdiction(text, name="x.toml")
    paths = {fault.path for fault in caught.value.faults}
    assert paths >= {
        "boomwright_jurisdiction",
        "name",
        "edited_on",
        "countries",
        "rule[0].seen",
        "rule[0].limit_m",
        "rule[0].ratio",
        "rule[0].colour",
        "rule[1].id",
        "rule[1].kind",
        "rule[1].outcome",
        "rule[1].basis",
    }
    assert all(fault.remedy for fault in caught.value.faults)


@pytest.mark.parametrize("text", ["not toml = = 1", "boomwright_jurisdiction = 1\nid = 'x'"])
def test_broken_files_are_refused(text):
    with pytest.raises(PlanError):
        read_jurisdiction(text, name="x.toml")


def test_boundary_ratio():
    text = """
boomwright_jurisdiction = 1
id = "town"
name = "A town"
edited_on = "2026-01-31"
[[rule]]
id = "setback"
kind = "boundary_ratio"
ratio = 1.1
outcome = "exceeded"
subject = "Setback"
text = "Lands on own land."
basis = "Ordinance 1"
whom_to_ask = "town office"
dated = "2020"
seen = "read"
"""
    place = read_jurisdiction(text, name="town.toml")
    for boundary, verdict in ((21.9, "exceeded"), (22.1, "within"), (None, "not checked")):
        site = PermitSite(heights=StructureHeights(structure_top=20.0), boundary_distance=boundary)
        (found,) = jurisdiction_findings(place, site=site)
        assert found.verdict == verdict
        share = None if boundary is None else pytest.approx(22.0 / boundary)
        assert found.use == share
