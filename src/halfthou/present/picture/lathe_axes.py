"""The part as it turns on the lathe: x from the chuck toward the tailstock, y up from the axis.

Turned work lies on the part's own x axis, or set over from it. A block or plate in a four-jaw
chuck turns about whatever its zero is set on.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from halfthou.planning.worked import WorkedSetUp
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre, Vec3

_ALONG = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class LatheAxes:
    """Directions of the lathe in the part's frame, unit length, and a point on its axis."""

    x: Vec3
    up: Vec3
    origin: Vec3 = (0.0, 0.0, 0.0)

    @property
    def toward(self) -> Vec3:
        """From the work to the eye."""
        (a, b, c), (d, e, f) = self.x, self.up
        return (b * f - c * e, c * d - a * f, a * e - b * d)

    @property
    def sense(self) -> float:
        """−1 where the lathe's x runs against the part's."""
        return -1.0 if min(self.x) < -_ALONG else 1.0

    @property
    def height(self) -> Millimetre:
        """How far the axis lies up from the part's own zero [mm]."""
        return _dot(self.origin, self.up)

    def along(self, point: Vec3) -> Millimetre:
        """Return a place along the lathe."""
        return _dot(point, self.x)

    def flat(self, point: Vec3) -> Point2:
        """Return a point of the part in the view, the axis at y = 0."""
        return (_dot(point, self.x), _dot(point, self.up) - self.height)


def lathe_axes(worked: WorkedSetUp, *, turned: bool) -> LatheAxes:
    """Return how the part lies in a set-up on the lathe."""
    x = worked.set_up.scheme.faces
    up: Vec3 = (0.0, 0.0, 1.0) if abs(x[1]) > _ALONG else (0.0, 1.0, 0.0)
    zero = worked.zero
    if turned or zero is None:
        throw = worked.set_up.scheme.throw
        return LatheAxes(x=x, up=up if not any(throw) else _toward(throw), origin=throw)
    return LatheAxes(x=x, up=up, origin=zero.at)


def _toward(throw: Vec3) -> Vec3:
    far = math.hypot(*throw)
    return (throw[0] / far, throw[1] / far, throw[2] / far)


def _dot(a: Vec3, b: Vec3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
