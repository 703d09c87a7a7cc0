"""The search for wire with corners: lengths, the frame along and across, and single corners.

A corner slides on its spreader or rope, towards the hub or away from it, as far as the spreader
reaches. A loop takes its size from its length, so its last corner follows the others.
No table of arrays knows bent wire, so every design is computed by the field solver, at a few
frequencies over the band. Few starts are climbed, by a simplex: first lengths and frame as a
whole, then all with the corners. The first start is the beam given.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from concurrent.futures import Executor

import numpy as np
from numpy.typing import NDArray

from boomwright.base import BoomwrightError
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, field, replace
from boomwright.design.figures_of import BandFigures, band_figures
from boomwright.design.minimax import KEPT
from boomwright.design.search import OnProgress, Progress
from boomwright.design.search_state import ClimbedStart, SearchState, taken_up
from boomwright.design.space import WishError
from boomwright.design.stopping import StoppedError
from boomwright.design.targets import Targets, reflection_loss_db
from boomwright.design.wish import Wish
from boomwright.parts import Beam, Element, Frame, FramePoint
from boomwright.parts.bends import along as way_along
from boomwright.solver import Preparer, remembering

#: frequencies over the band at which designs are computed while searching
_FREQUENCIES = 5
#: starts climbed at most, and designs computed from each; further ones where corners move too
_MOST_STARTS, _DESIGNS, _CORNER_DESIGNS = 3, 80, 60
#: first step of a length and of the frame, and how far starts are drawn [-]
_STEP, _DRAWN = 0.008, 0.02
#: lengths and frame may change by this at most [-]
_RANGE = 0.12
#: price of a decibel of a broken limit [dB]
_PRICE = 10.0
#: ends of wires keep apart by this share of a wavelength
_ENDS_APART_WL = 0.003
#: limits on boom and width may be passed by this, as rounding does [m]
_PLAY = 1e-6
#: score of what cannot be built [dB]
_IMPOSSIBLE = -1000.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BentProblem:
    """A beam of wire with what may change."""

    beam: Beam  #: the beam given, its elements in the order along the boom
    targets: Targets
    frozen: tuple[bool, ...]  #: for each free number whether it stays (m,)
    frequencies: Floats = field(default_factory=lambda: np.zeros(0))  #: [Hz] (f,)
    #: error of every half length that the design must bear; its worst end counts [m]
    length_error: float = 0.0
    boom_limit: float = math.inf  #: most from first to last element [m]
    width_limit: float = math.inf  #: most from side to side of an element [m]

    def built(self, free: Floats) -> Beam:
        """The beam at some free numbers.

        They are a factor on each length, on the frame along and across, and on the distance of
        each corner from the hub.

        Args:
            free: logarithms of the factors (m,)
        """
        factors = np.exp(np.where(self.frozen, 0.0, free))
        return scaled(self.beam, factors)

    def score(self, free: Floats, prepare: Preparer) -> tuple[float, float, BandFigures | None]:
        """Score [dB], how far limits are broken [dB] and figures of a design.

        Args:
            free: logarithms of the factors (m,)
        """
        outside = float(np.maximum(np.abs(free) - _RANGE, 0.0).sum())
        beam = self.built(np.clip(free, -_RANGE, _RANGE))
        if not (can_be_built(beam) and self.fits(beam)):
            return _IMPOSSIBLE - 1000.0 * outside, math.inf, None
        try:
            every = [self.figures(cut, prepare) for cut in (beam, *self._miscut(beam))]
        except BoomwrightError:
            return _IMPOSSIBLE - 1000.0 * outside, math.inf, None
        found = [judged(figures, self.targets, beam) for figures in every]
        breach = max(breach for _, breach in found)
        score = min(worth - _PRICE * breach for worth, breach in found)
        return score - 1000.0 * outside, breach, every[0]

    def figures(self, beam: Beam, prepare: Preparer) -> BandFigures:
        """Figures over the band, with the ratio that the line sees, the field's part included."""
        figures = band_figures(
            beam=beam, targets=self.targets, frequencies=self.frequencies, prepare=prepare
        )
        fed = self.targets.fed
        if fed is None:
            return figures
        at = int(np.abs(figures.frequencies - self.beam.design_frequency).argmin())
        share = np.abs(
            fed.reflection(
                impedance=figures.impedance[None],
                at_design=figures.impedance[at : at + 1],
                ratio=figures.frequencies / figures.frequencies[at],
            )[0]
        )
        return replace(figures, swr=(1.0 + share) / np.maximum(1.0 - share, 1e-6))

    def fits(self, beam: Beam) -> bool:
        """Whether it keeps to the limits on boom and width."""
        wide = max(2.0 * element.reach for element in beam.elements)
        within = beam.boom_length <= self.boom_limit + _PLAY
        return within and wide <= self.width_limit + _PLAY

    def _miscut(self, beam: Beam) -> tuple[Beam, ...]:
        """The beam with each wire in turn cut long and short by the error to be borne."""
        if not self.length_error:
            return ()
        each = self.length_error * np.eye(len(beam.elements))
        return tuple(miscut(beam, errors) for errors in (*each, *-each))


