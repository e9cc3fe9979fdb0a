"""Why there is no plan, in the trade's words."""

from __future__ import annotations

from dataclasses import replace

from halfthou.planning.solving.explain import no_plan, why_not
from halfthou.planning.solving.problem import InOrder, Problem, Without
from halfthou.planning.solving.slot_demands import Refusal

from .test_judge import CENTRE, FACE, MILL, PROBLEM

FIRST = InOrder(name="flat before facing", before=MILL, after=FACE)


def told(problem: Problem, *refusals: Refusal) -> str:
    """Say why there is no plan for a click."""
    why = why_not(problem, refusals)

    assert why is not None
    return str(no_plan("click", why))


def test_a_problem_with_a_plan_has_nothing_to_explain() -> None:
    assert why_not(PROBLEM) is None


def test_work_that_nothing_reaches_is_told_before_solving() -> None:
    problem = replace(PROBLEM, holdings=PROBLEM.holdings[:1], ties=())
    refusal = Refusal(
        holding="the vice",
        task=MILL,
        reason="it opens 60 mm and the work is 80 across; nothing else holds it with the top up",
        remedy="get or make: clamps to the table",
    )

    assert told(problem, refusal) == (
        "click has work that nothing here can hold or reach: mill the flat\n"
        "  why: the vice: it opens 60 mm and the work is 80 across; "
        "nothing else holds it with the top up\n"
        "  try: get or make: clamps to the table"
    )


def test_a_wish_against_a_rule_names_both_and_offers_to_give_up_the_wish() -> None:
    idle = InOrder(name="face before centre", before=FACE, after=CENTRE)

    assert told(replace(PROBLEM, wishes=(FIRST, idle))) == (
        "click has no plan of up to 3 set-ups\n"
        "  why: these cannot all be kept: cut a face before locating from it "
        "(face the end before vice); the wish flat before facing\n"
        "  try: give up the wish flat before facing"
    )


def test_a_device_that_would_help_is_offered() -> None:
    wish = Without(name="no vice", holdings=frozenset({1}))
    refusal = Refusal(
        holding="three-jaw", task=MILL, reason="no milling here", remedy="a vertical slide"
    )

    why = why_not(replace(PROBLEM, wishes=(wish,)), [refusal], weights={"no vice": 9, "device": 4})

    assert why is not None
    assert [d.name for d in why.conflict] == ["three-jaw", "no vice"]
    assert why.cheapest[0].remedies == ("a vertical slide",)
