"""The ledger of margins as bars, worst first, held against one limit line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from boomwright.base import use_text
from boomwright.charts.canvas import document, group, line, number, pen, tag, text
from boomwright.charts.labels import text_width, wrapped
from boomwright.charts.palette import LIGHT, Palette

if TYPE_CHECKING:
    from boomwright.structure import Margin

_LEFT, _RIGHT, _TOP = 14.0, 14.0, 58.0
_ROW, _EXTRA = 31.0, 12.0
_SIZE, _SMALL = 10.0, 10.0
#: uses past this are drawn to the edge, with their figure beside them
_MOST = 2.0
#: below this width of the picture the verdicts are said in fewer words
_NARROW = 480.0


def _verdict(item: Margin, *, width: float) -> str:
    if item.verdict == "not checked":
        return "not checked"
    of = " of the limit" if width > _NARROW else ""
    share = "no finite use" if item.use is None else f"{use_text(item.use)}{of}"
    return f"{share}, {item.verdict}"


def _notes(item: Margin) -> str:
    if item.verdict == "not checked":
        return f"because {item.reason}"
    if item.verdict == "exceeded":
        return f"change: {item.change}" if item.change else ""
    return ""


def _note_lines(item: Margin, *, width: float) -> list[str]:
    return wrapped(_notes(item), size=_SMALL, room=width - _LEFT - _RIGHT)


def _name_lines(item: Margin, *, width: float) -> list[str]:
    # Bold letters are about a tenth wider than those the widths are known of.
    size = _SIZE * 1.1 if item.verdict == "exceeded" else _SIZE
    taken = text_width(_verdict(item, width=width), size=size) + 12.0
    return wrapped(str(item.name), size=size, room=width - _LEFT - _RIGHT - taken)


def _height(item: Margin, *, width: float) -> float:
    # The first line of an open check's reason stands where others have their bar.
    notes = len(_note_lines(item, width=width)) - (item.verdict == "not checked")
    return _ROW + _EXTRA * (max(notes, 0) + len(_name_lines(item, width=width)) - 1)


def _noted(item: Margin, *, top: float, width: float, fill: str) -> list[str]:
    return [
        text(_LEFT, top + number * _EXTRA, note, fill=fill, size=_SMALL)
        for number, note in enumerate(_note_lines(item, width=width))
    ]


def _bar(item: Margin, *, top: float, width: float, most: float, palette: Palette) -> list[str]:
    room = width - _LEFT - _RIGHT
    if item.verdict == "not checked":
        return _noted(item, top=top + 20.0, width=width, fill=palette.quiet)
    use = most if item.use is None else min(item.use, most)
    over = item.verdict == "exceeded"
    colour = palette.accent if over else palette.series[0]
    limit = _LEFT + room / most
    made = [
        tag("rect", x=_LEFT, y=top + 15.0, width=room, height=8.0, fill=palette.metal,
            fill_opacity="0.35"),
        tag("rect", x=_LEFT, y=top + 15.0, width=max(room * use / most, 0.5), height=8.0,
            fill=colour),
    ]  # fmt: skip
    if over:
        # Hatching tells it apart where colour does not.
        end, x = _LEFT + room * use / most, limit + 3.0
        while x < end - 1.0:
            made.append(line(x, top + 23.0, min(x + 5.0, end), top + 15.0,
                             **pen(palette.paper, "1.2")))  # fmt: skip
            x += 6.0
        made += _noted(item, top=top + 31.0, width=width, fill=palette.ink)
    made.append(line(limit, top + 14.0, limit, top + 25.5, **pen(palette.ink, "1.6"),
                     data_part="limit"))  # fmt: skip
    return made


def _row(
    item: Margin, *, top: float, width: float, most: float, palette: Palette, told: str
) -> str:
    verdict = _verdict(item, width=width)
    over = item.verdict == "exceeded"
    names = _name_lines(item, width=width)
    made = [
        *(
            text(_LEFT, top + 7.0 + _EXTRA * number, name, fill=palette.ink, size=_SIZE, bold=over)
            for number, name in enumerate(names)
        ),
        text(width - _RIGHT, top + 7.0, verdict, fill=palette.accent if over else palette.quiet,
             size=_SIZE, anchor="end", bold=over),
        *_bar(item, top=top + _EXTRA * (len(names) - 1), width=width, most=most, palette=palette),
    ]  # fmt: skip
    return group(
        made,
        title=told,
        data_series=item.name,
        data_verdict=item.verdict,
        data_use="" if item.use is None else number(item.use, decimals=6),
    )


def _sentence(lines: Sequence[Margin], first: str) -> str:
    counts = dict.fromkeys(("exceeded", "not checked", "within"), 0)
    for item in lines:
        counts[item.verdict] += 1
    said = f"{counts['exceeded']} exceeded, {counts['not checked']} not checked, "
    said += f"{counts['within']} within."
    if lines:
        said += f" First: {first}"
    return said


def ledger_chart(
    *,
    lines: Sequence[Margin],
    told: Sequence[str],
    wind: str,
    palette: Palette = LIGHT,
    width: float = 640.0,
    first: int = 0,
    most_rows: int | None = None,
) -> str:
    """Draw every check's use of its limit, worst first, with the thing to change.

    Args:
        first: first line drawn, from 0
        most_rows: most lines drawn; None for all

    Returns:
        SVG text; uses past twice the limit are drawn to the edge
    """
    shown = slice(first, None if most_rows is None else first + most_rows)
    uses = [item.use for item in lines if item.use is not None]
    most = min(max([1.15, *(1.05 * use for use in uses)]), _MOST)
    room = width - _LEFT - _RIGHT
    limit = _LEFT + room / most
    winds = wrapped(wind, size=_SMALL, room=room)
    top, rows = _TOP + _EXTRA * (len(winds) - 1), []
    head = top
    for item, said in zip(lines[shown], told[shown], strict=True):
        rows.append(_row(item, top=top, width=width, most=most, palette=palette, told=said))
        top += _height(item, width=width)
    body = [
        *(
            text(_LEFT, 34.0 + _EXTRA * number, row, fill=palette.quiet, size=_SMALL)
            for number, row in enumerate(winds)
        ),
        *rows,
        text(limit, head - 9.0, "limit", fill=palette.ink, size=_SMALL, anchor="middle"),
        line(limit, head - 3.0, limit, head + 1.0, **pen(palette.ink, "1.6")),
    ]
    return document(
        kind="structure-ledger",
        title="Margins, worst first",
        description=_sentence(lines[shown], told[first] if told else ""),
        width=width,
        height=top + 6.0,
        palette=palette,
        body=body,
        data={"limit-x": number(limit), "use-at-edge": number(most, decimals=6)},
    )
