"""Steps of a set-up in the lathe: facing, turning, grooving, threading, parting.

Zero along the bed is the finished face toward the tailstock; zero across is where the tool first
touches the diameter there is, or the trial cut measured.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Final

from halfthou.cutting.feeds import FINISHING, PLUNGING, ROUGHING, nearest_feed
from halfthou.cutting.fluid import fluid_for
from halfthou.cutting.hand_feed import seconds_a_turn
from halfthou.cutting.overhang import tool_out
from halfthou.cutting.passes import (
    CLOSE,
    FACING_CUT,
    LEAVE,
    Cuts,
    facing,
    finishing,
    roughing,
    screwcutting,
)
from halfthou.cutting.power import depth_within_power
from halfthou.cutting.speeds import speed_for
from halfthou.planning import working_words as words
from halfthou.planning.axes import extents_of_all
from halfthou.planning.dials import division_travel, move
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Feed, Measure, Move, Slide
from halfthou.planning.working_cuts import Draft, reached, told
from halfthou.planning.working_holes import HOLES, hole_draft
from halfthou.planning.working_measures import (
    measures_for,
    passing_measure,
    size_kind,
    thread_measure,
)
from halfthou.planning.working_task import Task
from halfthou.units import Millimetre, RevPerMinute
from halfthou.workshop.model import Dial, Lathe

CHECK_WITHIN: Final[Millimetre] = 0.05
"""How near the coarse check must come to what is expected (usual practice)."""
RULE_WITHIN: Final[Millimetre] = 0.5
"""How near a length must come by rule (usual practice)."""
MANY_TURNS: Final = 10
"""More turns of a handle than one likes to count (usual practice)."""
FORMED_TAPER_CUT: Final = 0.5
"""Deepest cut with the top-slide set over (usual practice)."""
LARGEST_WHEELS: Final = 300


def lathe_drafts(task: Task, lathe: Lathe) -> list[Draft]:
    """Work out every step of a lathe set-up."""
    return [_draft(task, lathe, op) for op in task.operations]


def _draft(task: Task, lathe: Lathe, op: Operation) -> Draft:
    makers: dict[str, Callable[[Task, Lathe, Operation], Draft]] = {
        "face": _face,
        "turn": _turn,
        "turn taper": _taper,
        "groove": _groove,
        "chamfer": _chamfer,
        "thread": _thread,
        "part off": _part_off,
    }
    made = hole_draft(task, lathe, op) if op.verb in HOLES else makers[op.verb](task, lathe, op)
    made.remarks += words.metal_remarks(task.metal, op)
    if op.remark:
        made.remarks.append(op.remark)
    if any(not m.decides and m.band is not None for m in made.measures):
        made.remarks.append(words.NOT_JUDGED)
    if any(m.to_make and m.kind == "bore" for m in made.measures):
        made.remarks.append(words.PLUG)
    return made


def _start(task: Task, op: Operation) -> Draft:
    name = op.tools[0] if op.tools else op.verb
    tool = task.tool(name)
    out = tool_out(tool.shank) if tool is not None and tool.shank > 0 else None
    return Draft(operation=op, tool=name, fluid=fluid_for(task.metal, op.verb), tool_out=out)


def _speed(task: Task, lathe: Lathe, op: Operation, diameter: Millimetre) -> RevPerMinute:
    return speed_for(
        metal=task.metal,
        verb=op.verb,
        diameter=diameter,
        workshop=task.workshop,
        speeds=lathe.speeds,
        at_most=task.scheme.device.most_rev_min,
    )


def power_feed(lathe: Lathe, wanted: Millimetre) -> Feed:
    """Feed by the saddle's power, at or below what is wanted."""
    return Feed(kind="power", per_turn=nearest_feed(lathe.feeds, wanted), slide="saddle")


def hand_feed(slide: Slide, dial: Dial, feed: Millimetre, speed: RevPerMinute) -> Feed:
    """Feed by hand, told as the seconds of one turn of the handle."""
    return Feed(
        kind="hand",
        per_turn=feed,
        seconds_a_handle_turn=seconds_a_turn(lead=dial.lead, feed=feed, speed=speed),
        slide=slide,
    )


def saddle_to(task: Task, lathe: Lathe, x: Millimetre) -> tuple[Move, ...]:
    """Give the move of the saddle from the zero face to a place; none for the face itself."""
    travel = task.from_face(x)
    if travel <= 0:
        return ()
    return (along(lathe, travel),)


def along(lathe: Lathe, travel: Millimetre) -> Move:
    """Tell a move of the saddle; by rule where it is more turns than one likes to count."""
    dial = lathe.saddle
    if dial is not None and travel > MANY_TURNS * dial.lead:
        dial = None
    return move("saddle", travel, dial, sense="left", readout=lathe.readout)


