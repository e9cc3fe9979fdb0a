"""Directions and extents in the part's frame, as the holding of work needs them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import assert_never

from halfthou.drawing.geometry import (
    Box,
    Cone,
    Cylinder,
    Obround,
    Prism,
    Region,
    TaperTube,
    Tube,
)
from halfthou.drawing.model import OUTWARD, Side
from halfthou.units import Millimetre, Vec3

_SQUARE = 0.999
"""Cosine from which two directions count as one."""


def dot(a: Vec3, b: Vec3) -> float:
    """Give the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec3, b: Vec3) -> Vec3:
    """Give the vector product."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def moved(point: Vec3, direction: Vec3, by: Millimetre) -> Vec3:
    """Give the point ``by`` further along a direction."""
    return (
        point[0] + by * direction[0],
        point[1] + by * direction[1],
        point[2] + by * direction[2],
    )


def opposite(direction: Vec3) -> Vec3:
    """Give the direction turned about, without minus noughts."""
    return (0.0 - direction[0], 0.0 - direction[1], 0.0 - direction[2])


def same(a: Vec3, b: Vec3) -> bool:
    """Tell whether two unit directions are one."""
    return dot(a, b) > _SQUARE


def axis_of(direction: Vec3) -> int:
    """Give the number of the axis a direction lies along most: 0, 1 or 2."""
    return max(range(3), key=lambda i: abs(direction[i]))


def side_toward(direction: Vec3) -> Side:
    """Give the side a direction looks to most."""
    return max(OUTWARD, key=lambda side: dot(OUTWARD[side], direction))


def other_side(side: Side) -> Side:
    """Give the side facing away from this one."""
    return side_toward(opposite(OUTWARD[side]))


@dataclass(frozen=True, slots=True, kw_only=True)
class Extents:
    """A box square to the frame that may be flat: where something reaches."""

    low: Vec3
    high: Vec3

    def least(self, direction: Vec3) -> Millimetre:
        """Give the lowest reading along a direction of the frame [mm]."""
        axis = axis_of(direction)
        return self.low[axis] if direction[axis] > 0 else -self.high[axis]

    def most(self, direction: Vec3) -> Millimetre:
        """Give the highest reading along a direction of the frame [mm]."""
        return -self.least(opposite(direction))

    def length(self, direction: Vec3) -> Millimetre:
        """Give the extent along a direction [mm]."""
        return self.most(direction) - self.least(direction)

    @property
    def middle(self) -> Vec3:
        """The centre [mm]."""
        low, high = self.low, self.high
        return ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)

    def joined(self, other: Extents) -> Extents:
        """Give the extents of both."""
        a, b = self, other
        return Extents(
            low=(min(a.low[0], b.low[0]), min(a.low[1], b.low[1]), min(a.low[2], b.low[2])),
            high=(max(a.high[0], b.high[0]), max(a.high[1], b.high[1]), max(a.high[2], b.high[2])),
        )

    def overlaps(self, other: Extents, *, by: Millimetre = 1e-6) -> bool:
        """Tell whether two extents share room in all directions."""
        return all(
            min(self.high[i], other.high[i]) - max(self.low[i], other.low[i]) > by
            for i in range(3)
        )

    def grown(self, by: Vec3) -> Extents:
        """Give the extents with so much more on both sides of each axis."""
        return Extents(
            low=(self.low[0] - by[0], self.low[1] - by[1], self.low[2] - by[2]),
            high=(self.high[0] + by[0], self.high[1] + by[1], self.high[2] + by[2]),
        )


def extents_of(region: Region) -> Extents:
    """Give the box that holds a region, square to the frame."""
    match region:
        case Box():
            return Extents(low=region.low, high=region.high)
        case Prism():
            far = [moved(p, region.along, 1.0) for p in region.outline]
            return _around([*region.outline, *far])
        case Cylinder():
            return _round(region.start, region.end, region.diameter)
        case Cone():
            across = max(region.start_diameter, region.end_diameter)
            return _round(region.start, region.end, across)
        case Tube() | TaperTube():
            return _round(region.start, region.end, region.outside)
        case Obround():
            return _slot(region)
        case _:
            assert_never(region)


def extents_of_all(regions: tuple[Region, ...]) -> Extents | None:
    """Give the box that holds all the regions; None for none."""
    found = None
    for region in regions:
        one = extents_of(region)
        found = one if found is None else found.joined(one)
    return found


def _around(points: list[Vec3]) -> Extents:
    xs, ys, zs = zip(*points, strict=True)
    return Extents(low=(min(xs), min(ys), min(zs)), high=(max(xs), max(ys), max(zs)))


def _round(start: Vec3, end: Vec3, diameter: Millimetre) -> Extents:
    along = (end[0] - start[0], end[1] - start[1], end[2] - start[2])
    length = math.hypot(*along)
    x, y, z = (diameter / 2 * math.sqrt(max(0.0, 1 - (a / length) ** 2)) for a in along)
    return _around([start, end]).grown((x, y, z))


def _slot(slot: Obround) -> Extents:
    direction = tuple(d / math.hypot(*slot.direction) for d in slot.direction)
    down = (direction[0], direction[1], direction[2])
    ends = [slot.start, slot.end]
    points = ends + [moved(p, down, slot.depth) for p in ends]
    x, y, z = (slot.width / 2 * math.sqrt(max(0.0, 1 - d**2)) for d in down)
    return _around(points).grown((x, y, z))
