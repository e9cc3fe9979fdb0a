"""Steps of a set-up on the mill: faces, steps, slots, keyways, and holes by their places."""

from __future__ import annotations

import math
from typing import Final

from halfthou.cutting.feeds import FLY_CUTTING, REAMING, drill_feed, tooth_feed
from halfthou.cutting.fluid import fluid_for
from halfthou.cutting.hand_feed import seconds_a_turn
from halfthou.cutting.passes import roughing
from halfthou.cutting.speeds import speed_for
from halfthou.handbook.drills import point_allowance
from halfthou.planning import working_words as words
from halfthou.planning.axes import Extents, dot, extents_of_all, opposite
from halfthou.planning.dials import division_travel
from halfthou.planning.milled.lump import lump_of
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Feed, Measure
from halfthou.planning.working_cuts import Draft, reached, told
from halfthou.planning.working_holes import (
    LEFT_TO_THE_DRILL,
    by_hand,
    full_depth,
    no_room_for_lead,
)
from halfthou.planning.working_hollows import cut_down
from halfthou.planning.working_measures import measures_for, passing_measure, thread_measure
from halfthou.planning.working_places import down, face_cuts, longest, place
from halfthou.planning.working_side import side_milling
from halfthou.planning.working_task import Task
from halfthou.planning.working_zero import raw_over
from halfthou.units import Millimetre, RevPerMinute, Second, Vec3
from halfthou.workshop.model import Mill, Tool

HOLES: Final = frozenset(
    ("spot", "drill", "bore", "ream", "tap", "countersink", "counterbore", "spot-face")
)
STEP_OVER: Final = 0.7
"""Share of a facing cutter's width used for each traverse (usual practice)."""
FACE_CUT: Final[Millimetre] = 0.5
"""Deepest cut of a fly cutter on a light mill, in steel (usual practice)."""
LAST: Final[Millimetre] = 0.10
RUN_OUT: Final[Millimetre] = 2.0
"""How far a cutter runs past an open side (usual practice)."""
CALMLY: Final[Second] = 1.0
"""A table handle is not turned faster than this under cut (usual practice)."""
RULE_WITHIN: Final[Millimetre] = 0.5
_FLY_TEETH: Final = 1
_UPRIGHT: Final = 0.99


def mill_drafts(task: Task, mill: Mill, zero: Vec3) -> list[Draft]:
    """Work out every step of a mill set-up."""
    made = []
    for op in task.operations:
        draft = _hole(task, mill, op, zero) if op.verb in HOLES else _milled(task, mill, op, zero)
        draft.remarks += words.metal_remarks(task.metal, op)
        if op.remark:
            draft.remarks.append(op.remark)
        if any(not m.decides and m.band is not None for m in draft.measures):
            draft.remarks.append(words.NOT_JUDGED)
        if any(m.to_make and m.kind in {"bore", "width"} for m in draft.measures):
            draft.remarks.append(words.PLUG)
        made.append(draft)
    return made


def _speed(task: Task, mill: Mill, op: Operation, diameter: Millimetre) -> RevPerMinute:
    return speed_for(
        metal=task.metal,
        verb=op.verb,
        diameter=diameter,
        workshop=task.workshop,
        speeds=mill.speeds,
    )


# --- holes ---


def _hole(task: Task, mill: Mill, op: Operation, zero: Vec3) -> Draft:
    draft = Draft(
        operation=op,
        tool=op.tools[0] if op.tools else op.verb,
        fluid=fluid_for(task.metal, op.verb),
    )
    several = len(op.at) > 1
    draft.places = tuple(
        place(task, mill, zero, point, str(number) if several else op.feature)
        for number, point in enumerate(op.at, start=1)
    )
    if op.verb != "tap":
        draft.speed = _speed(task, mill, op, max(op.cut_size, 1.0))
        feed = REAMING if op.verb == "ream" else drill_feed(op.cut_size, task.metal)
        draft.feed = Feed(kind="hand", per_turn=feed, slide="quill")
    depth = _hole_depth(task, op)
    draft.moves = (down(mill, depth, quill=True),)
    draft.lock = ("table", "cross-table")
    if several and not mill.readout:
        draft.remarks.append(words.ONE_WAY)
    _hole_words(task, op, draft)
    draft.takes(length=depth * max(1, len(op.at)), passes=max(1, len(op.at)))
    return draft


def _hole_depth(task: Task, op: Operation) -> Millimetre:
    if op.verb == "drill":
        return full_depth(task, op)
    if op.verb == "ream" and op.through:
        return op.ends + point_allowance(op.cut_size)
    return op.ends


def _hole_words(task: Task, op: Operation, draft: Draft) -> None:
    match op.verb:
        case "spot":
            draft.check = _first_place(draft)
        case "drill":
            _drill_words(task, op, draft)
        case "tap":
            trial = thread_measure(task, op)
            draft.measures = (trial,) if trial else ()
            draft.remarks += [*(() if op.remark else (words.TAP_IN_SPINDLE,)), words.BACK_OFF]
            draft.minutes = op.minutes
        case "ream":
            draft.measures = measures_for(task, op)
            draft.remarks.append(words.REAM)
            draft.check = CoarseCheck(
                what="hole before reaming", means=by_hand(op.from_size),
                expect=op.from_size, within=0.1,
            )  # fmt: skip
        case "countersink":
            pass
        case _:
            draft.measures = measures_for(task, op)


