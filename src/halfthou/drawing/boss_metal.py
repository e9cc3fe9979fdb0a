"""Bodies of castings and levers as plain values: bosses and rings, and the arms that join them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from halfthou.drawing.frame import cross_axes, point_with
from halfthou.drawing.geometry import Cone, Cylinder, Prism, RegionSet, TaperTube, Tube
from halfthou.units import Millimetre, Vec3

_SAME = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class BossBody:
    """A round body on an axis of its own; with draft its two ends differ; a ring is hollow.

    ``centre`` is a point on its axis; ``start`` and ``end`` are where it ends along ``axis``.
    """

    name: str
    axis: int
    start: Millimetre
    end: Millimetre
    centre: Vec3
    start_diameter: Millimetre
    end_diameter: Millimetre
    inside: Millimetre = 0.0

    @property
    def largest(self) -> Millimetre:
        """The larger of its two end diameters."""
        return max(self.start_diameter, self.end_diameter)

    @property
    def low(self) -> Vec3:
        """Low corner of its bounding box."""
        first, second = (self.centre[n] - self.largest / 2 for n in cross_axes(self.axis))
        return point_with(self.axis, self.start, first, second)

    @property
    def high(self) -> Vec3:
        """High corner of its bounding box."""
        first, second = (self.centre[n] + self.largest / 2 for n in cross_axes(self.axis))
        return point_with(self.axis, self.end, first, second)

    def on_axis(self, along: Millimetre) -> Vec3:
        """Point of its axis at a coordinate along it."""
        first, second = (self.centre[n] for n in cross_axes(self.axis))
        return point_with(self.axis, along, first, second)

    def regions(self) -> RegionSet:
        """Return the body as pieces of space."""
        start, end = self.on_axis(self.start), self.on_axis(self.end)
        drawn = abs(self.start_diameter - self.end_diameter) > _SAME
        if self.inside and drawn:
            # the ring's own bore is straight: what tapers is outside
            return (
                Tube(start=start, end=end, inside=self.inside,
                     outside=min(self.start_diameter, self.end_diameter)),
                *_skirt(self, start, end),
            )  # fmt: skip
        if self.inside:
            return (Tube(start=start, end=end, inside=self.inside, outside=self.start_diameter),)
        if drawn:
            return (
                Cone(start=start, end=end, start_diameter=self.start_diameter,
                     end_diameter=self.end_diameter),
            )  # fmt: skip
        return (Cylinder(start=start, end=end, diameter=self.start_diameter),)


def _skirt(body: BossBody, start: Vec3, end: Vec3) -> RegionSet:
    wide, narrow = (start, end) if body.start_diameter > body.end_diameter else (end, start)
    return (
        TaperTube(start=narrow, end=wide, start_inside=body.inside, end_inside=body.inside,
                  outside=body.largest),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class ArmBody:
    """A flat arm between two bosses on parallel axes, its edges straight and tangent to both.

    Its outline is the band round two circles. ``covered`` says of each circle whether the
    boss itself fills it over the arm's whole thickness.
    """

    name: str
    axis: int
    start: Millimetre
    end: Millimetre
    centres: tuple[Vec3, Vec3]
    diameters: tuple[Millimetre, Millimetre]
    covered: tuple[bool, bool]

    @property
    def low(self) -> Vec3:
        """Low corner of its bounding box."""
        return self._corner(-1.0, self.start)

    @property
    def high(self) -> Vec3:
        """High corner of its bounding box."""
        return self._corner(1.0, self.end)

    def _corner(self, sign: float, along: Millimetre) -> Vec3:
        found = []
        for n in cross_axes(self.axis):
            reaches = [
                sign * centre[n] + wide / 2
                for centre, wide in zip(self.centres, self.diameters, strict=True)
            ]
            found.append(sign * max(reaches))
        return point_with(self.axis, along, found[0], found[1])

    def outline(self) -> tuple[Vec3, ...]:
        """Return the four points where its straight edges touch the two circles."""
        first, second = cross_axes(self.axis)
        a, b = self.centres
        r, s = (wide / 2 for wide in self.diameters)
        across, up = b[first] - a[first], b[second] - a[second]
        apart = math.hypot(across, up)
        turn = math.atan2(up, across)
        lean = math.acos((r - s) / apart)
        return tuple(
            point_with(
                self.axis,
                self.start,
                centre[first] + radius * math.cos(turn + side),
                centre[second] + radius * math.sin(turn + side),
            )
            for centre, radius, side in ((a, r, lean), (b, s, lean), (b, s, -lean), (a, r, -lean))
        )

    def regions(self) -> RegionSet:
        """Return the body as pieces of space: the band, and the circles no boss fills."""
        sweep = point_with(self.axis, self.end - self.start, 0.0, 0.0)
        band = Prism(outline=self.outline(), along=sweep)
        first, second = cross_axes(self.axis)
        rounds = tuple(
            Cylinder(
                start=point_with(self.axis, self.start, centre[first], centre[second]),
                end=point_with(self.axis, self.end, centre[first], centre[second]),
                diameter=wide,
            )
            for centre, wide, whole in zip(self.centres, self.diameters, self.covered, strict=True)
            if not whole
        )
        return (band, *rounds)
