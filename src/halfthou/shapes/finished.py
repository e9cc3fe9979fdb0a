"""The finished part as a solid, straight from the drawing."""

from __future__ import annotations

from halfthou.drawing.model import Part
from halfthou.shapes.solids import Solid, cut, solid_of


def finished(part: Part) -> Solid:
    """Make the part as drawn: its metal less what is cut away."""
    return cut(solid_of(part.metal), [solid_of(one) for one in part.removed])
