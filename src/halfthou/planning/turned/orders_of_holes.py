"""Order of work in holes on the axis: centre, drill, bore, ream, countersink, tap."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations, product
from typing import Final

from halfthou.planning.by_rule import by_rule
from halfthou.planning.model import Operation, Order
from halfthou.planning.turned.shape import NEAR

STAGES: Final = {"spot": 0, "drill": 1, "bore": 2, "ream": 3, "countersink": 4, "tap": 5}
_SIZES: Final = frozenset({"bore", "ream", "tap"})


def orders_of_holes(operations: tuple[Operation, ...]) -> Iterator[Order]:
    """Give the orders within each hole, and between a hole and what is opened from it."""
    inside = [op for op in operations if op.inside and op.verb in STAGES]
    grooves = [op for op in operations if op.inside and op.verb == "groove"]
    for a, b in permutations(inside, 2):
        if a.feature == b.feature and set(a.approach) & set(b.approach):
            yield from _within(a, b)
        elif a.feature == b.follows and a.verb == "drill" and b.verb != "spot":
            yield by_rule(a, b, "through hole first")
    for a, groove in product(inside, grooves):
        if a.feature == groove.follows and a.verb != "countersink":
            yield _grooved(a, groove)


def _grooved(a: Operation, groove: Operation) -> Order:
    if a.verb == "tap":
        return by_rule(groove, a, "undercut and lead before the thread")
    return by_rule(a, groove, "edges and grooves after their diameter")


def _within(a: Operation, b: Operation) -> Iterator[Order]:
    apart = a.verb in _SIZES and b.verb in _SIZES and abs(a.starts - b.starts) > NEAR
    if apart or (STAGES[a.verb], a.cut_size) >= (STAGES[b.verb], b.cut_size):
        return
    yield by_rule(a, b, _rule(a, b))


def _rule(a: Operation, b: Operation) -> str:
    """Name the rule that puts one cut of a hole before another."""
    if a.verb == "spot":
        return "centre before drilling"
    if b.verb == "drill":
        return "pilot before a large drill"
    if a.verb == "drill":
        return "drill before boring or reaming"
    if b.verb == "ream":
        return "bore before reaming where place matters"
    if b.verb == "tap" and a.verb == "countersink":
        return "countersink before tapping"
    return "rough everywhere before finishing"
