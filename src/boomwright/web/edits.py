"""What the browser may ask for, read from its messages with nothing taken on trust."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from typing import Any, Final, Literal, get_args

from boomwright.base import UnitSystem
from boomwright.base.records import dataclass
from boomwright.study.advice.wishing import ASKED
from boomwright.web.form_edits import FormEdit, TypePrice, read_form_edit, read_price
from boomwright.web.form_edits import MessageError as MessageError
from boomwright.web.improve_edits import Improve, ImproveAction, Take
from boomwright.web.start_edits import (
    BEGUN,
    Begin,
    Propose,
    Seek,
    SeekAction,
    ShelfAction,
    Shelve,
    Tend,
    Tick,
)

#: only places the page shows a field for
WRITABLE: Final = re.compile(
    r"title|site\.ground"
    r"|site\.(?:wind|ice|elevation|ice_basis\.(?:gust|mapped))"
    r"|site\.wind_basis\.(?:kind|edition|exposure|terrain|orography|by)"
    r"|permits\.(?:country|boundary|walkway|crane|lightning_rod)"
    r"|prices\.(?:currency|budget|list)|raising\.(?:mass|forecast_gust)"
    r"|site\.(?:position|locator)|reach\.(?:wanted|terrain|ring|stack)"
    r"|transmitter\.(?:power|emission|transmit|listen)"
    r"|line\.length|support\.(?:mast\.wall|guy\[\d{1,2}\]\.strand)"
    r"|wish\.(?:boom|gain|front_to_rear|closest|element|mass|wind_area|cutting_error)"
    r"|beam\[\d{1,3}\]\.(?:height|heading|design|boom\.(?:wall|hardware\.element_sleeve)"
    r"|feed\.(?:rod_diameter|rod_spacing|rod_length|capacitance)"
    r"|element\[\d{1,3}\]\.(?:at|length|half\[\d{1,2}\]\[[01]\]))"
)


#: longest message taken from a browser [bytes]
MESSAGE_LIMIT = 16_384
#: edits of the plan that may be shown before they are made
_PROPOSED = ("adopt", "strengthen", "take", "take-moves", "write")
#: longest value taken from a browser [characters]
VALUE_LIMIT = 200
#: largest length taken from a browser [m]
LENGTH_LIMIT = 10_000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """Put an element elsewhere on the boom."""

    beam: int  #: number of the beam, from 0
    element: int  #: number of the element, from 0
    position: float  #: new place along the boom [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengthen:
    """Give an element another tip-to-tip length."""

    beam: int  #: number of the beam, from 0
    element: int  #: number of the element, from 0
    length: float  #: new length [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """Put a point of a frame, and the corners of wire on it, elsewhere."""

    beam: int  #: number of the beam, from 0
    point: int  #: number of the point in its frame, from 0
    x: float  #: new place along the boom [m]
    y: float  #: new place across it [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Raise:
    """Put the boom at another height."""

    beam: int  #: number of the beam, from 0
    height: float  #: boom above ground [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Write:
    """Write the owner's own words at a place in the plan."""

    place: str  #: dotted place in the plan
    text: str  #: text as typed


@dataclass(frozen=True, slots=True, kw_only=True)
class Tune:
    """Look at another frequency; the plan stays as it is."""

    frequency: float | None = None  #: frequency, or None when it was typed [Hz]
    text: str = ""  #: frequency as typed, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class Show:
    """Show lengths in the reader's units, on a window of this width."""

    system: UnitSystem  #: ``metric`` or ``us``
    narrow: bool = False  #: whether the window is narrow


@dataclass(frozen=True, slots=True, kw_only=True)
class Strengthen:
    """Take a fix offered for a weak element."""

    beam: int  #: number of the beam, from 0
    element: int  #: number of the element, from 0
    number: int  #: number of the fix among those offered for it, from 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Adopt:
    """Adopt the proposed match of a beam."""

    beam: int  #: number of the beam, from 0


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeMoves:
    """Take what the trials moved into the plan."""


