"""What is done in the workshop and on the field, step by step, each with a box and initials.

Words of the trade {common-practice-building}; the makers' instructions come first.
"""

from __future__ import annotations

from typing import Final

from boomwright.base.quantity import PerSystem, Value, phrase
from boomwright.charts.blocks import Steps
from boomwright.report.wording import CLAMPED, RIVET


def _native(metric: str, us: str) -> PerSystem:
    """Sizes as each reader buys and measures them."""
    return PerSystem(metric=metric, us=us)


#: length of the slits under a hose clamp {common-practice-building}
SLIT: Final = _native("20 mm", "3/4 in")

TOOLS: Final = (
    phrase(
        "tape of {long} or more, steel rule, square, fine marker that weather does not wash off",
        long=_native("8 m", "26 ft"),
    ),
    "fine saw or tube cutter, files, deburring tool, drills, centre punch, step drill",
    phrase(
        "spanners, torque wrench to {torque}, rivet tool if joints are riveted",
        torque=_native("50 N m", "37 ft lbf"),
    ),
    "stainless hose clamps, one for the outermost joint of each half element",
    "abrasive cloth, clean rags, joint compound for aluminium, anti-seize for stainless threads",
    "self-amalgamating tape, outdoor tape, ultraviolet-proof cable ties, end caps",
    phrase(
        "antenna analyser or bridge with the feed line, two stands about {high} high, line level",
        high=_native("2 m", "6 1/2 ft"),
    ),
    "eye protection, gloves, hearing protection at the saw",
)

BEFORE: Final = Steps(
    title="Before the first cut",
    items=(
        "Read the cautions of this book, and what its first page says against building.",
        phrase(
            "Print check: on each 1:1 page the check line measures {}. Print again if it does not.",
            _native("100 mm", "4 in"),
        ),
        phrase(
            "Work in {these} only; cover every other scale of tape and rule.",
            these=_native("millimetres", "inches"),
        ),
        "Count what was bought against the bill of quantities; measure diameter and wall of each "
        "tube with a caliper.",
        "Try each tube in the next larger one before anything is sawn.",
        "Left (L) and right (R) of the marks are as seen from behind the rear end of the "
        "boom, looking towards the heading.",
    ),
)

CUTTING: Final = Steps(
    title="Cutting",
    items=(
        "Saw bar by bar in the order of the cutting plan; one saw cut is counted for each piece.",
        phrase(
            "Write the mark on each piece, {off} from its outer end, as soon as it is off the bar.",
            off=_native("50 mm", "2 in"),
        ),
        "Measure each piece against the cut list and tick it there.",
        "Deburr both ends inside and outside; a burr jams the joint for ever.",
        "On each inner tube scribe a ring at its overlap, measured from its inner end.",
    ),
)

JOINTS: Final = Steps(
    title="Every joint of two tubes",
    items=(
        "Rub both faces bright over the whole overlap, wipe clean, put on a thin film of joint "
        "compound, go on at once.",
        "Slide the inner tube in, turning it, until the scribed ring meets the outer tube's end.",
        "Check the reading of the tape at the joint from the boom centre line against the sheet.",
        phrase(
            "Outermost joint of each half: {clamped}. The clamp needs two level slits of {slit} in "
            "the end of the larger tube.",
            clamped=CLAMPED,
            slit=SLIT,
        ),
        "Every other joint: fasten at a quarter and three quarters of the overlap with the rivets "
        "or screws of the fastener list, in the holes of the cut list. Holes with a star are those "
        "of the outermost joint: drill them after the SWR check on stands.",
        "Pull and twist: nothing may move. Paint a line across the joint.",
    ),
)

FASTENING: Final = Steps(
    title="Holes and fasteners",
    items=(
        "Drill a joint with its tubes slid together to the ring, through outer and inner tube at "
        "once: the holes then meet. Mark both tubes before they are pulled apart.",
        "Joints of elements: rivets or screws through one wall of both tubes, the inner place from "
        "above, the outer one from below. Sleeves of the boom: through bolts, level, lock nuts on "
        "one side.",
        "Terminals: the screw upright from below through tube and insulating rod, before the half "
        "is laid on its plate: later the plate is in the way. On top washer, rod of the match "
        "where there is one, ring terminal, washer, lock nut. Above and below a round rod: saddle "
        "washers of aluminium. Then a coat of sealer.",
        "U-bolts round an element: saddle, then tube in its shells, then the bolt from above. "
        "Those round boom or mast: the bolt from the tube's side. Washer and lock nut on the far "
        "side of the plate, both legs in turn. Legs count from the tube's axis.",
        "Order: first the plates on the boom, then the elements, then match and box.",
        "Torque: from the list of fasteners, as entered from the makers' sheets. Tighten a second "
        "time when the beam is complete.",
    ),
)

EVERY_ELEMENT: Final = Steps(
    title="Every element",
    items=(
        "Lay its tubes out from the boom outwards and read the marks aloud; left and right are "
        "the same, each mark ends in L or R.",
        "Make every joint as above, left and right side in turn.",
        "Mark the boom centre line on the first tube with a ring of tape.",
        'Measure each end against the table, on both sides: "ends at" is the reading of a tape '
        "held at the boom centre line. The first tube of a cut element starts half the gap away.",
    ),
)


