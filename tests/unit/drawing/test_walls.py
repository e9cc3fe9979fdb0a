"""Walls of holes in turned metal, by hand: a flange of 60 by 10 before a hub of 30 by 20."""

from __future__ import annotations

import pytest

from halfthou.drawing.solve import solve
from halfthou.store.part_file import read_part_text

FLANGED = """
[part]
name = "flanged hub"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"
wall = "2"

[blank]
bar = "round 65 x 60"

[round.flange]
diameter = "60"
long = "10"

[round.hub]
diameter = "30"
long = "20"
"""


def told_of(hole: str, text: str = FLANGED) -> list[str]:
    part = solve(read_part_text(f"{text}\n[hole.a]\n{hole}", name="trial.toml"))
    return [finding.what for finding in part.findings]


def ring(circle: str, depth: str = "x 8") -> str:
    return (
        f'in = "left"\nsize = "5 {depth}"\nat = "level with flange"\n'
        f'copies = "4 on {circle} circle, first at top"\n'
    )


def cross(across: str, along: str = "10 left of right", size: str = "5 through") -> str:
    return f'in = "hub top"\nsize = "{size}"\nat = ["{along}", "{across} in front of hub"]\n'


@pytest.mark.derived(by="30 less 26.5 less 2.5")
def test_holes_of_a_ring_near_the_rim_leave_a_wall() -> None:
    assert told_of(ring("53")) == ["the wall between a and flange is 1.000 mm against 2.000 mm"]


@pytest.mark.derived(by="the hole's edge 18.5 from the axis less 2.5, a hub of 15")
def test_a_hole_past_the_outside_of_a_smaller_round_and_clear_of_it_is_no_wall() -> None:
    assert told_of(ring("37", "x 25")) == []


@pytest.mark.derived(by="the hole's edge 16 less 2.5 = 13.5 from the axis, a hub of 15: 1.5 in it")
def test_a_deep_hole_that_bites_into_the_side_of_a_smaller_round_is_told() -> None:
    assert told_of(ring("32", "x 25")) == ["a breaks into hub: they overlap by 1.500 mm"]


@pytest.mark.derived(by="as above; the hole itself ends where the hub begins")
def test_a_hole_through_the_flange_that_comes_out_on_the_hub_is_told() -> None:
    assert told_of(ring("32", "through")) == ["a breaks into hub: they overlap by 1.500 mm"]


def test_a_blind_hole_that_ends_short_of_the_hub_does_not_touch_it() -> None:
    assert told_of(ring("32")) == []


@pytest.mark.derived(by="15 less 12 less 2.5")
def test_a_hole_square_to_the_axis_near_the_outside_leaves_a_wall() -> None:
    assert told_of(cross("12")) == ["the wall between a and hub is 0.500 mm against 2.000 mm"]


@pytest.mark.derived(by="14 and 2.5 less 15")
def test_a_hole_square_to_the_axis_that_comes_out_at_its_side_is_told() -> None:
    assert told_of(cross("14")) == ["a breaks into hub: they overlap by 1.500 mm"]


def test_a_shallow_hole_square_to_the_axis_is_not_judged_sideways() -> None:
    assert told_of(cross("12", size="5 x 4 flat")) == []


@pytest.mark.derived(by="3 less 2.5")
def test_a_hole_square_to_the_axis_near_an_end_leaves_a_wall() -> None:
    hole = 'in = "hub top"\nsize = "5 through"\nat = "3 left of right"\n'

    assert told_of(hole) == ["the wall between a and hub right is 0.500 mm against 2.000 mm"]


@pytest.mark.derived(by="13 less 10: the flange goes on where the hub ends")
def test_an_end_that_other_metal_covers_is_no_wall() -> None:
    assert told_of('in = "hub top"\nsize = "5 through"\nat = "13 right of left"\n') == []


@pytest.mark.derived(by="as with a limit, against none")
def test_holes_that_break_out_are_told_where_no_limit_is_stated() -> None:
    free = FLANGED.replace('wall = "2"\n', "")

    assert told_of(ring("32", "x 25"), free) == ["a breaks into hub: they overlap by 1.500 mm"]
    assert told_of(cross("12"), free) == []
