"""Order of work on turned parts: which operation before which, by which rule, and why."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product
from typing import Final

from halfthou.planning.model import Operation, Order

_STAGE_OF_HOLE: Final = {"spot": 0, "drill": 1, "bore": 2, "ream": 3, "countersink": 4, "tap": 5}
_OUTSIDE: Final = {"turn", "turn taper"}
CLOSE: Final = 0.04
"""Tolerance below which every heavy cut comes first, mm: about IT8 at 40 mm (usual practice)."""

Pairs = Iterator[Order]


def _same_end(a: Operation, b: Operation) -> bool:
    return bool(set(a.approach) & set(b.approach))


def _pairs(
    operations: tuple[Operation, ...],
    first: Callable[[Operation], bool],
    second: Callable[[Operation], bool],
) -> Iterator[tuple[Operation, Operation]]:
    before = [op for op in operations if first(op)]
    after = [op for op in operations if second(op)]
    return ((a, b) for a, b in product(before, after) if a.key != b.key)


def _order(a: Operation, b: Operation, rule: str, reason: str, **more: object) -> Order:
    return Order(before=a.key, after=b.key, rule=rule, reason=reason, **more)  # type: ignore[arg-type]


def _faces_first(operations: tuple[Operation, ...]) -> Pairs:
    for a, b in _pairs(operations, _first_face, lambda o: o.verb in {"centre", "spot"}):
        if _same_end(a, b):
            yield _order(
                a, b, "face before centring", "a centre drill follows the slope it starts on"
            )
    for a, b in _pairs(
        operations,
        lambda o: o.verb == "face" and o.stage == "rough",
        lambda o: o.verb == "face" and o.stage == "finish",
    ):
        if _same_end(a, b):
            yield _order(a, b, "skim before finishing", "the skim takes the saw marks off")
    for a, b in _pairs(
        operations,
        lambda o: o.verb == "face" and o.stage == "finish",
        lambda o: o.machine == "lathe" and o.stage == "finish" and o.verb != "face",
    ):
        if _same_end(a, b):
            yield _order(
                a,
                b,
                "face before finishing",
                "lengths and shoulders are measured from a clean end",
            )
    for a, b in _pairs(operations, _first_face, lambda o: o.verb in _OUTSIDE):
        if _same_end(a, b):
            yield _order(
                a, b, "face before turning", "lengths and shoulders are measured from a clean end"
            )


def _first_face(op: Operation) -> bool:
    return op.verb == "face" and op.stage != "finish"


def _holes(operations: tuple[Operation, ...]) -> Pairs:
    for a, b in _pairs(
        operations, lambda o: o.verb in _STAGE_OF_HOLE, lambda o: o.verb in _STAGE_OF_HOLE
    ):
        if a.feature != b.feature or not _same_end(a, b):
            continue
        ranks = (_STAGE_OF_HOLE[a.verb], a.cut_size), (_STAGE_OF_HOLE[b.verb], b.cut_size)
        if _sizing(a) and _sizing(b) and abs(a.starts - b.starts) > 1e-6:
            continue
        if ranks[0] < ranks[1]:
            yield _order(
                a,
                b,
                "centre, drill, bore, ream",
                "each follows the hole before it: a drill wanders without a centre, "
                "and a reamer sizes a hole but never moves it",
            )


def _opened_from(operations: tuple[Operation, ...]) -> Pairs:
    for a, b in _pairs(operations, lambda o: o.verb == "drill", lambda o: o.verb == "bore"):
        if a.feature == b.follows:
            yield _order(
                a,
                b,
                "through hole first",
                "the boring tool needs a hole to go in by, on the same axis",
            )


def _sizing(op: Operation) -> bool:
    """A cut that gives one step of a hole its size; the steps of a hole wait for no other."""
    return op.verb in {"bore", "ream", "tap"}


def _outside_down(operations: tuple[Operation, ...]) -> Pairs:
    for a, b in _pairs(
        operations,
        lambda o: o.verb in _OUTSIDE and o.stage != "finish",
        lambda o: o.verb in _OUTSIDE and o.stage != "finish",
    ):
        if _same_end(a, b) and a.cut_size > b.cut_size + 1e-6:
            yield _order(
                a,
                b,
                "largest diameter first",
                "the work stays stiff while the heavy cuts are taken",
                hard=True,
            )


def _rough_first(operations: tuple[Operation, ...]) -> Pairs:
    for a, b in _pairs(
        operations,
        lambda o: o.machine == "lathe" and (o.stage == "rough" or _heavy(o)),
        lambda o: o.machine == "lathe" and o.stage == "finish" and _close(o),
    ):
        yield _order(
            a,
            b,
            "rough everything before finishing anything",
            "metal moves when its skin goes, and heavy cuts shift what was true",
        )


def _close(op: Operation) -> bool:
    """A fit so close that metal moving under a later heavy cut would spoil it."""
    return op.size is not None and op.size.width <= CLOSE


def _heavy(op: Operation) -> bool:
    return op.stage == "only" and op.verb in {"turn", "bore"} and op.from_size - op.cut_size > 1.0


def _last_touches(operations: tuple[Operation, ...]) -> Pairs:
    for a, b in _pairs(
        operations,
        lambda o: o.verb in _OUTSIDE,
        lambda o: o.verb in {"groove", "chamfer", "thread"} and not o.inside,
    ):
        touching = a.feature == b.feature or _meets(a, b)
        if touching:
            yield _order(
                a,
                b,
                "edges and threads after the diameter",
                "they are measured from the finished diameter",
            )
    for a, b in _pairs(
        operations, lambda o: o.verb in {"groove", "chamfer"}, lambda o: o.verb == "thread"
    ):
        if _meets(a, b):
            yield _order(
                a,
                b,
                "undercut and lead before the thread",
                "the tool or die needs room to start and stop",
            )
    for a, b in _pairs(
        operations,
        lambda o: o.verb in {"face", "ream", "bore", "drill"},
        lambda o: o.verb == "chamfer",
    ):
        if (a.verb == "face" and _same_end(a, b)) or a.feature == b.follows:
            yield _order(a, b, "break edges last", "the edge is where the two finished cuts meet")


def _meets(a: Operation, b: Operation) -> bool:
    low, high = span(a)
    other_low, other_high = span(b)
    return low <= other_high + 1e-6 and other_low <= high + 1e-6


def span(op: Operation) -> tuple[float, float]:
    """Extent along x of what an operation works on."""
    if op.verb in {"chamfer"}:
        xs = [p[0] for r in op.region for p in (r.start, r.end)]  # type: ignore[union-attr]
        return min(xs), max(xs)
    return min(op.starts, op.ends), max(op.starts, op.ends)


def _parting_last(operations: tuple[Operation, ...]) -> Pairs:
    for a, b in _pairs(
        operations,
        lambda o: o.machine == "lathe" and o.verb != "part off",
        lambda o: o.verb == "part off",
    ):
        if _same_end(a, b):
            yield _order(
                a, b, "part off last", "once it is off, nothing is left to hold it by as it was"
            )
    for a, b in _pairs(
        operations,
        lambda o: o.verb == "part off",
        lambda o: o.machine == "lathe",
    ):
        if not _same_end(a, b):
            yield _order(
                a,
                b,
                "part off before the far end",
                "the chucking piece hides that end until it is parted off",
                other_set_up=True,
            )


def _centre_for_support(operations: tuple[Operation, ...]) -> Pairs:
    for a, b in _pairs(
        operations,
        lambda o: o.verb == "centre",
        lambda o: o.verb in _OUTSIDE and o.stage != "finish",
    ):
        if _same_end(a, b):
            yield _order(
                a,
                b,
                "centre before turning",
                "the tailstock holds the end up and the axis is fixed by it",
            )


def orders_turned(operations: tuple[Operation, ...]) -> tuple[Order, ...]:
    """Every order that the operations on a turned part must keep."""
    rules = (
        _faces_first,
        _holes,
        _opened_from,
        _outside_down,
        _rough_first,
        _last_touches,
        _centre_for_support,
        _parting_last,
    )
    return tuple(order for rule in rules for order in rule(operations))
