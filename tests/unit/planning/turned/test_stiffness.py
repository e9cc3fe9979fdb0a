"""How slender stepped work is, against plain bars and against a bar worked out by hand."""

from __future__ import annotations

import pytest

from halfthou.planning.turned.stiffness import Piece, carried, overhung


@pytest.mark.derived(by="a plain bar is as slender as it is long over thick, by definition")
@pytest.mark.parametrize(("length", "across"), [(30.0, 10.0), (84.0, 28.0), (12.0, 6.0)])
def test_a_plain_bar_is_its_own_measure(length: float, across: float) -> None:
    bar = [
        Piece(length=length / 3, diameter=across),
        Piece(length=2 * length / 3, diameter=across),
    ]

    assert overhung(bar, at=length, across=across) == pytest.approx(length / across)
    assert carried(bar, at=length / 2, across=across, in_jaws=False) == pytest.approx(
        length / across
    )


@pytest.mark.derived(
    by="hand: (60^3 - 12^3)/30^4 + 12^3/10^4 = 0.26453 + 0.1728; times 10, cube root 1.635"
)
def test_a_short_thin_end_on_a_stout_bar_is_stiff() -> None:
    work = [Piece(length=48, diameter=30), Piece(length=12, diameter=10)]

    assert overhung(work, at=60, across=10) == pytest.approx(1.635, abs=5e-4)


@pytest.mark.derived(by="hand: middle deflections 7/768 and 1/48 of F l^3 / E I, ratio 7/16")
def test_jaws_at_one_end_leave_seven_sixteenths_of_the_give() -> None:
    bar = [Piece(length=100, diameter=10)]
    free = carried(bar, at=50, across=10, in_jaws=False)
    held = carried(bar, at=50, across=10, in_jaws=True)

    assert (held / free) ** 3 == pytest.approx(7 / 16)


@pytest.mark.derived(by="hand: cut at a quarter, 48 (1/4 3/4)^2 / 3 = 0.5625 of the middle's give")
def test_a_cut_near_the_tailstock_is_stiffer_than_one_in_the_middle() -> None:
    bar = [Piece(length=80, diameter=8)]

    quarter = carried(bar, at=20, across=8, in_jaws=False)

    assert (quarter / 10) ** 3 == pytest.approx(0.5625)


def test_a_push_on_the_centre_itself_bends_nothing() -> None:
    assert carried([Piece(length=80, diameter=8)], at=80, across=8, in_jaws=False) == 0.0
