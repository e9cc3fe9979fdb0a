from __future__ import annotations

import math

import pytest

from halfthou.errors import InputFault
from halfthou.quantities import parse_angle


@pytest.mark.derived(by="hand arithmetic, 60 minutes to the degree")
@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("20°", 20),
        ("20 deg", 20),
        ("20 degrees", 20),
        ("20° 30'", 20.5),
        ("20°30'15\"", 20.504166666666666),
        ("30'", 0.5),
        ("1.5°", 1.5),
    ],
)
def test_an_angle_is_read_in_degrees_minutes_and_seconds(text: str, degrees: float) -> None:
    angle = parse_angle(text)

    assert math.degrees(angle.value) == pytest.approx(degrees, rel=1e-12)
    assert angle.write() == text


def test_a_bare_figure_is_no_angle() -> None:
    with pytest.raises(InputFault) as fault:
        parse_angle("20")

    assert str(fault.value) == (
        "'20' cannot be read as an angle\n"
        "  why: a bare figure is a length\n"
        "  try: write it like 20°, 20 deg, 20° 30', 30'"
    )


@pytest.mark.parametrize("text", ["", "20° 60'", "20° 5' 75\"", "° 20", "20°°", "abc"])
def test_a_text_that_is_no_angle_is_refused(text: str) -> None:
    with pytest.raises(InputFault):
        parse_angle(text)
