"""What every picture must keep, whatever it shows."""

from __future__ import annotations

import dataclasses
import inspect
import re
from collections.abc import Callable

import numpy as np
import pytest
from svg_reading import SVG, cut_off, every, overlaps, parsed

from boomwright import charts
from boomwright.charts import LIGHT, Palette
from boomwright.charts.palette import DARK, line_style
from contrast import contrast_ratio
from fakes.readings import fake_beam, fake_beam_of, fake_readings, fake_station

READINGS = fake_readings()
TWELVE = fake_readings(beam=fake_beam_of(elements=12, design_frequency=50.15e6, name="twelve"))
Picture = Callable[..., str]


def drawn(chart: Picture, **given) -> Picture:
    """Draw a chart with whatever it takes of the options: not each has a title or units."""
    takes = inspect.signature(chart).parameters

    def draw(**options) -> str:
        return chart(**given, **{name: said for name, said in options.items() if name in takes})

    return draw


PICTURES: dict[str, Picture] = {
    "plan": drawn(charts.plan_view, beam=READINGS.beam, station=fake_station(READINGS.beam)),
    "detail": drawn(charts.element_detail, beam=READINGS.beam, index=1),
    "azimuth": drawn(charts.azimuth_pattern, cuts=[READINGS.azimuth_pattern]),
    "azimuths": drawn(
        charts.azimuth_pattern,
        cuts=[READINGS.azimuth_pattern, READINGS.over_ground.azimuth_pattern],
    ),
    "elevation": drawn(charts.elevation_pattern, cuts=[READINGS.elevation_pattern]),
    "elevation over ground": drawn(
        charts.elevation_pattern, cuts=[READINGS.over_ground.elevation_pattern]
    ),
    "sweep": drawn(charts.sweep_chart, readings=READINGS),
    "impedance": drawn(charts.impedance_chart, readings=READINGS),
    "gain": drawn(charts.gain_chart, readings=READINGS),
    "currents": drawn(charts.current_chart, currents=READINGS.currents),
    "currents of twelve": drawn(charts.current_chart, currents=TWELVE.currents),
    "phasors": drawn(charts.current_phasors, currents=READINGS.currents),
    "phasors of twelve": drawn(charts.current_phasors, currents=TWELVE.currents),
    "lobes": drawn(charts.lobe_chart, over_ground=READINGS.over_ground),
    "many lobes": drawn(charts.lobe_chart, over_ground=TWELVE.over_ground),
}
each_picture = pytest.mark.parametrize("draw", PICTURES.values(), ids=PICTURES.keys())
each_palette = pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
HOSTILE = "<script>alert('x')</script> & \"quotes\" ]]> \x00\x0b\ud800 Ω"


@each_picture
def test_named_and_described_for_those_who_do_not_see_it(draw: Picture) -> None:
    root = parsed(draw())
    ids = {e.get("id"): e.text for e in root if e.tag in (SVG + "title", SVG + "desc")}
    named = root.attrib["aria-labelledby"].split()
    assert root.get("role") == "img"
    assert named == list(ids)
    assert all(ids[name] for name in named)
    assert re.search(r"\d", ids[named[1]]), "the sentence says no number"
    assert ids[named[1]].endswith(".")


@each_picture
def test_only_what_a_pdf_engine_reads_too(draw: Picture) -> None:
    root = parsed(draw())
    allowed = {"svg", "title", "desc", "g", "rect", "line", "circle", "path", "text"}
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= allowed
    for element in root.iter():
        assert not {"style", "class", "href"} & set(element.attrib)
        assert not any(name.startswith("on") for name in element.attrib)
        assert not any("var(" in value or "url(" in value for value in element.attrib.values())


@each_picture
@pytest.mark.parametrize("system", ["metric", "us"])
def test_no_label_meets_another_or_leaves_the_sheet(draw: Picture, system: str) -> None:
    svg = draw(system=system)
    assert overlaps(svg) == []
    assert cut_off(svg) == []


@each_picture
@pytest.mark.parametrize("width", [480.0, 560.0, 900.0])
def test_labels_stay_apart_at_other_widths(draw: Picture, width: float) -> None:
    svg = draw(width=width)
    assert overlaps(svg) == []
    assert cut_off(svg) == []


@pytest.mark.parametrize("count", range(2, 13))
@pytest.mark.parametrize("megahertz", [7.1, 14.15, 28.4, 50.15])
@pytest.mark.parametrize("system", ["metric", "us"])
def test_plan_labels_stay_apart_for_any_beam(count: int, megahertz: float, system: str) -> None:
    beam = fake_beam_of(elements=count, design_frequency=megahertz * 1e6)
    svg = charts.plan_view(beam=beam, station=fake_station(beam), system=system)
    assert overlaps(svg) == []
    assert cut_off(svg) == []
    detail = charts.element_detail(beam=beam, index=count - 1, system=system)
    assert overlaps(detail) == []
    assert cut_off(detail) == []


