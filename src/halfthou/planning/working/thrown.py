"""Holes bored with the work set over: which way it lies, seen twice; its walls; its burr."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import Hole, Part
from halfthou.planning.axes import extents_of_all
from halfthou.planning.model import Operation
from halfthou.planning.turned.shape import rounds
from halfthou.planning.worked import CoarseCheck, Measure
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre, Vec3

SEEN: Final[Millimetre] = 0.5
"""The least a spot may be off the middle for a rule to tell on which side (usual practice)."""
_RULE: Final[Millimetre] = 0.5
_WHOLE: Final = 0.01
_ACROSS: Final = 0.1
_SIDES: Final = {0: "top", 3: "far", 6: "bottom", 9: "near"}
_FINISHING: Final = frozenset(("ream", "bore", "drill"))


def hour_of_line(*, out: float, throw: Vec3, rod: Vec3) -> float:
    """Give the hour at which a line off the axis lies, seen from the tailstock, the rod at nine.

    ``out`` is above nought where the part's right end is toward the tailstock, ``rod`` points
    out of the work. With the top up the front lies on the left where the right end is out, on the
    right where the left end is; turning the work to bring the rod to nine turns the line too.

    >>> hour_of_line(out=-1.0, throw=(0.0, 0.8, 0.0), rod=(0.0, 0.0, 1.0))
    6.0
    """
    sense = -1.0 if out > 0 else 1.0
    rod_at = math.atan2(rod[1], sense * rod[2])
    line_at = math.atan2(throw[1], sense * throw[2])
    return round((9.0 + (rod_at - line_at) / math.tau * 12.0) % 12.0, 6) % 12.0


def rod_hole(part: Part, done: tuple[Operation, ...]) -> Hole | None:
    """Give the cross hole made before that a rod in it shows the way by."""
    drilled = {op.feature for op in done if op.verb == "drill"}
    return next(
        (
            f
            for f in part.features
            if isinstance(f, Hole)
            and not f.on_axis
            and abs(f.into[0]) < _ACROSS
            and f.name in drilled
        ),
        None,
    )


def outward(hole: Hole) -> Vec3:
    """Give the way a rod in a hole points out of the work."""
    return (-hole.into[0], -hole.into[1], -hole.into[2])


def look_at_thrown(task: Task, drafts: list[Draft]) -> None:
    """Look where the spot lies before it is drilled; measure both walls; clear a cross hole."""
    last = next((d for d in reversed(drafts) if d.operation.verb in _FINISHING), None)
    if last is None:
        return
    _burr(task, last)
    far = math.hypot(*task.scheme.throw)
    rim = _rim(task.part, task.sense)
    if far <= 0 or rim <= 0:
        return
    radius = last.operation.cut_size / 2
    walls = (("thin", rim - radius - far), ("thick", rim - radius + far))
    last.measures += tuple(
        Measure(
            surface=last.operation.feature, gauge="caliper", aim=wall, low=wall, high=wall,
            doubt=0.0, kind="position", decides=False, where=f"{name} wall, bore to rim",
        )
        for name, wall in walls
    )  # fmt: skip
    drilled = next((d for d in drafts if d.operation.verb == "drill"), None)
    if drilled is not None and drilled.check is None:
        drilled.check = _by_the_spot(task, rim - far, far)


def _by_the_spot(task: Task, from_rim: Millimetre, far: Millimetre) -> CoarseCheck | None:
    """Look from the rim on the line's own side: on the wrong side it is twice the throw more."""
    rod = rod_hole(task.part, task.done_before)
    if rod is None or far < SEEN:
        return None
    hour = hour_of_line(out=task.sense, throw=task.scheme.throw, rod=outward(rod))
    side = _SIDES.get(round(hour) % 12) if abs(hour - round(hour)) < _WHOLE else None
    where = f"{side} of the rim" if side else f"rim at {hour:.1f} o'clock"
    return CoarseCheck(
        what=f"spot from the {where}, the rod level toward you, work stopped",
        means="rule", expect=from_rim, within=min(_RULE, far),
    )  # fmt: skip


def _rim(part: Part, sense: float) -> Millimetre:
    """Give the radius of the round at the end that is out [mm]."""
    row = rounds(part)
    if not row:
        return 0.0
    return (row[-1] if sense > 0 else row[0]).diameter.nominal / 2


def _burr(task: Task, last: Draft) -> None:
    """Clear what a bore leaves in a hole across it that was made before."""
    own = extents_of_all(last.operation.region)
    done = task.done_before
    for op in done:
        space = extents_of_all(op.region)
        if op.verb != "drill" or own is None or space is None or not own.overlaps(space):
            continue
        hole = next(
            (f for f in task.part.features if isinstance(f, Hole) and f.name == op.feature), None
        )
        if hole is None or hole.on_axis or abs(hole.into[0]) > _ACROSS:
            continue
        tapped = any(one.verb == "tap" and one.feature == op.feature for one in done)
        how = "plug tap" if tapped else "the drill turned by hand"
        again = "reamer" if last.operation.verb == "ream" else "scraper"
        last.remarks.append(
            f"last, spindle stopped: {how} through the {op.feature} hole, bore wiped, {again} "
            "through the bore by hand: no burr left in either"
        )
