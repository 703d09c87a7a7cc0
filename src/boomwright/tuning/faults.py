"""Naming a fault from the sweep, by the same model that the moves come from.

Every suspect is the mounted antenna with one fault and the usual errors besides. The evidence of
the fits ranks them, so that a fault with more freedom does not win by it {mackay-2003, ch. 28};
a fault that would hardly change the sweep is none. When even the best leaves more than a meter
does, or needs errors nobody makes, the sweep is not one of these.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations
from typing import Final, Literal

import numpy as np

from boomwright.base import BoomwrightError, Notice
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass, replace
from boomwright.feed import SeriesCapacitor, SeriesInductor, ShuntInductor, ShuntStub
from boomwright.parts import Beam, Element
from boomwright.tuning.antenna import Bench
from boomwright.tuning.braid_family import BraidFamily, braid_family
from boomwright.tuning.causes import Cause, element_labels, strap_name
from boomwright.tuning.installation import Installation, after_changes
from boomwright.tuning.posterior import Mode, find_modes
from boomwright.tuning.readings import Meter, Reading
from boomwright.tuning.surrogate import Surrogate
from boomwright.tuning.sweep_model import SweepModel
from boomwright.tuning.trimming import believed, strain_of, tie

Progress = Callable[[float], None]

FaultKind = Literal[
    "no fault",
    "open or loose element",
    "wrong element order",
    "wet balun",
    "braid common mode",
    "shorted match",
    "slipped strap",
    "water in the line",
    "wrong velocity factor",
]

#: how much more often an antenna is sound than it has a fault of one kind {common-practice-faults}
_SOUND_ODDS: Final = 5.0
#: a fault that changes the reflection by less than this, root mean square, is not told from none
LEAST_EFFECT: Final = 0.04
#: largest strain of an antenna with a fault, whose model is coarser than that of a sound one
_MOST_STRAIN: Final = 3.0
#: suspects less probable than this are not named, and so many are looked at closely
_LEAST_ODDS, _CLOSELY = 0.02, 4
#: starts of the search followed at first sight
_FOLLOWED: Final = 2
#: where one half of a plain tube breaks, as shares of its half length
_BREAKS: Final = (0.6, 0.8)
#: what is left of an element whose halves do not touch, as a share of its length
_OPEN: Final = 0.45
#: where a strap that slipped may be, as shares of its place, and the spread about each
_SLIPPED: Final = (-0.22, 0.22)
_SLIPPED_SPREAD: Final = 0.06
#: hidden values: middles and spreads of natural logarithms [ohm] {common-practice-faults}
_LEAK, _STRAY = (float(np.log(250.0)), 1.0), (float(np.log(5.0)), 0.8)
#: water: loss more than planned, as a share, and electrically longer, as a share
_WATER_LOSS, _WATER_LENGTH = (2.0, 1.2), (0.04, 0.03)
#: velocity factors that lines have
_VELOCITIES: Final = (0.66, 0.78, 0.85)
#: braid starts, in wavelengths, and the spread about each
_BRAIDS, _BRAID_SPREAD = np.linspace(0.1, 0.62, 14), 0.03

_LOOK: Final[dict[FaultKind, str]] = {
    "no fault": "nothing",
    "open or loose element": "the joints and rivets of that element, and its clamp on the boom",
    "wrong element order": "the lengths of both elements, with a tape",
    "wet balun": "the balun and its connector: open, dry, and sweep again",
    "braid common mode": "the choke at the feed; clip ferrites on the line there and sweep again",
    "shorted match": "the capacitor and the strap for a short; water or a whisker of metal",
    "slipped strap": "the clamp of the strap",
    "water in the line": "the upper connector of the line; sweep the line with its end open",
    "wrong velocity factor": "the type printed on the line; sweep it alone with its end open",
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Suspect:
    """The antenna with one fault."""

    kind: FaultKind
    text: Value  #: the fault in words
    surrogate: Surrogate  #: its antenna
    causes: tuple[Cause, ...]  #: what may deviate beside it, hidden values among them
    braid: BraidFamily | None = None  #: what a braid adds; None without one


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NamedFault:
    """One suspect after the fit."""

    kind: FaultKind
    text: Value  #: the fault in words
    look: str  #: what to look at first
    probability: float  #: probability among all suspects [-]
    strain: float  #: how unlikely what it needs is, in standard deviations [-]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FaultReport:
    """Which fault a sweep shows."""

    #: kind of the most probable fault, or ``not one of these``
    verdict: FaultKind | Literal["not one of these"]
    named: tuple[NamedFault, ...]  #: suspects in question, most probable first
    kinds: tuple[tuple[FaultKind, float], ...]  #: probability of each kind, most probable first [-]
    notices: tuple[Notice, ...]  #: the same as sentences


def find_fault(
    *,
    suspects: list[Suspect],
    reading: Reading,
    meter: Meter,
    progress: Progress | None = None,
) -> FaultReport:
    """Match a sweep against every suspect; takes seconds.

    Args:
        suspects: what is looked for, as :func:`list_suspects` gives it
    """
    plain = suspects[0]
    held: list[tuple[Suspect, SweepModel, Mode]] = []
    for number, suspect in enumerate(suspects):
        if progress is not None:
            progress(0.6 * number / len(suspects))
        model = _model(suspect, reading, meter)
        held.append((suspect, model, find_modes(model, followed=_FOLLOWED)[0]))
    held.sort(key=lambda each: -each[2].log_evidence)
    close = held[:_CLOSELY]
    if not any(each[0] is plain for each in close):
        close.append(next(each for each in held if each[0] is plain))
    tied = []
    for number, (suspect, model, mode) in enumerate(close):
        if progress is not None:
            progress(0.6 + 0.4 * number / len(close))
        at = mode
        for _ in range(2):
            tie(model, at)
            at = find_modes(model, start=at.place, followed=_FOLLOWED)[0]
        tied.append((suspect, model, at))
    sound = next(each for each in tied if each[0] is plain)
    kept = [e for e in tied if e[0] is plain or _effect(e, sound) >= LEAST_EFFECT]
    return _report(kept, [suspect.kind for suspect in suspects], reading)


def _model(suspect: Suspect, reading: Reading, meter: Meter) -> SweepModel:
    return SweepModel(
        surrogate=suspect.surrogate,
        causes=suspect.causes,
        readings=(reading,),
        meter=meter,
        moved_within={},
        braid=suspect.braid,
    )


def list_suspects(
    surrogate: Surrogate, causes: tuple[Cause, ...], progress: Progress | None = None
) -> list[Suspect]:
    """List every fault that is looked for, the sound antenna first.

    Args:
        surrogate: the antenna without a fault
    """
    sound = Suspect(kind="no fault", text="no fault", surrogate=surrogate, causes=causes)
    found = [sound, *_feeder_faults(sound)]
    planned = surrogate.bench.installation
    # A beam with further wires or bent elements keeps its faults of the feeder.
    metal = [] if planned.beam.wires or planned.beam.bent else _metal_faults(planned)
    for number, (kind, text, beam) in enumerate(metal):
        if progress is not None:
            progress(number / len(metal))
        faulty = _with_installation(surrogate, replace(planned, beam=beam))
        if faulty is not None:
            found.append(Suspect(kind=kind, text=text, surrogate=faulty, causes=causes))
    return found + _braids(sound)


def _with_installation(surrogate: Surrogate, installation: Installation) -> Surrogate | None:
    """The same antenna with something else of it: its own middle, the slopes of the sound one."""
    bench = Bench(installation)
    try:
        middle = bench.impedance(bench.installation, surrogate.nodes)
    except BoomwrightError:
        # What is left of the antenna cannot be built.
        return None
    terms = surrogate.terms.copy()
    terms[0] = middle
    return replace(surrogate, bench=bench, terms=terms)


def _metal_faults(planned: Installation) -> list[tuple[FaultKind, Value, Beam]]:
    beam, labels = planned.beam, element_labels(planned)
    found: list[tuple[FaultKind, Value, Beam]] = []

    def put(number: int, element: Element) -> Beam:
        elements = (*beam.elements[:number], element, *beam.elements[number + 1 :])
        return replace(beam, elements=elements)

    for number, element in enumerate(beam.elements):
        for left in _half_left(element):
            told = phrase(
                "{label}: one half has contact only {left} out from the boom",
                label=labels[number],
                left=Quantity(left, "span"),
            )
            # Half of what one half lost, on either side: currents are even about the boom.
            short = _cut(element, 0.5 * (left + element.half_length))
            found.append(("open or loose element", told, put(number, short)))
        if number != beam.driven_index:
            text = f"{labels[number]}: its halves do not touch in the middle"
            short = _cut(element, _OPEN * element.half_length)
            found.append(("open or loose element", text, put(number, short)))
    parasitic = [n for n in range(len(beam.elements)) if n != beam.driven_index]
    for first, second in combinations(parasitic, 2):
        text = f"{labels[first]} and {labels[second]} are in each other's place"
        one, other = beam.elements[first], beam.elements[second]
        wrong = list(beam.elements)
        wrong[first] = replace(one, position=other.position)
        wrong[second] = replace(other, position=one.position)
        found.append(("wrong element order", text, replace(beam, elements=tuple(wrong))))
    return found


def _half_left(element: Element) -> tuple[float, ...]:
    """What may be left of one half when its outer part loses contact [m]."""
    if len(element.half) == 1:
        return tuple(share * element.half_length for share in _BREAKS)
    return tuple(np.cumsum([section.length for section in element.half[:-1]]).tolist())


def _cut(element: Element, half: float) -> Element:
    """An element with halves of a length."""
    kept, left = [], half
    for section in element.half:
        length = min(section.length, left)
        if length <= 1e-3:
            break
        kept.append(replace(section, length=length))
        left -= length
    return replace(element, half=tuple(kept))


def _feeder_faults(sound: Suspect) -> list[Suspect]:
    planned, causes = sound.surrogate.bench.installation, sound.causes
    wet = tuple(
        Cause(key=f"hidden.{key}", label=label, unit="log", spread=_LEAK[1], mean=_LEAK[0])
        for key, label in (("leak", "leakage of the balun"), ("water", "reactance of the water"))
    )
    text = "a leak and a capacitance across the line at the balun"
    found = [replace(sound, kind="wet balun", text=text, causes=(*causes, *wet))]
    for way in _SLIPPED if planned.strap is not None else ():
        place = planned.strap or 0.0
        slid = after_changes(installation=planned, changes={"strap": way * place})
        there = _with_installation(sound.surrogate, slid)
        if there is not None:
            wide = _widened(causes, "strap", spread=_SLIPPED_SPREAD * place)
            text = f"the {strap_name(planned)} is far from where the plan has it"
            found.append(
                replace(sound, kind="slipped strap", text=text, surrogate=there, causes=wide)
            )
    found += _shorted(sound)
    line = planned.line
    if line is None or planned.line_length <= 0.0:
        return found
    soaked = _widened(causes, "line.loss", spread=_WATER_LOSS[1], mean=_WATER_LOSS[0])
    soaked = _widened(
        soaked,
        "line.length",
        spread=_WATER_LENGTH[1] * planned.line_length,
        mean=_WATER_LENGTH[0] * planned.line_length,
    )
    text = "the line loses more than its type does, and is slower"
    found.append(replace(sound, kind="water in the line", text=text, causes=soaked))
    for velocity in _VELOCITIES:
        if abs(velocity - line.velocity_factor) < 0.04:
            continue
        longer = planned.line_length * (line.velocity_factor / velocity - 1.0)
        other = _widened(causes, "line.length", spread=0.02 * planned.line_length, mean=longer)
        text = f"a velocity factor of {velocity:g} where the plan's type has "
        text += f"{line.velocity_factor:g}"
        found.append(replace(sound, kind="wrong velocity factor", text=text, causes=other))
    return found


def _widened(
    causes: tuple[Cause, ...], key: str, *, spread: float, mean: float = 0.0
) -> tuple[Cause, ...]:
    return tuple(
        replace(cause, spread=spread, mean=mean) if cause.key == key else cause for cause in causes
    )


def _shorted(sound: Suspect) -> list[Suspect]:
    planned = sound.surrogate.bench.installation
    stray = Cause(key="hidden.stray", label="stray reactance of the short", unit="log",
                  spread=_STRAY[1], mean=_STRAY[0])  # fmt: skip
    found = []
    for number, stage in enumerate(planned.stages):
        if isinstance(stage, SeriesCapacitor):
            short, text = SeriesInductor(inductance=0.0), "the capacitor of the match is shorted"
        elif isinstance(stage, ShuntStub | ShuntInductor):
            short = ShuntInductor(inductance=0.0)  # type: ignore[assignment]
            text = "the match is shorted near the feed point"
        else:
            continue
        stages = (*planned.stages[:number], short, *planned.stages[number + 1 :])
        found.append((stages, text))
    if not found or planned.shape is None:
        stages = (*planned.stages, ShuntInductor(inductance=0.0))
        found.append((stages, "the feed point is shorted"))
    suspects = []
    for stages, text in found:
        bench = Bench(replace(planned, stages=stages))
        causes = tuple(
            cause
            for cause in sound.causes
            if not cause.key.startswith("stage.") or _keeps(stages, cause.key)
        )
        suspects.append(
            replace(
                sound,
                kind="shorted match",
                text=text,
                surrogate=replace(sound.surrogate, bench=bench),
                causes=(*causes, stray),
            )
        )
    return suspects


def _keeps(stages: tuple[object, ...], key: str) -> bool:
    """Whether a piece still has a value to set."""
    return getattr(stages[int(key.partition(".")[2])], "inductance", 1.0) != 0.0


def _braids(sound: Suspect) -> list[Suspect]:
    """The line's outside tied to a feed that is even about the boom, from every likely length."""
    planned = sound.surrogate.bench.installation
    if (
        (planned.shape is not None and planned.strap is None)
        or planned.beam.wires
        or planned.beam.bent
    ):
        return []
    if planned.stages and planned.shape is not None:
        # A gamma or tee ties the braid to the middle of the element, which hardly drives it.
        return []
    family = braid_family(
        beam=planned.beam, ground=planned.ground, frequencies=sound.surrogate.nodes
    )
    wavelength = planned.beam.wavelength
    found = []
    for share in _BRAIDS.tolist():
        if not family.lengths[0] <= share * wavelength <= family.lengths[-1]:
            continue
        hidden = Cause(key="hidden.braid", label="length of braid", unit="m",
                       spread=_BRAID_SPREAD * wavelength, mean=share * wavelength)  # fmt: skip
        found.append(
            replace(
                sound,
                kind="braid common mode",
                text="the outside of the line carries current: its choke does not work",
                causes=(*sound.causes, hidden),
                braid=family,
            )
        )
    return found


