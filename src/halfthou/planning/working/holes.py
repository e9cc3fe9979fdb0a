"""Steps for holes on the axis of lathe work: centred, drilled, bored, reamed, tapped."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Final

from halfthou.cutting.feeds import (
    FINISHING,
    REAMING,
    ROUGHING,
    drill_feed,
    nearest_feed,
)
from halfthou.cutting.fluid import fluid_for
from halfthou.cutting.hand_feed import seconds_a_turn
from halfthou.cutting.overhang import bar_out, bar_too_long
from halfthou.cutting.passes import (
    CLOSE,
    LEAVE,
    LEAVE_CLOSE,
    Cuts,
    boring_depth,
    finishing,
    roughing,
    roughing_to,
)
from halfthou.handbook.drills import point_allowance, tap_lead
from halfthou.planning.axes import dot, moved, opposite
from halfthou.planning.cast.holes import IN_BAR
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Feed, Measure, Move
from halfthou.planning.working import words
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.dials import division_travel, move
from halfthou.planning.working.ends import parted_at
from halfthou.planning.working.landing import stops_of
from halfthou.planning.working.measures import (
    measures_for,
    passing_measure,
    thread_measure,
)
from halfthou.planning.working.slides import CHECK_WITHIN, along, lathe_speed, told_across
from halfthou.planning.working.task import Task
from halfthou.planning.working.turning import alike, drawn_limits, measured_first
from halfthou.units import Millimetre, RevPerMinute, Second, Vec3
from halfthou.workshop.model import Lathe

HOLES: Final = frozenset(
    ("centre", "spot", "drill", "bore", "ream", "tap", "countersink", "counterbore")
)
LEFT_TO_THE_DRILL: Final[Millimetre] = 0.1
"""A drilled size with at least this tolerance is not measured (usual practice)."""
INSIDE_JAWS_FROM: Final[Millimetre] = 10.0
"""Holes under this are not looked at with a caliper (usual practice)."""
THROUGH: Final[Millimetre] = 1.0
"""How far the full diameter goes past a far face (usual practice)."""
REAMER_LEAD: Final[Millimetre] = 1.0
"""Least depth below a blind reamed hole for the reamer's lead (usual practice)."""
REAMER_THROUGH: Final[Millimetre] = 3.0
"""How far a reamer goes through at least, so that its full size is out (usual practice)."""
REAMER_THROUGH_SHARE: Final = 0.25
"""The same, as a share of the reamer: the length of its lead (usual practice)."""
BAR_THROUGH: Final[Millimetre] = 1.0
"""How far a boring tool goes out of a hole behind (usual practice)."""
FEED_OUT_BEFORE: Final[Millimetre] = 1.0
"""Where the power feed is thrown out before a floor (usual practice)."""
RUN_OUT: Final[Millimetre] = 1.5
"""How far a hole goes on past where the bar is parted, for lap and reamer (usual practice)."""
REAMER_LEAD_SHARE: Final = 0.15
"""The same, as a share of the reamer (usual practice)."""
CALMLY: Final[Second] = 2.0
"""A handle is not turned faster than this with any feeling (usual practice)."""
_SAME_LINE: Final[Millimetre] = 1e-6
_LEAD: Final[Millimetre] = 2.5
"""Lead of a tailstock screw where the workshop tells none, mm (usual practice)."""


def hole_draft(task: Task, lathe: Lathe, op: Operation, stop_at: Millimetre = 0.0) -> Draft:
    """Work out one step on the axis; a bore only to ``stop_at`` where a lap takes the rest."""
    draft = Draft(
        operation=op,
        tool=op.tools[0] if op.tools else op.verb,
        fluid=fluid_for(task.metal, op.verb),
    )
    makers: dict[str, Callable[[Task, Lathe, Operation, Draft], None]] = {
        "bore": _bore,
        "ream": _ream,
        "tap": _tap,
    }
    if op.verb == "bore" and stop_at:
        _bore(task, lathe, op, draft, stop_at)
    else:
        makers.get(op.verb, _drill)(task, lathe, op, draft)
    return draft


def tailstock_feed(lathe: Lathe, feed: Millimetre, speed: RevPerMinute) -> Feed:
    """Feed by the tailstock's handwheel."""
    lead = lathe.tailstock_lead or _LEAD
    seconds = seconds_a_turn(lead=lead, feed=feed, speed=speed)
    if seconds < CALMLY:
        feed, seconds = feed * seconds / CALMLY, CALMLY
    return Feed(kind="hand", per_turn=feed, seconds_a_handle_turn=seconds, slide="tailstock")


