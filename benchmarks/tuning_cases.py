"""Two parts of the study: are the bands honest, and does the advice make antennas good."""

from __future__ import annotations

import time
from dataclasses import replace
from functools import cache

import numpy as np
from tuning_truth import (
    DESIGNS,
    POINTS,
    UNMODELLED,
    Truth,
    calibrated_anew,
    draw_truth,
    moved,
    planned,
    read,
    spreads,
    start_of_line,
    taken_out_again,
    tolerance_for,
    true_swr,
    with_effect,
)

from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import COAX_TYPES
from boomwright.tuning.moves import GOOD_SWR, Outlook
from boomwright.tuning.readings import METERS, Reading
from boomwright.tuning.surrogate import Surrogate
from boomwright.tuning.sweep import Sweep
from boomwright.tuning.trimming import (
    BAND,
    MOST_POINTS,
    MovingCare,
    Trimming,
    antenna_surrogate,
    trim,
)

LEVELS = 99
CARE = MovingCare()
MOST_TRIALS = 2


@cache
def surrogate_of(number: int) -> Surrogate:
    """The antenna as the fit sees it; once in every process."""
    band = DESIGNS[number].band
    return antenna_surrogate(
        installation=planned(number), lowest_frequency=band[0], highest_frequency=band[1],
        tolerance=tolerance_for(number),
    )  # fmt: skip


def fitted_to(number: int, truth: Truth, readings: list[Reading], seed: int) -> Trimming:
    """Fit with the line that the owner would write down."""
    kept = surrogate_of(number)
    bench = kept.bench
    bench.installation = replace(
        bench.installation,
        line=COAX_TYPES[truth.line] if truth.line else None,
        line_length=truth.line_length,
    )
    return trim(
        surrogate=kept, readings=tuple(readings), meter=METERS["hand-held"], care=CARE, seed=seed,
        tolerance=tolerance_for(number),
    )  # fmt: skip


def reading_of(number: int, truth: Truth, rng: np.random.Generator, moves: dict) -> Reading:
    """A sweep over the band."""
    at = np.linspace(*DESIGNS[number].band, POINTS)
    sweep = Sweep(frequencies=at, reflection=read(truth, at, rng))
    return Reading(sweep=sweep.thinned(points=MOST_POINTS), moves=dict(moves))


def run_sbc(task: tuple[int, int]) -> dict:
    """One simulated case: ranks of the truth among the draws."""
    seed, case = task
    begun = time.perf_counter()
    rng = np.random.default_rng([seed, case, 1])
    number = case % len(DESIGNS)
    truth = draw_truth(number, rng)
    found = fitted_to(number, truth, [reading_of(number, truth, rng, {})], case)
    at = rng.permutation(len(found.deviations))[:LEVELS]
    ranks, covered = {}, {}
    for place, cause in enumerate(found.causes):
        column, true = found.deviations[:, place], truth.off[cause.key]
        ranks[cause.key] = int(np.sum(column[at] < true))
        half = BAND * column.std()
        covered[cause.key] = bool(abs(true - column.mean()) <= half)
    swr = Outlook(found.model, found.posterior, rng).swr({})
    now = true_swr(truth)
    ranks["swr"] = int(np.sum(swr[at] < now))
    low, high = np.percentile(swr, [2.5, 97.5], method="weibull")
    covered["swr"] = bool(low <= now <= high)
    return {
        "design": number, "ranks": ranks, "covered": covered, "explained": found.explained,
        "misfit": found.misfit, "strain": found.strain, "now": now,
        "chance": float(np.mean(swr <= GOOD_SWR)),
        "modes": len(found.posterior.modes), "effective": found.posterior.effective,
        "narrowed": dict(
            zip(found.model.index, (found.spread / found.model.spreads).tolist(), strict=True)
        ),
        "seconds": time.perf_counter() - begun,
    }  # fmt: skip


