"""Steps in the lathe fed straight in: grooves, chamfers, parting off."""

import math
from dataclasses import replace
from typing import Final

from halfthou.cutting.feeds import FINISHING, PLUNGING
from halfthou.planning.axes import extents_of_all
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Feed, Pass
from halfthou.planning.working import words
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.dials import division_travel, move
from halfthou.planning.working.ends import at_shoulder
from halfthou.planning.working.measures import (
    passing_measure,
)
from halfthou.planning.working.slides import (
    along,
    hand_feed,
    lathe_speed,
    saddle_to,
    start_draft,
)
from halfthou.planning.working.task import Task
from halfthou.planning.working.turning import (
    at_the_end,
    beside_the_centre,
    holder_clear,
    size_measures,
)
from halfthou.units import Millimetre, RevPerMinute
from halfthou.workshop.model import Lathe

PARTING_WITHIN: Final[Millimetre] = 0.3
"""How near the length to be parted must come by rule: the facing after it is that (usual)."""
HOLED: Final = frozenset(("drill", "bore", "ream"))


def groove(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Groove to its diameter, plunge by plunge."""
    return plunge(task, lathe, op, start_draft(task, op))


def plunge(task: Task, lathe: Lathe, op: Operation, draft: Draft) -> Draft:
    """Feed a grooving tool straight in, once for every width of it."""
    draft.measures, size = size_measures(task, op)
    there = task.diameter_now(op)
    depth = abs(there - size) / 2
    draft.speed = lathe_speed(task, lathe, replace(op, verb="groove"), there)
    draft.feed = hand_feed("cross-slide", lathe.cross_slide, PLUNGING, draft.speed)
    tool = task.tool(draft.tool)
    width = tool.width if tool is not None else 0.0
    near, far = sorted((task.from_face(op.starts), task.from_face(op.ends)))
    plunges = max(1, math.ceil((far - near) / width - 1e-6)) if width > 0 else 1
    in_to = move(
        "cross-slide",
        depth,
        lathe.cross_slide,
        sense="in",
        readout=lathe.readout,
    )
    one = Pass(
        count=plunges, depth=in_to.to, leaves=round(there - 2 * in_to.to, 6),
        purpose="finish", settings=(in_to,) * plunges,
        divisions=in_to.divisions, side_by_side=plunges > 1,
    )  # fmt: skip
    draft.passes = (one,)
    draft.length = far
    draft.moves = (*(along(lathe, x) for x in _lefts(near, far, width, plunges)), in_to)
    draft.remarks.append(words.FROM_TOUCH)
    if plunges > 1:
        draft.remarks.append(words.SIDE_BY_SIDE)
    draft.lock = ("saddle", "top-slide")
    draft.remarks.append(words.CORNER_AT_SHOULDER if at_shoulder(task, op) else words.LEFT_CORNER)
    beside_the_centre(task, draft)
    holder_clear(task, draft)
    draft.takes(length=depth, passes=plunges)
    return draft


def _lefts(
    near: Millimetre, far: Millimetre, width: Millimetre, plunges: int
) -> tuple[Millimetre, ...]:
    """Where the tool's left corner stands for each plunge, come to from the right each time."""
    if plunges == 1:
        return (far,)
    last = near + width
    return tuple(last + (far - last) * n / (plunges - 1) for n in range(plunges))


def chamfer(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Take a corner off by the leg of the chamfer."""
    draft = start_draft(task, op)
    space = extents_of_all(op.region)
    diameter = space.high[1] - space.low[1] if space is not None else 25.0
    draft.speed = lathe_speed(task, lathe, op, diameter)
    draft.feed = chamfer_feed(lathe, op, draft.speed)
    leg = op.cut_size + still_to_open(task, op)
    if not lathe.readout:
        division = division_travel(lathe.top_slide)
        leg = max(1, round(leg / division)) * division
    draft.moves = (move("top-slide", leg, lathe.top_slide, sense="left", readout=lathe.readout),)
    draft.lock = ("saddle", "cross-slide")
    draft.remarks.append(words.TOUCH_THE_CORNER)
    if at_the_end(task, op) and not op.inside and not op.follows:
        beside_the_centre(task, draft)
        if task.scheme.centre or task.scheme.device.device == "centres":
            draft.remarks.append(words.EDGE_AT_CENTRE)
    elif not op.inside and "chuck" in task.scheme.device.device:
        draft.remarks.append(words.EDGE_BY_JAWS)
    if leg > op.cut_size + 0.01:
        draft.remarks.append(words.LEG_AFTER)
    draft.takes(length=op.cut_size, passes=1)
    return draft


def still_to_open(task: Task, op: Operation) -> Millimetre:
    """Give what a later reamer or boring takes off each side of the hole a chamfer is in."""
    if not op.follows:
        return 0.0
    after = list(task.operations)
    here = next((n for n, one in enumerate(after) if one is op), len(after))
    later = [
        one
        for one in (*after[here + 1 :], *task.later)
        if one.feature == op.follows and one.verb in {"ream", "bore"}
    ]
    return max(((one.cut_size - one.from_size) / 2 for one in later), default=0.0)


def chamfer_feed(lathe: Lathe, op: Operation, speed: RevPerMinute) -> Feed:
    """Feed of the top-slide for the leg of a chamfer."""
    return hand_feed("top-slide", lathe.top_slide, FINISHING, speed, far=op.cut_size)


def part_off(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Part the piece off, with a look at its length first."""
    draft = start_draft(task, op)
    diameter = task.part.blank.across or 25.0
    draft.speed = lathe_speed(task, lathe, op, diameter)
    draft.feed = hand_feed("cross-slide", lathe.cross_slide, PLUNGING, draft.speed)
    draft.moves = saddle_to(task, lathe, op.ends)
    tool = task.tool(draft.tool)
    if tool is not None and tool.width > 0:
        draft.tool = f"{tool.name} {tool.width:g} wide"
    length = task.from_face(op.starts)
    draft.check = CoarseCheck(
        what="length to the parting tool's near side", means="rule", expect=length,
        within=PARTING_WITHIN,
    )  # fmt: skip
    left = passing_measure(task, surface=op.feature, size=length, kind="length")
    draft.measures = (replace(left, when="out of the holding"),) if left else ()
    draft.lock = ("saddle", "top-slide")
    bored = any(one.verb in HOLED for one in (*task.done_before, *task.operations))
    draft.remarks += [
        words.LEFT_CORNER,
        words.LEFT_CORNER_PARTING,
        words.CAUGHT if bored else words.CAUGHT_SOLID,
        words.WIDEN,
    ]
    draft.cautions.append(words.PARTING)
    draft.takes(length=diameter / 2, passes=1)
    return draft
