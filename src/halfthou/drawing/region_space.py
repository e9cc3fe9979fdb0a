"""Regions moved, measured and cut across: how a lump looks with one half further out."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from halfthou.drawing.frame import cross_axes
from halfthou.drawing.geometry import (
    Box,
    Cone,
    Cylinder,
    Obround,
    Prism,
    Region,
    RegionSet,
    TaperTube,
    Tube,
)
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-9
_ROUND: Final = 1e-6


def plus(point: Vec3, by: Vec3) -> Vec3:
    """Point moved by an arrow."""
    return (point[0] + by[0], point[1] + by[1], point[2] + by[2])


def unit(axis: int, by: float = 1.0) -> Vec3:
    """Arrow along an axis."""
    x, y, z = (by if n == axis else 0.0 for n in range(3))
    return (x, y, z)


def shifted(region: Region, by: Vec3) -> Region:
    """Return a region moved."""
    match region:
        case Box():
            return replace(region, low=plus(region.low, by), high=plus(region.high, by))
        case Prism():
            return replace(region, outline=tuple(plus(point, by) for point in region.outline))
        case Cylinder() | Cone() | Obround() | Tube() | TaperTube():
            return replace(region, start=plus(region.start, by), end=plus(region.end, by))


def reach_of(region: Region) -> tuple[Vec3, Vec3]:
    """Low and high corner of a region's bounding box."""
    match region:
        case Box():
            return region.low, region.high
        case Prism():
            points = (*region.outline, *(plus(point, region.along) for point in region.outline))
            return _corners(points, (0.0, 0.0, 0.0))
        case Obround():
            down = [n * region.depth / math.hypot(*region.direction) for n in region.direction]
            far = (down[0], down[1], down[2])
            points = tuple(
                point for end in (region.start, region.end) for point in (end, plus(end, far))
            )
            return _corners(points, _pad(far, region.width))
        case Cylinder():
            return _round(region.start, region.end, region.diameter, region.diameter)
        case Cone():
            return _round(region.start, region.end, region.start_diameter, region.end_diameter)
        case Tube() | TaperTube():
            return _round(region.start, region.end, region.outside, region.outside)


def reach_of_all(regions: Iterable[Region]) -> tuple[Vec3, Vec3]:
    """Low and high corner of the box that holds some regions."""
    boxes = [reach_of(region) for region in regions]
    return _corners([corner for box in boxes for corner in box], (0.0, 0.0, 0.0))


def _corners(points: Iterable[Vec3], pad: Vec3) -> tuple[Vec3, Vec3]:
    xs, ys, zs = zip(*points, strict=True)
    return (
        (min(xs) - pad[0], min(ys) - pad[1], min(zs) - pad[2]),
        (max(xs) + pad[0], max(ys) + pad[1], max(zs) + pad[2]),
    )


def _pad(along: Vec3, wide: Millimetre) -> Vec3:
    length = math.hypot(*along)
    x, y, z = (wide / 2 * math.sqrt(max(0.0, 1 - (n / length) ** 2)) for n in along)
    return (x, y, z)


def _round(start: Vec3, end: Vec3, first: Millimetre, last: Millimetre) -> tuple[Vec3, Vec3]:
    along = (end[0] - start[0], end[1] - start[1], end[2] - start[2])
    a, b = (_corners([at], _pad(along, wide)) for at, wide in ((start, first), (end, last)))
    return _corners([*a, *b], (0.0, 0.0, 0.0))


def section(region: Region, *, axis: int, at: Millimetre, thick: Millimetre) -> RegionSet:
    """Return what a plane across ``axis`` cuts of a region, drawn out ``thick`` along it.

    Exact for what lies along or across the axis. A hole on the slant is taken as a straight
    one where it passes the plane.
    """
    low, high = reach_of(region)
    if not low[axis] + _SAME < at < high[axis] - _SAME:
        return ()
    match region:
        case Box():
            return (_slab(region.low, region.high, axis, at, thick),)
        case Prism():
            return _of_prism(region, axis, at, thick)
        case Obround():
            return (_slab(low, high, axis, at, thick),)
        case _:
            return _of_round(region, axis, at, thick)


