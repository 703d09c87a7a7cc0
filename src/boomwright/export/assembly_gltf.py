"""The assembly as a glTF 2.0 binary file {gltf-2-0}: every part a node, true scale, metres.

glTF counts y upwards and forward along +z; x of a frame (along the boom, or north) becomes glTF's
+z, z (up) glTF's y, y (to the left) glTF's x, which keeps the axes right-handed. A round bar is
drawn with as many sides as its cross section needs to hold its metal: its corners lie a little
outside, so that volume times density is the mass of the part.
"""

from __future__ import annotations

import json
import math
import struct

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Floats
from boomwright.parts import Assembly, Bar, Block, Part, Solid

Mesh = tuple[list[Floats], list[Floats], list[tuple[int, int, int]]]

_SIDES = 16
#: corners of a polygon with the area of the circle, over its radius [-]
_OUTSIDE = math.sqrt(2.0 * math.pi / (_SIDES * math.sin(2.0 * math.pi / _SIDES)))
_FLOAT, _WHOLE = 5126, 5125
_VERTICES, _INDICES = 34962, 34963
_TURN = np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]])
_COLOURS = {
    "aluminium": (0.80, 0.82, 0.84, 1.0),
    "steel": (0.45, 0.47, 0.50, 1.0),
    "copper": (0.72, 0.45, 0.30, 1.0),
    "plastic": (0.15, 0.15, 0.16, 1.0),
    "glass fibre": (0.85, 0.80, 0.60, 1.0),
    "concrete": (0.62, 0.60, 0.57, 1.0),
    "bought": (0.35, 0.40, 0.48, 1.0),
}
_LOOKS = {
    "copper": "copper",
    "glass fibre": "glass fibre",
    "concrete": "concrete",
    "polyethylene": "plastic",
    "polyamide": "plastic",
    "as bought": "bought",
}


def _look(part: Part) -> str:
    named = _LOOKS.get(part.material)
    if named is not None:
        return named
    is_light = part.material.startswith("60") or part.material == "perfect"
    return "aluminium" if is_light else "steel"


def _ring(bar: Bar) -> tuple[Floats, Floats, Floats, Floats]:
    """Ends of a bar, its direction, and the spokes of its cross section, in glTF axes."""
    start, end = _TURN @ np.array(bar.start), _TURN @ np.array(bar.end)
    along = (end - start) / np.linalg.norm(end - start)
    helper = np.eye(3)[int(np.argmin(np.abs(along)))]
    first = np.cross(along, helper)
    first /= np.linalg.norm(first)
    second = np.cross(along, first)
    angle = 2.0 * math.pi * np.arange(_SIDES) / _SIDES
    spoke = np.cos(angle)[:, None] * first + np.sin(angle)[:, None] * second
    return start, end, along, spoke


def _bar_mesh(bar: Bar) -> Mesh:
    """Outside, bore and ends of a bar; a solid one has no bore and its ends are discs."""
    start, end, along, spoke = _ring(bar)
    outer, inner = (0.5 * _OUTSIDE * size * spoke for size in (bar.diameter, bar.bore))
    n, flat = _SIDES, 0.0 * spoke
    places = [start + outer, end + outer, start + inner, end + inner]
    normals = [spoke, spoke, -spoke, -spoke]
    places += [start + outer, start + inner, end + outer, end + inner]
    normals += [flat - along, flat - along, flat + along, flat + along]
    faces = []
    for i in range(n):
        j = (i + 1) % n
        faces += [(i, j, n + j), (i, n + j, n + i)]
        faces += [(4 * n + j, 4 * n + i, 5 * n + i), (6 * n + i, 6 * n + j, 7 * n + i)]
        if bar.bore > 0.0:
            faces += [(2 * n + j, 2 * n + i, 3 * n + i), (2 * n + j, 3 * n + i, 3 * n + j)]
            faces += [(4 * n + j, 5 * n + i, 5 * n + j), (6 * n + j, 7 * n + j, 7 * n + i)]
    return places, normals, faces


