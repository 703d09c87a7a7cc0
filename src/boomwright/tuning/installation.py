"""What is measured: a beam over its ground, its match, and the line to the meter."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.feed import (
    CoaxType,
    FoldedShape,
    GammaShape,
    HairpinShape,
    LineSection,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    ShuntStub,
    SplitShape,
    Stage,
    TeeShape,
    through_stages,
)
from boomwright.parts import Beam, Element, Radials
from boomwright.solver import FREE_SPACE, Ground

#: shortest tip section a change may leave, as a share of what it was
_SHORTEST_SHARE = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Installation:
    """Everything between the sky and the meter."""

    beam: Beam
    ground: Ground = FREE_SPACE  #: what is below it
    #: its feed as wires that are solved with the elements; None for a split element
    shape: SplitShape | GammaShape | TeeShape | FoldedShape | HairpinShape | None = None
    #: pieces of its match behind those wires, from the antenna to the line (n_stages,)
    stages: tuple[Stage, ...] = ()
    #: type of line between feed point and meter; None when measured at the feed point
    line: CoaxType | None = None
    line_length: float = 0.0  #: length of that line [m]
    line_loss_factor: float = 1.0  #: loss of that line over the loss of its type [-]
    reference: float = 50.0  #: resistance that the meter's reflection is held against [ohm]
    target: float = 50.0  #: resistance that the antenna is to be matched to [ohm]
    #: how far the computed impedance may be off for all that is left out, as a share and a
    #: standard deviation [-]
    feed_error: float = 0.015

    @property
    def strap(self) -> float | None:
        """Length from the element to the strap or short that slides; None without one [m]."""
        if isinstance(self.shape, GammaShape | TeeShape):
            return self.shape.rod_length
        return self.shape.length if isinstance(self.shape, HairpinShape) else None


def after_changes(*, installation: Installation, changes: Mapping[str, float]) -> Installation:
    """Change lengths, match, height, ground or line by given amounts.

    Keys: ``tip.N`` moves both tips of element N outwards [m]; ``strap`` moves the strap of the
    rods or the short of the hairpin outwards [m]; ``stage.N`` changes piece N of the match
    behind the wires: a stub's or line's length [m], anything else by a share of its value [-];
    ``height`` [m]; ``radials`` makes each radial longer [m]; ``foot`` changes the loss in the
    ground at the foot of a vertical by a share [-]; ``ground`` as the natural logarithm of a factor
    of the conductivity, its root of the permittivity [-]; ``line.length`` [m]; ``line.loss``
    as a share [-].

    Args:
        changes: amount of each change by its key, mixed units [-]

    Raises:
        BoomwrightError: for an unknown key or a change that takes a whole tip section away
    """
    elements, stages = list(installation.beam.elements), list(installation.stages)
    beam, ground, line = installation.beam, installation.ground, installation
    for key, amount in changes.items():
        kind, _, number = key.partition(".")
        if kind == "tip" and number.isdigit() and int(number) < len(elements):
            elements[int(number)] = _tip_moved(elements[int(number)], amount, key)
        elif kind == "stage" and number.isdigit() and int(number) < len(stages):
            stages[int(number)] = _stage_changed(stages[int(number)], amount, key)
        elif key == "height":
            beam = replace(beam, height=beam.height + amount)
        elif key in ("radials", "foot") and beam.radials is not None:
            beam = replace(beam, radials=_radials_changed(beam.radials, key, amount))
        elif key == "strap" and installation.strap is not None:
            line = replace(line, shape=_strap_moved(line, amount))
        elif key == "ground":
            ground = replace(
                ground,
                permittivity=max(1.0, ground.permittivity * float(np.exp(0.5 * amount))),
                conductivity=float(ground.conductivity * np.exp(amount)),
            )
        elif key == "line.length":
            line = replace(line, line_length=max(0.0, line.line_length + amount))
        elif key == "line.loss":
            line = replace(line, line_loss_factor=max(0.0, line.line_loss_factor + amount))
        else:
            msg = f"change {key!r} fits nothing in this installation; use a key of its causes"
            raise BoomwrightError(msg)
    return replace(
        line,
        beam=replace(beam, elements=tuple(elements)),
        ground=ground,
        stages=tuple(stages),
    )


def _tip_moved(element: Element, amount: float, key: str) -> Element:
    last = element.half[-1]
    length = last.length + amount
    if length < _SHORTEST_SHARE * last.length:
        raise BoomwrightError(
            f"{key}: {amount * 1e3:.0f} mm is more than the tip section of "
            f"{last.length * 1e3:.0f} mm can give; move the next section instead"
        )
    return replace(element, half=(*element.half[:-1], replace(last, length=length)))


def _radials_changed(radials: Radials, key: str, amount: float) -> Radials:
    if key == "radials":
        length = max(_SHORTEST_SHARE * radials.length, radials.length + amount)
        return replace(radials, length=length)
    return replace(radials, loss_factor=max(0.0, radials.loss_factor + amount))


def _strap_moved(installation: Installation, amount: float) -> GammaShape | TeeShape | HairpinShape:
    shape = installation.shape
    if isinstance(shape, HairpinShape):
        return replace(shape, length=max(_SHORTEST_SHARE * shape.length, shape.length + amount))
    if isinstance(shape, GammaShape | TeeShape):
        length = max(_SHORTEST_SHARE * shape.rod_length, shape.rod_length + amount)
        return replace(shape, rod_length=length)
    raise BoomwrightError(f"strap: a {type(shape).__name__} has nothing that slides")


def _stage_changed(stage: Stage, amount: float, key: str) -> Stage:
    # A stub cannot be shorter than nothing nor a capacitor less than none; the search for a
    # setting may try it.
    if isinstance(stage, (ShuntStub, LineSection)):
        return replace(stage, length=max(1e-4, stage.length + amount))
    factor = max(0.02, 1.0 + amount)
    if isinstance(stage, (SeriesCapacitor, ShuntCapacitor)):
        return replace(stage, capacitance=stage.capacitance * factor)
    if isinstance(stage, (SeriesInductor, ShuntInductor)):
        return replace(stage, inductance=stage.inductance * factor)
    raise BoomwrightError(f"{key}: a {type(stage).__name__} has nothing to adjust")


def at_line(*, installation: Installation, impedance: Complexes, frequencies: Floats) -> Complexes:
    """Impedance at the start of the line: the antenna through its match [ohm] (f,).

    Args:
        impedance: feed-point impedance of the antenna [ohm] (f,)
        frequencies: [Hz] (f,)
    """
    return through_stages(installation.stages, impedance=impedance, frequency=frequencies)


def line_chain(
    *, line: CoaxType, length: float, frequencies: Floats, loss_factor: float = 1.0
) -> Complexes:
    """Chain matrix of a coaxial line with its loss {pozar-2012, tab. 4.1}.

    Args:
        frequencies: [Hz] (f,)
        loss_factor: its loss over that of the type [-]

    Returns:
        matrix, mixed units [V/V, ohm, S, A/A] (f, 2, 2)
    """
    lossy = replace(line, k1=line.k1 * loss_factor, k2=line.k2 * loss_factor)
    pairs = [lossy.propagation(frequency=float(each)) for each in frequencies]
    gamma, z0 = np.array(pairs, dtype=complex).T
    cosh, sinh = np.cosh(gamma * length), np.sinh(gamma * length)
    rows = np.stack([cosh, z0 * sinh, sinh / z0, cosh], axis=-1)
    return rows.reshape(len(frequencies), 2, 2)


def at_meter(*, installation: Installation, impedance: Complexes, frequencies: Floats) -> Complexes:
    """Reflection at the meter for an impedance at the far end of the line.

    Args:
        impedance: impedance at the start of the line, seen towards the antenna [ohm] (f,)
        frequencies: [Hz] (f,)
    """
    seen = impedance
    if installation.line is not None:
        m = line_chain(
            line=installation.line,
            length=installation.line_length,
            frequencies=frequencies,
            loss_factor=installation.line_loss_factor,
        )
        seen = (m[:, 0, 0] * seen + m[:, 0, 1]) / (m[:, 1, 0] * seen + m[:, 1, 1])
    found: Complexes = (seen - installation.reference) / (seen + installation.reference)
    return found
