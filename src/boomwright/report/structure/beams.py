"""One beam: its elements, its boom, and the wind on both."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from boomwright import charts
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.parts import Beam
from boomwright.report.model import Column, Picture, Table, column, drawing
from boomwright.structure import (
    AreaConventions,
    ArmBending,
    BeamReport,
    BoomCourse,
    ElementReport,
    SectionStrength,
    StructureReport,
)

#: an element and one of its tubes
Tube = tuple[ElementReport, SectionStrength]

#: angle between two rows behind the picture of the wind [deg]
_STEP = 10
#: rows behind the picture of a boom [-]
_ROWS = 25


def has_ice(report: StructureReport) -> bool:
    """Whether the site has ice."""
    return report.inputs.ice is not None and report.inputs.ice.thickness > 0.0


def beam_tables(beam: BeamReport, *, report: StructureReport) -> list[Table[Any]]:
    """List the wind areas of a beam, its tubes, droops, modes and the arms of its boom."""
    iced = has_ice(report)
    return [
        areas(beam.name, list(_area_rows(beam))),
        _elements(beam, iced=iced),
        _droop(beam, iced=iced),
        _vibration(beam),
        arms(beam.arms, name=beam.name),
    ]


def _area_rows(beam: BeamReport) -> Iterator[tuple[Value, AreaConventions]]:
    """The wind areas in the three conventions, by both rules."""

    def worst(words: str, angle_deg: float) -> Value:
        return phrase(words + " {angle:whole angle}", angle=angle_deg)

    wind, iced = beam.wind, beam.iced_wind
    yield ("Elements, wind along the boom", wind.elements)
    yield ("Boom, wind across it", wind.boom)
    yield (worst("Square to the wind, worst at", wind.worst_angle_deg), wind.worst)
    yield (worst("Older sum rule, worst at", wind.older_worst_angle_deg), wind.older_worst)
    if iced is not None:
        yield (worst("With ice, worst at", iced.worst_angle_deg), iced.worst)


def areas(
    name: str, rows: Sequence[tuple[Value, AreaConventions]]
) -> Table[tuple[Value, AreaConventions]]:
    """List wind areas of a beam in the three conventions."""
    return Table(
        name="areas",
        caption=f"{name}: wind area in the three conventions of ratings",
        columns=(
            column("area", lambda row: row[0]),
            column("projected", lambda row: row[1].projected, kind="wind area", key="projected"),
            column("drag, 1.2 times", lambda row: row[1].drag, kind="wind area", key="drag"),
            column("flat plate, 2/3", lambda row: row[1].flat, kind="wind area", key="flat"),
        ),
        items=rows,
        note="A tower's or rotator's rating means one of the three: ask its maker which, and at "
        "what wind speed, exposure and edition.",
        group="beam",
    )


def _section_columns(*, iced: bool) -> Iterator[Column[Tube]]:
    """What each tube of an element half is and bears."""
    yield column("from the boom", lambda at: Quantity(at[1].from_boom, "span"), key="from_boom_m")
    yield column("diameter", lambda at: at[1].diameter, kind="diameter", key="diameter_m")
    yield column("wall", lambda at: at[1].wall, kind="wall", key="wall_m")
    yield column("stress", lambda at: at[1].bare_stress, kind="tube stress", key="bare_stress_pa")
    yield column("yields at", lambda at: at[1].yield_speed_bare, kind="yield speed",
                 key="yield_speed_bare_m_s")  # fmt: skip
    if iced:
        yield column(
            "stress iced", lambda at: at[1].iced_stress, kind="tube stress", key="iced_stress_pa"
        )
        yield column("iced, yields at", lambda at: at[1].yield_speed_iced, kind="yield speed",
                     key="yield_speed_iced_m_s")  # fmt: skip


def _is_weakest(at: Tube) -> bool:
    return at[1].index == at[0].strength.worst_bare.index


def _elements(beam: BeamReport, *, iced: bool) -> Table[Tube]:
    """The tubes of every element with the wind at which each yields."""

    def name(at: Tube) -> Value:
        return _short(beam, at[0]) if at[1].index == 0 else ""

    return Table(
        name="elements",
        caption=f"{beam.name}: tubes of one half and the gust at which each yields",
        columns=(
            column("element", name),
            *_section_columns(iced=iced),
            column("in wind", lambda at: "weakest" if _is_weakest(at) else ""),
        ),
        items=[(each, section) for each in beam.elements for section in each.strength.sections],
        note="The gust is that at the element itself; overlaps count as the outer tube only.",
        group="beam",
    )


def sections(element: ElementReport) -> Table[Tube]:
    """The tubes of one element half, with the droop at the inner end of each."""

    def droop(course: Any, at: Tube) -> float:
        place = np.searchsorted(element.course.place, at[1].from_boom, side="right")
        return float(course[int(place) - 1])

    return Table(
        name="sections",
        caption=f"{element.label}: stress and droop of one half",
        columns=(
            column("section", lambda at: at[1].index + 1),
            *_section_columns(iced=True),
            column("droop", lambda at: droop(element.course.dead_droop, at), kind="sag"),
            column("droop iced", lambda at: droop(element.course.iced_droop, at), kind="sag"),
        ),
        items=[(element, section) for section in element.strength.sections],
    )


def _short(beam: BeamReport, element: ElementReport) -> str:
    """The element below the name of its beam."""
    return element.label.removeprefix(f"{beam.name} ")


def _droop(beam: BeamReport, *, iced: bool) -> Table[ElementReport]:
    """How far the tips hang, and whether the simple formula still holds."""
    columns: list[Column[ElementReport]] = [
        column("element", lambda each: _short(beam, each)),
        column("bare", lambda each: each.strength.dead_droop, kind="sag"),
    ]
    if iced:
        columns.append(column("with ice", lambda each: each.strength.iced_droop, kind="sag"))
    if any(each.large_deflection_ratio is not None for each in beam.elements):
        # The full calculation bends the shape, and with it the arms of the forces.
        columns.append(
            column("moment at the boom, full calculation over simple",
                   lambda each: each.large_deflection_ratio, kind="factor")
        )  # fmt: skip
    return Table(
        name="tips",
        caption=f"{beam.name}: droop of the tips in still air",
        columns=tuple(columns),
        items=beam.elements,
        group="beam",
    )


def _vibration(beam: BeamReport) -> Table[ElementReport]:
    """The modes in which the wind makes the elements sing."""

    def mode(number: int) -> Column[ElementReport]:
        def told(element: ElementReport) -> Value:
            if number > len(element.modes):
                return ""
            found = element.modes[number - 1]
            return phrase("{:vibration} at {:light wind}", found.frequency_hz, found.critical_wind)

        return column(f"mode {number}", told)

    return Table(
        name="vibration",
        caption=f"{beam.name}: modes and the steady wind that excites each",
        columns=(
            column("element", lambda each: _short(beam, each)),
            *(mode(number) for number in (1, 2, 3, 4)),
        ),
        items=beam.elements,
        note="Strouhal number from memory. The higher modes are the buzz that cracks clamps.",
        group="beam",
        folded=True,
    )


def arms(bent: Sequence[ArmBending], *, name: str) -> Table[tuple[str, ArmBending]]:
    """The arms of a boom, rear and front."""
    return Table(
        name="arms",
        caption=f"{name}: arms of the boom",
        columns=(
            column("arm", lambda arm: arm[0]),
            column("length", lambda arm: Quantity(arm[1].length, "span"), key="length_m"),
            column("moment of weights", lambda arm: arm[1].moment, kind="turning load",
                   key="moment_nm"),
            column("moment of wind", lambda arm: arm[1].wind_moment, kind="turning load",
                   key="wind_moment_nm"),
            column("sag", lambda arm: arm[1].sag, kind="sag", key="sag_m"),
            column("stress", lambda arm: arm[1].stress, kind="tube stress", key="stress_pa"),
            column("pull of the tie",
                   lambda arm: None if arm[1].tie is None else Quantity(arm[1].tie.pull, "load"),
                   key="tie_pull_n"),
        ),
        items=list(zip(("rear", "front"), bent, strict=False)),
        group="beam",
    )  # fmt: skip


def beam_pictures(
    beam: BeamReport, drawn: Beam, *, report: StructureReport, place: int
) -> list[Picture]:
    """Draw the weakest element, the wind area and the boom."""
    made = [*_element(beam, report=report, place=place), _wind(beam, place)]
    if beam.course is not None:
        title = f"{beam.name}: boom, moments and sag"
        made.append(
            Picture(
                name=f"boom-{place}",
                title=title,
                draw=drawing(charts.boom_chart, report=beam, beam=drawn, title=title),
                caption="Moments of the weights and of wind across the boom; sag below.",
                behind=_boom(beam.course, title),
                group="beam",
            )
        )
    return made


def _element(beam: BeamReport, *, report: StructureReport, place: int) -> list[Picture]:
    if not beam.elements:
        return []
    weakest = max(
        beam.elements,
        key=lambda each: max(
            each.strength.worst_bare.bare_stress, each.strength.worst_iced.iced_stress
        ),
    )
    iced, table, label = has_ice(report), sections(weakest), weakest.label
    windy = report.inputs.wind is not None
    return [
        Picture(
            name=f"stress-{place}",
            title=f"{label}: stress along one half",
            draw=drawing(charts.element_stress_chart, element=weakest, iced=iced, windy=windy),
            caption="The most stressed element of this beam; each step starts a thinner tube.",
            behind=table,
            group="beam",
        ),
        Picture(
            name=f"droop-{place}",
            title=f"{label}: droop in still air",
            draw=drawing(charts.droop_chart, element=weakest, iced=iced),
            caption="The shape one half takes under its own weight, and under ice.",
            behind=table,
            group="beam",
        ),
    ]


def _wind(beam: BeamReport, place: int) -> Picture:
    wind, iced = beam.wind, beam.iced_wind
    title = f"{beam.name}: wind area from every side"
    columns: list[Column[int]] = [
        column("wind from the boom", lambda at: wind.angles_deg[at], kind="whole angle"),
        column("square to the wind", lambda at: wind.drag_area[at], kind="wind area"),
        column("older sum rule", lambda at: wind.older_drag_area[at], kind="wind area"),
    ]
    if iced is not None:
        columns.append(column("with ice", lambda at: iced.drag_area[at], kind="wind area"))
    return Picture(
        name=f"wind-{place}",
        title=title,
        draw=drawing(charts.wind_polar, beam=beam),
        caption="Drag area by the parts square to the wind, and by the older sum rule.",
        behind=Table(
            name=f"wind-{place}",
            caption=title,
            columns=tuple(columns),
            items=range(0, len(wind.angles_deg), _STEP),
        ),
        group="beam",
    )


def _boom(course: BoomCourse, title: str) -> Table[int]:
    chosen = np.unique(np.linspace(0, len(course.place) - 1, _ROWS).astype(int))
    return Table(
        name="boom",
        caption=title,
        columns=(
            column("place", lambda at: Quantity(course.place[at], "span")),
            column("moment of weights", lambda at: course.moment[at], kind="turning load"),
            column("moment of wind", lambda at: course.wind_moment[at], kind="turning load"),
            column("sag", lambda at: course.sag[at], kind="sag"),
        ),
        items=[int(at) for at in chosen],
    )
