"""Bench steps of castings with their numbers: the marking-out sheet, the saw through a joint."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Joint, Part
from halfthou.planning.axes import dot
from halfthou.planning.cast.marking import marks_on
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre

_WITHIN: Final[Millimetre] = 0.5
_CUTTER_OUT: Final = (
    "each cut set by the cutter: tapped out of the bar by half what is to come off, measured by "
    "micrometer over bar and cutter, its screw tightened"
)


def joint_of(part: Part, name: str) -> Joint | None:
    """Give the joint of that name, if it is one."""
    return next((f for f in part.features if isinstance(f, Joint) and f.name == name), None)


def mark_out(task: Task, op: Operation, draft: Draft) -> None:
    """Give the sheet of heights and pops for a casting as it comes."""
    draft.marks = marks_on(task.part, op.piece)


def saw_through(task: Task, op: Operation, draft: Draft) -> None:
    """Tell where the saw goes: over the skim left on the half that stays where it is."""
    joint = joint_of(task.part, op.feature)
    if joint is None:
        return
    upper = joint.moves == joint.halves[0]
    up = (1.0 if joint.axis == 0 else 0.0, 1.0 if joint.axis == 1 else 0.0, 0.0)
    if not any(up):
        up = (0.0, 0.0, 1.0)
    sense = 1.0 if upper else -1.0
    below = [
        sense * (joint.at - dot(s.point, up))
        for s in task.part.surfaces
        if s.kind == "plane" and not s.raw and abs(dot(s.direction, up)) > 0.99  # noqa: PLR2004
    ]
    far = max(below, default=0.0)
    draft.check = CoarseCheck(
        what="middle of the saw's line from the machined face below it", means="rule",
        expect=far + joint.skim + joint.kerf / 2, within=_WITHIN,
    )  # fmt: skip
    draft.cautions.append("work tight in the vice, cut close to the jaws, ease off at the end")


def by_the_bar(draft: Draft) -> None:
    """Set the cut by the cutter in its bar: the work goes by on the saddle, nothing else moves."""
    draft.passes = tuple(replace(one, settings=(), divisions=0.0) for one in draft.passes)
    draft.moves = tuple(one for one in draft.moves if one.slide == "saddle")
    draft.lock = ("cross-slide",)
    kept = [one for one in draft.remarks if "cross-slide" not in one and "chuck" not in one]
    draft.remarks = [*kept, _CUTTER_OUT]
