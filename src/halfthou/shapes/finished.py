"""The finished part as a solid, straight from the drawing; its pieces, and its raw casting."""

from __future__ import annotations

from collections.abc import Iterable

from halfthou.drawing.model import Lump, Part
from halfthou.shapes.solids import Solid, cut, fuse, solid_of, together


def finished(part: Part) -> Solid:
    """Make the part as drawn: its metal less what is cut away, and what is put into it."""
    own = cut(solid_of(part.metal), [solid_of(one) for one in part.removed])
    put_in = [solid_of_lump(piece.lump) for piece in part.pieces if piece.fixed]
    return together([own, *put_in]) if put_in else own


def solid_of_lump(lump: Lump) -> Solid:
    """Make one lump: its metal less what is cut away."""
    return cut(solid_of(lump.metal), [solid_of(one) for one in lump.removed])


def solid_of_lumps(lumps: Iterable[Lump]) -> Solid:
    """Join lumps that are one workpiece."""
    return fuse([solid_of_lump(lump) for lump in lumps])
