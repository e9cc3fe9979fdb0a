"""Faces on the slant sawn and filed to a line: where the line is scribed, how it is come to."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import OUTWARD, Side
from halfthou.planning.axes import axis_of, dot, other_side
from halfthou.planning.milled.lump import SIDES, part_extents
from halfthou.planning.milled.slants import (
    ends_of_slant,
    level_axis,
    placed,
    slant_of,
    stands_over,
)
from halfthou.planning.model import Operation
from halfthou.planning.worked import Measure
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-4

FILED: Final = (
    "blue it; the two ends of the line by caliper and square, scribed between them on both "
    "sides of the work, light centre-pops along it; hacksaw a millimetre outside it; file down "
    "until half of every pop is gone, tried all over with a square from {side}"
)
FROM_THE_CORNER: Final = "one end of the line is the corner itself: it keeps its size"


def filed_slant(task: Task, op: Operation, draft: Draft) -> None:
    """Give the ends of the line as sizes to scribe, and how a face is filed to it."""
    face = slant_of(task.part, op)
    if face is None:
        return
    body = part_extents(task.part)
    ends = ends_of_slant(stands_over(body, face, ()), face)
    own = [s for s in SIDES if axis_of(OUTWARD[s]) != level_axis(face)]
    for end in ends or ():
        at = placed(face, end)
        on = [s for s in own if abs(dot(at, OUTWARD[s]) - body.most(OUTWARD[s])) < _SAME]
        if len(on) > 1:
            draft.remarks.append(FROM_THE_CORNER)
        elif on:
            draft.measures += (_scribed(draft, on[0], _far(own, on[0], face.normal), at, task),)
    flat = next(s for s in SIDES if axis_of(OUTWARD[s]) == level_axis(face))
    draft.remarks.insert(0, FILED.format(side=f"the {flat} face"))


def _far(own: list[Side], on: Side, normal: Vec3) -> Side:
    """Give the side that stays, from which a place along another is measured."""
    ways = [s for s in own if axis_of(OUTWARD[s]) != axis_of(OUTWARD[on])]
    return other_side(max(ways, key=lambda s: dot(OUTWARD[s], normal)))


def _scribed(draft: Draft, on: Side, far: Side, at: Vec3, task: Task) -> Measure:
    size: Millimetre = part_extents(task.part).most(OUTWARD[far]) - dot(at, OUTWARD[far])
    return Measure(
        surface=draft.operation.feature, gauge="caliper", aim=size, low=size, high=size, doubt=0.0,
        kind="position", decides=False, where=f"line on the {on} face, from the {far} face",
    )  # fmt: skip
