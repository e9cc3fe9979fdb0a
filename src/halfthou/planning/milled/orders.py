"""Order of work on the mill: which operation before which, by which rule, and why."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.axes import Extents, extents_of_all, moved
from halfthou.planning.by_rule import by_rule
from halfthou.planning.milled.operations import SLIT
from halfthou.planning.milled.slants import orders_of_slants, slant_of
from halfthou.planning.model import Operation, Order
from halfthou.planning.who_makes import makers

HOLE: Final = ("spot", "drill", "bore", "ream", "countersink", "tap")
"""The work on one hole in the order it is done; seats are cut once the hole is drilled."""
SEATS: Final = ("counterbore", "spot-face")
CUTS: Final = ("mill step", "mill slot", "mill pocket")
SMALL_WISH: Final = 1.0
"""What it costs to leave a usual but not needed order, in minutes."""
_JUST_OUTSIDE: Final = 0.3
_TOUCHING: Final = 0.2
_HEAVY: Final = 3.0
_SLENDER: Final = 2.0
"""Metal beside a slit thinner than so many times its depth gives in the vice (usual practice)."""


def orders_milled(part: Part, operations: tuple[Operation, ...]) -> tuple[Order, ...]:
    """Give every order that the operations on a block must keep, and those it had better."""
    square = tuple(op for op in operations if slant_of(part, op) is None)
    found = [
        *_saw_first(operations),
        *orders_of_slants(part, operations),
        *orders_of_holes(operations),
        *_face_before_what_starts_on_it(square),
        *_face_before_measuring_from_it(part, operations),
        *_rough_before_finish(square),
        *_edges_last(operations),
        *_weakening_last(part, operations),
        *_large_faces_first(square),
    ]
    return once(found)


def once(orders: list[Order]) -> tuple[Order, ...]:
    """Keep one order of each pair, a hard one before a soft."""
    kept: dict[tuple[str, str], Order] = {}
    for order in orders:
        pair = (order.before, order.after)
        if pair not in kept or (order.hard and not kept[pair].hard):
            kept[pair] = order
    return tuple(kept.values())


def order_of(
    a: Operation, b: Operation, rule: str, reason: str, *, cost: float | None = None
) -> Order:
    """Give a hard order, or a soft one where it has a cost."""
    hard = cost is None
    return Order(before=a.key, after=b.key, rule=rule, reason=reason, hard=hard, cost=cost or 0.0)


def _saw_first(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for saw in operations:
        if saw.verb == "saw":
            for op in operations:
                if op.key != saw.key:
                    yield order_of(saw, op, "saw the blank first", "the blank comes off the bar")


def orders_of_holes(operations: tuple[Operation, ...]) -> Iterator[Order]:
    """Give the orders within each hole: spot, drill, bore, ream; countersink before tapping."""
    by_hole: dict[tuple[str, tuple[object, ...]], list[Operation]] = {}
    for op in operations:
        if op.verb in HOLE or op.verb in SEATS:
            by_hole.setdefault((op.feature, op.approach), []).append(op)
    for chain in by_hole.values():
        for a, b in combinations(sorted(chain, key=_rank), 2):
            if _rank(a) < _rank(b):
                yield order_of(a, b, *_why_in_hole(a, b))


def _rank(op: Operation) -> tuple[float, float]:
    if op.verb in SEATS:
        return (HOLE.index("drill") + 0.5, op.cut_size)
    by_size = op.cut_size if op.verb in ("drill", "bore") else 0.0
    return (HOLE.index(op.verb), by_size)


def _why_in_hole(a: Operation, b: Operation) -> tuple[str, str]:
    if a.verb == "spot":
        return "centre before drilling", "a drill wanders where it has no centre to start in"
    if b.verb == "ream":
        return "drill before boring or reaming", "a reamer sizes a hole but never moves it"
    if b.verb == "tap":
        return "countersink before tapping", "the tap starts square and throws up no burr"
    if b.verb in SEATS:
        return "hole before its seat", "the seat's cutter is guided by the hole"
    return "drill before boring or reaming", "each cut opens the hole that the one before it left"


def _starts_in(op: Operation, other: Operation) -> bool:
    """Tell whether another cut takes metal off the place where this one starts."""
    space = extents_of_all(other.region)
    if space is None or not op.at:
        return False
    outside = [moved(p, up, _JUST_OUTSIDE) for p in op.at for up in op.approach]
    return any(_holds(space, p) for p in outside)


def _holds(space: Extents, p: tuple[float, float, float]) -> bool:
    return all(space.low[i] <= p[i] <= space.high[i] for i in range(3))


def _face_before_what_starts_on_it(operations: tuple[Operation, ...]) -> Iterator[Order]:
    starts = [op for op in operations if op.verb == "spot" and op.machine == "mill"]
    for op in starts:
        for cut in operations:
            if not (cut.verb == "mill face" or cut.verb in CUTS) or not _starts_in(op, cut):
                continue
            # a hole in the floor of a step may be drilled first; the face itself comes before
            yield order_of(
                cut,
                op,
                "face before centring",
                "a drill follows the slope it starts on, and depths count from the finished face",
                cost=None if cut.verb == "mill face" else SMALL_WISH,
            )


def _face_before_measuring_from_it(
    part: Part, operations: tuple[Operation, ...]
) -> Iterator[Order]:
    """Order a face before the steps and holes that are dimensioned from it."""
    for distance in part.distances:
        for a, b in ((distance.a, distance.b), (distance.b, distance.a)):
            for face, cut in product(makers(operations, a), makers(operations, b)):
                if slant_of(part, face) is not None:
                    continue
                if face.verb == "mill face" and cut.machine == "mill" and cut.verb != "mill face":
                    yield order_of(
                        face,
                        cut,
                        "cut a face before locating from it",
                        f"the drawing places it from {a}",
                    )


def _rough_before_finish(operations: tuple[Operation, ...]) -> Iterator[Order]:
    finishing = [op for op in operations if op.verb == "mill face" and op.stage == "finish"]
    heavy = [
        op
        for op in operations
        if op.machine == "mill"
        and (
            (op.verb == "mill face" and (op.stage == "rough" or op.cut_size >= _HEAVY))
            or op.verb in CUTS
        )
    ]
    for a, b in product(heavy, finishing):
        if a.key != b.key:
            yield order_of(
                a,
                b,
                "rough everywhere before finishing",
                "metal moves when its skin goes",
            )


def _edges_last(operations: tuple[Operation, ...]) -> Iterator[Order]:
    edges = [op for op in operations if op.verb in ("chamfer", "mill chamfer")]
    cuts = [op for op in operations if op.verb in ("mill face", "drill", "bore", *CUTS)]
    for edge, cut in product(edges, cuts):
        if _meet(edge, cut):
            yield order_of(
                cut, edge, "break edges last", "the edge is where two finished cuts meet"
            )
    for last, op in product(operations, operations):
        if last.verb == "deburr" and op.key != last.key:
            yield order_of(op, last, "deburr last", "every cut leaves a burr")


def _meet(a: Operation, b: Operation) -> bool:
    first, second = extents_of_all(a.region), extents_of_all(b.region)
    if first is None or second is None:
        return False
    return first.grown((_TOUCHING,) * 3).overlaps(second)


def _weakens(part: Part, slot: Operation) -> bool:
    """Tell whether a slit leaves metal beside it so slender that it closes in the vice."""
    metal, space = extents_of_all(part.metal), extents_of_all(slot.region)
    across = next((way for way in slot.approach if any(way)), None)
    if metal is None or space is None or across is None:
        return True
    beside = min(
        metal.most(across) - space.most(across), space.least(across) - metal.least(across)
    )
    return beside < _SLENDER * slot.cut_size


def drilled_and_reamed(operations: tuple[Operation, ...]) -> tuple[Order, ...]:
    """Give the last drilling of each reamed hole with its reaming: done without letting go."""
    found = []
    for ream in operations:
        drills = [
            op
            for op in operations
            if op.verb == "drill"
            and op.machine == ream.machine
            and (op.feature, op.approach) == (ream.feature, ream.approach)
        ]
        if ream.verb == "ream" and drills:
            last = max(drills, key=lambda op: op.cut_size)
            found.append(by_rule(last, ream, "drill and ream at one setting"))
    return tuple(found)


def _weakening_last(part: Part, operations: tuple[Operation, ...]) -> Iterator[Order]:
    for slot in operations:
        if slot.remark != SLIT or not _weakens(part, slot):
            continue
        for op in operations:
            if op.machine == "mill" and op.key != slot.key and op.verb != "mill chamfer":
                yield order_of(
                    op,
                    slot,
                    "what weakens or lets go comes last",
                    "once slit the work springs and closes in the vice",
                )


def _large_faces_first(operations: tuple[Operation, ...]) -> Iterator[Order]:
    """Square the block by its largest faces first, its ends last."""
    faces = [op for op in operations if op.verb == "mill face" and op.stage != "finish"]
    for a, b in product(faces, faces):
        large, small = _area(a), _area(b)
        if a.feature != b.feature and large > 1.2 * small:
            yield order_of(
                a,
                b,
                "square a block from its best face",
                "the largest face sits best against the fixed jaw; the ends come last",
                cost=SMALL_WISH,
            )


def _area(op: Operation) -> float:
    space = extents_of_all(op.region)
    if space is None:
        return 0.0
    sizes = sorted(space.high[i] - space.low[i] for i in range(3))
    return sizes[1] * sizes[2]
