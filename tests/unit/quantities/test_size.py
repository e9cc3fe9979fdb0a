from __future__ import annotations

import pytest

from halfthou.errors import InputFault
from halfthou.quantities import (
    DrawingUnits,
    FitClass,
    FitWord,
    Limits,
    PlusMinus,
    Tolerance,
    parse_size,
)


@pytest.mark.parametrize(
    ("text", "units", "nominal", "tolerance"),
    [
        ("25 H7", "mm", 25.0, FitClass(letter="H", grade=7)),
        ("30 h9", "mm", 30.0, FitClass(letter="h", grade=9)),
        ("12 JS7", "mm", 12.0, FitClass(letter="JS", grade=7)),
        ("3/4 f7", "in", 19.05, FitClass(letter="f", grade=7)),
        ("1/4 P9", "in", 6.35, FitClass(letter="P", grade=9)),
        ("20 +0.02/-0", "mm", 20.0, PlusMinus(lower=0.0, upper=0.02)),
        ("20 +0.02/0", "mm", 20.0, PlusMinus(lower=0.0, upper=0.02)),
        ("20 +0.02 -0", "mm", 20.0, PlusMinus(lower=0.0, upper=0.02)),
        ("25 -0/-0.021", "mm", 25.0, PlusMinus(lower=-0.021, upper=0.0)),
        ("25 +0.041/+0.028", "mm", 25.0, PlusMinus(lower=0.028, upper=0.041)),
        ("40 ±0.05", "mm", 40.0, PlusMinus(lower=-0.05, upper=0.05)),
        ("40 +-.005", "mm", 40.0, PlusMinus(lower=-0.005, upper=0.005)),
        ("40 +/- 0.05 mm", "in", 40.0, PlusMinus(lower=-0.05, upper=0.05)),
        ("1 3/8 ±1/64", "in", 34.925, PlusMinus(lower=-0.396875, upper=0.396875)),
        ("1-1/2 +1/64/-0", "in", 38.1, PlusMinus(lower=0.0, upper=0.396875)),
        ("19.1 mm +0.1/-0", "in", 19.1, PlusMinus(lower=0.0, upper=0.1)),
        ("19.1 +0.1/-0 mm", "in", 19.1, PlusMinus(lower=0.0, upper=0.1)),
        ("20.00/19.98", "mm", 20.0, Limits(lower=19.98, upper=20.0)),
        ("19.98/20", "mm", 19.98, Limits(lower=19.98, upper=20.0)),
        ("20.00-19.98", "mm", 20.0, Limits(lower=19.98, upper=20.0)),
        (".875/.873", "in", 22.225, Limits(lower=22.1742, upper=22.225)),
        ("7/8", "in", 22.225, None),
        ("7/8 push", "in", 22.225, FitWord(word="push")),
        ("3/4 running", "in", 19.05, FitWord(word="running")),
        ("3/4 Press", "in", 19.05, FitWord(word="press")),
        ("20 MM h9", "in", 20.0, FitClass(letter="h", grade=9)),
        ("3/4 press fit", "in", 19.05, FitWord(word="press")),
    ],
)
@pytest.mark.derived(by="hand arithmetic, 25.4 mm to the inch")
def test_a_size_is_read_with_its_tolerance(
    text: str, units: DrawingUnits, nominal: float, tolerance: Tolerance | None
) -> None:
    size = parse_size(text, units=units)

    assert size.nominal.value == nominal
    assert size.tolerance == tolerance
    assert size.write() == text


def test_brackets_words_and_signs_are_read_beside_the_figure() -> None:
    assert parse_size("(30)", units="mm").reference
    assert parse_size("24 may be less", units="mm").may == "less"
    assert parse_size("24 ±0.1 may be more", units="mm").may == "more"
    assert parse_size("28 fixed", units="mm").fixed
    assert parse_size("ø12 k6", units="mm").prefix == "ø"
    assert parse_size("R3", units="mm").prefix == "R"
    assert parse_size("dia 24", units="mm").prefix == "ø"


@pytest.mark.derived(by="hand arithmetic")
def test_written_limits_give_deviations_from_the_first_figure() -> None:
    assert parse_size("20.00/19.98", units="mm").own_deviations() == pytest.approx((-0.02, 0))
    assert parse_size("20 +0.02/-0", units="mm").own_deviations() == (0, 0.02)
    assert parse_size("25 H7", units="mm").own_deviations() is None


@pytest.mark.parametrize(
    ("text", "what", "why"),
    [
        ("", "a size is empty", ""),
        (
            "20 +0.02",
            "'20 +0.02' cannot be read as a size",
            "only one deviation is given; the other may be 0 but must be written",
        ),
        (
            "25 H7/g6",
            "'25 H7/g6' cannot be read as a size",
            "a part has one of the two classes of a fit, its mate the other",
        ),
        (
            "25 i7",
            "'25 i7' names no fit: i7",
            "the letters of ISO 286 run from a to zc without i, l, o, q, w, the grades to 18",
        ),
        ("40 ±0", "'40 ±0' cannot be read as a size", "±0 allows nothing"),
        ("20.0/20.0", "'20.0/20.0' cannot be read as limits", "both limits are the same"),
        (
            "20.0-0.5",
            "'20.0-0.5' cannot be read as a size",
            "limits with a dash must lie close to each other",
        ),
        (
            "20 +0.1/0.2",
            "'20 +0.1/0.2' cannot be read as a size",
            "the deviation 0.2 has no sign",
        ),
        (
            "20 -0/-0",
            "'20 -0/-0' cannot be read as a size",
            "both deviations are the same, so nothing is allowed",
        ),
        ("20 tight", "'20 tight' cannot be read as a size", ""),
    ],
)
def test_a_text_that_is_no_size_is_named_with_the_reason(text: str, what: str, why: str) -> None:
    with pytest.raises(InputFault) as fault:
        parse_size(text, units="mm")

    assert (fault.value.what, fault.value.why) == (what, why)
    assert fault.value.tries


def test_a_fraction_of_a_millimetre_is_refused_in_a_tolerance_too() -> None:
    with pytest.raises(InputFault) as fault:
        parse_size("20 ±1/64", units="mm")

    assert fault.value.what == "'20 ±1/64' is a fraction without a unit on a drawing in mm"
    assert fault.value.tries == ("write it in mm as a decimal",)


def test_a_fit_class_knows_hole_from_shaft() -> None:
    assert FitClass(letter="H", grade=7).hole
    assert not FitClass(letter="js", grade=6).hole
    assert FitClass(letter="js", grade=6).symbol == "js6"
