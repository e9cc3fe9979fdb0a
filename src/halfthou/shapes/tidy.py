"""Tidying the lines of a view: nothing drawn twice, nothing hidden drawn under what is seen.

An edge seen end on comes from the hidden-line kernel as several lines a few micrometres apart,
because the eye is tilted a little. Here they become one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from halfthou.shapes.flat import Polyline2
from halfthou.units import Millimetre

Points: TypeAlias = NDArray[np.float64]
Bounds: TypeAlias = tuple[float, float, float, float]
"""Left, low, right, high."""

_PARALLEL: Final = 0.12
"""Sine of the angle within which two short chords count as running together."""
_COLLINEAR: Final = 0.01
_TINY: Final = 1e-12


def tidy(
    visible: Iterable[Polyline2], hidden: Iterable[Polyline2], *, tolerance: Millimetre
) -> tuple[tuple[Polyline2, ...], tuple[Polyline2, ...]]:
    """Return visible and hidden lines, each stretch drawn once, hidden only where not seen."""
    seen = _without_repeats(visible, (), tolerance)
    behind = _without_repeats(hidden, seen, tolerance)
    return (
        tuple(_plain(line) for line in _joined(seen, tolerance)),
        tuple(_plain(line) for line in _joined(behind, tolerance)),
    )


def _plain(line: Points) -> Polyline2:
    return tuple((float(x), float(y)) for x, y in line)


def _length(line: Points) -> float:
    if len(line) == 2:  # noqa: PLR2004
        return math.dist(line[0].tolist(), line[1].tolist())
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


def _without_repeats(
    lines: Iterable[Polyline2], covers: Sequence[Points], tolerance: Millimetre
) -> list[Points]:
    drawn = [_straightened(np.asarray(line, dtype=np.float64), tolerance) for line in lines]
    drawn = [line for line in drawn if _length(line) > 2 * tolerance]
    laid = [(other, _bounds(other)) for other in covers]
    first = len(laid)
    for line in sorted(drawn, key=_length, reverse=True):
        bounds = _bounds(line)
        near = [other for other, its in laid if _near(bounds, its, tolerance)]
        rest = _uncovered(line, near, tolerance) if near else [line]
        laid.extend((piece, _bounds(piece)) for piece in rest if _length(piece) > 2 * tolerance)
    return [line for line, _ in laid[first:]]


def _bounds(line: Points) -> Bounds:
    (left, low), (right, high) = line.min(axis=0).tolist(), line.max(axis=0).tolist()
    return left, low, right, high


def _near(a: Bounds, b: Bounds, tolerance: Millimetre) -> bool:
    return (
        a[0] - tolerance <= b[2]
        and b[0] - tolerance <= a[2]
        and a[1] - tolerance <= b[3]
        and b[1] - tolerance <= a[3]
    )


def _straightened(line: Points, tolerance: Millimetre) -> Points:
    """Return a two-point line if all points lie on it; else the line as it is."""
    if len(line) == 2:  # noqa: PLR2004  (a line has two ends)
        return line
    first = line[np.argmax(np.hypot(*(line - line[0]).T))]
    last = line[np.argmax(np.hypot(*(line - first).T))]
    along = last - first
    length = float(np.hypot(*along))
    if length < _TINY:
        return line
    off = np.abs(_cross(line - first, along / length))
    return np.array([first, last]) if float(off.max()) < tolerance else line


def _cross(a: Points, b: Points) -> Points:
    result: Points = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return result


def _segments(lines: Sequence[Points]) -> tuple[Points, Points]:
    return (
        np.concatenate([line[:-1] for line in lines]),
        np.concatenate([line[1:] for line in lines]),
    )


def _uncovered(line: Points, others: Sequence[Points], tolerance: Millimetre) -> list[Points]:
    """Cut out of a line the stretches that run along one of the others."""
    low, high = _overlaps(line, others, tolerance)
    rest: list[list[Points]] = []
    open_end = False
    for number in range(len(line) - 1):
        start, step = line[number], line[number + 1] - line[number]
        touched = high[number] > low[number]
        spans = _gaps(low[number][touched], high[number][touched])
        for a, b in spans:
            if a == 0.0 and open_end:
                rest[-1].append(start + b * step)
            else:
                rest.append([start + a * step, start + b * step])
            open_end = b == 1.0
        if not spans:
            open_end = False
    return [np.array(piece) for piece in rest]


def _gaps(low: Points, high: Points) -> list[tuple[float, float]]:
    """Return what of 0..1 the spans leave free."""
    free: list[tuple[float, float]] = []
    reached = 0.0
    for a, b in sorted(zip(low.tolist(), high.tolist(), strict=True)):
        if a > reached:
            free.append((reached, a))
        reached = max(reached, b)
    if reached < 1.0:
        free.append((reached, 1.0))
    return free


def _overlaps(
    line: Points, others: Sequence[Points], tolerance: Millimetre
) -> tuple[Points, Points]:
    """Return, for each chord of a line and of the others, the stretch (0..1) they share."""
    start, end = _segments([line])
    other_start, other_end = _segments(others)
    along = end - start
    length = np.maximum(np.hypot(*along.T), _TINY)[:, None]
    unit = along / length
    other = other_end - other_start
    other = other / np.maximum(np.hypot(*other.T), _TINY)[:, None]
    parallel = np.abs(_cross(unit[:, None, :], other[None, :, :])) < _PARALLEL
    to_a = other_start[None, :, :] - start[:, None, :]
    to_b = other_end[None, :, :] - start[:, None, :]
    t_a, t_b = (np.einsum("ijk,ik->ij", to, unit) for to in (to_a, to_b))
    off_a, off_b = (_cross(unit[:, None, :], to) for to in (to_a, to_b))
    run = t_b - t_a
    slope = np.where(np.abs(run) > _TINY, (off_b - off_a) / np.where(run == 0, 1.0, run), 0.0)
    at_zero = off_a - slope * t_a
    # where along the chord the other one's offset is within the tolerance
    steep = np.where(np.abs(slope) < _TINY, _TINY, slope)
    x_a, x_b = (-tolerance - at_zero) / steep, (tolerance - at_zero) / steep
    low = np.maximum(np.minimum(t_a, t_b) - tolerance / 2, np.minimum(x_a, x_b))
    high = np.minimum(np.maximum(t_a, t_b) + tolerance / 2, np.maximum(x_a, x_b))
    low, high = np.clip(low, 0, length) / length, np.clip(high, 0, length) / length
    return np.where(parallel, low, 1.0), np.where(parallel, high, 0.0)


def _joined(lines: Sequence[Points], tolerance: Millimetre) -> list[Points]:
    """Join lines end to end: straight ones in one direction, pieces of curve to one another."""
    left = list(lines)
    done: list[Points] = []
    while left:
        line = left.pop()
        while (match := _continuation(line, left, tolerance)) is not None:
            number, line = match
            left.pop(number)
        done.append(_closed(_straightened(line, tolerance / 2), tolerance))
    return done


def _continuation(
    line: Points, others: Sequence[Points], tolerance: Millimetre
) -> tuple[int, Points] | None:
    if not others:
        return None
    ends = np.array([(other[0], other[-1]) for other in others])
    for mine in (line, line[::-1]):
        gap = np.hypot(*np.moveaxis(ends - mine[-1], -1, 0))
        for number, end in np.argwhere(gap <= tolerance):
            other = others[number] if end == 0 else others[number][::-1]
            if _runs_on(mine, other):
                return int(number), np.concatenate([mine, other[1:]])
    return None


def _runs_on(a: Points, b: Points) -> bool:
    before, after = a[-1] - a[-2], b[1] - b[0]
    scale = float(np.hypot(*before) * np.hypot(*after))
    straight = len(a) == len(b) == 2  # noqa: PLR2004  (a line has two ends)
    turn = abs(float(_cross(before, after)))
    return float(before @ after) > 0 and turn < (_COLLINEAR if straight else _PARALLEL) * scale


def _closed(line: Points, tolerance: Millimetre) -> Points:
    """Return a loop that all but meets itself as one that does."""
    is_loop = len(line) > 3 and float(np.hypot(*(line[0] - line[-1]))) <= tolerance  # noqa: PLR2004
    return np.concatenate([line[:-1], line[:1]]) if is_loop else line
