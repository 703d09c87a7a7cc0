"""The other commands: new, check, book, open, demo, and what the program says of itself."""

from __future__ import annotations

import json
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdf
import pytest
from damaged_plans import SOUND
from typer.main import get_command

from boomwright import reach
from boomwright.cli.commands import app
from boomwright.plan import read_place, read_plan
from boomwright.reach import BeamReadings
from boomwright.session import demo as session_demo
from fakes.command_line import Shell
from fakes.readings import fake_readings

PLAN = SOUND.split("  [[beam.wire]]")[0]


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "plan.toml"
    path.write_text(PLAN, encoding="utf-8")
    return path


@pytest.fixture(autouse=True)
def _made_up_readings(monkeypatch: pytest.MonkeyPatch) -> None:
    def read_beam(**arguments: Any) -> BeamReadings:
        readings = fake_readings(beam=arguments["beam"])
        return replace(readings, reference_resistance=arguments["reference_resistance"])

    monkeypatch.setattr(reach, "read_beam", read_beam)


def test_help_lists_the_commands_in_the_order_of_the_job(shell: Shell) -> None:
    ran = shell("--help")
    assert ran.status == 0
    places = [ran.out.index(f"\n  {name} ") for name in ("new", "check", "compute", "book", "open")]
    assert places == sorted(places)


def test_every_command_and_every_option_has_its_help() -> None:
    program = get_command(app)
    for name, command in program.commands.items():  # type: ignore[attr-defined]
        assert command.help, name
        for parameter in command.params:
            assert parameter.help, f"{name} {parameter.name}"


def test_version(shell: Shell) -> None:
    ran = shell("--version")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith("boomwright 0.")


@pytest.mark.parametrize("words", [["no-such-command"], ["compute"], []])
def test_wrong_use_ends_with_2(shell: Shell, words: list[str]) -> None:
    ran = shell(*words)
    assert ran.status == 2
    assert "Usage: boomwright" in ran.out + ran.err


@pytest.mark.parametrize("system", ["metric", "us"])
def test_new_plan_is_in_order(shell: Shell, tmp_path: Path, system: str) -> None:
    path = tmp_path / "folder" / "mine.toml"
    made = shell(
        "new", path, "--band", "20 m", "--elements", 4, "--boom", "9 m", "--height", "40 ft",
        "--heading", 45, "--ground", "wet", "--position", "52.20 N, 0.10 E", "--title", 'A "title"',
        "--system", system,
    )  # fmt: skip
    assert (made.status, made.err) == (0, "")
    assert shell("check", path).status == 0
    written = tomllib.loads(path.read_text(encoding="utf-8"))
    assert written["title"] == 'A "title"'
    assert len(written["beam"][0]["element"]) == 4
    assert written["site"]["ground"] == "wet"


@pytest.mark.parametrize("shape", ["hexagon", "vertical"])
def test_new_plan_of_wire_is_in_order_and_trimmed(shell: Shell, tmp_path: Path, shape: str) -> None:
    path = tmp_path / "wire.toml"
    made = shell("new", path, "--band", "20 m", "--shape", shape)
    assert (made.status, made.err) == (0, "")
    assert shell("check", path).status == 0
    computed = json.loads(shell("compute", path, "--points", 5, "--json").out)["beams"][0]
    assert max(point["swr"] for point in computed["sweep"]) < 2.0


@pytest.mark.parametrize(
    ("shape", "bands"),
    [
        ("hexagon", ["20 m", "15 m", "10 m"]),
        ("two-band-dipole", ["40 m", "20 m"]),
        ("two-verticals", ["40 m"]),
    ],
)
def test_new_plan_of_several_bands_or_driven_wires_is_in_order(
    shell: Shell, tmp_path: Path, shape: str, bands: list[str]
) -> None:
    path = tmp_path / "wire.toml"
    words = [word for band in bands for word in ("--band", band)]
    made = shell("new", path, *words, "--shape", shape)
    assert (made.status, made.err) == (0, "")
    checked = shell("check", path)
    assert checked.status == 0
    assert "doubt" not in checked.out
    assert all(band in checked.out for band in bands)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--band", "20 m", "--shape", "hexagonal"], "hexagon"),
        (["--band", "21 m"], "->"),
        (["--band", "20 m", "--band", "15 m"], "for one band"),
        (["--band", "20 m", "--band", "15 m", "--shape", "dipole"], "not made for 2 bands"),
        (["--band", "20 m", "--boom", "6"], "boom: the unit is missing (6) ->"),
        (["--band", "20 m", "--boom", "1 m"], "too short"),
        (["--band", "20 m", "--ground", "bog"], "->"),
        (["--band", "20 m", "--elements", "1"], "->"),
        (["--band", "20 m", "--position", "nowhere"], "->"),
        ([], "--band"),
    ],
)
def test_new_refuses_wishes_that_cannot_be_met(
    shell: Shell, tmp_path: Path, words: list[str], said: str
) -> None:
    path = tmp_path / "mine.toml"
    ran = shell("new", path, *words)
    assert (ran.status, ran.out) == (2, "")
    assert said in ran.err
    assert not path.exists()


