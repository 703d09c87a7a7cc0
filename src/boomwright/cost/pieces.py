"""Tube pieces to cut for a beam: exposed lengths with their overlaps, booms with their joints."""

from __future__ import annotations

import math
from dataclasses import dataclass

from boomwright.base import Notice
from boomwright.parts import Beam, Element


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeKind:
    """A tube as it is bought."""

    material: str  #: alloy and temper, or other material
    diameter: float  #: outer diameter [m]
    wall: float = 0.0  #: wall thickness, 0 when the plan does not say [m]

    @property
    def name(self) -> str:
        """Name used in bills and price lists, e.g. ``tube 25.40 x 1.47 mm 6061-T6``."""
        wall = f" x {self.wall * 1000.0:.2f}" if self.wall > 0.0 else ""
        return f"tube {self.diameter * 1000.0:.2f}{wall} mm {self.material}"


@dataclass(frozen=True, slots=True, kw_only=True)
class TubePiece:
    """One piece to cut."""

    kind: TubeKind  #: tube it is cut from
    length: float  #: length to cut, overlap included [m]
    use: str  #: where it goes
    #: what is written on it: element counted from the rear of the boom, section from the boom
    #: outwards, ``C`` through the middle, ``L`` or ``R`` seen from the rear; parts of one run end
    #: in a, b, ...
    mark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Joints:
    """How tubes are joined {common-practice-tubing}."""

    least_overlap: float = 0.1  #: least length of a tube inside the next larger one [m]
    #: the same in diameters of the inner tube; the larger counts [-]
    overlap_diameters: float = 3.0

    def overlap(self, diameter: float) -> float:
        """Length of a tube that sits inside the next larger one.

        Parameters
        ----------
        diameter
            outer diameter of the inner tube [m]

        Returns
        -------
        float
            overlap [m]
        """
        return max(self.least_overlap, self.overlap_diameters * diameter)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomTube:
    """The boom as bought."""

    diameter: float  #: outer diameter [m]
    length: float  #: length of the boom [m]
    wall: float = 0.0  #: wall thickness, 0 when not said [m]
    material: str = "6061-T6"  #: alloy and temper


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceList:
    """All pieces of a beam."""

    pieces: tuple[TubePiece, ...]  #: pieces to cut (n_pieces,)
    #: joints that need an inner or outer sleeve because a run is longer than the stock: tube and
    #: number
    sleeves: tuple[tuple[TubeKind, int], ...]
    tube_joints: int  #: places where one tube slides into the next
    notices: tuple[Notice, ...]  #: doubts


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    kind: TubeKind
    length: float
    use: str
    mark: str


def _split(run: _Run, longest: float) -> tuple[list[TubePiece], list[tuple[TubeKind, int]]]:
    kind, parts = run.kind, part_count(run.length, longest_stock=longest)
    if parts == 1:
        return [TubePiece(kind=kind, length=run.length, use=run.use, mark=run.mark)], []
    pieces = [
        TubePiece(
            kind=kind,
            length=run.length / parts,
            use=f"{run.use}, part {part + 1} of {parts}",
            mark=run.mark + part_letter(part),
        )
        for part in range(parts)
    ]
    return pieces, [(kind, parts - 1)]


def part_count(length: float, *, longest_stock: float) -> int:
    """Number of equal parts that a run is cut into, so that each fits the stock.

    Parameters
    ----------
    length
        length of the run [m]
    longest_stock
        longest length that can be bought [m]

    Returns
    -------
    int
        parts, 1 when it fits whole
    """
    return max(1, math.ceil(length / longest_stock - 1e-9))


def part_letter(part: int) -> str:
    """Letter of a part of one run.

    Parameters
    ----------
    part
        number of the part, from 0
    """
    return chr(ord("a") + part) if part < 26 else f"/{part + 1}"


def _is_split(beam: Beam, element: Element) -> bool:
    return element.role == "driven" and beam.feed.cuts_element


def _element_runs(
    beam: Beam, element: Element, number: int, joints: Joints, longest: float
) -> list[_Run]:
    """Tube runs of one element; the centre goes through the boom in one run when it can."""
    name = f"element {number} {element.role}"
    split = _is_split(beam, element)
    runs: list[_Run] = []

    def pair(length: float, use: str, section: int) -> list[_Run]:
        return [
            _Run(kind=kind, length=length, use=f"{name}, {use}", mark=f"{number}.{section}{side}")
            for side in "LR"
        ]

    for index, section in enumerate(element.half):
        kind = TubeKind(material=beam.material.name, diameter=section.diameter, wall=section.wall)
        if index == 0:
            whole = 2.0 * section.length
            if split:
                half = section.length - beam.feed.gap / 2.0
                runs += pair(half, "inner half", 1)
            elif whole <= longest:
                centre = _Run(kind=kind, length=whole, use=f"{name}, centre", mark=f"{number}.1C")
                runs.append(centre)
            else:
                runs += pair(section.length, "inner half", 1)
        else:
            length = section.length + joints.overlap(section.diameter)
            runs += pair(length, f"section {index + 1}", index + 1)
    return runs


def _piece_notices(runs: list[_Run], *, boom: BoomTube | None) -> tuple[Notice, ...]:
    notices: list[Notice] = []
    if boom is None:
        notices.append(
            Notice(
                code="cost.boom-missing",
                text="The boom's tube is not given, so it is not in the bill.",
                severity="doubt",
            )
        )
    if any(run.kind.wall == 0.0 for run in runs):
        notices.append(
            Notice(
                code="cost.wall-missing",
                text="Some tubes have no wall thickness in the plan: say it before buying.",
                severity="doubt",
            )
        )
    return tuple(notices)


def tube_pieces(
    beam: Beam,
    *,
    longest_stock: float,
    boom: BoomTube | None = None,
    joints: Joints | None = None,
) -> PieceList:
    """List every piece of tube to cut for a beam.

    Parameters
    ----------
    longest_stock
        longest length that can be bought; longer runs are divided evenly [m]
    boom
        the boom as bought; None leaves it out
    joints
        overlaps; None for the defaults
    """
    rules = joints or Joints()
    runs: list[_Run] = []
    tube_joints = 0
    centre_joints: list[tuple[TubeKind, int]] = []
    along = sorted(beam.elements, key=lambda element: element.position)
    for number, element in enumerate(along, start=1):
        mine = _element_runs(beam, element, number, rules, longest_stock)
        runs += mine
        tube_joints += 2 * (len(element.half) - 1)
        if len(mine) == 2 * len(element.half) and not _is_split(beam, element):
            centre_joints.append((mine[0].kind, 1))
    if boom is not None:
        kind = TubeKind(material=boom.material, diameter=boom.diameter, wall=boom.wall)
        runs.append(_Run(kind=kind, length=boom.length, use="boom", mark="B"))
    pieces: list[TubePiece] = []
    sleeves = centre_joints
    for run in runs:
        parts, joined = _split(run, longest_stock)
        pieces += parts
        sleeves += joined
    counted: dict[TubeKind, int] = {}
    for kind, count in sleeves:
        counted[kind] = counted.get(kind, 0) + count
    return PieceList(
        pieces=tuple(pieces),
        sleeves=tuple(counted.items()),
        tube_joints=tube_joints,
        notices=_piece_notices(runs, boom=boom),
    )
