"""The Compare sheet: two plans over one another, and the difference of every figure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright import charts
from boomwright.base import BoomwrightError, PlanError, UnitSystem
from boomwright.web import pictures
from boomwright.web.colours import page_palette
from boomwright.web.quick_figures import read_whole
from boomwright.web.readout import band_text, long_length, signed
from boomwright.web.refusing import refusal
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.compare_context import CompareContext
from boomwright.web.sheets.context_parts import Table
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.view import View

if TYPE_CHECKING:
    from boomwright.reach import BeamReadings
    from boomwright.solver import PatternCut
    from boomwright.study.feed_parts.results import AsMeasured, NotMeasured

    _Measured = tuple[AsMeasured | NotMeasured, AsMeasured | NotMeasured]

_PALETTE = page_palette()


def _pattern(readings: BeamReadings) -> PatternCut:
    over = readings.over_ground
    return over.azimuth_pattern if over else readings.azimuth_pattern


def _rise(readings: BeamReadings) -> PatternCut:
    over = readings.over_ground
    return over.elevation_pattern if over else readings.elevation_pattern


def _row(
    label: str, values: tuple[float, float], errors: tuple[float, float], decimals: int, unit: str
) -> tuple[str, ...]:
    """Both figures with their bands, and the difference with the sum of the bands."""
    cells = [
        f"{signed(value, decimals)} {band_text(error, decimals=decimals)} {unit}".strip()
        for value, error in zip(values, errors, strict=True)
    ]
    difference = values[1] - values[0]
    told = signed(difference, decimals)
    plus = "+" if difference > 0.5 * 10.0**-decimals else ""
    clear = "" if abs(difference) > sum(errors) else " (within the bands)"
    return (label, *cells, f"{plus}{told} {unit}".strip() + clear)


def _table(
    mine: BeamReadings,
    theirs: BeamReadings,
    measured: _Measured,
    names: tuple[str, str],
    system: UnitSystem,
) -> Table:
    one, two = (each.beam.boom_length for each in (mine, theirs))
    apart = long_length(abs(two - one), system=system)
    sign = "−" if two < one else "+"
    return Table(
        caption="Figures at each plan's design frequency, gains in dBi",
        columns=("figure", *names, "difference"),
        rows=(
            *_rows_of_band(mine, theirs, measured),
            *_rows_over_ground(mine, theirs),
            ("Boom", *(long_length(each, system=system) for each in (one, two)), sign + apart),
        ),
    )


def _rows_of_band(
    mine: BeamReadings, theirs: BeamReadings, measured: _Measured
) -> list[tuple[str, ...]]:
    """Gain and front-to-back in free space, SWR and resistance at the feed."""
    one, two = mine.free_space, theirs.free_space
    # Loads all rooms below, which the first sheet must not wait for.
    from boomwright.report.beam.measured import seen_words, swr_span

    pairs = [*zip((mine, theirs), measured, strict=True)]
    spans = [swr_span(*pair) for pair in pairs]
    where = " and ".join(dict.fromkeys(seen_words(*pair) for pair in pairs))
    return [
        _row(
            "Gain, free space",
            (one.gain_dbi, two.gain_dbi),
            (one.gain_error_db, two.gain_error_db),
            2,
            "dB",
        ),
        _row(
            "Front-to-back",
            (one.front_to_back_db, two.front_to_back_db),
            (one.front_to_back_error_db, two.front_to_back_error_db),
            1,
            "dB",
        ),
        _row(
            f"Highest SWR in the band, {where}",
            (spans[0].highest, spans[1].highest),
            (spans[0].error, spans[1].error),
            2,
            "",
        ),
        _row(
            "Resistance at the feed",
            (one.impedance.real, two.impedance.real),
            (one.impedance_error, two.impedance_error),
            1,
            "ohm",
        ),
    ]


def _rows_over_ground(mine: BeamReadings, theirs: BeamReadings) -> list[tuple[str, ...]]:
    """Angle and gain of the strongest lobe; none unless both stand over ground."""
    one, two = mine.over_ground, theirs.over_ground
    if one is None or two is None:
        return []
    steps = [
        float(g.elevation_pattern.angle_deg[1] - g.elevation_pattern.angle_deg[0]) / 2.0
        for g in (one, two)
    ]
    return [
        _row(
            "Take-off angle",
            (one.peak_elevation_deg, two.peak_elevation_deg),
            (steps[0], steps[1]),
            1,
            "°",
        ),
        _row(
            "Gain of the strongest lobe",
            (one.peak_gain_dbi, two.peak_gain_dbi),
            (one.gain_error_db, two.gain_error_db),
            2,
            "dB",
        ),
    ]


def _overlay(mine: BeamReadings, theirs: BeamReadings, labels: list[str]) -> dict[str, str]:
    round_cuts = [_pattern(mine), _pattern(theirs)]
    rises = [_rise(mine), _rise(theirs)]
    return {
        "azimuth": charts.azimuth_pattern(
            cuts=round_cuts, labels=labels, palette=_PALETTE, width=470.0, notes=False
        ),
        "elevation": charts.elevation_pattern(
            cuts=rises, labels=labels, palette=_PALETTE, width=470.0, notes=False
        ),
    }


def context(desk: PlanDesk, view: View, *, whole: bool) -> CompareContext:
    """Build the context of the Compare sheet."""
    library = desk.library
    others = () if library is None else tuple(p.name for p in library.plans())
    others = tuple(name for name in others if name != desk.name or desk.lesson is not None)
    empty = CompareContext(
        other=view.other, others=others, problem="", figures={}, plan_views=(), table=None
    )
    if library is None or not view.other or not whole:
        return empty
    try:
        plan = library.read(view.other)
        theirs = library.readings(plan.beams[0], plan.site.ground)
    except PlanError as error:
        return _told(empty, refusal(error, system=view.system))
    except BoomwrightError as error:
        return _told(empty, str(error))
    except OSError as error:
        return _told(empty, f"the file cannot be read: {error.strerror}")
    look, mine = read_whole(desk, view)
    if mine is None:
        return _told(empty, str(look.faults[0].message) if look.faults else "being computed")
    labels = ["this plan", view.other]
    return CompareContext(
        other=view.other,
        others=others,
        problem="",
        figures=_overlay(mine, theirs, labels),
        plan_views=tuple(
            pictures.plan_view(of, each.beam, system=view.system)
            for of, each in ((look.plan, mine), (plan, theirs))
        ),
        table=_table(
            mine,
            theirs,
            (desk.measured(view.beam), library.measured(plan)),
            ("this plan", view.other),
            view.system,
        ),
    )


def _told(empty: CompareContext, problem: str) -> CompareContext:
    return CompareContext(
        other=empty.other,
        others=empty.others,
        problem=problem,
        figures={},
        plan_views=(),
        table=None,
    )


COMPARE = Sheet(
    noun="Compare",
    slug="compare",
    template="compare.html",
    doing="Computing both plans",
    context=context,
)
