"""Where on the page a notice is mended."""

from __future__ import annotations

from dataclasses import dataclass

#: begin of a notice's code -> address of the place, and its name; the first that fits counts
_PLACES = (
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
#: begin of the codes of what no entry changes: cautions for the work, and what a model leaves out
_STANDING = (
    "safety.",
    "solver.model",
    "solver.power-balance",
    "feed.rf-burns",
    "feed.high-voltage",
    "feed.lightning",
    "feed.braid-model",
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
    words: str  #: what the link says


def mended(code: str) -> Mended | None:
    """Find the place that mends a notice; None for what no entry changes."""
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
