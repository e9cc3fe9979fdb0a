"""Edges milled with the side of an end mill: the cut goes sideways, the depth is set once."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Surface
from halfthou.planning import working_words as words
from halfthou.planning.axes import dot, extents_of_all
from halfthou.planning.worked import CoarseCheck, Move
from halfthou.planning.working_cuts import Draft, reached, told
from halfthou.planning.working_places import down, face_cuts, line_move, longest
from halfthou.planning.working_task import Task
from halfthou.planning.working_zero import first_edge_cut, raw_over
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Mill

SIDE_SHARE: Final = 0.1
"""Deepest side cut of an end mill at its full depth, in diameters (usual practice)."""
BELOW: Final[Millimetre] = 0.5
"""How far the cutter's end goes below the edge it cuts (usual practice)."""
_FLAT: Final = 0.99


def side_milling(task: Task, mill: Mill, draft: Draft, width: Millimetre, zero: Vec3) -> None:
    """Cuts sideways to the line of the edge, cutter's middle half its width outside it."""
    op = draft.operation
    edge = _edge(task, draft)
    metal = extents_of_all(task.part.metal)
    deepest = min(SIDE_SHARE * width, task.metal.rough)
    cuts = face_cuts(op.cut_size, deepest, mill.x.division)
    lengths = [m for m in draft.measures if m.kind == "length"]
    size = lengths[0].aim if lengths else op.ends
    draft.passes = told(cuts, size=size, way=1.0)
    draft.lock = ("quill", "knee")
    draft.takes(length=longest(task, metal) + width, passes=sum(cut.count for cut in cuts))
    if edge is None or metal is None:
        return
    thick = metal.length(task.up)
    draft.moves = (down(mill, thick + BELOW, quill=False),)
    way = task.along if abs(dot(edge.direction, task.along)) > _FLAT else task.away
    own = first_edge_cut(task, way) is edge and _own_zero(task, edge, zero, way)
    if own and raw_over(task, edge) is None:
        draft.remarks.append(words.OWN_ZERO)
        return
    line = dot(edge.point, way) - dot(zero, way) + dot(edge.direction, way) * (width / 2 + op.ends)
    draft.moves += _sideways(mill, task, way, line, reached(cuts), dot(edge.direction, way))
    draft.remarks.append(words.RIGHT_ACROSS)
    if lengths:
        draft.check = CoarseCheck(
            what="size across before the last cut", means="caliper",
            expect=size + cuts[-1].depth, within=0.1,
        )  # fmt: skip


def _own_zero(task: Task, edge: Surface, zero: Vec3, way: Vec3) -> bool:
    before = task.there_before()
    return edge.name not in before and abs(dot(edge.point, way) - dot(zero, way)) < 1e-6  # noqa: PLR2004


def _edge(task: Task, draft: Draft) -> Surface | None:
    """Give the plane that the side of the cutter leaves, or comes near to in roughing."""
    own = [task.surface(name) for name in draft.operation.makes]
    upright = [
        s for s in own
        if s is not None and s.kind == "plane" and abs(dot(s.direction, task.up)) < 1 - _FLAT
    ]  # fmt: skip
    if upright:
        return upright[0]
    return next((s for s in task.part.surfaces if s.name == draft.operation.feature), None)


def _sideways(  # noqa: PLR0917  (one line of a card)
    mill: Mill,
    task: Task,
    way: Vec3,
    line: Millimetre,
    done: tuple[Millimetre, ...],
    outward: float,
) -> tuple[Move, ...]:
    """Table positions after each group of cuts: the last is the line itself."""
    found = []
    for total in done:
        at = line + outward * (done[-1] - total)
        found.append(line_move(mill, task, way, at))
    return tuple(found)
