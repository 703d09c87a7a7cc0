"""Where on the page a notice is mended: a form of the plan, or a place of a sheet."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import Notice
from boomwright.base.quantity import InPlan
from boomwright.base.records import dataclass
from boomwright.plan.faults import key_words

#: begin of a notice's code -> address of the place, and its name; the first that fits counts
_PLACES = (
    ("plan.assumed", "#change", "this sheet"),
    ("plan.unsigned-answer", "/raising#change", "Raising"),
    ("plan.mount", "/beam#dimensions-fold", "Beam"),
    ("plan.bill", "/cost#values", "Cost"),
    ("cost.not-priced", "/cost#price-list", "Cost"),
    ("plan.", "/structure#values", "Structure"),
    ("solver.", "/beam#dimensions-fold", "Beam"),
    ("beside.", "/beam#dimensions-fold", "Beam"),
    ("design.", "/beam#improve", "Beam"),
    ("book.", "/build", "Build"),
    *(
        (f"{slug}.", f"/{slug}#values", slug.capitalize())
        for slug in ("feed", "reach", "structure", "permits", "cost", "raising", "tuning")
    ),
)
#: code of a notice -> table or key whose form settles it, and what its button says
_FORMS = {
    "feed.no-line": ("line", "Add the line"),
    "feed.no-choke": ("line.choke", "Enter the choke"),
    "feed.no-power": ("transmitter", "Add the transmitter"),
    "feed.mast-guessed": ("beam.boom", "Enter the boom"),
    "reach.no-transmitter": ("transmitter", "Add the transmitter"),
    "reach.no-place": ("permits.exposure[0]", "Add a place with people"),
    "reach.no-position": ("site.position", "Enter the position"),
    "reach.no-target": ("reach.target[0]", "Add a place to be reached"),
    "cost.no-currency": ("prices", "Enter currency and price list"),
    "cost.no-price-list": ("prices.list", "Name the price list"),
    "book.boom-unsaid": ("beam.boom", "Add the boom"),
    "raising.no-declination": ("site.position", "Enter the position"),
}
#: table or key -> what the button of its form says, where its name alone says little
_BUTTONS = {
    "beam.feed.kind": "Choose a match",
    "beam.boom.fitting.stands_for": "Add a fitting of the boom",
    "beam.boom.hardware": "Enter plates, clamps and sleeves of the boom",
    "beam.boom.hardware.sleeve": "Enter the sleeve of the boom",
    "support.hardware": "Enter the hardware of the support",
    "support.hardware.shelf_mass": "Enter the mass of the shelf",
    "prices": "Enter currency, price list and tax",
    "prices.list": "Name the price list",
    "prices.tax": "Enter the tax",
    "prices.overlap": "Enter the overlap of tubes",
    "prices.concrete_minimum": "Enter the minimum order of concrete",
    "prices.hire": "Enter hire and papers",
    "raising": "Enter crew and gear",
    "measured.trial": "Add a trial",
    "site.position": "Enter the position",
    "site.wind_basis": "Enter the basis of the wind",
    "site.ice_basis": "Enter the basis of the ice",
}
#: begin of the codes of what no entry changes: cautions for the work, and what a model leaves out
_STANDING = (
    "safety.",
    "solver.model",
    "solver.power-balance",
    "feed.rf-burns",
    "feed.high-voltage",
    "feed.lightning",
    "feed.braid-model",
    "beside.too-far",
    "reach.exposure-caution",
    "reach.ground-typical",
    "reach.heights-alone",
    "structure.height",
    "structure.ice-cases",
    "structure.from-memory",
    "structure.planning-aid",
    "structure.not-a-lattice-design",
    "structure.national-annex",
    "structure.no-shelter",
    "raising.trained-people",
    "raising.structure",
    "reach.terrain",
    "reach.ground-zones",
    "reach.layers",
    "tuning.work-at-height",
    "tuning.transmitter-off",
    "book.characters",
)


@dataclass(frozen=True, slots=True)
class Mended:
    """The place that mends a notice."""

    address: str  #: address of the place
    words: str  #: what the link or the button says
    form: str = ""  #: table or key whose form it is; empty for a place of a sheet


def asks(places: Sequence[InPlan]) -> tuple[tuple[str, str], ...]:
    """Give the button of each form that settles something: its place, and what it says.

    Several keys of one table share a button.
    """
    keys: dict[str, list[str]] = {}
    for place in places:
        keys.setdefault(place.table, []).extend(place.keys)
    found = []
    for table, named in keys.items():
        first = f"{table}.{named[0]}" if named else table
        asked = first if len(set(named)) == 1 else table
        name, of = key_words(asked.rsplit(".", 1)[-1]), key_words(table.rsplit(".", 1)[-1])
        usual = f"Enter the {name}" if asked == table else f"Enter the {name} of the {of}"
        found.append((first, _BUTTONS.get(asked, usual)))
    return tuple(found)


def mended(notice: Notice, slug: str = "") -> Mended | None:
    """Find what mends a notice; None for what no entry changes.

    Args:
        slug: the sheet on which the notice stands
    """
    code = notice.code
    if code in _FORMS:
        place, words = _FORMS[code]
        return Mended(address="", words=words, form=place)
    for place, words in asks(notice.places)[:1]:
        return Mended(address="", words=words, form=place)
    if code.startswith(_STANDING):
        return None
    return next(
        (
            Mended(address, "Change it" if slug == noun.lower() else f"Change it on {noun}")
            for begin, address, noun in _PLACES
            if code.startswith(begin)
        ),
        None,
    )
