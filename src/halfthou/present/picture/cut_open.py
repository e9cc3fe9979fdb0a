"""The cut-open view of work on the mill: straight through, or along a line with a corner in it.

Work stood on end under straps shows its holes on one way of the table and what holds it on the
other: there the cutting line runs in under the near strap to the middle, and out to the right.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from halfthou.shapes.flat import Area, Point2, Polyline2
from halfthou.units import Millimetre

_CORNERS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOpen:
    """Lines in sight, outlines of what stands behind, faces cut, metal that comes off."""

    lines: tuple[Polyline2, ...]
    filled: tuple[Polyline2, ...]
    cut: tuple[Area, ...]
    off: tuple[Area, ...]


def turned_corner(
    left: CutOpen, right: CutOpen, *, left_at: Millimetre, right_at: Millimetre
) -> CutOpen:
    """Join the left half of one view to the right half of another, where the line turns."""
    moved = right_at - left_at
    one = _half(left, left_at, -1.0, moved)
    two = _half(right, right_at, 1.0, 0.0)
    return CutOpen(
        lines=(*one.lines, *two.lines),
        filled=(*one.filled, *two.filled),
        cut=(*one.cut, *two.cut),
        off=(*one.off, *two.off),
    )


def _half(view: CutOpen, at: Millimetre, sense: float, moved: Millimetre) -> CutOpen:
    return CutOpen(
        lines=half_lines(view.lines, at, sense, moved),
        filled=tuple(one for loop in view.filled if (one := half_loop(loop, at, sense, moved))),
        cut=_areas(view.cut, at, sense, moved),
        off=_areas(view.off, at, sense, moved),
    )


def _areas(
    areas: Iterable[Area], at: Millimetre, sense: float, moved: Millimetre
) -> tuple[Area, ...]:
    found = []
    for area in areas:
        outer = half_loop(area.outer, at, sense, moved)
        if outer:
            holes = tuple(one for hole in area.holes if (one := half_loop(hole, at, sense, moved)))
            found.append(replace(area, outer=outer, holes=holes))
    return tuple(found)


def half_loop(loop: Polyline2, at: Millimetre, sense: float, moved: Millimetre = 0.0) -> Polyline2:
    """Return what of a closed line lies to the right of an upright (left: ``sense`` −1).

    >>> half_loop(((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0)), 1.0, 1.0)
    ((1.0, 0.0), (4.0, 0.0), (4.0, 2.0), (1.0, 2.0))
    """
    kept: list[Point2] = []
    for a, b in pairwise((*loop, loop[0])):
        inside = sense * (a[0] - at) >= 0, sense * (b[0] - at) >= 0
        if inside[0]:
            kept.append((a[0] + moved, a[1]))
        if inside[0] != inside[1]:
            kept.append(_on_the_line(a, b, at, moved))
    points = tuple(point for n, point in enumerate(kept) if point != kept[n - 1])
    ordered = _from_lowest_left(points)
    return ordered if len(ordered) >= _CORNERS else ()


def _from_lowest_left(points: tuple[Point2, ...]) -> tuple[Point2, ...]:
    if not points:
        return ()
    first = min(range(len(points)), key=lambda n: (points[n][1], points[n][0]))
    return (*points[first:], *points[:first])


def half_lines(
    lines: Iterable[Polyline2], at: Millimetre, sense: float, moved: Millimetre = 0.0
) -> tuple[Polyline2, ...]:
    """Return what of some open lines lies to one side of an upright.

    >>> half_lines([((0.0, 0.0), (4.0, 4.0))], 1.0, -1.0)
    (((0.0, 0.0), (1.0, 1.0)),)
    """
    found: list[Polyline2] = []
    for line in lines:
        run: list[Point2] = []
        for a, b in pairwise(line):
            inside = sense * (a[0] - at) >= 0, sense * (b[0] - at) >= 0
            if inside[0] and not run:
                run.append((a[0] + moved, a[1]))
            if inside[0] != inside[1]:
                run.append(_on_the_line(a, b, at, moved))
            if inside[1]:
                run.append((b[0] + moved, b[1]))
            elif len(run) > 1:
                found.append(tuple(run))
                run = []
        if len(run) > 1:
            found.append(tuple(run))
    return tuple(found)


def _on_the_line(a: Point2, b: Point2, at: Millimetre, moved: Millimetre) -> Point2:
    share = (at - a[0]) / (b[0] - a[0])
    return (at + moved, a[1] + share * (b[1] - a[1]))
