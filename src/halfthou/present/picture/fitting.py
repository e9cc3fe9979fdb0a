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


def fitted(
    drawn: Callable[[float], tuple[Mark, ...]],
    *,
    size: Point2,
    room: Point2,
    title: str,
    description: str,
    largest: float = math.inf,
) -> Sheet:
    """Draw at the largest scale that fits, and trim the sheet to what is on it."""
    inner = (room[0] - 2 * _MARGIN, room[1] - 2 * _MARGIN)
    first = min(largest, preferred_scale(size=size, room=inner))
    scales = [first, *(one for one in PREFERRED_SCALES if one < first)]
    low, high = 0, len(scales) - 1
    found: tuple[Mark, ...] | None = None
    while low <= high:
        middle = (low + high) // 2 if found is not None or low else min(high, low + 1)
        marks = drawn(scales[middle])
        box = box_of(marks)
        if box.width <= inner[0] and box.height <= inner[1]:
            found, high = marks, middle - 1
        else:
            low = middle + 1
    return trimmed(found or drawn(scales[-1]), title=title, description=description)


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