def miscut(beam: Beam, errors: Floats) -> Beam:
    """Change the half length of each wire.

    Args:
        errors: added to each [m] (n_elements,)
    """
    elements = tuple(
        replace(
            element,
            half=tuple(replace(tube, length=tube.length + float(error)) for tube in element.half),
        )
        for element, error in zip(beam.elements, errors, strict=True)
    )
    return replace(beam, elements=elements)


def scaled(beam: Beam, factors: Floats) -> Beam:
    """Change lengths, frame and corners.

    Args:
        factors: of each length, of the frame along the boom and across it, then of the distance of
            each corner from its root (n + 2 + n_corners,)
    """
    count, own = len(beam.elements), Frame()
    along, across = float(factors[count]), float(factors[count + 1])
    slid = dict(zip(corner_names(beam), factors[count + 2 :].tolist(), strict=True))
    for element, factor in zip(beam.elements, factors[:count].tolist(), strict=True):
        slid |= _slid_loop(beam, element, slid, factor / across)

    def moved(point: FramePoint) -> FramePoint:
        x, y, z = _slid(beam.frame or own, point, slid).place
        return replace(point, place=(x * along, y * across, z * across))

    def followed(element: Element) -> tuple[FramePoint, ...]:
        path = tuple(moved(point) for point in element.path)
        if path[0].name or abs(element.path[1].place[0] - element.position) > _PLAY:
            return path
        # A wire drawn straight across goes where the corners at its ends go.
        _, y, z = path[0].place
        return (replace(path[0], place=(path[1].place[0], y, z)), *path[1:])

    paths = tuple(followed(element) for element in beam.elements)
    elements = tuple(
        replace(
            element,
            position=element.position * along if path[0].name else path[0].place[0],
            path=path,
            half=tuple(replace(tube, length=tube.length * float(factor)) for tube in element.half),
        )
        for element, path, factor in zip(beam.elements, paths, factors[:count], strict=True)
    )
    frame = beam.frame
    if frame is not None:
        hub = None if frame.hub is None else frame.hub * along
        frame = replace(frame, points=tuple(moved(point) for point in frame.points), hub=hub)
    return replace(beam, elements=elements, frame=frame)


def _slid(frame: Frame, point: FramePoint, slid: dict[str, float]) -> FramePoint:
    """A point further from its root, or nearer."""
    by = slid.get(point.name, 1.0)
    x, y, z = (a + by * (b - a) for a, b in zip(frame.root(point), point.place, strict=True))
    return replace(point, place=(x, y, z))


def _slid_loop(
    beam: Beam, element: Element, slid: dict[str, float], factor: float
) -> dict[str, float]:
    """Factors on the distances of a loop's points from their roots, so that its wire fits.

    Args:
        slid: factors asked for
        factor: of its length

    Returns:
        factors by name; empty where its points stay
    """
    if beam.frame is None or not _loop_corners(beam, element):
        return {}
    path = _drawn(beam.frame, element)
    by = {point.name: slid.get(point.name, 1.0) for point in path}
    # Wire straight across the boom stays straight.
    by |= {crossing: by[corner] for crossing, corner in _straight(path).items()}
    now = [_slid(beam.frame, point, by).place for point in path]
    factor *= way_along([point.place for point in path]) / way_along(now)
    return {name: factor * own for name, own in by.items()}


def _drawn(frame: Frame, element: Element) -> tuple[FramePoint, ...]:
    """Points of a loop as the plan has them, without the droop of its spreaders."""
    named = {point.name: point for point in frame.points}
    return tuple(named[point.name] for point in element.path)


