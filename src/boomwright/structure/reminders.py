"""What a careful builder is reminded of, as data: earthing, corrosion, used towers, fasteners.

General words of the trade; local codes, the maker's drawings and licensed practice govern.
"""

from __future__ import annotations

from typing import Final, Literal

from boomwright.base import Notice
from boomwright.base.quantity import PerSystem, Quantity, Value, phrase
from boomwright.base.records import dataclass
from boomwright.structure.wording import stress

Known = Literal["published", "from memory", "common practice"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reminder:
    """One reminder."""

    text: Value  #: what to do or look for
    known: Known = "common practice"  #: how it is known
    source: str = ""  #: key of its source, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class ReminderList:
    """Reminders on one subject."""

    code: str  #: stable name
    title: str  #: heading
    items: tuple[Reminder, ...]  #: reminders in order (n_items,)

    @property
    def notice(self) -> Notice:
        """The list as one caution that points at it."""
        text = f"{self.title}: {len(self.items)} points to go through. Local codes govern."
        return Notice(code=f"structure.{self.code}", text=text, severity="caution")


def _list(code: str, title: str, *items: Value | Reminder) -> ReminderList:
    told = (each if isinstance(each, Reminder) else Reminder(text=each) for each in items)
    return ReminderList(code=code, title=title, items=tuple(told))


EARTHING = _list(
    "earthing",
    "Lightning and earthing",
    "Bond every electrode (tower, station, power service) into one system; the "
    "local electrical code and a licensed electrician decide how.",
    Reminder(
        text="The protective earthing conductor is not smaller than 10 AWG copper, the "
        "operating one not smaller than 14 AWG: a legal floor in one country, no "
        "lightning design.",
        known="published",
        source="nec-810-58",
    ),
    "Strap or conductor of 2 AWG and larger is usual for lightning.",
    "Each tower leg goes to its own rod by a short, straight, downward path.",
    "No sharp bends in any bonding conductor.",
    "Place rods one to two rod lengths apart.",
    "Bond coax shields at the tower's top, its bottom and the entry panel.",
    "Fit arresters at the entry panel; a tower attracts no less for being low.",
    "Bond the rebar of the footing: concrete-encased metal is a good electrode.",
    "Copper never touches a galvanized leg directly: stainless shim, bronze or "
    "tinned clamp between.",
)

CORROSION = _list(
    "corrosion",
    "Metals that touch",
    "Galvanic order: zinc, aluminium, steel, copper, stainless; the first one given away rusts.",
    "Keep a couple under about 0.15 V by the sea and 0.25 V inland.",
    "Stainless bolts in aluminium do well (small cathode, large anode); the reverse does not.",
    "Aluminium on copper does not last: tin plate, bi-metal or a shim between.",
    "Stainless on stainless galls: anti-seize, and tighten slowly.",
    "Element joints: clean to bright metal, joint compound, assemble at once.",
    "Drain every tube at its lowest point; water that freezes inside splits it.",
)

USED_TOWER = _list(
    "used-tower",
    "Before buying or climbing a used tower",
    "Reject bent, cracked, re-drilled or welded members.",
    "Reject legs bulged or split near the bottom by freezing water; look for blocked weep holes.",
    "Reject pitting over a tenth of the wall; measure walls by ultrasound.",
    "Red rust at joints and inside hollow legs: tap, look inside, water test.",
    "White bloom is a storage stain; red rust means the zinc is gone.",
    "Reject mismatched sections and towers without a maker's plate or drawing.",
    "Dig out below-grade anchor rods and look at them.",
    "Replace all guy strand, grips, turnbuckles and fasteners.",
    Reminder(
        text="Inspect guyed towers every 3 years, self-supporting every 5, sooner by the "
        "sea and after severe wind or ice; look at your own every year.",
        known="published",
        source="tia-222-g",
    ),
)

FASTENERS = _list(
    "fasteners",
    "Bolts and joints",
    "Use the maker's bolt grade only, with lock nuts and full thread engagement.",
    "Tighten by the maker's torque list and mark each bolt with paint.",
    "Hot-dip galvanized or stainless hardware only.",
    "Turnbuckles are safetied with wire through both ends.",
    "Clean and compound nesting tubes before assembly: dry ones jam for good.",
)

MAST_CARE = _list(
    "mast-care",
    "Mast",
    "No drilled holes at or near the top bearing; through-bolts only low down.",
    PerSystem(
        metric="Tube and pipe that are both sold as two-inch measure 50.8 mm and 60.3 mm and take "
        "different clamps.",
        us="A 2 in tube (2.000 in) and a 2 in pipe (2.375 in) take different clamps.",
    ),
    phrase(
        "Pipe schedule is a wall, not a strength: take unmarked water pipe as {yield_} yield.",
        yield_=stress(207e6),
    ),
    "The wall of welded tube may be a tenth under at any point.",
    phrase(
        "Leave {least} to {most} of mast below the lowest antenna for the climber.",
        least=Quantity(0.5, "height"),
        most=Quantity(0.9, "height"),
    ),
)

FOOTING_CARE = _list(
    "footing-care",
    "Footing",
    "Have buried services located before any digging.",
    "Found on undisturbed soil below the local frost depth.",
    "Organic, soft, filled or wet soil has no presumed strength: test it.",
    "Drain gravel under a hollow leg base; never seal a leg's bottom.",
    Reminder(
        text=PerSystem(
            metric="75 mm of cover over rebar towards earth.",
            us="Three inches of cover over rebar towards earth.",
        ),
        known="from memory",
    ),
    "Set anchor bolts, where it has them, by the maker's template.",
    "Cure 7 days before stacking and 28 before full load.",
    "Order 5 to 10 % over; delivered concrete has a minimum order.",
)

DAMPING = _list(
    "damping",
    "Elements that sing in light wind",
    "Light winds excite the higher modes: that is the buzz, and what cracks clamps.",
    "Lay a loose synthetic rope along the inside of the tube; it adds weight, so look at the "
    "droop again.",
    "Or set foam or rubber plugs at unequal spacing, or vary the taper.",
)

ICE_CARE = _list(
    "ice-care",
    "Ice",
    "Ice maps show freezing rain only: for rime and wet snow enter the thickness and density seen "
    "at the place.",
    "Nobody stays under an iced beam, guy or tower: ice falls in pieces long after the weather.",
    "Do not turn or climb while there is ice.",
)

#: every list, in the order of the job
REMINDERS: tuple[ReminderList, ...] = (
    DAMPING,
    ICE_CARE,
    MAST_CARE,
    FASTENERS,
    CORROSION,
    FOOTING_CARE,
    EARTHING,
    USED_TOWER,
)

#: stands over every report
CAUTIONS: tuple[Notice, ...] = (
    Notice(
        code="structure.planning-aid",
        text="This is a planning aid. The tower maker's drawings, the local building official "
        "and a licensed engineer overrule every figure here.",
        severity="caution",
    ),
    Notice(
        code="structure.height",
        text="Work at height, falling parts and power lines kill. Climb only trained, tied off "
        "and never alone; keep everything that can fall or swing clear of power lines.",
        severity="caution",
    ),
)
#: stands over the report of a tower too
LATTICE_CAUTION: Final = Notice(
    code="structure.not-a-lattice-design",
    text="The lattice, its bolts and its welds are not computed: they stand or fall with the "
    "maker's rating and the tower's condition.",
    severity="caution",
)
