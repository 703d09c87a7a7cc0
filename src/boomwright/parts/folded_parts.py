"""Parts of the second conductor of a folded element: its tubes or wire, end bars, spacers.

It lies beside the element, on the side that the rods of any match take, fed at its gap and tied to
the element at both tips {common-practice-building}.
"""

from __future__ import annotations

import math
from dataclasses import replace

from boomwright.parts.beams import Element, Feed
from boomwright.parts.element_parts import RING_TERMINAL, TERMINAL_SCREW, TERMINAL_WAY
from boomwright.parts.hardware import (
    CLIP,
    CLIP_EAR,
    COUPLING,
    SCREW_PROUD,
    SPACER,
    STRAP,
    TERMINAL,
    TERMINAL_HOLE,
    TERMINAL_PLACE,
    Hardware,
    given_or,
    stands,
    whose,
)
from boomwright.parts.part import Cut, Fastener, Hole, Part, weighed
from boomwright.parts.solids import Bar, Block
from boomwright.parts.tubes import TubeKind, part_count, part_letter

#: a thinner conductor is wire from the roll [m]; what a knot or lug takes at each end [m]
_WIRE, _LUG = 0.004, 0.15


def folded_parts(
    feed: Feed,
    base: Part,
    element: Element,
    *,
    x: float,
    z: float,
    way: float,
    hardware: Hardware,
    longest_stock: float,
) -> list[Part]:
    """List the second conductor of a folded element; none without its diameter and spacing.

    Args:
        element: the element that it is tied to
        x: place of the element from the rear end of the boom [m]
        z: axis of the element above that of the boom [m]
        way: side along the boom on which it lies, 1 ahead, -1 behind [-]
        longest_stock: longest rod that can be bought [m]
    """
    if feed.rod_diameter is None or feed.rod_spacing is None:
        return []
    size, apart, tip = feed.rod_diameter, feed.rod_spacing, element.half_length
    parts: list[Part] = []
    deep, flat = given_or(hardware.strap, STRAP)
    for number, sign in enumerate((1.0, -1.0), start=1):
        run = Bar(start=(x + way * apart, sign * 0.5 * feed.gap, z),
                  end=(x + way * apart, sign * tip, z), diameter=size)  # fmt: skip
        parts += _conductor(base, run, number, longest_stock, hardware)
        thick = max(size, element.half[-1].diameter)
        bar = Block(middle=(x + way * 0.5 * apart, sign * (tip - 0.5 * deep),
                            z + 0.5 * thick + 0.5 * flat),
                    size=(apart + max(size, deep), deep, flat))  # fmt: skip
        base_bar = replace(base, mark=f"RS{number}", name="end bar to the element")
        parts.append(strap(base_bar, bar, apart, (element.half[-1].diameter, size)[:: int(way)],
                           hardware))  # fmt: skip
        parts += _spacers(base, run, number, way * apart, hardware)
    return parts


def strap(
    base: Part, block: Block, apart: float, conductors: tuple[float, ...], hardware: Hardware
) -> Part:
    """Make a strap over two conductors, each held under it by a clip, so that it slides on both.

    Args:
        base: its mark, name and what it has in common with the other parts
        apart: between the axes of the conductors [m]
        conductors: their diameters, that towards the rear end or the right first [m] (2,)
    """
    inside = [0.5 * apart - 0.5 * each - CLIP_EAR for each in conductors]
    # Rods that stand close take their screws on the outer sides.
    if min(inside) < TERMINAL_HOLE:
        inside = [0.5 * apart + 0.5 * each + CLIP_EAR for each in conductors]
    thick = min(block.size)
    screws = Fastener(name="clip screw, stainless", count=2, size=TERMINAL, grip=thick + CLIP,
                      how="clip screw, stainless, with lock nut,")  # fmt: skip
    clips = [
        Fastener(name="clip, stainless", count=conductors.count(each), size=each,
                 how="clip, stainless, round a conductor of")
        for each in dict.fromkeys(conductors)
    ]  # fmt: skip
    return replace(
        base, form="plate", solids=(block,), mass=weighed(base.material, (block,)),
        holes=(Hole(diameter=TERMINAL_HOLE, at=(-inside[0], inside[1]), purpose="clip screw",
                    way="square through the strap", proud=stands(SCREW_PROUD, TERMINAL)),),
        fasteners=(screws, *clips), price_key="strap with clamps", **whose(hardware.strap),
    )  # fmt: skip


