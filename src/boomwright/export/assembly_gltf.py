"""The assembled beam as a glTF 2.0 binary file {gltf-2-0}: tubes as cylinders, true scale, metres.

glTF counts y upwards and forward along +z; the beam's x (towards the heading) becomes glTF's +z,
its z (up) glTF's y, its y (along the elements) glTF's x, which keeps the axes right-handed.
"""

from __future__ import annotations

import json
import math
import struct
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.parts import Beam
from boomwright.plan.model_boom import BoomPlan

Floats = NDArray[np.float64]

_SIDES = 16
_FLOAT, _SHORT = 5126, 5123
_VERTICES, _INDICES = 34962, 34963
_COLOURS = {
    "aluminium": (0.80, 0.82, 0.84, 1.0),
    "boom": (0.55, 0.60, 0.62, 1.0),
    "mast": (0.40, 0.42, 0.45, 1.0),
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Bar:
    name: str
    start: Floats
    end: Floats
    diameter: float
    look: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MastPiece:
    """The piece of mast shown at the boom."""

    at: float  #: its place along the boom [m]
    diameter: float  #: its diameter [m]
    below: float = 1.0  #: how far it reaches below the boom [m]
    above: float = 0.4  #: how far it reaches above the boom [m]


def _bars(beam: Beam, boom: BoomPlan | None, mast: MastPiece | None) -> list[_Bar]:
    bars = []
    for number, element in enumerate(beam.elements, start=1):
        is_cut = element.role == "driven" and beam.feed.cuts_element
        reached = 0.5 * beam.feed.gap if is_cut else 0.0
        outer = 0.0
        for index, section in enumerate(element.half, start=1):
            outer += section.length
            for side, sign in (("L", 1.0), ("R", -1.0)):
                bars.append(
                    _Bar(
                        name=f"{number}.{index}{side}",
                        start=np.array([element.position, sign * reached, 0.0]),
                        end=np.array([element.position, sign * outer, 0.0]),
                        diameter=section.diameter,
                        look="aluminium",
                    )
                )
            reached = outer
    bars += [
        _Bar(name=f"{wire.name} {number}", start=np.asarray(a), end=np.asarray(b),
             diameter=wire.diameter, look="aluminium")
        for wire in beam.wires
        for number, (a, b) in enumerate(zip(wire.points[:-1], wire.points[1:], strict=True), 1)
    ]  # fmt: skip
    # The boom hangs under the elements, tube on tube.
    thickest = max((e.half[0].diameter for e in beam.elements if e.half), default=0.0)
    if boom is not None:
        low = -0.5 * (thickest + boom.diameter)
        bars.append(
            _Bar(name="boom", start=np.array([boom.rear_end, 0.0, low]),
                 end=np.array([boom.rear_end + boom.length, 0.0, low]),
                 diameter=boom.diameter, look="boom")
        )  # fmt: skip
        if mast is not None:
            beside = 0.5 * (boom.diameter + mast.diameter)
            bars.append(
                _Bar(name="mast", start=np.array([mast.at, beside, low - mast.below]),
                     end=np.array([mast.at, beside, low + mast.above]),
                     diameter=mast.diameter, look="mast")
            )  # fmt: skip
    return bars


def _cylinder(bar: _Bar) -> tuple[NDArray[np.float32], NDArray[np.float32], NDArray[np.uint16]]:
    """Vertices, normals and triangles of a closed cylinder, in glTF axes."""
    turn = np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]])
    start, end = turn @ bar.start, turn @ bar.end
    along = (end - start) / np.linalg.norm(end - start)
    helper = np.eye(3)[int(np.argmin(np.abs(along)))]
    first = np.cross(along, helper)
    first /= np.linalg.norm(first)
    second = np.cross(along, first)
    angle = 2.0 * math.pi * np.arange(_SIDES) / _SIDES
    spoke = np.cos(angle)[:, None] * first + np.sin(angle)[:, None] * second
    radius = 0.5 * bar.diameter
    places = [start + radius * spoke, end + radius * spoke] * 2 + [start[None], end[None]]
    normals = [spoke, spoke, -along + 0.0 * spoke, along + 0.0 * spoke, -along[None], along[None]]
    n, faces = _SIDES, []
    for i in range(n):
        j = (i + 1) % n
        faces += [(i, j, n + j), (i, n + j, n + i)]
        faces += [(4 * n, 2 * n + j, 2 * n + i), (4 * n + 1, 3 * n + i, 3 * n + j)]
    return (
        np.concatenate(places).astype(np.float32),
        np.concatenate(normals).astype(np.float32),
        np.array(faces, dtype=np.uint16),
    )