def tailstock_to(depth: Millimetre) -> tuple[Move, ...]:
    """Tell how far the tailstock goes on from where the point touches, by its scale or rule."""
    return (move("tailstock", depth, None, sense="left"),)


def full_depth(task: Task, op: Operation) -> Millimetre:
    """Depth of a drill's tip: full diameter, a following tap's lead, and the drill's point."""
    point = point_allowance(op.cut_size)
    if op.through:
        return max(op.ends + THROUGH, _in_the_bar(task)) + point
    if op.makes and op.thread is None and wanted_for_tap(task, op) > op.ends:
        return op.ends + point  # it clears the screw and leaves the thread below alone
    wanted = max(wanted_for_tap(task, op), wanted_for_reamer(task, op))
    return max(op.ends, min(wanted, _room(task, op) - point)) + point


def wanted_for_tap(task: Task, op: Operation) -> Millimetre:
    """Full depth a following tap asks for, its lead included; 0 where none follows."""
    taps = [o for o in (*task.operations, *task.later) if o.verb == "tap" and o.thread is not None]
    return max(
        (o.ends + tap_lead(o.thread.pitch) for o in taps if o.feature == op.feature and o.thread),
        default=0.0,
    )


def wanted_for_reamer(task: Task, op: Operation) -> Millimetre:
    """Full depth a following reamer asks for, its lead included; 0 where none follows."""
    reams = [o for o in (*task.operations, *task.later) if o.verb == "ream" and not o.through]
    return max(
        (
            o.ends + max(REAMER_LEAD, o.cut_size * REAMER_LEAD_SHARE)
            for o in reams
            if o.feature == op.feature
        ),
        default=0.0,
    )


def _room(task: Task, op: Operation) -> Millimetre:
    """How deep a tip may go and not come out behind."""
    if not op.at:
        return math.inf
    return task.room_under(op.at[0], opposite(op.approach[0])) - THROUGH


def no_room_for_lead(task: Task, op: Operation) -> bool:
    """Tell whether a tap's lead has no hole to go into: it must be bottomed."""
    if op.through:
        return False
    return full_depth(task, op) - point_allowance(op.cut_size) < wanted_for_tap(task, op) - 1e-6


def by_hand(size: Millimetre) -> str:
    """Name what a hole is looked at with: inside jaws read small in small holes."""
    return "caliper" if size >= INSIDE_JAWS_FROM else "shank of a drill"


def _drill(task: Task, lathe: Lathe, op: Operation, draft: Draft) -> None:
    draft.speed = lathe_speed(task, lathe, op, max(op.cut_size, 1.0))
    feed = drill_feed(op.cut_size, task.metal)
    draft.feed = tailstock_feed(lathe, feed, draft.speed)
    if op.verb == "drill":
        depth = full_depth(task, op)
        _drilled(task, lathe, op, draft, depth)
    else:
        depth = op.ends
    if op.verb == "spot":
        draft.remarks.append("only until the drill has a cone to start in")
    if op.verb in {"spot", "centre"}:
        draft.remarks.append(words.POINT_TOUCHES)
    draft.moves = tailstock_to(depth)
    if op.verb == "countersink":
        mouth = passing_measure(task, surface=op.feature, size=op.cut_size, kind="diameter")
        draft.measures = (mouth,) if mouth else ()
    draft.takes(length=depth, passes=1)


def _drilled(task: Task, lathe: Lathe, op: Operation, draft: Draft, depth: Millimetre) -> None:
    draft.remarks += [words.TIP_AT_FACE, words.CLEAR_CHIPS]
    if depth > lathe.tailstock_travel:
        draft.remarks.append(words.HAND_TIGHT)
    if op.through and parted_at(task) is None:
        draft.cautions.append(words.GRABS)
        draft.remarks.append(words.CHUCK_CLEAR)
    elif op.through:
        draft.remarks.append(words.BLIND_IN_BAR)
    if op.cut_size > lathe.drill_chuck:
        draft.remarks.append(words.TAPER_SHANK)
    if no_room_for_lead(task, op):
        draft.remarks.append(words.BOTTOMING)
    if op.size is not None and op.size.width < LEFT_TO_THE_DRILL:
        draft.measures = measures_for(task, op)


