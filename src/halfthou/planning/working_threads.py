"""Threads cut in the lathe, by die or by single point."""

from fractions import Fraction
from typing import Final

from halfthou.cutting.passes import (
    screwcutting,
)
from halfthou.planning import working_words as words
from halfthou.planning.dials import division_travel, move
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Feed, Move
from halfthou.planning.working_cuts import Draft, told
from halfthou.planning.working_measures import (
    thread_measure,
)
from halfthou.planning.working_slides import (
    CHECK_WITHIN,
    across,
    lathe_speed,
    saddle_to,
    start_draft,
)
from halfthou.planning.working_task import Task
from halfthou.units import Millimetre
from halfthou.workshop.model import Lathe

LARGEST_WHEELS: Final = 300


def screw_thread(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Cut a thread by die or by single point."""
    draft = start_draft(task, op)
    trial = thread_measure(task, op)
    draft.measures = (trial,) if trial else ()
    blank = op.cut_size - 0.1 * op.thread.pitch if op.thread and not op.inside else op.cut_size
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
    cuts = screwcutting(depth=thread.depth, step=division_travel(lathe.cross_slide))
    draft.passes = told(cuts, size=thread.minor, way=2.0)
    draft.moves = (
        *saddle_to(task, lathe, op.starts if task.sense > 0 else op.ends),
        *across(lathe, cuts, inside=op.inside),
    )
    draft.speed = lathe_speed(task, lathe, op, thread.major)
    draft.feed = Feed(kind="power", per_turn=thread.pitch, slide="saddle")
    ratio = Fraction(thread.pitch / lathe.leadscrew_pitch).limit_denominator(LARGEST_WHEELS)
    draft.wheels = (ratio.numerator, ratio.denominator)
    draft.remarks.append(half_nut_words(thread.pitch, lathe.leadscrew_pitch))
    draft.remarks.append("tool square to the work by the gauge, at centre height")
    if thread.hand == "left":
        draft.cautions.append(
            "left-hand: cut away from the chuck, and only with the chuck locked on"
        )
    draft.lock = ("top-slide",)
    draft.takes(length=abs(op.ends - op.starts))
    return draft


def half_nut_words(pitch: Millimetre, leadscrew: Millimetre) -> str:
    """Say whether the half-nut may be opened between cuts."""
    ratio = Fraction(leadscrew / pitch).limit_denominator(LARGEST_WHEELS)
    exact = abs(ratio.numerator / ratio.denominator - leadscrew / pitch) < 1e-6  # noqa: PLR2004
    if exact and ratio.denominator == 1:
        return words.OPENED
    if exact and ratio.denominator <= 10:  # noqa: PLR2004  (marks on a thread dial)
        return words.DIAL_MARKS
    return words.NOT_OPENED
