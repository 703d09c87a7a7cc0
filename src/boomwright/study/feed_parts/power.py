"""What the owner's power does: parts of the match, line to the radio, choke."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, phrase
from boomwright.feed import (
    BraidReading,
    CoaxType,
    FeedLoad,
    FieldMatch,
    FieldSetting,
    FoldedShape,
    GammaShape,
    HairpinShape,
    Match,
    SeriesCapacitor,
    ShuntCapacitor,
    ShuntStub,
    StageRating,
    TeeShape,
    parallel_line_impedance,
    rate_line,
    rate_match,
    read_line,
    split_load,
    standing_wave_ratio,
)
from boomwright.study.feed_parts.results import BraidCase, ChokeWork, LineResult, PartRating
from boomwright.study.feed_parts.shapes import coil_for
from boomwright.study.feed_parts.tries import stage_phrase

#: frequencies over the band at which parts and line are read
POINTS = 61
#: where a match is fed, by its shape
_PORTS: dict[type, str] = {
    GammaShape: "rod and strap, fed end",
    TeeShape: "rods, between their fed ends",
    FoldedShape: "fed conductor, across its split",
}


def rate_parts(match: FieldMatch, *, power: float, setting: FieldSetting) -> tuple[PartRating, ...]:
    """Rate every part of a match, worst over the band.

    Args:
        power: peak envelope power [W]
    """
    load, pieces = match.load, match.match
    if isinstance(match.shape, HairpinShape):
        load, pieces = _with_hairpin_as_piece(match, match.shape, setting)
    at = _matched_band(match)
    impedances = load.at(at)
    worst = max(
        (math.sqrt(2.0 * power / z.real) * abs(z), math.sqrt(power / z.real)) for z in impedances
    )
    found = [
        PartRating(
            part=_PORTS.get(type(match.shape), "driven element, across its split"),
            peak_voltage=float(worst[0]),
            rated_voltage=0.0,
            current=max(math.sqrt(power / z.real) for z in impedances),
        )
    ]
    over = [
        rate_match(match=pieces, impedance=complex(z), frequency=float(f), power=power)
        for z, f in zip(impedances, at, strict=True)
    ]
    found += [
        _part(
            match, max((r[i] for r in over), key=lambda rating: rating.peak_voltage),
            max(r[i].current for r in over),
        )
        for i in range(len(pieces.stages))
    ]  # fmt: skip
    return tuple(found)


def _matched_band(match: FieldMatch) -> Floats:
    """Frequencies over the band at which a match is read, rising, the design one among them."""
    low = max(match.beam.band[0], float(match.load.frequency[0]))
    high = min(match.beam.band[1], float(match.load.frequency[-1]))
    return np.unique(np.append(np.linspace(low, high, POINTS), match.frequency))


def band_swr(match: FieldMatch) -> tuple[Floats, Floats]:
    """Standing wave ratio over the band.

    Returns:
        frequency [Hz] and ratio (n,)
    """
    at = _matched_band(match)
    seen = match.match.transform(impedance=match.load.at(at), frequency=at)
    return at, standing_wave_ratio(seen, reference=match.reference)


def _with_hairpin_as_piece(
    match: FieldMatch, shape: HairpinShape, setting: FieldSetting
) -> tuple[FeedLoad, Match]:
    """The hairpin's rods carry a current of their own: they count as a stub for that."""
    stub = ShuntStub(
        impedance=parallel_line_impedance(spacing=shape.spacing, diameter=shape.rod_diameter),
        length=shape.length,
        end="short",
    )
    load = split_load(beam=match.beam, setting=setting)
    return load, replace(match.match, stages=(stub, *match.match.stages))


def _part(match: FieldMatch, rating: StageRating, current: float) -> PartRating:
    stage = rating.stage
    tee = isinstance(match.shape, TeeShape) and isinstance(stage, SeriesCapacitor)
    capacitor = isinstance(stage, SeriesCapacitor | ShuntCapacitor)
    part = stage_phrase(stage)
    if tee and isinstance(stage, SeriesCapacitor):
        each = replace(stage, capacitance=2.0 * stage.capacitance)
        part = phrase("each of two: {piece}", piece=stage_phrase(each))
    if isinstance(stage, ShuntStub) and isinstance(match.shape, HairpinShape):
        reactance = float((1.0 / complex(stage.chain(match.frequency)[1, 0])).imag)
        coil = coil_for(reactance=reactance, frequency=match.frequency)
        words = "hairpin, current in its rods (as a coil {coil})"
        part = phrase(words, coil=Quantity(coil, "inductance"))
    share = 0.5 if tee else 1.0
    return PartRating(
        part=part,
        peak_voltage=float(share * rating.peak_voltage),
        rated_voltage=float(share * rating.rated_voltage) if capacitor else 0.0,
        current=current,
    )


def read_feed_line(
    match: FieldMatch, *, line: CoaxType, length: float, power: float | None, duty_factor: float
) -> LineResult:
    """Follow the line from the feed to the radio.

    Args:
        power: peak envelope power; None when not known [W]
        duty_factor: mean over peak envelope power [-]
    """
    at = _matched_band(match)
    seen = match.match.transform(impedance=match.load.at(at), frequency=at)
    readings = [
        read_line(line=line, length=length, load=complex(z), frequency=float(f))
        for z, f in zip(seen, at, strict=True)
    ]
    worst = max(readings, key=lambda reading: reading.load_swr)
    here = readings[int(np.argmin(np.abs(at - match.frequency)))]
    rating = None
    if power is not None:
        rating = rate_line(line=line, reading=worst, power=power, duty_factor=duty_factor)
    return LineResult(
        line=line,
        length=length,
        frequency=at,
        shack_impedance=np.array([each.input_impedance for each in readings]),
        feed_swr=np.array([each.load_swr for each in readings]),
        shack_swr=np.array([each.input_swr for each in readings]),
        loss_db=np.array([each.loss_db for each in readings]),
        reading=here,
        worst=worst,
        rating=rating,
    )


def choke_work(
    case: BraidCase, reading: BraidReading, *, power: float, duty_factor: float
) -> ChokeWork:
    """What a choke stands on its braid.

    Args:
        power: peak envelope power [W]
        duty_factor: mean over peak envelope power [-]
    """
    fed = math.sqrt(power / case.solution.plain_impedance.real)
    return ChokeWork(
        impedance=reading.choke,
        voltage=reading.choke_current * fed * abs(reading.choke),
        heat=reading.choke_loss * power * duty_factor,
    )
