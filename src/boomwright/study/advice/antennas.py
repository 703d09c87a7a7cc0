"""The antenna of a candidate, designed once for all that can carry it."""

from __future__ import annotations

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass, field, replace
from boomwright.parts import Beam, BoomFitting
from boomwright.plan import Plan, Site, band_edges, read_plan, write_plan
from boomwright.plan.bands import Region
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.model_wish import BandPlan
from boomwright.solver import GROUND_CLASSES, Ground, Preparer
from boomwright.study.adopting import adopt_match
from boomwright.study.advice.table import ShapeRow, Table, TaperRow
from boomwright.study.advice.telescoping import telescoped
from boomwright.study.advice.trapped import plain_arrays, trapped, trapped_wire
from boomwright.study.candidates import choice_of, work_out
from boomwright.study.requests import Wishes
from boomwright.study.shapes import shaped_text

#: metal of elements and booms
_METAL = "6061-T6"
#: a boom ends so far beyond its outer elements {common-practice-stations} [m]
_OVERHANG = 0.1
#: the same behind one element by itself, and from the end of that boom to the clamp of the mast
#: {common-practice-stations} [m]
_BEHIND_ONE, _CLAMPED = 0.6, 0.15
#: mass of a balun with its coax {common-practice-stations} [kg]
_BALUN = 0.8
#: ground for the first trim where the place gives constants instead of a class
_USUAL_GROUND = "medium dry"
#: shapes of wire whose elements are balanced by themselves in free space, whatever their height
_TRIMMED_FREE = ("hexagon",)
#: at this height they hang out of reach; lower ones are looked at one by one [m]
_HIGH_ENOUGH = 6.0
#: from so many heavier sets of tubes on, the boom is the next heavier one too
_NEXT_BOOM = 3
#: half of a reflector is longer than this [wavelengths] {common-practice-first-guess}
_REFLECTOR = 0.235
#: elements of telescoping tube come out up to so much longer than those of one diameter [-]
_TELESCOPED = 1.04
#: height that a beam of tubes is matched at, in wavelengths
_MATCHED_WL = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Duty:
    """A band, and the antenna of the plan that serves it."""

    band: str  #: amateur band
    beam: str  #: name of the antenna
    #: edges of the band and design frequency; None where the antenna is for this band alone
    #: [Hz] (3,)
    edges: tuple[float, float, float] | None = None

    def of(self, plan: Plan) -> Beam:
        """The antenna of a plan as it serves this band.

        Args:
            plan: with that antenna among its beams
        """
        beam = next(each for each in plan.beams if each.name == self.beam)
        if self.edges is None:
            return beam
        return replace(beam, band=self.edges[:2], design_frequency=self.edges[2])


@dataclass(frozen=True, slots=True, kw_only=True)
class Antenna:
    """A designed antenna at some height."""

    beams: tuple[Beam, ...]  #: one for each feed (n_beams,)
    boom: BoomPlan | None  #: its boom; None without
    duties: tuple[Duty, ...]  #: what serves each band (n_bands,)

    @property
    def further_bands(self) -> tuple[BandPlan, ...]:
        """Bands that its one beam serves beside its own, as the wish of a plan gives them (n,)."""
        driven = self.beams[0].driven_index + 1
        return tuple(
            BandPlan(band=duty.edges[:2], design_frequency=duty.edges[2], driven=driven)
            for duty in self.duties
            if duty.edges is not None
        )

    def at(self, height: float) -> Antenna:
        """The same antenna at another height.

        Args:
            height: of its middle above ground [m]
        """
        return replace(self, beams=tuple(replace(beam, height=height) for beam in self.beams))


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """Why an antenna cannot be made."""

    said: Value


#: what an antenna is designed once for: shape, bands, and how many heavier sets of tubes
DesignKey = tuple[str, tuple[str, ...], int]


def design_key(shape: ShapeRow, *, bands: tuple[str, ...], heavier: int = 0) -> DesignKey | None:
    """What an antenna is kept under; None when it is trimmed to its height and ground.

    Args:
        bands: what it is to serve (n_bands,)
        heavier: how many heavier sets of tubes than the first that fits
    """
    if shape.wire not in {"", *_TRIMMED_FREE}:
        return None
    return shape.name, bands, 0 if shape.wire else heavier


