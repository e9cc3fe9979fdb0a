"""Order of work on castings: which operation before which, by which rule, and why."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Final

from halfthou.drawing.model import Hole
from halfthou.planning.axes import Extents, extents_of_all, moved
from halfthou.planning.by_rule import by_rule
from halfthou.planning.cast.body import Face
from halfthou.planning.cast.handwork import APART, BOLT, DOWELS, SAW, dowels_of
from halfthou.planning.cast.holes import crosses, owners
from halfthou.planning.cast.joint_holes import THROUGH
from halfthou.planning.cast.pieces import TOGETHER, WHOLE, Pieces
from halfthou.planning.milled.orders import once, orders_of_holes
from halfthou.planning.model import Operation, Order

_JUST_OUTSIDE: Final = 0.3
_WISH: Final = 2.0
_PLACED: Final = "placed by dowel or register before the bore"
_HALVES: Final = 2


def orders_cast(
    pieces: Pieces, operations: tuple[Operation, ...], firsts: dict[str, Face]
) -> tuple[Order, ...]:
    """Give every order that the work on castings must keep, and those it had better."""
    found = [
        *_within_holes(operations),
        *_marked_through(operations),
        *_mark_first(pieces, operations),
        *_first_face_first(operations, firsts),
        *_face_before_what_starts_on_it(operations),
        *_rough_before_finish(operations),
        *_of_the_joint(pieces, operations),
        *_cross_holes(pieces, operations),
        *_last(operations),
    ]
    return once(found)


def _within_holes(operations: tuple[Operation, ...]) -> Iterator[Order]:
    """Give the order of the work on each hole, piece by piece."""
    for piece in dict.fromkeys(op.piece for op in operations):
        yield from orders_of_holes(tuple(op for op in operations if op.piece == piece))


def _marked_through(operations: tuple[Operation, ...]) -> Iterator[Order]:
    """Spot the far half through the near one once that is drilled, and drill it from there."""
    for spot in operations:
        if THROUGH not in spot.key:
            continue
        for op in operations:
            if op.feature == spot.feature and op.verb in {"drill", "tap"}:
                near = op.size is not None and op.thread is None
                a, b = (op, spot) if near else (spot, op)
                yield by_rule(a, b, "joint holes before sawing, or in the faced halves clamped")


def _cuts(operations: tuple[Operation, ...], *pieces: str) -> list[Operation]:
    """Give what takes metal off any of these pieces."""
    return [op for op in operations if op.region and op.piece in pieces]


def _mark_first(pieces: Pieces, operations: tuple[Operation, ...]) -> Iterator[Order]:
    for mark in operations:
        if mark.verb != "mark out":
            continue
        own = (mark.piece, TOGETHER, *(pieces.names if mark.piece == WHOLE else ()))
        for cut in _cuts(operations, *own):
            yield by_rule(mark, cut, "see that every face cleans up before cutting one")


def _first_face_first(
    operations: tuple[Operation, ...], firsts: dict[str, Face]
) -> Iterator[Order]:
    """Cut the face that all else is set from before anything else on that piece."""
    for name, face in firsts.items():
        makers = [op for op in operations if face.name in op.makes]
        for first, op in product(makers, _cuts(operations, name)):
            if op.key != first.key:
                yield by_rule(first, op, "the seat first, everything else from it")


def _face_before_what_starts_on_it(operations: tuple[Operation, ...]) -> Iterator[Order]:
    faces = [op for op in operations if op.verb in {"mill face", "face"}]
    spots = [op for op in operations if op.at and op.verb in {"spot", "drill"}]
    for face, spot in product(faces, spots):
        space = extents_of_all(face.region)
        if space is not None and _starts_in(spot, space):
            yield by_rule(face, spot, "face before centring")


def _starts_in(op: Operation, space: Extents) -> bool:
    outside = [moved(p, up, _JUST_OUTSIDE) for p in op.at for up in op.approach]
    return any(all(space.low[i] <= p[i] <= space.high[i] for i in range(3)) for p in outside)


def _rough_before_finish(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for rough, finish in product(operations, operations):
        if rough.verb != "bore" or finish.verb != "bore" or rough.feature != finish.feature:
            continue
        if rough.stage == "rough" and finish.stage == "finish" and rough.tools == finish.tools:
            yield by_rule(rough, finish, "drill before boring or reaming")
    bores = [op for op in operations if op.verb == "bore" and op.stage == "finish"]
    faces = [op for op in operations if op.verb in {"mill face", "face"}]
    for face, bore in product(faces, bores):
        yield by_rule(face, bore, "rough everywhere before finishing", cost=_WISH)


def _of_the_joint(pieces: Pieces, operations: tuple[Operation, ...]) -> Iterator[Order]:
    joint = pieces.joint
    if joint is None:
        return
    at = {op.key: op for op in operations}
    bolt, apart, fitted = at[BOLT], at[APART], at.get(DOWELS)
    own = {f"{half} {joint.name}" for half in joint.halves}
    faces = [op for op in operations if own & set(op.makes)]
    for op in faces:
        yield by_rule(op, bolt, "the joint is cut before it is closed")
    for op in _across(pieces, operations):
        rule = "bore after bolting up" if op.at else "what lies across a joint is cut bolted up"
        yield by_rule(bolt, op, rule)
        yield by_rule(op, apart, rule)
        if fitted is not None:  # a face across them too: it stays level only when placed
            yield by_rule(fitted, op, _PLACED)
    yield by_rule(bolt, apart, "bore after bolting up")
    yield from _bolt_holes(pieces, operations, bolt, fitted)
    if fitted is not None:
        yield by_rule(fitted, apart, _PLACED)
    if joint.kind == "sawn":
        saw = at[f"{SAW} {joint.name}"]
        for op in (*faces, bolt, *((fitted,) if fitted is not None else ())):
            yield by_rule(saw, op, "saw apart before the joint is faced")


def _through(pieces: Pieces) -> dict[str, Hole]:
    """Give the holes that go through a joint or lie across it."""
    return {
        f.name: f
        for f in pieces.part.features
        if isinstance(f, Hole) and len(owners(pieces, f.name)) == _HALVES
    }


def _across(pieces: Pieces, operations: tuple[Operation, ...]) -> Iterator[Operation]:
    """Give what can be cut only with the halves bolted up: bores and faces across the joint."""
    through = _through(pieces)
    for op in operations:
        hole = through.get(op.feature)
        faced = op.piece == TOGETHER and op.verb in {"mill face", "face"}
        if faced or (hole is not None and crosses(pieces, hole)):
            yield op


def _bolt_holes(
    pieces: Pieces, operations: tuple[Operation, ...], bolt: Operation, fitted: Operation | None
) -> Iterator[Order]:
    """Give the order of the holes that go through both halves along the bolts."""
    through, dowels = _through(pieces), dowels_of(pieces)
    for op in operations:
        hole = through.get(op.feature)
        if hole is None or crosses(pieces, hole):
            continue
        if op.feature in dowels and fitted is not None:
            yield by_rule(op, fitted, _PLACED)
        else:
            yield by_rule(op, bolt, "joint holes before sawing, or in the faced halves clamped")


def _cross_holes(pieces: Pieces, operations: tuple[Operation, ...]) -> Iterator[Order]:
    """Drill what breaks into a bore before the bore's last cut."""
    holes = [f for f in pieces.part.features if isinstance(f, Hole)]
    last = [op for op in operations if op.verb in {"bore", "ream"} and op.stage == "finish"]
    for hole in holes:
        into = [s for s in hole.steps if s.text.split(" to ")[-1] in {h.name for h in holes}]
        targets = {s.text.split(" to ")[-1] for s in into}
        for drill, bore in product(operations, last):
            if drill.feature == hole.name and drill.verb == "drill" and bore.feature in targets:
                yield by_rule(drill, bore, "cross-hole before the last cut of the bore")


def _last(operations: tuple[Operation, ...]) -> Iterator[Order]:
    for last, op in product(operations, operations):
        if last.verb == "deburr" and op.key != last.key:
            yield by_rule(op, last, "deburr last")


def at_once(operations: tuple[Operation, ...]) -> tuple[Order, ...]:
    """Give pairs of one hole that belong in one set-up: picked up anew it is off its spot."""
    found: list[Order] = []
    for a, b in product(operations, operations):
        pair = (a.verb, b.verb)
        if (a.feature, a.piece) == (b.feature, b.piece) and pair in {
            ("spot", "drill"),
            ("drill", "ream"),
        }:
            found.append(by_rule(a, b, "true together at one setting"))
    return tuple(found)
