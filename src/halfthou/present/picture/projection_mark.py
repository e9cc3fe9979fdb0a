"""The sign for first or third angle projection (ISO 128): a cone seen from two sides."""

from __future__ import annotations

from typing import Final, Literal, TypeAlias

from halfthou.present.picture.sheet import Disc, Mark, Path
from halfthou.shapes.flat import Point2

Angle: TypeAlias = Literal["first", "third"]

_SMALL: Final = 1.1
_LARGE: Final = 2.1
_LONG: Final = 4.6


def projection_mark(*, at: Point2, angle: Angle) -> tuple[Mark, ...]:
    """Draw the sign with its left end at a point: the small end of the cone faces the eye.

    The rings are the cone seen from the left: they stand on its right in first angle, on its left
    in third.
    """
    x, y = at
    rings, cone = (
        (x + _LARGE, x + 2 * _LARGE + 1.6) if angle == "third" else (x + _LONG + 1.6 + _LARGE, x)
    )
    taper = (
        (cone, y - _SMALL),
        (cone + _LONG, y - _LARGE),
        (cone + _LONG, y + _LARGE),
        (cone, y + _SMALL),
    )
    axis = ((x - 1.0, y), (x + _LONG + 2 * _LARGE + 2.6, y))
    return (
        Path(lines=(taper,), style="edge", closed=True),
        Disc(centre=(rings, y), radius=_LARGE, style="edge"),
        Disc(centre=(rings, y), radius=_SMALL, style="edge"),
        Path(lines=(axis,), style="centre"),
    )
