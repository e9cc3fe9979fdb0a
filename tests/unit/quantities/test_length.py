from __future__ import annotations

import pytest

from halfthou.errors import InputFault
from halfthou.quantities import DrawingUnits, decimal_length, parse_length


@pytest.mark.derived(by="hand arithmetic, 25.4 mm to the inch")
@pytest.mark.parametrize(
    ("text", "units", "value"),
    [
        ("1 3/8 in", "mm", 34.925),
        ('1-3/8"', "mm", 34.925),
        ("7/16", "in", 11.1125),
        (".875", "in", 22.225),
        (".875", "mm", 0.875),
        ("22.2 mm", "in", 22.2),
        ("22,2", "mm", 22.2),
        ("2 in", "mm", 50.8),
        ("35", "mm", 35.0),
        ("35", "in", 889.0),
        ("  4.000 ", "in", 101.6),
    ],
)
def test_a_length_is_read_in_its_own_unit_or_the_drawings(
    text: str, units: DrawingUnits, value: float
) -> None:
    length = parse_length(text, units=units)

    assert length.value == value
    assert length.write() == text


def test_form_and_decimal_places_are_kept_for_the_general_tolerance() -> None:
    fraction = parse_length("7/8", units="in")
    decimal = parse_length(".8750", units="in")
    whole = parse_length("2", units="in")

    assert (fraction.form, fraction.places) == ("fraction", 0)
    assert (decimal.form, decimal.places) == ("decimal", 4)
    assert (whole.form, whole.places) == ("decimal", 0)


def test_a_fraction_on_a_drawing_in_mm_must_say_inches() -> None:
    with pytest.raises(InputFault) as fault:
        parse_length("7/16", units="mm")

    assert str(fault.value) == (
        "'7/16' is a fraction without a unit on a drawing in mm\n"
        "  why: fractions are sizes in inches; fractions of a millimetre are not drawn\n"
        "  try: write '7/16 in', or write the size in mm as a decimal"
    )


@pytest.mark.parametrize(
    ("text", "what", "why"),
    [
        ("", "a length is empty", ""),
        ("twelve", "'twelve' cannot be read as a length", ""),
        (
            "-3",
            "'-3' cannot be read as a length",
            "a length has no sign; the side is given in words",
        ),
        ("5 cm", "'5 cm' cannot be read as a length", "drawings here are in mm or inches"),
        ("3 1/0 in", "'3 1/0 in' has a fraction that is not less than one: 1/0", None),
        ("1 9/8 in", "'1 9/8 in' has a fraction that is not less than one: 9/8", None),
        ("1.2.3", "'1.2.3' cannot be read as a length", ""),
        ("12 13", "'12 13' cannot be read as a length", ""),
    ],
)
def test_a_text_that_is_no_length_is_named_with_the_reason(
    text: str, what: str, why: str | None
) -> None:
    with pytest.raises(InputFault) as fault:
        parse_length(text, units="mm")

    assert fault.value.what == what
    assert fault.value.tries
    if why is not None:
        assert fault.value.why == why


def test_a_length_nobody_wrote_is_given_a_text_that_reads_back() -> None:
    length = decimal_length(12.7, unit="in", places=3)

    assert length.text == "0.500 in"
    assert parse_length(length.text, units="mm") == length


def test_a_text_far_too_long_is_refused_before_it_is_taken_apart() -> None:
    with pytest.raises(InputFault) as fault:
        parse_length("9" * 5000, units="mm")

    assert str(fault.value) == (
        "'99999999999999999999...' is too long for a length: 5000 characters\n"
        "  why: nothing on a drawing takes over 120\n"
        "  try: look for a missing quote before it"
    )
