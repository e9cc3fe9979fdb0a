"""How far along the axis an operation works, and about which line."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.geometry import Cone, TaperTube
from halfthou.planning.model import Operation
from halfthou.planning.turned.shape import NEAR
from halfthou.units import Millimetre, Vec3

AXIS: Final[Vec3] = (0.0, 0.0, 0.0)
"""No throw: the work turns about its own axis."""


def span(op: Operation) -> tuple[Millimetre, Millimetre]:
    """Give the extent along x of what an operation on the outside works on; [mm]."""
    if op.verb == "chamfer":
        xs = [p[0] for r in op.region if isinstance(r, Cone | TaperTube) for p in (r.start, r.end)]
        if xs:
            return min(xs), max(xs)
    return min(op.starts, op.ends), max(op.starts, op.ends)


def meet(a: Operation, b: Operation) -> bool:
    """Tell whether two operations touch along the axis."""
    low, high = span(a)
    other_low, other_high = span(b)
    return low <= other_high + NEAR and other_low <= high + NEAR


def on_line(op: Operation, throw: Vec3) -> bool:
    """Tell whether an operation turns about the line so far off the work's own axis."""
    off = op.at[0] if op.at else AXIS
    return math.hypot(off[1] - throw[1], off[2] - throw[2]) < NEAR
