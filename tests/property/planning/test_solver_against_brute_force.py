"""The solver finds what looking at every plan finds."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfthou.planning.solving.judge import judge
from halfthou.planning.solving.prepare import least_price, undominated
from halfthou.planning.solving.problem import Holding, Problem, Task, Tie
from halfthou.planning.solving.solver import least_of_any_length, solve

from .brute import cheapest, random_problem


@settings(max_examples=150, deadline=None)
@given(seed=st.integers(min_value=0, max_value=1_000_000))
def test_the_plan_costs_what_the_cheapest_of_all_plans_costs(seed: int) -> None:
    problem = random_problem(seed)
    wanted = cheapest(problem)

    answer = solve(problem)

    assert (answer.price if answer else None) == wanted
    if answer:
        assert judge(problem, answer).violations == ()
        assert answer.bound <= answer.price


@settings(max_examples=150, deadline=None)
@given(seed=st.integers(min_value=0, max_value=1_000_000))
def test_no_plan_of_so_many_set_ups_or_more_costs_less_than_the_bound_says(seed: int) -> None:
    problem = random_problem(seed)

    for setups in range(1, len(problem.tasks) + 2):
        true = cheapest(problem, setups=setups)
        if true is not None:
            assert least_of_any_length(problem, setups) <= true
            assert least_price(problem, undominated(problem), setups) <= true


@pytest.mark.derived(by="hand arithmetic")
def test_the_bound_of_any_length_counts_what_every_plan_has_to_pay() -> None:
    """Two tasks on the lathe, each with a tool and a holding of its own, run-out between them.

    10 + 30 of work; 20 + 50 of holding; two tools fetched, 2 x 15; the tie costs 60 in the second
    holding and nothing in the first, which may well come later.
    """
    problem = Problem(
        tasks=(
            Task(name="a", minutes=10, tools=("knife tool",)),
            Task(name="b", minutes=30, tools=("boring tool",)),
        ),
        holdings=tuple(
            Holding(name=name, machine="lathe", device=name, tasks=frozenset({i}), minutes=minutes)
            for i, (name, minutes) in enumerate((("chuck", 20), ("collet", 50)))
        ),
        ties=(Tie(name="run-out", a=0, b=1, apart=60, by_holding=((0, 0),)),),
    )

    assert least_of_any_length(problem, 1) == 10 + 30 + 20 + 50 + 2 * 15
