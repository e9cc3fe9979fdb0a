"""What each cut really finds, once the order of work is known: diameters, holes not there yet."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from halfthou.drawing.geometry import Cylinder
from halfthou.planning.axes import dot
from halfthou.planning.model import Operation, SetUp
from halfthou.units import Millimetre, Vec3


@dataclass(frozen=True, slots=True)
class _Turned:
    """A stretch of the work already turned to a diameter."""

    low: Millimetre
    high: Millimetre
    size: Millimetre


def _largest_left(op: Operation, done: list[_Turned]) -> Millimetre:
    """Largest diameter still standing over the stretch that ``op`` turns."""
    marks = sorted(
        {op.starts, op.ends}
        | {x for t in done for x in (t.low, t.high) if op.starts < x < op.ends}
    )
    sizes = []
    for low, high in pairwise(marks):
        middle = (low + high) / 2
        here = [t.size for t in done if t.low <= middle <= t.high]
        sizes.append(min([op.from_size, *here]))
    return max(sizes, default=op.from_size)


def as_it_stands(set_ups: tuple[SetUp, ...]) -> tuple[SetUp, ...]:
    """Give the set-ups again, each turning operation with the diameter it finds.

    A hole drawn to a bore that comes only later does not go through: it ends in solid metal.
    """
    done: list[_Turned] = []
    order = [op for set_up in set_ups for op in set_up.operations]
    answer = []
    for set_up in set_ups:
        operations = []
        for op in set_up.operations:
            if op.verb != "turn":
                blind = op.through and _ends_in_solid(op, order)
                operations.append(replace(op, through=False) if blind else op)
                continue
            found = _largest_left(op, done)
            operations.append(replace(op, from_size=max(found, op.cut_size)))
            done.append(_Turned(op.starts, op.ends, op.cut_size))
        answer.append(replace(set_up, operations=tuple(operations)))
    return tuple(answer)


def _ends_in_solid(op: Operation, order: list[Operation]) -> bool:
    """Tell whether a hole ends where another, from the solid, is drilled only afterwards."""
    place = order.index(op)
    ends = [region.end for region in op.region if isinstance(region, Cylinder)]
    begun = {one.feature for one in order[:place]} | {op.feature}
    return any(
        one.from_size <= 0 and _within(end, region)
        for one in order[place:]
        if one.feature not in begun and one.verb == "drill"
        for region in one.region
        if isinstance(region, Cylinder)
        for end in ends
    )


def _within(point: Vec3, space: Cylinder) -> bool:
    """Tell whether a point lies in a round space."""
    length = math.dist(space.start, space.end)
    if length <= 0:
        return False
    way = tuple((b - a) / length for a, b in zip(space.start, space.end, strict=True))
    out = tuple(b - a for a, b in zip(space.start, point, strict=True))
    along = dot((out[0], out[1], out[2]), (way[0], way[1], way[2]))
    aside = math.dist(out, tuple(along * one for one in way))
    return 0 <= along <= length and aside <= space.diameter / 2
