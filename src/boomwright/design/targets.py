"""What is wanted of a design, all in decibels so that wishes can be weighed.

Gain and front-to-rear ratio are decibels already. A standing wave ratio S loses
10 log10((S + 1)^2 / (4 S)) by reflection {pozar-2012, ch. 2}; that loss is smooth where S is not.
"""

from __future__ import annotations

import math
from typing import Any, Literal

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.design.aims import Directions, directions
from boomwright.design.array_slopes import ArraySlopes, BandTables, array_slopes
from boomwright.design.match_in_place import TUNED_LOSS_DB, MatchInPlace
from boomwright.design.space import DesignSpace

_DECIBEL = 10.0 / math.log(10.0)
#: rear lobes this far below the main one are as good as none; keeps nulls smooth [-]
_QUIET = 1e-4
#: reactance over resistance at the feed that no search may exceed: beyond it the driven element
#: hardly takes part, and figures are small differences that nobody can build
MOST_REACTANCE_RATIO = 20.0
#: how much currents of opposite sign may cancel, as ``ArraySlopes.strain``: beams in use lie
#: below 7; above 20 tiny errors of dimensions and of the solution change everything (own trial)
MOST_STRAIN = 20.0
#: rear directions watched while searching, every third degree of the rear half: the worst between
#: them lies lower by hundredths of a decibel (own trial)
_REAR_ANGLES = 30
#: share of the power reflected beyond which loss only grows by its slope [-]
_MOST_REFLECTED = 0.998
#: errors of half lengths up to so many radians take the fields of the others from the second
#: derivatives of one design: what is left out is 1e-5 of them
_FEW_RADIANS = 0.04
#: of a limit on loss, at least this share stays when more is demanded
_LEAST_OF_LOSS = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Targets:
    """What matters and what must be kept, each the worst in the band."""

    gain_weight: float = 1.0  #: worth of a decibel of gain [-]
    rear_weight: float = 0.0  #: worth of a decibel of front-to-rear ratio [-]
    match_weight: float = 0.0  #: worth of a decibel less lost by reflection at the feed [-]
    least_gain_dbi: float = -math.inf  #: gain that must be reached [dBi]
    least_front_to_rear_db: float = -math.inf  #: front-to-rear ratio that must be reached [dB]
    most_swr: float = math.inf  #: standing wave ratio that must not be exceeded [-]
    #: resistance the ratio is held against when fed directly [ohm]
    reference_resistance: float = 50.0
    #: ``direct``: as the feed-point impedance stands; ``matched``: after an ideal match at the
    #: design frequency
    match: Literal["direct", "matched"] = "direct"
    #: the match that stands around the driven element, before ``match``; None for none
    fed: MatchInPlace | None = None
    #: range of the feed-point resistance at the design frequency [ohm] (2,)
    resistance: tuple[float, float] = (0.0, math.inf)
    rear_from: float = math.pi / 2.0  #: azimuth from which a direction counts as rear [rad]
    take_off: float = 0.0  #: elevation at which the gain is wanted [rad]
    #: with several bands at once: gain in this one counts as that much more [dB]
    handicap_db: float = 0.0

    @property
    def watches_rear(self) -> bool:
        """Whether the rear matters at all."""
        return self.rear_weight > 0.0 or self.least_front_to_rear_db > -math.inf

    @property
    def watches_match(self) -> bool:
        """Whether the match matters at all."""
        return self.match_weight > 0.0 or self.most_swr < math.inf

    def directions(self, *, rear_angles: int = _REAR_ANGLES) -> Directions:
        """Directions watched, ahead first."""
        # Straight to the side nothing radiates; the first angle lies inside the range.
        edge = self.rear_from
        rear = math.pi - (math.pi - edge) * np.arange(rear_angles) / rear_angles
        rear = rear if self.watches_rear else rear[:1]
        azimuth = np.concatenate([[0.0], rear])
        elevation = np.concatenate([[self.take_off], 0.0 * rear])
        return directions(azimuth=azimuth, elevation=elevation)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class IdleArray:
    """Elements of other beams beside the array: they stay, but hang on the mast at its middle."""

    tables: BandTables  #: elements of the array, then these
    places: (
        Floats  #: along the boom from its middle, or from its first place on the very boom [m] (k,)
    )
    half_lengths: Floats  #: half lengths [m] (k,)
    #: slopes in the dimensions of all elements to those of the array alone [-]
    #: (2 n_elements + 2 k, 2 n_elements)
    fold: Floats

    def joined(self, both: Floats) -> tuple[Floats, Floats]:
        """Places and half lengths of all elements [m] (b, n_elements + k).

        Args:
            both: places and half lengths of the array [m] (b, 2 n_elements)
        """
        dimensions = both @ self.fold.T
        count = len(self.fold) // 2
        places, half_lengths = dimensions[:, :count], dimensions[:, count:]
        idle = count - len(self.places)
        places[:, idle:] += self.places
        half_lengths[:, idle:] += self.half_lengths
        return places, half_lengths


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Problem:
    """A search problem for one array."""

    tables: BandTables  #: elements over the band
    space: DesignSpace  #: what may change
    targets: Targets  #: what is wanted
    design_number: int  #: number of the design frequency among the frequencies
    #: changes of positions and half lengths that the design must bear as well, all zero for none
    #: [m] (k, 2 n_elements)
    shifts: Floats
    #: the same design in further bands, with weights and limits of the first: the worst of all
    #: bands counts
    further: tuple[Problem, ...] = ()
    idle: IdleArray | None = None  #: elements of other beams beside it; None for none


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Margins:
    """The figures of a design that count, with slopes in the free numbers."""

    gain: Floats  #: gain at each frequency and shift [dBi] (p,)
    rear: Floats  #: front-to-rear ratio at each frequency, shift and angle [dB] (q,)
    match: Floats  #: loss by reflection with its sign turned [dB] (p,)
    resistance: Floats  #: resistance at the design frequency as 10 log10 of ohm [dB] (k,)
    #: room of the reactance at the design frequency below its limit, then that of what is left
    #: untuned there by a match in place [dB] (k,)
    reactance: Floats
    gain_slopes: Floats  #: slopes of each [dB] (.., m)
    rear_slopes: Floats  #: slopes of each [dB] (.., m)
    match_slopes: Floats  #: slopes of each [dB] (.., m)
    resistance_slopes: Floats  #: slopes of each [dB] (.., m)
    reactance_slopes: Floats  #: slopes of each [dB] (.., m)
    overstrained: float  #: how far the largest strain lies above its limit, 0 when below [dB]


