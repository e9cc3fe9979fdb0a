"""Centre lines of a view: along round faces seen from the side, crosses on those seen end on."""

from __future__ import annotations

import math
from typing import Final

from halfthou.shapes.faces import Face, faces_of
from halfthou.shapes.flat import Point2, Segment2
from halfthou.shapes.solids import Solid
from halfthou.shapes.tidy import tidy
from halfthou.shapes.views import dot, paper_axes
from halfthou.units import Millimetre, Radian, Vec3

_LEAST_SWEEP: Final[Radian] = math.pi - 0.01
"""A face that goes less than half round is a fillet or a rounded corner, and gets no centre."""
_END_ON: Final = 0.999
"""Cosine between axis and line of sight above which a round face is seen end on."""
_NEAR: Final[Millimetre] = 0.01


def centre_lines(
    solid: Solid, *, direction: Vec3, up: Vec3, beyond: Millimetre
) -> tuple[Segment2, ...]:
    """Return centre lines in the coordinates of the view from ``direction``.

    They run ``beyond`` the faces they belong to; faces on one axis share one line.
    """
    right, upward, toward = paper_axes(direction, up)
    lines: list[Segment2] = []
    for face in faces_of(solid):
        if face.direction is None or face.sweep is None or face.sweep < _LEAST_SWEEP:
            continue
        end_on = abs(dot(face.direction, toward)) > _END_ON
        lines.extend((_cross if end_on else _length)(face, right, upward, beyond))
    seen, _ = tidy(lines, (), tolerance=_NEAR)
    return tuple((line[0], line[-1]) for line in seen)


def _cross(face: Face, right: Vec3, upward: Vec3, beyond: Millimetre) -> tuple[Segment2, ...]:
    if face.kind != "cylinder" or face.point is None or face.radius is None:
        return ()
    x, y = dot(face.point, right), dot(face.point, upward)
    reach = face.radius + beyond
    return (((x - reach, y), (x + reach, y)), ((x, y - reach), (x, y + reach)))


def _length(face: Face, right: Vec3, upward: Vec3, beyond: Millimetre) -> tuple[Segment2, ...]:
    if face.ends is None:
        return ()
    a, b = ((dot(end, right), dot(end, upward)) for end in face.ends)
    length = math.dist(a, b)
    return ((_past(b, a, beyond / length), _past(a, b, beyond / length)),)


def _past(a: Point2, b: Point2, share: float) -> Point2:
    """Return the point beyond ``b`` seen from ``a``, by a share of their distance."""
    return (b[0] + share * (b[0] - a[0]), b[1] + share * (b[1] - a[1]))
