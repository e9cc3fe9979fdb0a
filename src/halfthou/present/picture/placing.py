"""Choosing a place for every dimension: no text over a line or another text, few crossings.

Each dimension offers the ways it could be drawn. They are placed smallest first, each in its
cheapest way given those before it; then each in turn is taken up and placed again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

import numpy as np
import numpy.typing as npt

from halfthou.present.picture.ink import LINES
from halfthou.present.picture.sheet import Box, Disc, Mark, Path, Sheet, Words, box_of_words
from halfthou.shapes.flat import Point2, Segment2
from halfthou.units import Millimetre

Segments = npt.NDArray[np.float64]
"""Shape (n, 4): x1, y1, x2, y2."""

_OVER_TEXT: Final = 400.0
_OVER_LINE: Final = 120.0
_OFF_PAPER: Final = 1500.0
_IN_AREA: Final = 12.0
_CROSSING: Final = 9.0
_WITNESS_CROSSING: Final = 2.5
_OUTLINE_CROSSING: Final = 3.0
_CROWDED: Final = 3.0
_ELBOW: Final[Millimetre] = 1.1
"""Between two texts: nearer than this they crowd, though they do not touch."""
_SWEEPS: Final = 3
_TOUCH: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One way to draw a dimension. ``cost`` is what it costs on an empty sheet."""

    marks: tuple[Mark, ...]
    boxes: tuple[Box, ...]
    lines: tuple[Segment2, ...]
    witness: tuple[Segment2, ...]
    cost: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What the dimensions are laid on: lines and words already there, areas better kept clear."""

    paper: Box
    lines: Segments
    boxes: tuple[Box, ...] = ()
    areas: tuple[Box, ...] = field(default=())


def ground_of(marks: Iterable[Mark], *, paper: Box, areas: Iterable[Box] = ()) -> Ground:
    """Take stock of the marks already on the sheet."""
    marks = tuple(marks)
    return Ground(
        paper=paper,
        lines=segments_of(marks),
        boxes=tuple(box_of_words(mark) for mark in marks if isinstance(mark, Words)),
        areas=tuple(areas),
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
    if not len(lines):
        return 0
    x1, y1, x2, y2 = lines.T
    near = (
        (np.minimum(x1, x2) < box.right)
        & (np.maximum(x1, x2) > box.left)
        & (np.minimum(y1, y2) < box.bottom)
        & (np.maximum(y1, y2) > box.top)
    )
    if not near.any():
        return 0
    x1, y1, x2, y2 = lines[near].T
    sides = np.stack(
        [
            (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)
            for x in (box.left, box.right)
            for y in (box.top, box.bottom)
        ]
    )
    return int(((sides.max(axis=0) > 0) & (sides.min(axis=0) < 0)).sum())


def crossings(segment: Segment2, lines: Segments) -> int:
    """Count the pieces of line that a straight line truly crosses; touching ends do not count."""
    if not len(lines):
        return 0
    (ax, ay), (bx, by) = segment
    x1, y1, x2, y2 = lines.T
    one = (bx - ax) * (y1 - ay) - (by - ay) * (x1 - ax)
    two = (bx - ax) * (y2 - ay) - (by - ay) * (x2 - ax)
    three = (x2 - x1) * (ay - y1) - (y2 - y1) * (ax - x1)
    four = (x2 - x1) * (by - y1) - (y2 - y1) * (bx - x1)
    return int(((one * two < -_TOUCH) & (three * four < -_TOUCH)).sum())


def place(wishes: Sequence[Sequence[Candidate]], ground: Ground) -> tuple[Mark, ...]:
    """Choose one way for each dimension, given in the order they should lie outward."""
    offers = [_Offer(choices, ground) for choices in wishes if choices]
    chosen: list[_Chosen] = []
    for offer in offers:
        chosen.append(_cheapest(offer, chosen))
    for _ in range(_SWEEPS):
        before = [one.number for one in chosen]
        for number, offer in enumerate(offers):
            chosen[number] = _cheapest(offer, chosen[:number] + chosen[number + 1 :])
        if [one.number for one in chosen] == before:
            break
    _mend(offers, chosen)
    return tuple(mark for one in chosen for mark in one.way.marks)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Chosen:
    """The way taken for one dimension, which of its ways it is, and what it costs as it lies."""

    way: Candidate
    number: int
    cost: float


def _mend(offers: Sequence[_Offer], chosen: list[_Chosen]) -> None:
    """Where a text still clashes, let it choose before one neighbour, who then chooses again."""
    for one, offer in enumerate(offers):
        rest = chosen[:one] + chosen[one + 1 :]
        now = _cheapest(offer, rest, only=chosen[one].number)
        if now.cost - now.way.cost < _OVER_LINE:
            continue
        for other, neighbour in enumerate(offers):
            if other != one and _swapped(one, offer, other, neighbour, chosen):
                break


def _swapped(
    one: int, offer: _Offer, other: int, neighbour: _Offer, chosen: list[_Chosen]
) -> bool:
    rest = [way for number, way in enumerate(chosen) if number not in {one, other}]
    before = _cheapest(offer, rest, only=chosen[one].number).cost
    before += _cheapest(neighbour, [*rest, chosen[one]], only=chosen[other].number).cost
    first = _cheapest(offer, rest)
    second = _cheapest(neighbour, [*rest, first])
    if first.cost + second.cost > before - _OVER_LINE / 2:
        return False
    chosen[one], chosen[other] = first, second
    return True


class _Offer:
    """The ways of one dimension, cheapest first; what each costs on the ground is found once."""

    def __init__(self, choices: Sequence[Candidate], ground: Ground) -> None:
        self.choices = sorted(choices, key=lambda choice: choice.cost)
        self._ground = ground
        self._costs: dict[int, float] = {}

    def standing(self, number: int) -> float:
        """Cost of one way among what already stands on the sheet."""
        if number not in self._costs:
            choice = self.choices[number]
            self._costs[number] = choice.cost + _cost_on_ground(choice, self._ground)
        return self._costs[number]


def _cost_on_ground(choice: Candidate, ground: Ground) -> float:
    cost = 0.0
    for box in choice.boxes:
        room = box.grown(0.35)
        cost += _OFF_PAPER * (not ground.paper.holds(box))
        cost += _OVER_LINE * min(4, box_hits(room, ground.lines))
        cost += _OVER_TEXT * sum(room.meets(other) for other in ground.boxes)
        cost += _IN_AREA * sum(room.meets(area) for area in ground.areas)
    for line in choice.lines:
        cost += _OUTLINE_CROSSING * crossings(line, ground.lines)
        cost += _OVER_LINE * sum(_through(line, other) for other in ground.boxes)
        cost += _IN_AREA * sum(_through(line, area) for area in ground.areas)
    for line in choice.witness:
        cost += _OUTLINE_CROSSING / 3 * crossings(line, ground.lines)
        cost += _OVER_LINE * sum(_through(line, other) for other in ground.boxes)
    return cost


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


def _cheapest(offer: _Offer, others: Sequence[_Chosen], *, only: int | None = None) -> _Chosen:
    lines = _array(line for other in others for line in other.way.lines)
    witness = _array(line for other in others for line in other.way.witness)
    boxes = [box for other in others for box in other.way.boxes]
    best, best_cost = 0, float("inf")
    for number, choice in enumerate(offer.choices):
        if only is not None and number != only:
            continue
        if choice.cost >= best_cost:
            break
        own = offer.standing(number)
        if own >= best_cost:
            continue
        cost = own + _cost_among(choice, lines, witness, boxes)
        if cost < best_cost:
            best, best_cost = number, cost
    return _Chosen(way=offer.choices[best], number=best, cost=best_cost)


def _array(lines: Iterable[Segment2]) -> Segments:
    return np.array([(*a, *b) for a, b in lines], dtype=np.float64).reshape(-1, 4)


def _cost_among(
    choice: Candidate, lines: Segments, witness: Segments, boxes: Sequence[Box]
) -> float:
    cost = 0.0
    for box in choice.boxes:
        room = box.grown(0.35)
        cost += _OVER_TEXT * sum(room.meets(other) for other in boxes)
        cost += _CROWDED * sum(box.grown(_ELBOW).meets(other) for other in boxes)
        cost += _OVER_LINE * (box_hits(room, lines) + box_hits(room, witness))
    for line in choice.lines:
        cost += _CROSSING * (crossings(line, lines) + _along(line, lines))
        cost += _WITNESS_CROSSING * (crossings(line, witness) + _along(line, witness, near=0.9))
        cost += _OVER_LINE * sum(_through(line, box.grown(0.3)) for box in boxes)
    for line in choice.witness:
        cost += _WITNESS_CROSSING * (crossings(line, lines) + _along(line, lines, near=0.9))
        cost += _OVER_LINE * sum(_through(line, box.grown(0.3)) for box in boxes)
    return cost


def _along(line: Segment2, lines: Segments, *, near: Millimetre = 3.0) -> int:
    """Count lines that run beside this one, nearer than dimension lines may lie."""
    if not len(lines):
        return 0
    (ax, ay), (bx, by) = line
    box = Box(left=min(ax, bx), right=max(ax, bx), top=min(ay, by), bottom=max(ay, by))
    level = abs(ay - by) < _TOUCH
    upright = abs(ax - bx) < _TOUCH
    if not (level or upright):
        return 0
    zone = Box(
        left=box.left - (0 if level else near),
        right=box.right + (0 if level else near),
        top=box.top - (near if level else 0),
        bottom=box.bottom + (near if level else 0),
    )
    x1, y1, x2, y2 = lines.T
    same = (np.abs(y1 - y2) < _TOUCH) if level else (np.abs(x1 - x2) < _TOUCH)
    return 3 * box_hits(zone, lines[same]) if same.any() else 0


def clashes(sheet: Sheet) -> tuple[str, ...]:
    """Name every text that meets a line or another text, or runs off the sheet."""
    texts = [mark for mark in sheet.marks if isinstance(mark, Words)]
    rings = [mark for mark in sheet.marks if isinstance(mark, Disc) and mark.style in LINES]
    others = [mark for mark in sheet.marks if not (isinstance(mark, Disc) and mark in rings)]
    lines = segments_of(others)
    paper = Box(left=0.0, top=0.0, right=sheet.width, bottom=sheet.height)
    found: list[str] = []
    for number, words in enumerate(texts):
        box = box_of_words(words)
        if not paper.holds(box):
            found.append(f"{words.text!r} runs off the sheet")
        if box_hits(box, lines):
            found.append(f"{words.text!r} stands over a line")
        if any(box_hits(box, segments_of([ring])) for ring in rings):
            found.append(f"{words.text!r} stands over a ring")
        found += [
            f"{words.text!r} meets {other.text!r}"
            for other in texts[number + 1 :]
            if box.meets(box_of_words(other))
        ]
    return tuple(found)
