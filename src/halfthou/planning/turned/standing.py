"""What each turning cut really starts from, once the order of work is known."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from halfthou.planning.model import Operation, SetUp
from halfthou.units import Millimetre


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
    """Give the set-ups again, each turning operation with the diameter it finds."""
    done: list[_Turned] = []
    answer = []
    for set_up in set_ups:
        operations = []
        for op in set_up.operations:
            if op.verb != "turn":
                operations.append(op)
                continue
            found = _largest_left(op, done)
            operations.append(replace(op, from_size=max(found, op.cut_size)))
            done.append(_Turned(op.starts, op.ends, op.cut_size))
        answer.append(replace(set_up, operations=tuple(operations)))
    return tuple(answer)