def _effect(
    suspect: tuple[Suspect, SweepModel, Mode], sound: tuple[Suspect, SweepModel, Mode]
) -> float:
    """What the fault alone does to the reflection, root mean square."""
    _, model, mode = suspect
    if suspect[0].kind in ("shorted match", "slipped strap"):
        # The match is another one then.
        return float("inf")
    plain = sound[1]
    amounts = model.standing(mode.place[None], 0)
    usual = np.array([[amounts[0, model.index[c.key]] for c in plain.causes]])
    for number, cause in enumerate(plain.causes):
        if suspect[0].kind in ("water in the line", "wrong velocity factor"):
            usual[0, number] = 0.0 if cause.key.startswith("line.") else usual[0, number]
    here, _ = model.prepared[0].reflection(model, amounts, model.impedance(amounts, 0))
    without, _ = plain.prepared[0].reflection(plain, usual, plain.impedance(usual, 0))
    return float(np.sqrt(np.mean(np.abs(here - without) ** 2)))


def _report(
    held: list[tuple[Suspect, SweepModel, Mode]], kinds: list[FaultKind], reading: Reading
) -> FaultReport:
    named, shares = _ranked(held, kinds)
    kind = shares[0][0]
    best = next(each for each in held if each[0].kind == kind)
    said = next(each for each in named if each.kind == kind)
    if not believed(best[1], best[2], (reading,), most=_MOST_STRAIN):
        notice = Notice(
            code="tuning.unknown-fault",
            severity="doubt",
            text="The sweep is not of this antenna, sound or with one of the faults looked for. Is "
            "the plan that of this antenna, and the meter calibrated?",
            value=phrase("strain {strain}", strain=Quantity(said.strain, "times")),
            limit=phrase("{strain}", strain=Quantity(_MOST_STRAIN, "times")),
        )
        return FaultReport(verdict="not one of these", named=named, kinds=shares, notices=(notice,))
    sound = kind == "no fault"
    words = "Most probable: {kind} ({said}). Look first at {look}."
    if sound:
        words = "Most probable: no fault. A fault that changes the reflection by less than {least} "
        words += "is not seen."
    notice = Notice(
        code="tuning.fault",
        severity="note" if sound else "doubt",
        text=phrase(words, kind=kind, said=said.text, look=said.look,
                    least=Quantity(LEAST_EFFECT, "number")),
        value=Quantity(shares[0][1], "share"),
    )  # fmt: skip
    return FaultReport(verdict=kind, named=named, kinds=shares, notices=(notice,))


