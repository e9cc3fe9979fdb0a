"""The plummer block and plans of it, made once for all tests of castings."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.planning.assemble import Case
from halfthou.planning.cast.case import case_cast
from halfthou.planning.make_plan import make_plan
from halfthou.planning.model import Plan
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop

DRAWINGS = Path(__file__).parents[3] / "data" / "drawings"
TWO_CASTINGS = (DRAWINGS / "plummer-block.toml").read_text(encoding="utf-8")
SAWN = TWO_CASTINGS.replace('cut = "two castings"', 'cut = "saw 1.5"\nskim = "0.5"').replace(
    'machined = "front, back, bottom"', 'machined = "front, back"'
)
STANDS_PROUD = TWO_CASTINGS.replace('thick = "26" ', 'thick = "30" ')
"""The same block with its foot 1 proud of the pedestal, front and back."""


def part_of(text: str) -> Part:
    return solve(read_part_text(text, name="plummer-block.toml"))


@cache
def case_of(text: str) -> Case:
    return case_cast(part_of(text), default_workshop())


@cache
def plan_of(text: str) -> Plan:
    return make_plan(part_of(text), default_workshop())


def places(plan: Plan) -> dict[str, tuple[int, int]]:
    """Give set-up and place in it of every operation done."""
    return {
        op.key: (number, place)
        for number, set_up in enumerate(plan.set_ups, start=1)
        for place, op in enumerate(set_up.operations)
    }


def done(plan: Plan, *, verbs: set[str], piece: str = "", feature: str = "") -> list[str]:
    """Give the operations of a plan with one of these verbs."""
    return [
        op.key
        for set_up in plan.set_ups
        for op in set_up.operations
        if op.verb in verbs and piece in {"", op.piece} and feature in {"", op.feature}
    ]
