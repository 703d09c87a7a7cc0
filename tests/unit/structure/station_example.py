"""Two stations for the tests: a beam on a guyed tower, and one on a pipe. Invented throughout."""

from __future__ import annotations

from dataclasses import replace
from math import radians

from boomwright.base import STANDARD_GRAVITY
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection
from boomwright.structure import (
    AnchorBlock,
    Boom,
    GuyLevel,
    IceBasis,
    Mast,
    PadBase,
    PierBase,
    PointMass,
    Rotator,
    StructureInputs,
    Tower,
    TowerRating,
    TubularSupport,
    UltimateSpeed,
    WindBasis,
)
from boomwright.structure.ground.soils import PRESUMPTIVE_SOILS
from boomwright.structure.support.guys import STRANDS
from fakes.mounted import weighed

ALLOY = MATERIALS["6061-T6"]
HALF = (
    TubeSection(diameter=0.0254, length=1.83, wall=0.0015),
    TubeSection(diameter=0.0222, length=1.22, wall=0.0015),
    TubeSection(diameter=0.01905, length=2.2, wall=0.0015),
)
BEAM = Beam(
    name="20m",
    band=(14.0e6, 14.35e6),
    design_frequency=14.175e6,
    height=21.0,
    heading=0.0,
    material=ALLOY,
    feed=Feed(kind="split", gap=0.04),
    elements=(
        Element(role="reflector", position=0.0, half=HALF),
        Element(role="driven", position=3.2, half=HALF),
        Element(role="director", position=7.2, half=HALF),
    ),
)
BOOM = Boom(
    diameter=0.0635,
    wall=0.003,
    length=7.4,
    rear_end=-0.1,
    material=ALLOY,
    offset=0.06,
)
BALUN = PointMass(name="balun", position=3.2, mass=1.0)
RATING = TowerRating(
    area=1.2,
    area_rule="projected",
    area_height=20.0,
    speed=40.2,
    averaging="3 s gust",
    kind="nominal",
    exposure="C",
    edition="TIA-222-G",
    ice=0.0,
    mast_extension=2.0,
    axial=40e3,
)
GUYED = StructureInputs(
    beams=(weighed(BEAM, BOOM, BALUN),),
    wind=WindBasis(
        speed=UltimateSpeed(gust=51.4), edition="ASCE 7-16", exposure="C", topography=1.0
    ),
    ice=IceBasis(thickness=0.006, concurrent_gust=18.0, mapped=False),
    mast=Mast(
        diameter=0.0508,
        wall=0.00635,
        bearing_height=20.0,
        top_height=21.5,
        rotator_below=1.5,
        yield_strength=317e6,
    ),
    rotator=Rotator(
        turning_torque=90.0,
        holding_torque=500.0,
        start_stop_torque=500.0,
        vertical_load=2000.0,
        turning_gust=20.0,
        turning_rate=radians(6.0),
        area_inside=1.5,
        area_rule="projected",
        least_mast=0.04,
        greatest_mast=0.06,
        side_force=1000.0,
    ),
    tower=Tower(
        kind="guyed",
        height=20.0,
        drag_area_per_length=0.25,
        mass=2500.0 / STANDARD_GRAVITY,
        bending_stiffness=3e6,
        rating=replace(RATING, section_moment=20e3, section_shear=6e3, leg_load=60e3),
    ),
    guying=tuple(
        GuyLevel(
            height=height,
            anchor_radius=15.0,
            strand=STRANDS["3/16 in EHS"],
            initial_tension=1800.0,
        )
        for height in (10.0, 19.0)
    ),
    anchor=AnchorBlock(length=1.2, width=0.6, thickness=0.6, cover=0.9),
    base=PadBase(side=1.2, thickness=1.2),
    soil=PRESUMPTIVE_SOILS["sand"],
    frost_depth=0.8,
)
ON_PIPE = replace(
    GUYED,
    beams=(weighed(replace(BEAM, height=9.0), BOOM, BALUN),),
    mast=None,
    tower=None,
    guying=(),
    anchor=None,
    tube=TubularSupport(diameter=0.0889, wall=0.0055, height=9.0, yield_strength=240e6),
    base=PierBase(width=0.6, depth=2.2),
)
STANDING = replace(
    GUYED,
    tower=replace(
        GUYED.tower,
        kind="self-supporting",
        top_drift=0.2,
        rating=replace(RATING, base_moment=1e5, base_shear=1e4),
    ),
    guying=(),
    anchor=None,
    base=PadBase(side=2.4, thickness=1.2),
)
