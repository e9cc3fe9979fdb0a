"""Lengths of turned work: which can be measured in the chuck, which before or after it."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.cutting.gauging import MeasureKind
from halfthou.cutting.passes import LAST_FACE
from halfthou.drawing.model import Surface
from halfthou.planning.axes import dot
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Measure
from halfthou.planning.working import words
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.ends import RULED, hidden, out_of_reach, tightest
from halfthou.planning.working.measures import passing_measure
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre

SHARE: Final = 4.0
"""A length others hang on gets this part of the closest one's tolerance (usual practice)."""
SAWN_OVER: Final[Millimetre] = 1.0
"""How much longer than need be the saw may leave it (usual practice)."""
PARTED_OVER: Final[Millimetre] = 0.3
"""How much longer a parted piece may be (usual practice)."""
_FLAT: Final = 0.99
_LENGTHS: Final = frozenset(("length", "depth", "width"))


def sawn_to(least: Millimetre) -> Millimetre:
    """Give the least length to saw to, as a rule shows it: never shorter than is needed.

    >>> sawn_to(179.8), sawn_to(24.0)
    (180.0, 24.0)
    """
    return math.ceil(least / RULED - 1e-6) * RULED


def reachable(task: Task, draft: Draft, more: tuple[Measure, ...] = ()) -> tuple[Measure, ...]:
    """Say of each length of a step when it can be measured; add what can be measured now."""
    found = []
    for one in draft.measures:
        if out_of_reach(task, one):
            found.append(replace(one, when="out of the holding"))
            draft.remarks.append(words.AFTER_OUT)
        else:
            found.append(one)
    if _governed_from_behind(found):
        draft.remarks.append(words.GOVERNS)
    return (*found, *more)


def _governed_from_behind(measures: list[Measure]) -> bool:
    """Tell whether the closest length of a step is one the chuck hides."""
    lengths = [m for m in measures if m.kind in _LENGTHS and m.band is not None]
    after = [m.high - m.low for m in lengths if m.when != "now"]
    now = [m.high - m.low for m in lengths if m.when == "now"]
    return bool(after) and bool(now) and min(after) < min(now)


def shoulder_place(task: Task, draft: Draft) -> tuple[Measure, ...]:
    """Measure a shoulder from the zero face, where no drawn length that can be reached says it."""
    op = draft.operation
    face = next(
        (
            s
            for s in map(task.surface, op.makes)
            if s is not None and s.kind == "plane" and dot(s.direction, task.scheme.faces) > _FLAT
        ),
        None,
    )
    if face is None or draft.length <= 0:
        return ()
    if any(m.kind in _LENGTHS and not out_of_reach(task, m) for m in draft.measures):
        return ()
    return _length(task, face, draft.length, "depth")


def _length(
    task: Task, face: Surface, length: Millimetre, kind: MeasureKind, *others: str
) -> tuple[Measure, ...]:
    """Measure a length not drawn, with a share of the tolerance of those that hang on it."""
    within = tightest(task, face.name, *others) / SHARE
    one = passing_measure(task, surface=face.name, size=length, kind=kind, within=within)
    return (replace(one, low=length - within, high=length + within),) if one is not None else ()


def overall(task: Task, draft: Draft) -> None:
    """Face to a length: measured before gripping where the chuck hides the other end."""
    op = draft.operation
    lengths = [m for m in draft.measures if m.kind in _LENGTHS]
    if not lengths:
        draft.measures += _to_the_other_end(task, op)
        lengths = [m for m in draft.measures if m.kind in _LENGTHS]
    own = next((m for m in lengths if out_of_reach(task, m) or m.band is None), None)
    if own is None:
        return
    draft.measures = tuple(
        replace(m, when="out of the holding") if m is own else m for m in draft.measures
    )
    draft.remarks.append(words.MEASURE_BEFORE)
    parted = any(one.verb == "part off" for one in task.done_before)
    low = own.aim + (LAST_FACE if parted else op.from_size)
    sawn = task.plan.blank_size[0]
    high = own.aim + op.from_size + (PARTED_OVER if parted else SAWN_OVER + sawn_to(sawn) - sawn)
    draft.check = CoarseCheck(
        what="length overall before gripping", means=own.gauge, expect=(low + high) / 2,
        within=(high - low) / 2, low=low, high=high,
    )  # fmt: skip


def _to_the_other_end(task: Task, op: Operation) -> tuple[Measure, ...]:
    """Measure from a face being cut to the finished one at the work's other end."""
    made = next((s for s in map(task.surface, op.makes) if s is not None), None)
    there = task.there_before(op) - task.never_cut
    ends = [
        s
        for s in task.part.surfaces
        if s.kind == "plane"
        and s.name in there
        and dot(s.direction, task.scheme.faces) < -_FLAT
        and hidden(task, s)
    ]
    if made is None or not ends:
        return ()
    end = max(ends, key=lambda s: task.from_face(s.point[0]))
    return _length(task, made, task.from_face(end.point[0]), "length", end.name)
