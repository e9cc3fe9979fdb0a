"""The faces of a solid, one by one: what kind, where, how large, hole or boss."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, TypeAlias

from halfthou.shapes import kernel as k
from halfthou.shapes.solids import Solid, shapes_in
from halfthou.units import Millimetre, Radian, Vec3

FaceKind: TypeAlias = Literal["plane", "cylinder", "cone", "other"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One face of a solid.

    ``direction`` is a plane's normal out of the metal, a round face's axis, else None.
    ``point`` lies on the plane, or on the axis; for a cone it is where its radius is measured.
    ``ends`` are where the face begins and stops along its axis.
    ``hollow`` tells a bore from a journal; ``sweep`` is how far round a round face goes.
    """

    kind: FaceKind
    area: float
    centre: Vec3
    direction: Vec3 | None = None
    point: Vec3 | None = None
    ends: tuple[Vec3, Vec3] | None = None
    radius: Millimetre | None = None
    half_angle: Radian | None = None
    hollow: bool = False
    sweep: Radian | None = None


def faces_of(solid: Solid) -> tuple[Face, ...]:
    """List the faces of a solid, in the kernel's order."""
    return tuple(_face(k.TopoDS.Face(one)) for one in shapes_in(solid.shape, k.TopAbs_FACE))


def _face(face: k.Occ) -> Face:
    properties = k.GProp_GProps()
    k.BRepGProp.SurfaceProperties_s(face, properties)
    area, centre = float(properties.Mass()), _triple(properties.CentreOfMass())
    surface = k.BRepAdaptor_Surface(face)
    kind = surface.GetType()
    reversed_ = face.Orientation() == k.TopAbs_REVERSED
    if kind == k.GeomAbs_Plane:
        return _plane(surface.Plane(), area, centre, reversed_=reversed_)
    if kind in (k.GeomAbs_Cylinder, k.GeomAbs_Cone):
        return _round(surface, kind, area, centre, reversed_=reversed_)
    return Face(kind="other", area=area, centre=centre)


def _plane(plane: k.Occ, area: float, centre: Vec3, *, reversed_: bool) -> Face:
    normal = plane.Axis().Direction()
    if reversed_ == plane.Direct():
        normal = normal.Reversed()
    direction, point = _triple(normal), _triple(plane.Location())
    return Face(kind="plane", area=area, centre=centre, direction=direction, point=point)


def _round(surface: k.Occ, kind: k.Occ, area: float, centre: Vec3, *, reversed_: bool) -> Face:
    plain = kind == k.GeomAbs_Cylinder
    shape = surface.Cylinder() if plain else surface.Cone()
    axis = _triple(shape.Axis().Direction())
    point = _triple(shape.Location())
    slant = 1.0 if plain else math.cos(shape.SemiAngle())
    first, last = (slant * v for v in (surface.FirstVParameter(), surface.LastVParameter()))
    return Face(
        kind="cylinder" if plain else "cone",
        area=area,
        centre=centre,
        direction=axis,
        point=point,
        ends=(_along(point, axis, first), _along(point, axis, last)),
        radius=float(shape.Radius() if plain else shape.RefRadius()),
        half_angle=None if plain else abs(float(shape.SemiAngle())),
        hollow=reversed_ == shape.Position().Direct(),
        sweep=float(surface.LastUParameter() - surface.FirstUParameter()),
    )


def _along(point: Vec3, axis: Vec3, way: float) -> Vec3:
    return (point[0] + way * axis[0], point[1] + way * axis[1], point[2] + way * axis[2])


def _triple(place: k.Occ) -> Vec3:
    return (place.X(), place.Y(), place.Z())
