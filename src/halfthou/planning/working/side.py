"""Edges milled with the side of an end mill: the cut goes sideways, the depth is set once."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.cutting.milling import SIDE_SHARE, each_setting, to_a_face
from halfthou.drawing.model import Surface
from halfthou.planning.axes import Extents, dot, extents_of_all, opposite
from halfthou.planning.milled.lump import lump_of
from halfthou.planning.worked import CoarseCheck, Measure, Move
from halfthou.planning.working import mill_words, words
from halfthou.planning.working.aims import aimed
from halfthou.planning.working.cuts import Draft, told
from halfthou.planning.working.lengths import SAWN_OVER
from halfthou.planning.working.measures import passing_measure
from halfthou.planning.working.places import (
    against_the_cutter,
    down,
    line_move,
    longest,
    set_at,
)
from halfthou.planning.working.task import Task
from halfthou.planning.working.zero import first_edge_cut, over_the_zero, raw_over, ways_used
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Mill

LIGHT: Final[Millimetre] = 0.4
"""No cut sideways is deeper in work held low: more pulls it over (usual practice)."""
HELD_LOW: Final = 0.4
"""Work is held low with less than this share of its height in the jaws (usual practice)."""
BELOW: Final[Millimetre] = 0.5
"""How far the cutter's end goes below the edge it cuts (usual practice)."""
FREE: Final[Millimetre] = 2.0
"""Room left between a cutter's chuck and the metal beside the cut (usual practice)."""
_FLAT: Final = 0.99


def side_milling(task: Task, mill: Mill, draft: Draft, width: Millimetre, zero: Vec3) -> None:
    """Cuts sideways to the line of the edge, cutter's middle half its width outside it."""
    op = draft.operation
    edge = edge_of(task, draft)
    metal = extents_of_all(task.part.metal)
    deepest = _deepest(task, metal, width)
    cuts = to_a_face(metal_off=op.cut_size, deepest=deepest, division=mill.x.division)
    lengths = [m for m in draft.measures if m.kind == "length"]
    if edge is not None and metal is not None and not lengths:
        draft.measures = (*draft.measures, *_not_drawn(task, draft, edge, mill))
    draft.passes = told(cuts, size=_size_left(task, draft, edge, mill), way=1.0)
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
    deep = metal.length(task.up) + BELOW + over_the_zero(task, op)
    draft.moves = (down(mill, deep, quill=False),)
    draft.tool_out = float(math.ceil(deep + FREE))
    draft.remarks += [_one_depth(task), *mill_words.named(edge, op)]
    own = first_edge_cut(task, way) is edge and _own_zero(task, edge, zero, way)
    if own and raw_over(task, edge) is None:
        draft.remarks.append(words.OWN_ZERO)
        return
    outward = dot(edge.direction, way)
    wall = aimed(task, op, way, dot(edge.point, way))
    line = wall - aimed(task, None, way, dot(zero, way)) + outward * (width / 2 + op.ends)
    sideways = _sideways(mill, task, way, line, each_setting(cuts), outward)
    draft.moves += sideways
    draft.passes = set_at(draft.passes, sideways, division=mill.x.division)
    draft.remarks += [] if mill.readout else [words.ONE_WAY]
    _to_its_size(draft, lengths, cuts[-1].depth)
    if own and not lengths:
        draft.remarks.append(_not_clean(task, draft, way))


def _deepest(task: Task, metal: Extents | None, width: Millimetre) -> Millimetre:
    """Give the deepest cut sideways: light where a vice has little of the height in its jaws."""
    deepest = min(SIDE_SHARE * width, task.metal.rough)
    grip = task.scheme.grip_high - task.scheme.grip_low
    if metal is None or task.scheme.device.device != "vice" or grip <= 0:
        return deepest
    return min(deepest, LIGHT) if grip < HELD_LOW * metal.length(task.up) else deepest


