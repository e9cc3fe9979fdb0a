from __future__ import annotations

import pytest

from halfthou.errors import InputFault
from halfthou.quantities import parse_thread


@pytest.mark.parametrize(
    ("text", "series", "size", "pitch", "tpi"),
    [
        ("4 BA", "BA", "4", None, None),
        ("4BA", "BA", "4", None, None),
        ("1/4 x 40 ME", "ME", "1/4", None, 40),
        ("3/8 BSF", "BSF", "3/8", None, None),
        ('3/8" BSF', "BSF", "3/8", None, None),
        ("1/4 BSW", "BSW", "1/4", None, None),
        ("1 1/8 BSW", "BSW", "1 1/8", None, None),
        ("1-1/8 Whitworth", "BSW", "1 1/8", None, None),
        ("1/4 BSP", "BSP", "1/4", None, None),
        ("M5", "M", "5", None, None),
        ("M10x1", "M", "10", "1", None),
        ("M10 x 1", "M", "10", "1", None),
        ("M2,5", "M", "2.5", None, None),
        ("1/4-20 UNC", "UNC", "1/4", None, 20),
        ("1/4 UNF", "UNF", "1/4", None, None),
        ("10-32 UNF", "UNF", "#10", None, 32),
        ("#10-32 UNF", "UNF", "#10", None, 32),
        ("2-56 UNC", "UNC", "#2", None, 56),
        ("2-4.5 UNC", "UNC", "2", None, 4.5),
        ("1-8 UNC", "UNC", "1", None, 8),
        ("1/4 x 26 BSB", "BSB", "1/4", None, 26),
        ("1/4 brass", "BSB", "1/4", None, None),
        ("3/8 x 26 BSC", "BSC", "3/8", None, 26),
    ],
)
def test_a_thread_is_known_by_its_trade_name(
    text: str, series: str, size: str, pitch: str | None, tpi: float | None
) -> None:
    name = parse_thread(text)

    assert (name.series, name.size, name.pitch, name.tpi) == (series, size, pitch, tpi)
    assert name.hand == "right"
    assert name.write() == text


def test_a_left_hand_thread_says_so_after_its_name() -> None:
    assert parse_thread("3/8 BSF LH").hand == "left"
    assert parse_thread("M10 x 1 left hand").hand == "left"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("1/4 ME", "ME has no set pitch for a size"),
        ("1/4 x 40", "the series is missing"),
        ("4 BSA", ""),
        ("BA", ""),
        ("", ""),
    ],
)
def test_a_text_that_is_no_thread_is_named_with_the_reason(text: str, why: str) -> None:
    with pytest.raises(InputFault) as fault:
        parse_thread(text)

    assert fault.value.why == why
    assert fault.value.tries[0].startswith("write it like ")