def _slab(low: Vec3, high: Vec3, axis: int, at: Millimetre, thick: Millimetre) -> Box:
    bottom, top = list(low), list(high)
    bottom[axis], top[axis] = at, at + thick
    return Box(low=(bottom[0], bottom[1], bottom[2]), high=(top[0], top[1], top[2]))


def _of_prism(region: Prism, axis: int, at: Millimetre, thick: Millimetre) -> RegionSet:
    if abs(abs(region.along[axis]) - math.hypot(*region.along)) < _ROUND:
        level = tuple(plus(point, unit(axis, at - point[axis])) for point in region.outline)
        return (Prism(outline=level, along=unit(axis, thick)),)
    ends = [*region.outline[1:], region.outline[0]]
    met = []
    for a, b in zip(region.outline, ends, strict=True):
        if (a[axis] > at) != (b[axis] > at):
            share = (at - a[axis]) / (b[axis] - a[axis])
            x, y, z = (p + share * (q - p) for p, q in zip(a, b, strict=True))
            met.append((x, y, z))
    if len(met) < 2 or abs(region.along[axis]) > _ROUND:  # noqa: PLR2004
        low, high = reach_of(region)
        return (_slab(low, high, axis, at, thick),)
    low, high = _corners([*met, *(plus(point, region.along) for point in met)], (0.0, 0.0, 0.0))
    return (_slab(low, high, axis, at, thick),)


def _of_round(
    region: Cylinder | Cone | Tube | TaperTube, axis: int, at: Millimetre, thick: Millimetre
) -> RegionSet:
    start, end = region.start, region.end
    along = tuple(b - a for a, b in zip(start, end, strict=True))
    length = math.hypot(*along)
    if abs(along[axis]) < _ROUND * length:
        return _across(region, axis, at, thick)
    share = (at - start[axis]) / along[axis]
    x, y, z = (a + share * b for a, b in zip(start, along, strict=True))
    foot, head = (x, y, z), plus((x, y, z), unit(axis, thick))
    match region:
        case Cylinder():
            return (Cylinder(start=foot, end=head, diameter=region.diameter),)
        case Cone():
            wide = region.start_diameter + share * (region.end_diameter - region.start_diameter)
            return (Cylinder(start=foot, end=head, diameter=wide),)
        case Tube():
            return (replace(region, start=foot, end=head),)
        case TaperTube():
            inside = region.start_inside + share * (region.end_inside - region.start_inside)
            if inside < _ROUND:
                return (Cylinder(start=foot, end=head, diameter=region.outside),)
            return (Tube(start=foot, end=head, inside=inside, outside=region.outside),)


def _wide(region: Cylinder | Cone | Tube | TaperTube) -> tuple[Millimetre, Millimetre]:
    match region:
        case Cylinder():
            return region.diameter, 0.0
        case Cone():
            return max(region.start_diameter, region.end_diameter), 0.0
        case Tube():
            return region.outside, region.inside
        case TaperTube():
            return region.outside, min(region.start_inside, region.end_inside)


def _across(
    region: Cylinder | Cone | Tube | TaperTube, axis: int, at: Millimetre, thick: Millimetre
) -> RegionSet:
    """Cut a round body lengthwise: a flat strip, or for a ring two."""
    start, end = region.start, region.end
    off = abs(at - start[axis])
    outer, inner = _wide(region)
    half = math.sqrt(max(0.0, (outer / 2) ** 2 - off**2))
    bore = math.sqrt(max(0.0, (inner / 2) ** 2 - off**2))
    way = max(range(3), key=lambda n: abs(end[n] - start[n]))
    side = next(n for n in cross_axes(axis) if n != way)
    strips = ((-half, -bore), (bore, half)) if bore else ((-half, half),)
    low, high = _corners([start, end], (0.0, 0.0, 0.0))
    found = []
    for first, last in strips:
        bottom, top = list(low), list(high)
        bottom[side] += first
        top[side] += last
        corner, other = (bottom[0], bottom[1], bottom[2]), (top[0], top[1], top[2])
        found.append(_slab(corner, other, axis, at, thick))
    return tuple(found)
