"""Steps, slots, pockets and keyways: down in cuts, along lines or between two corners."""

from __future__ import annotations

from typing import Final

from halfthou.cutting.passes import ALIKE, LEAVE, Cuts, milling_depth, roughing
from halfthou.planning import working_words as words
from halfthou.planning.axes import Extents, dot, extents_of_all
from halfthou.planning.dials import division_travel
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Place
from halfthou.planning.working_cuts import Draft, reached, told
from halfthou.planning.working_places import down, line_move, longest, point_at, table_moves
from halfthou.planning.working_task import Task
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Mill

RUN_OUT: Final[Millimetre] = 2.0
"""How far a cutter runs past an open side (usual practice)."""
RULE_WITHIN: Final[Millimetre] = 0.5
_SAME: Final = 1e-6


def _heights(op: Operation, space: Extents, zero: Vec3, up: Vec3) -> tuple[float, float]:
    """How far below the zero a cut begins and ends."""
    top = dot(zero, up)
    ends = top - space.least(up)
    if op.verb == "mill keyway" and op.from_size > 0:
        return ends - op.from_size, ends
    return max(0.0, top - space.most(up)), ends


def _down_cuts(
    task: Task, mill: Mill, op: Operation, width: Millimetre, deep: Millimetre
) -> tuple[Cuts, ...]:
    deepest = milling_depth(cutter=width, deepest=task.metal.rough)
    leave = LEAVE if op.verb in {"mill pocket", "mill step"} else ALIKE
    rough = roughing(
        metal_off=deep, deepest=deepest, leave=min(leave, deep / 2), step=division_travel(mill.z)
    )
    left = rough[-1].left if rough else deep
    return (*rough, Cuts(count=1, depth=left, left=0.0, purpose="finish"))


def cut_down(task: Task, mill: Mill, draft: Draft, width: Millimetre, zero: Vec3) -> None:
    """Step, slot, pocket or keyway: down in cuts, between two corners for the cutter's middle."""
    op = draft.operation
    space = extents_of_all(op.region)
    if space is None:
        return
    begins, ends = _heights(op, space, zero, task.up)
    cuts = _down_cuts(task, mill, op, width, ends - begins)
    draft.passes = told(cuts, size=ends, way=-1.0)
    draft.moves = tuple(down(mill, begins + total, quill=False) for total in reached(cuts))
    _across(task, mill, draft, zero, space, width)
    if op.size is not None and op.size.middle > width * 1.01 and op.verb != "mill step":
        draft.remarks.append(
            "rough it down the middle first, then each wall to size in two cuts alike"
        )
    if op.verb == "mill keyway":
        draft.remarks.append("a slot drill, not an end mill: it has to cut down into the solid")
    _look_first(draft, width)
    draft.takes(length=longest(task, space), passes=sum(cut.count for cut in cuts))


def _look_first(draft: Draft, width: Millimetre) -> None:
    """Look at the cutter's place by rule before it goes down."""
    if draft.places:
        middle = abs(draft.places[0].x)
    else:
        lines = [m.to for m in draft.moves if m.slide in {"table", "cross-table"}]
        middle = lines[0] if lines else 0.0
    near = middle - width / 2
    if near >= RULE_WITHIN:
        draft.check = CoarseCheck(
            what="cutter's near side from the edge, as a touch mark before going down",
            means="rule", expect=near, within=RULE_WITHIN,
        )  # fmt: skip


def _across(  # noqa: PLR0917  (where one cut lies)
    task: Task, mill: Mill, draft: Draft, zero: Vec3, space: Extents, width: Millimetre
) -> None:
    """Tell the lines of a cut that runs right across, else the corners of a closed one."""
    opens = {way: _open_ends(task, space, way) for way in (task.along, task.away)}
    through = [way for way, ends in opens.items() if all(ends)]
    if not through:
        draft.places = _corners(task, mill, zero, space, width)
        return
    draft.remarks.append(words.RIGHT_ACROSS)
    way = task.away if through[0] == task.along else task.along
    open_low, open_high = opens[way]
    half = width / 2
    lines = [space.least(way) + half] if not open_low else []
    lines += [space.most(way) - half] if not open_high else []
    if len(lines) > 1 and abs(lines[1] - lines[0]) < _SAME:
        lines = lines[:1]
    draft.moves += tuple(line_move(mill, task, way, at - dot(zero, way)) for at in lines)
    if len(lines) == 1 and (open_low or open_high):
        draft.remarks.append(words.OUTSIDE_IN)


def _open_ends(task: Task, space: Extents, way: Vec3) -> tuple[bool, bool]:
    metal = extents_of_all(task.part.metal)
    if metal is None:
        return False, False
    return (
        space.least(way) < metal.least(way) - _SAME,
        space.most(way) > metal.most(way) + _SAME,
    )


def _corners(
    task: Task, mill: Mill, zero: Vec3, space: Extents, width: Millimetre
) -> tuple[Place, ...]:
    """Where the cutter's middle starts and ends, along and across."""
    half = width / 2
    metal = extents_of_all(task.part.metal)
    low: dict[str, float] = {}
    high: dict[str, float] = {}
    for letter, way in (("x", task.along), ("y", task.away)):
        a, b = space.least(way) + half, space.most(way) - half
        if metal is not None and space.least(way) < metal.least(way) - _SAME:
            a = metal.least(way) - half - RUN_OUT
        if metal is not None and space.most(way) > metal.most(way) + _SAME:
            b = metal.most(way) + half + RUN_OUT
        middle = (a + b) / 2
        low[letter], high[letter] = (a, b) if a <= b else (middle, middle)
    ends = []
    for label, spot in (("from", low), ("to", high)):
        x = spot["x"] - dot(zero, task.along)
        y = spot["y"] - dot(zero, task.away)
        point = point_at(task, zero, x, y)
        ends.append(Place(label=label, at=point, x=x, y=y, moves=table_moves(mill, x, y)))
    return tuple(ends)
