"""Words of the trade, each in a sentence of our own, for page and annex.

Antenna terms follow IEEE Std 145 where it has the word; the rest is common practice.
"""

from __future__ import annotations

from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True)
class Term:
    """A word of the trade and what it means."""

    name: str  #: the word, in the singular
    says: str  #: what it means, in one or two sentences
    sheet: str = ""  #: sheet of the page that works with it; empty for none
    alike: tuple[str, ...] = ()  #: other words that labels and headings use for it

    @property
    def words(self) -> tuple[str, ...]:
        """All words for it, its name first (n_words,)."""
        return (self.name, *self.alike)

    @property
    def address(self) -> str:
        """Name fit for an address."""
        return self.name.lower().replace(" ", "-")


#: every word, in the order of the alphabet
GLOSSARY = (
    Term("Anchor", "What holds the lower end of a guy in the ground.", "structure"),
    Term("Arrester", "A spark gap to earth that carries off what lightning drives into the line.",
         "feed", ("lightning",)),
    Term("As measured", "What a meter at the radio will show: matched, at your height and ground, "
         "beside its neighbours, through your line.", "beam"),
    Term("Ask", "A verdict: somebody outside the plan decides, and the plan says who.", "permits"),
    Term("Balance point", "Where the boom hangs level when lifted by one sling.", "raising"),
    Term("Base", "Foundation of the pole or tower.", "structure",
         ("foundation", "footing", "pier")),
    Term("Boom", "The tube that carries the elements.", "beam"),
    Term("Choke", "Cores or a coil on the line that keep current off its outside.", "feed",
         ("balun",)),
    Term("Common mode", "Current on the outside of the line's shield, where it should not be.",
         "feed", ("outside of the line",)),
    Term("dBi", "Gain in decibels over an imagined antenna that radiates alike in all directions.",
         "beam"),
    Term("Decibel", "A ratio of powers: 3 dB is double, 10 dB is tenfold.", "", ("dB",)),
    Term("Declination", "Angle from true north to the compass needle's north.", "raising"),
    Term("Director", "An element ahead of the driven one, a little shorter, that draws the field "
         "forward.", "beam"),
    Term("Driven element", "The element that the line feeds.", "beam", ("driven",)),
    Term("Duty", "Share of the time that the transmitter is sending, averaged.", "reach"),
    Term("Element", "One of the conductors of a beam, across the boom.", "beam"),
    Term("Exceeded", "A verdict: the demand is above its limit. It says what would change it.",
         "structure"),
    Term("Exposure category", "How open the land is to the wind: B among houses, C open, D by "
         "water.", "structure"),
    Term("Exposure to fields", "How strong the transmitter's field is where people are, against "
         "the limit.", "reach", ("exposure",)),
    Term("Feed point", "Where the line meets the antenna.", "feed", ("feed",)),
    Term("Front-to-back ratio", "Gain ahead over gain exactly behind.", "beam",
         ("front-to-back",)),
    Term("Front-to-rear ratio", "Gain ahead over the strongest gain anywhere in the rear half. The "
         "honest one of the two.", "beam", ("front-to-rear",)),
    Term("Gain", "How much stronger the field is ahead than from an antenna that radiates alike "
         "in all directions.", "beam"),
    Term("Gamma match", "A rod beside one half of an element that is not cut, with a capacitor in "
         "series.", "feed", ("gamma",)),
    Term("Gin pole", "A short pole with a block at its top, clamped to the tower, to lift the next "
         "part.", "raising"),
    Term("Ground class", "How well the ground conducts, by kind of soil. Measured values are rare.",
         "reach", ("ground",)),
    Term("Guy", "A rope or strand that holds pole or tower from the side.", "structure"),
    Term("Hairpin", "Two short rods across the feed, closed at their end, that raise its "
         "resistance.", "feed"),
    Term("Hold point", "A moment of the lift when work stops until somebody named says go on.",
         "raising", ("hold",)),
    Term("Impedance", "Voltage over current at the feed: resistance and reactance, in ohm.",
         "feed"),
    Term("Lift director", "The one person who gives commands on the day. Anybody may call stop.",
         "raising", ("role",)),
    Term("Lobe", "A direction in which the antenna is strong, between weaker ones.", "reach"),
    Term("Mast", "The tube that carries the boom and turns with it.", "structure"),
    Term("Match", "What makes the feed point fit the line.", "feed"),
    Term("Neighbour", "Another antenna, mast or wire near enough to change this one.", "beam"),
    Term("Not checked", "A verdict: an input is missing. It is never counted as within.",
         "structure"),
    Term("Overlap", "Length of a tube that is hidden in the next larger one.", "build"),
    Term("Parasitic element", "An element without a line; the field of the others drives it.",
         "beam"),
    Term("Peak envelope power", "The transmitter's power at the top of the loudest syllable.",
         "reach"),
    Term("Radial", "A wire from the foot of a vertical antenna, on or over the ground.", "beam"),
    Term("Reactance", "The part of the impedance that stores and returns: positive is inductive.",
         "feed"),
    Term("Reflector", "The rearmost element, a little longer than the driven one.", "beam"),
    Term("Resonance", "The frequency at which the feed has no reactance.", "feed"),
    Term("Rotator", "The motor that turns the mast.", "structure"),
    Term("S-unit", "A step of a receiver's meter, 6 dB by agreement.", "reach"),
    Term("Spotter", "Watches power lines and the edge of the empty ground, calls stop.", "raising"),
    Term("Spreader", "A pole that holds a wire's corner away from the middle.", "build"),
    Term("Standing wave ratio", "How far the antenna is from fitting the line: 1 fits, 2 "
         "sends a ninth of the power back.", "feed", ("SWR",)),
    Term("Station on the boom", "A mark on the tape hooked to the rear end of the boom.", "build"),
    Term("Tag line", "A light rope that keeps a lifted beam from turning.", "raising"),
    Term("Take-off angle", "Height above the horizon of the strongest lobe.", "reach"),
    Term("Tee match", "Two rods, one beside each half of the element, fed between them.", "feed"),
    Term("Tip", "The outermost tube of an element; what is moved to tune.", "tuning"),
    Term("Trap", "A coil with a capacitor in an element, which ends it for the higher band.",
         "beam"),
    Term("Turning radius", "Reach of the beam around the mast, boom and elements together.",
         "raising"),
    Term("Ultimate wind speed", "The gust of the code's map, on which the newer rules rest. The "
         "nominal speed of older rules is lower.", "structure", ("design wind",)),
    Term("Use of a limit", "Demand over limit, in percent.", "structure"),
    Term("Velocity factor", "Speed of a wave in the line over its speed in air.", "feed"),
    Term("Wavelength", "Distance that a wave covers in one cycle: 300 over the megahertz, in "
         "metres.", "beam"),
    Term("Wind area", "The area that the wind sees, by a rule that must be named.", "structure"),
    Term("Within", "A verdict: no check exceeded. It is not an approval.", "structure"),
)  # fmt: skip


def explained(label: str) -> Term | None:
    """Find the word that a label begins with, the longest of several."""
    lower = label.lower()
    found = [
        (len(word), term)
        for term in GLOSSARY
        for word in term.words
        if lower.startswith(word.lower())
        and not lower.removeprefix(word.lower()).removeprefix("s")[:1].isalpha()
    ]
    return max(found, key=lambda pair: pair[0])[1] if found else None
