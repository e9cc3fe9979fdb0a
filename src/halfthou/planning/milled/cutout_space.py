"""The space of a step, slot or pocket: run out where it is open, its corners as round as drawn."""

from __future__ import annotations

from itertools import product
from typing import Final

from halfthou.drawing.geometry import Box, Cylinder, Region
from halfthou.drawing.model import OUTWARD, Cutout
from halfthou.planning.axes import Extents, axis_of
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-6


def cutout_space(cutout: Cutout, raw: Extents, *, past: Millimetre) -> tuple[Region, ...]:
    """Give the space of a cutout, run out past the lump ``raw`` on its open sides."""
    low, high = list(cutout.low), list(cutout.high)
    for side in cutout.open_sides:
        axis = axis_of(OUTWARD[side])
        if OUTWARD[side][axis] > 0:
            high[axis] = max(high[axis], raw.high[axis]) + past
        else:
            low[axis] = min(low[axis], raw.low[axis]) - past
    box = Box(low=_vec(low), high=_vec(high))
    if cutout.kind != "pocket" or cutout.corner_radius <= 0:
        return (box,)
    return _rounded(box, axis_of(OUTWARD[cutout.floor]), cutout.corner_radius)


def _rounded(box: Box, axis: int, radius: Millimetre) -> tuple[Region, ...]:
    """Give a box with the four edges along an axis rounded, as an end mill leaves them."""
    first, second = (i for i in range(3) if i != axis)
    found: list[Region] = []
    for narrowed in (first, second):
        low, high = list(box.low), list(box.high)
        low[narrowed] += radius
        high[narrowed] -= radius
        if high[narrowed] - low[narrowed] > _SAME:
            found.append(Box(low=_vec(low), high=_vec(high)))
    ways = [(box.low[i] + radius, box.high[i] - radius) for i in (first, second)]
    for a, b in sorted(set(product(*ways))):
        start, end = list(box.low), list(box.high)
        start[first] = end[first] = a
        start[second] = end[second] = b
        found.append(Cylinder(start=_vec(start), end=_vec(end), diameter=2 * radius))
    return tuple(found)


def _vec(values: list[float]) -> Vec3:
    return (values[0], values[1], values[2])
