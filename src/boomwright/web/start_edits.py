"""What the Start sheet asks for: a new plan, another plan, stations for a place."""

from __future__ import annotations

from typing import Any, Final, Literal

from boomwright.base.records import dataclass

ShelfAction = Literal["open", "recent", "save-as", "lesson", "back"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelve:
    """Put another plan on the desk, or this one under another name."""

    #: ``open`` a plan of the folder, one of the ``recent`` ones, ``save-as``, begin a ``lesson`` or
    #: go ``back`` from it to the owner's plan
    action: ShelfAction
    name: str = ""  #: file name, or the lesson's name
    number: int = 0  #: number among the recent ones, from 0


#: what is typed for a new plan
BEGUN: Final = (
    "band",
    "also",
    "shape",
    "count",
    "boom",
    "height",
    "heading",
    "ground",
    "place",
    "title",
    "design",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Begin:
    """Make a new plan, or a further beam of the one on the desk."""

    name: str  #: file name; not used for a further beam
    further: bool  #: whether it goes into the plan on the desk
    typed: dict[str, str]  #: texts by the names of ``BEGUN``


SeekAction = Literal["start", "again", "look", "choose", "blank"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seek:
    """Ask which station suits a place, and take one."""

    #: ``start`` with what was typed, ask ``again`` of a place file, ``look`` at the outcome,
    #: ``choose`` a station, or write the ``blank`` price list of all of them
    action: SeekAction
    name: str = ""  #: file name of the place, the plan or the price list
    number: int = 0  #: number of the station, from 1
    typed: dict[str, str] | None = None  #: texts by the names of the form; None but for ``start``


@dataclass(frozen=True, slots=True, kw_only=True)
class Propose:
    """Show what an edit would bring before it is made."""

    edit: Any  #: the edit of the plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """Tick a piece of work off, or take the tick back."""

    what: str  #: what was done, as the sheet says it
    done: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Tend:
    """Stop long work, or put away what is told of it."""

    action: Literal["stop", "close"]
    number: int  #: number of the work
