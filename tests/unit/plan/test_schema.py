"""The exported schema, held to the draft by a general validator and to plans by example."""

from __future__ import annotations

import tomllib

import pytest
from jsonschema import Draft202012Validator

from boomwright.plan import plan_schema, read_plan, starter_plan, write_plan
from boomwright.session.files import packaged_text

DEMO = packaged_text("demo.toml")
VALIDATOR = Draft202012Validator(plan_schema())


def places(text: str) -> set[str]:
    return {error.json_path for error in VALIDATOR.iter_errors(tomllib.loads(text))}


def test_schema_is_valid_by_the_draft() -> None:
    Draft202012Validator.check_schema(plan_schema())


def test_plans_that_read_also_fit_the_schema() -> None:
    us = starter_plan(band="2 m", units="us", boom_limit=2.5, element_count=6)
    loop = '[[beam.wire]]\nname = "w"\ndiameter = "1/8 in"\npoints = [[0, "-1 ft", 0], [1, 2, 3]]\n'
    constants = DEMO.replace('"medium dry"', '{ permittivity = 15, conductivity = "1 mS/m" }')
    for text in (DEMO, us, write_plan(read_plan(DEMO)), DEMO + loop, constants):
        read_plan(text)
        assert places(text) == set()


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ('height = "16 m"', 'heigth = "16 m"', "$.beam[0]"),
        ('"16 m"', '"16 kg"', "$.beam[0].height"),
        ('"16 m"', '"sixteen"', "$.beam[0].height"),
        ('"16 m"', "true", "$.beam[0].height"),
        ('"medium dry"', '"medum dry"', "$.site.ground"),
        ('"6061-T6"\nfeed', '"6061"\nfeed', "$.beam[0].material"),
        ('role = "reflector"', 'role = "mirror"', "$.beam[0].element[0].role"),
        ("boomwright = 1", "boomwright = 2", "$.boomwright"),
        ("boomwright = 1\n", "", "$"),
        ('"14.175 MHz"', '"14.175 m"', "$.beam[0].design"),
        ('["14.000 MHz", "14.350 MHz"]', '["14.000 MHz"]', "$.beam[0].band"),
        ('"40 m/s"', "-3", "$.site.wind"),
        ('"300 deg"', "300", "$.beam[0].heading"),
        ('"52.20 N, 0.10 E"', '"52.20, 0.10"', "$.site.position"),
    ],
)
def test_damage_is_found_at_its_place(old: str, new: str, place: str) -> None:
    assert old in DEMO
    assert places(DEMO.replace(old, new)) == {place}


def test_every_field_is_explained() -> None:
    def walk(schema: dict[str, object], path: str) -> None:
        for key, entry in (schema.get("properties") or {}).items():  # type: ignore[attr-defined]
            assert entry["description"].endswith("."), f"{path}.{key}"
            walk(entry, f"{path}.{key}")
            walk(entry.get("items") or {}, f"{path}.{key}[]")

    walk(plan_schema(), "plan")
