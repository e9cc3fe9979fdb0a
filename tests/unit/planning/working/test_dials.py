"""Travels told in the turns and divisions of a dial."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfthou.planning.working.dials import division_travel, move, on_dial, turns_and_divisions
from halfthou.workshop.model import Dial

RADIUS = Dial(name="cross-slide", lead=2.0, division=0.02, reads="radius", backlash=0.15)
DIAMETER = Dial(name="cross-slide", lead=2.0, division=0.02, reads="diameter", backlash=0.15)
INCH = Dial(name="x", lead=2.54, division=0.0254, reads="travel", backlash=0.1, units="in")


@pytest.mark.derived(by="2 mm a turn, 0.02 a division")
def test_a_travel_is_whole_turns_and_divisions() -> None:
    assert turns_and_divisions(9.525, RADIUS) == (4, 76.5)


@pytest.mark.derived(by="a division marked 0.02 on diameter moves the slide 0.01: 200 to the turn")
def test_a_dial_that_reads_diameter_has_twice_the_divisions() -> None:
    assert division_travel(DIAMETER) == 0.01
    assert turns_and_divisions(2.5, DIAMETER) == (1, 50.0)


@pytest.mark.derived(by="1.250 in = 12 turns of 0.100 and 50 thou")
def test_a_dial_in_thous_counts_thous() -> None:
    assert turns_and_divisions(1.25 * 25.4, INCH) == (12, 50.0)


@pytest.mark.derived(by="half a division is the least that can be read")
def test_short_never_goes_past() -> None:
    assert on_dial(0.249, RADIUS, rounding="short") == pytest.approx(0.24)
    assert on_dial(0.249, RADIUS) == pytest.approx(0.25)


def test_without_a_dial_it_is_read_by_rule() -> None:
    one = move("tailstock", 33.3, None, sense="left")

    assert (one.by, one.turns, one.divisions, one.to) == ("rule", 0, 0.0, 33.3)


@given(st.floats(min_value=0.0, max_value=500.0), st.sampled_from([RADIUS, DIAMETER, INCH]))
def test_turns_and_divisions_make_the_travel_to_half_a_division(travel: float, dial: Dial) -> None:
    turns, divisions = turns_and_divisions(travel, dial)
    step = division_travel(dial)

    assert turns * dial.lead + divisions * step == pytest.approx(travel, abs=0.2501 * step + 1e-6)
    assert 0 <= divisions < dial.lead / step
