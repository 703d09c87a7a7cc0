"""Where on the page a notice is mended: a form of the plan, or a place of a sheet."""

from __future__ import annotations

from dataclasses import dataclass

#: begin of a notice's code -> address of the place, and its name; the first that fits counts
_PLACES = (
    ("plan.assumed", "#change", "this sheet"),
    ("plan.unsigned-answer", "/raising#change", "Raising"),
    ("plan.mount", "/beam#dimensions-fold", "Beam"),
    ("plan.bill", "/cost#values", "Cost"),
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
#: code of a notice -> table or key whose form settles it (the beam in view for ``{beam}``), and
#: what its button says
_FORMS = {
    "feed.no-line": ("line", "Add the line"),
    "feed.no-choke": ("line.choke", "Enter the choke"),
    "feed.no-power": ("transmitter", "Add the transmitter"),
    "feed.mast-guessed": ("beam[{beam}].boom", "Enter the boom"),
    "reach.no-transmitter": ("transmitter", "Add the transmitter"),
    "reach.no-place": ("permits.exposure[0]", "Add a place with people"),
    "reach.no-position": ("site.position", "Enter the position"),
    "reach.no-target": ("reach.target[0]", "Add a place to be reached"),
    "cost.no-currency": ("prices", "Enter currency and price list"),
    "cost.no-price-list": ("prices.list", "Name the price list"),
    "book.boom-unsaid": ("beam[{beam}].boom", "Add the boom"),
    "raising.no-declination": ("site.position", "Enter the position"),
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


def mended(code: str, beam: int = 0) -> Mended | None:
    """Find what mends a notice; None for what no entry changes.

    Args:
        beam: number of the beam in view, from 0
    """
    if code in _FORMS:
        place, words = _FORMS[code]
        return Mended(address="", words=words, form=place.format(beam=beam))
    if code.startswith(_STANDING):
        return None
    return next(
        (
            Mended(address, f"Change it on {noun}")
            for begin, address, noun in _PLACES
            if code.startswith(begin)
        ),
        None,
    )
