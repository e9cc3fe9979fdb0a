"""Steps in the lathe with a knife tool: faces, diameters, tapers."""

import math
from typing import Final

from halfthou.cutting.feeds import FINISHING, ROUGHING, nearest_feed
from halfthou.cutting.passes import (
    CLOSE,
    FACING_CUT,
    LEAVE,
    Cuts,
    facing,
    finishing,
    roughing,
)
from halfthou.cutting.power import depth_within_power, power_of_cut
from halfthou.planning import working_words as words
from halfthou.planning.dials import division_travel, move
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Measure
from halfthou.planning.working_cuts import Draft, reached, told
from halfthou.planning.working_measures import (
    measures_for,
    passing_measure,
    size_kind,
)
from halfthou.planning.working_slides import (
    CHECK_WITHIN,
    RULE_WITHIN,
    across,
    hand_feed,
    lathe_speed,
    note_turns,
    power_feed,
    saddle_to,
    shoulder_later,
    start_draft,
)
from halfthou.planning.working_task import Task
from halfthou.units import Millimetre
from halfthou.workshop.model import Lathe

UNKNOWN_ACROSS: Final[Millimetre] = 25.0
INSIDE_THE_END: Final[Millimetre] = 0.5
FORMED_TAPER_CUT: Final = 0.5
"""Deepest cut with the top-slide set over (usual practice)."""


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
    aim = draft.measures[0].aim if draft.measures else 0.0
    draft.passes = told(cuts, size=aim, way=1.0)
    draft.moves = tuple(
        move("top-slide", total, lathe.top_slide, sense="left", readout=lathe.readout)
        for total in reached(cuts)
    )
    draft.lock = ("saddle",)
    draft.remarks.append(words.FROM_FACE)
    if draft.measures and len(cuts) > 1:
        last = cuts[-1].count * cuts[-1].depth
        draft.check = CoarseCheck(
            what="length before the last cut", means="rule", expect=aim + last, within=RULE_WITHIN
        )
    if not draft.measures:
        draft.remarks.append("clean up right across, no pip left at the centre")
    draft.takes(length=diameter / 2)
    return draft


def _outside_cuts(task: Task, lathe: Lathe, op: Operation, size: Millimetre) -> tuple[Cuts, ...]:
    """Cuts down to a size by the operation's stage, as deep as the spindle can pull."""
    there = task.diameter_now(op)
    metal_off = abs(there - size) / 2
    close = op.size is not None and op.size.width < CLOSE
    if op.stage == "finish" and metal_off <= 2 * LEAVE:
        return finishing(metal_off=metal_off, close=close)
    deepest = depth_within_power(
        metal=task.metal,
        depth=task.metal.rough,
        feed=nearest_feed(lathe.feeds, ROUGHING),
        diameter=max(there, size),
        speed=lathe_speed(task, lathe, op, max(there, size)),
        power=lathe.spindle_power,
    )
    leave = 0.0 if op.stage == "rough" else LEAVE
    step = division_travel(lathe.cross_slide)
    rough = roughing(metal_off=metal_off, deepest=deepest, leave=leave, step=step)
    if op.stage == "rough":
        return rough
    left = rough[-1].left if rough else metal_off
    return (*rough, *finishing(metal_off=left, close=close))


def size_measures(task: Task, op: Operation) -> tuple[tuple[Measure, ...], Millimetre]:
    """Give what to measure and the size to aim at; a rough size is measured by the way."""
    found = measures_for(task, op)
    own = [m for m in found if m.kind in {"diameter", "bore"}]
    if own:
        return found, own[0].aim
    wall = next((s for s in task.part.surfaces if s.feature == op.feature and s.size), None)
    name = wall.name if wall is not None else op.feature
    kind = size_kind(wall) if wall is not None and wall.kind == "cylinder" else None
    passing = passing_measure(
        task, surface=name, size=op.cut_size, kind=kind or ("bore" if op.inside else "diameter")
    )
    return (*((passing,) if passing else ()), *found), op.cut_size


def turn(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Turn a diameter, up to its shoulder."""
    draft = start_draft(task, op)
    draft.measures, size = size_measures(task, op)
    cuts = _outside_cuts(task, lathe, op, size)
    draft.passes = told(cuts, size=size, way=2.0)
    draft.speed = lathe_speed(task, lathe, op, task.diameter_now(op))
    close = op.size is not None and op.size.width < CLOSE
    draft.feed = power_feed(lathe, FINISHING if op.stage == "finish" or close else ROUGHING)
    draft.power = power_of_cut(
        metal=task.metal,
        depth=max((cut.depth for cut in cuts), default=0.0),
        feed=draft.feed.per_turn,
        diameter=task.diameter_now(op),
        speed=draft.speed,
    )
    shoulder = op.starts if task.sense > 0 else op.ends
    rough = op.stage == "rough" and shoulder_later(task, op)
    short = task.sense * LEAVE if rough else 0.0
    draft.moves = (*saddle_to(task, lathe, shoulder + short), *across(lathe, cuts, inside=False))
    draft.lock = ("top-slide",)
    draft.remarks.append(words.FROM_MEASURED if op.stage == "finish" else words.FROM_TOUCH)
    _before_the_last(draft, size, way=1.0, close=close)
    note_turns(task, draft)
    draft.takes(length=min(abs(op.ends - op.starts), max(1.0, task.from_face(shoulder))))
    return draft


def _before_the_last(draft: Draft, size: Millimetre, *, way: float, close: bool) -> None:
    """Put the coarse look before the last cut of a close size, and what makes it come right."""
    if not close or not draft.passes or draft.operation.stage == "rough":
        return
    last = draft.passes[-1]
    draft.remarks += [words.ALIKE, words.SPRING]
    draft.check = CoarseCheck(
        what="size before the last cut",
        means="caliper",
        expect=size + way * 2 * last.depth,
        within=CHECK_WITHIN,
    )


def taper(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Turn a taper with the top-slide set over."""
    draft = start_draft(task, op)
    length = abs(op.ends - op.starts)
    draft.set_over = math.atan2(abs(op.from_size - op.cut_size) / 2, length)
    draft.speed = lathe_speed(task, lathe, op, op.from_size)
    draft.feed = hand_feed("top-slide", lathe.top_slide, FINISHING, draft.speed)
    off = abs(op.from_size - op.cut_size) / 2
    step = division_travel(lathe.cross_slide)
    rough = roughing(metal_off=off, deepest=FORMED_TAPER_CUT, leave=LEAVE, step=step)
    left = rough[-1].left if rough else off
    cuts = (*rough, *finishing(metal_off=left, close=True))
    draft.passes = told(cuts, size=op.cut_size, way=2.0)
    draft.moves = across(lathe, cuts, inside=False)
    small = passing_measure(task, surface=op.feature, size=op.cut_size, kind="diameter")
    draft.measures = (small,) if small else ()
    draft.lock = ("saddle",)
    draft.remarks += [
        "set the top-slide over by the clock along a parallel bar, and try it before the last cut",
        "tool exactly at centre height, or the taper is not straight",
    ]
    draft.takes(length=length)
    return draft
