"""What stands below the beams, in two cases of wind: bare, and iced with the gust of ice.

The wind is nominal by an American edition and characteristic by other codes; in every pressure
stands the gust factor of the sway.

With ice the loads are weight, weight of ice and wind on the iced areas, D + Di + Wi, ice and its
wind in full as in {tia-222-combinations}. Allowable design may take 0.7 of both by
{asce-7-ice-combinations}; that share is not taken.
"""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Source, Value, phrase
from boomwright.base.records import dataclass
from boomwright.structure.checks.findings import NO_GUST, NO_WIND, SiteLoads
from boomwright.structure.checks.gust import support_response
from boomwright.structure.report import BeamReport
from boomwright.structure.support.guys import GuyLevel, GuyLoad
from boomwright.structure.support.held_beam import SideLoad
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.gust import GustResponse
from boomwright.structure.weather.ice import IceCoat, coat_mass, seen_diameter
from boomwright.structure.weather.wind import Shape, VelocityPressure, velocity_pressure


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCase:
    """Wind with or without ice."""

    site: SiteLoads  #: wind and ice
    iced: bool = False  #: whether everything carries ice
    #: gust factor of what stands below the beams; None for weights only
    gusts: GustResponse | None = None

    @property
    def suffix(self) -> str:
        """What stands behind the name of a check in this case."""
        return ", ice with its wind" if self.iced else ""

    @property
    def windless(self) -> Value:
        """Why no wind of the case is known, or empty."""
        if self.site.nominal is None:
            return self.site.missing or NO_WIND
        return NO_GUST if self.iced and self.site.ice_gust is None else ""

    @property
    def missing(self) -> Value:
        """Why the case cannot be formed, for the wind or for its gust factor, or empty."""
        return self.windless or ("" if self.gusts is None else self.gusts.missing)

    def pressure(self, *, height: float, shape: Shape = "round") -> VelocityPressure:
        """Velocity pressure with its gust factor, of the gust with ice when iced [Pa].

        Args:
            shape: ``round`` or ``lattice``, for the directionality

        Raises:
            ValueError: when the case cannot be formed; see ``missing``
        """
        if self.site.nominal is None or self.missing:
            raise ValueError(self.missing)
        gust = self.site.ice_gust if self.iced else None
        found = velocity_pressure(
            basis=self.site.nominal, height=max(0.0, height), shape=shape, gust=gust
        )
        return found if self.gusts is None else found.with_gusts(self.gusts)

    def coat(self, *, height: float) -> IceCoat | None:
        """Ice at a height in this case; None in the bare case."""
        return self.site.coat(height=height) if self.iced else None

    def basis(self, *, height: float, shape: Shape = "round") -> Value:
        """What a check in this case rests on.

        Args:
            height: height the pressure and the ice are named for [m]
            shape: ``round`` or ``lattice``, for the directionality
        """
        if self.missing:
            return self.missing
        text = self.pressure(height=height, shape=shape).text
        coat = self.coat(height=height)
        if coat is None:
            return text
        return phrase(
            "{text}; {coat}; D + Di + Wi in full{source}", text=text, coat=coat.text,
            source=Source("tia-222-combinations"),
        )  # fmt: skip

    def line_load(self, *, diameter: float, height: float) -> float:
        """Wind on a metre of upright tube [N/m].

        Args:
            diameter: bare outer diameter [m]
        """
        seen = seen_diameter(diameter, self.coat(height=height))
        return self.pressure(height=height).for_force * ROUND_DRAG * seen

    def guy_load(self, *, level: GuyLevel) -> GuyLoad:
        """Weight and wind on a metre of guy, taken at its middle [N/m]."""
        return GuyLoad(
            weight_per_length=self.guy_weight(level=level),
            wind_per_length=self.line_load(
                diameter=level.strand.outer_diameter, height=_guy_middle(level)
            ),
        )

    def guy_weight(self, *, level: GuyLevel) -> float:
        """Weight of a metre of guy, with ice when iced [N/m]."""
        strand, coat = level.strand, self.coat(height=_guy_middle(level))
        ice = coat_mass(strand.outer_diameter, coat)
        return strand.weight_per_length + ice * STANDARD_GRAVITY

    def beam_force(self, *, beam: BeamReport) -> float:
        """Wind on a beam from its worst side, and what wires on ropes pull sideways [N]."""
        side, _ = beam.pulls(iced=self.iced)
        area = beam.areas(iced=self.iced).worst.drag
        return self.pressure(height=beam.centre).for_force * area + side

    def side_loads(self, *, beams: Sequence[BeamReport]) -> tuple[SideLoad, ...]:
        """Wind on beams, mast and rings as horizontal forces."""
        loads = [SideLoad(height=b.centre, force=self.beam_force(beam=b)) for b in beams]
        mast = self.site.inputs.mast
        if mast is not None:
            line = self.line_load(diameter=mast.diameter, height=mast.middle)
            loads.append(SideLoad(height=mast.middle, force=line * mast.proud))
        for ring in self.site.inputs.rings:
            force = self.pressure(height=ring.height).for_force * (ring.drag_area or 0.0)
            loads.append(SideLoad(height=ring.height, force=force))
        return tuple(loads)

    def carried_weight(self, *, beams: Sequence[BeamReport]) -> float | None:
        """Weight of beams, mast, gear and rings, and pulls down; None when one is not known [N]."""
        mast = self.site.inputs.mast
        total = STANDARD_GRAVITY * sum(ring.mass or 0.0 for ring in self.site.inputs.rings)
        total += self.site.inputs.gear_weight
        if mast is not None:
            total += mast.weight
            total += mast.ice_weight(ice=self.coat(height=mast.top_height))
        for beam in beams:
            weight, (_, down) = beam.weighs(iced=self.iced), beam.pulls(iced=self.iced)
            if weight is None:
                return None
            total += weight + down
        return total


def _guy_middle(level: GuyLevel) -> float:
    return max(0.0, (level.height + level.anchor_height) / 2.0)


def load_cases(*, site: SiteLoads, beams: Sequence[BeamReport]) -> tuple[LoadCase, ...]:
    """List the cases a site has."""
    ice = site.inputs.ice
    iced = (False,) if ice is None or ice.thickness == 0.0 else (False, True)
    return tuple(
        LoadCase(site=site, iced=each, gusts=support_response(site=site, beams=beams, iced=each))
        for each in iced
    )
