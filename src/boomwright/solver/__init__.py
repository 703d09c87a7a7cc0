"""The field solver: wires in, currents out, and what is read off them.

Straight tubes in line form a *run* (``runs.mesh``); its frequency-independent matrices come
from the exact ring kernel (``runs.static``), everything smooth from a few nodes
(``runs.nodes``, ``assembly``). ``solve_beam`` is the way in for a beam; ``assemble`` and
``solve_currents`` for any system of wires. Conventions are in ``docs/conventions.md``.
"""

from boomwright.solver.assembly import assemble
from boomwright.solver.beam_model import (
    beam_wires,
    idle_cases,
    reference_detail,
    settled_feeds,
    surrounded_beam,
    working_detail,
)
from boomwright.solver.beam_solution import (
    BeamSolution,
    beam_effort,
    element_currents,
    gain_dbi,
    solution_of,
    solve_beam,
    solve_beam_both,
)
from boomwright.solver.currents import Currents, conductor_loss, solve_currents
from boomwright.solver.effort import effort, refuse_large, refuse_long
from boomwright.solver.element_paths import (
    beam_paths,
    both_sides,
    further_paths,
    mirrored_network,
    radial_paths,
    trap_places,
)
from boomwright.solver.element_wires import ElementWires, both_halves, element_half
from boomwright.solver.error_band import (
    ErrorBand,
    Figures,
    error_band,
    standing_wave_ratio,
    standing_wave_spread,
    step_safety,
)
from boomwright.solver.far_field import Moments, far_field, moments, radiated_power
from boomwright.solver.ground import FREE_SPACE, GROUND_CLASSES, PERFECT_GROUND, Ground
from boomwright.solver.ground_coupling import GroundMethod, ground_matrices, ground_seen
from boomwright.solver.ground_screen import LEAST_RADIALS, foot_resistance, screen_resistance
from boomwright.solver.half_space import reflected_remainder
from boomwright.solver.mounts import (
    MountEffect,
    acts_longer,
    feed_capacitance,
    mount_edges,
    mount_effect,
)
from boomwright.solver.near_field import Sources, near_field, near_sources
from boomwright.solver.neighbours import (
    MATCHED_OHM,
    NeighbourReach,
    conductor_run,
    neighbour_reach,
    placed_loads,
    placed_run,
    unfolded,
)
from boomwright.solver.port_network import Generator, drive, scattering_parameters
from boomwright.solver.readings import ElementCurrent, PatternCut, SweepPoint
from boomwright.solver.runs.mesh import Detail, EndKind, RunShape
from boomwright.solver.runs.prepared_run import Preparer, prepare_run, remembering, watched
from boomwright.solver.wire_network import GapPlace, WirePath, wire_network
from boomwright.solver.wire_system import Feeder, Load, Mirror, PlacedRun, Port, WireSystem
