"""Wishes and the limits of devices in the solver's terms, each a clause that can be dropped.

For the explanation only: a search for a plan settles wishes beforehand and never offers a task
to a holding that refused it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfthou.planning.solving.problem import Chosen, HeldIn, InOrder, Problem, Without
from halfthou.planning.solving.slot_rows import Clause, Rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """A holding that could not do a task: what stopped it, and what would help.

    ``holding`` is the name of one of the problem's holdings, or of a way that came to nothing.
    """

    holding: str
    task: int
    reason: str
    remedy: str = ""
    device: str = ""


def willing(problem: Problem, refusals: Sequence[Refusal]) -> dict[int, frozenset[int]]:
    """Tasks each holding cuts, with those it refused; the clauses then take them away again."""
    cut = {k: set(holding.tasks) for k, holding in enumerate(problem.holdings)}
    for k, i, _ in _refused(problem, refusals):
        cut[k].add(i)
    return {k: frozenset(tasks) for k, tasks in cut.items() if tasks}


def _refused(problem: Problem, refusals: Sequence[Refusal]) -> list[tuple[int, int, Refusal]]:
    """List holding, task and refusal, where the holding is one of the problem's own."""
    number = {holding.name: k for k, holding in enumerate(problem.holdings)}
    found = []
    for refusal in refusals:
        k = number.get(refusal.holding)
        if k is None:
            continue
        holding = problem.holdings[k]
        holds_by = {c.task for c in (*holding.need, *holding.ban)}
        if refusal.task not in holds_by | holding.tasks:
            found.append((k, refusal.task, refusal))
    return found


def limit(rows: Rows, refusals: Sequence[Refusal]) -> None:
    """Add the clauses of wishes and devices to the rows."""
    problem = rows.problem
    for k, i, refusal in _refused(problem, refusals):
        rows.add(
            [rows.at(i, p) + rows.held([k], p) <= 1 for p in rows.slots],
            Clause(
                kind="device",
                name=refusal.device or problem.holdings[k].device,
                item=f"{problem.tasks[i].name} in {refusal.holding}",
                reason=refusal.reason,
                remedy=refusal.remedy,
            ),
        )
    for wish in problem.wishes:
        clause = Clause(kind="wish", name=wish.name, item=wish.name)
        match wish:
            case HeldIn():
                ks = sorted(wish.holdings)
                rows.add([rows.at(wish.task, p) <= rows.held(ks, p) for p in rows.slots], clause)
            case Without():
                ks = sorted(wish.holdings)
                rows.add([rows.held(ks, p) <= 0 for p in rows.slots], clause)
            case Chosen():
                rows.add([rows.bundle[wish.choice][wish.bundle] >= 1], clause)
            case InOrder():
                pass
