"""The order of the hands at a step: every cut with what it leaves, every remark at its moment."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Final

import pytest

from halfthou.planning.make_plan import make_plan
from halfthou.planning.worked import Step
from halfthou.planning.working.whole import work_out
from halfthou.present.words_ladder import rungs_of
from halfthou.present.words_moments import MOMENTS, lines_of
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
