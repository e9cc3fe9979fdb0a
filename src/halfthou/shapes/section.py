"""Sections: the faces a plane cuts through the metal, and their hatching."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, Literal, TypeAlias

from halfthou.shapes import kernel as k
from halfthou.shapes.flat import Area, Point2, Polyline2, Segment2
from halfthou.shapes.solids import Solid, bounding_box, common, is_empty, shapes_in
from halfthou.shapes.views import dot, paper_axes
from halfthou.units import Millimetre, Radian, Vec3

Half: TypeAlias = Literal["both", "upper", "lower"]

_FINENESS: Final[Millimetre] = 0.005
_TURN: Final[Radian] = 0.08
_SPECK: Final = 1e-6
"""Cut faces under this many mm² are rounding, not metal."""


def section(
    solid: Solid, *, origin: Vec3, normal: Vec3, up: Vec3, half: Half = "both"
) -> tuple[Area, ...]:
    """Cut a solid by a plane and return the cut faces, as seen against ``normal``.

    Parameters
    ----------
    origin :
        Any point of the plane.
    normal :
        Square to the plane, toward the eye.
    up :
        What points up on the paper.
    half :
        Keep what lies above or below ``origin`` on the paper, or both.

    Returns
    -------
    :
        Cut faces in the coordinates of the view from ``normal``, largest first.
    """
    if is_empty(solid):
        return ()
    right, upward, toward = paper_axes(normal, up)
    sheet = Solid(shape=_sheet(solid, origin, right, toward, half=half))
    shared = common(sheet, solid).shape
    areas = [
        _area(k.TopoDS.Face(face), right, upward) for face in shapes_in(shared, k.TopAbs_FACE)
    ]
    return tuple(
        sorted((area for area in areas if area.size > _SPECK), key=lambda a: a.size, reverse=True)
    )


def axial_section(solid: Solid, *, half: Half = "both") -> tuple[Area, ...]:
    """Cut turned work along its axis, seen from the front: x to the right, y up."""
    return section(
        solid, origin=(0.0, 0.0, 0.0), normal=(0.0, 0.0, 1.0), up=(0.0, 1.0, 0.0), half=half
    )


def behind_plane(solid: Solid, *, origin: Vec3, normal: Vec3) -> Solid:
    """Return what is left of a solid when all on the eye's side of a plane is taken away.

    A full section is the view of this, with its cut faces hatched.
    """
    if is_empty(solid):
        return solid
    flat = abs(normal[2]) < max(abs(normal[0]), abs(normal[1]))
    right, _, toward = paper_axes(normal, (0.0, 0.0, 1.0) if flat else (0.0, 1.0, 0.0))
    sheet = _sheet(solid, origin, right, toward, half="both")
    reach = 2 * _reach(solid, origin)
    back = k.gp_Vec(*(-reach * part for part in toward))
    return common(solid, Solid(shape=k.BRepPrimAPI_MakePrism(sheet, back).Shape()))


def hatch(areas: Sequence[Area], *, angle: Radian, pitch: Millimetre) -> tuple[Segment2, ...]:
    """Return hatching lines clipped to the areas.

    The lines are laid from (0, 0), so that areas of one part hatched apart still match.
    """
    lines: list[Segment2] = []
    for area in areas:
        lines.extend(_hatch_one(area, math.cos(angle), math.sin(angle), pitch))
    return tuple(lines)


def _reach(solid: Solid, origin: Vec3) -> float:
    box = bounding_box(solid)
    return math.hypot(*box.size) + math.dist(box.middle, origin)


def _sheet(solid: Solid, origin: Vec3, right: Vec3, toward: Vec3, *, half: Half) -> k.Occ:
    plane = k.gp_Ax3(k.gp_Pnt(*origin), k.gp_Dir(*toward), k.gp_Dir(*right))
    reach = _reach(solid, origin)
    low = 0.0 if half == "upper" else -reach
    high = 0.0 if half == "lower" else reach
    return k.BRepBuilderAPI_MakeFace(k.gp_Pln(plane), -reach, reach, low, high).Face()


def _area(face: k.Occ, right: Vec3, upward: Vec3) -> Area:
    properties = k.GProp_GProps()
    k.BRepGProp.SurfaceProperties_s(face, properties)
    outer = k.BRepTools.OuterWire_s(face)
    holes = [
        _loop(k.TopoDS.Wire(wire), face, right, upward)
        for wire in shapes_in(face, k.TopAbs_WIRE)
        if not wire.IsSame(outer)
    ]
    return Area(
        outer=_loop(outer, face, right, upward),
        holes=tuple(holes),
        size=abs(float(properties.Mass())),
    )


def _loop(wire: k.Occ, face: k.Occ, right: Vec3, upward: Vec3) -> Polyline2:
    explorer = k.BRepTools_WireExplorer(wire, face)
    points: list[Point2] = []
    while explorer.More():
        edge = explorer.Current()
        curve = k.BRepAdaptor_Curve(edge)
        found = k.GCPnts_TangentialDeflection(curve, _TURN, _FINENESS)
        line = [found.Value(n + 1) for n in range(found.NbPoints())]
        if edge.Orientation() == k.TopAbs_REVERSED:
            line.reverse()
        points.extend(_on_paper((p.X(), p.Y(), p.Z()), right, upward) for p in line[:-1])
        explorer.Next()
    return tuple(points)


def _on_paper(point: Vec3, right: Vec3, upward: Vec3) -> Point2:
    return (dot(point, right), dot(point, upward))


def _hatch_one(area: Area, cosine: float, sine: float, pitch: Millimetre) -> list[Segment2]:
    """Clip parallel lines to one area: odd crossings go in, even ones come out."""
    loops = [
        [(x * cosine + y * sine, y * cosine - x * sine) for x, y in loop]
        for loop in (area.outer, *area.holes)
    ]
    across = [point[1] for point in loops[0]]
    lines: list[Segment2] = []
    for number in range(math.ceil(min(across) / pitch), math.floor(max(across) / pitch) + 1):
        level = number * pitch
        crossings = sorted(x for loop in loops for x in _crossings(loop, level))
        for a, b in zip(crossings[::2], crossings[1::2], strict=False):
            lines.append(
                (
                    (a * cosine - level * sine, a * sine + level * cosine),
                    (b * cosine - level * sine, b * sine + level * cosine),
                )
            )
    return lines


def _crossings(loop: Sequence[Point2], level: float) -> list[float]:
    found: list[float] = []
    for (ax, ay), (bx, by) in zip(loop, (*loop[1:], loop[0]), strict=True):
        if (ay <= level) != (by <= level):
            found.append(ax + (level - ay) / (by - ay) * (bx - ax))
    return found
