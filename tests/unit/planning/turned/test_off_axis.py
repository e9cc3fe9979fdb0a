"""Bores off the axis: set over in the lathe, in what order, and why not where it cannot be."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from tests.unit.planning.turned.parts import cases_of, part_of

from halfthou.drawing.model import Part
from halfthou.errors import NoPlan
from halfthou.planning.make_plan import make_plan
from halfthou.planning.metal import prove
from halfthou.planning.model import Plan
from halfthou.planning.turned.standing import as_it_stands
from halfthou.workshop.default import default_workshop
from halfthou.workshop.model import Workshop

BUSH = """
[blank]
bar = "round 22 x 60"

[round.flange]
diameter = "20"
long = "6"

[round.body]
diameter = "14 h6"
long = "12"

[hole.bore]
in = "right"
size = "6 H7 through"
at = "0.8 ±0.02 off outside"
must = "parallel to body within 0.02"

[hole.grub]
in = "flange front"
size = "6 BA to bore"
at = "3 right of left"
"""
LOOSE = BUSH.replace("±0.02", "±0.06").replace('must = "parallel to body within 0.02"\n', "")


@cache
def plan_of(text: str) -> Plan:
    return make_plan(part_of(text), default_workshop())


def part(text: str = BUSH) -> Part:
    return part_of(text)


def without(*devices: str) -> Workshop:
    shop = default_workshop()
    return replace(shop, holding=tuple(d for d in shop.holding if d.device not in devices))


def place(plan: Plan, verb: str, feature: str) -> tuple[int, int]:
    return next(
        (n, i)
        for n, set_up in enumerate(plan.set_ups)
        for i, op in enumerate(set_up.operations)
        if op.verb == verb and op.feature == feature
    )


def test_the_bore_off_the_axis_is_clocked_over_by_its_throw() -> None:
    number, _ = place(plan_of(BUSH), "ream", "bore")
    scheme = plan_of(BUSH).set_ups[number].scheme

    assert scheme.device.device == "four-jaw chuck"
    assert scheme.throw == pytest.approx((0.0, 0.8, 0.0))
    assert ("body", 0.02) in scheme.true_on


def test_nothing_on_the_axis_is_cut_while_the_work_is_set_over() -> None:
    thrown = [s for s in plan_of(BUSH).set_ups if any(s.scheme.throw)]

    assert {op.feature for s in thrown for op in s.operations} == {"bore"}


def test_the_rim_is_turned_before_the_bore_is_set_off_from_it() -> None:
    # Published orders differ for eccentrics: rim first where bar leaves a chucking length,
    # bore first on a casting with a boss. This is bar.
    plan = plan_of(BUSH)

    assert place(plan, "turn", "body") < place(plan, "spot", "bore")


def test_the_grub_screws_hole_comes_before_the_last_cut_of_the_bore() -> None:
    # Common practice: the last cut takes off the burr.
    plan = plan_of(BUSH)

    assert place(plan, "tap", "grub") < place(plan, "ream", "bore")


def test_a_close_place_is_bored_and_not_left_to_a_drill_and_a_reamer() -> None:
    plan = plan_of(BUSH)
    verbs = [op.verb for s in plan.set_ups for op in s.operations if op.feature == "bore"]

    assert verbs == ["spot", "drill", "bore", "ream"]


def test_the_plan_leaves_the_bush_as_drawn() -> None:
    plan = plan_of(BUSH)

    prove(part(), plan.blank, plan.set_ups)


def test_packing_serves_only_where_the_place_is_loose_enough_for_it() -> None:
    close = [s for case in cases_of(BUSH) for s in case.schemes if s.packing]
    loose = [s for case in cases_of(LOOSE) for s in case.schemes if s.packing]

    assert not close
    assert loose
    held = next(s for s in loose if s.grips == ("body",))
    assert held.packing == pytest.approx(1.166, abs=1e-3)


def test_without_a_four_jaw_chuck_the_plan_says_what_three_jaws_keep() -> None:
    with pytest.raises(NoPlan) as refused:
        make_plan(part(), without("four-jaw chuck"))

    told = str(refused.value)
    assert "four-jaw chuck" in told
    assert "±0.02" in told


def test_a_hole_drawn_to_a_bore_that_comes_later_is_blind_when_it_is_drilled() -> None:
    plan = plan_of(BUSH)
    made = [op for s in plan.set_ups for op in s.operations if op.feature == "grub"]

    assert {op.verb: op.through for op in made if op.verb in {"drill", "tap"}} == {
        "drill": False, "tap": False,
    }  # fmt: skip


def test_a_hole_drilled_into_a_bore_that_is_there_still_goes_through() -> None:
    plan = plan_of(BUSH)
    bore = [s for s in plan.set_ups if any(op.feature == "bore" for op in s.operations)]
    other = [s for s in plan.set_ups if s not in bore]
    case_ops = {op.key: op for case in cases_of(BUSH) for op in case.operations}
    drilled = tuple(
        replace(s, operations=tuple(case_ops.get(op.key, op) for op in s.operations))
        for s in (*bore, *other)
    )
    made = [op for s in as_it_stands(drilled) for op in s.operations if op.feature == "grub"]

    assert all(op.through for op in made if op.verb in {"drill", "tap"})