@pytest.mark.parametrize("height", [5.0, 12.0, 24.0, 40.0])
def test_lobe_labels_stay_apart_at_any_height(height: float) -> None:
    beam = dataclasses.replace(fake_beam_of(elements=5, design_frequency=50.15e6), height=height)
    readings = fake_readings(beam=beam)
    assert overlaps(charts.lobe_chart(over_ground=readings.over_ground)) == []


@each_picture
def test_the_same_input_gives_the_same_text(draw: Picture) -> None:
    assert draw() == draw()
    assert draw(palette=DARK) != draw(palette=LIGHT)


@pytest.mark.parametrize("name", ["azimuth", "elevation", "plan", "sweep"])
def test_a_title_cannot_break_out(name: str) -> None:
    draw = PICTURES[name]
    root = parsed(draw(title=HOSTILE))
    assert not every(root, "script")
    assert cut_off(draw(title="A very long title " * 20)) == []
    shown = root.find(SVG + "title").text
    assert shown.startswith("<script>alert('x')</script> & \"quotes\" ]]>")
    assert "\x00" not in shown


def test_names_from_the_plan_cannot_break_out() -> None:
    beam = dataclasses.replace(fake_beam(), name=HOSTILE)
    readings = dataclasses.replace(READINGS, beam=beam)
    for svg in (
        charts.plan_view(beam=beam, station=fake_station(beam)),
        charts.sweep_chart(readings=readings),
        charts.azimuth_pattern(cuts=[READINGS.azimuth_pattern], labels=[HOSTILE]),
        charts.current_chart(currents=[dataclasses.replace(READINGS.currents[0], label=HOSTILE)]),
    ):
        assert not every(parsed(svg), "script")


@each_palette
def test_contrast_reaches_the_criteria(palette: Palette) -> None:
    """WCAG 2.2, success criteria 1.4.3 (text 4.5:1) and 1.4.11 (lines 3:1) {wcag-2-2}."""
    texts = (palette.ink, palette.quiet, palette.accent, *palette.series)
    assert min(contrast_ratio(colour, palette.paper) for colour in texts) >= 4.5
    assert contrast_ratio(palette.grid, palette.paper) >= 3.0
    # Tubes are told from the paper and from their fill by their outline.
    assert contrast_ratio(palette.ink, palette.metal) >= 3.0
    assert contrast_ratio(palette.ink, palette.paper) >= 3.0


def test_contrast_of_known_pairs() -> None:
    """Black on white is 21:1, a colour on itself 1:1; #767676 on white 4.54:1 {wcag-2-2}."""
    assert contrast_ratio("#000000", "#ffffff") == pytest.approx(21.0, abs=1e-9)
    assert contrast_ratio("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert contrast_ratio("#123456", "#123456") == 1.0


@each_picture
@each_palette
def test_every_colour_drawn_is_of_the_palette(draw: Picture, palette: Palette) -> None:
    fields = dataclasses.asdict(palette)
    known = {*fields["series"], *(v for v in fields.values() if isinstance(v, str)), "none"}
    drawn = {
        value
        for element in parsed(draw(palette=palette)).iter()
        for name, value in element.attrib.items()
        if name in ("fill", "stroke")
    }
    assert drawn <= known


def test_series_differ_by_more_than_colour() -> None:
    styles = [line_style(palette=LIGHT, index=i) for i in range(16)]
    assert len({(s.dash, s.marker) for s in styles[:4]}) == 4
    assert len({(s.colour, s.dash) for s in styles}) == 16


def test_two_pictures_on_one_page_do_not_share_ids() -> None:
    svgs = [draw(palette=p) for draw in PICTURES.values() for p in (LIGHT, DARK)]
    ids = [name for svg in svgs for name in parsed(svg).attrib["aria-labelledby"].split()]
    assert len(set(ids)) == len(ids)


@each_picture
def test_every_text_is_real_text_in_the_stated_fonts(draw: Picture) -> None:
    root = parsed(draw())
    assert root.attrib["font-family"] == "'DejaVu Sans', 'Noto Sans', sans-serif"
    assert every(root, "text")
    assert min(float(e.attrib["font-size"]) for e in every(root, "text")) >= 8.5


def test_a_number_that_is_not_finite_is_refused() -> None:
    gain = np.array(READINGS.azimuth_pattern.gain_dbi)
    gain[10] = np.nan
    broken = dataclasses.replace(READINGS.azimuth_pattern, gain_dbi=gain)
    with pytest.raises(ValueError, match="finite"):
        charts.azimuth_pattern(cuts=[broken])