def _straight(path: tuple[FramePoint, ...]) -> dict[str, str]:
    """Points where a loop runs straight across the boom, with the corner beside each."""
    ends = ((path[0], path[1]), (path[-1], path[-2]))
    return {
        end.name: beside.name
        for end, beside in ends
        if math.dist(end.place, (beside.place[0], 0.0, beside.place[2])) < _PLAY
    }


def _loop_corners(beam: Beam, element: Element) -> tuple[str, ...]:
    """Corners of a loop that can slide, the last one with the rest; none where others use them."""
    if not element.closed or beam.frame is None or _shared(beam):
        return ()
    used = Counter(point.name for other in beam.elements for point in other.path)
    path = _drawn(beam.frame, element)
    turns = tuple(point.name for point in path if point.name not in _straight(path))
    held = beam.frame.spreader is None or set(turns) <= set(beam.frame.spreader.to)
    return turns if held and all(used[point.name] == 1 for point in path) else ()


def _shared(beam: Beam) -> bool:
    """Whether its spreaders hold further beams."""
    return beam.carrier is not None or bool(beam.carried)


def corner_names(beam: Beam) -> tuple[str, ...]:
    """Corners that slide (n_corners,).

    They are points off the boom that spreaders hold and open wires turn at, then those of loops.
    """
    loops = [name for element in beam.elements for name in _loop_corners(beam, element)[:-1]]
    if beam.frame is None or beam.frame.spreader is None:
        return tuple(loops)
    turned = {p.name for e in beam.elements if not (e.closed or e.upright) for p in e.path}
    return (
        *(
            point.name
            for point in beam.frame.points
            if point.name in turned & set(beam.frame.spreader.to) and point.place[1] > 0.0
        ),
        *loops,
    )


def can_be_built(beam: Beam) -> bool:
    """Whether wires end within their frame, spreaders reach, and ends keep apart."""
    open_ends = [e for e in beam.elements if not e.closed and not e.upright]
    for element in beam.elements:
        long = way_along([point.place for point in element.path])
        if not element.closed and element.half_length > long + 1e-6:
            return False
    ends = [element.corners[-1] for element in open_ends]
    least = _ENDS_APART_WL * beam.wavelength
    for number, end in enumerate(ends):
        if any(math.dist(end, other) < least for other in ends[:number]):
            return False
    return not _overlap(open_ends) and _reached(beam.frame)


def _overlap(elements: list[Element]) -> bool:
    """Whether two wires share a stretch of their way, as ends grown past each other do."""
    for number, one in enumerate(elements):
        for other in elements[:number]:
            named = {point.place for point in one.path if point.name}
            turns = [c for c in one.corners[:-1] if c in named]
            if any(corner in other.corners[:-1] for corner in turns):
                return True
            if _passed(one, other):
                return True
    return False


def _passed(one: Element, other: Element) -> bool:
    """Whether the ends of two wires on the same stretch of a frame lie past each other."""
    a, b = np.array(one.corners[-2:]), np.array(other.corners[-2:])
    way, back = a[1] - a[0], b[1] - b[0]
    size = float(np.linalg.norm(way) * np.linalg.norm(back))
    if size == 0.0 or float(way @ back) > -0.999 * size:
        return False
    unit = way / np.linalg.norm(way)
    aside = (b[1] - a[1]) - ((b[1] - a[1]) @ unit) * unit
    near = float(np.linalg.norm(aside)) < 1e-3
    return near and float((b[1] - a[1]) @ unit) < 0.0 < float((b[0] - a[0]) @ unit)


def _reached(frame: Frame | None) -> bool:
    if frame is None or frame.spreader is None:
        return True
    long = sum(tube.length for tube in frame.spreader.sections)
    held = [point for point in frame.points if point.name in frame.spreader.to]
    return all(math.dist(point.place, frame.root(point)) <= long + 0.05 for point in held)


