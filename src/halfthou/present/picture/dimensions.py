"""The ways one dimension can be drawn (ISO 129-1), for the placing to choose from.

Linear dimensions lie in rows above or below the work and in columns beside it, nearest first;
arrows go outside where they would crowd, and the text follows them. A leader points at an edge
and carries its text on a level shelf.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from typing import Final, Literal, TypeAlias

from halfthou.present.picture.crowding import Candidate
from halfthou.present.picture.label import Label, boxes_of, length_of, lettered
from halfthou.present.picture.sheet import Box, Mark, Path
from halfthou.shapes.flat import Point2, Segment2
from halfthou.units import Millimetre

Edge: TypeAlias = Literal["above", "below", "left", "right"]

ARROW: Final[Millimetre] = 2.4
_ARROW_HALF: Final[Millimetre] = 0.42
_GAP: Final[Millimetre] = 0.8
"""From the outline to the start of a witness line."""
_PAST: Final[Millimetre] = 1.2
_FIRST_ROW: Final[Millimetre] = 6.5
_ROW: Final[Millimetre] = 6.6
_LIFT: Final[Millimetre] = 1.0
"""From a dimension line up to the foot of its text."""
_ROWS: Final = 12
_STUB: Final[Millimetre] = 4.2
_TOWER: Final = 4.0
"""What text standing upright beyond its own dimension costs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Linear:
    """A level or upright dimension between two points of the paper, given at the outline.

    A ``half`` one belongs to a half section: it ends past the axis without arrow or witness.
    """

    a: Point2
    b: Point2
    upright: bool
    label: Label
    edges: tuple[Edge, ...]
    half: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Leader:
    """A text with an arrow to one of ``tips``, each with the way it may lead off."""

    tips: tuple[tuple[Point2, Point2], ...]
    label: Label


Wish: TypeAlias = Linear | Leader


def outward(wishes: Iterable[Wish]) -> list[Wish]:
    """Put dimensions in the order they lie outward: smallest first, leaders after."""
    return sorted(wishes, key=lambda wish: (isinstance(wish, Leader), _span(wish)))


def _span(wish: Wish) -> float:
    if isinstance(wish, Leader):
        return 0.0
    axis = 1 if wish.upright else 0
    return abs(wish.a[axis] - wish.b[axis])


def ways(wish: Wish, *, work: Box, dearer: float = 0.0) -> list[Candidate]:
    """List the ways to draw a dimension around the ``work``; ``dearer`` makes all cost more."""
    if isinstance(wish, Leader):
        return _leader_ways(wish, dearer)
    return [
        way
        for rank, edge in enumerate(wish.edges)
        for row in range(_ROWS)
        for way in _row_ways(wish, _row_at(work, edge, row), dearer + 3.0 * rank + 1.6 * row)
    ]


def _row_at(work: Box, edge: Edge, row: int) -> float:
    out = _FIRST_ROW + _ROW * row
    near = {"above": work.top, "below": work.bottom, "left": work.left, "right": work.right}
    return near[edge] + (out if edge in {"below", "right"} else -out)


def _row_ways(wish: Linear, level: float, cost: float) -> list[Candidate]:
    """Ways along one row; worked out as if level and swapped over for an upright dimension."""
    low, high = sorted((_turn(wish.a, wish), _turn(wish.b, wish)))
    long = length_of(wish.label)
    room = high[0] - low[0]
    found: list[Candidate] = []
    if room >= long + 2 * ARROW + 1.0:
        for share, extra in ((0.5, 0.0), (0.25, 1.2), (0.75, 1.2), (0.08, 2.0), (0.92, 2.0)):
            start = low[0] + ARROW + 0.5 + (room - 2 * ARROW - 1.0 - long) * share
            found.append(
                _drawn(
                    wish, (low, high), level=level, start=start, arrows="inside", cost=cost + extra
                )
            )
        return found
    if room >= long + 1.0:
        start = low[0] + (room - long) / 2
        found.append(
            _drawn(wish, (low, high), level=level, start=start, arrows="outside", cost=cost + 0.8)
        )
    arrows: Literal["inside", "outside"] = "inside" if room >= 2 * ARROW + 1.5 else "outside"
    past = 1.0 if arrows == "inside" else _STUB + 0.6
    past_low, past_high = high[0] + past, low[0] - past - long
    cost += _TOWER if wish.upright else 0.0
    found.append(
        _drawn(wish, (low, high), level=level, start=past_low, arrows=arrows, cost=cost + 1.5)
    )
    found.append(
        _drawn(wish, (low, high), level=level, start=past_high, arrows=arrows, cost=cost + 1.8)
    )
    return found


def _turn(point: Point2, wish: Linear) -> Point2:
    return (-point[1], point[0]) if wish.upright else point


