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
    """Draw at smaller and smaller scales until it fits, and trim the sheet to what is on it."""
    first = min(largest, preferred_scale(size=size, room=room))
    scales = [scale for scale in PREFERRED_SCALES if scale <= first] or [first]
    marks: tuple[Mark, ...] = ()
    for scale in scales:
        marks = drawn(scale)
        box = box_of(marks)
        if box.width <= room[0] - 2 * _MARGIN and box.height <= room[1] - 2 * _MARGIN:
            break
    return trimmed(marks, title=title, description=description)


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
