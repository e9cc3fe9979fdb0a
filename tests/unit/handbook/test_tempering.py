"""Tempering colours against the printed table."""

from __future__ import annotations

import pytest

from halfthou.handbook.tempering import tempering_heat


@pytest.mark.published(source="I. R. Butt, The Tinman's Manual, table of tempering")
@pytest.mark.parametrize(
    ("colour", "fahrenheit"),
    [("straw", 450), ("dark straw", 470), ("brown yellow", 500), ("purple", 530), ("blue", 570)],
)
def test_a_tempering_colour_shows_at_the_heat_printed(colour: str, fahrenheit: float) -> None:
    heat = tempering_heat(colour)

    assert heat is not None
    assert heat * 9 / 5 + 32 == pytest.approx(fahrenheit)


def test_a_colour_that_is_not_in_the_table_has_no_heat() -> None:
    assert tempering_heat("sky green") is None
