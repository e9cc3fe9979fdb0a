"""A plan of several pieces taken apart again: each piece's own set-ups, by themselves."""

from __future__ import annotations

from dataclasses import dataclass, replace

from halfthou.drawing.model import Part
from halfthou.planning.fixed_pieces import fixed_pieces, held_piece, main_part, own_part
from halfthou.planning.model import Plan, SetUp
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working.cast_steps import on_a_casting
from halfthou.planning.working.holding import WRAP
from halfthou.planning.working.to_mates import to_its_mate


@dataclass(frozen=True, slots=True, kw_only=True)
class OneOf:
    """One piece with its own plan; ``numbers`` are where its set-ups stand in the plan of all."""

    part: Part
    plan: Plan
    numbers: tuple[int, ...]
    of: int

    def placed(self, worked: tuple[WorkedSetUp, ...]) -> tuple[WorkedSetUp, ...]:
        """Give the piece's set-ups with their numbers in the plan of all."""
        return tuple(
            replace(
                to_its_mate(self.part, on_a_casting(self.part, self.plan, one)),
                number=number,
                of=self.of,
                next_notes=tuple(n for n in one.next_notes if number == self.of or n != WRAP),
            )
            for one, number in zip(worked, self.numbers, strict=True)
        )


def each_by_itself(plan: Plan, part: Part) -> tuple[OneOf, ...]:
    """Give each piece's plan; the plan as it is where nothing is put into the work."""
    count = len(plan.set_ups)
    if not plan.beside:
        return (OneOf(part=part, plan=plan, numbers=tuple(range(1, count + 1)), of=count),)
    blanks = {lump.name: lump.metal for lump in plan.beside}
    parts = {piece.name: own_part(part, piece) for piece in fixed_pieces(part)}
    found = [_one(plan, "", main_part(part), plan)]
    for name, metal in blanks.items():
        found.append(_one(plan, name, parts[name], replace(plan, blank=metal)))
    found.append(_one(plan, None, part, plan))
    return tuple(one for one in found if one.numbers)


def _one(plan: Plan, name: str | None, part: Part, own: Plan) -> OneOf:
    numbers = tuple(n for n, s in enumerate(plan.set_ups, start=1) if _whose(s) == name)
    place = {number: i for i, number in enumerate(numbers, start=1)}
    set_ups = tuple(plan.set_ups[n - 1] for n in numbers)
    saws = [op.cut_size for s in set_ups for op in s.operations if op.verb == "saw"]
    length = next((size for size in saws if size > 0), plan.blank_size[0])
    across = part.blank.across or plan.blank_size[1]
    return OneOf(
        part=part,
        plan=replace(
            own,
            set_ups=set_ups,
            blank_size=(length, across, across),
            beside=(),
            reasons=tuple(
                replace(r, set_up=place[r.set_up]) for r in plan.reasons if r.set_up in place
            ),
        ),
        numbers=numbers,
        of=len(plan.set_ups),
    )


def _whose(set_up: SetUp) -> str | None:
    """Name whose set-up it is: a piece's, the work's (empty), or of both together."""
    return None if len(set_up.scheme.piece_state) > 1 else held_piece(set_up.scheme)
