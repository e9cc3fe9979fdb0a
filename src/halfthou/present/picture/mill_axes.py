"""The part as it lies on the mill: x along the table, y away from the operator, z up."""

from __future__ import annotations

from dataclasses import dataclass

from halfthou.drawing.geometry import Box, Cylinder
from halfthou.planning.model import Scheme
from halfthou.shapes.flat import Point2
from halfthou.shapes.solids import Solid, bounding_box
from halfthou.units import Millimetre, Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class MillAxes:
    """Directions of the table and the spindle, in the part's own frame, unit length."""

    x: Vec3
    y: Vec3
    z: Vec3

    def on_mill(self, point: Vec3) -> Vec3:
        """Return a point of the part as the mill counts it."""
        return (_dot(point, self.x), _dot(point, self.y), _dot(point, self.z))

    def in_part(self, point: Vec3) -> Vec3:
        """Return a point given as the mill counts, in the part's frame."""
        x, y, z = point
        a, b, c = (x * i + y * j + z * k for i, j, k in zip(self.x, self.y, self.z, strict=True))
        return (a, b, c)

    def plan(self, point: Vec3) -> Point2:
        """Return a point of the part as seen from above."""
        return (_dot(point, self.x), _dot(point, self.y))

    def front(self, point: Vec3) -> Point2:
        """Return a point of the part as seen by the operator."""
        return (_dot(point, self.x), _dot(point, self.z))


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What a solid takes up on the mill, from its low corner to its high one."""

    low: Vec3
    high: Vec3


def mill_axes(scheme: Scheme) -> MillAxes:
    """Return how the part lies in a holding."""
    x, z = scheme.across, scheme.faces
    y = (
        z[1] * x[2] - z[2] * x[1],
        z[2] * x[0] - z[0] * x[2],
        z[0] * x[1] - z[1] * x[0],
    )
    return MillAxes(x=x, y=y, z=z)


def room_of(solid: Solid, axes: MillAxes) -> Room:
    """Return what a solid takes up, as the mill counts."""
    box = bounding_box(solid)
    one, two = axes.on_mill(box.low), axes.on_mill(box.high)
    low = tuple(min(pair) for pair in zip(one, two, strict=True))
    high = tuple(max(pair) for pair in zip(one, two, strict=True))
    return Room(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def box_on_mill(low: Vec3, high: Vec3, axes: MillAxes) -> Box:
    """Return a block given as the mill counts, in the part's frame."""
    one, two = axes.in_part(low), axes.in_part(high)
    a = tuple(min(pair) for pair in zip(one, two, strict=True))
    b = tuple(max(pair) for pair in zip(one, two, strict=True))
    return Box(low=(a[0], a[1], a[2]), high=(b[0], b[1], b[2]))


def disc_on_mill(
    *, at: Point2, bottom: Millimetre, top: Millimetre, diameter: Millimetre, axes: MillAxes
) -> Cylinder:
    """Return an upright round given as the mill counts, in the part's frame."""
    return Cylinder(
        start=axes.in_part((*at, bottom)), end=axes.in_part((*at, top)), diameter=diameter
    )


def _dot(a: Vec3, b: Vec3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