def run_trim(task: tuple[int, int]) -> dict:
    """One antenna: measure, move as advised, measure again."""
    seed, case = task
    begun = time.perf_counter()
    rng = np.random.default_rng([seed, case, 2])
    number = case % len(DESIGNS)
    truth = draw_truth(number, rng, even=(case // len(DESIGNS)) % 2 == 1)
    effect = ""
    if (case // len(DESIGNS)) % 3 == 2:
        named = [e for e in UNMODELLED if truth.shape is not None or e != UNMODELLED[2]]
        if len(truth.beam.elements) == 1:
            named.remove(UNMODELLED[0])
        effect = str(rng.choice(named))
        truth = with_effect(truth, effect, rng)
    moves: dict[str, float] = {}
    readings: list[Reading] = []
    trials = []
    before, doubted = true_swr(truth), False
    while True:
        readings.append(reading_of(number, truth, rng, moves))
        found = fitted_to(number, truth, readings, case)
        advice = found.advice
        trial = {
            "before": true_swr(truth), "verdict": advice.verdict, "moves": advice.moves(),
            "chance": advice.after.chance, "band": [advice.after.low, advice.after.high],
            "chance now": advice.now.chance, "band now": [advice.now.low, advice.now.high],
            "worse": advice.worse, "reach": advice.within_reach, "misfit": found.misfit,
            "strain": found.strain, "middle": advice.after.middle,
        }  # fmt: skip
        trials.append(trial)
        made_before = sum("after" in each for each in trials)
        if advice.verdict == "cannot tell" and len(trials) < MOST_TRIALS + 1 and not doubted:
            # What the sheet says next: calibrate anew, and sweep again.
            doubted, truth, readings = True, calibrated_anew(truth, rng), []
            continue
        if advice.verdict != "move" or made_before >= MOST_TRIALS:
            break
        made = {}
        for key, amount in advice.moves().items():
            moves[key] = moves.get(key, 0.0) + amount
            care = CARE.share if key.startswith("stage.") else CARE.length
            made[key] = amount + care * rng.normal()
        truth = taken_out_again(moved(truth, made), rng)
        trial["after"] = true_swr(truth)
    inside = {}
    for place, cause in enumerate(found.causes):
        if cause.key in spreads(number):
            half = BAND * found.spread[place]
            inside[cause.key] = bool(abs(truth.off[cause.key] - found.mean[place]) <= half)
    return {
        "design": number, "effect": effect, "before": before, "end": true_swr(truth),
        "best": best_possible(number, truth, rng), "trials": trials, "inside": inside,
        "seconds": time.perf_counter() - begun,
    }  # fmt: skip


def best_possible(number: int, truth: Truth, rng: np.random.Generator) -> float:
    """Lowest ratio that tips of the driven element, strap and capacitor can give, exactly set."""
    del rng
    keys = [k for k in spreads(number) if k in ("strap", "stage.0")]
    keys.append(f"tip.{min(1, len(DESIGNS[number].lengths) - 1)}")
    at = np.array([truth.beam.design_frequency])
    amounts = dict.fromkeys(keys, 0.0)
    steps = {key: 0.05 if key == "stage.0" else spreads(number)[key] for key in keys}

    def parts(values: dict[str, float]) -> np.ndarray:
        z = start_of_line(moved(truth, values), at)[0]
        g = (z - truth.target) / (z + truth.target)
        return np.array([g.real, g.imag])

    for _ in range(4):
        base = parts(amounts)
        slope = np.array(
            [(parts({**amounts, k: amounts[k] + 0.3 * steps[k]}) - base) / 0.3 for k in keys]
        ).T
        change = -np.linalg.lstsq(slope, base, rcond=0.03)[0]
        change /= max(1.0, np.max(np.abs(change)) / 4.0)
        amounts = {k: amounts[k] + c * steps[k] for k, c in zip(keys, change, strict=True)}
    size = min(0.998, float(np.hypot(*parts(amounts))))
    return (1.0 + size) / (1.0 - size)


def run_other(task: tuple[int, int]) -> dict:
    """A sweep of something else, held against the plan."""
    seed, case = task
    begun = time.perf_counter()
    rng = np.random.default_rng([seed, case, 3])
    number = case % len(DESIGNS)
    truth = draw_truth(number, rng)
    at = np.linspace(*DESIGNS[number].band, POINTS)
    kinds = ("another beam", "a dipole cut elsewhere", "a matched load", "random resonances")
    kind = kinds[(case // len(DESIGNS)) % len(kinds)]
    if kind == "another beam":
        other = int(rng.choice([n for n in range(len(DESIGNS)) if n != number]))
        seen = read(draw_truth(other, rng), np.linspace(*DESIGNS[other].band, POINTS), rng)
    else:
        seen = _something(kind, truth, at, rng)
    sweep = Sweep(frequencies=at, reflection=seen).thinned(points=MOST_POINTS)
    found = fitted_to(number, truth, [Reading(sweep=sweep)], case)
    return {
        "design": number, "kind": kind, "explained": found.explained, "misfit": found.misfit,
        "strain": found.strain, "verdict": found.advice.verdict,
        "seconds": time.perf_counter() - begun,
    }  # fmt: skip


def _something(kind: str, truth: Truth, at: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    """Reflection of a simple circuit behind a line."""
    x = at / at.mean() - 1.0
    if kind == "a matched load":
        z = np.full(len(at), 50.0 * np.exp(0.05 * rng.normal()), dtype=complex)
    elif kind == "a dipole cut elsewhere":
        z = rng.uniform(40.0, 90.0) + 1j * 18.0 * rng.uniform(50.0, 80.0) * (
            x + rng.uniform(0.02, 0.08) * rng.choice([-1.0, 1.0])
        )
    else:
        r, q, f = rng.uniform(10.0, 200.0), rng.uniform(20.0, 120.0), rng.uniform(-0.02, 0.02)
        z = r * (1.0 + 2j * q * (x - f))
    g = (z - 50.0) / (z + 50.0)
    way = 4.0 * np.pi * at / SPEED_OF_LIGHT * truth.line_length / 0.66
    noise = rng.normal(size=(2, len(at))) * truth.scatter
    return g * 0.9 * np.exp(-1j * way) + noise[0] + 1j * noise[1]
