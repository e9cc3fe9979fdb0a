"""Figures on cards and pages: rounded once, limits to the safe side."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfthou.present.figures import (
    as_drawn,
    dial_setting,
    diameter,
    divisions,
    length,
    limits,
    places_for,
)


@pytest.mark.derived(by="hand arithmetic")
def test_limits_are_rounded_into_the_tolerance() -> None:
    assert limits(15.9996, 16.0184) == "16.000–16.018"
    assert limits(25.4, 25.4127, "in", places=4) == "1.0000–1.0005"


@given(st.floats(0.5, 300.0), st.floats(0.01, 1.0))
def test_a_size_within_the_printed_limits_is_within_the_true_ones(
    low: float, width: float
) -> None:
    printed = limits(low, low + width).split("–")

    assert float(printed[0]) >= low - 1e-8
    assert float(printed[1]) <= low + width + 1e-8


def test_lengths_are_shown_in_mm_inches_or_both() -> None:
    assert length(20.504) == "20.5"
    assert length(12.7, "in") == "0.5"
    assert length(12.7, "both") == "12.7 (0.5 in)"
    assert length(-0.25) == "−0.25"
    assert diameter(16.0, places=3) == "Ø16.000"


def test_nothing_is_never_less_than_nothing() -> None:
    assert length(-0.0001) == "0"


def test_inches_come_out_in_fractions_where_a_drawing_would_write_them() -> None:
    assert as_drawn(25.4 * 7 / 8, "in") == "7/8"
    assert as_drawn(50.8, "in") == "2"
    assert as_drawn(0.5) == "0.5"


def test_a_tolerance_is_shown_to_a_tenth_of_itself() -> None:
    assert [places_for(width) for width in (0.2, 0.021, 0.008, 0.0001)] == [2, 3, 4, 4]


def test_dial_settings_are_turns_and_divisions_read_to_half_a_division() -> None:
    assert divisions(7.5) == "7½"
    assert dial_setting(3, 12.0) == "3 turns + 12 div"
    assert dial_setting(0, 0.0) == "0 div"
