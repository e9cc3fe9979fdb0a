"""Order of work on the ends and the outside of turned parts."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product
from typing import Final, TypeAlias

from halfthou.drawing.geometry import Cone, TaperTube
from halfthou.planning.by_rule import by_rule
from halfthou.planning.model import Operation, Order
from halfthou.planning.turned.orders_of_holes import orders_of_holes
from halfthou.planning.turned.shape import NEAR
from halfthou.planning.turned.span import AXIS, meet, on_line

OUTSIDE: Final = frozenset({"turn", "turn taper"})
CLOSE: Final = 0.04
"""Tolerance below which every heavy cut comes first, mm: about IT8 at 40 mm (usual practice)."""
HEAVY: Final = 1.0
"""More than this off the diameter in one operation is a heavy cut, mm (usual practice)."""
OUTSIDE_LATER: Final = 4.0
"""What it costs to rough the outside after the bore is finished, minutes (usual practice)."""
Wanted: TypeAlias = Callable[[Operation], bool]


def orders_turned(operations: tuple[Operation, ...]) -> tuple[Order, ...]:
    """Give every order that the operations on a turned part must keep."""
    lathe = tuple(op for op in operations if op.machine == "lathe" or _lets_go(op))
    rules = (
        _saw_first,
        _faces_first,
        _centres_stay,
        orders_of_holes,
        _outside_down,
        _rough_first,
        _after_the_diameter,
        _edges_last,
        _centre_for_support,
        _parting_last,
    )
    found: dict[tuple[str, str], Order] = {}
    for rule in rules:
        for order in rule(operations if rule is _saw_first else lathe):
            kept = found.get((order.before, order.after))
            if kept is None or (order.other_set_up and not kept.other_set_up):
                found[order.before, order.after] = order
    return tuple(found.values())


def _same_end(a: Operation, b: Operation) -> bool:
    return bool(set(a.approach) & set(b.approach))


def _pairs(
    operations: tuple[Operation, ...], first: Wanted, second: Wanted
) -> Iterator[tuple[Operation, Operation]]:
    before = [op for op in operations if first(op)]
    after = [op for op in operations if second(op)]
    return ((a, b) for a, b in product(before, after) if a.key != b.key)


def _saw_first(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for saw, op in _pairs(operations, lambda o: o.feature == "blank", lambda _: True):
        yield by_rule(saw, op, "saw the blank first", other_set_up=True)


def _skims(op: Operation) -> bool:
    """Tell whether this is the first facing of an end, or its only one."""
    return op.verb == "face" and op.stage != "finish"


def _centre_goes(op: Operation) -> bool:
    """Tell whether this facing takes off the centre that carried the work."""
    return op.verb == "face" and bool(op.follows)


def _faces_first(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for a, b in _pairs(operations, _skims, lambda o: o.verb in {"centre", "spot"}):
        if _same_end(a, b):
            yield by_rule(a, b, "face before centring")
    for a, b in _pairs(operations, _skims, lambda o: o.verb == "face" and o.stage == "finish"):
        if _same_end(a, b):
            yield by_rule(a, b, "first skim, then the finished face")
    measured = (
        *_pairs(operations, _finishes_face, _finishes_else),
        *_pairs(operations, _skims, lambda o: o.verb in OUTSIDE),
    )
    for a, b in measured:
        if _same_end(a, b):
            yield by_rule(a, b, "measure from a faced end")


def _centres_stay(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for a, b in _pairs(operations, lambda o: o.verb == "centre", _centre_goes):
        if a.key == b.follows:
            yield by_rule(a, b, "centres stay until nothing hangs on them")


def _finishes_face(op: Operation) -> bool:
    return op.verb == "face" and op.stage == "finish" and not _centre_goes(op)


def _finishes_else(op: Operation) -> bool:
    return op.stage == "finish" and op.verb != "face"


def _outside_down(operations: tuple[Operation, ...]) -> Iterator[Order]:
    def heavy(op: Operation) -> bool:
        return op.verb in OUTSIDE and op.stage != "finish"

    for a, b in _pairs(operations, heavy, heavy):
        if _same_end(a, b) and a.cut_size > b.cut_size + NEAR:
            yield by_rule(a, b, "largest diameter first")
    for a, b in _pairs(operations, heavy, lambda o: o.verb == "turn taper"):
        if a.feature == b.feature and _same_end(a, b):
            yield by_rule(a, b, "rough everywhere before finishing")


def _rough_first(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for a, b in _pairs(
        operations,
        lambda o: o.stage == "rough" or _heavy(o),
        lambda o: o.stage == "finish" and _close(o),
    ):
        if _hidden(operations, a, b) or _set_over_later(a, b):
            continue
        # a ring may have its bore finished first, and be roughed outside on a mandrel in it
        from_bore = b.inside and not a.inside and a.verb in OUTSIDE
        cost = OUTSIDE_LATER if from_bore else None
        yield by_rule(a, b, "rough everywhere before finishing", cost=cost)
    for a, b in _pairs(
        operations,
        lambda o: o.verb in OUTSIDE and o.stage == "rough",
        lambda o: o.verb == "turn" and o.stage == "finish",
    ):
        if a.feature == b.feature and _same_end(a, b):
            yield by_rule(a, b, "rough everywhere before finishing")


def _hidden(operations: tuple[Operation, ...], a: Operation, b: Operation) -> bool:
    """Tell whether the chucking piece hides the end that ``a`` works on until ``b`` is done."""
    return any(_same_end(b, off) and not _same_end(a, off) for off in operations if _lets_go(off))


def _set_over_later(a: Operation, b: Operation) -> bool:
    """Tell whether ``a`` waits until the work is set over by a finished round."""
    return not on_line(a, AXIS) and on_line(b, AXIS)


def _close(op: Operation) -> bool:
    """Tell whether metal moving under a later heavy cut would spoil this fit."""
    return op.size is not None and op.size.width <= CLOSE


def _heavy(op: Operation) -> bool:
    return (
        op.stage == "only" and op.verb in {"turn", "bore"} and op.from_size - op.cut_size > HEAVY
    )


def _after_the_diameter(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for a, b in _pairs(
        operations,
        lambda o: o.verb in OUTSIDE,
        lambda o: o.verb in {"groove", "chamfer", "thread"} and not o.inside,
    ):
        if a.feature == b.feature or meet(a, b):
            thread = b.verb == "thread"
            yield by_rule(
                a,
                b,
                "keyway and thread after their diameter"
                if thread
                else "edges and grooves after their diameter",
            )
    for a, b in _pairs(
        operations,
        lambda o: o.verb in {"groove", "chamfer"} and not o.inside,
        lambda o: o.verb == "thread",
    ):
        if meet(a, b):
            yield by_rule(a, b, "undercut and lead before the thread")


def _edges_last(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for a, b in _pairs(
        operations,
        lambda o: o.verb in {"face", "ream", "bore", "drill"},
        lambda o: o.verb == "chamfer",
    ):
        if a.verb == "ream" and a.feature == b.follows and _same_end(a, b):
            yield by_rule(b, a, "mouth before reaming")
        elif (a.verb == "face" and _at_that_end(a, b)) or a.feature == b.follows:
            yield by_rule(a, b, "break edges last")


def _at_that_end(face: Operation, edge: Operation) -> bool:
    if not _same_end(face, edge):
        return False
    if not _centre_goes(face):
        return True
    places = [x for r in edge.region if isinstance(r, Cone | TaperTube) for x in (r.start, r.end)]
    return any(abs(p[0] - face.starts) < NEAR for p in places)


def _centre_for_support(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for a, b in _pairs(
        operations,
        lambda o: o.verb == "centre",
        lambda o: o.verb in OUTSIDE and o.stage != "finish",
    ):
        if _same_end(a, b):
            yield by_rule(a, b, "tailstock centre before turning")


def _lets_go(op: Operation) -> bool:
    """Tell whether this takes the chucking piece off."""
    return op.verb == "part off" or (op.verb == "saw" and op.feature != "blank")


def _parting_last(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for op, off in _pairs(operations, lambda _: True, _lets_go):
        if _same_end(op, off):
            yield by_rule(op, off, "what weakens or lets go comes last")
        else:
            yield by_rule(off, op, "part off before the far end", other_set_up=True)
