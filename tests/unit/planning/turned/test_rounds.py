"""From which end each round is turned, and what it takes off."""

from __future__ import annotations

import math

import pytest

from halfthou.planning.turned.shape import is_neck, turned_from

from .parts import keys, part_of, sawn

BAR = '[blank]\nbar = "round 40 x 300"\n'


def rounds(*sizes: str) -> str:
    return BAR + "".join(
        f'[round.r{i}]\ndiameter = "{size}"\nlong = "20"\n' for i, size in enumerate(sizes)
    )


def test_a_tool_comes_from_where_nothing_larger_stays() -> None:
    ways = turned_from(part_of(rounds("20", "30", "25")))

    assert ways == {"r0": ("left",), "r1": ("right", "left"), "r2": ("right",)}


def test_a_round_between_larger_ones_is_a_neck_however_far_they_are() -> None:
    # Found by a random part: the third round was cut down by turning the second past it.
    part = part_of(rounds("24", "30", "29", "32"))

    assert turned_from(part)["r1"] == ("left",)
    assert [is_neck(part, f"r{i}") for i in range(4)] == [False, False, True, False]


def test_a_fit_is_roughed_and_finished_and_the_rest_turned_once() -> None:
    case = sawn(rounds("20 h7", "30"))

    assert keys(case, "r0") == ["r0 rough from left", "r0 finish from left"]
    assert keys(case, "r1") == ["r1 from right", "r1 from left"]


@pytest.mark.derived(by="hand: half the difference over the length, atan(0.5/20) = 1.432°")
def test_a_taper_is_turned_to_its_larger_end_first_and_carries_its_angle() -> None:
    for written in ("20 to 19", "19 to 20"):
        case = sawn(rounds(written, "30"))
        rough = next(o for o in case.operations if o.key == "r0 rough from left")
        taper = next(o for o in case.operations if o.verb == "turn taper")

        assert rough.cut_size == 20.0
        assert (taper.from_size, taper.cut_size) == (20.0, 19.0)
        assert math.degrees(taper.angle) == pytest.approx(1.432, abs=1e-3)


def test_a_bright_bar_that_is_the_size_drawn_is_left_alone() -> None:
    assert keys(sawn(rounds("40", "30")), "r0") == []
