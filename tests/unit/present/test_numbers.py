"""Figures on a card: rounded inward, never wider than the drawing allows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfthou.present.numbers import THIN, aim, doubt, limits, minutes, plain

SIZES = st.floats(min_value=1.0, max_value=200.0)
WIDTHS = st.floats(min_value=0.005, max_value=1.0)


@given(low=SIZES, width=WIDTHS)
def test_printed_limits_never_allow_what_the_drawing_forbids(low: float, width: float) -> None:
    lower, upper = (float(each) for each in limits(low, low + width, "mm").split("–"))

    assert low - 1e-9 <= lower
    assert upper <= low + width + 1e-9


@given(low=SIZES, width=st.floats(min_value=0.02, max_value=1.0))
def test_printed_limits_keep_nearly_all_of_the_tolerance(low: float, width: float) -> None:
    lower, upper = (float(each) for each in limits(low, low + width, "mm").split("–"))

    assert upper - lower >= 0.85 * width


@given(value=st.floats(min_value=0.001, max_value=0.5))
def test_a_doubt_is_never_made_smaller_by_writing_it(value: float) -> None:
    assert float(doubt(value, "mm").removeprefix("±")) >= value - 1e-6


@pytest.mark.derived(by="hand arithmetic: 19.009 / 25.4 = 0.74838, 19.030 / 25.4 = 0.74921")
def test_limits_in_inches_are_rounded_inward_to_a_tenth_of_a_thou() -> None:
    assert limits(19.009, 19.030, "in") == "0.7484–0.7492"


def test_both_units_stand_side_by_side_and_are_not_parted_at_the_end_of_a_line() -> None:
    assert aim(19.05, 18.8, 19.3, "both") == f"19.05 (0.750{THIN}in)"
    assert plain(25.4, "both") == f"25.4 (1{THIN}in)"


def test_hours_are_said_without_a_zero_of_minutes() -> None:
    assert [minutes(59.6), minutes(121.0), minutes(12.0)] == ["1 h", "2 h 1 min", "12 min"]
