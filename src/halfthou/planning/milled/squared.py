"""Sides that a slant takes whole: squared to their size first, and then cut away.

On the finished part such a side is only the corner the slant leaves. In the shop it is a face
for a while: it is milled to its size, measured, and picked up from, before the slant is cut.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.drawing.model import OUTWARD, Block, Distance, Part, Side, Surface
from halfthou.planning.axes import Extents, axis_of, dot
from halfthou.planning.milled.slants import slants

_ALONG: Final = 0.999
_ONE: Final = 1


def squared(part: Part) -> Part:
    """Give the part with the sides that slants take whole as faces of their own.

    What the drawing measures to such a side is measured to it, not to the slant.
    """
    taken = _taken(part)
    bodies = tuple(f for f in part.features if isinstance(f, Block))
    if not taken or len(bodies) != _ONE:
        return part
    surfaces = tuple(_side(bodies[0], side) for side in taken)
    return replace(
        part,
        surfaces=(*part.surfaces, *surfaces),
        distances=tuple(_to_the_side(part, d, taken) for d in part.distances),
        aliases=tuple(pair for pair in part.aliases if pair[0] not in taken),
    )


def _taken(part: Part) -> dict[Side, str]:
    """Give the sides that are gone from the finished part, each with the slant that took it."""
    names = {face.name for face in slants(part)}
    there = {s.name for s in part.surfaces}
    meant = dict(part.aliases)
    return {
        side: meant[side] for side in OUTWARD if side not in there and meant.get(side) in names
    }


def _side(body: Block, side: Side) -> Surface:
    box = Extents(low=body.low, high=body.high)
    axis = axis_of(OUTWARD[side])
    low, high = list(body.low), list(body.high)
    at = box.high[axis] if OUTWARD[side][axis] > 0 else box.low[axis]
    low[axis] = high[axis] = at
    point = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    return Surface(
        name=side,
        feature=body.name,
        kind="plane",
        inside=False,
        point=(point[0], point[1], point[2]),
        direction=OUTWARD[side],
        low=(low[0], low[1], low[2]),
        high=(high[0], high[1], high[2]),
    )


def _to_the_side(part: Part, distance: Distance, taken: dict[Side, str]) -> Distance:
    """Measure to the sides what was drawn to them before slants took them."""
    names = {face.name for face in slants(part)}
    along = {
        slant: side
        for side, slant in taken.items()
        if abs(dot(distance.direction, OUTWARD[side])) > _ALONG
        and not distance.name.startswith(f"{slant} ")
    }
    a, b = along.get(distance.a, distance.a), along.get(distance.b, distance.b)
    return distance if {a, b} & names else replace(distance, a=a, b=b)
