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
from halfthou.planning.turned.shape import rounds
from halfthou.planning.worked import CoarseCheck, Measure
from halfthou.planning.working import words
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.ends import (
    RULED,
    follows,
    from_an_end,
    hidden,
    out_of_reach,
    tightest,
)
from halfthou.planning.working.measures import measures_for, passing_measure
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre

SHARE: Final = 4.0
"""A length others hang on gets this part of the closest one's tolerance (usual practice)."""
READ_WITHIN: Final[Millimetre] = 0.1
"""Nearer than this a caliper cannot be asked to say a length overall (usual practice)."""
SAWN_OVER: Final[Millimetre] = 1.0
"""How much longer than need be the saw may leave it (usual practice)."""
CLOSER: Final = 0.9
"""Share of another tolerance below which a length is drawn closer than that one."""
PARTED_OVER: Final[Millimetre] = 0.3
"""How much longer a parted piece may be (usual practice)."""
_FLAT: Final = 0.99
_SAME: Final[Millimetre] = 1e-3
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
    every = (*draft.measures, *more)
    for one in every:
        if one.kind not in _LENGTHS:
            found.append(one)
            continue
        led = follows(task, one) and _closest(one, every)
        if led and words.BY_WHAT_IT_IS_OVER not in draft.remarks:
            draft.remarks.append(words.FOLLOWS)
        elif out_of_reach(task, one):
            draft.remarks.append(words.AFTER_OUT)
        if out_of_reach(task, one):
            found.append(replace(one, when="out of the holding"))
        else:
            found.append(_at_the_centres(task, draft, one))
    return tuple(found)


def _closest(one: Measure, every: tuple[Measure, ...]) -> bool:
    """Tell whether a length has less tolerance than any other its step is measured by."""
    others = [m for m in every if m is not one and m.kind in _LENGTHS and m.high > m.low]
    return all(one.high - one.low < (m.high - m.low) * CLOSER for m in others)


def governed(task: Task, measures: tuple[Measure, ...]) -> bool:
    """Tell whether the closest length of a step is drawn from the end toward the headstock."""
    lengths = [m for m in measures if m.kind in _LENGTHS]
    led = (m for m in lengths if follows(task, m) and _closest(m, measures))
    return any(m.band is not None and not out_of_reach(task, m) for m in led)


def _at_the_centres(task: Task, draft: Draft, one: Measure) -> Measure:
    """Say how a length is measured that the centre, or the driver, stands in the way of."""
    if not from_an_end(task, one):
        return one
    if task.scheme.device.device == "centres":
        draft.remarks.append(words.LIFT_OUT)
        return replace(one, when="out of the holding")
    if task.scheme.centre:
        draft.remarks.append(words.CENTRE_BACK)
    return one


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
    task: Task,
    face: Surface,
    length: Millimetre,
    kind: MeasureKind,
    *others: str,
    within: Millimetre = 0.0,
) -> tuple[Measure, ...]:
    """Measure a length not drawn, with a share of the tolerance of those that hang on it."""
    within = within or tightest(task, face.name, *others) / SHARE
    one = passing_measure(task, surface=face.name, size=length, kind=kind, within=within)
    return (replace(one, low=length - within, high=length + within),) if one is not None else ()


def overall(task: Task, draft: Draft) -> None:
    """Face to a length: measured before gripping where the chuck hides the other end."""
    op = draft.operation
    if not any(m.kind in _LENGTHS for m in draft.measures):
        draft.measures += _to_the_other_end(task, op)
    own = _before_gripping(task, draft.measures)
    if own is None:
        return
    draft.measures = tuple(
        replace(m, when="out of the holding") if m is own else m for m in draft.measures
    )
    draft.remarks.append(words.MEASURE_BEFORE)
    if _parted(task):
        low, high = own.aim + LAST_FACE, own.aim + op.from_size + PARTED_OVER
    else:
        low = own.aim + op.from_size - SAWN_OVER / 2
        high = own.aim + op.from_size + SAWN_OVER / 2
    draft.check = CoarseCheck(
        what=f"{_length_called(task, own.aim)} before gripping", means=own.gauge,
        expect=(low + high) / 2,
        within=(high - low) / 2, low=low, high=high,
    )  # fmt: skip


def _length_called(task: Task, length: Millimetre) -> str:
    """Name a length as the caliper finds it: all of the work, or the one round it runs along."""
    row = rounds(task.part)
    if not row or length > row[-1].right - row[0].left - _SAME:
        return "length overall"
    end = row[-1] if task.sense > 0 else row[0]
    if abs(end.right - end.left - length) > _SAME:
        return "length from the face at the jaws"
    thin = length < end.diameter.nominal
    return f"{'thickness' if thin else 'length'} of the {end.name}"


def expected_over(task: Task, op: Operation) -> Millimetre:
    """Give what stands over a face as the saw really leaves it: half its allowance more.

    Only where the length is measured before gripping; else what the plan says.
    """
    measures = measures_for(task, op)
    if not any(m.kind in _LENGTHS for m in measures):
        measures += _to_the_other_end(task, op)
    if op.verb != "face" or _parted(task) or _before_gripping(task, measures) is None:
        return op.from_size
    return op.from_size + sawn_more(task) + SAWN_OVER / 2


def sawn_more(task: Task) -> Millimetre:
    """Give what the saw leaves beyond the length needed, so that a rule shows it."""
    length = task.plan.blank_size[0]
    return sawn_to(length) - length


def _parted(task: Task) -> bool:
    return any(one.verb == "part off" for one in task.done_before)


def _before_gripping(task: Task, measures: tuple[Measure, ...]) -> Measure | None:
    lengths = (m for m in measures if m.kind in _LENGTHS)
    return next((m for m in lengths if out_of_reach(task, m) or m.band is None), None)


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
    far = task.from_face(end.point[0])
    tight = tightest(task, made.name, end.name)
    within = max(tight / SHARE, min(READ_WITHIN, tight / 2))
    return _length(task, made, far, "length", end.name, within=within)