def _size_left(task: Task, draft: Draft, edge: Surface | None, mill: Mill) -> Millimetre:
    """Give the size the last cut leaves; of work raw opposite only what then stands on."""
    own = [m for m in draft.measures if m.kind == "length"]
    raw = all(m.band is None for m in own) and edge is not None
    first = raw and edge is not None and bool(to_the_raw_side(task, draft, edge, mill.x.division))
    return own[0].aim if own and not first else draft.operation.ends


def _not_drawn(task: Task, draft: Draft, edge: Surface, mill: Mill) -> tuple[Measure, ...]:
    """Give what an edge is measured by where no one drawn size tells it."""
    raw = to_the_raw_side(task, draft, edge, mill.x.division)
    return raw or to_the_far_side(task, draft, edge)


def _to_its_size(draft: Draft, lengths: list[Measure], last: Millimetre) -> None:
    """Look before the last cut where a size is drawn."""
    if lengths:
        draft.check = last_look("size across before the last cut", lengths[0], last)
        draft.remarks += [mill_words.WHAT_IS_OVER, mill_words.LEFT_TO_THE_LAST]


def _not_clean(task: Task, draft: Draft, way: Vec3) -> str:
    """Say how a first edge goes on that is not clean: the zero with it, where it is used later."""
    later = ways_used(task, after=draft.operation)
    zero = ("x" if way == task.along else "y") in later
    return mill_words.NOT_CLEAN_ZERO if zero else mill_words.NOT_CLEAN


def last_look(what: str, size: Measure, last: Millimetre) -> CoarseCheck:
    """Look once more before a last cut: what is over then goes with it, so never under the aim."""
    return CoarseCheck(
        what=what, means="caliper", expect=size.aim + last, within=0.1, low=size.aim
    )


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


def _one_depth(task: Task) -> str:
    """Say how the knee goes up at an edge: by what the work measures, unless its foot is raw."""
    raw = any(name.startswith("stock") for name in task.scheme.seats)
    return mill_words.ONE_DEPTH if raw else mill_words.ONE_HEIGHT


def to_the_raw_side(
    task: Task, draft: Draft, face: Surface, division: Millimetre
) -> tuple[Measure, ...]:
    """Measure a first face by how far it leaves it from the raw side opposite.

    Under its aim by no more than the opposite face's last cut: the roughing printed there is
    counted from a touch, and takes all it says.
    """
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
    metal = extents_of_all(task.part.metal)
    if one is None or metal is None:
        return ()
    off = thick - metal.length(face.direction)
    cuts = to_a_face(metal_off=off, deepest=task.metal.rough, division=division)
    return (replace(one, low=thick - cuts[-1].depth, high=thick + SAWN_OVER),)


def to_the_far_side(task: Task, draft: Draft, face: Surface) -> tuple[Measure, ...]:
    """Measure a face by its finished opposite, where no drawn size does: as far as others leave.

    What of its limits the drawing leaves is the widest of the sizes between, less the others.
    """
    far = opposite(face.direction)
    there = task.there_before(draft.operation)
    opposed = [
        s
        for s in task.part.surfaces
        if s.kind == "plane" and not s.inside and s.name in there and dot(s.direction, far) > _FLAT
    ]
    if not opposed:
        return ()
    other = max(opposed, key=lambda s: dot(s.point, far))
    size = dot(face.point, face.direction) + dot(other.point, far)
    one = passing_measure(task, surface=face.name, size=size, kind="length")
    half = _left_by_the_rest(task, face, other)
    if one is None or half is None:
        return ()
    return (replace(one, low=size - half, high=size + half),)


def _left_by_the_rest(task: Task, face: Surface, other: Surface) -> Millimetre | None:
    """Give half the limits left for a length that two drawn sizes add up to; else None."""
    sizes = [d for d in task.part.distances if abs(dot(d.direction, face.direction)) > _FLAT]
    for one in sizes:
        for two in sizes:
            shared = {one.a, one.b} & {two.a, two.b}
            if shared and {one.a, one.b, two.a, two.b} - shared == {face.name, other.name}:
                return abs(one.band.width - two.band.width) / 2
    return None


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
    """Table positions of every cut, from outside in: the last is the line itself."""
    return tuple(line_move(mill, task, way, line + outward * (done[-1] - total)) for total in done)
