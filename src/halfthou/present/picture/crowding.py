"""What it costs to draw a dimension somewhere: what it crosses, what it comes too near to."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

import numpy as np
import numpy.typing as npt

from halfthou.present.picture.ink import LINES
from halfthou.present.picture.sheet import Box, Disc, Mark, Path, Words, box_of_words
from halfthou.shapes.flat import Segment2
from halfthou.units import Millimetre

Segments = npt.NDArray[np.float64]
"""Shape (n, 4): x1, y1, x2, y2."""

_OVER_TEXT: Final = 400.0
CLASH: Final = 120.0
"""What a text over a line costs: more than any way round it."""
_OVER_MARK: Final = 35.0
"""What a line over an arrow, a number on a tool or the zero costs."""
_OFF_PAPER: Final = 1500.0
_IN_AREA: Final = 12.0
_CROSSING: Final = 9.0
_LEADER_CROSSING: Final = 40.0
_WITNESS_CROSSING: Final = 2.5
_OUTLINE_CROSSING: Final = 3.0
_CROWDED: Final = 3.0
_ELBOW: Final[Millimetre] = 1.1
"""Between two texts: nearer than this they crowd, though they do not touch."""
_APART: Final[Millimetre] = 3.0
_WITNESS_APART: Final[Millimetre] = 0.9
"""Dimension lines side by side keep this far apart, and this far from witness lines."""
_ONE_OVER_THE_OTHER: Final[Millimetre] = 0.6
_TOUCH: Final = 1e-6
_CELL: Final[Millimetre] = 0.4
"""Side of the cells in which the ground's lines are kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One way to draw a dimension. ``cost`` is what it costs on an empty sheet.

    Its marks are only made (``draw``) for the way that is taken.
    """

    draw: Callable[[], tuple[Mark, ...]]
    boxes: tuple[Box, ...]
    lines: tuple[Segment2, ...]
    witness: tuple[Segment2, ...]
    cost: float

    @property
    def marks(self) -> tuple[Mark, ...]:
        """What is drawn."""
        return self.draw()


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What the dimensions are laid on: lines and words already there, areas better kept clear.

    Texts never lie over boxes to ``keep``, and lines only where there is hardly a way round.
    """

    paper: Box
    lines: Segments
    boxes: tuple[Box, ...] = ()
    areas: tuple[Box, ...] = ()
    keep: tuple[Box, ...] = ()
    reach: Segments = field(init=False, repr=False)
    """From where to where each line goes: left, right, top, bottom, shape (4, n)."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "reach", _reach_of(self.lines))


def ground_of(
    marks: Iterable[Mark],
    *,
    paper: Box,
    areas: Iterable[Box] = (),
    keep: Iterable[Box] = (),
) -> Ground:
    """Take stock of the marks already on the sheet; nothing may be laid over boxes to ``keep``."""
    marks = tuple(marks)
    return Ground(
        paper=paper,
        lines=segments_of(marks),
        boxes=tuple(box_of_words(mark) for mark in marks if isinstance(mark, Words)),
        areas=tuple(areas),
        keep=tuple(keep),
    )


def segments_of(marks: Iterable[Mark]) -> Segments:
    """Return every straight piece of line that a text may not stand over."""
    found: list[tuple[float, float, float, float]] = []
    for mark in marks:
        if mark.style not in LINES:
            continue
        if isinstance(mark, Disc):
            found += _ring_segments(mark)
        elif isinstance(mark, Path):
            for line in mark.lines:
                looped = (*line, line[0]) if mark.closed else line
                found += [(*a, *b) for a, b in pairwise(looped)]
    return np.array(found, dtype=np.float64).reshape(-1, 4)


def _ring_segments(disc: Disc) -> list[tuple[float, float, float, float]]:
    turn = np.linspace(0.0, 2 * np.pi, 17)
    points = [
        (
            disc.centre[0] + disc.radius * float(np.cos(t)),
            disc.centre[1] + disc.radius * float(np.sin(t)),
        )
        for t in turn
    ]
    return [(*a, *b) for a, b in pairwise(points)]


def box_hits(box: Box, lines: Segments) -> int:
    """Count the pieces of line that enter a box."""
    return _hits(box, lines, _reach_of(lines))


def _reach_of(lines: Segments) -> Segments:
    x1, y1, x2, y2 = lines.T
    ends = (np.minimum(x1, x2), np.maximum(x1, x2), np.minimum(y1, y2), np.maximum(y1, y2))
    return np.array(ends, dtype=np.float64)


def _near(lines: Segments, reach: Segments, box: Box) -> Segments:
    """Return the lines that come into the rectangle round a box, or may."""
    left, right, top, bottom = reach
    near = (left < box.right) & (right > box.left) & (top < box.bottom) & (bottom > box.top)
    return np.asarray(lines[near], dtype=np.float64)


def _hits(box: Box, lines: Segments, reach: Segments) -> int:
    near = _near(lines, reach, box)
    if not len(near):
        return 0
    x1, y1, x2, y2 = near.T
    dx, dy = x2 - x1, y2 - y1
    sides = np.array(
        [
            dx * (y - y1) - dy * (x - x1)
            for x in (box.left, box.right)
            for y in (box.top, box.bottom)
        ]
    )
    return int(np.count_nonzero((sides.max(axis=0) > 0) & (sides.min(axis=0) < 0)))


def _crossings(segments: Sequence[Segment2], lines: Segments, reach: Segments) -> int:
    """Count the pieces of line that straight lines truly cross; touching ends do not count."""
    if not segments:
        return 0
    near = _near(lines, reach, _round(segments))
    if not len(near):
        return 0
    given = np.array(segments, dtype=np.float64).reshape(-1, 4)
    x1, y1, x2, y2 = near.T
    ax, ay, bx, by = (given[:, column, None] for column in range(4))
    dx, dy, ux, uy = bx - ax, by - ay, x2 - x1, y2 - y1
    one = dx * (y1 - ay) - dy * (x1 - ax)
    two = dx * (y2 - ay) - dy * (x2 - ax)
    three = ux * (ay - y1) - uy * (ax - x1)
    four = ux * (by - y1) - uy * (bx - x1)
    return int(np.count_nonzero((one * two < -_TOUCH) & (three * four < -_TOUCH)))


def _round(segments: Sequence[Segment2]) -> Box:
    """Return the box round some straight lines."""
    xs = [point[0] for line in segments for point in line]
    ys = [point[1] for line in segments for point in line]
    return Box(left=min(xs), right=max(xs), top=min(ys), bottom=max(ys))


def these(*marks: Mark) -> tuple[Mark, ...]:
    """Return the marks given: for a way whose marks cost nothing to make."""
    return marks


def texts_on_ground(choice: Candidate, ground: Ground) -> float:
    """Cost of where the words of one way would stand among what is already on the sheet."""
    cost = 0.0
    for box in choice.boxes:
        room = box.grown(0.35)
        cost += _OFF_PAPER * (not ground.paper.holds(box))
        cost += CLASH * min(4, _hits(room, ground.lines, ground.reach))
        cost += _OVER_TEXT * sum(room.meets(other) for other in (*ground.boxes, *ground.keep))
        cost += _IN_AREA * sum(room.meets(area) for area in ground.areas)
    return cost


def lines_on_ground(choice: Candidate, ground: Ground) -> float:
    """Cost of where the lines of one way would run among what is already on the sheet."""
    lines, witness = choice.lines, choice.witness
    if not lines and not witness:
        return 0.0
    cost = _OUTLINE_CROSSING * _crossings(lines, ground.lines, ground.reach)
    cost += _OUTLINE_CROSSING / 3 * _crossings(witness, ground.lines, ground.reach)
    both = _round((*lines, *witness))
    keep = [box for box in ground.keep if _meets_or_touches(box, both)]
    texts = [box for box in ground.boxes if _meets_or_touches(box, both)]
    areas = [box for box in ground.areas if _meets_or_touches(box, both)]
    cost += _OVER_MARK * _times_through((*lines, *witness), keep)
    cost += CLASH * _times_through((*lines, *witness), texts)
    cost += _IN_AREA * _times_through(lines, areas)
    return cost + _IN_AREA / 2 * _times_through(witness, areas)


def _meets_or_touches(box: Box, other: Box) -> bool:
    """As `Box.meets`, for a rectangle that may be no more than a line."""
    return (
        box.left <= other.right
        and other.left <= box.right
        and box.top <= other.bottom
        and other.top <= box.bottom
    )


def _times_through(lines: Sequence[Segment2], boxes: Sequence[Box]) -> int:
    return sum(_through(line, box) for line in lines for box in boxes)


class Inked:
    """Where lines stand on a sheet, cell by cell: tells at once that a text would lie over one."""

    def __init__(self, lines: Segments) -> None:
        self._low = np.zeros(2)
        self._sums = np.zeros((1, 1), dtype=np.int64)
        if not len(lines):
            return
        points = _along(lines)
        self._low = np.floor(points.min(axis=0) / _CELL)
        cells = np.floor(points / _CELL - self._low).astype(np.int64)
        wide, high = cells.max(axis=0) + 1
        inked = np.zeros((wide, high), dtype=np.int64)
        inked[cells[:, 0], cells[:, 1]] = 1
        self._sums = np.pad(inked.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))

    def least(self, choices: Sequence[Candidate], ground: Ground) -> npt.NDArray[np.float64]:
        """Return the least that each of some ways can cost where it lies."""
        boxes = np.array(
            [(b.left, b.top, b.right, b.bottom) for one in choices for b in one.boxes]
        ).reshape(-1, 4)
        counts = [len(one.boxes) for one in choices]
        owner = np.repeat(np.arange(len(choices)), counts)
        cost = CLASH * (self._inked(boxes) > 0)
        for area in ground.areas:
            cost = cost + _IN_AREA * _meet(boxes, area)
        for words in (*ground.boxes, *ground.keep):
            cost = cost + _OVER_TEXT * _meet(boxes, words)
        own = np.array([one.cost for one in choices])
        lying = np.bincount(owner, weights=cost, minlength=len(choices))
        return np.asarray(own + lying, dtype=np.float64)

    def _inked(self, boxes: Segments) -> npt.NDArray[np.int64]:
        """Count the inked cells that lie wholly in each box."""
        most = np.array(self._sums.shape) - 1
        low = np.clip(np.ceil(boxes[:, :2] / _CELL - self._low), 0, most).astype(np.int64)
        high = np.clip(np.floor(boxes[:, 2:] / _CELL - self._low), 0, most).astype(np.int64)
        high = np.maximum(low, high)
        sums = self._sums
        found: npt.NDArray[np.int64] = (
            sums[high[:, 0], high[:, 1]]
            - sums[low[:, 0], high[:, 1]]
            - sums[high[:, 0], low[:, 1]]
            + sums[low[:, 0], low[:, 1]]
        )
        return found


def _meet(boxes: Segments, other: Box) -> npt.NDArray[np.bool_]:
    found: npt.NDArray[np.bool_] = (
        (boxes[:, 0] < other.right)
        & (boxes[:, 2] > other.left)
        & (boxes[:, 1] < other.bottom)
        & (boxes[:, 3] > other.top)
    )
    return found


def _along(lines: Segments) -> Segments:
    """Return points along some lines, never more than a cell apart, shape (n, 2)."""
    a, b = lines[:, :2], lines[:, 2:]
    counts = np.maximum(2, np.ceil(np.hypot(*(b - a).T) / _CELL).astype(np.int64) + 1)
    which = np.repeat(np.arange(len(lines)), counts)
    rank = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
    share = (rank / (counts[which] - 1))[:, None]
    return np.asarray(a[which] + share * (b[which] - a[which]), dtype=np.float64)


def _through(line: Segment2, box: Box) -> bool:
    """Tell whether one straight line enters a box: `box_hits`, without its start-up cost."""
    (x1, y1), (x2, y2) = line
    if max(x1, x2) <= box.left or min(x1, x2) >= box.right:
        return False
    if max(y1, y2) <= box.top or min(y1, y2) >= box.bottom:
        return False
    dx, dy = x2 - x1, y2 - y1
    sides = [
        dx * (y - y1) - dy * (x - x1) for x in (box.left, box.right) for y in (box.top, box.bottom)
    ]
    return max(sides) > 0 > min(sides)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A candidate as the tests between two of them want it: boxes with room round them."""

    bounds: Box
    rooms: tuple[Box, ...]
    near: tuple[Box, ...]
    lines: tuple[Segment2, ...]
    witness: tuple[Segment2, ...]


