"""Threads cut in the lathe, by die or by single point."""

import math
from fractions import Fraction
from typing import Final

from halfthou.cutting.passes import (
    screwcutting,
)
from halfthou.handbook.threads import Thread
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Feed, Move
from halfthou.planning.working import words
from halfthou.planning.working.change_wheels import train_for
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.dials import division_travel, move
from halfthou.planning.working.measures import (
    thread_measure,
)
from halfthou.planning.working.slides import (
    CHECK_WITHIN,
    across,
    along,
    lathe_speed,
    start_draft,
    told_across,
)
from halfthou.planning.working.task import Task
from halfthou.planning.working.turning import holder_clear
from halfthou.units import Millimetre, RevPerMinute, Second
from halfthou.workshop.model import Lathe

LARGEST_WHEELS: Final = 300
SAME: Final[Millimetre] = 0.01
TIME_TO_STOP: Final[Second] = 2.0
"""Time a hand needs to stop a slow spindle while the tip is in the undercut (usual practice)."""


def screw_thread(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Cut a thread by die or by single point."""
    draft = start_draft(task, op)
    trial = thread_measure(task, op)
    draft.measures = (trial,) if trial else ()
    blank = op.cut_size if op.inside else turned_under(task, op)
    draft.check = CoarseCheck(
        what="diameter before threading", means="caliper", expect=blank, within=CHECK_WITHIN
    )
    if draft.tool.startswith("die"):
        draft.fluid = "dry" if draft.fluid == "dry" else "tapping compound"
        draft.remarks += [words.DIE, words.BACK_OFF]
        draft.moves = saddle_free_length(task, op)
        draft.minutes = op.minutes
        return draft
    return _screwcut(task, lathe, op, draft)


def saddle_free_length(task: Task, op: Operation) -> tuple[Move, ...]:
    """Tell how far a die runs on, read by rule."""
    far = max(task.from_face(op.starts), task.from_face(op.ends))
    return (move("tailstock", far, None, sense="left"),) if far > 0 else ()


def _screwcut(task: Task, lathe: Lathe, op: Operation, draft: Draft) -> Draft:
    thread = op.thread
    if thread is None:
        return draft
    under = 0.0 if op.inside else max(0.0, thread.major - turned_under(task, op)) / 2
    cuts = screwcutting(depth=thread.depth - under, step=division_travel(lathe.cross_slide))
    size = thread.major if op.inside else thread.minor
    draft.passes = told_across(lathe, cuts, size=size, inside=op.inside)
    stop, free = _tip_stops(task, op)
    draft.length = max(task.from_face(op.starts), task.from_face(op.ends))
    draft.moves = (
        *((along(lathe, stop),) if stop > 0 else ()),
        *across(lathe, cuts, inside=op.inside),
    )
    kept_shut = half_nut_words(thread.pitch, lathe.leadscrew_pitch) == words.NOT_OPENED
    draft.speed = _slow_enough(lathe, lathe_speed(task, lathe, op, thread.major), free, thread)
    draft.feed = Feed(kind="power", per_turn=thread.pitch, slide="saddle")
    ratio = Fraction(thread.pitch / lathe.leadscrew_pitch).limit_denominator(LARGEST_WHEELS)
    draft.wheels = (ratio.numerator, ratio.denominator)
    draft.train = train_for(pitch=thread.pitch, leadscrew=lathe.leadscrew_pitch)
    draft.leadscrew = lathe.leadscrew_pitch
    draft.remarks += [
        words.FROM_TOUCH,
        words.IN_UNDERCUT if free > 0 else words.RUN_OUT_THREAD,
        half_nut_words(thread.pitch, lathe.leadscrew_pitch),
        *((words.RUN_BACK,) if kept_shut else ()),
        words.TRY_NUT,
        "tool square to the work by the gauge, at centre height",
    ]
    if thread.hand == "left":
        draft.cautions.append(
            "left-hand: cut away from the chuck, and only with the chuck locked on"
        )
    draft.lock = ("top-slide",)
    if not op.inside:
        holder_clear(task, draft)
    draft.takes(length=abs(op.ends - op.starts))
    return draft


def turned_under(task: Task, op: Operation) -> Millimetre:
    """Give the diameter that is there to be threaded, as it was turned."""
    middle = (op.starts + op.ends) / 2
    there = task.outside_at(middle, before=op)
    major = op.thread.major if op.thread is not None else op.cut_size
    return there if math.isfinite(there) and there <= major else major


CLEAR_OF_SHOULDER: Final = 0.3
"""How far the tool's flank stays off the shoulder beyond the undercut, mm (usual practice)."""
_BESIDE: Final = 0.5


def _tip_stops(task: Task, op: Operation) -> tuple[Millimetre, Millimetre]:
    """Where the tip stops, from the zero face, and the free width there: an undercut's middle."""
    far = max(task.from_face(op.starts), task.from_face(op.ends))
    before = [*task.done_before]
    for one in task.operations:
        if one is op:
            break
        before.append(one)
    for one in before:
        if one.verb != "groove" and not any("groov" in tool for tool in one.tools):
            continue
        low, high = sorted((task.from_face(one.starts), task.from_face(one.ends)))
        if low - SAME <= far <= high + SAME:
            clear = far - _flank(task, op) - CLEAR_OF_SHOULDER
            return max(min((low + high) / 2, clear), low), high - low
    return far, 0.0


def _flank(task: Task, op: Operation) -> Millimetre:
    """Half the width of the pointed tool where it passes the larger metal beyond the thread."""
    if op.thread is None:
        return 0.0
    near, end = sorted((op.starts, op.ends), key=task.from_face)
    beyond = end + math.copysign(_BESIDE, end - near)
    there = task.outside_at(beyond, before=op)
    if not math.isfinite(there) or there <= op.thread.major:
        return 0.0
    return (there - op.thread.minor) / 2 * math.tan(op.thread.angle / 2)


def _slow_enough(
    lathe: Lathe, speed: RevPerMinute, free: Millimetre, thread: Thread
) -> RevPerMinute:
    """Give a speed that leaves time to stop within the free width."""
    if free <= 0:
        return speed
    most = 60 * free / thread.pitch / TIME_TO_STOP
    able = [s for s in lathe.speeds if s <= min(most, speed)]
    return max(able) if able else min(lathe.speeds)


def half_nut_words(pitch: Millimetre, leadscrew: Millimetre) -> str:
    """Say whether the half-nut may be opened between cuts."""
    ratio = Fraction(leadscrew / pitch).limit_denominator(LARGEST_WHEELS)
    exact = abs(ratio.numerator / ratio.denominator - leadscrew / pitch) < 1e-6  # noqa: PLR2004
    if exact and ratio.denominator == 1:
        return words.OPENED
    if exact and ratio.denominator <= 10:  # noqa: PLR2004  (marks on a thread dial)
        return words.DIAL_MARKS
    return words.NOT_OPENED
