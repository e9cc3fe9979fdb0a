"""The metal that comes off in a set-up, found once for all its pictures."""

from __future__ import annotations

from functools import lru_cache

from halfthou.shapes.solids import Solid, cut, pieces, together


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
