"""Steps of a set-up in the lathe: facing, turning, grooving, threading, parting.

Zero along the bed is the finished face toward the tailstock; zero across is where the tool first
touches the diameter there is, or the trial cut measured.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import pairwise, takewhile
from typing import Final

from halfthou.planning.axes import extents_of_all
from halfthou.planning.cast.holes import IN_BAR
from halfthou.planning.model import Operation
from halfthou.planning.working import words
from halfthou.planning.working.abrasive import stops_short, with_abrasive
from halfthou.planning.working.casting import by_the_bar
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.ends import jaws_at
from halfthou.planning.working.facing import face
from halfthou.planning.working.holes import HOLES, hole_draft
from halfthou.planning.working.plunging import chamfer, chamfer_feed, groove, part_off
from halfthou.planning.working.slides import lathe_speed
from halfthou.planning.working.task import Task
from halfthou.planning.working.threads import screw_thread
from halfthou.planning.working.thrown import look_at_thrown
from halfthou.planning.working.turning import taper, turn
from halfthou.units import Millimetre
from halfthou.workshop.model import Lathe


def lathe_drafts(task: Task, lathe: Lathe) -> list[Draft]:
    """Work out every step of a lathe set-up."""
    drafts = [draft for op in task.operations for draft in _drafts(task, lathe, op)]
    for before, draft in zip([None, *drafts], drafts, strict=False):
        if draft.operation.verb == "chamfer" and before is not None:
            _chamfer_as_it_runs(task, lathe, draft, before)
    if task.scheme.centre or task.scheme.device.device == "centres":
        _with_the_centre(task, drafts)
    look_at_thrown(task, drafts)
    drafts = _abrasive_last(drafts)
    _tools_out_once(drafts)
    _touched_once(drafts)
    _unlocked(drafts)
    for draft in drafts:
        draft.remarks.sort(key=lambda one: one not in _TOUCHED)
    return drafts


def _tools_out_once(drafts: list[Draft]) -> None:
    """Set a tool out once for the whole set-up: by the most any step needs."""
    for draft in drafts:
        if draft.tool_out is not None:
            draft.tool_out = max(d.tool_out or 0.0 for d in drafts if d.tool == draft.tool)


def _abrasive_last(drafts: list[Draft]) -> list[Draft]:
    """Put fine abrasive after all cutting of the set-up, but before the piece is parted off."""
    grit = [d for d in drafts if d.operation.verb == "lap"]
    cuts = [d for d in drafts if d.operation.verb not in {"lap", "part off"}]
    return [*cuts, *grit, *(d for d in drafts if d.operation.verb == "part off")]


def _touched_once(drafts: list[Draft]) -> None:
    """Where one diameter only is touched, nothing is to be touched anew."""
    touching = [d for d in drafts if words.FROM_TOUCH in d.remarks]
    if len(touching) == 1:
        remarks = touching[0].remarks
        remarks[remarks.index(words.FROM_TOUCH)] = words.FROM_TOUCH_ONCE


def _unlocked(drafts: list[Draft]) -> None:
    """Say at each step what the one before left locked and this one has to move."""
    locked: set[str] = set()
    for draft in drafts:
        said = {"saddle"} if words.SADDLE_FREE in draft.remarks else set()
        free = sorted(locked - set(draft.lock) - said) if draft.lock else []
        if free:
            draft.remarks.append(words.unlock_words(tuple(free)))
        locked = set(draft.lock) if draft.lock else locked


def _chamfer_as_it_runs(task: Task, lathe: Lathe, draft: Draft, before: Draft) -> None:
    """Chamfer at the speed already set, unless that is too fast for the corner."""
    op = draft.operation
    space = extents_of_all(op.region)
    across = space.high[1] - space.low[1] if space is not None else 0.0
    most = lathe_speed(task, lathe, replace(op, verb="turn"), max(across, 1.0))
    if before.speed is not None and draft.speed is not None:
        near = min(before.speed, most)
        draft.speed = near if near >= draft.speed * LEAST_SHARE else draft.speed
        draft.feed = chamfer_feed(lathe, op, draft.speed)
    done = [*task.done_before, *_earlier(task, op)]
    if any(one.verb == "ream" and one.feature == op.follows for one in done):
        draft.remarks.append(words.BURR)
    if before.operation.verb == "chamfer" and _inner(op) != _inner(before.operation):
        draft.remarks.append(words.OTHER_CORNER)


def _inner(op: Operation) -> bool:
    return op.inside or bool(op.follows)


def _earlier(task: Task, op: Operation) -> list[Operation]:
    return list(takewhile(lambda one: one is not op, task.operations))


def _with_the_centre(task: Task, drafts: list[Draft]) -> None:
    """Bring the centre up once it is drilled; try the tailstock before the first close size."""
    for before, draft in pairwise(drafts):
        if before.operation.verb == "centre" and draft.operation.verb != "centre":
            draft.remarks.insert(0, words.CENTRE_UP)
    close = (
        draft for draft in drafts
        if draft.operation.verb == "turn" and draft.operation.stage != "rough"
        and draft.check is not None and draft.passes
    )  # fmt: skip
    first = next(close, None)
    if first is None:
        return
    own = next((m for m in first.measures if m.kind == "diameter"), None)
    if own is None or not own.gauge:
        return
    after = next(p.leaves for p in first.passes if p.purpose == "finish")
    trial = replace(
        own, aim=after, low=after, high=after, band=None, decides=False, good=None, to_make=False
    )
    places = ("tailstock end", "headstock end")
    first.measures += tuple(replace(trial, where=where) for where in places)
    first.remarks.append(words.ALIGNED)
    first.shift = _shift(task, first)
    if first.shift > 0:
        first.remarks += [words.shift_words(first.shift, _apart(task, first)), words.SHIFTED]


def _shift(task: Task, draft: Draft) -> float:
    """Give how far the tailstock goes over for what two readings of one diameter differ.

    Half the difference, times the length from the tailstock to where the work is held, over the
    distance between the readings: the anvils' middles lie their radius in from each end.
    """
    apart = _apart(task, draft)
    if apart <= 0:
        return 0.0
    held = jaws_at(task)
    if not math.isfinite(held):
        held = max(task.from_face(x) for s in task.part.surfaces for x in (s.low[0], s.high[0]))
    return held / (2 * apart)


def _apart(task: Task, draft: Draft) -> Millimetre:
    """Give how far apart the two readings of a diameter are taken; nought where there are none."""
    made = map(task.surface, draft.operation.makes)
    walls = [s for s in made if s is not None and s.kind == "cylinder"]
    if not walls:
        return 0.0
    long = walls[0].high[0] - walls[0].low[0]
    return long - 2 * ANVIL if long > 4 * ANVIL else long / 2


ANVIL: Final[Millimetre] = 3.0
"""Half the anvil of a micrometer (usual practice)."""
_TOUCHED: Final = frozenset(
    (
        words.CENTRE_UP,
        words.FROM_FACE,
        words.FROM_MAJOR,
        words.FROM_MEASURED,
        words.FROM_MEASURED_BORE,
        words.FROM_MEASURED_BORE_ON_DIAMETER,
        words.FROM_MEASURED_ON_DIAMETER,
        words.FROM_TOUCH,
        words.FROM_TOUCH_ONCE,
        words.MEASURE_BEFORE,
        words.TIP_AT_THE_FACE,
        words.TOUCH_THE_CORNER,
    )
)
"""What comes before the first cut."""
LEAST_SHARE: Final = 0.4
"""A speed already set that is slower than this share of what a chamfer asks is changed."""
_MAKERS: Final[Mapping[str, Callable[[Task, Lathe, Operation], Draft]]] = {
    "face": face,
    "turn": turn,
    "turn taper": taper,
    "groove": groove,
    "chamfer": chamfer,
    "thread": screw_thread,
    "part off": part_off,
} | dict.fromkeys(HOLES, hole_draft)


def _drafts(task: Task, lathe: Lathe, op: Operation) -> list[Draft]:
    """Give the steps of an operation: two where the dial is too coarse for the last hundredth."""
    stop_at = 0.0 if _plunged(op) or IN_BAR in op.tools else stops_short(lathe, op, task.workshop)
    if stop_at:
        made = with_abrasive(task, lathe, op, stop_at)
    else:
        made = [(groove if _plunged(op) else _MAKERS[op.verb])(task, lathe, op)]
    _said_of_all(task, op, made[0])
    return made


def _said_of_all(task: Task, op: Operation, made: Draft) -> None:
    made.remarks += words.metal_remarks(task.metal, op)
    if op.remark:
        made.remarks.append(op.remark)
    if any(not m.decides and m.band is not None and not m.tick for m in made.measures):
        made.remarks.append(words.NOT_JUDGED)
    if any(m.to_make and m.kind == "bore" for m in made.measures):
        made.remarks.append(words.PLUG)
    if IN_BAR in op.tools:
        by_the_bar(made)


def _plunged(op: Operation) -> bool:
    """Tell whether a neck is narrow enough to be plunged and not turned along."""
    return op.verb == "turn" and any("groov" in t or "parting" in t for t in op.tools)
