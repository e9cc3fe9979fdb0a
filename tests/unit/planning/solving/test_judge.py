"""The judge refuses plans that break a rule, and prices by hand arithmetic."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.planning.solving.judge import judge
from halfthou.planning.solving.problem import (
    Answer,
    Condition,
    HeldIn,
    Holding,
    Precedence,
    Prices,
    Problem,
    Slot,
    Task,
    Tie,
)

FACE, CENTRE, MILL = 0, 1, 2
PROBLEM = Problem(
    tasks=(
        Task(name="face the end", minutes=20, tools=("facing tool",)),
        Task(name="centre the end", minutes=10, tools=("centre drill",)),
        Task(name="mill the flat", minutes=60, tools=("end mill",)),
    ),
    holdings=(
        Holding(
            name="three-jaw",
            machine="lathe",
            device="three-jaw",
            tasks=frozenset({FACE, CENTRE}),
            minutes=50,
        ),
        Holding(
            name="vice",
            machine="mill",
            device="vice",
            tasks=frozenset({MILL}),
            minutes=80,
            need=(Condition(task=FACE, rule="cut a face before locating from it"),),
        ),
    ),
    precedences=(Precedence(before=FACE, after=CENTRE, rule="face before centring"),),
    ties=(Tie(name="flat from end", a=FACE, b=MILL, apart=100, by_holding=((1, 7),)),),
    prices=Prices(machine_change=50, bench_change=10, tool_change=15),
)
LATHE = Slot(holding=0, tasks=(FACE, CENTRE), tools=("facing tool", "centre drill"))
VICE = Slot(holding=1, tasks=(MILL,), tools=("end mill",))
GOOD = Answer(
    setups=(LATHE, VICE), chosen=(), price=322, bound=0, proved=False, proved_for_setups=0
)


@pytest.mark.derived(by="hand arithmetic: 90 + 130 + 50 + 45 + 7")
def test_a_good_plan_is_priced_by_its_parts() -> None:
    verdict = judge(PROBLEM, GOOD)

    assert verdict.violations == ()
    assert verdict.price.total == 322


@pytest.mark.parametrize(
    ("setups", "said"),
    [
        (
            (replace(LATHE, tasks=(CENTRE, FACE), tools=LATHE.tools[::-1]), VICE),
            "face before centring: face the end must come before centre the end",
        ),
        (
            (VICE, LATHE),
            "cut a face before locating from it: vice needs face the end done before",
        ),
        ((LATHE,), "mill the flat is done 0 times, wanted 1"),
        ((LATHE, VICE, VICE), "mill the flat is done 2 times, wanted 1"),
        ((LATHE, replace(VICE, holding=0)), "mill the flat cannot be done in three-jaw"),
        (
            (LATHE, replace(VICE, tools=("centre drill",))),
            "mill the flat cannot be done with centre drill",
        ),
        ((LATHE, VICE, Slot(holding=0, tasks=(), tools=())), "nothing is done in three-jaw"),
    ],
)
def test_a_spoilt_plan_is_refused(setups: tuple[Slot, ...], said: str) -> None:
    verdict = judge(PROBLEM, replace(GOOD, setups=setups))

    assert said in verdict.violations


def test_a_wrong_price_is_refused() -> None:
    verdict = judge(PROBLEM, replace(GOOD, price=300))

    assert verdict.violations == ("the plan says it costs 300, it costs 322",)


def test_a_wish_not_kept_is_refused() -> None:
    wish = HeldIn(name="flat in the chuck", task=MILL, holdings=frozenset({0}))

    verdict = judge(replace(PROBLEM, wishes=(wish,)), GOOD)

    assert verdict.violations == ("the wish flat in the chuck is not kept",)


def test_a_holding_that_cuts_what_it_holds_by_is_no_holding() -> None:
    vice = replace(PROBLEM.holdings[1], tasks=frozenset({FACE, MILL}))

    with pytest.raises(ValueError, match="vice would cut face the end, which it holds by"):
        replace(PROBLEM, holdings=(PROBLEM.holdings[0], vice))
