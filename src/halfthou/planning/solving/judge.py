"""The judge: feasibility and price of a plan, from the rules alone.

Shares no code with the solver; what it says is what counts.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import assert_never

from halfthou.planning.solving.problem import (
    BENCH,
    Answer,
    Chosen,
    HeldIn,
    InOrder,
    Problem,
    Slot,
    Without,
)

Place = tuple[int, int]
"""Set-up of a task, and its place in that set-up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """The price of a plan by its parts, in tenths of a minute."""

    work: int
    setups: int
    moves: int
    tools: int
    order: int
    ties: int

    @property
    def total(self) -> int:
        """Sum of the parts."""
        return self.work + self.setups + self.moves + self.tools + self.order + self.ties


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What is wrong with a plan, in words, and what it costs."""

    violations: tuple[str, ...]
    price: Price


def judge(problem: Problem, answer: Answer) -> Verdict:
    """Check a plan against every rule and price it again."""
    violations = [*_misfits(problem, answer)]
    if not violations:
        where = _places(answer.setups)
        violations += _order_faults(problem, where)
        violations += _grip_faults(problem, answer.setups, where)
        violations += _wish_faults(problem, answer, where)
    price = _price(problem, answer.setups)
    if answer.price != price.total:
        violations.append(f"the plan says it costs {answer.price}, it costs {price.total}")
    return Verdict(violations=tuple(violations), price=price)


def _places(setups: tuple[Slot, ...]) -> dict[int, Place]:
    return {i: (p, n) for p, slot in enumerate(setups) for n, i in enumerate(slot.tasks)}


def _misfits(problem: Problem, answer: Answer) -> Iterator[str]:
    """Tasks missing, doubled or uncalled for; tasks no holding or tool of theirs can do."""
    tasks = problem.tasks
    if not _all_chosen(problem, answer.chosen):
        yield "not every choice is made"
        return
    wanted = sorted(problem.done(answer.chosen))
    found = sorted(i for slot in answer.setups for i in slot.tasks)
    for i in sorted({*wanted, *found}):
        if found.count(i) != wanted.count(i):
            yield f"{tasks[i].name} is done {found.count(i)} times, wanted {wanted.count(i)}"
    for slot in answer.setups:
        yield from _slot_misfits(problem, slot)


def _all_chosen(problem: Problem, chosen: tuple[int, ...]) -> bool:
    return len(chosen) == len(problem.choices) and all(
        0 <= j < len(c.bundles) for c, j in zip(problem.choices, chosen, strict=True)
    )


def _slot_misfits(problem: Problem, slot: Slot) -> Iterator[str]:
    tasks = problem.tasks
    holding = problem.holdings[slot.holding]
    if not slot.tasks:
        yield f"nothing is done in {holding.name}"
    if len(slot.tools) != len(slot.tasks):
        yield f"tasks and tools differ in number in {holding.name}"
    for i, tool in zip(slot.tasks, slot.tools, strict=False):
        if i not in holding.tasks:
            yield f"{tasks[i].name} cannot be done in {holding.name}"
        if tool not in tasks[i].tools:
            yield f"{tasks[i].name} cannot be done with {tool}"


def _comes_first(where: dict[int, Place], before: int, after: int, *, strict: bool) -> bool:
    """Tell whether the order holds; it does where either task is not done."""
    if before not in where or after not in where:
        return True
    if strict:
        return where[before][0] < where[after][0]
    return where[before] < where[after]


def _order_faults(problem: Problem, where: dict[int, Place]) -> Iterator[str]:
    tasks = problem.tasks
    for r in problem.precedences:
        if r.hard and not _comes_first(where, r.before, r.after, strict=r.strict):
            yield f"{r.rule}: {tasks[r.before].name} must come before {tasks[r.after].name}"
    for t in problem.togethers:
        if t.a in where and t.b in where and where[t.a][0] != where[t.b][0]:
            yield f"{t.rule}: {tasks[t.a].name} and {tasks[t.b].name} belong in one set-up"


def _grip_faults(
    problem: Problem, setups: tuple[Slot, ...], where: dict[int, Place]
) -> Iterator[str]:
    for p, slot in enumerate(setups):
        holding = problem.holdings[slot.holding]
        for c in holding.need:
            if c.task in where and where[c.task][0] >= p:
                yield f"{c.rule}: {holding.name} needs {problem.tasks[c.task].name} done before"
        for c in holding.ban:
            if c.task in where and where[c.task][0] <= p:
                yield f"{c.rule}: {holding.name} wants {problem.tasks[c.task].name} left for later"


def _wish_faults(problem: Problem, answer: Answer, where: dict[int, Place]) -> Iterator[str]:
    for wish in problem.wishes:
        match wish:
            case HeldIn():
                place = where.get(wish.task)
                kept = place is None or answer.setups[place[0]].holding in wish.holdings
            case Without():
                kept = all(slot.holding not in wish.holdings for slot in answer.setups)
            case InOrder():
                kept = _comes_first(where, wish.before, wish.after, strict=wish.strict)
            case Chosen():
                kept = answer.chosen[wish.choice] == wish.bundle
            case _:
                assert_never(wish)
        if not kept:
            yield f"the wish {wish.name} is not kept"


def _price(problem: Problem, setups: tuple[Slot, ...]) -> Price:
    where = _places(setups)
    return Price(
        work=sum(problem.tasks[i].minutes for slot in setups for i in slot.tasks),
        setups=_setup_cost(problem, setups),
        moves=_move_cost(problem, setups),
        tools=_tool_cost(problem, setups),
        order=sum(
            r.cost
            for r in problem.precedences
            if not r.hard and not _comes_first(where, r.before, r.after, strict=r.strict)
        ),
        ties=_tie_cost(problem, setups, where),
    )


def _setup_cost(problem: Problem, setups: tuple[Slot, ...]) -> int:
    total = sum(problem.holdings[slot.holding].minutes for slot in setups)
    start = problem.start
    if start is not None and setups and setups[0].holding == start.holding:
        total -= problem.holdings[setups[0].holding].minutes
    return total


def _move_cost(problem: Problem, setups: tuple[Slot, ...]) -> int:
    path = [problem.start.machine] if problem.start is not None else []
    path += [problem.holdings[slot.holding].machine for slot in setups]
    return sum(problem.prices.move(a, b) for a, b in pairwise(path))


def _tool_cost(problem: Problem, setups: tuple[Slot, ...]) -> int:
    """Every change of tool, except at the bench; a tool left in over a re-clamp is free."""
    last = (problem.start.machine, problem.start.tool) if problem.start is not None else ("", "")
    changes = 0
    for slot in setups:
        machine = problem.holdings[slot.holding].machine
        for tool in slot.tools:
            changes += machine != BENCH and (machine, tool) != last
            last = (machine, tool)
    return changes * problem.prices.tool_change


def _tie_cost(problem: Problem, setups: tuple[Slot, ...], where: dict[int, Place]) -> int:
    total = 0
    for tie in problem.ties:
        if tie.a in where and tie.b in where and where[tie.a][0] != where[tie.b][0]:
            first, later = sorted((where[tie.a][0], where[tie.b][0]))
            total += tie.cost(setups[later].holding, setups[first].holding)
    return total
