"""Bodies of metal as plain values: where a line enters and leaves them, how far they reach."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from halfthou.drawing.boss_metal import ArmBody, BossBody
from halfthou.drawing.geometry import Box, Cone, Cylinder, Region, RegionSet
from halfthou.drawing.rays import Interval, through_arm, through_boss, through_box, through_frustum
from halfthou.units import Millimetre, Vec3

_SAME = 1e-9
_NEAR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundBody:
    """Turned metal on the x axis; two diameters for a taper."""

    name: str
    left: Millimetre
    right: Millimetre
    left_diameter: Millimetre
    right_diameter: Millimetre

    @property
    def largest(self) -> Millimetre:
        """The larger of its two end diameters."""
        return max(self.left_diameter, self.right_diameter)

    @property
    def low(self) -> Vec3:
        """Low corner of its bounding box."""
        return (self.left, -self.largest / 2, -self.largest / 2)

    @property
    def high(self) -> Vec3:
        """High corner of its bounding box."""
        return (self.right, self.largest / 2, self.largest / 2)

    def radius_at(self, x: Millimetre) -> Millimetre:
        """Radius at a place along the axis."""
        share = (x - self.left) / (self.right - self.left)
        return (self.left_diameter + share * (self.right_diameter - self.left_diameter)) / 2

    def region(self) -> Region:
        """Return the body as a piece of space."""
        start, end = (self.left, 0.0, 0.0), (self.right, 0.0, 0.0)
        if self.left_diameter == self.right_diameter:
            return Cylinder(start=start, end=end, diameter=self.left_diameter)
        return Cone(
            start=start,
            end=end,
            start_diameter=self.left_diameter,
            end_diameter=self.right_diameter,
        )

    def crossed(self, point: Vec3, axis: int) -> Interval | None:
        """Where a line along ``axis`` through a point enters and leaves the metal."""
        if axis == 0:
            return self._crossed_along(math.hypot(point[1], point[2]))
        if not self.left - _SAME <= point[0] <= self.right + _SAME:
            return None
        radius = self.radius_at(point[0])
        off = abs(point[3 - axis])
        if off >= radius:
            return None
        half = math.sqrt(radius * radius - off * off)
        return (-half, half)

    def _crossed_along(self, off: Millimetre) -> Interval | None:
        left, right = self.left_diameter / 2, self.right_diameter / 2
        if off > max(left, right) - _SAME:
            return None
        if off <= min(left, right):
            return (self.left, self.right)
        meets = self.left + (off - left) / (right - left) * (self.right - self.left)
        return (self.left, meets) if left > right else (meets, self.right)


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockBody:
    """A block square to the frame."""

    name: str
    low: Vec3
    high: Vec3

    def region(self) -> Region:
        """Return the body as a piece of space."""
        return Box(low=self.low, high=self.high)

    def crossed(self, point: Vec3, axis: int) -> Interval | None:
        """Where a line along ``axis`` through a point enters and leaves the metal."""
        for other in range(3):
            if other != axis and not self.low[other] < point[other] < self.high[other]:
                return None
        return (self.low[axis], self.high[axis])


Body: TypeAlias = RoundBody | BlockBody | BossBody | ArmBody
_UNITS: tuple[Vec3, Vec3, Vec3] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def regions_of(body: Body) -> RegionSet:
    """Return a body as pieces of space."""
    if isinstance(body, RoundBody | BlockBody):
        return (body.region(),)
    return body.regions()


def stretches(body: Body, point: Vec3, direction: Vec3) -> tuple[Interval, ...]:
    """Where a line lies inside a body, measured along it from ``point``."""
    match body:
        case BlockBody():
            one = through_box(body.low, body.high, point, direction)
            return (one,) if one else ()
        case RoundBody():
            ends, wide = (body.left, body.right), (body.left_diameter, body.right_diameter)
            one = through_frustum(0, ends, (0.0, 0.0, 0.0), wide, point, direction)
            return (one,) if one else ()
        case BossBody():
            return through_boss(body, point, direction)
        case ArmBody():
            return through_arm(body, point, direction)


def along_line(bodies: Sequence[Body], point: Vec3, direction: Vec3) -> list[Interval]:
    """Stretches of metal on a line in any direction, joined where they touch."""
    return _joined(sorted(one for body in bodies for one in stretches(body, point, direction)))


def _crossed(body: Body, point: Vec3, axis: int) -> tuple[Interval, ...]:
    if isinstance(body, RoundBody | BlockBody):
        one = body.crossed(point, axis)
        return (one,) if one else ()
    at = point[axis]
    return tuple((at + low, at + high) for low, high in stretches(body, point, _UNITS[axis]))


def crossings(bodies: Sequence[Body], point: Vec3, axis: int) -> list[Interval]:
    """Stretches of metal on a line along ``axis``, joined where they touch, in rising order."""
    return _joined(
        sorted(
            one
            for body in bodies
            for near in _beside(point, axis)
            for one in _crossed(body, near, axis)
        )
    )


def _joined(found: Sequence[Interval]) -> list[Interval]:
    joined: list[Interval] = []
    for low, high in found:
        if joined and low <= joined[-1][1] + _SAME:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return joined


def _beside(point: Vec3, axis: int) -> Iterator[Vec3]:
    """Yield a point and its near neighbours: a line may run in the face between two bodies."""
    yield point
    for other in (number for number in range(3) if number != axis):
        for step in (-_NEAR, _NEAR):
            moved = list(point)
            moved[other] += step
            yield (moved[0], moved[1], moved[2])


def round_across(body: Body, into: Vec3) -> bool:
    """Whether a hole that goes in so leaves a body through a curved outside."""
    if isinstance(body, RoundBody):
        return not into[0]
    return isinstance(body, BossBody) and not into[body.axis]


def in_metal(bodies: Sequence[Body], point: Vec3) -> bool:
    """Whether a point lies inside any body."""
    return any(low < point[0] < high for low, high in crossings(bodies, point, 0))


def reach(bodies: Sequence[Body]) -> tuple[Vec3, Vec3]:
    """Low and high corner of all metal together."""
    lows = [body.low for body in bodies]
    highs = [body.high for body in bodies]
    low = (min(p[0] for p in lows), min(p[1] for p in lows), min(p[2] for p in lows))
    high = (max(p[0] for p in highs), max(p[1] for p in highs), max(p[2] for p in highs))
    return low, high


def grid(low: Vec3, high: Vec3, axis: int, at: float, count: int = 5) -> Iterator[Vec3]:
    """Points spread over a side of a box, clear of its edges."""
    first, second = (other for other in range(3) if other != axis)
    for i in range(count):
        for j in range(count):
            point = [at, at, at]
            point[first] = low[first] + (high[first] - low[first]) * (i + 0.5) / count
            point[second] = low[second] + (high[second] - low[second]) * (j + 0.5) / count
            yield (point[0], point[1], point[2])