def _block_mesh(block: Block) -> Mesh:
    places: list[Floats] = []
    normals: list[Floats] = []
    faces: list[tuple[int, int, int]] = []
    c, s = math.cos(block.turn), math.sin(block.turn)
    axes = np.array([(c, s, 0.0), (-s, c, 0.0), (0.0, 0.0, 1.0)])
    half = 0.5 * np.array(block.size)
    for k in range(3):
        u, v, w = (axes[(k + step) % 3] * half[(k + step) % 3] for step in (1, 2, 0))
        for sign in (1.0, -1.0):
            corners = [sign * w + a * u + b * v for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
            at = 4 * len(places)
            places.append((np.array(block.middle) + np.array(corners)) @ _TURN.T)
            normals.append(np.tile(sign * axes[k] @ _TURN.T, (4, 1)))
            order = [(0, 1, 2), (0, 2, 3)] if sign > 0.0 else [(0, 2, 1), (0, 3, 2)]
            faces += [(at + a, at + b, at + c_) for a, b, c_ in order]
    return places, normals, faces


def _mesh(
    solids: list[Solid],
) -> tuple[NDArray[np.float32], NDArray[np.float32], NDArray[np.uint32]]:
    """Vertices, normals and triangles of all solids of one part, in glTF axes."""
    places: list[Floats] = []
    normals: list[Floats] = []
    faces: list[tuple[int, int, int]] = []
    count = 0
    for solid in solids:
        made = _bar_mesh(solid) if isinstance(solid, Bar) else _block_mesh(solid)
        places += made[0]
        normals += made[1]
        faces += [(a + count, b + count, c + count) for a, b, c in made[2]]
        count += sum(len(each) for each in made[0])
    return (
        np.concatenate(places).astype(np.float32),
        np.concatenate(normals).astype(np.float32),
        np.array(faces, dtype=np.uint32),
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

    def primitive(self, solids: list[Solid], *, material: int) -> dict[str, object]:
        places, normals, faces = _mesh(solids)
        return {
            "attributes": {
                "POSITION": self.add(places, target=_VERTICES, kind="VEC3", component=_FLOAT),
                "NORMAL": self.add(normals, target=_VERTICES, kind="VEC3", component=_FLOAT),
            },
            "indices": self.add(faces, target=_INDICES, kind="SCALAR", component=_WHOLE),
            "material": material,
        }


def assembly_glb(assembly: Assembly, *, beam: str = "") -> bytes:
    """Write an assembly for a 3D viewer.

    Args:
        beam: name of the beam to write alone, from the rear end of its boom; empty writes the
            whole station from the foot, without beams whose place is not known

    Returns:
        a glTF 2.0 binary file, one node a part, named by its mark, with name, material, density
            and mass as its extras; a part without a place of its own is a node without a shape; the
            same assembly gives the same bytes
    """
    writer, looks = _Writer(), list(_COLOURS)
    meshes: list[dict[str, object]] = []
    nodes: list[dict[str, object]] = []
    for part in assembly.built(beam) if beam else assembly.parts:
        carrier = assembly.carrier(part.carrier)
        if not beam and carrier.origin is None:
            continue
        node: dict[str, object] = {"name": part.mark, "extras": _extras(part)}
        nodes.append(node)
        if not part.solids:
            continue
        solids = list(part.solids) if beam else [carrier.solid_at_foot(s) for s in part.solids]
        node["mesh"] = len(meshes)
        meshes.append({"primitives": [writer.primitive(solids, material=looks.index(_look(part)))]})
    scene: dict[str, object] = {"name": beam or "station"}
    if nodes:
        scene["nodes"] = list(range(len(nodes)))
    document = {
        "asset": {"version": "2.0", "generator": "boomwright"},
        "scene": 0,
        "scenes": [scene],
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
    # No list of a file may be empty, where nothing of a station has a known place {gltf-2-0}.
    for name in () if meshes else ("meshes", "accessors", "bufferViews", "buffers"):
        del document[name]
    if not nodes:
        del document["nodes"]
    return _container(document, bytes(writer.binary))


def _extras(part: Part) -> dict[str, object]:
    return {
        "name": part.name,
        "carrier": part.carrier.removeprefix("#"),
        "material": part.material,
        "density_kg_m3": part.density,
        "mass_kg": part.mass,
        "known": part.known,
        "basis": part.basis,
    }


def _container(document: dict[str, object], binary: bytes) -> bytes:
    """Wrap JSON and data as two chunks of a GLB {gltf-2-0, section 4.4}."""
    text = json.dumps(document, separators=(",", ":"), ensure_ascii=True).encode("ascii")
    text += b" " * (-len(text) % 4)
    chunks = struct.pack("<II", len(text), 0x4E4F534A) + text
    chunks += struct.pack("<II", len(binary), 0x004E4942) + binary if binary else b""
    return struct.pack("<III", 0x46546C67, 2, 12 + len(chunks)) + chunks
