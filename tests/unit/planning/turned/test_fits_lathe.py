"""Work that goes into no lathe here, and blanks that no part comes out of."""

from __future__ import annotations

import pytest

from halfthou.errors import NoPlan

from .parts import cases_of

ROUND = '[blank]\nbar = "{bar}"\n[round.disc]\ndiameter = "{across}"\nlong = "{long}"\n'


@pytest.mark.parametrize(
    ("bar", "across", "long", "why"),
    [
        ("round 190 x 30", "185", "20", "190.0 across and the lathe swings 180 over its bed"),
        ("round 130 x 90", "125", "80", "swings 115 over its cross-slide, for work 82 long"),
        ("round 30 x 700", "28", "600", "602 long, the lathe takes 500 between centres"),
        ("round 20 x 60", "24", "30", "it is 20 across and the disc 24"),
        ("round 24 x 60", "24 h7", "30", "a bar does not run true in the chuck"),
    ],
)
def test_what_cannot_be_is_refused_with_the_numbers(
    bar: str, across: str, long: str, why: str
) -> None:
    with pytest.raises(NoPlan) as caught:
        cases_of(ROUND.format(bar=bar, across=across, long=long))

    assert why in caught.value.why
    assert caught.value.tries


def test_a_short_wide_disc_is_turned_beside_the_cross_slide() -> None:
    assert cases_of(ROUND.format(bar="round 130 x 25", across="125", long="20"))