def across(lathe: Lathe, cuts: tuple[Cuts, ...], *, inside: bool) -> tuple[Move, ...]:
    """Tell the cross-slide after each group of cuts, from where the tool first touched.

    The last is set just short where the dial cannot show it: metal can still come off.
    """
    totals = reached(cuts)
    return tuple(
        move(
            "cross-slide",
            total,
            lathe.cross_slide,
            sense="out" if inside else "in",
            readout=lathe.readout,
            rounding="short" if number == len(totals) else "near",
        )
        for number, total in enumerate(totals, start=1)
    )


def _note_turns(draft: Draft) -> None:
    if any(m.slide == "saddle" and m.by == "rule" for m in draft.moves):
        draft.remarks.append(
            words.STOP_SHORT if draft.operation.stage == "rough" else words.COME_NEAR
        )


def _face(task: Task, lathe: Lathe, op: Operation) -> Draft:
    draft = _start(task, op)
    diameter = task.part.blank.across or 2 * FACING_CUT + 25
    draft.speed = _speed(task, lathe, op, diameter)
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
    if op.stage == "finish":
        return finishing(metal_off=metal_off, close=close)
    deepest = depth_within_power(
        metal=task.metal,
        depth=task.metal.rough,
        feed=nearest_feed(lathe.feeds, ROUGHING),
        diameter=max(there, size),
        speed=_speed(task, lathe, op, max(there, size)),
        power=lathe.spindle_power,
    )
    leave = 0.0 if op.stage == "rough" else LEAVE
    step = division_travel(lathe.cross_slide)
    rough = roughing(metal_off=metal_off, deepest=deepest, leave=leave, step=step)
    if op.stage == "rough":
        return rough
    left = rough[-1].left if rough else metal_off
    return (*rough, *finishing(metal_off=left, close=close))


def _size_measures(task: Task, op: Operation) -> tuple[tuple[Measure, ...], Millimetre]:
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


def _turn(task: Task, lathe: Lathe, op: Operation) -> Draft:
    draft = _start(task, op)
    if "groov" in draft.tool or "parting" in draft.tool:
        return _plunge(task, lathe, op, draft)
    draft.measures, size = _size_measures(task, op)
    cuts = _outside_cuts(task, lathe, op, size)
    draft.passes = told(cuts, size=size, way=2.0)
    draft.speed = _speed(task, lathe, op, task.diameter_now(op))
    close = op.size is not None and op.size.width < CLOSE
    draft.feed = power_feed(lathe, FINISHING if op.stage == "finish" or close else ROUGHING)
    shoulder = op.starts if task.sense > 0 else op.ends
    short = task.sense * LEAVE if op.stage == "rough" else 0.0
    draft.moves = (*saddle_to(task, lathe, shoulder + short), *across(lathe, cuts, inside=False))
    draft.lock = ("top-slide",)
    _before_the_last(draft, size, way=1.0, close=close)
    _note_turns(draft)
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


def _taper(task: Task, lathe: Lathe, op: Operation) -> Draft:
    draft = _start(task, op)
    length = abs(op.ends - op.starts)
    draft.set_over = math.atan2(abs(op.from_size - op.cut_size) / 2, length)
    draft.speed = _speed(task, lathe, op, op.from_size)
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


def _groove(task: Task, lathe: Lathe, op: Operation) -> Draft:
    return _plunge(task, lathe, op, _start(task, op))


def _plunge(task: Task, lathe: Lathe, op: Operation, draft: Draft) -> Draft:
    draft.measures, size = _size_measures(task, op)
    depth = abs(op.from_size - size) / 2
    draft.speed = speed_for(
        metal=task.metal,
        verb="groove",
        diameter=op.from_size,
        workshop=task.workshop,
        speeds=lathe.speeds,
        at_most=task.scheme.device.most_rev_min,
    )
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
    _note_turns(draft)
    draft.takes(length=depth, passes=plunges)
    return draft


def _chamfer(task: Task, lathe: Lathe, op: Operation) -> Draft:
    draft = _start(task, op)
    space = extents_of_all(op.region)
    diameter = space.high[1] - space.low[1] if space is not None else 25.0
    draft.speed = _speed(task, lathe, op, diameter)
    draft.feed = hand_feed("top-slide", lathe.top_slide, FINISHING, draft.speed)
    draft.moves = (
        move("top-slide", op.cut_size, lathe.top_slide, sense="left", readout=lathe.readout),
    )
    draft.lock = ("saddle", "cross-slide")
    draft.remarks.append("touch the corner, then feed on by the leg of the chamfer")
    draft.takes(length=op.cut_size, passes=1)
    return draft


def _thread(task: Task, lathe: Lathe, op: Operation) -> Draft:
    draft = _start(task, op)
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
    draft.speed = _speed(task, lathe, op, thread.major)
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


def _part_off(task: Task, lathe: Lathe, op: Operation) -> Draft:
    draft = _start(task, op)
    diameter = task.part.blank.across or 25.0
    draft.speed = _speed(task, lathe, op, diameter)
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
    _note_turns(draft)
    draft.takes(length=diameter / 2, passes=1)
    return draft