def _bore_cuts(
    lathe: Lathe, op: Operation, size: Millimetre, deepest: Millimetre
) -> tuple[Cuts, ...]:
    off = (size - op.from_size) / 2
    close = op.size is None or op.size.width < CLOSE
    leave = LEAVE_CLOSE if close else LEAVE
    if op.stage == "finish" and off <= 2 * leave:
        return finishing(metal_off=off, close=close)
    step = division_travel(lathe.cross_slide)
    if op.stage == "rough":
        return roughing_to(metal_off=off, deepest=deepest, step=step) or finishing(
            metal_off=off, close=False
        )
    rough = roughing(metal_off=off, deepest=deepest, leave=leave, step=step)
    return (*rough, *finishing(metal_off=rough[-1].left if rough else off, close=close))


def _bore(
    task: Task, lathe: Lathe, op: Operation, draft: Draft, stop_at: Millimetre = 0.0
) -> None:
    found = measures_for(task, op)
    own = [m for m in found if m.kind == "bore"]
    size = stop_at or (own[0].aim if own else op.cut_size)
    draft.measures = found if own else _rough_bore(task, op, found)
    tool = task.tool(draft.tool)
    bar = tool.shank if tool is not None and tool.shank > 0 else 10.0
    depth = _through(task, op, BAR_THROUGH)
    draft.tool_out = bar_out(depth=depth, bar=bar)
    blind = op.through and parted_at(task) is not None
    behind = words.BLIND_IN_BAR if blind else words.CHUCK_CLEAR
    draft.remarks.append(behind if op.through else words.BLIND_BORE)
    if not op.through and any(_is_plane(task, name) for name in op.makes):
        draft.remarks.append(words.FACE_FLOOR)
    if op.through and IN_BAR not in op.tools:
        draft.remarks += [words.THROUGH_BY_HAND, words.BED_STOP]
    if bar_too_long(depth=depth, bar=bar):
        draft.remarks.append(words.LONG_BAR)
    deepest = boring_depth(bar=bar, out=draft.tool_out, deepest=task.metal.rough)
    cuts = _bore_cuts(lathe, op, size, deepest)
    limits = None if stop_at else drawn_limits(draft.measures)
    draft.passes = told_across(lathe, cuts, size=size, inside=True, limits=limits)
    draft.speed = lathe_speed(task, lathe, op, size)
    close = op.size is None or op.size.width < CLOSE
    wanted = FINISHING if op.stage == "finish" or (close and op.stage != "rough") else ROUGHING
    draft.feed = Feed(kind="power", per_turn=nearest_feed(lathe.feeds, wanted), slide="saddle")
    draft.moves = (
        *_depth_moves(task, lathe, op, draft),
        *stops_of(draft.passes),
    )
    draft.lock = ("top-slide",)
    first = measured_first(lathe, inside=True)
    draft.remarks.append(first if op.stage == "finish" else words.FROM_TOUCH)
    if op.stage != "rough" and close and draft.passes:
        _sized_with_care(lathe, draft, size)
    draft.cautions.append(words.IN_THE_BORE)
    draft.takes(length=abs(op.ends - op.starts))


def _sized_with_care(lathe: Lathe, draft: Draft, size: Millimetre) -> None:
    """Bring a close bore to size by cuts alike, looked at before the last."""
    last = draft.passes[-1]
    draft.remarks += [alike(lathe), words.SPRING]
    draft.check = CoarseCheck(
        what="bore before the last cut",
        means=_looked_at_by(draft, size),
        expect=last.leaves - 2 * last.depth,
        within=CHECK_WITHIN,
    )


def _looked_at_by(draft: Draft, size: Millimetre) -> str:
    """Look at a close bore with its telescopic gauge, if any: a caliper is too coarse."""
    own = next((m.gauge for m in draft.measures if m.kind == "bore"), "")
    return own if own.startswith("telescopic") else by_hand(size)


def _rough_bore(task: Task, op: Operation, found: tuple[Measure, ...]) -> tuple[Measure, ...]:
    wall = next(
        (s for s in task.part.surfaces if s.feature == op.feature and s.kind == "cylinder"), None
    )
    name = wall.name if wall is not None else op.feature
    rough = passing_measure(task, surface=name, size=op.cut_size, kind="bore")
    return (*((rough,) if rough else ()), *found)


def _depth_moves(task: Task, lathe: Lathe, op: Operation, draft: Draft) -> tuple[Move, ...]:
    mouth = _mouth(task, op) if op.at else 0.0
    draft.length = mouth + _through(task, op, BAR_THROUGH)
    if op.through or draft.length <= 2 * FEED_OUT_BEFORE:
        return (along(lathe, draft.length),)
    return (along(lathe, draft.length - FEED_OUT_BEFORE), along(lathe, draft.length))


def _mouth(task: Task, op: Operation) -> Millimetre:
    """Give how deep the mouth lies: of a hole right through that end which is out."""
    near = task.depth_of(op.at[0])
    if not op.through:
        return near
    far = moved(op.at[0], opposite(op.approach[0]), abs(op.ends))
    return min(near, task.depth_of(far))