def test_new_takes_a_searched_design_of_so_many_elements(shell: Shell, tmp_path: Path) -> None:
    path = tmp_path / "found.toml"
    words = ("--band", "20 m", "--elements", 4, "--boom", "30 ft", "--searched")
    made = shell("new", path, *words)
    assert (made.status, made.err) == (0, "")
    assert "4 elements on 30 ft" in made.out
    text = path.read_text(encoding="utf-8")
    assert "first guess" not in text
    places = [element.position for element in read_plan(text).beams[0].elements]
    assert max(places) - min(places) <= 9.144 + 1e-3


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--elements", 3, "--boom", "1 m"), "the boom is too short"),
        (("--elements", 17), "holds 2 to 16 elements, not 17"),
    ],
)
def test_new_refuses_what_the_search_did_not_cover(
    shell: Shell, tmp_path: Path, words: tuple[object, ...], said: str
) -> None:
    ran = shell("new", tmp_path / "found.toml", "--band", "20 m", "--searched", *words)
    assert ran.status == 2
    assert said in ran.err
    assert not (tmp_path / "found.toml").exists()


def test_new_writes_a_place_to_fill_in(shell: Shell, tmp_path: Path) -> None:
    path = tmp_path / "garden.toml"
    words = ("new", path, "--place", "--band", "20 m", "--band", "15 m")
    assert shell(*words, "--height", "9 m").status == 2
    assert not path.exists()
    told = shell(*words, "--position", "JO02be", "--system", "us")
    assert told.status == 0
    assert f"boomwright advise {path}" in told.out
    place = read_place(path.read_text())
    assert place.place is not None
    assert place.place.bands == ("20 m", "15 m")
    assert place.site.latitude is not None
    assert '# highest = "30 ft"' in path.read_text()


def test_new_keeps_an_existing_file(shell: Shell, plan: Path) -> None:
    ran = shell("new", plan, "--band", "20 m")
    assert ran.status == 2
    assert "exists and is kept -> choose another name" in ran.err
    assert plan.read_text(encoding="utf-8") == PLAN


def test_check_shows_a_plan_in_order(shell: Shell, plan: Path) -> None:
    ran = shell("check", plan)
    assert (ran.status, ran.err) == (0, "")
    assert "No fault found." in ran.out
    assert "14.000 to 14.350" in ran.out
    assert shell("check", "-", stdin=PLAN.encode()).out == ran.out
    assert "8 ft 6-3/8 in" in shell("check", plan, "--system", "us").out


def test_check_as_document_lists_the_faults(shell: Shell, plan: Path) -> None:
    assert json.loads(shell("check", plan, "--json").out) == {"faults": []}
    plan.write_text(PLAN.replace('"16 m"', '"16 metres"'), encoding="utf-8")
    ran = shell("check", plan, "--json")
    assert ran.status == 2
    (fault,) = json.loads(ran.out)["faults"]
    assert fault["path"] == "beam[0].height"
    assert PLAN.splitlines()[fault["line"] - 1].startswith("height")
    assert fault["remedy"] in ran.err


def test_check_prints_the_schema_alone(shell: Shell) -> None:
    ran = shell("check", "--schema")
    assert (ran.status, ran.err) == (0, "")
    assert json.loads(ran.out)["$schema"].endswith("2020-12/schema")
    assert shell("check").status == 2


def test_book_lies_beside_the_plan(shell: Shell, plan: Path) -> None:
    ran = shell("book", plan)
    assert (ran.status, ran.err) == (0, "")
    books = [plan.parent / f"book{suffix}.pdf" for suffix in ("", "-annex", "-pocket")]
    assert ran.out.splitlines()[-3:] == [str(each) for each in books]
    assert all(each.read_bytes().startswith(b"%PDF-") for each in books)


def test_one_part_of_the_book_alone(shell: Shell, plan: Path, tmp_path: Path) -> None:
    ran = shell("book", plan, "--part", "pocket", "--out", tmp_path / "out" / "mine.pdf", "--json")
    assert ran.status == 0
    (written,) = json.loads(ran.out)["files"]
    assert written == str(tmp_path / "out" / "mine-pocket.pdf")
    assert Path(written).is_file()
    assert shell("book", plan, "--part", "cover").status == 2


