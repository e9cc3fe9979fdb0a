"""Published sequencing cases, where a folder of them is at hand.

The cases carry no licence, so they are not kept here. ``HALFTHOU_PLANNING_CASES`` names a folder
of JSON files, one a case: operations with machines, tools, directions and what they come after;
costs by machine and tool; what each change costs; the proved optimum.
"""

from __future__ import annotations

import json
import os
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from halfthou.planning.solving.judge import judge
from halfthou.planning.solving.problem import Choice, Holding, Precedence, Prices, Problem, Task
from halfthou.planning.solving.solver import solve

FOLDER = os.environ.get("HALFTHOU_PLANNING_CASES", "")


def _problem(case: dict[str, Any]) -> Problem:
    """Each operation is a choice of machine and tool; each machine and direction a holding."""
    tasks: list[Task] = []
    of: dict[str, list[tuple[int, str, set[str]]]] = {}
    for name, op in case["operations"].items():
        for machine, tool in product(op["machines"], op["tools"]):
            cost = case["machine_cost"][machine] + case["tool_cost"][tool]
            place = (len(tasks), machine, set(op["directions"]))
            of.setdefault(name, []).append(place)
            tasks.append(Task(name=f"{name} {machine} {tool}", minutes=cost, tools=(tool,)))
    directions = {d for op in case["operations"].values() for d in op["directions"]}
    holdings = [
        Holding(name=f"{m} {d}", machine=m, device=d, minutes=case["setup_change"], tasks=able)
        for m, d in product(sorted(case["machine_cost"]), sorted(directions))
        if (
            able := frozenset(i for ones in of.values() for i, n, ds in ones if n == m and d in ds)
        )
    ]
    orders = [
        Precedence(before=a, after=b, rule="published")
        for name, op in case["operations"].items()
        for first in op["after"]
        for (a, _, _), (b, _, _) in product(of[first], of[name])
    ]
    choices = [
        Choice(
            name=" or ".join(ones),
            bundles=tuple(frozenset({i}) for o in ones for i, _, _ in of[o]),
        )
        for ones in case["choose_one_of"]
    ]
    prices = Prices(
        machine_change=case["machine_change"], bench_change=0, tool_change=case["tool_change"]
    )
    return Problem(
        tasks=tuple(tasks),
        holdings=tuple(holdings),
        choices=tuple(choices),
        precedences=tuple(orders),
        prices=prices,
    )


@pytest.mark.skipif(not FOLDER, reason="HALFTHOU_PLANNING_CASES names no folder of cases")
@pytest.mark.published(source="the source in each case; optimum proved by another exact search")
@pytest.mark.parametrize("name", ["case01", "case03", "case06", "case07", "case09"])
def test_a_published_case_is_solved_to_its_optimum(name: str) -> None:
    case = json.loads((Path(FOLDER) / f"{name}.json").read_text(encoding="utf-8"))
    problem = _problem(case)

    answer = solve(problem, effort=60.0)

    assert answer is not None
    assert judge(problem, answer).violations == ()
    first = case["setup_change"] + case["tool_change"]  # charged here, not in the published sum
    assert answer.price - first == case["proven_optimum"]["value"]