def judged(figures: BandFigures, targets: Targets, beam: Beam) -> tuple[float, float]:
    """Worth of a design [dB], and by how much it breaks limits [dB]."""
    gain, _, rear, swr = figures.worst
    lost = reflection_loss_db(swr=swr)
    at = int(np.abs(figures.frequencies - beam.design_frequency).argmin())
    resistance = float(figures.impedance[at].real)
    low, high = targets.resistance
    breach = max(0.0, targets.least_gain_dbi - gain)
    breach += max(0.0, targets.least_front_to_rear_db - rear)
    if targets.most_swr < math.inf:
        breach += max(0.0, lost - reflection_loss_db(swr=targets.most_swr))
    breach += 10.0 * max(0.0, math.log10(max(low, 1e-9) / max(resistance, 1e-9)))
    if high < math.inf:
        breach += 10.0 * max(0.0, math.log10(max(resistance, 1e-9) / high))
    worth = targets.gain_weight * gain + targets.rear_weight * min(rear, 40.0)
    # One element has nothing to gain but its match.
    weight = targets.match_weight if len(beam.elements) > 1 else max(targets.match_weight, 1.0)
    return worth - weight * min(lost, 40.0), breach


def bent_problem(*, beam: Beam, wish: Wish) -> BentProblem:
    """Make a search problem."""
    count = len(beam.elements)
    _refuse(beam, wish, count)
    order = sorted(range(count), key=lambda i: beam.elements[i].position)
    ordered = replace(beam, elements=tuple(beam.elements[i] for i in order))
    rigid = all(element.closed or element.upright for element in beam.elements)
    one_place = max(abs(e.position) for e in beam.elements) == 0.0 and rigid
    frozen = [number in wish.keep_lengths for number in range(count)]
    held = bool(wish.keep_positions)
    frozen += [held or one_place, held or rigid]
    # Points on spreaders that several beams share stay where all of them meet.
    if count == 1 or _shared(beam):
        frozen[-2:] = [True, True]
    loops = [name for element in beam.elements for name in _loop_corners(beam, element)]
    frozen += [held if name in loops else frozen[-1] for name in corner_names(beam)]
    return BentProblem(
        beam=ordered,
        targets=wish.targets,
        frozen=tuple(frozen),
        length_error=wish.length_error,
        boom_limit=math.inf if wish.boom_limit is None else wish.boom_limit,
        width_limit=math.inf if wish.longest_element is None else wish.longest_element,
        frequencies=bent_frequencies(beam),
    )


def bent_frequencies(beam: Beam) -> Floats:
    """Frequencies at which designs are computed while searching [Hz] (f,)."""
    return np.unique(np.append(np.linspace(*beam.band, _FREQUENCIES), beam.design_frequency))


def _refuse(beam: Beam, wish: Wish, count: int) -> None:
    if not all(element.bent for element in beam.elements):
        raise WishError(
            f"beam {beam.name} has tubes and bent wire, which no search moves together",
            remedy="search each in a plan of its own",
        )
    if beam.wires:
        raise WishError(
            f"beam {beam.name} has further wires, which no search moves", remedy="take them out"
        )
    if wish.elements not in {None, (count, count)}:
        raise WishError(
            f"beam {beam.name} is bent wire, and its search keeps the number of elements",
            remedy="take elements out of [wish]",
        )
    unknown = {
        "wind_area": wish.most_wind_area,
        "mass": wish.most_mass,
        "cost": wish.most_cost,
        "stock": wish.stock or None,
        "closest": wish.closest,
        "even_spacing": wish.even or None,
        "equal_directors": wish.even_directors or None,
    }
    asked = [name for name, value in unknown.items() if value is not None]
    if asked:
        raise WishError(
            f"the search for bent wire does not keep to {', '.join(asked)}",
            remedy="take that out of [wish]",
        )


