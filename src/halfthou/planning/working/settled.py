"""One figure for a size: what the dials land on in roughing is what the finishing starts from."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.cutting.gauging import MeasureKind, aim_for, choose_gauge
from halfthou.cutting.passes import CLOSE, LEAVE, LEAVE_CLOSE
from halfthou.drawing.model import Part
from halfthou.planning.axes import dot
from halfthou.planning.model import Operation, Plan, Scheme, SetUp
from halfthou.planning.working.abrasive import stops_short
from halfthou.planning.working.dials import division_travel
from halfthou.planning.working.ends import at_shoulder, far_end, jaws_at, short_of
from halfthou.planning.working.lengths import expected_over, sawn_more
from halfthou.planning.working.slides import by_rule, shoulder_later
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre
from halfthou.workshop.model import Lathe, Workshop

_NEAR: Final[Millimetre] = 0.03
"""Two rough sizes nearer than this are one and the same."""
_SAME: Final[Millimetre] = 1e-3
_FLAT: Final = 0.99


def settled(plan: Plan, part: Part, workshop: Workshop) -> Plan:
    """Give the plan with every rough diameter as the dials leave it.

    What is clocked is looked at too: a face hard against the jaws cannot be, the one opposite
    can.
    """
    if not workshop.lathes:
        return plan
    for number in range(1, len(plan.set_ups) + 1):
        for place in range(len(plan.set_ups[number - 1].operations)):
            task = Task(part=part, workshop=workshop, plan=plan, number=number)
            op, lathe = task.operations[place], task.lathe
            roughed = op.verb in {"turn", "bore"} and op.stage == "rough" and not _plunged(op)
            if roughed and lathe is not None:
                plan = _carried(plan, op, _lands(task, lathe, op))
                plan = _against_the_rough(plan, task, lathe, op)
    plan = replace(
        plan, set_ups=tuple(_clockable(plan, part, n) for n in range(len(plan.set_ups)))
    )
    tasks = (
        Task(part=part, workshop=workshop, plan=plan, number=n)
        for n in range(1, len(plan.set_ups) + 1)
    )
    plan = replace(plan, set_ups=tuple(map(_as_sawn, tasks)))
    tasks = (
        Task(part=part, workshop=workshop, plan=plan, number=n)
        for n in range(1, len(plan.set_ups) + 1)
    )
    return replace(plan, set_ups=tuple(map(_standing_out, tasks)))


def _as_sawn(task: Task) -> SetUp:
    """Reckon with the lump as long as the rule lets it be sawn.

    What is longer than need be lies behind the jaws that hold the raw end, and on the face that
    is cut to length; there half of what the saw may leave is expected too.
    """
    one, scheme = task.set_up, task.scheme
    operations = tuple(
        replace(op, from_size=expected_over(task, op)) if op.verb == "face" else op
        for op in one.operations
    )
    more = sawn_more(task)
    if scheme.machine != "lathe" or scheme.inside or not _grips_raw_end(task) or more < _SAME:
        return replace(one, operations=operations)
    back = -task.sense * more
    held = replace(
        scheme, grip_low=scheme.grip_low + back, grip_high=scheme.grip_high + back,
        stick_out=scheme.stick_out + more,
    )  # fmt: skip
    return replace(one, scheme=held, operations=operations)


def _grips_raw_end(task: Task) -> bool:
    """Tell whether the jaws hold raw bar by an end that was sawn and is not yet faced."""
    scheme = task.scheme
    sawn = any(op.verb == "saw" and op.feature == "blank" for op in task.done_before)
    raw = bool(scheme.grips) and all(name.startswith("stock") for name in scheme.grips)
    faced = any(
        op.verb == "face" and dot(op.approach[0], scheme.faces) < -_FLAT for op in task.done_before
    )
    return sawn and raw and not scheme.seats and not faced


def _standing_out(task: Task) -> SetUp:
    """Reckon what stands out of the jaws to the end as it is by then: finished, where it is."""
    one, scheme = task.set_up, task.scheme
    jaws = jaws_at(task)
    if scheme.machine != "lathe" or scheme.inside or not math.isfinite(jaws):
        return one
    ends = [s for s in task.part.surfaces
            if s.kind == "plane" and dot(s.direction, scheme.faces) > _FLAT
            and abs(task.from_face(s.point[0])) < _SAME]  # fmt: skip
    faced = [op.from_size for op in task.operations if op.verb == "face"]
    if faced:
        return replace(one, scheme=replace(scheme, stick_out=jaws + max(faced)))
    made = {name for op in task.done_before for name in op.makes}
    if not any(s.name in made for s in ends):
        return one
    return replace(one, scheme=replace(scheme, stick_out=jaws))


def _finish(plan: Plan, rough: Operation) -> Operation | None:
    every = [op for set_up in plan.set_ups for op in set_up.operations]
    return next(
        (
            op
            for op in every
            if op.feature == rough.feature and op.verb == rough.verb and op.stage == "finish"
        ),
        None,
    )


def _plunged(op: Operation) -> bool:
    return any("groov" in tool or "parting" in tool for tool in op.tools)


def _lands(task: Task, lathe: Lathe, op: Operation) -> Millimetre:
    """Give the diameter a rough cut leaves: whole divisions off the aim that follows.

    Where nothing follows at the same setting it is what half divisions come to.
    """
    out = -1.0 if op.verb == "bore" else 1.0
    half = division_travel(lathe.cross_slide) / 2
    there = op.from_size if op.verb == "bore" else task.diameter_now(op)
    wanted = _wanted(task, op, out, lathe)
    off = out * (there - wanted) / 2
    if not math.isfinite(there) or off <= 0:
        return op.cut_size
    if _finish(task.plan, op) is not None:
        return round(wanted, 6)
    left = off - math.floor(off / half + 1e-6) * half
    return round(wanted + out * 2 * left, 6)


def _wanted(task: Task, op: Operation, out: float, lathe: Lathe) -> Millimetre:
    """Give what roughing should leave: enough for a first cut that bites and two alike."""
    step = division_travel(lathe.cross_slide)
    finish = _finish(task.plan, op)
    if finish is None or finish.size is None:
        return op.cut_size
    band = finish.size
    kind: MeasureKind = "bore" if out < 0 else "diameter"
    judged = choose_gauge(kind=kind, low=band.low, high=band.high, workshop=task.workshop)
    aim = stops_short(lathe, finish, task.workshop) or aim_for(
        low=band.low, high=band.high, nominal=band.nominal, inside=out < 0, judged=judged
    )
    leave = LEAVE_CLOSE if band.width < CLOSE else LEAVE
    return aim + out * 2 * math.ceil(leave / step - 1e-6) * step


def _carried(plan: Plan, rough: Operation, landed: Millimetre) -> Plan:
    """Put a landed size in place of the rough one, and of all that starts from it."""
    was = rough.cut_size

    def carried(op: Operation) -> Operation:
        if op is rough:
            return replace(op, cut_size=landed)
        own = op.feature == rough.feature and (
            (op.stage == "finish" and op.verb == rough.verb)
            or (op.verb == "ream" and rough.verb == "bore")
        )
        if own or (op.verb in {"turn", "groove"} and abs(op.from_size - was) < _NEAR):
            return replace(op, from_size=landed)
        return op

    def held(scheme: Scheme) -> Scheme:
        roughed = rough.feature in " ".join(scheme.grips)
        if roughed and abs(scheme.grip_size - was) < _NEAR:
            return replace(scheme, grip_size=landed)
        return scheme

    return replace(
        plan,
        set_ups=tuple(
            SetUp(scheme=held(one.scheme), operations=tuple(map(carried, one.operations)))
            for one in plan.set_ups
        ),
    )


def _against_the_rough(plan: Plan, task: Task, lathe: Lathe, op: Operation) -> Plan:
    """Let jaws that would bear at a shoulder stand against what roughing leaves on it."""
    far = task.from_face(far_end(task, op))
    if op.verb != "turn" or not at_shoulder(task, op) or not shoulder_later(task, op):
        return plan
    over = far - short_of(far, by_rule=by_rule(lathe, far))
    x = far_end(task, op)
    named = f"{op.feature} as roughed"
    set_ups = [
        replace(one, scheme=_shifted(one.scheme, x, task.sense * over))
        if named in one.scheme.grips
        else one
        for one in plan.set_ups
    ]
    return replace(plan, set_ups=tuple(set_ups))


def _shifted(scheme: Scheme, x: Millimetre, by: Millimetre) -> Scheme:
    low, high = scheme.grip_low, scheme.grip_high
    if abs(low - x) < _SAME and by > 0:
        return replace(scheme, grip_low=low + by, stick_out=scheme.stick_out + by)
    if abs(high - x) < _SAME and by < 0:
        return replace(scheme, grip_high=high + by, stick_out=scheme.stick_out - by)
    return scheme


def _clockable(plan: Plan, part: Part, index: int) -> SetUp:
    """Clock the face toward the tailstock in place of one that is hard against the jaws."""
    one = plan.set_ups[index]
    scheme = one.scheme
    four_jaw = scheme.machine == "lathe" and scheme.device.device == "four-jaw chuck"
    if not four_jaw or not any(name in scheme.seats for name, _ in scheme.true_on):
        return one
    made = {
        name for earlier in plan.set_ups[:index] for op in earlier.operations for name in op.makes
    }
    faces = [
        s for s in part.surfaces
        if s.kind == "plane" and s.name in made and dot(s.direction, scheme.faces) > _FLAT
    ]  # fmt: skip
    seen = max(faces, key=lambda s: dot(s.point, scheme.faces), default=None)
    kept = []
    for name, within in scheme.true_on:
        if name not in scheme.seats:
            kept.append((name, within))
        elif seen is not None:
            kept.append((seen.name, within))
    return replace(one, scheme=replace(scheme, true_on=tuple(dict.fromkeys(kept))))
