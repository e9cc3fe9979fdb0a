"""The metal that comes off in a set-up, found once for all its pictures."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

from halfthou.drawing.geometry import Cylinder
from halfthou.planning.model import Operation
from halfthou.shapes.solids import Solid, common, cut, is_empty, pieces, solid_of, together


@lru_cache(maxsize=32)
def came_off(before: Solid, after: Solid) -> Solid:
    """Return what of a solid is gone afterwards.

    Pieces that lie face to face, as a cap on its base, are looked at one by one: the kernel
    takes two that touch in one shape for one that cuts itself.
    """
    some = pieces(before)
    if len(some) < 2:  # noqa: PLR2004
        return cut(before, [after])
    left = pieces(after)
    return together([cut(one, left) for one in some])


def left_in_the_chuck(before: Solid, operations: Iterable[Operation]) -> Solid | None:
    """Return the bar that stays in the chuck when work is parted off, or nothing.

    Parting counts all that lies beyond its groove as gone from the part; only the groove is cut.
    """
    operations = tuple(operations)
    for parting in operations:
        for region in parting.region:
            if parting.verb != "part off" or not isinstance(region, Cylinder):
                continue
            far = replace(region, start=(parting.ends, *region.start[1:]))
            cuts = [solid_of(one) for op in operations if op is not parting for one in op.region]
            rest = cut(common(before, solid_of(far)), cuts)
            return None if is_empty(rest) else rest
    return None
