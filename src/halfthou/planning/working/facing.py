"""Facing an end in the lathe, clean or to its length."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.cutting.feeds import ROUGHING
from halfthou.cutting.passes import FACING_CUT, LAST_FACE, facing
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Move, Pass
from halfthou.planning.working import words
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.dials import Rounding, division_travel, move
from halfthou.planning.working.landing import landed, stops_of
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
    gated = words.MEASURE_BEFORE in draft.remarks and draft.check is not None
    aim = draft.measures[0].aim if draft.measures else 0.0
    if gated and draft.check is not None and draft.check.high is not None:
        own = next(m for m in draft.measures if m.when == "out of the holding")
        aim, most = own.aim, max(draft.check.high - own.aim, LAST_FACE)
        cuts = facing(metal_off=most, deepest=FACING_CUT * task.metal.rough, step=step)

    def set_to(total: Millimetre, rounding: Rounding) -> Move:
        return move(
            "top-slide", total, lathe.top_slide, sense="left", readout=lathe.readout,
            rounding=rounding,
        )  # fmt: skip

    passes = landed(cuts, set_to, size=aim, way=1, division=step)
    draft.passes = _to_measured(passes, aim) if gated else passes
    draft.moves = stops_of(draft.passes)[: 1 if gated else None]
    draft.lock = ("saddle",)
    draft.remarks.insert(0, words.FROM_FACE)
    if not draft.measures:
        draft.remarks.append(_clean(task, op))
        draft.remarks += [words.NOT_CLEAN] if _sawn(task) and not _parts(task) else []
    draft.takes(length=diameter / 2)
    return draft


def _to_measured(passes: tuple[Pass, ...], aim: Millimetre) -> tuple[Pass, ...]:
    """Leave open what hangs on the length measured: how far the cuts go, and the last of them."""
    *before, last = passes
    rough = tuple(replace(one, leaves=0.0) for one in before)
    return (*rough, replace(last, settings=(), divisions=0.0, to_measured=aim))


def _look_at_length(draft: Draft, last: Millimetre) -> None:
    if draft.measures and last > 0:
        draft.check = CoarseCheck(
            what="length before the last cut", means="rule",
            expect=draft.measures[0].aim + last, within=RULE_WITHIN,
        )  # fmt: skip


def _sawn(task: Task) -> bool:
    """Tell whether the face is as the saw left it: not square, and never quite as deep."""
    return any(one.verb == "saw" and one.feature == "blank" for one in task.done_before)


def _parts(task: Task) -> bool:
    """Tell whether the piece is parted off here: then what goes off its face is no loss."""
    return any(one.verb == "part off" for one in task.operations)


def _clean(task: Task, op: Operation) -> str:
    """Say how far a face cleans up: to the middle, or to the hole that is there."""
    before = list(task.done_before)
    for one in task.operations:
        if one is op:
            break
        before.append(one)
    holed = any(one.verb in {"drill", "bore"} and one.through for one in before)
    return words.CLEAN_TO_HOLE if holed else words.CLEAN
