"""An explanation names nothing that could be left out, and the cheapest way to a plan."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from halfthou.planning.solving import solver
from halfthou.planning.solving.explain import WEIGHTS, why_not

from .brute import cheapest, random_problem

SPARSE = (HealthCheck.filter_too_much,)  # most random problems have a plan


def _weight(keys: Iterable[solver.Key]) -> int:
    return sum(WEIGHTS[kind] for kind, _ in keys)


@settings(max_examples=40, deadline=None, suppress_health_check=SPARSE)
@given(seed=st.integers(min_value=0, max_value=1_000_000))
def test_dropping_any_one_demand_of_a_conflict_lets_the_rest_be_kept(seed: int) -> None:
    problem = random_problem(seed)
    assume(cheapest(problem) is None)
    why = why_not(problem)
    assert why is not None
    assume(not why.unreached)
    keys = frozenset((d.kind, d.name, item) for d in why.conflict for item in d.items)

    assert solver.conflict(problem, only=keys) is not None
    for key in keys:
        assert solver.conflict(problem, only=keys - {key}) is None


@settings(max_examples=25, deadline=None, suppress_health_check=SPARSE)
@given(seed=st.integers(min_value=0, max_value=1_000_000))
def test_no_lighter_set_of_demands_leaves_a_plan(seed: int) -> None:
    problem = random_problem(seed)
    assume(cheapest(problem) is None)
    why = why_not(problem)
    assert why is not None
    assume(not why.unreached)
    every = frozenset((c.kind, c.name) for c in solver.clauses(problem))
    subsets = (
        frozenset(some) for n in range(len(every) + 1) for some in combinations(sorted(every), n)
    )

    lightest = min(
        _weight(some) for some in subsets if solver.conflict(problem, only=every - some) is None
    )

    assert _weight((d.kind, d.name) for d in why.cheapest) == lightest
