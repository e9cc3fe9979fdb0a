"""Which turned diameters can be held by, and what must be done before they can."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Hole, Round
from halfthou.planning.turned.faces import taken_off
from halfthou.planning.turned.grips import SHORT_GRIP, Grip, Shop
from halfthou.planning.turned.shape import (
    TOWARD,
    End,
    holes_on_axis,
    largest,
    other_end,
    planes_at,
    rounds,
)
from halfthou.planning.turned.stock import LEAST_GRIP
from halfthou.units import Millimetre

BEHIND: Final = 20.0
"""Room behind the jaws inside the chuck for work that does not pass the spindle, mm."""
STANDS_OUT: Final = 3.0
"""How far an end is left standing out of the jaws so that it can be faced, mm (usual practice)."""
THIN: Final = 0.75
"""A bore over this share of the outside makes a ring too thin for jaws (usual practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """One round among the others, seen from the free end."""

    shop: Shop
    one: Round
    inner: tuple[Round, ...]
    outer: Round | None
    faces: End

    @property
    def length(self) -> Millimetre:
        return self.one.right - self.one.left

    @property
    def backs(self) -> bool:
        """Whether a larger shoulder comes right back against the jaws."""
        return self.outer is not None and largest(self.outer) > self.one.diameter.nominal

    @property
    def passes(self) -> bool:
        """Whether what lies behind the jaws goes into the chuck."""
        if not self.inner:
            return True
        across = max(largest(r) for r in self.inner)
        depth = sum(r.right - r.left for r in self.inner)
        return across <= self.one.diameter.nominal + 1e-6 and (
            across <= self.shop.bore_of_spindle or depth <= BEHIND
        )

    @property
    def seat(self) -> tuple[str, ...]:
        """The face set hard back: the shoulder on the jaws, or a short end on their step."""
        chuckward = TOWARD[other_end(self.faces)]
        right = self.faces == "right"
        if self.backs:
            return planes_at(self.shop.part, self.one.right if right else self.one.left, chuckward)
        if self.inner or self.length >= self.one.diameter.nominal:
            return ()
        return planes_at(self.shop.part, self.one.left if right else self.one.right, chuckward)


def finished_grips(shop: Shop, faces: End, deep: Millimetre) -> Iterator[tuple[Round, Grip]]:
    """Give every plain round that jaws can hold with an end free, and where they bear on it."""
    row = rounds(shop.part)
    for i, one in enumerate(row):
        if one.thread is not None or one.right_diameter is not None:
            continue
        right = faces == "right"
        beyond = row[i + 1 :] if right else row[:i][::-1]
        here = _Row(
            shop=shop,
            one=one,
            inner=row[:i] if right else row[i + 1 :],
            outer=beyond[0] if beyond else None,
            faces=faces,
        )
        where = _where(here, deep)
        if here.passes and where is not None:
            yield one, _grip(here, *where)


def _where(here: _Row, deep: Millimetre) -> tuple[Millimetre, Millimetre] | None:
    """Where the jaws bear: short of the end so that it can be faced, long enough to hold."""
    one = here.one
    out = 0.0
    if not here.backs:
        out = max(0.0, min(STANDS_OUT, here.length - _least(one, backs=not here.inner)))
    length = min(deep, here.length - out)
    if length < _least(one, backs=here.backs or not here.inner):
        return None
    if here.faces == "right":
        return one.right - out - length, one.right - out
    return one.left + out, one.left + out + length


def _least(one: Round, *, backs: bool) -> Millimetre:
    return SHORT_GRIP if backs else min(LEAST_GRIP, max(SHORT_GRIP, one.diameter.nominal))


def _grip(here: _Row, low: Millimetre, high: Millimetre) -> Grip:
    name = here.one.name
    return Grip(
        low=low,
        high=high,
        size=here.one.diameter.nominal,
        surfaces=(name,),
        seats=here.seat,
        need=_needed(here),
        behind=_behind(here),
    )


def _needed(here: _Row) -> tuple[tuple[str, str], ...]:
    """Give what must be done first: the diameter itself, and the face it is set back on."""
    shop, one = here.shop, here.one
    found = [(key, f"the jaws hold the {one.name}") for key in shop.makers(one.name)]
    found += [
        (key, "that face goes back hard against the jaws")
        for face in here.seat
        for key in shop.makers(face)
    ]
    return tuple(found)


def _behind(here: _Row) -> tuple[tuple[str, str], ...]:
    """Give what goes into the chuck must go in: turned down, the chucking piece off."""
    shop = here.shop
    found = [
        (op.key, f"the {inner.name} goes into the chuck, so it is turned down first")
        for inner in here.inner
        for op in shop.operations
        if op.feature == inner.name and op.verb == "turn" and op.stage != "finish"
    ]
    if shop.stock.chucking == other_end(here.faces):
        found.append((taken_off(shop.stock), "the chucking piece does not go into the jaws"))
    return tuple(found)


def is_ring(shop: Shop, one: Round) -> bool:
    """Tell whether the bore leaves so thin a wall that jaws press the round out of shape."""
    bores = [
        step.diameter.nominal
        for hole in holes_on_axis(shop.part)
        for step in hole.steps
        if _lies_in(hole, step.start, step.end, one)
    ]
    return max(bores, default=0.0) > THIN * one.diameter.nominal


def _lies_in(hole: Hole, start: Millimetre, end: Millimetre, one: Round) -> bool:
    mouth, into = hole.entries[0][0], hole.into[0]
    low, high = sorted((mouth + into * start, mouth + into * end))
    return low < one.right and one.left < high