def margins(*, problem: Problem, towards: Directions, free: Floats, slopes: bool = True) -> Margins:
    """Compute what counts of one design, in all its bands.

    Args:
        towards: directions watched, ahead first
        free: free numbers (m,)
        slopes: whether slopes are wanted, which most of the time goes to; else they are 0
    """
    parts = [_band_margins(one, towards, free, slopes) for one in (problem, *problem.further)]
    if len(parts) == 1:
        return parts[0]
    names = ("gain", "rear", "match", "resistance", "reactance")
    joined = {
        name: np.concatenate([getattr(part, name) for part in parts])
        for name in (*names, *(f"{name}_slopes" for name in names))
    }
    return Margins(**joined, overstrained=max(part.overstrained for part in parts))


def _band_margins(problem: Problem, towards: Directions, free: Floats, slopes: bool) -> Margins:
    """Compute what counts in one band."""
    space = problem.space
    both = space.origin + space.basis @ free + problem.shifts
    found = slopes_of(
        problem=problem,
        both=both,
        towards=towards,
        around_first=_near_each_other(problem),
        slopes=slopes,
    )
    basis = space.basis
    if not slopes:
        basis = basis[:0]
        found = replace(
            found,
            impedance_slopes=np.zeros((*found.impedance.shape, 0)),
            gain_slopes=np.zeros((*found.gain_db.shape, 0)),
        )
    gain = found.gain_db[:, :, 0]
    gain_slopes = found.gain_slopes[:, :, 0] @ basis
    rear, rear_slopes = front_to_rear(found=found)
    design, targets = problem.design_number, problem.targets
    ratio = problem.tables.wavenumbers / problem.tables.wavenumbers[design]
    loss, loss_slopes = reflected(found=found, targets=targets, design=design, ratio=ratio)
    ohms, ohm_slopes, room, room_slopes = at_the_feed(found=found, design=design)
    if targets.fed is not None and targets.fed.tuned:
        # Whoever builds it tunes it: errors of building take nothing from that.
        room = np.append(room, TUNED_LOSS_DB - loss[0, design])
        room_slopes = np.vstack([room_slopes, -loss_slopes[:1, design]])
    size = basis.shape[1]
    return Margins(
        gain=gain.ravel() + problem.targets.handicap_db,
        rear=rear.ravel(),
        match=-loss.ravel(),
        resistance=ohms,
        reactance=room,
        gain_slopes=gain_slopes.reshape(-1, size),
        rear_slopes=(rear_slopes @ basis).reshape(-1, size),
        match_slopes=-(loss_slopes @ basis).reshape(-1, size),
        resistance_slopes=ohm_slopes @ basis,
        reactance_slopes=room_slopes @ basis,
        overstrained=max(0.0, 10.0 * math.log10(float(found.strain.max()) / MOST_STRAIN)),
    )


