"""The solver finds what looking at every plan finds."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from halfthou.planning.solving.judge import judge
from halfthou.planning.solving.solver import solve

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
