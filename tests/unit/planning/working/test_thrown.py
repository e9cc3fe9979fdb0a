"""The depthing bush: its throw seen twice, its walls, its burr, what is still on its left face."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from halfthou.drawing.solve import solve
from halfthou.planning.make_plan import make_plan
from halfthou.planning.worked import Step, Worked
from halfthou.planning.working.whole import work_out
from halfthou.present.words_measures import length_first_words
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop

DATA = Path(__file__).parents[3] / "data" / "drawings" / "depthing-bush.toml"


@cache
def worked() -> Worked:
    text = DATA.read_text("utf-8")
    part, shop = solve(read_part_text(text, name=DATA.name)), default_workshop()
    return work_out(make_plan(part, shop), part, shop)


def step_of(verb: str, feature: str) -> Step:
    return next(
        step
        for one in worked().set_ups
        for step in one.steps
        if (step.operations[0].verb, step.operations[0].feature) == (verb, feature)
    )


@pytest.mark.derived(by="a rim of 20, 0.8 off its middle: 9.2 on that side, 10.8 on the other")
def test_a_spot_on_the_wrong_side_is_seen_by_rule_before_it_is_drilled() -> None:
    check = step_of("drill", "bore").check

    assert check is not None
    assert check.what.startswith("spot from the bottom of the rim, the rod level toward you")
    assert check.expect == pytest.approx(9.2)
    assert check.expect + check.within < 10.8


@pytest.mark.derived(by="rim 10, bore 3, throw 0.8: 10 - 3 - 0.8 and 10 - 3 + 0.8")
def test_the_throw_is_measured_as_the_thin_and_the_thick_wall() -> None:
    walls = {m.where: m.aim for m in step_of("ream", "bore").measures if "wall" in m.where}

    assert walls["thin wall, bore to rim"] == pytest.approx(6.2, abs=0.01)
    assert walls["thick wall, bore to rim"] == pytest.approx(7.8, abs=0.01)


def test_the_burr_of_a_bore_across_a_tapped_hole_is_taken_off_by_tap_and_reamer() -> None:
    said = step_of("ream", "bore").remarks

    assert any("plug tap through the grub hole" in one and "reamer" in one for one in said)


@pytest.mark.derived(by="3 from the finished face, 0.5 still to be faced off it")
def test_a_spot_is_looked_for_from_the_end_as_it_stands_not_as_it_will_be() -> None:
    check = step_of("spot", "grub").check

    assert check is not None
    assert check.expect == pytest.approx(3.5)


@pytest.mark.derived(by="flange 6 and 0.1 to 0.8 over; the bush overall is 18.1 to 18.8")
def test_what_is_measured_before_gripping_is_called_by_the_length_it_is() -> None:
    gated = [length_first_words(one, "mm") for one in worked().set_ups]
    told = next(one for one in gated if one)

    assert "the thickness of the flange by caliper: 6.1 to 6.8" in told
