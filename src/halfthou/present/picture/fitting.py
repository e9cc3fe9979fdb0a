"""The largest preferred scale at which a whole picture, dimensions and all, goes into its room."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Final

from halfthou.present.picture.sheet import (
    PREFERRED_SCALES,
    Mark,
    Sheet,
    box_of,
    preferred_scale,
    shifted,
)
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

_MARGIN: Final[Millimetre] = 1.5
_FULL: Final = 0.88
"""Share of the room from which a picture counts as filling it."""
_HARDLY_OVER: Final = 1.12
_USUALLY_ROUND: Final[Point2] = (46.0, 44.0)
"""Paper that dimensions, tools and what holds the work usually take up round it."""


def fitted(
    drawn: Callable[[float], tuple[Mark, ...]],
    *,
    size: Point2,
    room: Point2,
    title: str,
    description: str,
    largest: float = math.inf,
    shifting: bool = False,
) -> Sheet:
    """Draw at the largest scale that fits, and trim the sheet to what is on it."""
    _, marks = largest_fit(drawn, size=size, room=room, largest=largest, shifting=shifting)
    return trimmed(marks, title=title, description=description)


def largest_fit(
    drawn: Callable[[float], tuple[Mark, ...]],
    *,
    size: Point2,
    room: Point2,
    largest: float = math.inf,
    shifting: bool = False,
) -> tuple[float, tuple[Mark, ...]]:
    """Return the largest scale that fits, and what is drawn at it.

    What stands round the work takes about as much paper at any scale: one drawing tells the scale
    of the next. Where views are ``shifting`` about with the scale, a larger one is tried as well.
    """
    inner = (room[0] - 2 * _MARGIN, room[1] - 2 * _MARGIN)
    most = min(largest, preferred_scale(size=size, room=inner))
    scales = [most, *(one for one in PREFERRED_SCALES if one < most)]
    number = _first_to_fit(scales, size, inner, _USUALLY_ROUND)
    fits: dict[int, tuple[Mark, ...]] = {}
    tried: dict[int, tuple[Mark, ...]] = {}
    while number not in tried:
        marks = drawn(scales[number])
        tried[number] = marks
        box = box_of(marks)
        full = max(box.width / inner[0], box.height / inner[1])
        if full <= 1:
            fits[number] = marks
            around = (box.width - scales[number] * size[0], box.height - scales[number] * size[1])
            larger = _first_to_fit(scales, size, inner, around)
            tight = full > _FULL or not shifting
            number = min(larger, number if tight else max(0, number - 1))
        else:
            number = _next_smaller(scales, number, full)
    best = min(fits) if fits else max(tried)
    return scales[best], tried[best]


def _next_smaller(scales: Sequence[float], number: int, full: float) -> int:
    """Return the next scale to try where one was too large by a factor."""
    for smaller in range(number + 1, len(scales)):
        if scales[smaller] * full <= scales[number] * _HARDLY_OVER:
            return smaller
    return len(scales) - 1


def _first_to_fit(
    scales: Sequence[float], size: Point2, inner: Point2, around: tuple[float, float]
) -> int:
    """Return which scale is the first at which work and what stands round it should go in."""
    for number, scale in enumerate(scales):
        if all(scale * s + a <= i + _MARGIN for s, a, i in zip(size, around, inner, strict=True)):
            return number
    return len(scales) - 1


def trimmed(marks: tuple[Mark, ...], *, title: str, description: str) -> Sheet:
    """Return a sheet just large enough for its marks."""
    box = box_of(marks).grown(_MARGIN)
    return Sheet(
        width=box.width,
        height=box.height,
        title=title,
        description=description,
        marks=shifted(marks, (-box.left, -box.top)),
    )
