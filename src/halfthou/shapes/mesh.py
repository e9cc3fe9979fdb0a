"""Solids as triangles, with the true normal of the surface at each corner."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from halfthou.shapes import kernel as k
from halfthou.shapes.solids import Solid, bounding_box, shapes_in
from halfthou.units import Radian

Floats: TypeAlias = NDArray[np.float64]
Whole: TypeAlias = NDArray[np.int64]

_FINENESS: Final = 1e-3
"""Largest sagitta of a triangle, as a share of the solid's diagonal."""
_TURN: Final[Radian] = 0.2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """Corners, shape (n, 3), their normals out of the metal, and triangles, shape (m, 3)."""

    points: Floats
    normals: Floats
    triangles: Whole


def mesh_of(solid: Solid) -> Mesh:
    """Cover the faces of a solid with triangles."""
    diagonal = math.hypot(*bounding_box(solid).size)
    k.BRepMesh_IncrementalMesh(solid.shape, _FINENESS * diagonal, False, _TURN, False)  # noqa: FBT003
    points: list[tuple[float, float, float]] = []
    normals: list[tuple[float, float, float]] = []
    triangles: list[tuple[int, int, int]] = []
    for one in shapes_in(solid.shape, k.TopAbs_FACE):
        _add_face(k.TopoDS.Face(one), points, normals, triangles)
    return Mesh(
        points=np.array(points, dtype=np.float64).reshape(-1, 3),
        normals=np.array(normals, dtype=np.float64).reshape(-1, 3),
        triangles=np.array(triangles, dtype=np.int64).reshape(-1, 3),
    )


def _add_face(
    face: k.Occ,
    points: list[tuple[float, float, float]],
    normals: list[tuple[float, float, float]],
    triangles: list[tuple[int, int, int]],
) -> None:
    place = k.TopLoc_Location()
    cover = k.BRep_Tool.Triangulation_s(face, place)
    if cover is None:
        return
    k.BRepLib_ToolTriangulatedShape.ComputeNormals_s(face, cover)
    move = place.Transformation()
    flip = face.Orientation() == k.TopAbs_REVERSED
    sign = -1.0 if flip else 1.0
    first = len(points) - 1
    for number in range(1, cover.NbNodes() + 1):
        point = cover.Node(number).Transformed(move)
        normal = cover.Normal(number).Transformed(move)
        points.append((point.X(), point.Y(), point.Z()))
        normals.append((sign * normal.X(), sign * normal.Y(), sign * normal.Z()))
    for number in range(1, cover.NbTriangles() + 1):
        a, b, c = cover.Triangle(number).Get()
        corners = (a, c, b) if flip else (a, b, c)
        triangles.append((first + corners[0], first + corners[1], first + corners[2]))
