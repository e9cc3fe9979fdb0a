"""The order of the hands at a step: every cut with what it leaves, every remark at its moment."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Final

import pytest

from halfthou.planning.make_plan import make_plan
from halfthou.planning.worked import Step, WorkedSetUp
from halfthou.planning.working import words
from halfthou.planning.working.whole import work_out
from halfthou.present.words_ladder import ladder_words, rungs_of
from halfthou.present.words_moments import MEASURED_EACH, MOMENTS, lines_of
from halfthou.present.words_steps import order_words
from halfthou.store.part_file import read_part
from halfthou.workshop.default import default_workshop

SHOP: Final = default_workshop()
PARTS: Final = ("bush", "t-slot-nut", "flange-plate")


@cache
def steps_of(name: str) -> tuple[Step, ...]:
    part = read_part(Path(__file__).parents[2] / "data" / "parts" / f"{name}.toml")
    worked = work_out(make_plan(part, SHOP), part, SHOP)
    return tuple(step for set_up in worked.set_ups for step in set_up.steps)


@pytest.mark.parametrize("name", PARTS)
def test_the_ladder_tells_every_cut_once_and_in_order(name: str) -> None:
    for step in steps_of(name):
        rungs = rungs_of(step, SHOP)
        told = [number for rung in rungs for number in range(rung.first, rung.last + 1)]

        assert told == list(range(1, sum(lot.count for lot in step.passes) + 1)), step.tool


@pytest.mark.parametrize("name", PARTS)
def test_settings_in_the_ladder_are_those_of_planning_unrounded(name: str) -> None:
    for step in steps_of(name):
        settings = [move for lot in step.passes for move in lot.settings]
        for rung in rungs_of(step, SHOP):
            if rung.move is not None and settings:
                assert rung.move is settings[rung.last - 1]
                assert rung.move.divisions * 2 == round(rung.move.divisions * 2)


@pytest.mark.parametrize("name", PARTS)
def test_turned_sizes_come_down_and_bores_go_up_as_the_slide_goes_in(name: str) -> None:
    for step in steps_of(name):
        if not step.operations or step.operations[-1].verb not in ("turn", "bore"):
            continue
        sizes = [rung.leaves for rung in rungs_of(step, SHOP)]
        down = step.operations[-1].verb == "turn"

        assert sizes == sorted(sizes, reverse=down)


@pytest.mark.parametrize("name", PARTS)
def test_every_remark_has_a_moment_of_the_hands(name: str) -> None:
    for step in steps_of(name):
        for remark in step.remarks:
            assert all(moment in MOMENTS and line for moment, line in lines_of(remark))


@cache
def set_ups_of_the_demo(name: str) -> tuple[WorkedSetUp, ...]:
    part = read_part(Path(str(files("halfthou") / "demo" / f"{name}.toml")))
    return work_out(make_plan(part, SHOP), part, SHOP).set_ups


@pytest.mark.derived(by="a division of 0.02 on the radius is 0.04 on the diameter")
def test_the_last_cut_of_a_close_size_goes_on_by_its_reading() -> None:
    close = [s for s in steps_of("bush") if any(one in s.remarks for one in MEASURED_EACH)]
    ladders = [ladder_words(step, "mm", SHOP, "") for step in close]

    assert [one.rungs[-1].dial for one in ladders if one is not None] == ["rest / 0.04"] * 2


@pytest.mark.derived(by="jaws at 8.5 less 0.3; the flange is 8.00 and its other side is cut later")
def test_a_tool_stays_clear_of_the_jaws_where_the_lip_it_leaves_is_faced_later() -> None:
    turned = [
        step
        for one in set_ups_of_the_demo("barrel-end")
        for step in one.steps
        if step.operations[0].feature == "flange" and step.operations[0].verb == "turn"
    ]

    assert [max(m.to for m in step.moves if m.slide == "saddle") for step in turned] == [
        pytest.approx(8.2)
    ]
    assert words.LIP_LEFT in turned[0].remarks


def test_what_was_locked_is_unlocked_and_the_belt_is_changed_before_the_shoulder() -> None:
    lathe = [
        one for one in set_ups_of_the_demo("barrel-end") if one.set_up.scheme.machine == "lathe"
    ]
    finish = next(
        step for one in lathe for step in one.steps if words.ROUGHED_SHOULDER in step.remarks
    )
    part = read_part(Path(str(files("halfthou") / "demo" / "barrel-end.toml")))
    said = order_words(finish, part, "mm", SHOP).after
    belt = next(n for n, line in enumerate(said) if line.startswith("Belt to "))
    out = next(n for n, line in enumerate(said) if "faces the shoulder" in line)

    assert belt < out
    assert "unlock the saddle" in lathe[0].steps[1].remarks


@pytest.mark.derived(
    by="22 hangs on the 4 +-0.1 of the recess: half of 0.2 is what a caliper says"
)
def test_a_length_only_others_hang_on_is_given_what_a_caliper_can_say() -> None:
    long = [
        m
        for one in set_ups_of_the_demo("barrel-end")
        for step in one.steps
        for m in step.measures
        if m.kind == "length" and m.aim == pytest.approx(22.0) and m.high > m.low
    ]

    assert {(round(m.low, 3), round(m.high, 3)) for m in long} == {(21.9, 22.1)}
