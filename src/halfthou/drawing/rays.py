"""Where a straight line enters and leaves a body, in any direction.

Distances run along the line from the point it is given by, in units of its direction.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TypeAlias

from halfthou.drawing.boss_metal import ArmBody, BossBody
from halfthou.drawing.frame import cross_axes
from halfthou.units import Millimetre, Vec3

Interval: TypeAlias = tuple[float, float]
Flat: TypeAlias = tuple[float, float]
_TINY = 1e-12
EVER: Interval = (-math.inf, math.inf)


def shared(a: Interval | None, b: Interval | None) -> Interval | None:
    """Stretch that two stretches have in common."""
    if a is None or b is None:
        return None
    low, high = max(a[0], b[0]), min(a[1], b[1])
    return (low, high) if high - low > _TINY else None


def between(low: float, high: float, at: float, by: float) -> Interval | None:
    """Where ``at + t * by`` lies between two values."""
    if abs(by) < _TINY:
        return EVER if low < at < high else None
    ends = sorted(((low - at) / by, (high - at) / by))
    return (ends[0], ends[1])


def through_box(low: Vec3, high: Vec3, point: Vec3, direction: Vec3) -> Interval | None:
    """Where a line lies inside a box."""
    found: Interval | None = EVER
    for n in range(3):
        found = shared(found, between(low[n], high[n], point[n], direction[n]))
    return found


def _through_circle(centre: Flat, radius: float, at: Flat, by: Flat) -> Interval | None:
    """Where a line lies inside a circle, both seen along the circle's axis."""
    x, y = at[0] - centre[0], at[1] - centre[1]
    a = by[0] * by[0] + by[1] * by[1]
    if a < _TINY:
        return EVER if math.hypot(x, y) < radius else None
    b, c = x * by[0] + y * by[1], x * x + y * y - radius * radius
    inner = b * b - a * c
    if inner <= 0:
        return None
    root = math.sqrt(inner)
    return ((-b - root) / a, (-b + root) / a)


def _flat(vector: Vec3, axis: int) -> Flat:
    first, second = cross_axes(axis)
    return (vector[first], vector[second])


def through_frustum(  # noqa: PLR0917
    axis: int,
    ends: Interval,
    centre: Vec3,
    diameters: Interval,
    point: Vec3,
    direction: Vec3,
) -> Interval | None:
    """Where a line lies inside a round body on an axis of the frame, straight or tapered."""
    slab = between(ends[0], ends[1], point[axis], direction[axis])
    at, by = _flat(point, axis), _flat(direction, axis)
    middle = _flat(centre, axis)
    if slab is None:
        return None
    if abs(diameters[0] - diameters[1]) < _TINY:
        return shared(slab, _through_circle(middle, diameters[0] / 2, at, by))
    rate = (diameters[1] - diameters[0]) / 2 / (ends[1] - ends[0])
    r = diameters[0] / 2 + rate * (point[axis] - ends[0])
    grows = rate * direction[axis]
    x, y = at[0] - middle[0], at[1] - middle[1]
    a = by[0] ** 2 + by[1] ** 2 - grows**2
    b = x * by[0] + y * by[1] - r * grows
    c = x * x + y * y - r * r
    return _least_of_quadratic(a, b, c, slab)


def _least_of_quadratic(a: float, b: float, c: float, slab: Interval) -> Interval | None:
    """Where ``a t² + 2 b t + c`` is below nothing, within a stretch."""
    if abs(a) < _TINY:
        if abs(b) < _TINY:
            return slab if c < 0 else None
        edge = -c / (2 * b)
        return shared(slab, (-math.inf, edge) if b > 0 else (edge, math.inf))
    inner = b * b - a * c
    if inner <= 0:
        return slab if a < 0 else None
    low, high = sorted(((-b - math.sqrt(inner)) / a, (-b + math.sqrt(inner)) / a))
    if a > 0:
        return shared(slab, (low, high))
    return shared(slab, (-math.inf, low)) or shared(slab, (high, math.inf))


def through_boss(body: BossBody, point: Vec3, direction: Vec3) -> tuple[Interval, ...]:
    """Stretches of a line inside a boss, or inside the metal of a ring."""
    ends = (body.start, body.end)
    outer = through_frustum(
        body.axis, ends, body.centre, (body.start_diameter, body.end_diameter), point, direction
    )
    if outer is None:
        return ()
    inner = (
        through_frustum(body.axis, ends, body.centre, (body.inside, body.inside), point, direction)
        if body.inside
        else None
    )
    if inner is None:
        return (outer,)
    halves = (shared(outer, (-math.inf, inner[0])), shared(outer, (inner[1], math.inf)))
    return tuple(half for half in halves if half)


def through_arm(body: ArmBody, point: Vec3, direction: Vec3) -> tuple[Interval, ...]:
    """Stretch of a line inside an arm, the circles at its ends included."""
    slab = between(body.start, body.end, point[body.axis], direction[body.axis])
    at, by = _flat(point, body.axis), _flat(direction, body.axis)
    parts = [
        shared(slab, _through_circle(_flat(centre, body.axis), wide / 2, at, by))
        for centre, wide in zip(body.centres, body.diameters, strict=True)
    ]
    corners = [_flat(corner, body.axis) for corner in body.outline()]
    parts.append(shared(slab, _through_corners(corners, at, by)))
    some = [part for part in parts if part]
    if not some:
        return ()
    return ((min(part[0] for part in some), max(part[1] for part in some)),)


def _through_corners(corners: Sequence[Flat], at: Flat, by: Flat) -> Interval | None:
    """Where a line lies inside a flat figure without inward corners."""
    turning = sum(
        a[0] * b[1] - a[1] * b[0] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    sign = 1.0 if turning > 0 else -1.0
    found: Interval | None = EVER
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        edge = (b[0] - a[0], b[1] - a[1])
        inside = sign * (edge[0] * (at[1] - a[1]) - edge[1] * (at[0] - a[0]))
        rate = sign * (edge[0] * by[1] - edge[1] * by[0])
        found = shared(found, between(0.0, math.inf, inside, rate))
    return found


def into_round(
    point: Vec3, direction: Vec3, *, centre: Vec3, axis: Vec3, radius: Millimetre
) -> Millimetre | None:
    """How far along a line a round wall of endless length is first met; None if it is missed."""

    def square(vector: Vec3) -> Vec3:
        along = sum(a * b for a, b in zip(vector, axis, strict=True))
        x, y, z = (a - along * b for a, b in zip(vector, axis, strict=True))
        return (x, y, z)

    start = square((point[0] - centre[0], point[1] - centre[1], point[2] - centre[2]))
    by = square(direction)
    a = sum(n * n for n in by)
    b = sum(p * q for p, q in zip(start, by, strict=True))
    c = sum(n * n for n in start) - radius * radius
    inner = b * b - a * c
    if a < _TINY or inner <= 0:
        return None
    met = (-b - math.sqrt(inner)) / a
    return met if met > _TINY else None