def climb_bent(
    problem: BentProblem,
    start: Floats,
    number: int,
    go_on: Callable[[], bool] = lambda: True,
    prepare: Preparer | None = None,
) -> ClimbedStart:
    """Climb from one start; a function of its own, so that it can travel to workers.

    Args:
        start: logarithms of the factors (m,)

    Raises:
        StoppedError: when it was told to stop
    """
    # Most beams are straight, and the package takes its time to load.
    from scipy.optimize import minimize

    keep = remembering() if prepare is None else prepare
    count, lengths_and_frame = 0, len(problem.beam.elements) + 2
    best = np.where(problem.frozen, 0.0, start)

    def climbed(free: NDArray[np.int64], designs: int) -> Floats:
        def whole(some: Floats) -> Floats:
            full = best.copy()
            full[free] = some
            return full

        def cost(some: Floats) -> float:
            nonlocal count
            if not go_on():
                raise StoppedError
            count += 1
            return -problem.score(whole(some), keep)[0]

        here = best[free]
        # Corners start inwards: outwards the spreaders may end.
        steps = np.where(free < lengths_and_frame, _STEP, -_STEP)
        simplex = np.vstack([here, here + np.diag(steps)])
        found = minimize(
            cost, here, method="Nelder-Mead",
            options={"maxfev": designs, "xatol": 1e-4, "fatol": 2e-3, "initial_simplex": simplex},
        )  # fmt: skip
        return whole(np.asarray(found.x))

    free = np.flatnonzero(~np.array(problem.frozen))
    together = free[free < lengths_and_frame]
    for numbers, designs in ((together, _DESIGNS), (free, _CORNER_DESIGNS)):
        if len(numbers) and (numbers is together or len(free) > len(together)):
            best = climbed(numbers, designs)
    score, breach, figures = problem.score(best, keep)
    gain, _, rear, swr = (0.0, 0.0, 0.0, math.inf) if figures is None else figures.worst
    return ClimbedStart(
        round_number=0,
        number=number,
        free=() if figures is None else tuple(best.tolist()),
        score=score,
        breach=breach,
        gain_dbi=gain,
        front_to_rear_db=rear,
        reflection_db=reflection_loss_db(swr=swr),
        evaluations=count + 1,
    )


def search_bent(
    *,
    problem: BentProblem,
    seed: int,
    starts: int,
    state: SearchState | None = None,
    executor: Executor | None = None,
    on_progress: OnProgress | None = None,
    prepare: Preparer | None = None,
) -> SearchState:
    """Climb from the beam given and from a few starts around it."""
    now = taken_up(state, seed=seed, starts=starts)
    total = min(starts, _MOST_STARTS)
    generator = np.random.default_rng(seed)
    drawn = generator.uniform(-_DRAWN, _DRAWN, (total, len(problem.frozen)))
    drawn[0] = 0.0
    done = {one.number for one in now.climbed}

    def tell(*, new: bool = False) -> bool:
        return on_progress is None or on_progress(
            Progress(done=len(now.climbed), total=total, best=now.best, state=now, new_state=new)
        )

    for number in (each for each in range(total) if each not in done):
        try:
            if executor is None:
                one = climb_bent(problem, drawn[number], number, tell, prepare)
            else:
                one = executor.submit(climb_bent, problem, drawn[number], number).result()
        except StoppedError:
            return now
        now = replace(now, climbed=(*now.climbed, one))
        if not tell(new=True):
            return now
    return replace(now, finished=True)


def on_bent_grid(
    *, problem: BentProblem, free: Floats, places: float, prepare: Preparer
) -> tuple[Beam, BandFigures]:
    """Cut a design to the grid; where that breaks a limit, try lengths a step to either side.

    Args:
        free: logarithms of the factors (m,)
        places: step of the grid [m]
    """

    def cut(at: Floats) -> tuple[tuple[float, float], Beam, BandFigures]:
        beam = _rounded(problem.built(at), places)
        figures = band_figures(beam=beam, targets=problem.targets, prepare=prepare)
        # The field's part of a match is known at the frequencies of the search only.
        seen = figures if problem.targets.fed is None else problem.figures(beam, prepare)
        worth, breach = judged(seen, problem.targets, beam)
        fits = can_be_built(beam) and problem.fits(beam)
        return (breach if fits else math.inf, -worth), beam, figures

    best, at = cut(free), free
    for number, element in enumerate(problem.beam.elements):
        for way in (places, -places):
            if best[0][0] <= KEPT or problem.frozen[number]:
                break
            moved = at.copy()
            moved[number] += way / element.half_length
            found = cut(moved)
            if found[0] < best[0]:
                best, at = found, moved
    return best[1], best[2]


def _rounded(beam: Beam, places: float) -> Beam:
    """Round lengths and points to whole multiples of a step.

    Args:
        places: the step [m]
    """

    def near(value: float) -> float:
        return round(round(value / places) * places, 9)

    def put(point: FramePoint) -> FramePoint:
        x, y, z = point.place
        return replace(point, place=(near(x), near(y), near(z)))

    elements = tuple(
        replace(
            element,
            position=near(element.position),
            half=tuple(replace(tube, length=near(tube.length)) for tube in element.half),
            path=tuple(put(point) for point in element.path),
        )
        for element in beam.elements
    )
    frame = beam.frame
    if frame is not None:
        frame = replace(frame, points=tuple(put(point) for point in frame.points))
    return replace(beam, elements=elements, frame=frame)
