"""Steps in the lathe with a knife tool along the work: diameters, tapers."""

import math
from dataclasses import replace
from typing import Final

from halfthou.cutting.feeds import FINISHING, ROUGHING, nearest_feed
from halfthou.cutting.passes import (
    CLOSE,
    LEAVE,
    LEAVE_CLOSE,
    Cuts,
    finishing,
    roughing,
    roughing_to,
)
from halfthou.cutting.power import depth_within_power, power_of_cut
from halfthou.planning.axes import extents_of_all
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Measure, Move
from halfthou.planning.working import words
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.dials import division_travel, move
from halfthou.planning.working.ends import (
    JUST_CLEAR,
    LIP,
    SHORT,
    at_shoulder,
    far_end,
    jaws_at,
    past_the_end,
    short_of,
)
from halfthou.planning.working.landing import Limits, stops_of
from halfthou.planning.working.lengths import governed, reachable, shoulder_place
from halfthou.planning.working.measures import measures_for, passing_measure, size_kind
from halfthou.planning.working.slides import (
    CHECK_WITHIN,
    along,
    by_rule,
    hand_feed,
    lathe_speed,
    looked_at_with,
    power_feed,
    shoulder_later,
    start_draft,
    told_across,
)
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre, RevPerMinute
from halfthou.workshop.model import Lathe

FORMED_TAPER_CUT: Final = 0.5
"""Deepest cut with the top-slide set over (usual practice)."""
FEED_OUT_BEFORE: Final[Millimetre] = 1.0
"""Where the power feed is thrown out before a place wound to by hand (usual practice)."""
NEAR_JAWS: Final[Millimetre] = 6.0
"""A cut that ends nearer the jaws than this wants the bed stop (usual practice)."""
HOLDER: Final[Millimetre] = 4.0
"""How much further out than a shoulder is high a tool is set (usual practice)."""
SMALL_END: Final[Millimetre] = 20.0
"""Beside an end smaller than this the tailstock is in the tool's way (usual practice)."""
SAME: Final[Millimetre] = 1e-3
WORTH_A_BELT: Final = 1.25
"""How much faster a speed must be to be worth changing the belt for (usual practice)."""


def deepest_cut(task: Task, lathe: Lathe, op: Operation, size: Millimetre) -> Millimetre:
    """Give the deepest cut the metal stands and the spindle can pull, down to a size."""
    there = max(task.diameter_now(op), size)
    return depth_within_power(
        metal=task.metal,
        depth=task.metal.rough,
        feed=nearest_feed(lathe.feeds, ROUGHING),
        diameter=there,
        speed=lathe_speed(task, lathe, op, there),
        power=lathe.spindle_power,
    )


def _is_close(op: Operation) -> bool:
    return op.size is not None and op.size.width < CLOSE


def _outside_cuts(task: Task, lathe: Lathe, op: Operation, size: Millimetre) -> tuple[Cuts, ...]:
    """Cuts down to a size by the operation's stage, as deep as the spindle can pull."""
    metal_off = abs(task.diameter_now(op) - size) / 2
    close = _is_close(op)
    leave = LEAVE_CLOSE if close else LEAVE
    step = division_travel(lathe.cross_slide)
    if op.stage == "finish" and metal_off <= 2 * leave:
        return finishing(metal_off=metal_off, close=close)
    deepest = deepest_cut(task, lathe, op, size)
    if op.stage == "rough":
        return roughing_to(metal_off=metal_off, deepest=deepest, step=step)
    rough = roughing(metal_off=metal_off, deepest=deepest, leave=leave, step=step)
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


