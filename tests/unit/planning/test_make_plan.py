"""What a plan says of its own proof, and how explaining is stopped."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.errors import NoPlan
from halfthou.planning.assemble import Case, problem_of
from halfthou.planning.make_plan import _plan, _why_not, make_plan
from halfthou.planning.solving.problem import Answer
from halfthou.planning.solving.solver import solve
from halfthou.present.words_plan import price_line, price_words
from tests.unit.planning.turned.parts import cases_of, part_of, workshop

PIN = """
[blank]
bar = "round 12 x 60"

[round.body]
diameter = "10"
long = "20"
"""


def _solved() -> tuple[Case, Answer]:
    found = ((case, solve(problem_of(case))) for case in cases_of(PIN))
    return next((case, answer) for case, answer in found if answer is not None)


@pytest.mark.derived(by="a dearer blank whose bound is above the price of the best proves it too")
def test_an_unproved_dearer_blank_does_not_spoil_the_proof() -> None:
    case, best = _solved()
    dearer = replace(best, price=best.price + 90, bound=best.price + 5, proved=False)
    cheaper_bound = replace(dearer, bound=best.price - 5)

    assert _plan(case, best, (best, dearer), workshop()).proved
    assert not _plan(case, best, (best, cheaper_bound), workshop()).proved


def test_explaining_stops_when_it_is_told_to() -> None:
    asked: list[bool] = []

    def stop() -> bool:
        asked.append(True)
        return True

    case, _ = _solved()
    keys = tuple(op.key for op in case.operations)
    stuck = replace(
        case,
        schemes=tuple(
            replace(
                one, need=tuple((k, "it waits for all else") for k in keys if k not in one.can)
            )
            for one in case.schemes
        ),
    )
    found = _why_not((stuck,), stop)

    assert asked
    assert found.tries


@pytest.mark.derived(by="95.9 minutes rounded down: a bound is never rounded up")
def test_longer_plans_are_told_by_what_they_cannot_cost_less_than() -> None:
    case, best = _solved()
    proved = _plan(case, best, (best,), workshop())
    plan = replace(proved, proved=False, up_to_set_ups=9, bound=95.9, minutes=120.0)

    assert "A longer one cannot cost less than 1 h 35 min." in price_words(plan)[1]
    assert "not looked at" not in " ".join(price_words(plan))
    assert "no plan of up to nine set-ups is cheaper" in price_line(plan)


def test_a_search_that_was_stopped_gives_no_plan() -> None:
    with pytest.raises(NoPlan) as caught:
        make_plan(part_of(PIN), workshop(), should_stop=lambda: True)

    assert caught.value.why == "the search was stopped before it came to an end"
    assert make_plan(part_of(PIN), workshop(), should_stop=lambda: False).proved