def _near_each_other(problem: Problem) -> bool:
    """Whether what a design must bear are lengths so little off that its bends tell all."""
    count = problem.space.count
    moved, off = problem.shifts[:, :count], problem.shifts[:, count:]
    turn = float(np.max(np.abs(off)) * np.max(problem.tables.wavenumbers))
    return len(off) > 1 and not off[0].any() and not moved.any() and turn < _FEW_RADIANS


def slopes_of(
    *,
    problem: Problem,
    both: Floats,
    towards: Directions,
    around_first: bool = False,
    slopes: bool = True,
) -> ArraySlopes:
    """Figures and slopes of designs, with what stands beside them.

    Args:
        both: positions, counted as the search does, then half lengths [m] (b, 2 n_elements)
        around_first: whether all designs have the places of the first and nearly its half lengths
    """
    idle, count = problem.idle, problem.space.count
    if idle is None:
        return array_slopes(
            tables=problem.tables,
            positions=both[:, :count],
            half_lengths=both[:, count:],
            towards=towards,
            around_first=around_first,
            slopes=slopes,
        )
    places, half_lengths = idle.joined(both)
    found = array_slopes(
        tables=idle.tables,
        positions=places,
        half_lengths=half_lengths,
        towards=towards,
        around_first=around_first,
        slopes=slopes,
    )
    if not slopes:
        return found
    return replace(
        found,
        impedance_slopes=found.impedance_slopes @ idle.fold,
        gain_slopes=found.gain_slopes @ idle.fold,
    )


def at_the_feed(*, found: ArraySlopes, design: int, xp: Any = np) -> tuple[Any, Any, Any, Any]:
    """Resistance at the design frequency, and how far the reactance is below its limit.

    Returns:
        10 log10 of the resistance in ohm [dB] (b,) with slopes [dB/m] (b, 2 n_elements), and
        the same of
            what 10 log10(1 + (X/R)^2) is short of its limit
    """
    impedance, slopes = found.impedance[:, design], found.impedance_slopes[:, design]
    ohms = xp.maximum(impedance.real, xp.full_like(impedance.real, 1e-6))
    by_ohms = slopes.real / ohms[:, None]
    ratio = impedance.imag / ohms
    by_ratio = slopes.imag / ohms[:, None] - ratio[:, None] * by_ohms
    most = 10.0 * math.log10(1.0 + MOST_REACTANCE_RATIO**2)
    room = most - 10.0 * xp.log10(1.0 + ratio * ratio)
    by_room = (-2.0 * _DECIBEL * ratio / (1.0 + ratio * ratio))[:, None] * by_ratio
    return 10.0 * xp.log10(ohms), _DECIBEL * by_ohms, room, by_room