def turn(task: Task, lathe: Lathe, op: Operation, stop_at: Millimetre = 0.0) -> Draft:
    """Turn a diameter, up to its shoulder; only to ``stop_at`` where abrasive takes the rest."""
    draft = start_draft(task, op)
    draft.measures, size = size_measures(task, op)
    size = stop_at or size
    cuts = _outside_cuts(task, lathe, op, size)
    limits = None if stop_at else drawn_limits(draft.measures)
    draft.passes = told_across(lathe, cuts, size=size, inside=False, limits=limits)
    draft.speed = lathe_speed(task, lathe, op, task.diameter_now(op))
    draft.faster = _faster(task, lathe, op, cuts, draft.speed)
    close = _is_close(op)
    draft.feed = power_feed(lathe, FINISHING if op.stage == "finish" or close else ROUGHING)
    draft.power = power_of_cut(
        metal=task.metal,
        depth=max((cut.depth for cut in cuts), default=0.0),
        feed=draft.feed.per_turn,
        diameter=task.diameter_now(op),
        speed=draft.speed,
    )
    draft.lock = ("top-slide",)
    first = measured_first(lathe, inside=False)
    draft.remarks.append(first if op.stage == "finish" else words.FROM_TOUCH)
    if draft.faster is not None:
        draft.remarks.append(words.SPEED_UP)
    _before_the_last(task, lathe, draft, close=close)
    stops = _stops(task, lathe, draft)
    draft.moves = (*stops, *stops_of(draft.passes))
    draft.measures = reachable(task, draft, shoulder_place(task, draft))
    if at_the_end(task, op):
        beside_the_centre(task, draft)
    holder_clear(task, draft)
    draft.takes(length=min(abs(op.ends - op.starts), max(1.0, draft.length)))
    return draft


def _stops(task: Task, lathe: Lathe, draft: Draft) -> tuple[Move, ...]:
    """Where the saddle stops: short of a shoulder, past the end of what has none."""
    op = draft.operation
    far = task.from_face(far_end(task, op))
    if far <= 0:
        return ()
    if not at_shoulder(task, op):
        return _runs_out(task, lathe, draft, far)
    ruled = by_rule(lathe, far)
    rough = op.stage == "rough" and shoulder_later(task, op)
    if not rough and governed(task, draft.measures):
        return _left_long(task, lathe, draft, far)
    draft.length = short_of(far, by_rule=ruled) if rough else far
    _bed_stop(task, draft, draft.length)
    if ruled:
        return _by_rule(task, lathe, draft, far, rough=rough)
    if rough:
        draft.remarks.append(words.FEED_OUT)
    else:
        _faced_at_last(task, lathe, draft)
    return _by_hand_at_last(lathe, draft.length)


def _by_rule(
    task: Task, lathe: Lathe, draft: Draft, far: Millimetre, *, rough: bool
) -> tuple[Move, ...]:
    """Stop by the rule, short of a shoulder; what is wanting then comes by the top-slide."""
    near = short_of(far, by_rule=True)
    draft.remarks.append(words.STOP_SHORT if rough else words.COME_NEAR)
    if rough:
        return (along(lathe, near),)
    _at_the_rim(task, lathe, draft)
    on = move("top-slide", far - near, lathe.top_slide, sense="left", readout=lathe.readout)
    return (along(lathe, near), on)


def _left_long(task: Task, lathe: Lathe, draft: Draft, far: Millimetre) -> tuple[Move, ...]:
    """Leave a shoulder long that is drawn from the other end: no figure from here says its place.

    What it is over is measured from its own face; that, and no more, comes off by the top-slide.
    """
    near = short_of(far, by_rule=by_rule(lathe, far))
    draft.length = near
    draft.remarks += [words.LEFT_LONG, words.BY_WHAT_IT_IS_OVER]
    _bed_stop(task, draft, near)
    _at_the_rim(task, lathe, draft)
    return (along(lathe, near),)


def _at_the_rim(task: Task, lathe: Lathe, draft: Draft) -> None:
    """Face a larger shoulder at the speed its rim stands."""
    op = draft.operation
    speed = lathe_speed(task, lathe, replace(op, verb="face"), beside(task, op))
    if draft.speed is not None and speed < draft.speed:
        draft.shoulder_speed = speed
        draft.remarks.append(words.rim_words(speed))


