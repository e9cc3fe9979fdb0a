"""The metal that comes off in a set-up, found once for all its pictures."""

from __future__ import annotations

from functools import lru_cache

from halfthou.shapes.solids import Solid, cut


@lru_cache(maxsize=32)
def came_off(before: Solid, after: Solid) -> Solid:
    """Return what of a solid is gone afterwards."""
    return cut(before, [after])
