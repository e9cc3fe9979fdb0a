"""Threads cut in the lathe, by die or by single point."""

import math
from fractions import Fraction
from typing import Final

from halfthou.cutting.passes import screwcutting
from halfthou.handbook.threads import Thread
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Feed, Move
from halfthou.planning.working import words
from halfthou.planning.working.change_wheels import train_for
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.dials import division_travel, move
from halfthou.planning.working.ends import tightest
from halfthou.planning.working.landing import stops_of
from halfthou.planning.working.lengths import SHARE
from halfthou.planning.working.measures import (
    thread_measure,
)
from halfthou.planning.working.slides import (
    CHECK_WITHIN,
    along,
    lathe_speed,
    looked_at_with,
    start_draft,
    told_across,
)
from halfthou.planning.working.task import Task
from halfthou.planning.working.turning import beside_the_centre, holder_clear
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
        what="diameter before threading",
        means="caliper" if op.inside else looked_at_with(task, blank),
        expect=blank,
        within=CHECK_WITHIN,
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
    draft.moves = (*((along(lathe, stop),) if stop > 0 else ()), *stops_of(draft.passes))
    draft.speed = _slow_enough(lathe, lathe_speed(task, lathe, op, thread.major), free, thread)
    draft.feed = Feed(kind="power", per_turn=thread.pitch, slide="saddle")
    ratio = Fraction(thread.pitch / lathe.leadscrew_pitch).limit_denominator(LARGEST_WHEELS)
    draft.wheels = (ratio.numerator, ratio.denominator)
    draft.train = train_for(pitch=thread.pitch, leadscrew=lathe.leadscrew_pitch)
    draft.leadscrew = lathe.leadscrew_pitch
    draft.remarks += _thread_remarks(task, lathe, thread, draft.speed, free)
    if {words.RUN_BACK, words.BY_MANDREL_HANDLE} & set(draft.remarks):
        draft.cautions.append(words.HANDLE_OUT)
    if thread.hand == "left":
        draft.cautions.append(
            "left-hand: cut away from the chuck, and only with the chuck locked on"
        )
    draft.lock = ("top-slide",)
    if not op.inside:
        beside_the_centre(task, draft)
        holder_clear(task, draft)
    draft.takes(length=abs(op.ends - op.starts))
    return draft


def _thread_remarks(
    task: Task, lathe: Lathe, thread: Thread, speed: RevPerMinute, free: Millimetre
) -> list[str]:
    """Say how a thread is cut on this lathe, from the wheels hung to the wheels taken off."""
    half_nut = half_nut_words(thread.pitch, lathe.leadscrew_pitch)
    return [
        words.TIP_AT_THE_FACE,
        words.FROM_MAJOR,
        words.SADDLE_FREE,
        words.START_CLEAR,
        _at_its_end(speed, free, thread),
        half_nut,
        *((words.RUN_BACK,) if half_nut == words.NOT_OPENED else ()),
        words.TRY_NUT,
        *((words.LIFT_OUT_NUT,) if task.scheme.device.device == "centres" else ()),
        *((words.CENTRE_BACK,) if _in_the_chuck_with_a_centre(task) else ()),
        "tool square to the work by the gauge, at centre height",
        words.WHEELS_HUNG,
        words.WHEELS_OFF,
    ]


def turned_under(task: Task, op: Operation) -> Millimetre:
    """Give the diameter that is there to be threaded, as it was turned."""
    middle = (op.starts + op.ends) / 2
    there = task.outside_at(middle, before=op)
    major = op.thread.major if op.thread is not None else op.cut_size
    return there if math.isfinite(there) and there <= major else major


def _in_the_chuck_with_a_centre(task: Task) -> bool:
    return task.scheme.centre and task.scheme.device.device != "centres"


def _at_its_end(speed: RevPerMinute, free: Millimetre, thread: Thread) -> str:
    """Say how the tip comes to rest at the end of the thread."""
    if free <= 0:
        return words.RUN_OUT_THREAD
    enough = 60 * free / thread.pitch / speed >= TIME_TO_STOP
    return words.IN_UNDERCUT if enough else words.BY_MANDREL_HANDLE


CLEAR_OF_SHOULDER: Final = 0.15
"""How far the tool's flank stays off the nearest the shoulder may lie, mm (usual practice)."""
_BESIDE: Final = 0.5


def _tip_stops(task: Task, op: Operation) -> tuple[Millimetre, Millimetre]:
    """Where the tip stops, from the zero face, and the room it has to stop in, before and after.

    That is an undercut's middle, or nearer where the flank would meet the shoulder beyond it:
    the shoulder as far toward the tool as its tolerance lets it lie.
    """
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
            flank = _flank(task, op)
            if flank <= 0:
                return (low + high) / 2, high - low
            clear = far - flank - CLEAR_OF_SHOULDER - _shoulder_within(task, far)
            stop = max(min((low + high) / 2, clear), low)
            return stop, max(min(high, clear) - low, SAME)
    return far, 0.0


def _shoulder_within(task: Task, far: Millimetre) -> Millimetre:
    """How much nearer the tool a shoulder may lie than it is drawn."""
    names = [
        s.name
        for s in task.part.surfaces
        if s.kind == "plane" and abs(task.from_face(s.point[0]) - far) < SAME
    ]
    return tightest(task, *names) / SHARE if names else 0.0


def _flank(task: Task, op: Operation) -> Millimetre:
    """Half the width of the pointed tool where it passes the larger metal beyond the thread."""
    if op.thread is None:
        return 0.0
    near, end = sorted((op.starts, op.ends), key=task.from_face)
    beyond = end + math.copysign(_BESIDE, end - near)
    there = task.outside_at(beyond, before=op)
    if not math.isfinite(there) or there <= op.thread.major:
        return 0.0
    sharp = op.thread.pitch / 2 / math.tan(op.thread.angle / 2)
    rounded_off = max(0.0, (sharp - op.thread.depth) / 2)
    return ((there - op.thread.minor) / 2 + rounded_off) * math.tan(op.thread.angle / 2)


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