def test_book_with_drawings_and_figures(shell: Shell, plan: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    ran = shell(
        "book", plan, "--out", out / "mine.pdf", "--drawings", out, "--figures", out / "svg",
        "--system", "us", "--paper", "letter", "--json",
    )  # fmt: skip
    assert (ran.status, ran.err) == (0, "")
    listed = {Path(name) for name in json.loads(ran.out)["files"]}
    assert listed == {path for path in out.rglob("*") if path.is_file()}
    assert (out / "20m-cut-list.csv").read_bytes().count(b"\r\n") >= 3
    assert b"SECTION" in (out / "20m-plan-view.dxf").read_bytes()[:100]
    svgs = [path.read_text(encoding="utf-8") for path in sorted((out / "svg").glob("*.svg"))]
    reach = {path.stem.split("-reach-")[1] for path in (out / "svg").glob("*-reach-*.svg")}
    assert reach >= {"heights", "height-map", "lobe-steps", "plain-antennas"}
    assert len(svgs) == 13 + len(reach)
    assert all(svg.startswith("<svg") for svg in svgs)


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--out", "plan.toml"), "never replaces a plan"),
        (("--out", "plan.toml/book.pdf"), "plan.toml"),
        (("--out", "folder"), "folder: is a directory"),
        (("--drawings", "plan.toml"), "plan.toml"),
        (("--figures", "plan.toml/figures"), "plan.toml"),
    ],
)
def test_where_no_book_can_be_written_is_said_before_anything_is_computed(
    shell: Shell, plan: Path, monkeypatch: pytest.MonkeyPatch, options: tuple[str, str], said: str
) -> None:
    monkeypatch.setattr(reach, "read_beam", lambda **_: pytest.fail("computed first"))
    (plan.parent / "folder").mkdir()
    ran = shell("book", plan, options[0], plan.parent / options[1])
    assert ran.status == 2
    assert said in ran.err
    assert "->" in ran.err
    assert plan.read_text(encoding="utf-8") == PLAN
    assert {path.name for path in plan.parent.iterdir()} == {"plan.toml", "folder"}


def test_open_hands_over_to_the_page(shell: Shell, plan: Path) -> None:
    assert shell("open", plan, "--port", 8123, "--no-browser").status == 0
    assert shell("open", plan).status == 0
    # Without a plan the page begins with the folder it is called in.
    assert shell("open").status == 0
    assert shell.opened == [(plan, 8123, False), (plan, 0, True), (Path(), 0, True)]
    assert shell.beyond == [("", ""), ("", ""), ("", "")]


def test_open_serves_others_only_when_told_to_with_a_password_and_a_warning(
    shell, tmp_path, monkeypatch
):
    plan = tmp_path / "plan.toml"
    monkeypatch.setenv("BOOMWRIGHT_PASSWORD", "short")
    ran = shell("open", plan, "--beyond-this-machine", "192.0.2.7")
    assert ran.status == 2
    assert "12 or more" in ran.err
    monkeypatch.setenv("BOOMWRIGHT_PASSWORD", "long enough for this")
    ran = shell("open", plan, "--beyond-this-machine", "192.0.2.7")
    assert ran.status == 0
    assert "unencrypted" in ran.err
    assert shell.beyond == [("192.0.2.7", "long enough for this")]


def test_demo_makes_everything_and_keeps_what_was_changed(
    shell: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "demo"
    ran = shell("demo", folder)
    assert (ran.status, ran.err) == (0, "")
    assert {path.name for path in folder.iterdir()} == {
        "plan.toml", "prices.csv", "book.pdf", "book-annex.pdf", "book-pocket.pdf",
        "20m-cut-list.csv", "20m-plan-view.dxf", "drawings",
    }  # fmt: skip
    assert ran.out.startswith("Verdict: ")
    assert f"boomwright open {folder / 'plan.toml'}" in ran.out
    outline = "".join(
        str(pypdf.PdfReader(folder / f"book{part}.pdf").outline) for part in ("", "-annex")
    )
    for chapter in (
        "Beam 20m", "Feed of 20m", "Reach of 20m", "Structure", "Permits", "Build sheets of 20m",
        "Raising of 20m", "After the lift",
    ):  # fmt: skip
        assert chapter in outline, chapter
    path = folder / "plan.toml"
    # The owner has written a smaller plan there; its book is made as the first one was.
    monkeypatch.setattr(session_demo, "book_of", lambda *_, **__: {})
    path.write_text(PLAN, encoding="utf-8")
    assert "used as found" in shell("demo", folder).out
    assert path.read_text(encoding="utf-8") == PLAN