def _drill_words(task: Task, op: Operation, draft: Draft) -> None:
    draft.remarks += [words.TIP_BESIDE, words.CLEAR_CHIPS]
    if op.through:
        draft.cautions.append(words.GRABS)
        draft.remarks.append("see that the drill goes clear of parallels, clamps and table")
    if no_room_for_lead(task, op):
        draft.remarks.append(words.BOTTOMING)
    if op.size is not None and op.size.width < LEFT_TO_THE_DRILL:
        draft.measures = measures_for(task, op)


def _first_place(draft: Draft) -> CoarseCheck | None:
    """Look at the spots by rule before anything deep: from each other, else from the zero."""
    if len(draft.places) > 1:
        a, b = draft.places[:2]
        apart = math.hypot(a.x - b.x, a.y - b.y)
        return CoarseCheck(
            what="first two spots apart, touched before any is drilled",
            means="rule", expect=apart, within=RULE_WITHIN,
        )  # fmt: skip
    if not draft.places:
        return None
    one = draft.places[0]
    far = one.x if abs(one.x) >= abs(one.y) else one.y
    if far == 0:
        return None
    return CoarseCheck(
        what="spot from the edge", means="rule", expect=abs(far), within=RULE_WITHIN
    )


# --- milling ---


def _milled(task: Task, mill: Mill, op: Operation, zero: Vec3) -> Draft:
    name = op.tools[0] if op.tools else op.verb
    tool = task.tool(name)
    draft = Draft(operation=op, tool=name, fluid=fluid_for(task.metal, op.verb))
    width = tool.width if tool is not None and tool.width > 0 else 10.0
    draft.speed = _speed(task, mill, op, width)
    draft.feed = _table_feed(mill, tool, width, draft.speed)
    draft.measures = measures_for(task, op)
    draft.lock = ("cross-table", "quill", "knee")
    if op.verb == "mill chamfer":
        draft.moves = (down(mill, op.cut_size, quill=False),)
        draft.remarks.append("touch the edge, then down by the leg of the chamfer")
        draft.takes(length=longest(task, extents_of_all(op.region)), passes=2)
    elif op.verb == "mill face" and _on_top(tool):
        _facing(task, mill, draft, width)
    elif op.verb == "mill face":
        side_milling(task, mill, draft, width, zero)
    else:
        cut_down(task, mill, draft, width, zero)
    draft.remarks.append(words.FEED_AGAINST)
    return draft


def _on_top(tool: Tool | None) -> bool:
    return tool is None or tool.kind == "face mill"


def _table_feed(mill: Mill, tool: Tool | None, width: Millimetre, speed: RevPerMinute) -> Feed:
    fly = tool is not None and tool.kind == "face mill" and tool.teeth == _FLY_TEETH
    teeth = tool.teeth if tool is not None else 2
    per_turn = FLY_CUTTING if fly else tooth_feed(width) * teeth
    seconds = seconds_a_turn(lead=mill.x.lead, feed=per_turn, speed=speed)
    if seconds < CALMLY:
        per_turn, seconds = per_turn * seconds / CALMLY, CALMLY
    return Feed(kind="hand", per_turn=per_turn, seconds_a_handle_turn=seconds, slide="table")


def _facing(task: Task, mill: Mill, draft: Draft, width: Millimetre) -> None:
    op = draft.operation
    space = extents_of_all(op.region)
    deepest = FACE_CUT * task.metal.rough
    step = division_travel(mill.z)
    if op.stage == "rough":
        cuts = roughing(metal_off=op.cut_size, deepest=deepest, leave=0.0, step=step)
    else:
        cuts = face_cuts(op.cut_size, deepest, step)
    lengths = [m for m in draft.measures if m.kind == "length"]
    if not lengths:
        draft.measures = (*draft.measures, *to_the_raw_side(task, op))
    size = lengths[0].aim if lengths else 0.0
    draft.passes = told(cuts, size=size, way=1.0)
    draft.moves = tuple(down(mill, total, quill=False) for total in reached(cuts))
    if lengths and op.stage != "rough" and len(cuts) > 1:
        draft.check = CoarseCheck(
            what="thickness before the last cut", means="caliper",
            expect=size + cuts[-1].depth, within=0.1,
        )  # fmt: skip
    across = _narrow(task, space)
    draft.remarks.append(words.HIGHEST)
    traverses = max(1, math.ceil((across - 4.0) / (STEP_OVER * width)))
    count = sum(cut.count for cut in cuts) * traverses
    draft.takes(length=longest(task, space) + width, passes=count)


def to_the_raw_side(task: Task, op: Operation) -> tuple[Measure, ...]:
    """Measure a first face by how far it leaves it from the raw side opposite."""
    made = [task.surface(name) for name in op.makes]
    face = next((s for s in made if s is not None and dot(s.direction, task.up) > _UPRIGHT), None)
    if face is None or raw_over(task, face) is None:
        return ()
    below = opposite(task.up)
    there = task.there_before(op)
    finished = [
        s
        for s in task.part.surfaces
        if s.kind == "plane" and s.name in there and dot(s.direction, below) > _UPRIGHT
    ]
    if finished:
        return ()
    thick = dot(face.point, task.up) + lump_of(task.part).raw.most(below)
    one = passing_measure(task, surface=face.name, size=thick, kind="length")
    return (one,) if one is not None else ()


def _narrow(task: Task, space: Extents | None) -> Millimetre:
    if space is None:
        return 20.0
    return min(space.length(task.along), space.length(task.away))