def boom_steps(side: str) -> Steps:
    """Say how plates and caps go on the boom.

    Args:
        side: side of the boom that its mast plate lies on, seen from behind; empty where it is
            not known
    """
    place = f"against the {side} of the boom, seen from behind" if side else "beside the boom"
    return Steps(
        title="Boom",
        items=(
            "Lay the boom on trestles; mark its upper side with a chalk line from end to end.",
            "Hook the tape over the rear end and mark every station without taking the tape off.",
            "Read every station once more against the sheet, from the front end backwards.",
            "Fit one element plate at each element station; bring the element plates into one "
            "plane by eye along the boom, with a line level on the first and the last.",
            f"Fit the mast plate at its station, flat {place}: upright while the element plates "
            "lie level, by a square.",
            "Tighten the plates as the maker of the U-bolts states; paint marks.",
            phrase(
                "Cap both ends; the weep holes of the cut list, {hole}, are on the lower side.",
                hole=_native("4 mm", "5/32 in"),
            ),
        ),
    )


FINISH: Final = Steps(
    title="Putting it together on the ground",
    items=(
        "Boom on two stands, free of the ground; nobody walks under elements at eye height.",
        "Fit the elements from the mast outwards, in turn before and behind it, the boom held so "
        "that nothing tips.",
        "Hold each element's centre mark on the boom centre line; left and right tips stand "
        "equally far from the boom ends (measure the diagonals).",
        "Sight along the boom: all elements lie in one plane; turn an element in its plate until "
        "it does, then tighten.",
        "Measure every tip from the boom centre line once more and write it on the sheet.",
        f"After the SWR check on stands: {RIVET}.",
        phrase(
            "Plug the tips; one {hole} weep hole on the lower side beside each plug.",
            hole=_native("3 mm", "1/8 in"),
        ),
        "Weigh the beam with balun, coax and plate, and write it on the raising sheet.",
    ),
)


# Which side each conductor goes to; a match that cuts the element is fed like a bare split.
_POLARITY: Final = {
    "split": "inner conductor to the left half (L), shield to the right half (R)",
    "gamma": "inner conductor to the rod along the left half, shield to the middle of the element",
    "tee": "of the balun's two wires that of the inner conductor to the left rod, the other to the "
    "right rod; shield to the middle of the element",
    "folded": "inner conductor to the left side of the fed conductor, shield to its right side",
}


#: how the far end of a hairpin is held {common-practice-building}
_HAIRPIN: Final = (
    "The short lies on both rods, each held under it by a clip: loosen both screws and it slides. "
    "Its middle carries no voltage: tie it to the boom, on its block cut to fit where the list has "
    "one. The rods touch nothing else."
)


def feed_steps(*, cut: bool, kind: str, gap: str) -> Steps:
    """Say how the driven element is fed, with polarity and orientation.

    Args:
        cut: whether the driven element is in two halves
    """
    centre: tuple[Value, ...]
    if cut:
        centre = (
            "Insulating rod: it is listed at the size of the bore. Sand it down until it goes in "
            "by hand without play.",
            f"Slide both halves on their insulating rod until {gap} are left between their ends, "
            "the boom centre line in the middle; drill the terminals upright through tube and rod, "
            "put in the terminal screws from below.",
            "Shells round both halves, halves on their saddles, screw heads clear of the plate; "
            "close the U-bolts: none touches a half.",
            "With an ohmmeter: no contact between the halves, nor of either half to the boom "
            "(before the match is on).",
        )
    else:
        centre = (
            "The driven element goes through in one piece: bolt it to its plate like the others, "
            "bright metal on bright metal.",
        )
    match = () if kind == "split" else (
        f"Fit the {kind} match to the dimensions above; what moves is trimmed after the first "
        "sweep.",
        *((_HAIRPIN,) if kind == "hairpin" else ()),
    )  # fmt: skip
    polarity = _POLARITY.get(kind, _POLARITY["split"])
    return Steps(
        title="Driven element and feed",
        items=(
            *centre,
            *match,
            "Choke or balun box under the boom at its station, long side along it, on two ties; "
            "connector downwards, weep hole at its lowest point; short wires to the terminals, "
            "without pull.",
            f"Polarity: {polarity}, by the shortest way. Do the same on every beam of a stack, or "
            "they cancel.",
            "Ring terminals: stainless washer between copper and aluminium, anti-seize, lock nut, "
            "sealer.",
            "Connector: hand tight, self-amalgamating tape stretched to half its width from the "
            "cable upwards, outdoor tape over it, drip loop below.",
            phrase(
                "Feed line along the boom to the mast with a tie every {apart}; leave the turning "
                "loop at the mast.",
                apart=_native("300 mm", "12 in"),
            ),
        ),
    )


CARE: Final = (
    ("Stainless on stainless", "anti-seize on every thread, tighten slowly by hand: it galls"),
    ("Aluminium to aluminium", "bright, joint compound, assemble at once"),
    ("Copper to aluminium", "never directly: tinned terminal, stainless washer, sealer"),
    ("Screws and rivets", "stainless or aluminium; no plated steel in tube joints"),
    ("Water", "every tube drains at its lowest point; every connector has a drip loop"),
    ("Sun", "only ultraviolet-proof ties and caps; cover others with outdoor tape"),
    ("Again", "look at every torque after the first week and the first storm"),
)