@dataclass(slots=True, kw_only=True)
class Designer:
    """Designs antennas for one place; what does not hang on its height is designed once."""

    table: Table
    ground: Ground
    region: Region  #: ITU region
    prepare: Preparer
    made: dict[DesignKey, Antenna | Refused] = field(default_factory=dict)
    #: beams of tubes of one diameter, by shape and bands
    _plain: dict[tuple[str, tuple[str, ...]], Beam] = field(default_factory=dict)
    #: the same for two bands on the same places, where traps part them
    _arrays: dict[tuple[str, tuple[str, ...]], tuple[Beam, Beam]] = field(default_factory=dict)

    def design(
        self, shape: ShapeRow, *, bands: tuple[str, ...], height: float, heavier: int = 0
    ) -> Antenna:
        """Design an antenna.

        Args:
            bands: what it is to serve (n_bands,)
            height: of its middle above ground [m]

        Raises:
            BoomwrightError: when it cannot be made
        """
        key = design_key(shape, bands=bands, heavier=heavier)
        if key is None or (shape.wire and height < _HIGH_ENOUGH):
            return self._of_wire(shape, bands, height)
        if key not in self.made:
            try:
                self.made[key] = (
                    self._of_wire(shape, bands, _HIGH_ENOUGH)
                    if shape.wire
                    else self._of_traps(shape, bands, heavier)
                    if shape.traps
                    else self._of_tubes(shape, bands, heavier)
                )
            except BoomwrightError as error:
                self.made[key] = Refused(said=error.said)
        made = self.made[key]
        if isinstance(made, Refused):
            if heavier:
                # The heaviest tubes of the table are used already.
                return self.design(shape, bands=bands, height=height, heavier=heavier - 1)
            raise BoomwrightError(made.said)
        return made.at(height)

    def _wishes(self, shape: ShapeRow, bands: tuple[str, ...], height: float) -> Wishes:
        return Wishes(
            band=bands[0],
            further_bands=bands[1:],
            shape=shape.wire,
            elements=shape.elements or 2,
            height="" if shape.on == ("ground",) else f"{height:.3f} m",
            ground=self.ground.name if self.ground.name in GROUND_CLASSES else _USUAL_GROUND,
            region=self.region,
        )

    def _of_wire(self, shape: ShapeRow, bands: tuple[str, ...], height: float) -> Antenna:
        if shape.traps:
            low, high = (self._of_wire(replace(shape, traps=False), (band,), height).beams[0]
                         for band in bands)  # fmt: skip
            beam = trapped_wire(
                low, high, trap=self.table.trap, ground=self.ground, prepare=self.prepare
            )
            return _trapped(beam, bands, high)
        plan = read_plan(shaped_text(self._wishes(shape, bands, height), tried=False))
        return Antenna(
            beams=tuple(beam.alone for beam in plan.beams),
            boom=None,
            duties=tuple(Duty(band=beam.name, beam=beam.name) for beam in plan.beams),
        )

    def _of_tubes(self, shape: ShapeRow, bands: tuple[str, ...], heavier: int) -> Antenna:
        low, high = band_edges(bands[0], region=self.region)
        wavelength = 2.0 * SPEED_OF_LIGHT / (low + high)
        # Before a search whose beam nobody could make.
        self._taper(_REFLECTOR * wavelength, heavier)
        wishes = replace(
            self._wishes(shape, bands, _MATCHED_WL * wavelength),
            boom=f"{shape.boom * wavelength:.3f} m",
        )
        key = shape.name, bands
        if key not in self._plain:
            self._plain[key] = work_out(choice_of(wishes), wishes=wishes).plan.beams[0]
        beam = self._plain[key]
        half = max(element.half_length for element in beam.elements)
        beam = telescoped(beam, self._taper(half, heavier), prepare=self.prepare)
        beam = self._matched(beam)
        return Antenna(
            beams=(beam,),
            boom=self._boom(beam, heavier),
            duties=(Duty(band=bands[0], beam=beam.name),),
        )

    def _of_traps(self, shape: ShapeRow, bands: tuple[str, ...], heavier: int) -> Antenna:
        first, second = bands
        key = shape.name, bands
        if key not in self._arrays:
            self._arrays[key] = plain_arrays(
                (first, second), elements=shape.elements, boom=shape.boom, region=self.region
            )
        low, high = self._arrays[key]
        half = max(element.half_length for element in low.elements)
        beam = trapped(
            low,
            high,
            # Traps take less off than they stand in for.
            taper=self._taper(half / _TELESCOPED, heavier),
            trap=self.table.trap,
            prepare=self.prepare,
        )
        made = _trapped(beam, bands, high)
        return replace(made, boom=self._boom(made.beams[0], heavier))

    def _taper(self, half: float, heavier: int) -> TaperRow:
        """Tubes that are long enough, heavier by so many sets."""
        long_enough = [row for row in self.table.taper if row.longest >= _TELESCOPED * half]
        if len(long_enough) <= heavier:
            raise BoomwrightError(
                phrase(
                    "no {heavier}tubes for half elements of {half} are in the table",
                    heavier="heavier " if heavier else "",
                    half=Quantity(half, "span"),
                )
            )
        return long_enough[heavier]

    def _matched(self, beam: Beam) -> Beam:
        """The beam with its hairpin solved in the field over its ground; as it is without one."""
        if beam.feed.kind == "split":
            return beam
        text = write_plan(Plan(title=beam.name, site=Site(ground=self.ground), beams=(beam,)))
        return adopt_match(text, read_plan(text), number=0, kind="hairpin").plan.beams[0]

    def _boom(self, beam: Beam, heavier: int) -> BoomPlan:
        """The lightest tube for its length; the next one with the heaviest elements."""
        rows = [row for row in self.table.boom if row.longest >= beam.boom_length]
        if not rows:
            raise BoomwrightError(
                phrase(
                    "no tube in the table carries a boom of {boom}",
                    boom=Quantity(beam.boom_length, "span"),
                )
            )
        diameter, wall = rows[min(heavier // _NEXT_BOOM, len(rows) - 1)].tube
        # One element by itself hangs in front of the mast, its feed clear of it.
        behind = _OVERHANG if len(beam.elements) > 1 else _BEHIND_ONE
        first = min(element.position for element in beam.elements)
        return BoomPlan(
            beam=beam.name,
            diameter=diameter,
            wall=wall,
            length=beam.boom_length + _OVERHANG + behind,
            rear_end=first - behind,
            clamp=None if len(beam.elements) > 1 else first - behind + _CLAMPED,
            material=_METAL,
            fitting=(BoomFitting(name="balun and coax", mass=_BALUN, stands_for="feed box"),),
        )


def _trapped(beam: Beam, bands: tuple[str, ...], high: Beam) -> Antenna:
    """An antenna whose traps part two bands.

    Args:
        high: the same for the higher band
    """
    first, second = bands
    named = replace(beam, name=f"{first} and {second}")
    edges = (*high.band, high.design_frequency)
    return Antenna(
        beams=(named,),
        boom=None,
        duties=(Duty(band=first, beam=named.name), Duty(band=second, beam=named.name, edges=edges)),
    )