def _faced_at_last(task: Task, lathe: Lathe, draft: Draft) -> None:
    """Face the shoulder with the last cut, at the speed its rim stands."""
    op = draft.operation
    roughed = any(
        one.verb == op.verb and one.feature == op.feature and one.stage == "rough"
        for one in (*task.done_before, *task.operations)
    )
    held_short = roughed and op.stage == "finish" and sum(p.count for p in draft.passes) > 1
    draft.remarks += [words.ROUGHED_SHOULDER if held_short else words.FEED_OUT, words.FACE_OUT]
    _at_the_rim(task, lathe, draft)


def _runs_out(task: Task, lathe: Lathe, draft: Draft, far: Millimetre) -> tuple[Move, ...]:
    """Past the end of a diameter that nothing larger follows, as far as the jaws let it."""
    past = past_the_end(task, far)
    jaws = jaws_at(task)
    draft.length = far
    if past > far:
        past = math.ceil(past * 2 - 1e-6) / 2 if by_rule(lathe, past) else past
        draft.length = past
        parted = any(one.verb == "part off" for one in task.operations)
        draft.remarks.append(words.BAR_GOES_ON if parted else words.FULL_WIDTH)
        _bed_stop(task, draft, past)
        return (along(lathe, past),)
    if math.isinf(jaws) or jaws < far - SHORT:
        return (along(lathe, far),)
    lip = jaws - far >= LIP and _faced_later(task, draft.operation)
    stop = max(jaws, far) - (LIP if lip else JUST_CLEAR)
    draft.length = stop if lip else max(jaws, far)
    draft.remarks += [words.LIP_LEFT if lip else words.TO_THE_JAWS, words.BED_STOP]
    if by_rule(lathe, stop):
        stop = math.floor(2 * stop) / 2
    return _by_hand_at_last(lathe, stop)


def _faced_later(task: Task, op: Operation) -> bool:
    """Tell whether the face a diameter ends at, toward the chuck, is cut in a later set-up."""
    x = far_end(task, op)
    ends = {s.name for s in task.part.surfaces if s.kind == "plane" and abs(s.point[0] - x) < SAME}
    made = {name for one in task.done_before for name in one.makes}
    return any(ends & (set(one.makes) - made) for one in task.later)


def _by_hand_at_last(lathe: Lathe, length: Millimetre) -> tuple[Move, ...]:
    if length <= 2 * FEED_OUT_BEFORE:
        return (along(lathe, length),)
    return (along(lathe, length - FEED_OUT_BEFORE), along(lathe, length))


def _bed_stop(task: Task, draft: Draft, stop: Millimetre) -> None:
    if jaws_at(task) - stop < NEAR_JAWS:
        draft.remarks.append(words.BED_STOP)


def beside(task: Task, op: Operation) -> Millimetre:
    """Give the diameter that stands beside a shoulder, toward the chuck."""
    larger = task.outside_at(far_end(task, op) - task.sense * SHORT, before=op)
    return larger if math.isfinite(larger) else task.part.blank.across or op.cut_size


def holder_clear(task: Task, draft: Draft) -> None:
    """Set the tool out so far that its holder clears the larger diameter at the shoulder."""
    op = draft.operation
    if draft.tool_out is None or not at_shoulder(task, op):
        return
    larger = beside(task, op)
    out = math.ceil((larger - op.cut_size) / 2 + HOLDER - 1e-6)
    if out > draft.tool_out:
        draft.tool_out = float(out)
        draft.remarks.append(words.HOLDER_CLEAR)


def _faster(
    task: Task, lathe: Lathe, op: Operation, cuts: tuple[Cuts, ...], first: RevPerMinute
) -> tuple[Millimetre, RevPerMinute] | None:
    """Give the one change of speed, as the diameter falls, that saves the most time."""
    there = task.diameter_now(op)
    if not math.isfinite(there):
        return None
    sizes = [there]
    for cut in cuts:
        for _ in range(cut.count):
            sizes.append(sizes[-1] - 2 * cut.depth)
    starts = sizes[:-1]
    able = [(size, lathe_speed(task, lathe, op, size)) for size in starts]
    found = [(size, speed) for size, speed in able if speed >= WORTH_A_BELT * first]
    if not found:
        return None

    def takes(change: tuple[Millimetre, RevPerMinute]) -> float:
        return sum(1 / (change[1] if size <= change[0] + 1e-9 else first) for size in starts)

    best = min(found, key=takes)
    saved = sum(1 / first for _ in starts) - takes(best)
    return (round(best[0], 6), best[1]) if saved * first > 1 else None


