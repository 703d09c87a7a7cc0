"""One look at a beam: the quick figures of one moment, or the reason there are none."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base import Fault, SolverError
from boomwright.base.records import dataclass
from boomwright.web.readout import Readout, four_numbers, measured_numbers
from boomwright.web.service import PlanDesk
from boomwright.web.view import View

if TYPE_CHECKING:
    from boomwright.parts import Beam
    from boomwright.plan import Plan
    from boomwright.reach import BeamReadings, QuickLook
    from boomwright.study.feed_parts.results import AsMeasured, NotMeasured


#: resistance the standing wave ratio of a look is held against [ohm]
_REFERENCE = 50.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A beam of one moment with its quick figures, or the reason there are none."""

    revision: int  #: state of the plan it belongs to
    plan: Plan
    beam: Beam
    frequency: float  #: frequency looked at [Hz]
    quick: QuickLook | None  #: quick figures; None when the geometry is refused
    faults: tuple[Fault, ...]  #: why it is refused


def solver_fault(error: SolverError) -> Fault:
    """Put a refusal of the solver into words for the page."""
    return Fault(
        path="",
        message=str(error),
        remedy="undo the last change, or correct the dimension named; the figures shown are "
        "those before it",
    )


def look_at(desk: PlanDesk, view: View) -> Look:
    """Compute the quick figures of what a window looks at, once for each state of the plan."""
    revision, plan = desk.snapshot()
    beam = plan.beams[min(view.beam, len(plan.beams) - 1)]
    frequency = view.frequency or beam.design_frequency
    known = desk.known_readings(view.beam, revision=revision) is not None
    # What is known of the band changes the error bands of a look, so it belongs to its name.
    name = (view.beam, frequency, revision, known)
    kept = desk.kept.get(name)
    if isinstance(kept, Look):
        return kept
    quick: QuickLook | None = None
    faults: tuple[Fault, ...] = ()
    try:
        quick = desk.session.quick_look(beam=beam, ground=plan.site.ground, frequency=frequency)
    except SolverError as error:
        faults = (solver_fault(error),)
    look = Look(
        revision=revision,
        plan=plan,
        beam=beam,
        frequency=frequency,
        quick=quick,
        faults=faults,
    )
    desk.kept.put(name, look)
    return look


def read_whole(desk: PlanDesk, view: View) -> tuple[Look, BeamReadings | None]:
    """Compute the whole band, then look: the look's error bands are then those of the band.

    Returns:
        the look, and the readings of the same state of the plan; None when there are none
    """
    try:
        desk.readings(view.beam)
    except SolverError:
        return look_at(desk, view), None
    desk.measured(view.beam)
    look = look_at(desk, view)
    if look.quick is None:
        return look, None
    return look, desk.known_readings(view.beam, revision=look.revision)


def numbers_of(
    look: Look,
    readings: BeamReadings | None,
    measured: AsMeasured | NotMeasured | None,
) -> tuple[Readout, ...]:
    """Write the four numbers of a look: as measured where that is known.

    Args:
        readings: readings over the band of the same state, or None while they are computed
        measured: what the owner will measure in that state, or None while it is solved

    Returns:
        the four numbers; none when the geometry is refused
    """
    if look.quick is None:
        return ()
    # Loads all rooms below, which a look that was refused must not wait for.
    from boomwright.plan.resolve import match_label, matched_points
    from boomwright.study.feed_parts.results import NotMeasured

    beam, point = look.beam, look.quick.point
    reference = readings.reference_resistance if readings else _REFERENCE
    over_ground = look.quick.over_ground
    if readings is not None and look.frequency == look.beam.design_frequency:
        # At rest the exact ground counts, not the quick image that follows a hand.
        over_ground = readings.over_ground
    if measured is not None and not isinstance(measured, NotMeasured):
        return measured_numbers(measured, point=point, over_ground=over_ground)
    return four_numbers(
        point=matched_points(beam, (point,), reference=reference)[0],
        over_ground=over_ground,
        sweep=matched_points(beam, readings.sweep, reference=reference) if readings else (),
        swr_words=match_label(beam),
    )