def front_to_rear(*, found: ArraySlopes, xp: Any = np) -> tuple[Any, Any]:
    """Ratio of the gain ahead to the gain towards every other direction.

    Args:
        found: figures towards the watched directions, ahead first

    Returns:
        ratios [dB] (b, f, d - 1) and slopes in the dimensions, where they were wanted [dB/m]
        (b, f, d - 1, 2 n_elements)
    """
    ahead, behind = found.gain_db[:, :, :1], found.gain_db[:, :, 1:]
    below = 10.0 ** ((behind - ahead) / 10.0)
    if found.gain_slopes is None:
        return -10.0 * xp.log10(below + _QUIET), None
    slopes = found.gain_slopes[:, :, :1] - found.gain_slopes[:, :, 1:]
    share = below / (below + _QUIET)
    return -10.0 * xp.log10(below + _QUIET), share[..., None] * slopes


def reflected(
    *, found: ArraySlopes, targets: Targets, design: int, ratio: Any, xp: Any = np
) -> tuple[Any, Any]:
    """Power lost by reflection at the feed.

    Args:
        ratio: frequencies over the design frequency [-] (f,)

    Returns:
        loss [dB] (b, f) and slopes in the dimensions [dB/m] (b, f, 2 n_elements)
    """
    if targets.fed is not None:
        return _through_match(found, targets.fed, design, ratio, xp)
    impedance, slopes = found.impedance, found.impedance_slopes
    reference: Any = targets.reference_resistance
    reference_slopes: Any = 0.0
    if targets.match == "matched":
        at, at_slopes = impedance[:, design, None], slopes[:, design, None]
        impedance, slopes = impedance - 1j * at.imag, slopes - 1j * at_slopes.imag
        reference, reference_slopes = at.real, at_slopes.real
    gap = impedance - reference
    gap_slopes = slopes - reference_slopes
    product = 4.0 * impedance.real * reference
    times = reference[..., None] if targets.match == "matched" else reference
    product_slopes = 4.0 * (slopes.real * times + impedance.real[..., None] * reference_slopes)
    ratio = xp.abs(gap) ** 2 / product
    ratio_slopes = (
        2.0 * (xp.conj(gap)[..., None] * gap_slopes).real - ratio[..., None] * product_slopes
    ) / product[..., None]
    whole = 1.0 + xp.maximum(ratio, xp.zeros_like(ratio))
    return 10.0 * xp.log10(whole), _DECIBEL * ratio_slopes / whole[..., None]


def _through_match(
    found: ArraySlopes, fed: MatchInPlace, design: int, ratio: Any, xp: Any
) -> tuple[Any, Any]:
    """Loss by reflection on the line's side of a match, with slopes."""
    wave, own, at_design = fed.reflection_slopes(
        impedance=found.impedance,
        at_design=found.impedance[:, design],
        ratio=ratio,
        xp=xp,
    )
    share = xp.abs(wave) ** 2
    kept = 1.0 - xp.where(share < _MOST_REFLECTED, share, _MOST_REFLECTED)
    by_share = [2.0 * (xp.conj(wave) * each).real for each in (*own, *at_design)]
    slopes = found.impedance_slopes
    here = slopes[:, design, None]
    steep = (
        by_share[0][..., None] * slopes.real
        + by_share[1][..., None] * slopes.imag
        + by_share[2][..., None] * here.real
        + by_share[3][..., None] * here.imag
    )
    return -10.0 * xp.log10(kept), _DECIBEL * steep / kept[..., None]


def reflection_loss_db(*, swr: float) -> float:
    """Power lost by reflection at a standing wave ratio {pozar-2012, ch. 2} [dB].

    Args:
        swr: standing wave ratio [-]
    """
    return 10.0 * math.log10((swr + 1.0) ** 2 / (4.0 * swr)) if swr < math.inf else math.inf


def asking_more(targets: Targets, beyond: Floats) -> Targets:
    """Demand more, so that what a search cannot see leaves enough.

    Args:
        beyond: of the front-to-rear ratio, the loss by reflection and the resistance [dB] (3,)
    """
    most = reflection_loss_db(swr=targets.most_swr)
    loss = max(most - beyond[1], _LEAST_OF_LOSS * most)
    share = math.sqrt(1.0 - 10.0 ** (-loss / 10.0))
    low, high = targets.resistance
    return replace(
        targets,
        least_front_to_rear_db=targets.least_front_to_rear_db + beyond[0],
        most_swr=(1.0 + share) / (1.0 - share) if loss < math.inf else math.inf,
        resistance=(low * 10.0 ** (beyond[2] / 10.0), high),
    )
