"""Throwing work over in the lathe: the clock's reading and the packing."""

from __future__ import annotations

import math

import pytest

from halfthou.errors import OutOfRangeError
from halfthou.handbook.off_axis import clock_over_the_turn, packing, packing_for_flat_jaws


@pytest.mark.published(source='R. Thibault, "Turning an eccentric hole in a 3-jaw chuck" (2000)')
def test_packing_is_that_of_the_published_valve_gear_eccentric() -> None:
    # radius 1.6875 in, throw 0.313 in; printed 0.448
    inch = 25.4

    assert packing(throw=0.313 * inch, diameter=3.375 * inch) / inch == pytest.approx(
        0.448, abs=5e-4
    )


@pytest.mark.derived(by="distance of each jaw's line from the work's middle, by coordinates")
@pytest.mark.parametrize(("throw", "diameter"), [(0.8, 14.0), (5.0, 30.0), (8.0, 20.0)])
def test_every_jaw_bears_on_the_round_with_that_packing(throw: float, diameter: float) -> None:
    thick, radius = packing(throw=throw, diameter=diameter), diameter / 2
    open_to = radius - throw + thick  # how far the scroll stands open: the packed jaw tells it
    middle = (-throw, 0.0)  # away from the packed jaw, which lies along x

    for turned in (120.0, 240.0):
        jaw = (
            open_to * math.cos(math.radians(turned)),
            open_to * math.sin(math.radians(turned)),
        )
        assert math.dist(jaw, middle) == pytest.approx(radius)


@pytest.mark.derived(by="a flat face stands one radius from the middle, square to its jaw")
def test_flat_jaws_ask_for_half_as_much_again_as_the_throw() -> None:
    assert packing_for_flat_jaws(0.8) == pytest.approx(1.2)
    assert packing(throw=0.8, diameter=14.0) < packing_for_flat_jaws(0.8)


@pytest.mark.derived(by="nearest and farthest place of a circle about a line off its middle")
def test_the_clock_reads_twice_the_throw() -> None:
    assert clock_over_the_turn(0.8) == pytest.approx(1.6)


def test_a_throw_outside_the_work_is_refused() -> None:
    with pytest.raises(OutOfRangeError, match="outside work"):
        packing(throw=8.0, diameter=14.0)
