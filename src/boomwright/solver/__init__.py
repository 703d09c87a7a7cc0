"""The field solver: wires in, currents out, and what is read off them.

Straight tubes in line form a *run* (``runs.mesh``); its frequency-independent matrices come
from the exact ring kernel (``runs.static``), everything smooth from a few nodes
(``runs.nodes``, ``assembly``). ``solve_beam`` is the way in for a beam; ``assemble`` and
``solve_currents`` for any system of wires. Conventions are in ``docs/conventions.md``.
"""

from boomwright.solver.assembly import assemble as assemble
from boomwright.solver.beam_model import beam_wires as beam_wires
from boomwright.solver.beam_model import idle_cases as idle_cases
from boomwright.solver.beam_model import reference_detail as reference_detail
from boomwright.solver.beam_model import settled_feeds as settled_feeds
from boomwright.solver.beam_model import surrounded_beam as surrounded_beam
from boomwright.solver.beam_model import working_detail as working_detail
from boomwright.solver.beam_solution import BeamSolution as BeamSolution
from boomwright.solver.beam_solution import beam_effort as beam_effort
from boomwright.solver.beam_solution import element_currents as element_currents
from boomwright.solver.beam_solution import gain_dbi as gain_dbi
from boomwright.solver.beam_solution import solve_beam as solve_beam
from boomwright.solver.beam_solution import solve_beam_both as solve_beam_both
from boomwright.solver.currents import Currents as Currents
from boomwright.solver.currents import conductor_loss as conductor_loss
from boomwright.solver.currents import solve_currents as solve_currents
from boomwright.solver.effort import effort as effort
from boomwright.solver.effort import refuse_long as refuse_long
from boomwright.solver.element_paths import beam_paths as beam_paths
from boomwright.solver.element_paths import both_sides as both_sides
from boomwright.solver.element_paths import further_paths as further_paths
from boomwright.solver.element_paths import mirrored_network as mirrored_network
from boomwright.solver.element_wires import ElementWires as ElementWires
from boomwright.solver.element_wires import both_halves as both_halves
from boomwright.solver.element_wires import element_half as element_half
from boomwright.solver.error_band import ErrorBand as ErrorBand
from boomwright.solver.error_band import Figures as Figures
from boomwright.solver.error_band import error_band as error_band
from boomwright.solver.error_band import standing_wave_ratio as standing_wave_ratio
from boomwright.solver.error_band import standing_wave_spread as standing_wave_spread
from boomwright.solver.error_band import step_safety as step_safety
from boomwright.solver.far_field import Moments as Moments
from boomwright.solver.far_field import far_field as far_field
from boomwright.solver.far_field import moments as moments
from boomwright.solver.far_field import radiated_power as radiated_power
from boomwright.solver.ground import FREE_SPACE as FREE_SPACE
from boomwright.solver.ground import GROUND_CLASSES as GROUND_CLASSES
from boomwright.solver.ground import PERFECT_GROUND as PERFECT_GROUND
from boomwright.solver.ground import Ground as Ground
from boomwright.solver.ground_coupling import GroundMethod as GroundMethod
from boomwright.solver.ground_coupling import ground_matrices as ground_matrices
from boomwright.solver.ground_coupling import ground_seen as ground_seen
from boomwright.solver.ground_screen import LEAST_RADIALS as LEAST_RADIALS
from boomwright.solver.ground_screen import foot_resistance as foot_resistance
from boomwright.solver.half_space import reflected_remainder as reflected_remainder
from boomwright.solver.mounts import MountEffect as MountEffect
from boomwright.solver.mounts import acts_longer as acts_longer
from boomwright.solver.mounts import feed_capacitance as feed_capacitance
from boomwright.solver.mounts import mount_edges as mount_edges
from boomwright.solver.mounts import mount_effect as mount_effect
from boomwright.solver.near_field import Sources as Sources
from boomwright.solver.near_field import near_field as near_field
from boomwright.solver.near_field import near_sources as near_sources
from boomwright.solver.neighbours import MATCHED_OHM as MATCHED_OHM
from boomwright.solver.neighbours import NeighbourReach as NeighbourReach
from boomwright.solver.neighbours import neighbour_reach as neighbour_reach
from boomwright.solver.neighbours import placed_run as placed_run
from boomwright.solver.neighbours import unfolded as unfolded
from boomwright.solver.port_network import Generator as Generator
from boomwright.solver.port_network import drive as drive
from boomwright.solver.port_network import scattering_parameters as scattering_parameters
from boomwright.solver.readings import ElementCurrent as ElementCurrent
from boomwright.solver.readings import PatternCut as PatternCut
from boomwright.solver.readings import SweepPoint as SweepPoint
from boomwright.solver.runs.mesh import Detail as Detail
from boomwright.solver.runs.mesh import EndKind as EndKind
from boomwright.solver.runs.mesh import RunShape as RunShape
from boomwright.solver.runs.prepared_run import Preparer as Preparer
from boomwright.solver.runs.prepared_run import prepare_run as prepare_run
from boomwright.solver.runs.prepared_run import remembering as remembering
from boomwright.solver.trap_loads import trap_impedance as trap_impedance
from boomwright.solver.wire_network import GapPlace as GapPlace
from boomwright.solver.wire_network import WirePath as WirePath
from boomwright.solver.wire_network import wire_network as wire_network
from boomwright.solver.wire_system import Mirror as Mirror
from boomwright.solver.wire_system import PlacedRun as PlacedRun
from boomwright.solver.wire_system import Port as Port
from boomwright.solver.wire_system import WireSystem as WireSystem