def _before_the_last(task: Task, lathe: Lathe, draft: Draft, *, close: bool) -> None:
    """Put the coarse look before the last cut of a close size, and what makes it come right."""
    if not close or not draft.passes or draft.operation.stage == "rough":
        return
    last = draft.passes[-1]
    expect = last.leaves + 2 * last.depth
    draft.remarks += [alike(lathe), words.SPRING]
    draft.check = CoarseCheck(
        what="size before the last cut",
        means=looked_at_with(task, expect),
        expect=expect,
        within=CHECK_WITHIN,
    )


def drawn_limits(measures: tuple[Measure, ...]) -> Limits | None:
    """Give the limits the last cut has to land between: those of the drawn size, if it has one."""
    return next(
        (
            (m.low, m.high)
            for m in measures
            if m.band is not None and m.kind in {"diameter", "bore"}
        ),
        None,
    )


def measured_first(lathe: Lathe, *, inside: bool) -> str:
    """Say how a finishing step begins: what is over counts the other way in a bore."""
    if lathe.cross_slide.reads == "diameter" and not lathe.readout:
        return words.FROM_MEASURED_BORE_ON_DIAMETER if inside else words.FROM_MEASURED_ON_DIAMETER
    return words.FROM_MEASURED_BORE if inside else words.FROM_MEASURED


def alike(lathe: Lathe) -> str:
    """Say how much of what is left goes on the dial."""
    on_diameter = lathe.cross_slide.reads == "diameter" and not lathe.readout
    return words.ALIKE_ON_DIAMETER if on_diameter else words.ALIKE


def at_the_end(task: Task, op: Operation) -> bool:
    """Tell whether a cut reaches to the end of the work toward the tailstock."""
    space = extents_of_all(op.region)
    ends = (op.starts, op.ends) if space is None else (space.low[0], space.high[0])
    return min(map(task.from_face, ends)) < SHORT


def beside_the_centre(task: Task, draft: Draft) -> None:
    """Mind the tailstock where the tool works beside it on a small end."""
    centre = task.scheme.centre or task.scheme.device.device == "centres"
    if centre and min(draft.operation.cut_size or math.inf, _outside(task, draft)) < SMALL_END:
        square = draft.operation.verb == "thread"
        draft.remarks.append(words.SMALL_END_SQUARE if square else words.SMALL_END)


def _outside(task: Task, draft: Draft) -> Millimetre:
    return task.outside_at(task.face_x - task.sense * SHORT, before=draft.operation)


def taper(task: Task, lathe: Lathe, op: Operation) -> Draft:
    """Turn a taper with the top-slide set over."""
    draft = start_draft(task, op)
    length = abs(op.ends - op.starts)
    draft.set_over = math.atan2(abs(op.from_size - op.cut_size) / 2, length)
    draft.speed = lathe_speed(task, lathe, op, op.from_size)
    draft.feed = hand_feed("top-slide", lathe.top_slide, FINISHING, draft.speed)
    off = abs(op.from_size - op.cut_size) / 2
    step = division_travel(lathe.cross_slide)
    rough = roughing(metal_off=off, deepest=FORMED_TAPER_CUT, leave=LEAVE_CLOSE, step=step)
    left = rough[-1].left if rough else off
    cuts = (*rough, *finishing(metal_off=left, close=True))
    draft.passes = told_across(lathe, cuts, size=op.cut_size, inside=False)
    draft.moves = stops_of(draft.passes)
    small = passing_measure(task, surface=op.feature, size=op.cut_size, kind="diameter")
    draft.measures = (small,) if small else ()
    draft.lock = ("saddle",)
    draft.remarks += [
        "set the top-slide over by the clock along a parallel bar, and try it before the last cut",
        "tool exactly at centre height, or the taper is not straight",
    ]
    draft.takes(length=length)
    return draft
