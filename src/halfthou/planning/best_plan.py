"""The cheapest plan, judged; or the reason why there is none."""

from __future__ import annotations

from collections.abc import Sequence

from halfthou.errors import NoPlan
from halfthou.planning.explain import WhyNot, no_plan, unreached, why_not
from halfthou.planning.judge import judge
from halfthou.planning.problem import Answer, Problem
from halfthou.planning.slot_demands import Refusal
from halfthou.planning.solver import EFFORT, MOST_SETUPS, Progress, Stop, solve


def best_plan(
    problem: Problem,
    *,
    part: str = "the part",
    refusals: Sequence[Refusal] = (),
    most_setups: int = MOST_SETUPS,
    effort: float = EFFORT,
    on_progress: Progress | None = None,
    should_stop: Stop | None = None,
) -> Answer:
    """Solve, and let the judge check the answer.

    Raises
    ------
    NoPlan
        If there is none: what stands in the way, and what to try.
    """
    lost = unreached(problem, refusals)
    if lost:
        raise no_plan(part, WhyNot(setups=0, unreached=lost))
    answer = solve(
        problem,
        most_setups=most_setups,
        effort=effort,
        on_progress=on_progress,
        should_stop=should_stop,
    )
    if answer is None:
        why = why_not(problem, refusals, most_setups=most_setups)
        if why is None:
            raise NoPlan(
                f"no plan was found for {part} before the search was stopped",
                why="neither a plan nor a reason against one was found",
                tries=("let it search longer",),
            )
        raise no_plan(part, why)
    violations = judge(problem, answer).violations
    if violations:
        raise RuntimeError("; ".join(violations))
    return answer
