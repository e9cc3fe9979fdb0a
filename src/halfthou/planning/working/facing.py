"""Facing an end in the lathe, clean or to its length."""

from __future__ import annotations

from typing import Final

from halfthou.cutting.feeds import ROUGHING
from halfthou.cutting.passes import FACING_CUT, LAST_FACE, facing
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Move
from halfthou.planning.working import words
from halfthou.planning.working.cuts import Draft, stops, told, with_settings
from halfthou.planning.working.dials import division_travel, move
from halfthou.planning.working.lengths import overall
from halfthou.planning.working.measures import measures_for
from halfthou.planning.working.slides import RULE_WITHIN, hand_feed, lathe_speed, start_draft
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre
from halfthou.workshop.model import Lathe

UNKNOWN_ACROSS: Final[Millimetre] = 25.0
INSIDE_THE_END: Final[Millimetre] = 0.5


def face(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Face an end, clean or to its length."""
    draft = start_draft(task, op)
    raw = task.part.blank.across or UNKNOWN_ACROSS
    diameter = min(raw, task.outside_at(op.starts - task.sense * INSIDE_THE_END, before=op))
    draft.speed = lathe_speed(task, lathe, op, diameter)
    draft.feed = hand_feed("cross-slide", lathe.cross_slide, ROUGHING, draft.speed)
    step = division_travel(lathe.top_slide)
    cuts = facing(metal_off=op.from_size, deepest=FACING_CUT * task.metal.rough, step=step)
    draft.measures = measures_for(task, op)
    _look_at_length(draft, cuts[-1].count * cuts[-1].depth if len(cuts) > 1 else 0.0)
    overall(task, draft)
    if words.MEASURE_BEFORE in draft.remarks and draft.check is not None:
        own = next(m for m in draft.measures if m.when == "out of the holding")
        over = max(draft.check.expect - own.aim, LAST_FACE)
        cuts = facing(metal_off=over, deepest=FACING_CUT * task.metal.rough, step=step)
    aim = draft.measures[0].aim if draft.measures else 0.0

    def set_to(total: Millimetre, _last: bool) -> Move:  # noqa: FBT001
        return move("top-slide", total, lathe.top_slide, sense="left", readout=lathe.readout)

    draft.passes = with_settings(told(cuts, size=aim, way=1.0), set_to, division=step)
    draft.moves = tuple(set_to(total, False) for total in stops(cuts))  # noqa: FBT003
    draft.lock = ("saddle",)
    draft.remarks.append(words.FROM_FACE)
    if not draft.measures:
        draft.remarks.append(_clean(task, op))
    draft.takes(length=diameter / 2)
    return draft


def _look_at_length(draft: Draft, last: Millimetre) -> None:
    if draft.measures and last > 0:
        draft.check = CoarseCheck(
            what="length before the last cut", means="rule",
            expect=draft.measures[0].aim + last, within=RULE_WITHIN,
        )  # fmt: skip


def _clean(task: Task, op: Operation) -> str:
    """Say how far a face cleans up: to the middle, or to the hole that is there."""
    before = list(task.done_before)
    for one in task.operations:
        if one is op:
            break
        before.append(one)
    holed = any(one.verb in {"drill", "bore"} and one.through for one in before)
    return words.CLEAN_TO_HOLE if holed else words.CLEAN
