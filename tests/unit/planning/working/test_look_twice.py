"""The second look before a last cut: by other means, and no closer than those can tell."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.planning.worked import CoarseCheck, Measure, Step
from halfthou.planning.working.look_twice import looked_twice
from tests.unit.planning.working.handmade import chucked, only_step, operation


def _measured(gauge: str) -> Measure:
    return Measure(
        surface="seat", gauge=gauge, aim=16.0, low=15.9, high=16.1, doubt=0.04, kind="diameter"
    )


def _step(gauge: str, check: CoarseCheck) -> Step:
    turned = operation(
        "turn", "turn", "finish", feature="seat", starts=0.0, ends=20.0, cut_size=16.0,
        from_size=16.6, makes=(), tools=("knife tool",),
    )  # fmt: skip
    step = only_step(chucked(turned))
    return replace(step, measures=(_measured(gauge),), check=check)


@pytest.mark.derived(by="the caliper's doubt inside is 0.064: a gate of 0.05 fails good work")
def test_a_caliper_is_not_asked_for_more_than_it_can_tell() -> None:
    check = CoarseCheck(
        what="bore before the last cut", means="caliper", expect=19.84, within=0.05
    )
    step = looked_twice(_step("telescopic gauge and micrometer", check))

    assert step.check is not None
    assert step.check.means == "caliper"
    assert 0.064 < step.check.within == pytest.approx(0.2)


@pytest.mark.derived(by="one turn of a 2 mm screw is 4 on the diameter, of a top-slide 1.5 long")
def test_what_the_caliper_measures_is_looked_at_by_the_rule_which_shows_a_whole_turn() -> None:
    check = CoarseCheck(what="size before the last cut", means="caliper", expect=16.2, within=0.05)
    step = looked_twice(_step("caliper", check))

    assert step.check is not None
    assert step.check.means == "rule"
    assert step.check.within < 1.5 / 2


def test_a_gate_with_limits_of_its_own_is_left_as_it_is() -> None:
    check = CoarseCheck(
        what="length overall before gripping", means="caliper", expect=20.4, within=0.4,
        low=20.1, high=20.8,
    )  # fmt: skip

    assert looked_twice(_step("caliper", check)).check == check
