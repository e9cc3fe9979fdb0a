"""The solver finds the plan, the same one each time, and says how far it looked."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.planning.solving.judge import judge
from halfthou.planning.solving.problem import (
    Holding,
    InOrder,
    Precedence,
    Problem,
    Start,
    Task,
    Without,
)
from halfthou.planning.solving.solver import solve

from .test_judge import CENTRE, FACE, GOOD, MILL, PROBLEM


def test_the_only_plan_is_found_and_proved() -> None:
    answer = solve(PROBLEM)

    assert answer is not None
    assert answer.setups == GOOD.setups
    assert (answer.price, answer.bound, answer.proved) == (322, 322, True)


def test_the_same_problem_gives_the_same_plan() -> None:
    assert solve(PROBLEM) == solve(PROBLEM)


def test_a_wish_that_cannot_be_kept_leaves_no_plan() -> None:
    assert solve(replace(PROBLEM, wishes=(Without(name="w", holdings=frozenset({1})),))) is None


def test_a_wish_for_another_order_costs_a_set_up() -> None:
    wish = InOrder(name="flat before centre", before=MILL, after=CENTRE)

    answer = solve(replace(PROBLEM, wishes=(wish,)))

    assert answer is not None
    assert [slot.tasks for slot in answer.setups] == [(FACE,), (MILL,), (CENTRE,)]


def test_work_still_in_the_chuck_costs_no_set_up() -> None:
    start = Start(machine="lathe", tool="facing tool", holding=0)

    answer = solve(replace(PROBLEM, start=start))

    assert answer is not None
    assert answer.price == 322 - 50 - 15


def test_one_tool_may_be_fetched_three_times_where_the_order_asks_it() -> None:
    chain = [(FACE, CENTRE), (CENTRE, MILL), (MILL, 3), (3, 4)]
    tasks = (*PROBLEM.tasks, PROBLEM.tasks[CENTRE], PROBLEM.tasks[FACE])
    held = replace(PROBLEM.holdings[0], tasks=frozenset(range(5)))
    tasks = tuple(replace(t, tools=(f"tool {i % 2}",)) for i, t in enumerate(tasks))
    problem = replace(
        PROBLEM,
        tasks=tasks,
        holdings=(held,),
        ties=(),
        precedences=tuple(Precedence(before=a, after=b, rule="chain") for a, b in chain),
    )

    answer = solve(problem)

    assert answer is not None
    assert answer.setups[0].tools == ("tool 0", "tool 1", "tool 0", "tool 1", "tool 0")
    assert judge(problem, answer).violations == ()


def test_progress_is_told_and_a_stopped_search_keeps_what_it_found() -> None:
    told: list[tuple[int, int]] = []

    answer = solve(
        PROBLEM,
        on_progress=lambda best, bound: told.append((best, bound)),
        should_stop=lambda: False,
    )

    assert answer is not None
    assert told[-1][0] == answer.price
    assert all(bound <= best for best, bound in told)


@pytest.mark.derived(by="hand arithmetic")
def test_a_plan_is_proved_against_longer_ones_than_were_searched() -> None:
    """Ten tasks that one chuck cuts for 20, or each its own chuck for 20: one beats up to ten."""
    tasks = tuple(Task(name=f"t{i}", minutes=10, tools=("knife tool",)) for i in range(10))
    own = [frozenset({i}) for i in range(10)]
    problem = Problem(
        tasks=tasks,
        holdings=tuple(
            Holding(name=f"h{n}", machine="lathe", device="chuck", tasks=these, minutes=20)
            for n, these in enumerate((frozenset(range(10)), *own))
        ),
    )

    answer = solve(problem)

    assert answer is not None
    assert (answer.price, answer.bound) == (100 + 20 + 15, 135)
    assert (answer.proved, answer.proved_for_setups) == (True, 1)


def test_a_search_that_is_given_no_time_still_tells_a_price_that_nothing_beats() -> None:
    answer = solve(PROBLEM, effort=0.0)

    assert answer is None or answer.bound <= 322 <= answer.price
