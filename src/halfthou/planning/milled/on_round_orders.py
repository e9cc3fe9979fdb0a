"""Order of work between turning and the milling of keyways, flats, cross holes and ring holes."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Final

from halfthou.drawing.model import Hole, Keyway, Part, Round, Surface
from halfthou.planning.axes import dot, extents_of_all, opposite, same
from halfthou.planning.milled.on_round_holding import TIGHT
from halfthou.planning.milled.orders import SMALL_WISH, once, order_of, orders_of_holes
from halfthou.planning.model import Operation, Order
from halfthou.planning.who_makes import rough_of

_TOUCHING: Final = 0.2


def orders_mill_on_round(part: Part, operations: tuple[Operation, ...]) -> tuple[Order, ...]:
    """Give the orders between turning and the milling of keyways, flats and cross holes."""
    milled = tuple(op for op in operations if op.machine == "mill")
    found = [
        *orders_of_holes(milled),
        *_keyways_after_their_diameter(part, operations),
        *_after_the_round_they_start_on(part, operations),
        *_cross_holes_before_the_last_cut(part, operations),
    ]
    return once(found)


def _keyways_after_their_diameter(
    part: Part, operations: tuple[Operation, ...]
) -> Iterator[Order]:
    on = {f.name: f.on for f in part.features if isinstance(f, Keyway)}
    rounds = {f.name: f for f in part.features if isinstance(f, Round)}
    for key in operations:
        if key.verb != "mill keyway":
            continue
        own = rounds[on[key.feature]]
        for turn in operations:
            if turn.feature != own.name or turn.machine != "lathe" or turn.stage == "rough":
                continue
            early = own.diameter.width < TIGHT and part.blank.bright
            soft = early and bool(rough_of(operations, next(iter(turn.makes), "")))
            yield order_of(
                turn,
                key,
                "keyway and thread after their diameter",
                "the depth of a keyway is measured from the finished diameter",
                cost=SMALL_WISH if soft else None,
            )
        for turn in rough_of(operations, own.name):
            yield order_of(
                turn,
                key,
                "keyway and thread after their diameter",
                "the round is there before it is keyed",
            )


def _after_the_round_they_start_on(
    part: Part, operations: tuple[Operation, ...]
) -> Iterator[Order]:
    """Order holes and flats after the turning and facing that clears their start."""
    for op in operations:
        if op.machine != "mill" or op.verb == "mill keyway" or not op.region:
            continue
        for turn in operations:
            if turn.machine != "lathe" or turn.stage == "rough" or turn.inside:
                continue
            if turn.verb in ("turn", "face", "turn taper") and _uncovers(part, turn, op):
                yield order_of(
                    turn,
                    op,
                    "face before centring",
                    "a drill follows the slope it starts on; turned and faced, it starts true",
                )


def _uncovers(part: Part, turn: Operation, op: Operation) -> bool:
    """Tell whether turning makes the surface a milled feature starts on."""
    hole = next((f for f in part.features if isinstance(f, Hole) and f.name == op.feature), None)
    if hole is None:
        space = extents_of_all(op.region)
        rounds = [s for s in part.surfaces if s.name in turn.makes and s.kind == "cylinder"]
        return space is not None and any(
            s.low[0] < space.high[0] and s.high[0] > space.low[0] for s in rounds
        )
    made = [s for s in part.surfaces if s.name in turn.makes]
    return any(_starts_on(hole, s) for s in made)


def _starts_on(hole: Hole, surface: Surface) -> bool:
    entry = hole.entries[0]
    if surface.kind == "plane":
        level = dot(entry, surface.direction) - dot(surface.point, surface.direction)
        return same(surface.direction, opposite(hole.into)) and abs(level) < _TOUCHING
    crosswise = surface.kind == "cylinder" and abs(hole.into[0]) < _TOUCHING
    return crosswise and surface.low[0] <= entry[0] <= surface.high[0]


def _cross_holes_before_the_last_cut(
    part: Part, operations: tuple[Operation, ...]
) -> Iterator[Order]:
    bores = [
        op
        for op in operations
        if op.machine == "lathe" and op.inside and op.stage == "finish" and op.verb != "tap"
    ]
    cross = {
        f.name
        for f in part.features
        if isinstance(f, Hole) and not f.on_axis and abs(f.into[0]) < _TOUCHING
    }
    for hole, bore in product(operations, bores):
        if hole.feature not in cross or hole.verb != "drill":
            continue
        a, b = extents_of_all(hole.region), extents_of_all(bore.region)
        if a is not None and b is not None and a.overlaps(b):
            yield order_of(
                hole,
                bore,
                "cross-hole before the last cut of the bore",
                "the last cut takes off the burr where they meet",
            )
