"""Everything the book prints, as plain data: the template adds only the layout."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from boomwright.base import (
    Notice,
    PlanVerdict,
    UnitSystem,
    exceeded_texts,
    open_text,
    open_texts,
    stamp_text,
    verdict_text,
    written_notices,
)
from boomwright.base.quantity import Quantity, write
from boomwright.charts import ShownSubject
from boomwright.charts.blocks import TICK, Block, Grid, SheetPicture, block_data
from boomwright.charts.palette import PRINT_PALETTE
from boomwright.parts import Assembly
from boomwright.plan import Plan, plan_notices
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.resolve import station_assembly
from boomwright.reach import BeamReadings
from boomwright.render.book.citations import Citations
from boomwright.render.book.fonts import strings_in, uncovered
from boomwright.render.book.pictures import (
    band_pictures,
    current_pictures,
    detail_picture,
    ground_pictures,
    pattern_pictures,
    plan_picture,
    print_svg,
)
from boomwright.render.book.shown import shown_chapter, table_data
from boomwright.render.rows import fact_rows, text_table
from boomwright.report.beam.facts import (
    headline,
    input_facts,
    summary_table,
    title_facts,
)
from boomwright.report.beam.measured import band_facts, measured_words
from boomwright.report.beam.readings import lobe_table, sweep_table
from boomwright.report.beam.tables import (
    boom_table,
    length_table,
    tube_table,
    wire_table,
)
from boomwright.report.build.dimensions import CutLength
from boomwright.report.build.shop import ElementCut, ShopElement, element_cuts, shop_elements
from boomwright.report.chapter import Chapter, ChapterPlace
from boomwright.report.glossary import GLOSSARY
from boomwright.report.model import Table
from boomwright.report.reach import BEST_HEIGHT, reach_title
from boomwright.report.site import site_facts
from boomwright.report.wording import clean, shortened, surrounded
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured

_POINTS_PER_UNIT = 0.8
_POINTS_PER_MM = 72.0 / 25.4


def chapter_data(chapters: Sequence[Chapter], *, place: ChapterPlace) -> list[dict[str, Any]]:
    """Turn chapters into plain data."""
    return [
        {
            "title": chapter.title,
            "reader": chapter.reader,
            "blocks": [_data(block) for block in chapter.blocks],
        }
        for chapter in chapters
        if chapter.place == place
    ]


def _data(block: Block) -> dict[str, Any]:
    data = block_data(block)
    if isinstance(block, Grid):
        # The book's fonts hold no box to tick: the template draws one.
        data["rows"] = [
            [{"tick": True} if cell == TICK else cell for cell in row] for row in block.rows
        ]
    if isinstance(block, SheetPicture):
        per_unit = _POINTS_PER_MM if block.true_size else _POINTS_PER_UNIT
        data["svg"] = print_svg(block.svg)
        data["width"] = block.units * per_unit
        data["alt"] = block.caption
    return data


_SEVERITIES = ("limit", "caution", "doubt", "note")
_URGENT = ("limit", "caution")
#: most checks that the first page names
_MOST_NAMED = 8
#: begin of the codes of what the verdict counts: its exceeded limits stand there already
_COUNTED = ("structure.", "permits.", "cost.", "raising.", "reach.exposure-exceeded")
#: colours of paper
LOOK = {
    "ink": PRINT_PALETTE.ink,
    "quiet": PRINT_PALETTE.quiet,
    "grid": PRINT_PALETTE.grid,
    "accent": PRINT_PALETTE.accent,
    "cool": PRINT_PALETTE.series[0],
}


def notice_entry(notice: Notice, *, about: str, citations: Citations) -> dict[str, str]:
    """Turn a notice into data for the template."""
    return {
        "severity": notice.severity,
        "about": about,
        "text": clean(str(notice.text)),
        "value": clean(str(notice.value)),
        "limit": clean(str(notice.limit)),
        "code": clean(notice.code),
        "source": citations.mark(notice.source) if notice.source else "",
    }


def _in_verdict(entry: Mapping[str, str]) -> bool:
    return entry["severity"] == "limit" and entry["code"].startswith(_COUNTED)


def _all_notices(*, plan: Plan, readings: Sequence[BeamReadings]) -> list[tuple[str, Notice]]:
    found = [(clean(one.beam.name), notice) for one in readings for notice in one.notices]
    told = {(notice.code, notice.text) for _, notice in found}
    doubts = [notice for notice in plan_notices(plan) if (notice.code, notice.text) not in told]
    return [*found, *(("plan", notice) for notice in doubts)]


def _font_notice(data: object) -> Notice | None:
    missing = uncovered("".join(strings_in(data)))
    if not missing:
        return None
    return Notice(
        code="book.characters-outside-fonts",
        text=(
            "The plan uses characters that the book's own fonts do not hold. They are drawn "
            "with a font of the machine that made this book, or as empty boxes where it has "
            "none, and may look different on another machine."
        ),
        severity="note",
        value=shortened(", ".join(f"U+{ord(c):04X}" for c in missing), limit=60),
    )


def _sawn(length: CutLength, *, system: UnitSystem) -> str:
    return length.metric_text if system == "metric" else length.us_text


def _written(table: Table[Any], *, system: UnitSystem) -> dict[str, Any]:
    return table_data(text_table(table, system=system))


def _element_entry(
    readings: BeamReadings, *, cut: ElementCut, shop: ShopElement | None, system: UnitSystem
) -> dict[str, Any]:
    beam = readings.beam
    split = beam.feed.cuts_element and beam.elements[cut.index].role == "driven"
    half_gap = write(Quantity(beam.feed.gap / 2.0, "small length"), system=system)
    full = _sawn(cut.full_length, system=system)
    return {
        "title": f"{cut.number} · {cut.label}",
        "lengths": f"Length {full}"
        if cut.upright
        else f"Half length {_sawn(cut.half_length, system=system)}, full length {full}",
        # Wire with corners is in the sheets of its frame.
        "picture": shop and detail_picture(readings, element=shop, system=system),
        "tubes": shop and _written(tube_table(shop), system=system),
        "note": (
            f"Split at the boom for the feed: each half starts {half_gap} from the centre, "
            f"and its first exposed length counts from the centre, so that much less tube shows."
            if split and shop
            else ""
        ),
    }


def _beam_entry(
    readings: BeamReadings,
    *,
    measured: AsMeasured | NotMeasured | None,
    system: UnitSystem,
    station: Assembly,
    boom: BoomPlan | None,
) -> dict[str, Any]:
    beam = readings.beam
    parts = station.of(beam.name)
    cuts = element_cuts(parts, beam=beam, boom=boom)
    shop = {each.cut: each for each in shop_elements(parts, beam=beam, boom=boom)}
    patterns, band = pattern_pictures(readings), band_pictures(readings, measured)
    ground = ground_pictures(readings, system=system)

    return {
        "name": clean(beam.name),
        "title": fact_rows(title_facts(beam), system=system),
        "headline": fact_rows(headline(readings, measured), system=system),
        "bands": fact_rows(band_facts(measured), system=system),
        "measured": (
            f"As measured: {clean(write(measured_words(measured), system=system))}."
            if measured
            else ""
        ),
        "inputs": fact_rows(input_facts(readings), system=system),
        "summary": _written(summary_table(readings, measured), system=system)["rows"],
        "plan": plan_picture(
            readings, elements=tuple(shop.values()), station=station, system=system
        ),
        "boom": _written(boom_table(cuts), system=system),
        "lengths": _written(length_table(cuts), system=system),
        "elements": [
            _element_entry(readings, cut=cut, shop=shop.get(cut), system=system) for cut in cuts
        ],
        "wires": _written(wire_table(beam.wires), system=system) if beam.wires else None,
        "around": surrounded(beam),
        "patterns": patterns,
        "ground": ground,
        "lobes": (
            _written(lobe_table(readings.over_ground), system=system)
            if readings.over_ground
            else None
        ),
        "band": band,
        # Over the ground where there is one: that is the antenna the owner has.
        "performance": [band[0], *(ground[1:] or patterns)],
        "currents": current_pictures(readings, system=system),
        "sweep": _written(
            sweep_table(readings.sweep, reference=readings.reference_resistance), system=system
        ),
    }


def _best_heights(
    readings: BeamReadings, subjects: Sequence[ShownSubject]
) -> list[tuple[str, str]]:
    """What the sheet of reach says of the best height towards each target, if there is one."""
    title = reach_title(readings.beam.name)
    return [
        (clean(label), clean(value))
        for subject in subjects
        if subject.title == title
        for label, value in subject.facts
        if label == BEST_HEIGHT
    ]


def _by_gravity(found: Sequence[tuple[str, Notice]]) -> list[tuple[str, Notice]]:
    return sorted(found, key=lambda pair: _SEVERITIES.index(pair[1].severity))


def _told_once(found: Sequence[tuple[str, Notice]]) -> dict[Notice, dict[str, None]]:
    """Gather what each notice is about: several subjects may say the same."""
    told: dict[Notice, dict[str, None]] = {}
    for about, notice in found:
        told.setdefault(notice, {})[about] = None
    return told


def _open_named(verdict: PlanVerdict, *, system: UnitSystem) -> tuple[str, ...]:
    """Name what is open, as long as it leaves the first page to the figures."""
    named = open_texts(verdict, system=system)
    return named if len(named) + verdict.counts["exceeded"] <= _MOST_NAMED else ()


def _verdict_entry(verdict: PlanVerdict, *, system: UnitSystem) -> dict[str, Any]:
    return {
        "word": verdict.word,
        "text": verdict_text(verdict),
        "exceeded": [clean(text) for text in exceeded_texts(verdict, system=system)],
        # Said behind what is open: money is no reason against building.
        "money": [clean(text) for text in exceeded_texts(verdict.of("cost"), system=system)],
        "open": open_text(verdict),
        "named": [clean(text) for text in _open_named(verdict, system=system)],
        "stamp": clean(stamp_text(verdict, system=system)),
    }


def _back_matter(
    *, found: Sequence[tuple[str, Notice]], citations: Citations, sources: Mapping[str, str]
) -> dict[str, Any]:
    """Gather notices, gravest first, and the sources numbered as they are cited."""
    entries = [
        notice_entry(notice, about=", ".join(about), citations=citations)
        for notice, about in _told_once(_by_gravity(found)).items()
    ]
    return {
        "notices": entries,
        "urgent": [
            entry for entry in entries if entry["severity"] in _URGENT and not _in_verdict(entry)
        ],
        "sources": [
            [str(number), clean(sources.get(key, f"{key} (no reference given)"))]
            for number, key in enumerate(citations.listed(sorted(sources)), start=1)
        ],
    }


def book_contents(
    *,
    plan: Plan,
    readings: Sequence[BeamReadings],
    verdict: PlanVerdict,
    system: UnitSystem,
    paper: str,
    issued: str,
    version: str,
    digest: str,
    sources: Mapping[str, str],
    citations: Citations | None = None,
    measured: Sequence[AsMeasured | NotMeasured] = (),
    subjects: Sequence[ShownSubject] = (),
    tuned: Sequence[ShownSubject] = (),
    work: Sequence[Chapter] = (),
    summary: Sequence[tuple[str, str]] = (),
) -> dict[str, Any]:
    """Gather all text, tables and pictures of the book.

    Args:
        readings: readings of the beams the book is about, in the order wanted (n_beams,)
        issued: date or issue mark for the title page, or empty
        sources: the references the figures rest on, full text by key; all are listed
        citations: what subjects and chapters cite; their numbers come first
        measured: what the owner will measure of them, as far as it is known (n_measured,)
        subjects: subjects of the annex, a chapter each (n_subjects,)
        tuned: what measured sweeps say, for the book (n_tuned,)
        summary: label and text of the figures of the whole station (n_facts, 2)
    """
    found = _all_notices(plan=plan, readings=readings)
    found += dict.fromkeys(
        (clean(subject.about or subject.title).lower(), notice)
        for subject in (*subjects, *tuned)
        for notice in subject.notices
    )
    found += dict.fromkeys(
        (clean(chapter.title).lower(), notice) for chapter in work for notice in chapter.notices
    )
    citations = citations or Citations()
    said = written_notices((notice for _, notice in found), system=system, cite=citations)
    found = [(about, notice) for (about, _), notice in zip(found, said, strict=True)]
    title, station = clean(plan.title), station_assembly(plan)
    data: dict[str, Any] = {
        "title": title or "Untitled plan",
        "running": shortened(title or "Untitled plan", limit=70),
        "version": clean(version),
        "digest": clean(digest),
        "issued": clean(issued),
        "paper": paper,
        "system": system,
        "look": LOOK,
        "verdict": _verdict_entry(verdict, system=system),
        "site": fact_rows(site_facts(plan.site), system=system),
        "beams": [
            _beam_entry(
                one,
                measured=next((each for each in measured if each.beam is one.beam), None),
                system=system,
                station=station,
                boom=plan.boom_of(one.beam.name),
            )
            | {"heights": _best_heights(one, subjects)}
            for one in readings
        ],
        "summary": [[clean(label), clean(text)] for label, text in summary],
        "subjects": [shown_chapter(subject) for subject in subjects],
        "tuned": [shown_chapter(subject) for subject in tuned],
        "readers": list(dict.fromkeys(each.reader for each in work if each.reader)),
        "work": chapter_data(work, place="body"),
        "pocket": chapter_data(work, place="pocket"),
        "appendix": chapter_data(work, place="appendix"),
        "glossary": [
            {"name": term.name, "says": term.says, "words": term.words} for term in GLOSSARY
        ],
    }
    back = partial(_back_matter, citations=citations, sources=sources)
    extra = _font_notice([data, back(found=found)])
    data["machine_fonts"] = extra is not None
    if extra:
        found.append(("book", extra))
    return {**data, **back(found=found)}
