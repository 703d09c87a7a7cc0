"""What is done with wire, ropes and glass-fibre spreaders, step by step.

Words of the trade {common-practice-building}; the makers' instructions come first.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from boomwright.base.quantity import PerSystem, Value, phrase
from boomwright.charts.blocks import Steps
from boomwright.parts import Beam
from boomwright.report.wording import first_upper


def measured(*, boom: bool) -> str:
    """Say from where everything is measured.

    Args:
        boom: whether the wire's frame sits on a boom
    """
    along = ", along the boom from its rear end" * boom
    return (
        f"Everything is measured from {'three' if boom else 'two'} places only: along a wire from "
        "its middle (an upright one from its foot), along a spreader from its inner end"
        f"{along}. Hook the tape once and read every mark off it; never add one length to the next."
    )


TOOLS: Final[tuple[Value, ...]] = (
    phrase(
        "tape of {long} or more, side cutters, crimp tool with its lugs, soldering iron, marker",
        long=PerSystem(metric="15 m", us="50 ft"),
    ),
    "coloured outdoor tape, self-amalgamating tape, ultraviolet-proof cable ties",
    "antenna analyser or bridge with the feed line",
    "eye protection, gloves",
)
SPREADER_TOOLS: Final[tuple[Value, ...]] = (
    "fine saw, wet abrasive paper, hose clamps; dust mask and long sleeves for glass fibre",
)

BEFORE: Final = Steps(
    title="Before the first cut",
    items=(
        "Read the cautions of this book, and what its first page says against building.",
        "Take millimetres or inches for the whole job and cover the other with a strip of tape.",
        "Count what was bought against the bill of quantities; measure the wire with a caliper, "
        "metal alone, then over its coating.",
        "Left (L) and right (R) of the marks are as seen from behind, looking towards the heading.",
    ),
)

SPREADERS: Final = Steps(
    title="Spreaders",
    items=(
        "Saw wet, with mask and long sleeves: the dust of glass fibre harms lungs and skin.",
        "Wind one turn of tape round the place of each cut and saw through it, so that the fibres "
        "do not split; round the edge with wet abrasive paper.",
        "On each inner tube mark a ring at its overlap, measured from its inner end. Slide it in "
        "to the ring.",
        "Close the joint with a hose clamp over a slit in the outer tube, or with tape; no drilled "
        "hole in a spreader.",
        "Paint what shows, or wrap it: sunlight eats bare glass fibre.",
    ),
)

_TOGETHER: Final = "Putting it together on the ground"


def frame_steps(beams: Sequence[Beam]) -> Steps:
    """Say how wire is put on its spreaders."""
    loops, ends = _loops_and_ends(beams)
    hubs = any(beam.frame is not None and beam.frame.hub is not None for beam in beams)
    hub = "hub" if hubs else "boom"
    cord = ("Tie the cord from wire end to wire end; both sides alike.",)
    return Steps(
        title=_TOGETHER,
        items=(
            f"{first_upper(hub)} on a low stand; put in every spreader to its stop and "
            "clamp it. Nobody stands in line with a bent spreader: it whips when it slips.",
            "Hold each tip against the table of points, and against its mirror image.",
            "Hang the wires: reflector first, driven element last, each with its coloured mark at "
            "its point. Wire runs through a loop at the point, free to slide while it is trimmed.",
            *(cord if ends else ()),
            *(_CLOSE if loops else ()),
            "Draw all wires to the same light pull. No wire hangs visibly deeper than the other.",
            "Sweep it on its stand, then trim both halves of the driven element alike.",
            "Tie every wire at its points with tape; crimp or solder no joint in the middle of a "
            "span.",
            f"Weigh it with balun, cable and {hub}, and write it on the raising sheet.",
        ),
    )


def rope_steps(beams: Sequence[Beam]) -> Steps:
    """Say how wire is put on its ropes."""
    loops, ends = _loops_and_ends(beams)
    insulated = (
        "Insulator at each end of a wire, rope through its other eye; knot or thimble as its "
        "maker shows.",
    )
    corners = (
        *_CLOSE,
        "At each corner of a loop an insulator that the wire runs through, rope through its other "
        "eye; both free to slide until the loop hangs in shape.",
    )
    feed = "The wire's pull goes into the eyes of the feed block, never into its terminals."
    return Steps(
        title=_TOGETHER,
        items=(
            *(insulated if ends else ()),
            *(corners if loops else ()),
            feed,
            "Rope that stands sunlight, a pulley at each high point, a cleat low down for each "
            "rope.",
            "At a tree: rope over a pulley to a weight that moves up and down as the tree sways, "
            "or slack enough for its worst sway.",
            "Weigh it with feed block and cable, and write it on the raising sheet.",
        ),
    )


_CLOSE: Final = (
    "Join both ends of each loop to one another: crimp, solder, seal. No insulator between them.",
)


def _loops_and_ends(beams: Sequence[Beam]) -> tuple[bool, bool]:
    """Whether there are loops, and wires with ends."""
    wires = [element for beam in beams for element in beam.elements if element.bent]
    return any(e.closed for e in wires), any(not e.closed for e in wires)


CARE: Final = (
    ("Copper to steel or aluminium", "never directly: tinned or stainless between, sealer"),
    ("Crimped and soldered joints", "sealed: water creeps along the strands and turns them green"),
    ("Bends", "no sharp ones: wire breaks where it flexes; a thimble or loop of hose at each end"),
    ("Water", "every connector has a drip loop, the feed block its hole at the lowest point"),
    ("Sun", "only ultraviolet-proof ties, rope and caps"),
    ("Again", "look at pull, knots and chafe after the first week and the first storm"),
)


def wire_feed_steps(beam: Beam, *, gap: str) -> Steps:
    """Say how the driven wire is fed.

    Args:
        gap: between the inner ends of its halves, in words
    """
    section: tuple[Value, ...] = ()
    if beam.feed.section_length is not None:
        section = (
            "Matching line: cut to the length above between the ends of its braid. Join it to the "
            "feed line with connectors, sealed; it hangs straight and carries no weight.",
        )
    if beam.upright:
        ends: Value = (
            "Foot of the wire to the inner conductor, every radial to the shield. Measure with an "
            "ohmmeter that both are apart."
        )
    else:
        ends = (
            f"Feed block with {gap} between its terminals; the pull of both halves goes into its "
            "eyes. Inner conductor to the left half (L), shield to the right half (R)."
        )
    return Steps(
        title="Driven element and feed",
        items=(
            ends,
            *section,
            "Choke or balun at the feed block or just below, tied up so that nothing hangs from "
            "its wires.",
            "Ring terminals of tinned copper, lock nut, then a coat of sealer.",
            "Connector: hand tight, self-amalgamating tape stretched to half its width from the "
            "cable upwards, outdoor tape over it, drip loop below.",
            "Lead the feed line away at a right angle to the wire as far as it goes; lines beside "
            "a wire take up its current.",
        ),
    )
