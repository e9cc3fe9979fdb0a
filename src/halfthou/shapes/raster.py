"""Painting triangles on a grid of pixels, the nearest on top."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfthou.shapes.mesh import Floats, Whole


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Layer:
    """One solid on the grid: depth toward the eye (minus infinity where it is not) and light."""

    depth: Floats
    light: Floats


def paint(*, corners: Floats, light: Floats, triangles: Whole, width: int, height: int) -> Layer:
    """Paint triangles seen from the front; those that turn their back are left out.

    Parameters
    ----------
    corners :
        shape (n, 3), x and y in pixels from the lower left corner, depth toward the eye.
    light :
        shape (n,), brightness at each corner.
    triangles :
        shape (m, 3), corner numbers, counter-clockwise seen from outside the metal.
    """
    depth = np.full(width * height, -np.inf)
    shade = np.zeros(width * height)
    corner = corners[triangles]
    ab, ac = corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0]
    twice_area = ab[:, 0] * ac[:, 1] - ab[:, 1] * ac[:, 0]
    front = twice_area > 0
    corner, ab, ac, twice_area = corner[front], ab[front], ac[front], twice_area[front]
    bright = light[triangles[front]]
    which, column, row = _pixels(corner, width, height)
    x = column + 0.5 - corner[which, 0, 0]
    y = row + 0.5 - corner[which, 0, 1]
    u = (x * ac[which, 1] - y * ac[which, 0]) / twice_area[which]
    v = (y * ab[which, 0] - x * ab[which, 1]) / twice_area[which]
    near = corner[which, 0, 2] + u * ab[which, 2] + v * ac[which, 2]
    place = row * width + column
    np.maximum.at(depth, place, near)
    on_top = near >= depth[place]
    first = bright[:, 0]
    value = first[which] + u * (bright[:, 1] - first)[which] + v * (bright[:, 2] - first)[which]
    shade[place[on_top]] = value[on_top]
    return Layer(depth=depth.reshape(height, width), light=shade.reshape(height, width))


def _spread(first: Whole, last: Whole) -> tuple[Whole, Whole]:
    """Return every whole number of each span first..last, and the number of its span."""
    count = np.maximum(last - first + 1, 0)
    which = np.repeat(np.arange(len(count)), count)
    before = np.cumsum(count) - count
    return which, np.arange(len(which)) - before[which] + first[which]


def _pixels(corner: Floats, width: int, height: int) -> tuple[Whole, Whole, Whole]:
    """Return triangle, column and row of every pixel whose middle a triangle covers."""
    low, high = corner[:, :, 1].min(axis=1), corner[:, :, 1].max(axis=1)
    first = np.maximum(np.ceil(low - 0.5).astype(np.int64), 0)
    last = np.minimum(np.ceil(high - 0.5).astype(np.int64) - 1, height - 1)
    which, row = _spread(first, last)
    level = row + 0.5
    left, right = np.full(len(row), np.inf), np.full(len(row), -np.inf)
    for a, b in ((0, 1), (1, 2), (2, 0)):
        start, end = corner[which, a], corner[which, b]
        rise = end[:, 1] - start[:, 1]
        crosses = (start[:, 1] <= level) != (end[:, 1] <= level)
        share = (level - start[:, 1]) / np.where(rise == 0, 1.0, rise)
        at = start[:, 0] + share * (end[:, 0] - start[:, 0])
        left = np.where(crosses, np.minimum(left, at), left)
        right = np.where(crosses, np.maximum(right, at), right)
    there = right >= left
    which, row, left, right = which[there], row[there], left[there], right[there]
    begin = np.maximum(np.ceil(left - 0.5).astype(np.int64), 0)
    end_ = np.minimum(np.ceil(right - 0.5).astype(np.int64) - 1, width - 1)
    span, column = _spread(begin, end_)
    return which[span], column, row[span]
