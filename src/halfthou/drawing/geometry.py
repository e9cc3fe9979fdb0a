"""Plain pieces of space: bars, holes, slots, and whatever else metal is or is cut away from.

The part's frame: x left to right, y bottom to top, z back to front. Turned work lies along x,
its right end toward the tailstock. A region is always a filled piece of space; whether it is
metal or a cut is for its user to say.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, TypeAlias

from halfthou.errors import HalfthouError
from halfthou.units import Millimetre, Vec3

_FEWEST_CORNERS: Final = 3
_UPRIGHT: Final = 0.9
"""Cosine to y above which a bar counts as standing up."""


def _length(vector: Vec3) -> float:
    return math.hypot(*vector)


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _cross(a: Vec3, b: Vec3) -> Vec3:
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def _dot(a: Vec3, b: Vec3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _times(factor: float, vector: Vec3) -> Vec3:
    return (factor * vector[0], factor * vector[1], factor * vector[2])


def _needs(condition: bool, what: str, why: str) -> None:  # noqa: FBT001
    if not condition:
        raise HalfthouError(what, why=why, tries=("give it a size above nothing",))


def _check_axis(name: str, start: Vec3, end: Vec3) -> None:
    _needs(
        _length(_minus(end, start)) > 0,
        f"{name} has no length: both ends at {start}",
        "a piece of space needs some extent along its axis",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinder:
    """A round bar or a plain hole, from one end of its axis to the other."""

    start: Vec3
    end: Vec3
    diameter: Millimetre

    def __post_init__(self) -> None:
        _check_axis("cylinder", self.start, self.end)
        _needs(
            self.diameter > 0,
            f"cylinder has diameter {self.diameter} mm",
            "a diameter is more than nothing",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Cone:
    """A tapered bar, a countersink or a drill's point; one end may come to a point."""

    start: Vec3
    end: Vec3
    start_diameter: Millimetre
    end_diameter: Millimetre

    def __post_init__(self) -> None:
        _check_axis("cone", self.start, self.end)
        _needs(
            min(self.start_diameter, self.end_diameter) >= 0
            and max(self.start_diameter, self.end_diameter) > 0,
            f"cone has end diameters {self.start_diameter} and {self.end_diameter} mm",
            "one end may be a point, the other has some width",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A block square to the frame, from its lowest corner to its highest."""

    low: Vec3
    high: Vec3

    def __post_init__(self) -> None:
        _needs(
            all(a < b for a, b in zip(self.low, self.high, strict=True)),
            f"box from {self.low} to {self.high} has no room inside",
            "each coordinate of the high corner lies above that of the low one",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Obround:
    """A slot with round ends, as an end mill leaves it.

    ``start`` and ``end`` are the middles of the two round ends at the slot's mouth;
    the slot goes ``depth`` from there along ``direction``.
    """

    start: Vec3
    end: Vec3
    width: Millimetre
    direction: Vec3
    depth: Millimetre

    def __post_init__(self) -> None:
        _needs(
            self.width > 0 and self.depth > 0,
            f"slot is {self.width} mm wide and {self.depth} mm deep",
            "a slot has some width and depth",
        )
        along = _minus(self.end, self.start)
        _needs(
            _length(self.direction) > 0
            and abs(_dot(along, self.direction)) <= 1e-9 * (1 + _length(along)),
            f"slot from {self.start} to {self.end} is not square to its depth",
            "the cutter goes in square to the line it then follows",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Prism:
    """A flat outline swept straight along ``along``: bars of any section, pockets, flats."""

    outline: tuple[Vec3, ...]
    along: Vec3

    def __post_init__(self) -> None:
        corners = len(self.outline)
        _needs(
            corners >= _FEWEST_CORNERS,
            f"outline has {corners} corners",
            "three corners or more enclose a face",
        )
        normal = self.normal
        _needs(
            _length(normal) > 0 and abs(_dot(normal, self.along)) > 1e-9 * _length(normal),
            "prism has no room inside",
            "the outline encloses some area and the sweep leaves its plane",
        )
        size = max(_length(_minus(p, self.outline[0])) for p in self.outline)
        off = max(
            abs(_dot(_minus(p, self.outline[0]), normal)) / _length(normal) for p in self.outline
        )
        _needs(
            off <= 1e-7 * size,
            f"outline is not flat: a corner lies {off} mm out of its plane",
            "the section of a bar is a flat figure",
        )

    @property
    def normal(self) -> Vec3:
        """Twice the outline's area, as an arrow square to its plane."""
        first = self.outline[0]
        total = (0.0, 0.0, 0.0)
        for a, b in pairwise(self.outline[1:]):
            piece = _cross(_minus(a, first), _minus(b, first))
            total = (total[0] + piece[0], total[1] + piece[1], total[2] + piece[2])
        return total


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube:
    """A ring: what plain turning takes from the outside of a bar."""

    start: Vec3
    end: Vec3
    inside: Millimetre
    outside: Millimetre

    def __post_init__(self) -> None:
        _check_axis("ring", self.start, self.end)
        _needs(
            0 < self.inside < self.outside,
            f"ring is {self.inside} mm inside and {self.outside} mm outside",
            "the outside is larger than the inside",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class TaperTube:
    """A ring with a tapered bore: what a chamfer or taper turning takes from a bar."""

    start: Vec3
    end: Vec3
    start_inside: Millimetre
    end_inside: Millimetre
    outside: Millimetre

    def __post_init__(self) -> None:
        _check_axis("tapered ring", self.start, self.end)
        low = min(self.start_inside, self.end_inside)
        high = max(self.start_inside, self.end_inside)
        _needs(
            low >= 0 and 0 < high <= self.outside and low < self.outside,
            f"tapered ring is {low} to {high} mm inside and {self.outside} mm outside",
            "the outside is at least the larger end of the bore",
        )


Region: TypeAlias = Cylinder | Cone | Box | Obround | Prism | Tube | TaperTube
RegionSet: TypeAlias = tuple[Region, ...]
"""Several regions taken together: their union."""


def _polygon_bar(*, sides: int, across_flats: Millimetre, start: Vec3, end: Vec3) -> Prism:
    along = _minus(end, start)
    _check_axis("bar", start, end)
    axis = tuple(part / _length(along) for part in along)
    unit = (axis[0], axis[1], axis[2])
    guide = (0.0, 1.0, 0.0) if abs(unit[1]) < _UPRIGHT else (0.0, 0.0, 1.0)
    square = _minus(guide, _times(_dot(guide, unit), unit))
    up = _times(1 / _length(square), square)
    side = _cross(unit, up)
    reach = across_flats / 2 / math.cos(math.pi / sides)
    outline = []
    for number in range(sides):
        turn = math.pi / sides * (2 * number + 1)
        outline.append(
            (
                start[0] + reach * (math.cos(turn) * up[0] + math.sin(turn) * side[0]),
                start[1] + reach * (math.cos(turn) * up[1] + math.sin(turn) * side[1]),
                start[2] + reach * (math.cos(turn) * up[2] + math.sin(turn) * side[2]),
            )
        )
    return Prism(outline=tuple(outline), along=along)


def hexagon_bar(*, across_flats: Millimetre, start: Vec3, end: Vec3) -> Prism:
    """Hexagon bar along a line, a flat on top (toward y, or z for an upright bar)."""
    return _polygon_bar(sides=6, across_flats=across_flats, start=start, end=end)


def square_bar(*, across_flats: Millimetre, start: Vec3, end: Vec3) -> Prism:
    """Square bar along a line, a flat on top (toward y, or z for an upright bar)."""
    return _polygon_bar(sides=4, across_flats=across_flats, start=start, end=end)
