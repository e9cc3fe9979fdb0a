"""Steps of a set-up in the lathe: facing, turning, grooving, threading, parting.

Zero along the bed is the finished face toward the tailstock; zero across is where the tool first
touches the diameter there is, or the trial cut measured.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from halfthou.planning import working_words as words
from halfthou.planning.model import Operation
from halfthou.planning.working_cuts import Draft
from halfthou.planning.working_facing import face
from halfthou.planning.working_holes import HOLES, hole_draft
from halfthou.planning.working_plunging import chamfer, groove, part_off
from halfthou.planning.working_task import Task
from halfthou.planning.working_threads import screw_thread
from halfthou.planning.working_turning import taper, turn
from halfthou.workshop.model import Lathe


def lathe_drafts(task: Task, lathe: Lathe) -> list[Draft]:
    """Work out every step of a lathe set-up."""
    return [_draft(task, lathe, op) for op in task.operations]


_MAKERS: Final[Mapping[str, Callable[[Task, Lathe, Operation], Draft]]] = {
    "face": face,
    "turn": turn,
    "turn taper": taper,
    "groove": groove,
    "chamfer": chamfer,
    "thread": screw_thread,
    "part off": part_off,
} | dict.fromkeys(HOLES, hole_draft)


def _draft(task: Task, lathe: Lathe, op: Operation) -> Draft:
    make = groove if _plunged(op) else _MAKERS[op.verb]
    made = make(task, lathe, op)
    made.remarks += words.metal_remarks(task.metal, op)
    if op.remark:
        made.remarks.append(op.remark)
    if any(not m.decides and m.band is not None for m in made.measures):
        made.remarks.append(words.NOT_JUDGED)
    if any(m.to_make and m.kind == "bore" for m in made.measures):
        made.remarks.append(words.PLUG)
    return made


def _plunged(op: Operation) -> bool:
    """Tell whether a neck is narrow enough to be plunged and not turned along."""
    return op.verb == "turn" and any("groov" in t or "parting" in t for t in op.tools)
