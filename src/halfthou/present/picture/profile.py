"""How far turned metal reaches from its axis, place by place along it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from halfthou.shapes.flat import Area, Point2, Polyline2
from halfthou.units import Millimetre

_SLIVER = 1e-4


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """The outside of turned metal between two places: its radius at the left and right end."""

    left: Millimetre
    right: Millimetre
    left_radius: Millimetre
    right_radius: Millimetre


def outside_of(areas: Iterable[Area]) -> tuple[Reach, ...]:
    """Return the outline farthest from the axis, left to right, of axial cut faces."""
    edges = [
        (a, b) if a[0] < b[0] else (b, a)
        for area in areas
        for a, b in pairwise((*area.outer, area.outer[0]))
        if abs(a[0] - b[0]) > _SLIVER
    ]
    places = sorted({round(point[0], 4) for edge in edges for point in edge})
    reaches = (_reach(edges, left, right) for left, right in pairwise(places))
    return tuple(reach for reach in reaches if reach is not None)


def _reach(edges: list[tuple[Point2, Point2]], left: float, right: float) -> Reach | None:
    middle = (left + right) / 2
    over = [edge for edge in edges if edge[0][0] < middle < edge[1][0]]
    if not over:
        return None
    top = max(over, key=lambda edge: abs(_at(edge, middle)))
    return Reach(
        left=left,
        right=right,
        left_radius=abs(_at(top, left)),
        right_radius=abs(_at(top, right)),
    )


def _at(edge: tuple[Point2, Point2], x: float) -> float:
    (x1, y1), (x2, y2) = edge
    return y1 + (y2 - y1) * (x - x1) / (x2 - x1)


def radius_at(reaches: Iterable[Reach], x: Millimetre) -> Millimetre:
    """Return the radius at a place, the larger one at a shoulder; 0 where there is no metal."""
    found = 0.0
    for reach in reaches:
        if reach.left - _SLIVER <= x <= reach.right + _SLIVER:
            share = (x - reach.left) / (reach.right - reach.left)
            found = max(
                found, reach.left_radius + share * (reach.right_radius - reach.left_radius)
            )
    return found


def outline(reaches: Iterable[Reach]) -> tuple[Polyline2, ...]:
    """Return the upper half of the metal as closed figures down to the axis."""
    figures: list[Polyline2] = []
    run: list[Point2] = []
    for reach in reaches:
        if run and abs(run[-1][0] - reach.left) > _SLIVER:
            figures.append(_closed(run))
            run = []
        run += [(reach.left, reach.left_radius), (reach.right, reach.right_radius)]
    if run:
        figures.append(_closed(run))
    return tuple(figures)


def _closed(run: list[Point2]) -> Polyline2:
    return ((run[0][0], 0.0), *run, (run[-1][0], 0.0))


def most(reaches: Iterable[Reach]) -> Millimetre:
    """Return the largest radius anywhere; 0 where there is no metal."""
    return max((max(r.left_radius, r.right_radius) for r in reaches), default=0.0)
