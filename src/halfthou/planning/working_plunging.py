"""Steps in the lathe fed straight in: grooves, chamfers, parting off."""

import math
from dataclasses import replace

from halfthou.cutting.feeds import FINISHING, PLUNGING
from halfthou.cutting.passes import (
    Cuts,
)
from halfthou.planning import working_words as words
from halfthou.planning.axes import extents_of_all
from halfthou.planning.dials import move
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck
from halfthou.planning.working_cuts import Draft, told
from halfthou.planning.working_measures import (
    passing_measure,
)
from halfthou.planning.working_slides import (
    RULE_WITHIN,
    along,
    hand_feed,
    lathe_speed,
    note_turns,
    saddle_to,
    start_draft,
)
from halfthou.planning.working_task import Task
from halfthou.planning.working_turning import size_measures
from halfthou.workshop.model import Lathe


def groove(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Groove to its diameter, plunge by plunge."""
    return plunge(task, lathe, op, start_draft(task, op))


def plunge(task: Task, lathe: Lathe, op: Operation, draft: Draft) -> Draft:
    """Feed a grooving tool straight in, once for every width of it."""
    draft.measures, size = size_measures(task, op)
    depth = abs(op.from_size - size) / 2
    draft.speed = lathe_speed(task, lathe, replace(op, verb="groove"), op.from_size)
    draft.feed = hand_feed("cross-slide", lathe.cross_slide, PLUNGING, draft.speed)
    tool = task.tool(draft.tool)
    width = tool.width if tool is not None else 0.0
    near, far = sorted((task.from_face(op.starts), task.from_face(op.ends)))
    plunges = max(1, math.ceil((far - near) / width - 1e-6)) if width > 0 else 1
    cuts = (Cuts(count=plunges, depth=depth, left=0.0, purpose="finish"),)
    draft.passes = told(cuts, size=size, way=2.0)
    lefts = [far] if plunges == 1 else [far, near + width]
    draft.moves = (
        *(along(lathe, x) for x in lefts),
        move("cross-slide", depth, lathe.cross_slide, sense="in", readout=lathe.readout),
    )
    draft.lock = ("saddle", "top-slide")
    draft.remarks.append("lengths are of the tool's left corner: touch the zero face with it")
    note_turns(task, draft)
    draft.takes(length=depth, passes=plunges)
    return draft


def chamfer(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Take a corner off by the leg of the chamfer."""
    draft = start_draft(task, op)
    space = extents_of_all(op.region)
    diameter = space.high[1] - space.low[1] if space is not None else 25.0
    draft.speed = lathe_speed(task, lathe, op, diameter)
    draft.feed = hand_feed("top-slide", lathe.top_slide, FINISHING, draft.speed)
    draft.moves = (
        move("top-slide", op.cut_size, lathe.top_slide, sense="left", readout=lathe.readout),
    )
    draft.lock = ("saddle", "cross-slide")
    draft.remarks.append("touch the corner, then feed on by the leg of the chamfer")
    draft.takes(length=op.cut_size, passes=1)
    return draft


def part_off(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Part the piece off, with a look at its length first."""
    draft = start_draft(task, op)
    diameter = task.part.blank.across or 25.0
    draft.speed = lathe_speed(task, lathe, op, diameter)
    draft.feed = hand_feed("cross-slide", lathe.cross_slide, PLUNGING, draft.speed)
    draft.moves = saddle_to(task, lathe, op.ends)
    length = task.from_face(op.starts)
    draft.check = CoarseCheck(
        what="length to the parting tool's near side", means="rule", expect=length,
        within=RULE_WITHIN,
    )  # fmt: skip
    left = passing_measure(task, surface=op.feature, size=length, kind="length")
    draft.measures = (left,) if left else ()
    draft.lock = ("saddle", "top-slide")
    draft.remarks += [
        "lengths are of the tool's left corner: touch the zero face with it",
        "chamfer the corner before it is parted through; widen the groove if the tool binds",
    ]
    draft.cautions.append(words.PARTING)
    note_turns(task, draft)
    draft.takes(length=diameter / 2, passes=1)
    return draft
