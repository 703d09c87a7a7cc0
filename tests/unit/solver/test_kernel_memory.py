"""Kernels kept from the system solved last: a wire that moves makes its own rows anew."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam
from boomwright.feed import FieldSetting, HairpinShape
from boomwright.feed.field_model import solve_wires
from boomwright.solver import (
    GROUND_CLASSES,
    prepare_run,
    remembering,
    solve_beam_both,
    working_detail,
)
from boomwright.solver.kernel_memory import KernelMemory

FREQUENCY = 14.1e6


def stacked():
    """Two beams on one mast."""
    own = beam(
        lengths=[10.7, 10.2, 9.6], places=[0.0, 2.6, 5.5], diameter=0.022, driven=1,
        frequency=FREQUENCY, gap=0.02, height=12.0,
    )  # fmt: skip
    other = replace(own, name="other", height=14.0, idle_feed="shorted")
    return replace(own, neighbours=(other,))


def with_element(whole, number, **changes):
    elements = list(whole.elements)
    elements[number] = replace(elements[number], **changes)
    return replace(whole, elements=tuple(elements))


def impedances(whole, prepare, method="exact"):
    pair = solve_beam_both(
        beam=whole,
        frequencies=np.array([FREQUENCY]),
        detail=working_detail(frequency=FREQUENCY),
        ground=GROUND_CLASSES["medium dry"],
        method=method,
        prepare=prepare,
    )
    return [each.impedance[0] for each in pair]


@pytest.mark.parametrize("method", ["exact", "image"])
def test_a_beam_under_the_hand_is_solved_as_one_never_seen(method):
    whole = stacked()
    prepare = remembering()
    longer = replace(whole.elements[2].half[0], length=4.7)
    steps = [
        whole,
        with_element(whole, 1, position=2.7),
        with_element(whole, 1, position=2.8),
        with_element(whole, 2, half=(longer,)),
        # Further off than the table of the ground reached before.
        with_element(whole, 2, position=8.0),
        replace(whole, height=13.0),
    ]
    for step in steps:
        np.testing.assert_allclose(
            impedances(step, prepare, method), impedances(step, prepare_run, method), rtol=1e-8
        )


def test_only_rows_of_nodes_that_moved_are_made():
    made = []
    generator = np.random.default_rng(1)
    nodes = generator.normal(size=(12, 2))

    def ask(memory, where):
        def make(rows):
            made.append(len(rows))
            return (np.abs(where[rows, None] - where).sum(axis=2),)

        return memory.kernels(name="distance", nodes=where, make=make)[0]

    memory = KernelMemory()
    first = ask(memory, nodes)
    assert ask(memory, nodes) is first
    moved = nodes.copy()
    moved[3:5] += 1.0
    np.testing.assert_array_equal(ask(memory, moved), ask(KernelMemory(), moved))
    # More moved than stayed: all is made anew. What was kept before is not changed by that.
    np.testing.assert_array_equal(ask(memory, moved + 1.0), ask(KernelMemory(), moved + 1.0))
    np.testing.assert_array_equal(first, ask(KernelMemory(), nodes))
    assert made == [12, 2, 12, 12, 12, 12]


def test_what_is_seen_of_nodes_that_moved_is_seen_anew():
    generator = np.random.default_rng(2)
    nodes = generator.normal(size=(12, 2))
    moments = np.kron(np.eye(4), generator.normal(size=(3, 2)))

    def ask(memory, where, by):
        def make(rows):
            return (1j + np.abs(where[rows, None] - where).sum(axis=2),)

        return memory.seen(name="distance", nodes=where, moments=(by,), make=make)[0]

    memory = KernelMemory()
    ask(memory, nodes, moments)
    moved = nodes.copy()
    moved[3:5] += 1.0
    fresh = ask(KernelMemory(), moved, moments)
    np.testing.assert_allclose(ask(memory, moved, moments), fresh, rtol=1e-12)
    # Other moments at nodes that stayed are other unknowns.
    np.testing.assert_allclose(ask(memory, moved, 2.0 * moments), 4.0 * fresh, rtol=1e-12)


def test_a_wire_that_comes_close_is_joined_anew():
    whole = stacked()
    prepare = remembering()
    for place in (2.7, 0.4, 0.5, 2.7):
        step = with_element(whole, 1, position=place)
        np.testing.assert_allclose(
            impedances(step, prepare), impedances(step, prepare_run), rtol=1e-8
        )


def hairpin_solved(whole, *, spacing, frequencies, prepare):
    shape = HairpinShape(rod_diameter=0.01, spacing=spacing, length=0.5, gap=0.02)
    setting = FieldSetting(ground=GROUND_CLASSES["medium dry"], prepare=prepare)
    wires = shape.wires(beam=whole, setting=setting)
    return solve_wires(beam=whole, system=wires, frequencies=frequencies, setting=setting).impedance


def test_a_match_moved_as_a_whole_or_changed_is_solved_as_one_never_seen():
    whole = replace(stacked(), neighbours=())
    prepare, at = remembering(), np.array([FREQUENCY])
    for place, spacing in [(2.6, 0.08), (2.7, 0.08), (2.7, 0.09), (2.8, 0.09)]:
        step = with_element(whole, 1, position=place)
        np.testing.assert_allclose(
            hairpin_solved(step, spacing=spacing, frequencies=at, prepare=prepare),
            hairpin_solved(step, spacing=spacing, frequencies=at, prepare=remembering()),
            rtol=1e-8,
        )


def test_a_band_over_ground_is_what_each_frequency_gives():
    whole, band = replace(stacked(), neighbours=()), np.linspace(14.0e6, 14.35e6, 16)
    together = hairpin_solved(whole, spacing=0.08, frequencies=band, prepare=remembering())
    alone = [
        hairpin_solved(whole, spacing=0.08, frequencies=band[[each]], prepare=remembering())[0]
        for each in (0, 5, 9, 15)
    ]
    np.testing.assert_allclose(together[[0, 5, 9, 15]], alone, rtol=1e-7)
