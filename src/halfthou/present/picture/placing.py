"""Choosing a place for every dimension: no text over a line or another text, few crossings.

Each dimension offers the ways it could be drawn. They are placed smallest first, each in its
cheapest way given those before it; then each in turn is taken up and placed again, and where a
text still clashes it may choose before a neighbour.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from halfthou.present.picture.crowding import (
    CLASH,
    Candidate,
    Ground,
    Inked,
    Shape,
    box_hits,
    cost_between,
    lines_on_ground,
    segments_of,
    shape_of,
    texts_on_ground,
)
from halfthou.present.picture.ink import INKS, LINES
from halfthou.present.picture.sheet import Box, Disc, Mark, Sheet, Words, box_of_words

_SWEEPS: Final = 4
_FRESH_STARTS: Final = 3


def place(wishes: Sequence[Sequence[Candidate]], ground: Ground) -> tuple[Mark, ...]:
    """Choose one way for each dimension, given in the order they should lie outward."""
    inked = Inked(ground.lines)
    offers = [_Offer(choices, ground, inked) for choices in wishes if choices]
    best = _settled(offers, range(len(offers)))
    for _ in range(_FRESH_STARTS):
        clashing = _clashing(offers, best)
        if not clashing:
            break
        others = [number for number in range(len(offers)) if number not in clashing]
        again = _settled(offers, [*clashing, *others])
        if _total(offers, again) >= _total(offers, best):
            again = _settled(offers, [*reversed(others), *clashing])
        best = min((best, again), key=lambda chosen: _total(offers, chosen))
    return tuple(mark for one in best for mark in one.way.marks)


def _settled(offers: Sequence[_Offer], order: Sequence[int]) -> list[_Chosen]:
    """Place every dimension, in some order, then let each choose again until none moves."""
    placed: dict[int, _Chosen] = {}
    for number in order:
        placed[number] = _cheapest(offers[number], list(placed.values()))
    chosen = [placed[number] for number in range(len(offers))]
    for _ in range(_SWEEPS):
        before = [one.number for one in chosen]
        for number, offer in enumerate(offers):
            chosen[number] = _cheapest(offer, chosen[:number] + chosen[number + 1 :])
        if [one.number for one in chosen] == before:
            break
    _mend(offers, chosen)
    return chosen


def _clashing(offers: Sequence[_Offer], chosen: Sequence[_Chosen]) -> list[int]:
    return [
        number
        for number, offer in enumerate(offers)
        if _cost(offer, chosen[number].number, [*chosen[:number], *chosen[number + 1 :]])
        - chosen[number].way.cost
        >= CLASH
    ]


def _total(offers: Sequence[_Offer], chosen: Sequence[_Chosen]) -> float:
    return sum(
        _cost(offer, chosen[number].number, chosen[:number]) for number, offer in enumerate(offers)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Chosen:
    """The way taken for one dimension, which of its ways it is, and what it costs as it lies."""

    way: Candidate
    shape: Shape
    number: int
    cost: float


class _Offer:
    """The ways of one dimension; what is found out about one, or two together, is kept.

    ``order`` are their numbers, least cost on the ground first as far as a look at once can tell.
    """

    def __init__(self, choices: Sequence[Candidate], ground: Ground, inked: Inked) -> None:
        self.choices = choices
        least = inked.least(choices, ground)
        self.order: list[int] = np.argsort(least, kind="stable").tolist()
        self.least: list[float] = least.tolist()
        self._ground = ground
        self._texts: dict[int, float] = {}
        self._costs: dict[int, float] = {}
        self._shapes: dict[int, Shape] = {}
        self._beside: dict[tuple[int, int], float] = {}

    def standing(self, number: int, limit: float) -> float:
        """Cost of one way among what already stands there; over the limit, at least the limit."""
        if number not in self._costs:
            choice = self.choices[number]
            if number not in self._texts:
                self._texts[number] = choice.cost + texts_on_ground(choice, self._ground)
            if self._texts[number] >= limit:
                return self._texts[number]
            self._costs[number] = self._texts[number] + lines_on_ground(choice, self._ground)
        return self._costs[number]

    def shape(self, number: int) -> Shape:
        """One way as the tests between two want it."""
        if number not in self._shapes:
            self._shapes[number] = shape_of(self.choices[number])
        return self._shapes[number]

    def beside(self, number: int, shape: Shape) -> float:
        """Cost of one way together with a way of another dimension."""
        key = (number, id(shape))
        if key not in self._beside:
            self._beside[key] = cost_between(self.shape(number), shape)
        return self._beside[key]


def _cheapest(offer: _Offer, others: Sequence[_Chosen]) -> _Chosen:
    best, best_cost = offer.order[0], float("inf")
    shapes = [other.shape for other in others]
    for number in offer.order:
        if offer.least[number] >= best_cost:
            break
        cost = _cost_among(offer, number, shapes, best_cost)
        if cost < best_cost:
            best, best_cost = number, cost
    way = offer.choices[best]
    return _Chosen(way=way, shape=offer.shape(best), number=best, cost=best_cost)


def _cost(offer: _Offer, number: int, others: Sequence[_Chosen]) -> float:
    """Cost of one way among the others."""
    return _cost_among(offer, number, [other.shape for other in others], float("inf"))


def _cost_among(offer: _Offer, number: int, shapes: Sequence[Shape], limit: float) -> float:
    """Cost of one way among the others; counting stops once it is over the limit."""
    cost = offer.standing(number, limit)
    for shape in shapes:
        if cost >= limit:
            break
        cost += offer.beside(number, shape)
    return cost


def _mend(offers: Sequence[_Offer], chosen: list[_Chosen]) -> None:
    """Where a text still clashes, let it choose before one neighbour, who then chooses again."""
    for one, offer in enumerate(offers):
        rest = chosen[:one] + chosen[one + 1 :]
        if _cost(offer, chosen[one].number, rest) - chosen[one].way.cost < CLASH:
            continue
        for other, neighbour in enumerate(offers):
            if other != one and _swapped(one, offer, other, neighbour, chosen):
                break


def _swapped(
    one: int, offer: _Offer, other: int, neighbour: _Offer, chosen: list[_Chosen]
) -> bool:
    rest = [way for number, way in enumerate(chosen) if number not in {one, other}]
    before = _cost(offer, chosen[one].number, rest)
    before += _cost(neighbour, chosen[other].number, [*rest, chosen[one]])
    first = _cheapest(offer, rest)
    second = _cheapest(neighbour, [*rest, first])
    if first.cost + second.cost > before - CLASH / 2:
        return False
    chosen[one], chosen[other] = first, second
    return True


def clashes(sheet: Sheet) -> tuple[str, ...]:
    """Name every text that meets a line or another text, or runs off the sheet."""
    texts = [(n, mark) for n, mark in enumerate(sheet.marks) if isinstance(mark, Words)]
    rings = [mark for mark in sheet.marks if isinstance(mark, Disc) and mark.style in LINES]
    lines = [mark for mark in sheet.marks if not (isinstance(mark, Disc) and mark in rings)]
    paper = Box(left=0.0, top=0.0, right=sheet.width, bottom=sheet.height)
    all_lines = segments_of(lines)
    found: list[str] = []
    for number, (place, words) in enumerate(texts):
        box = box_of_words(words)
        if not paper.holds(box):
            found.append(f"{words.text!r} runs off the sheet")
        over = all_lines
        if _covered(box, sheet.marks[place - 1]):
            over = segments_of(m for m in sheet.marks[place:] if not isinstance(m, Disc))
        if box_hits(box, over):
            found.append(f"{words.text!r} stands over a line")
        if any(box_hits(box, segments_of([ring])) for ring in rings):
            found.append(f"{words.text!r} stands over a ring")
        found += [
            f"{words.text!r} meets {other.text!r}"
            for _, other in texts[number + 1 :]
            if box.meets(box_of_words(other))
        ]
    return tuple(found)


def _covered(box: Box, under: Mark) -> bool:
    """Whether a filled ring drawn just before a text hides all that lies under it."""
    if not isinstance(under, Disc) or INKS[under.style].fill == "none":
        return False
    x, y = under.centre
    return all(
        math.dist((x, y), corner) < under.radius
        for corner in ((box.left, box.top), (box.right, box.bottom))
    )