def _back(point: Point2, wish: Linear) -> Point2:
    return (point[1], -point[0]) if wish.upright else point


def _drawn(
    wish: Linear,
    ends: tuple[Point2, Point2],
    *,
    level: float,
    start: float,
    arrows: Literal["inside", "outside"],
    cost: float,
) -> Candidate:
    """Draw one way: ``ends`` at the outline, the line at ``level``, the text from ``start``."""
    low, high = ends
    text_end = start + length_of(wish.label)
    reach = (min(low[0], start), max(high[0], text_end))
    if arrows == "outside":
        reach = (min(reach[0], low[0] - _STUB), max(reach[1], high[0] + _STUB))
    real = ends[:1] if wish.half else ends
    line = (_back((reach[0], level), wish), _back((reach[1], level), wish))
    witness = tuple(
        (_back(a, wish), _back(b, wish)) for a, b in (_witness(end, level) for end in real)
    )
    foot = _back((start, level - _LIFT), wish)
    longest = max(abs(end[1] - level) for end in ends)
    inward = 1.0 if arrows == "inside" else -1.0
    return Candidate(
        draw=partial(_linear_marks, wish, (line, *witness), real, (level, inward), foot),
        boxes=boxes_of(wish.label, at=foot, turned=wish.upright),
        lines=(line,),
        witness=witness,
        cost=cost + 0.02 * longest,
    )


def _linear_marks(
    wish: Linear,
    lines: tuple[Segment2, ...],
    ends: tuple[Point2, ...],
    arrows: tuple[float, float],
    foot: Point2,
) -> tuple[Mark, ...]:
    """Draw the lines, heads and words; ``arrows``: their level, and whether they lie inside."""
    level, inward = arrows
    heads = tuple(
        _head(_back((end[0], level), wish), _back((end[0] + way * inward, level), wish))
        for end, way in zip(ends, (1.0, -1.0), strict=False)
    )
    return (
        Path(lines=lines, style="dimension"),
        Path(lines=heads, style="arrow", closed=True),
        *lettered(wish.label, at=foot, turned=wish.upright),
    )


def _witness(end: Point2, level: float) -> Segment2:
    sense = 1.0 if level > end[1] else -1.0
    return ((end[0], end[1] + sense * _GAP), (end[0], level + sense * _PAST))


def _head(tip: Point2, toward: Point2) -> tuple[Point2, ...]:
    """Return an arrow head with its point at ``tip`` whose body lies ``toward`` another point."""
    dx, dy = toward[0] - tip[0], toward[1] - tip[1]
    long = math.hypot(dx, dy)
    ux, uy = dx / long * ARROW, dy / long * ARROW
    sx, sy = -dy / long * _ARROW_HALF, dx / long * _ARROW_HALF
    return (
        tip,
        (tip[0] + ux + sx, tip[1] + uy + sy),
        (tip[0] + ux - sx, tip[1] + uy - sy),
    )


_LEADS: Final = (6.0, 8.5, 11.5, 15.0, 20.0, 26.0, 33.0, 41.0)


def _leader_ways(wish: Leader, dearer: float) -> list[Candidate]:
    found: list[Candidate] = []
    for number, (tip, way) in enumerate(wish.tips):
        long = math.hypot(*way)
        for lead in _LEADS:
            knee = (tip[0] + way[0] / long * lead, tip[1] + way[1] / long * lead)
            near = (1, -1) if way[0] >= 0 else (-1, 1)
            for rank, side in enumerate(near):
                if rank and way[1] > 0:
                    continue  # a text above its shelf would lie under its own leader
                cost = dearer + 2.0 + 0.25 * lead + 2.5 * rank + 0.2 * number
                found.append(_led(wish, tip, knee, side, cost))
    return found


def _led(wish: Leader, tip: Point2, knee: Point2, side: int, cost: float) -> Candidate:
    long = length_of(wish.label)
    shelf_end = (knee[0] + side * (long + 1.2), knee[1])
    start = knee[0] + 0.8 if side > 0 else knee[0] - 0.8 - long
    foot = (start, knee[1] - _LIFT)
    return Candidate(
        draw=partial(_leader_marks, wish.label, (tip, knee, shelf_end), foot),
        boxes=boxes_of(wish.label, at=foot),
        lines=((tip, knee), (knee, shelf_end)),
        witness=(),
        cost=cost,
    )


def _leader_marks(
    label: Label, line: tuple[Point2, Point2, Point2], foot: Point2
) -> tuple[Mark, ...]:
    return (
        Path(lines=(line,), style="dimension"),
        Path(lines=(_head(line[0], line[1]),), style="arrow", closed=True),
        *lettered(label, at=foot),
    )
