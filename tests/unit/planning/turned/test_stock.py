"""The lump as sawn: to length, or longer by a chucking piece, out of a bar of any length."""

from __future__ import annotations

import pytest

from .parts import cases_of

PIN = '[blank]\nbar = "{}"\n[round.pin]\ndiameter = "20"\nlong = "30"\n'


def test_a_bar_of_no_stated_length_is_as_long_as_the_plan_needs() -> None:
    lengths = [case.stock.saw for case in cases_of(PIN.format("round 24")) if case.stock]

    assert lengths[0] == 32.0
    assert len(lengths) == 3
    assert min(lengths[1:]) > 50


def test_no_more_is_sawn_than_is_there() -> None:
    for given in (30.6, 32, 45, 58, 200):
        for case in cases_of(PIN.format(f"round 24 x {given}")):
            assert case.stock is not None
            assert case.stock.saw <= given + 1e-9


@pytest.mark.derived(by="hand: 30 long, a skim of 1 a side; grip 24, room 2, tool 2, face 0.5")
def test_a_chucking_piece_is_gripped_parted_and_faced() -> None:
    sawn, right, left = (c.stock for c in cases_of(PIN.format("round 24 x 200")))

    assert sawn is not None
    assert right is not None
    assert left is not None
    assert (sawn.low, sawn.high) == (-1.0, 31.0)
    assert (right.low, right.high) == (-1.0, 30 + 24 + 2 + 2 + 0.5)
    assert (left.low, left.high) == (-28.5, 31.0)
    assert right.to_face("right") == 0.5


@pytest.mark.parametrize("bar", ["hexagon 24 x 80", "square 24 x 80"])
def test_corners_count_for_the_swing_and_flats_for_the_part(bar: str) -> None:
    stock = cases_of(PIN.format(bar))[0].stock

    assert stock is not None
    assert stock.solid == 24.0
    assert stock.across > 27.0
