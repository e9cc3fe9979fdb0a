"""The largest preferred scale at which a whole picture, dimensions and all, goes into its room."""

from __future__ import annotations

import math
from collections.abc import Callable
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
_TRIES: Final = 6


def fitted(
    drawn: Callable[[float], tuple[Mark, ...]],
    *,
    size: Point2,
    room: Point2,
    title: str,
    description: str,
    largest: float = math.inf,
) -> Sheet:
    """Draw at smaller and smaller scales until it fits, and trim the sheet to what is on it."""
    inner = (room[0] - 2 * _MARGIN, room[1] - 2 * _MARGIN)
    scale = min(largest, preferred_scale(size=size, room=inner))
    marks = drawn(scale)
    for _ in range(_TRIES):
        box = box_of(marks)
        if box.width <= inner[0] and box.height <= inner[1]:
            break
        scale = _smaller(scale, size, (box.width, box.height), inner)
        marks = drawn(scale)
    return trimmed(marks, title=title, description=description)


def _smaller(scale: float, size: Point2, took: Point2, room: Point2) -> float:
    """Return the next scale worth trying: dimensions keep their size, only the work shrinks."""
    most = min(
        (r - (t - s * scale)) / s for s, t, r in zip(size, took, room, strict=True) if s > 0
    )
    smaller = [one for one in PREFERRED_SCALES if one < scale]
    fitting = [one for one in smaller if one <= most]
    if fitting:
        return fitting[0]
    return smaller[0] if smaller else scale / 2


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