def _ranked(
    held: list[tuple[Suspect, SweepModel, Mode]], kinds: list[FaultKind]
) -> tuple[tuple[NamedFault, ...], tuple[tuple[FaultKind, float], ...]]:
    """Suspects in question and all kinds, most probable first."""
    # Beforehand every kind of fault is equally likely, and within a kind every suspect.
    log = np.array([m.log_evidence - np.log(kinds.count(s.kind)) for s, _, m in held])
    log += np.where([s.kind == "no fault" for s, _, _ in held], np.log(_SOUND_ODDS), 0.0)
    weight = np.exp(log - log.max())
    weight /= weight.sum()
    order = np.argsort(-weight)
    named = tuple(
        NamedFault(
            kind=held[n][0].kind,
            text=held[n][0].text,
            look=_LOOK[held[n][0].kind],
            probability=float(weight[n]),
            strain=strain_of(held[n][1], held[n][2]),
        )
        for n in order
        if weight[n] >= _LEAST_ODDS * weight[order[0]]
    )
    shares: dict[FaultKind, float] = {}
    for (suspect, _, _), share in zip(held, weight.tolist(), strict=True):
        shares[suspect.kind] = shares.get(suspect.kind, 0.0) + share
    return named, tuple(sorted(shares.items(), key=lambda item: -item[1]))
