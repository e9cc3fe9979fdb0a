"""Edges milled with the side of an end mill: the cut goes sideways, the depth is set once."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.cutting.milling import SIDE_SHARE, each_setting, to_a_face
from halfthou.drawing.model import Surface
from halfthou.planning.axes import dot, extents_of_all, opposite
from halfthou.planning.milled.lump import lump_of
from halfthou.planning.worked import CoarseCheck, Measure, Move
from halfthou.planning.working import words
from halfthou.planning.working.aims import aimed
from halfthou.planning.working.cuts import Draft, told
from halfthou.planning.working.measures import passing_measure
from halfthou.planning.working.places import against_the_cutter, down, line_move, longest
from halfthou.planning.working.task import Task
from halfthou.planning.working.zero import first_edge_cut, raw_over
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Mill

BELOW: Final[Millimetre] = 0.5
"""How far the cutter's end goes below the edge it cuts (usual practice)."""
_FLAT: Final = 0.99


def side_milling(task: Task, mill: Mill, draft: Draft, width: Millimetre, zero: Vec3) -> None:
    """Cuts sideways to the line of the edge, cutter's middle half its width outside it."""
    op = draft.operation
    edge = edge_of(task, draft)
    metal = extents_of_all(task.part.metal)
    deepest = min(SIDE_SHARE * width, task.metal.rough)
    cuts = to_a_face(metal_off=op.cut_size, deepest=deepest, division=mill.x.division)
    lengths = [m for m in draft.measures if m.kind == "length"]
    size = lengths[0].aim if lengths else op.ends
    draft.passes = told(cuts, size=size, way=1.0)
    draft.lock = ("quill", "knee")
    passes = sum(cut.count for cut in cuts)
    if edge is None or metal is None:
        draft.takes(length=longest(task, metal) + width, passes=passes)
        return
    way = task.along if abs(dot(edge.direction, task.along)) > _FLAT else task.away
    _along_the_edge(task, draft, edge, way)
    draft.takes(
        length=metal.length(task.away if way == task.along else task.along) + width,
        passes=passes,
    )
    draft.moves = (down(mill, metal.length(task.up) + BELOW, quill=False),)
    if not lengths:
        draft.measures = (*draft.measures, *to_the_raw_side(task, draft, edge))
    own = first_edge_cut(task, way) is edge and _own_zero(task, edge, zero, way)
    if own and raw_over(task, edge) is None:
        draft.remarks.append(words.OWN_ZERO)
        return
    outward = dot(edge.direction, way)
    wall = aimed(task, op, way, dot(edge.point, way))
    line = wall - aimed(task, None, way, dot(zero, way)) + outward * (width / 2 + op.ends)
    draft.moves += _sideways(mill, task, way, line, each_setting(cuts), outward)
    if lengths:
        draft.check = CoarseCheck(
            what="size across before the last cut", means="caliper",
            expect=size + cuts[-1].depth, within=0.1,
        )  # fmt: skip
    elif own:
        draft.remarks.append(words.CLEANS_UP)


def _along_the_edge(task: Task, draft: Draft, edge: Surface, way: Vec3) -> None:
    """Lock the slide that sets the line, run the other along it, against the cutter's turning."""
    sets, runs = ("table", "cross-table") if way == task.along else ("cross-table", "table")
    draft.lock = (
        ("table", "quill", "knee") if sets == "table" else ("cross-table", "quill", "knee")
    )
    if draft.feed is not None:
        draft.feed = replace(
            draft.feed,
            slide="cross-table" if runs == "cross-table" else "table",
            table_goes=against_the_cutter(task, edge.direction),
        )
    draft.remarks.append(words.RIGHT_ACROSS)
    if task.scheme.out or task.scheme.device.device == "clamps":
        draft.remarks.append(words.CLEAR_OF_JAWS)


def to_the_raw_side(task: Task, draft: Draft, face: Surface) -> tuple[Measure, ...]:
    """Measure a first face by how far it leaves it from the raw side opposite."""
    if raw_over(task, face) is None:
        return ()
    far = opposite(face.direction)
    there = task.there_before(draft.operation)
    if any(
        s.kind == "plane" and s.name in there and dot(s.direction, far) > _FLAT
        for s in task.part.surfaces
    ):
        return ()
    thick = dot(face.point, face.direction) + lump_of(task.part).raw.most(far)
    one = passing_measure(task, surface=face.name, size=thick, kind="length")
    return (one,) if one is not None else ()


def _own_zero(task: Task, edge: Surface, zero: Vec3, way: Vec3) -> bool:
    before = task.there_before()
    return edge.name not in before and abs(dot(edge.point, way) - dot(zero, way)) < 1e-6  # noqa: PLR2004


def edge_of(task: Task, draft: Draft) -> Surface | None:
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
    """Table positions of every cut, come to from outside: the last is the line itself."""
    return tuple(
        line_move(mill, task, way, line + outward * (done[-1] - total), inward=-outward)
        for total in done
    )
