"""Whether the work is stiff enough for a cut, as it is then held."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from halfthou.cutting.overhang import CENTRED_DIAMETERS, WORK_DIAMETERS
from halfthou.drawing.model import Part
from halfthou.planning.model import Operation
from halfthou.planning.turned.shape import (
    NEAR,
    End,
    ends,
    largest,
    rounds,
    smallest,
    turned_from,
)
from halfthou.planning.turned.span import span
from halfthou.planning.turned.stiffness import Piece, carried, overhung
from halfthou.planning.turned.stock import Stock, longest
from halfthou.units import Millimetre

LIGHT_DIAMETERS: Final = 4.0
"""Stick-out up to which a light finishing cut needs no centre (usual practice)."""
ABOUT: Final = 1.05
"""Rules of thumb are not exact: so much over the limit is still at it."""
_LIGHT: Final = frozenset({"chamfer", "groove", "ream", "tap", "countersink"})
_BEFORE_TURNING: Final = frozenset({"face", "centre"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """Where the support nearest the chuck ends along x, which end is free, and what carries it."""

    part: Part
    stock: Stock
    jaws: Millimetre
    faces: End
    centre: bool
    in_jaws: bool = True

    @property
    def free(self) -> Millimetre:
        """Length that stands out of the jaws, the metal beyond the finished end with it."""
        return abs(longest(self.part, self.stock, self.faces) - self.jaws)

    def out(self, x: Millimetre) -> Millimetre:
        """Distance of a place from the jaws."""
        return (x - self.jaws) * (1.0 if self.faces == "right" else -1.0)


def most(op: Operation, held: Held) -> float:
    """Give the slenderness up to which a cut is taken: more for light cuts, most on a centre."""
    light = op.stage == "finish" or op.verb in _LIGHT
    if held.centre:
        return CENTRED_DIAMETERS * (LIGHT_DIAMETERS / WORK_DIAMETERS if light else 1.0)
    return LIGHT_DIAMETERS if light else WORK_DIAMETERS


def slenderness(op: Operation, held: Held) -> float:
    """Give how slender the work is under a cut: the worst over the way of the tool."""
    low, high = _way(op, held)
    profile = _profile(op, held)
    own = op.cut_size if op.verb == "turn" else _across_at(held, low, high, op)
    across = min([own, *(piece.diameter for piece in profile)])
    places = (low, (low + high) / 2, high)
    if held.centre:
        return max(
            carried(profile, at=held.out(x), across=across, in_jaws=held.in_jaws) for x in places
        )
    return max(overhung(profile, at=max(held.out(x), 0.0), across=across) for x in places)


def stiff_enough(op: Operation, held: Held) -> bool:
    """Tell whether a cut can be taken with the work held so."""
    return slenderness(op, held) <= most(op, held) * ABOUT


def _way(op: Operation, held: Held) -> tuple[Millimetre, Millimetre]:
    """Where the tool pushes: the round itself when finishing, from the free end when roughing."""
    tip = longest(held.part, held.stock, held.faces)
    if op.inside or op.verb == "face":
        return tip, tip
    own = next((r for r in rounds(held.part) if r.name == op.feature), None)
    if op.verb in {"turn", "turn taper", "thread"} and own is not None and op.stage == "finish":
        return own.left, own.right
    low, high = span(op)
    metal = sorted((tip, held.jaws))
    return max(low, metal[0]), min(max(high, metal[0]), metal[1])


def _profile(op: Operation, held: Held) -> list[Piece]:
    """Give the work from the jaws to the free end, as thin as it can be when the cut is taken."""
    tip = longest(held.part, held.stock, held.faces)
    x0, x1 = ends(held.part)
    marks = {held.jaws, tip, x0, x1}
    marks |= {x for r in rounds(held.part) for x in (r.left, r.right)}
    low, high = sorted((held.jaws, tip))
    places = sorted((x for x in marks if low <= x <= high), reverse=held.faces == "left")
    return [
        Piece(length=abs(b - a), diameter=_standing(op, held, (a + b) / 2))
        for a, b in pairwise(places)
        if abs(b - a) > NEAR
    ]


def _standing(op: Operation, held: Held, x: Millimetre) -> Millimetre:
    """Diameter of the metal at a place, the least it can be by then."""
    one = next((r for r in rounds(held.part) if r.left <= x <= r.right), None)
    if one is None:
        return held.stock.solid
    finished = smallest(one)
    if op.stage == "finish":
        return finished
    from_here = held.faces in turned_from(held.part)[one.name]
    if op.verb in _BEFORE_TURNING and from_here:
        return held.stock.solid
    if op.verb == "turn" and from_here:
        low, high = span(op)
        return max(finished, op.cut_size) if low <= x <= high else finished
    return finished


def _across_at(held: Held, low: Millimetre, high: Millimetre, op: Operation) -> Millimetre:
    if op.verb in _BEFORE_TURNING and op.stage != "finish":
        return held.stock.solid
    near = [r for r in rounds(held.part) if r.left <= high + NEAR and low <= r.right + NEAR]
    return min((largest(r) for r in near), default=held.stock.solid)