def shape_of(choice: Candidate) -> Shape:
    """Prepare a candidate for the tests between two."""
    ends = [point for line in (*choice.lines, *choice.witness) for point in line]
    ends += [
        corner for box in choice.boxes for corner in ((box.left, box.top), (box.right, box.bottom))
    ]
    bounds = Box(
        left=min(x for x, _ in ends),
        right=max(x for x, _ in ends),
        top=min(y for _, y in ends),
        bottom=max(y for _, y in ends),
    )
    return Shape(
        bounds=bounds.grown(_APART / 2),
        rooms=tuple(box.grown(0.35) for box in choice.boxes),
        near=tuple(box.grown(_ELBOW) for box in choice.boxes),
        lines=choice.lines,
        witness=choice.witness,
    )


def cost_between(a: Shape, b: Shape) -> float:
    """Cost of two dimensions drawn together: 0 where they are well apart."""
    one, two = a.bounds, b.bounds
    if (
        one.left >= two.right
        or two.left >= one.right
        or one.top >= two.bottom
        or two.top >= one.bottom
    ):
        return 0.0
    return (
        _texts_between(a, b)
        + _texts_over_lines(a, b)
        + _texts_over_lines(b, a)
        + sum(_lines_between(one, two) for one in a.lines for two in b.lines)
        + _lines_over_witness(a, b)
        + _lines_over_witness(b, a)
    )


