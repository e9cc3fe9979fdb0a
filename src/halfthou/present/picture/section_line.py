"""Where the work is cut open, shown in plan (ISO 128): heavy ends, arrows the way one looks, A."""

from __future__ import annotations

from typing import Final

from halfthou.present.picture.frame import Frame
from halfthou.present.picture.mill_view import MillView
from halfthou.present.picture.sheet import SMALL_TEXT, Box, Mark, Path, Words
from halfthou.shapes.flat import Point2, Polyline2
from halfthou.units import Millimetre

_STROKE: Final[Millimetre] = 4.0
_SHAFT: Final[Millimetre] = 4.2


def section_line(view: MillView, frame: Frame, *, beyond: Box) -> tuple[Mark, ...]:
    """Draw the two ends of the cutting line, outside the box of the plan, one looking up it."""
    if view.corner is not None:
        return _with_a_corner(frame.to(view.corner), beyond)
    if view.way == "front":
        y = frame.y(view.cut_at)
        left, right = beyond.left - 1.5, beyond.right + 1.5
        ends = (((left - _STROKE, y), (left, y)), ((right + _STROKE, y), (right, y)))
        look: Point2 = (0.0, -1.0)
    else:
        x = frame.x(view.cut_at)
        top, bottom = beyond.top - 1.5, beyond.bottom + 1.5
        ends = (((x, top - _STROKE), (x, top)), ((x, bottom + _STROKE), (x, bottom)))
        look = (-1.0, 0.0)
    return tuple(mark for outer, inner in ends for mark in _end(outer, inner, look))


def _with_a_corner(corner: Point2, beyond: Box) -> tuple[Mark, ...]:
    """Draw a cutting line that comes in from below, turns at a point and goes out to the right."""
    x, y = corner
    bottom, right = beyond.bottom + 1.5, beyond.right + 1.5
    half = _STROKE / 2
    ends = (
        *_end((x, bottom + _STROKE), (x, bottom), (-1.0, 0.0)),
        *_end((right + _STROKE, y), (right, y), (0.0, -1.0)),
    )
    bend = Path(lines=(((x, y + half), (x, y), (x + half, y)),), style="outline")
    thin = Path(lines=(((x, bottom), (x, y), (right, y)),), style="centre")
    return (thin, bend, *ends)


def _end(outer: Point2, inner: Point2, look: Point2) -> tuple[Mark, ...]:
    tail = (outer[0] - look[0] * _SHAFT, outer[1] - look[1] * _SHAFT)
    words = Words(
        at=(tail[0] - look[0] * 2.4, tail[1] - look[1] * 2.6 + 1.0),
        text="A",
        size=SMALL_TEXT,
        anchor="middle",
        weight="medium",
    )
    return (
        Path(lines=((outer, inner),), style="outline"),
        Path(lines=((tail, outer),), style="edge"),
        Path(lines=(_head(outer, look),), style="section arrow", closed=True),
        words,
    )


def _head(tip: Point2, look: Point2) -> Polyline2:
    x, y = tip
    u, v = look
    return (
        (x, y),
        (x - 2.6 * u - 0.6 * v, y - 2.6 * v - 0.6 * u),
        (x - 2.6 * u + 0.6 * v, y - 2.6 * v + 0.6 * u),
    )
