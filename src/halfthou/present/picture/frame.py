"""From millimetres of metal to millimetres of paper."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from halfthou.present.picture.sheet import Box
from halfthou.shapes.flat import Extent2, Point2, Polyline2
from halfthou.units import Millimetre

_ON_AXIS: Final[Millimetre] = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where the view's own (0, 0) lies on the paper, and the scale; the view's y runs up."""

    at: Point2
    scale: float

    def to(self, point: Point2) -> Point2:
        """Return a point of the view on the paper."""
        return (self.at[0] + self.scale * point[0], self.at[1] - self.scale * point[1])

    def line(self, line: Iterable[Point2]) -> Polyline2:
        """Return a line of the view on the paper."""
        return tuple(self.to(point) for point in line)

    def lines(self, lines: Iterable[Iterable[Point2]]) -> tuple[Polyline2, ...]:
        """Return several lines of the view on the paper."""
        return tuple(self.line(line) for line in lines)

    def x(self, value: Millimetre) -> Millimetre:
        """Return a place along the view's x on the paper."""
        return self.at[0] + self.scale * value

    def y(self, value: Millimetre) -> Millimetre:
        """Return a place along the view's y on the paper."""
        return self.at[1] - self.scale * value

    def box(self, extent: Extent2) -> Box:
        """Return the paper a rectangle of the view covers."""
        return Box(
            left=self.x(extent.low[0]),
            right=self.x(extent.high[0]),
            top=self.y(extent.high[1]),
            bottom=self.y(extent.low[1]),
        )


def centred_frame(extent: Extent2, *, room: Box, scale: float) -> Frame:
    """Return the frame that puts a view in the middle of its room."""
    middle = ((extent.low[0] + extent.high[0]) / 2, (extent.low[1] + extent.high[1]) / 2)
    x, y = room.middle
    return Frame(at=(x - scale * middle[0], y + scale * middle[1]), scale=scale)


def above_axis(lines: Iterable[Polyline2]) -> tuple[Polyline2, ...]:
    """Keep what of some lines lies at or above y = 0."""
    return _one_side(lines, 1.0)


def below_axis(lines: Iterable[Polyline2]) -> tuple[Polyline2, ...]:
    """Keep what of some lines lies at or below y = 0."""
    return _one_side(lines, -1.0)


def _one_side(lines: Iterable[Polyline2], sense: float) -> tuple[Polyline2, ...]:
    kept: list[Polyline2] = []
    for line in lines:
        run: list[Point2] = []
        for a, b in pairwise(line):
            piece = _clipped(a, b, sense)
            if piece is None:
                continue
            if run and run[-1] != piece[0]:
                kept.append(tuple(run))
                run = []
            run = [*run, piece[1]] if run else [*piece]
        if len(run) > 1:
            kept.append(tuple(run))
    return tuple(kept)


def _clipped(a: Point2, b: Point2, sense: float) -> tuple[Point2, Point2] | None:
    ya, yb = a[1] * sense, b[1] * sense
    if max(ya, yb) <= _ON_AXIS:
        return None
    if min(ya, yb) >= 0:
        return (a, b)
    share = ya / (ya - yb)
    cross = (a[0] + share * (b[0] - a[0]), 0.0)
    return (a, cross) if ya > 0 else (cross, b)
