"""The T-slot nut of DIN 508 from a square bar: operations, holdings, orders, plan."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

from halfthou.drawing.geometry import Region
from halfthou.drawing.model import Part
from halfthou.planning.assemble import Case, problem_of, set_ups_of
from halfthou.planning.milled.case import case_milled
from halfthou.planning.milled.held_sides import PARALLELS
from halfthou.planning.model import SetUp
from halfthou.planning.solving.solver import solve
from halfthou.shapes.solids import cut, solid_of, volume
from halfthou.store.part_file import read_part
from halfthou.workshop.default import default_workshop

PARTS = Path(__file__).parents[2] / "data" / "parts"


@cache
def nut() -> Part:
    return read_part(PARTS / "t-slot-nut.toml")


@cache
def case() -> Case:
    return case_milled(nut(), default_workshop())


@cache
def plan() -> tuple[SetUp, ...]:
    answer = solve(problem_of(case()))
    assert answer is not None
    return set_ups_of(case(), answer)


@pytest.mark.derived(by="hand arithmetic: body less two steps, two chamfers and the tapping hole")
@pytest.mark.parametrize("which", [0, -1])
def test_the_blank_less_all_regions_is_the_nut(which: int) -> None:
    dropped = {
        key
        for choice in case().alternatives
        for bundle in choice.bundles
        if bundle is not choice.bundles[which]
        for key in bundle
    }
    regions: list[Region] = [
        r for op in case().operations if op.key not in dropped for r in op.region
    ]
    hole = next(s.size for s in nut().surfaces if s.name == "thread")
    assert hole is not None
    by_hand = 18 * 14 * 18 - 2 * 3 * 7 * 18 - 2 * 18 / 2 - math.pi / 4 * hole.nominal**2 * 14

    left = cut(solid_of(case().metal), [solid_of(r) for r in regions])

    assert volume(left) == pytest.approx(by_hand, abs=0.5)


def test_every_operation_has_a_holding_and_a_tool() -> None:
    held = {key for scheme in case().schemes for key in scheme.can}

    assert {op.key for op in case().operations} <= held
    assert all(op.tools for op in case().operations)
    assert case().refused == ()


def test_no_holding_cuts_what_it_needs_or_bans() -> None:
    for scheme in case().schemes:
        named = [key for key, _ in (*scheme.need, *scheme.ban)]

        assert not scheme.can & set(named), scheme.key
        assert len(scheme.need) == len({key for key, _ in scheme.need})
        assert len(scheme.ban) == len({key for key, _ in scheme.ban})


def test_between_raw_faces_only_a_first_face_is_cut() -> None:
    by_key = {op.key: op for op in case().operations}
    for scheme in case().schemes:
        if "raw" in scheme.key.split("round bar")[0] and scheme.machine == "mill":
            assert all(by_key[key].verb == "mill face" for key in scheme.can), scheme.key


def test_the_jaws_hold_a_third_of_the_height_and_stay_below_the_cut() -> None:
    neck = 7.0
    for scheme in case().schemes:
        if scheme.device.device != "vice":
            continue
        grip = scheme.grip_high - scheme.grip_low

        assert grip >= 5.0
        assert grip <= scheme.device.jaw_depth
        if "mill left-shoulder" in scheme.can and scheme.faces == (0.0, 1.0, 0.0):
            assert scheme.grip_high <= neck - 1.0 + 1e-9


@pytest.mark.derived(by="the jaws are 25 deep: what they do not grip is a pair of the set")
def test_the_work_lies_on_a_pair_that_a_set_of_parallels_has() -> None:
    held = [s for s in case().schemes if s.parallels is not None and s.machine == "mill"]

    assert len(held) > 10
    for scheme in held:
        assert scheme.parallels is not None
        high = scheme.parallels[0]
        grip = scheme.grip_high - scheme.grip_low
        assert high == pytest.approx(scheme.device.jaw_depth - grip) or high == 0.0
        assert high in (0.0, *PARALLELS)


@pytest.mark.derived(by="tap of 10 in the middle of 18: 4 beside it, less 0.4, to half a mm")
def test_the_parallels_clear_the_tap_that_comes_out_between_them() -> None:
    tapped = [s for s in case().schemes if "thread tap" in s.can and s.parallels is not None]

    assert tapped
    assert {s.parallels[1] for s in tapped if s.parallels and s.parallels[0] > 0} == {3.5}


def test_a_round_bar_lies_at_a_raw_moving_jaw_and_the_better_face_at_the_fixed_one() -> None:
    for scheme in case().schemes:
        if scheme.device.device != "vice":
            continue
        fixed, moving = (name.startswith("stock") for name in scheme.grips)

        assert not (fixed and not moving), scheme.key
        assert ("round bar" in scheme.key) == (moving and not fixed)


def test_the_hole_is_spotted_drilled_and_tapped_in_that_order() -> None:
    pairs = {(o.before, o.after) for o in case().orders if o.hard}

    assert ("thread spot", "thread pilot") in pairs
    assert ("thread pilot", "thread drill") in pairs
    assert ("thread drill", "thread tap") in pairs
    assert ("mill top", "thread spot") in pairs


def test_every_order_names_its_rule_and_gives_a_reason() -> None:
    assert all(order.rule and order.reason for order in case().orders)
    assert all(order.hard or order.cost > 0 for order in case().orders)


@pytest.mark.slow
@pytest.mark.published(
    source="six-sided block, R. G. Sparber 2007: only machined faces locate once there is one"
)
def test_the_block_is_squared_from_one_raw_hold_on() -> None:
    milled = [s for s in plan() if s.scheme.machine == "mill"]
    first, *later = milled

    assert all(name.startswith("stock") for name in first.scheme.grips)
    for set_up in later:
        assert not set_up.scheme.grips[0].startswith("stock"), set_up.scheme.key


@pytest.mark.slow
def test_the_nut_is_sawn_first_and_deburred_last() -> None:
    assert plan()[0].operations[0].verb == "saw"
    assert plan()[-1].operations[-1].verb == "deburr"
