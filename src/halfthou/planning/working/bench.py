"""Steps at the bench: sawing, filing, deburring, hand work."""

from __future__ import annotations

from typing import Final

from halfthou.cutting.fluid import fluid_for
from halfthou.cutting.gauging import DOUBT, gauge_spread
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Measure
from halfthou.planning.working import words
from halfthou.planning.working.casting import joint_of, mark_out, saw_through
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.dials import move
from halfthou.planning.working.filing import filed_slant
from halfthou.planning.working.heat_and_force import BY_HEAT_OR_FORCE, by_heat_or_force
from halfthou.planning.working.lengths import SAWN_OVER, sawn_to
from halfthou.planning.working.measures import measures_for, thread_measure
from halfthou.planning.working.sawing import time_and_stub
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre
from halfthou.workshop.model import Gauge

FILED_LEG: Final = (
    "the leg scribed on both faces, set by rule from the edge; that edge up in the vice, filed to "
    "both lines, draw-filed along"
)


def bench_drafts(task: Task) -> list[Draft]:
    """Work out every step at the bench."""
    return [
        by_heat_or_force(task, op) if op.verb in BY_HEAT_OR_FORCE else _by_hand(task, op)
        for op in task.operations
    ]


def _by_hand(task: Task, op: Operation) -> Draft:
    draft = _draft(task, op)
    if op.verb == "file":
        filed_slant(task, op, draft)
    return draft


def _draft(task: Task, op: Operation) -> Draft:
    draft = Draft(
        operation=op,
        tool=op.tools[0] if op.tools else op.verb,
        fluid=fluid_for(task.metal, op.verb),
        minutes=op.minutes,
    )
    if op.verb == "saw" and joint_of(task.part, op.feature) is not None:
        saw_through(task, op, draft)
    elif op.verb == "saw":
        _saw(task, op, draft)
    elif op.verb == "mark out":
        mark_out(task, op, draft)
    elif op.verb == "deburr":
        draft.remarks.append(
            "go round every edge, holes too; a finger-nail finds what the eye does not"
        )
    elif op.verb == "tap":
        trial = thread_measure(task, op)
        draft.measures = (trial,) if trial else ()
        draft.moves = (move("quill", op.ends, None, sense="down"),) if op.ends > 0 else ()
        draft.remarks += ["taper tap first, tried with a square both ways; then second and plug",
                          words.BACK_OFF]  # fmt: skip
    elif op.verb == "chamfer":
        draft.remarks.append(FILED_LEG)
    else:
        draft.measures = measures_for(task, op)
    if op.remark:
        draft.remarks.append(op.remark)
    return draft


def _saw(task: Task, op: Operation, draft: Draft) -> None:
    length = sawn_to(op.cut_size or task.plan.blank_size[0])
    rule = task.gauge("rule")
    if rule is not None:
        draft.measures = (_by_rule(rule, op.feature, length),)
    draft.check = CoarseCheck(
        what="line scribed for the saw, from the end", means="rule",
        expect=length, within=SAWN_OVER / 2, low=length, high=length + SAWN_OVER / 2,
    )  # fmt: skip
    time_and_stub(task, draft, length)
    draft.remarks.append("saw outside the line: its kerf is waste, the facing is in the length")
    draft.cautions.append("work tight in the vice, cut close to the jaws, ease off at the end")


def _by_rule(rule: Gauge, surface: str, length: Millimetre) -> Measure:
    return Measure(
        surface=surface,
        gauge=rule.name,
        aim=length + SAWN_OVER / 2,
        low=length,
        high=length + SAWN_OVER,
        doubt=DOUBT * gauge_spread(rule),
        kind="length",
        decides=False,
    )