DeskAction = Literal[
    "undo",
    "redo",
    "look",
    "take-file",
    "keep-mine",
    "save",
    "lesson-on",
    "lesson-back",
    "lesson-do",
    "stop",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """One of the plain actions on the whole plan."""

    #: ``undo``, ``redo``, ``look`` (has the file changed?), ``take-file``, ``keep-mine`` (after a
    #: conflict), ``save`` (now), or a lesson's next step (``lesson-on``), the one before
    #: (``lesson-back``), what this one does (``lesson-do``), or ``stop`` of a fit under way
    action: DeskAction


Edit = (
    Move
    | Lengthen
    | Corner
    | Raise
    | Write
    | Strengthen
    | Adopt
    | TakeMoves
    | FormEdit
    | TypePrice
    | Take
    | Tune
    | Show
    | Act
    | Shelve
    | Begin
    | Seek
    | Tend
    | Propose
    | Tick
    | Improve
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Message:
    """One message of the browser."""

    seq: int  #: running number of the browser's messages, echoed in every answer
    #: number of the drag, key run or slider pull it belongs to; 0 for none. Edits of one gesture
    #: are one step of undo, and only its latest one counts
    gesture: int
    edit: Edit  #: what is asked


def _number(raw: dict[str, Any], name: str, *, low: float, high: float) -> float:
    value = raw.get(name)
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise MessageError(f"{name}: a finite number is needed, not {_short(value)}")
    # Not yet made a float: a whole number may be too large for one. Not-a-number is outside too.
    if not low <= value <= high:
        raise MessageError(f"{name}: {_short(value)} is outside {low:g} to {high:g}")
    return float(value)


def _count(raw: dict[str, Any], name: str, *, high: int = 999) -> int:
    value = raw.get(name)
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= high:
        msg = f"{name}: a whole number from 0 to {high} is needed, not {_short(value)}"
        raise MessageError(msg)
    return value


def _text(raw: dict[str, Any], name: str) -> str:
    value = raw.get(name)
    if not isinstance(value, str) or len(value) > VALUE_LIMIT or not value.isprintable():
        raise MessageError(f"{name}: printable text of at most {VALUE_LIMIT} characters is needed")
    return value.strip()


def _short(value: object) -> str:
    return repr(value)[:40]


def _length(raw: dict[str, Any], name: str) -> float:
    return _number(raw, name, low=-LENGTH_LIMIT, high=LENGTH_LIMIT)


def _element(raw: dict[str, Any]) -> dict[str, int]:
    """Numbers of a beam and of one of its elements."""
    return {key: _count(raw, key) for key in ("beam", "element")}


def _typed(raw: dict[str, Any], names: Sequence[str]) -> dict[str, str]:
    """Texts of a form by name; what is missing counts as empty."""
    typed = raw.get("typed")
    given = typed if isinstance(typed, dict) else {}
    return {name: _text(given, name) for name in names if name in given}


def _read_start_edit(raw: dict[str, Any]) -> Shelve | Begin | Seek | Tend:
    """Read what the Start sheet asks for."""
    action: Any = raw.get("action")
    number = _count(raw, "number") if "number" in raw else 0
    name = _text(raw, "name") if "name" in raw else ""
    match raw["kind"]:
        case "shelve" if action in get_args(ShelfAction):
            return Shelve(action=action, name=name, number=number)
        case "begin":
            return Begin(name=name, further=raw.get("further") is True, typed=_typed(raw, BEGUN))
        case "seek" if action in get_args(SeekAction):
            typed = _typed(raw, ASKED) if action == "start" else None
            return Seek(action=action, name=name, number=number, typed=typed)
        case "tend" if action in {"stop", "close"}:
            return Tend(action=action, number=number)
    raise MessageError(f"action: {_short(action)} is not something this page asks for")


def _read_edit(raw: dict[str, Any]) -> Edit:
    match raw.get("kind"):
        case "move":
            return Move(**_element(raw), position=_length(raw, "position"))
        case "lengthen":
            return Lengthen(**_element(raw), length=_length(raw, "length"))
        case "corner":
            return Corner(
                beam=_count(raw, "beam"),
                point=_count(raw, "point"),
                x=_length(raw, "x"),
                y=_length(raw, "y"),
            )
        case "raise":
            return Raise(beam=_count(raw, "beam"), height=_length(raw, "height"))
        case "strengthen":
            return Strengthen(**_element(raw), number=_count(raw, "number", high=9))
        case "adopt":
            return Adopt(beam=_count(raw, "beam"))
        case "take-moves":
            return TakeMoves()
        case "take" if "curve" in raw:
            return Take(
                beam=_count(raw, "beam"),
                point=(_count(raw, "curve", high=9), _count(raw, "number", high=99)),
            )
        case "take":
            return Take()
        case "improve" if raw.get("action") in get_args(ImproveAction):
            return Improve(action=raw["action"])
        case "write":
            place = _text(raw, "place")
            if WRITABLE.fullmatch(place) is None:
                raise MessageError(f"place: the page has no field for {_short(place)}")
            return Write(place=place, text=_text(raw, "text"))
        case "fill" | "take-out" | "shift" | "confirm":
            return read_form_edit(raw)
        case "price":
            return read_price(raw)
        case "tune" if "text" in raw:
            return Tune(text=_text(raw, "text"))
        case "tune":
            return Tune(frequency=_number(raw, "frequency", low=1e3, high=1e11))
        case "show" if raw.get("system") in get_args(UnitSystem):
            return Show(system=raw["system"], narrow=raw.get("narrow") is True)
        case "propose" if (
            isinstance(raw.get("edit"), dict) and raw["edit"].get("kind") in _PROPOSED
        ):
            return Propose(edit=_read_edit(raw["edit"]))
        case "tick":
            return Tick(what=_text(raw, "what"), done=raw.get("done") is True)
        case "shelve" | "begin" | "seek" | "tend":
            return _read_start_edit(raw)
        case "act" if raw.get("action") in get_args(DeskAction):
            return Act(action=raw["action"])
    raise MessageError(f"edit: {_short(raw.get('kind'))} is not something this page asks for")


def read_message(text: str | None) -> Message:
    """Read one message of the browser.

    Args:
        text: its text; None when it came as bytes

    Raises:
        MessageError: when it is no text, too long, no JSON, or not one of the page's own messages
    """
    if text is None:
        raise MessageError("message: text is needed, not bytes")
    if len(text) > MESSAGE_LIMIT:
        raise MessageError(f"message: {len(text)} characters, at most {MESSAGE_LIMIT} are taken")
    try:
        raw = json.loads(text)
    except (ValueError, RecursionError):
        raise MessageError("message: not JSON") from None
    if not isinstance(raw, dict) or not isinstance(raw.get("edit"), dict):
        raise MessageError('message: {"seq", "edit": {"kind", ...}} is needed')
    return Message(
        seq=_count(raw, "seq", high=2**53),
        gesture=_count(raw, "gesture", high=2**53) if "gesture" in raw else 0,
        edit=_read_edit(raw["edit"]),
    )
