"""The field solver: wires in, currents out, and what is read off them.

Straight tubes in line form a *run* (``runs.mesh``); its frequency-independent matrices come
from the exact ring kernel (``runs.static``), everything smooth from a few nodes
(``runs.nodes``, ``assembly``). ``solve_beam`` is the way in for a beam; ``assemble`` and
``solve_currents`` for any system of wires. Conventions are in ``docs/conventions.md``.
"""

from boomwright.solver.assembly import PreparedSystem, assemble
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
from boomwright.solver.effort import Effort, effort, refuse_long
from boomwright.solver.element_paths import (
    beam_paths,
    both_sides,
    further_paths,
    mirrored_network,
)
from boomwright.solver.element_wires import ElementWires, both_halves, coat, element_half
from boomwright.solver.error_band import (
    ErrorBand,
    Figures,
    error_band,
    standing_wave_ratio,
    standing_wave_spread,
    step_safety,
)
from boomwright.solver.far_field import Moments, far_field, moments, radiated_power
from boomwright.solver.fresnel import fresnel_coefficients
from boomwright.solver.ground import (
    FREE_SPACE,
    GROUND_CLASSES,
    PERFECT_GROUND,
    Ground,
    GroundKind,
)
from boomwright.solver.ground_coupling import GroundMethod, ground_matrices, ground_seen
from boomwright.solver.ground_screen import LEAST_RADIALS, foot_resistance, screen_resistance
from boomwright.solver.half_space import GroundTable, ground_table, reflected_remainder
from boomwright.solver.lumped import Lumped
from boomwright.solver.mounts import (
    MountEffect,
    acts_longer,
    feed_capacitance,
    mount_edges,
    mount_effect,
)
from boomwright.solver.near_field import Sources, near_field, near_sources
from boomwright.solver.neighbours import (
    LEAST_SHARE,
    MATCHED_OHM,
    NeighbourReach,
    neighbour_reach,
    placed_run,
    unfolded,
)
from boomwright.solver.polarisation import axial_ratio
from boomwright.solver.port_network import (
    Generator,
    PortLine,
    PortLoad,
    PortState,
    drive,
    network_admittance,
    scattering_parameters,
)
from boomwright.solver.power_split import PowerSplit, power_split
from boomwright.solver.readings import ElementCurrent, PatternCut, SweepPoint
from boomwright.solver.runs.mesh import Detail, EndKind, RunShape
from boomwright.solver.runs.prepared_run import PreparedRun, Preparer, prepare_run, remembering
from boomwright.solver.series_inductance import (
    Stretch,
    stretches_between,
    stretches_from_the_end,
)
from boomwright.solver.trap_loads import trap_impedance
from boomwright.solver.wire_network import GapPlace, WirePath, wire_network
from boomwright.solver.wire_system import Feeder, Mirror, PlacedRun, Port, WireSystem

__all__ = [
    "FREE_SPACE",
    "GROUND_CLASSES",
    "LEAST_RADIALS",
    "LEAST_SHARE",
    "MATCHED_OHM",
    "PERFECT_GROUND",
    "BeamSolution",
    "Currents",
    "Detail",
    "Effort",
    "ElementCurrent",
    "ElementWires",
    "EndKind",
    "ErrorBand",
    "Feeder",
    "Figures",
    "GapPlace",
    "Generator",
    "Ground",
    "GroundKind",
    "GroundMethod",
    "GroundTable",
    "Lumped",
    "Mirror",
    "Moments",
    "MountEffect",
    "NeighbourReach",
    "PatternCut",
    "PlacedRun",
    "Port",
    "PortLine",
    "PortLoad",
    "PortState",
    "PowerSplit",
    "PreparedRun",
    "PreparedSystem",
    "Preparer",
    "RunShape",
    "Sources",
    "Stretch",
    "SweepPoint",
    "WirePath",
    "WireSystem",
    "acts_longer",
    "assemble",
    "axial_ratio",
    "beam_effort",
    "beam_paths",
    "beam_wires",
    "both_halves",
    "both_sides",
    "coat",
    "conductor_loss",
    "drive",
    "effort",
    "element_currents",
    "element_half",
    "error_band",
    "far_field",
    "feed_capacitance",
    "foot_resistance",
    "fresnel_coefficients",
    "further_paths",
    "gain_dbi",
    "ground_matrices",
    "ground_seen",
    "ground_table",
    "idle_cases",
    "mirrored_network",
    "moments",
    "mount_edges",
    "mount_effect",
    "near_field",
    "near_sources",
    "neighbour_reach",
    "network_admittance",
    "placed_run",
    "power_split",
    "prepare_run",
    "radiated_power",
    "reference_detail",
    "reflected_remainder",
    "refuse_long",
    "remembering",
    "scattering_parameters",
    "screen_resistance",
    "settled_feeds",
    "solution_of",
    "solve_beam",
    "solve_beam_both",
    "solve_currents",
    "standing_wave_ratio",
    "standing_wave_spread",
    "step_safety",
    "stretches_between",
    "stretches_from_the_end",
    "surrounded_beam",
    "trap_impedance",
    "unfolded",
    "wire_network",
    "working_detail",
]
