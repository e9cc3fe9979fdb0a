"""A turned part as the lathe sees it: rounds in a row, two ends, and from which end each is cut.

A knife tool works toward the chuck, so the shoulder at the far end of a round must be the larger
metal. A round with larger metal on both sides is a neck; one with none can be cut from either end.
"""

from __future__ import annotations

from typing import Final, Literal, TypeAlias

from halfthou.drawing.model import Hole, Part, Round, Surface
from halfthou.units import Millimetre, Vec3

End: TypeAlias = Literal["left", "right"]
ENDS: Final[tuple[End, End]] = ("right", "left")
TOWARD: Final[dict[End, Vec3]] = {"right": (1.0, 0.0, 0.0), "left": (-1.0, 0.0, 0.0)}
BEYOND: Final = 2.0
"""How far a removed region reaches past the metal, mm: it only has to be past it."""
NEAR: Final = 1e-6
"""Lengths nearer than this are the same, mm."""


def other_end(end: End) -> End:
    """Give the end across from this one."""
    return "left" if end == "right" else "right"


def rounds(part: Part) -> tuple[Round, ...]:
    """Give the rounds of a turned part, left to right."""
    found = [f for f in part.features if isinstance(f, Round)]
    return tuple(sorted(found, key=lambda r: r.left))


def ends(part: Part) -> tuple[Millimetre, Millimetre]:
    """Give the left and right end of a turned part along x; [mm]."""
    row = rounds(part)
    return row[0].left, max(r.right for r in row)


def end_at(part: Part, end: End) -> Millimetre:
    """Give where an end lies along x; [mm]."""
    x0, x1 = ends(part)
    return x1 if end == "right" else x0


def largest(one: Round) -> Millimetre:
    """Give the larger of a round's two diameters; a plain one has one; [mm]."""
    right = one.right_diameter.nominal if one.right_diameter else 0.0
    return max(one.diameter.nominal, right)


def smallest(one: Round) -> Millimetre:
    """Give the smaller of a round's two diameters; [mm]."""
    right = one.right_diameter.nominal if one.right_diameter else one.diameter.nominal
    return min(one.diameter.nominal, right)


def holes_on_axis(part: Part) -> tuple[Hole, ...]:
    """Give the holes that run along the axis of the turning."""
    return tuple(f for f in part.features if isinstance(f, Hole) and f.on_axis)


def turned_from(part: Part) -> dict[str, tuple[End, ...]]:
    """Tell from which end each round can be turned; both make it a choice, or a neck."""
    return {one.name: _open_ends(part, one) or ENDS for one in rounds(part)}


def is_neck(part: Part, name: str) -> bool:
    """Tell whether there is larger metal somewhere on both sides of a round."""
    return not _open_ends(part, next(r for r in rounds(part) if r.name == name))


def _open_ends(part: Part, one: Round) -> tuple[End, ...]:
    """Give the ends that a tool comes from without meeting metal that is to stay larger."""
    row = rounds(part)
    size = largest(one) + NEAR
    beyond = {
        "right": [r for r in row if r.left >= one.right - NEAR],
        "left": [r for r in row if r.right <= one.left + NEAR],
    }
    return tuple(end for end in ENDS if all(largest(r) <= size for r in beyond[end]))


def planes_at(part: Part, x: Millimetre, toward: Vec3) -> tuple[str, ...]:
    """Name the outside plane surfaces at ``x`` that look along ``toward``."""
    return tuple(
        s.name
        for s in part.surfaces
        if s.kind == "plane"
        and abs(s.point[0] - x) < NEAR
        and s.direction[0] * toward[0] > 0.5  # noqa: PLR2004 - looks that way, not across
        and not s.inside
    )


def walls_of(part: Part, feature: str) -> tuple[Surface, ...]:
    """Give the turned outside walls (cylinder, cone or thread) of one feature."""
    return tuple(
        s for s in part.surfaces if s.feature == feature and s.kind != "plane" and not s.inside
    )


def shoulders(part: Part) -> tuple[Millimetre, ...]:
    """Give every place along x where one round ends and the next begins, ends included; [mm]."""
    row = rounds(part)
    return tuple(sorted({r.left for r in row} | {r.right for r in row}))