def _conductor(
    base: Part, run: Bar, number: int, longest_stock: float, hardware: Hardware
) -> list[Part]:
    """One half of the conductor: wire in one piece, or rods that fit the stock and are coupled."""
    terminal = Hole(diameter=TERMINAL_HOLE, at=(0.5 * TERMINAL_PLACE,), purpose="feed terminal",
                    way=TERMINAL_WAY, proud=stands(SCREW_PROUD, TERMINAL))  # fmt: skip
    name, mass = "half of the second conductor", weighed(base.material, (run,))
    mark = f"R{number}"
    if run.diameter < _WIRE:
        return [
            replace(base, mark=mark, name=f"{name}, wire", role="wire", solids=(run,), mass=mass,
                    drag="round", price_key=f"wire {1e3 * run.diameter:.2f} mm",
                    quantity=run.length + 2.0 * _LUG, unit="m")
        ]  # fmt: skip
    kind = TubeKind(material=base.material, diameter=run.diameter, is_rod=True)
    count = part_count(run.length, longest_stock=longest_stock)
    long, (x, start, z) = run.length / count, run.start
    step = math.copysign(long, run.end[1])
    reach = 0.5 * given_or(hardware.coupling, COUPLING)[0]
    steps = (0.25 * reach, 0.75 * reach)
    parts = []
    for k in range(count):
        bar = replace(run, start=(x, start + k * step, z), end=(x, start + (k + 1) * step, z))
        at = (*(steps if k else ()), *(long - each for each in steps if k < count - 1))
        joint = Hole(diameter=TERMINAL_HOLE, at=tuple(sorted(at)), purpose="coupling",
                     way="upright, through coupling and rod together")  # fmt: skip
        parts.append(
            replace(
                base, mark=mark if count == 1 else mark + part_letter(k),
                name=name if count == 1 else f"{name}, part {k + 1} of {count}", solids=(bar,),
                mass=weighed(base.material, (bar,)), drag="round",
                cut=Cut(kind=kind, sawn=long, exposed=long), price_key=kind.name, quantity=long,
                unit="m", holes=(*(() if k else (terminal,)), *((joint,) if at else ())),
                fasteners=() if k else (replace(TERMINAL_SCREW, grip=run.diameter), RING_TERMINAL),
            )
        )  # fmt: skip
        if k:
            parts.append(_coupling(base, bar, f"RC{number}.{k}", hardware))
    return parts


def _coupling(base: Part, at: Bar, mark: str, hardware: Hardware) -> Part:
    whole, wall = given_or(hardware.coupling, COUPLING)
    outer, (x, y, z) = at.diameter + 2.0 * wall, at.start
    bar = Bar(start=(x, y - 0.5 * whole, z), end=(x, y + 0.5 * whole, z), diameter=outer,
              bore=at.diameter)  # fmt: skip
    kind = TubeKind(material=base.material, diameter=outer, wall=wall)
    long = bar.length
    return replace(
        base, mark=mark, name="coupling over the second conductor", role="sleeve", form="tube",
        solids=(bar,), mass=weighed(base.material, (bar,)), **whose(hardware.coupling),
        cut=Cut(kind=kind, sawn=long, exposed=long), price_key=kind.name, quantity=long, unit="m",
        holes=(Hole(diameter=TERMINAL_HOLE, at=tuple(long * k / 8.0 for k in (1, 3, 5, 7)),
                    purpose="coupling", way="upright, through coupling and rod together",
                    proud=stands(SCREW_PROUD, TERMINAL)),),
        fasteners=(Fastener(name="coupling screw, stainless", count=4, size=TERMINAL, grip=outer,
                            how="coupling screw, stainless, with lock nut,"),),
    )  # fmt: skip


def _spacers(base: Part, run: Bar, number: int, apart: float, hardware: Hardware) -> list[Part]:
    """Insulators that keep one half at its distance, the first beside its gap."""
    along, high, pitch = given_or(hardware.spacer, SPACER)
    count = max(1, math.ceil(run.length / pitch - 1e-9))
    x, y, z = run.start
    sign = math.copysign(1.0, run.end[1])
    places = [0.05, *(run.length * k / count for k in range(1, count))]
    parts = []
    for k, place in enumerate(places, start=1):
        block = Block(middle=(x - 0.5 * apart, y + sign * place, z),
                      size=(abs(apart) + high, along, high))  # fmt: skip
        parts.append(
            replace(
                base, mark=f"RP{number}.{k}", name="spacer of the second conductor", role="spacer",
                form="bought", material="polyamide", solids=(block,),
                mass=weighed("polyamide", (block,)), conductor=False, **whose(hardware.spacer),
                price_key="spacer of the second conductor",
            )
        )  # fmt: skip
    return parts
