"""What may differ from the plan, and by how much before anything was measured."""

from __future__ import annotations

import numpy as np

from boomwright.base.records import dataclass
from boomwright.feed import (
    HairpinShape,
    LineSection,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    ShuntStub,
    Stage,
)
from boomwright.parts import Beam, Element
from boomwright.solver import acts_longer, mount_effect
from boomwright.tuning.installation import Installation
from boomwright.tuning.tolerance import Tolerance

#: what acts like a cause but is none, such as another diameter, place or spacing, over the cause
ACTS_ALIKE = 0.45
#: usual capacitance across a feed and inductance of its leads on wavelengths from here on, smaller
#: in proportion below {common-practice-stray}
_STRAY_FROM, _STRAY_FARADS, _LEAD_HENRIES = 10.0, 2e-12, 15e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One thing that may differ from the plan."""

    key: str  #: key of the change, as in :func:`after_changes`
    label: str  #: its name in words
    #: ``m`` for a length, ``share`` for a share of the value, ``log`` for the natural logarithm of
    #: a factor, ``F`` for a capacitance, ``H`` for an inductance
    unit: str
    spread: float  #: standard deviation expected before measuring, mixed units [-]
    mean: float = 0.0  #: what is expected, mixed units [-]

    @property
    def adjusted(self) -> bool:
        """Whether the builder sets it: a tip, a strap or a piece of the match."""
        return self.key.startswith(("tip.", "strap", "stage."))

    @property
    def acts_alike(self) -> float:
        """Spread of what else acts like it and is not told apart, over its own [-]."""
        return ACTS_ALIKE if self.adjusted or self.key == "stray" else 0.0


def element_labels(installation: Installation) -> tuple[str, ...]:
    """Names of the elements: their roles, directors numbered."""
    roles = [element.role for element in installation.beam.elements]
    labels = []
    for number, role in enumerate(roles):
        same = roles.count(role)
        labels.append(f"{role} {roles[: number + 1].count(role)}" if same > 1 else str(role))
    return tuple(labels)


def end_name(element: Element) -> str:
    """What of an element is cut: both tips, its top, or both halves of a loop."""
    return "top" if element.upright else "loop, each half" if element.closed else "tips"


def stage_name(stage: Stage) -> str:
    """Name of a piece of a match, in the words of the trade."""
    if isinstance(stage, ShuntStub):
        return "strap" if stage.end == "short" else "open stub"
    if isinstance(stage, SeriesCapacitor):
        return "capacitor"
    if isinstance(stage, ShuntCapacitor):
        return "shunt capacitor"
    if isinstance(stage, SeriesInductor):
        return "series coil"
    if isinstance(stage, ShuntInductor):
        return "shunt coil"
    return "matching line"


def _mount_spread(beam: Beam, number: int) -> float:
    """Half length that stands for what is not known of a mount, its band as two deviations [m]."""
    element = beam.elements[number]
    effect = mount_effect(element=element, wavelength=beam.wavelength)
    if effect is None:
        return 0.0
    return 0.25 * acts_longer(inductance=effect.half_width, element=element)


def usual_causes(
    *, installation: Installation, tolerance: Tolerance | None = None
) -> tuple[Cause, ...]:
    """List everything that may explain a sweep."""
    usual = tolerance or Tolerance()
    beam = installation.beam
    cutting = usual.tip_at(beam.wavelength)
    causes = [
        Cause(
            key=f"tip.{number}",
            label=f"{label} {end_name(beam.elements[number])}",
            unit="m",
            spread=float(np.hypot(cutting, _mount_spread(beam, number))),
        )
        for number, label in enumerate(element_labels(installation))
    ]
    if installation.strap is not None:
        strap, label = usual.strap_at(beam.wavelength), strap_name(installation)
        causes.append(Cause(key="strap", label=label, unit="m", spread=strap))
    return (*causes, *_surroundings(installation, usual), *_feeder(installation, usual))


def _surroundings(installation: Installation, usual: Tolerance) -> list[Cause]:
    causes, beam = [], installation.beam
    if beam.radials is not None:
        causes.append(
            Cause(key="radials", label="length of the radials", unit="m",
                  spread=usual.radials * beam.radials.length)
        )  # fmt: skip
    if beam.stands_on_ground and installation.ground.kind == "real":
        label = "loss in the ground at the foot"
        causes.append(Cause(key="foot", label=label, unit="share", spread=usual.foot_loss))
    if installation.ground.kind != "free space" and not beam.stands_on_ground:
        causes.append(Cause(key="height", label="height", unit="m", spread=usual.height))
    if installation.ground.kind == "real":
        factor = float(np.log(usual.ground_factor))
        causes.append(Cause(key="ground", label="ground conductivity", unit="log", spread=factor))
    return causes


def _feeder(installation: Installation, usual: Tolerance) -> list[Cause]:
    """What may be off from the wires' port to the meter."""
    causes = []
    for number, stage in enumerate(installation.stages):
        if isinstance(stage, (ShuntStub, LineSection)):
            unit, spread = "m", usual.strap_at(installation.beam.wavelength)
        elif isinstance(stage, (SeriesCapacitor, ShuntCapacitor, SeriesInductor, ShuntInductor)):
            unit, spread = "share", usual.component
        else:
            continue
        causes.append(
            Cause(key=f"stage.{number}", label=stage_name(stage), unit=unit, spread=spread)
        )
    small = usual.stray * min(1.0, installation.beam.wavelength / _STRAY_FROM)
    farads, henries = small * _STRAY_FARADS, small * _LEAD_HENRIES
    causes += [
        Cause(key="stray", label="stray capacitance at the feed", unit="F", spread=farads,
              mean=farads),
        Cause(key="lead", label="wire between feed and match", unit="H", spread=henries,
              mean=henries),
    ]  # fmt: skip
    if installation.line is None or installation.line_length <= 0.0:
        causes.append(
            Cause(key="plane", label="the meter's plane of calibration", unit="m",
                  spread=usual.plane)
        )  # fmt: skip
        return causes
    share = usual.line_length * installation.line_length
    # A connector and the ends are known no better than a few centimetres.
    length = float(np.hypot(share, 0.03))
    return [
        *causes,
        Cause(key="line.length", label="line length", unit="m", spread=length),
        Cause(key="line.loss", label="line loss", unit="share", spread=usual.line_loss),
        Cause(key="line.impedance", label="line impedance", unit="share",
              spread=usual.line_impedance),
    ]  # fmt: skip


def strap_name(installation: Installation) -> str:
    """Name of what slides on the rods, in the words of the trade."""
    return "short of the hairpin" if isinstance(installation.shape, HairpinShape) else "strap"