def _texts_between(a: Shape, b: Shape) -> float:
    cost = 0.0
    for room, elbow in zip(a.rooms, a.near, strict=True):
        for other in b.rooms:
            if elbow.meets(other):
                cost += _OVER_TEXT if room.meets(other) else _CROWDED
    return cost


def _texts_over_lines(a: Shape, b: Shape) -> float:
    lines = (*b.lines, *b.witness)
    return CLASH * sum(_through(line, room) for room in a.rooms for line in lines)


def _lines_between(one: Segment2, two: Segment2) -> float:
    if _beside(one, two, _APART):
        return CLASH if _beside(one, two, _ONE_OVER_THE_OTHER) else 3 * _CROSSING
    if not _cross(one, two):
        return 0.0
    return _LEADER_CROSSING if _leads(one) or _leads(two) else _CROSSING


def _leads(line: Segment2) -> bool:
    """Whether a line runs aslant, as leaders do: one that crosses another misleads the eye."""
    (x1, y1), (x2, y2) = line
    return abs(x1 - x2) > _TOUCH and abs(y1 - y2) > _TOUCH


def _lines_over_witness(a: Shape, b: Shape) -> float:
    return _WITNESS_CROSSING * sum(
        _cross(line, other) + 3 * _beside(line, other, _WITNESS_APART)
        for line in a.lines
        for other in b.witness
    )


def _cross(a: Segment2, b: Segment2) -> bool:
    (ax, ay), (bx, by) = a
    (cx, cy), (dx, dy) = b
    one = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
    two = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax)
    if one * two >= -_TOUCH:
        return False
    three = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx)
    four = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx)
    return three * four < -_TOUCH


def _beside(a: Segment2, b: Segment2, near: Millimetre) -> bool:
    """Tell whether two level or two upright lines run side by side nearer than they should."""
    for along, across in ((0, 1), (1, 0)):
        if abs(a[0][across] - a[1][across]) > _TOUCH or abs(b[0][across] - b[1][across]) > _TOUCH:
            continue
        if abs(a[0][across] - b[0][across]) >= near:
            return False
        low = max(min(a[0][along], a[1][along]), min(b[0][along], b[1][along]))
        high = min(max(a[0][along], a[1][along]), max(b[0][along], b[1][along]))
        return high - low > _TOUCH
    return False
