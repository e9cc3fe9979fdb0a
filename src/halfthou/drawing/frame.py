"""Directions by their shop words: sides, axes, and how a face is looked at."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import OUTWARD, Side
from halfthou.units import Vec3

AXIS_OF: Final[dict[Side, int]] = {
    "left": 0, "right": 0, "bottom": 1, "top": 1, "back": 2, "front": 2,
}  # fmt: skip
SIDES: Final[tuple[Side, ...]] = ("left", "right", "bottom", "top", "back", "front")
ENDS: Final[tuple[tuple[Side, Side], ...]] = (
    ("left", "right"),
    ("bottom", "top"),
    ("back", "front"),
)
DIRECTIONS: Final[dict[str, int]] = {"left to right": 0, "bottom to top": 1, "front to back": 2}
ALONG: Final = ("left to right", "bottom to top", "front to back")
WORDS: Final[dict[str, tuple[int, float]]] = {
    "right of": (0, 1.0),
    "left of": (0, -1.0),
    "above": (1, 1.0),
    "below": (1, -1.0),
    "in front of": (2, 1.0),
    "behind": (2, -1.0),
}
_RIGHT_HAND: Final[dict[Side, Vec3]] = {
    "front": (1.0, 0.0, 0.0),
    "back": (-1.0, 0.0, 0.0),
    "left": (0.0, 0.0, 1.0),
    "right": (0.0, 0.0, -1.0),
    "top": (1.0, 0.0, 0.0),
    "bottom": (1.0, 0.0, 0.0),
}
_UP: Final[dict[Side, Vec3]] = {
    "front": (0.0, 1.0, 0.0),
    "back": (0.0, 1.0, 0.0),
    "left": (0.0, 1.0, 0.0),
    "right": (0.0, 1.0, 0.0),
    "top": (0.0, 0.0, -1.0),
    "bottom": (0.0, 0.0, 1.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A face as seen from outside the metal: what lies to the right of the eye, and up."""

    right: Vec3
    up: Vec3


def look_at(side: Side) -> Look:
    """How a face is looked at: angles on it run anticlockwise from ``right``."""
    return Look(right=_RIGHT_HAND[side], up=_UP[side])


def high_end(side: Side) -> int:
    """Return 1 for the side of larger coordinate along its axis, else 0."""
    return 1 if sum(OUTWARD[side]) > 0 else 0


def side_of(axis: int, end: int) -> Side:
    """Return the side at the low (0) or high (1) end of an axis."""
    return ENDS[axis][end]


def cross_axes(axis: int) -> tuple[int, int]:
    """Return the two axes square to one."""
    first, second = (other for other in range(3) if other != axis)
    return first, second


def main_axis(direction: Vec3) -> int:
    """Return the axis along which a direction mainly runs."""
    return max(range(3), key=lambda axis: abs(direction[axis]))


def point_with(axis: int, along: float, first: float, second: float) -> Vec3:
    """Point from a coordinate along one axis and the two across it, in order of axes."""
    values = [first, second]
    values.insert(axis, along)
    return (values[0], values[1], values[2])