def _through(task: Task, op: Operation, beyond: Millimetre) -> Millimetre:
    """How deep a tool goes that goes through: in a bar that goes on, past where it is parted."""
    return max(_travel(task, op, beyond=beyond), _in_the_bar(task) if op.through else 0.0)


def _in_the_bar(task: Task) -> Millimetre:
    """How deep a hole is carried in a bar that is parted: a run-out past the parting."""
    at = parted_at(task)
    return at + RUN_OUT if at is not None else 0.0


def _travel(task: Task, op: Operation, *, beyond: Millimetre) -> Millimetre:
    """How deep a boring tool or reamer goes from the mouth: just past what it opens into."""
    walls = [
        s
        for s in task.part.surfaces
        if s.feature == op.feature and s.inside and s.kind == "cylinder"
    ]
    if not op.through or not op.at or not walls:
        return abs(op.ends)
    into = opposite(op.approach[0])
    start = dot(op.at[0], into)
    end = max(max(dot(s.low, into), dot(s.high, into)) for s in walls)
    opened = [
        min(dot(s.low, into), dot(s.high, into))
        for s in task.part.surfaces
        if s.inside
        and s.kind == "cylinder"
        and s.name in task.there_before(op)
        and _in_line(s.point, op.at[0], into)
        and s.high[1] - s.low[1] > op.cut_size
        and max(dot(s.low, into), dot(s.high, into)) > end - REAMER_LEAD
    ]
    return min([abs(op.ends), end - start, *(near - start for near in opened)]) + beyond


def _in_line(a: Vec3, b: Vec3, into: Vec3) -> bool:
    """Tell whether two points lie on one line along ``into``."""
    gone = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
    return math.hypot(*gone) - abs(dot(gone, into)) < _SAME_LINE


def _is_plane(task: Task, name: str) -> bool:
    surface = task.surface(name)
    return surface is not None and surface.kind == "plane"


def _ream(task: Task, lathe: Lathe, op: Operation, draft: Draft) -> None:
    draft.measures = measures_for(task, op)
    draft.speed = lathe_speed(task, lathe, op, op.cut_size)
    draft.feed = tailstock_feed(lathe, REAMING, draft.speed)
    lead = max(REAMER_THROUGH, REAMER_THROUGH_SHARE * op.cut_size)
    draft.moves = tailstock_to(_through(task, op, lead) if op.through else op.ends)
    draft.remarks += [words.REAM, words.REAMER_NOSE]
    if op.through:
        blind = parted_at(task) is not None
        draft.remarks.append(words.BLIND_IN_BAR if blind else words.CHUCK_CLEAR)
    if op.cut_size > lathe.drill_chuck:
        draft.remarks.append(words.REAMER_SHANK)
    draft.check = CoarseCheck(
        what="hole before reaming", means=by_hand(op.from_size), expect=op.from_size, within=0.1
    )
    draft.cautions.append(words.IN_THE_BORE)
    draft.measures = tuple(map(by_its_plug, draft.measures))
    draft.takes(length=op.ends, passes=2)


def by_its_plug(measure: Measure) -> Measure:
    """Try a reamed hole no gauge decides with its plug: a figure nobody can read is not asked.

    Examples
    --------
    >>> from halfthou.drawing.model import Band
    >>> h7 = Band(nominal=16, low=16, high=16.018, text="16 H7", origin="drawn", place="")
    >>> by_its_plug(Measure(
    ...     surface="bore", gauge="telescopic gauge", aim=16.01, low=16, high=16.018, doubt=0.03,
    ...     kind="bore", decides=False, band=h7,
    ... )).gauge
    'plug 16 H7, go and no-go, borrowed'
    """
    band = measure.band
    if measure.kind != "bore" or band is None or measure.decides or measure.to_make:
        return measure
    called = f"plug {' '.join(band.text.split()[:2])}, go and no-go, borrowed"
    return replace(measure, gauge=called, doubt=0.0, tick=True, good=None)


def _tap(task: Task, lathe: Lathe, op: Operation, draft: Draft) -> None:
    trial = thread_measure(task, op)
    draft.measures = (trial,) if trial else ()
    draft.moves = tailstock_to(op.ends)
    draft.remarks += [words.STARTED_SQUARE, words.BACK_OFF]
    if lathe.screwed_nose:
        draft.cautions.append("spindle locked or the chuck held: a tap backed off can unscrew it")
    draft.minutes = op.minutes
