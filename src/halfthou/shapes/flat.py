"""What is drawn flat: lines, views and cut areas, in millimetres, x right and y up."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

from halfthou.units import Millimetre

Point2: TypeAlias = tuple[Millimetre, Millimetre]
Polyline2: TypeAlias = tuple[Point2, ...]
Segment2: TypeAlias = tuple[Point2, Point2]


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent2:
    """The smallest upright rectangle around some lines."""

    low: Point2
    high: Point2

    @property
    def width(self) -> Millimetre:
        """From left to right."""
        return self.high[0] - self.low[0]

    @property
    def height(self) -> Millimetre:
        """From bottom to top."""
        return self.high[1] - self.low[1]


def extent_of(lines: Iterable[Polyline2]) -> Extent2:
    """Return the rectangle around the lines; an empty one at the origin if there are none."""
    points = [point for line in lines for point in line] or [(0.0, 0.0)]
    return Extent2(
        low=(min(p[0] for p in points), min(p[1] for p in points)),
        high=(max(p[0] for p in points), max(p[1] for p in points)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A part seen from one side: the lines in sight and those behind metal.

    The frame's origin stays at (0, 0) in every view, so views made along one axis line up.
    Round edges come as fine polylines, a closed one with its first point repeated at its end.
    """

    visible: tuple[Polyline2, ...]
    hidden: tuple[Polyline2, ...]

    @property
    def extent(self) -> Extent2:
        """The rectangle around all that is in sight."""
        return extent_of(self.visible)


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A cut face: its outline and the holes in it, loops not closed by repeating a point."""

    outer: Polyline2
    holes: tuple[Polyline2, ...]
    size: float
    """Exact area, not that of the polylines. [mm²]"""

    @property
    def extent(self) -> Extent2:
        """The rectangle around the outline."""
        return extent_of((self.outer,))