class _Writer:
    """Gathers binary data and the JSON that describes it."""

    def __init__(self) -> None:
        self.binary = bytearray()
        self.views: list[dict[str, int]] = []
        self.accessors: list[dict[str, object]] = []

    def add(self, data: NDArray[np.generic], *, target: int, kind: str, component: int) -> int:
        raw = data.tobytes()
        self.views.append(
            {"buffer": 0, "byteOffset": len(self.binary), "byteLength": len(raw), "target": target}
        )
        self.binary += raw + b"\0" * (-len(raw) % 4)
        accessor: dict[str, object] = {
            "bufferView": len(self.views) - 1,
            "componentType": component,
            "count": len(data) if kind == "VEC3" else data.size,
            "type": kind,
        }
        if kind == "VEC3":
            accessor["min"] = [float(v) for v in np.min(data, axis=0)]
            accessor["max"] = [float(v) for v in np.max(data, axis=0)]
        self.accessors.append(accessor)
        return len(self.accessors) - 1


def assembly_glb(
    *, beam: Beam, boom: BoomPlan | None = None, mast: MastPiece | None = None
) -> bytes:
    """Write the assembled beam for a 3D viewer.

    Parameters
    ----------
    boom
        its boom; None leaves it out
    mast
        the mast at the boom; None leaves it out

    Returns
    -------
    bytes
        a glTF 2.0 binary file, one node a tube, named by its mark; the same beam gives the
        same bytes
    """
    writer = _Writer()
    looks = list(_COLOURS)
    meshes, nodes = [], []
    for number, bar in enumerate(_bars(beam, boom, mast)):
        places, normals, faces = _cylinder(bar)
        meshes.append(
            {
                "primitives": [
                    {
                        "attributes": {
                            "POSITION": writer.add(
                                places, target=_VERTICES, kind="VEC3", component=_FLOAT
                            ),
                            "NORMAL": writer.add(
                                normals, target=_VERTICES, kind="VEC3", component=_FLOAT
                            ),
                        },
                        "indices": writer.add(
                            faces, target=_INDICES, kind="SCALAR", component=_SHORT
                        ),
                        "material": looks.index(bar.look),
                    }
                ]
            }
        )
        nodes.append({"name": bar.name, "mesh": number})
    document = {
        "asset": {"version": "2.0", "generator": "boomwright"},
        "scene": 0,
        "scenes": [{"name": beam.name, "nodes": list(range(len(nodes)))}],
        "nodes": nodes,
        "meshes": meshes,
        "materials": [
            {
                "name": look,
                "pbrMetallicRoughness": {
                    "baseColorFactor": list(colour),
                    "metallicFactor": 0.3,
                    "roughnessFactor": 0.6,
                },
            }
            for look, colour in _COLOURS.items()
        ],
        "accessors": writer.accessors,
        "bufferViews": writer.views,
        "buffers": [{"byteLength": len(writer.binary)}],
    }
    return _container(document, bytes(writer.binary))


def _container(document: dict[str, object], binary: bytes) -> bytes:
    """Wrap JSON and data as two chunks of a GLB {gltf-2-0, section 4.4}."""
    text = json.dumps(document, separators=(",", ":"), ensure_ascii=True).encode("ascii")
    text += b" " * (-len(text) % 4)
    chunks = struct.pack("<II", len(text), 0x4E4F534A) + text
    chunks += struct.pack("<II", len(binary), 0x004E4942) + binary
    return struct.pack("<III", 0x46546C67, 2, 12 + len(chunks)) + chunks
