"""Whatever a person may write in a known form reads, and is given back letter for letter."""

from __future__ import annotations

from fractions import Fraction
from functools import partial

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from halfthou.errors import InputFault
from halfthou.quantities import (
    DrawingUnits,
    parse_angle,
    parse_drill,
    parse_hole_step,
    parse_length,
    parse_size,
    parse_thread,
)

UNITS: st.SearchStrategy[DrawingUnits] = st.sampled_from(["mm", "in"])


@st.composite
def decimals(draw: st.DrawFn) -> str:
    places = draw(st.integers(0, 4))
    whole = draw(st.integers(0, 999))
    text = f"{whole}.{draw(st.integers(0, 10**places - 1)):0{places}d}" if places else f"{whole}"
    return text.removeprefix("0") if places and draw(st.booleans()) else text


@st.composite
def fractions(draw: st.DrawFn) -> str:
    bottom = draw(st.sampled_from([2, 4, 8, 16, 32, 64]))
    top = draw(st.integers(1, bottom - 1))
    joint = draw(st.sampled_from([" ", "-"]))
    return (
        f"{draw(st.integers(1, 40))}{joint}{top}/{bottom}"
        if draw(st.booleans())
        else (f"{top}/{bottom}")
    )


INCH_MARKS = st.sampled_from([" in", "in", '"', " inches"])
LENGTHS = st.one_of(
    decimals(),
    st.builds("".join, st.tuples(decimals(), st.sampled_from([" mm", "mm"]))),
    st.builds("".join, st.tuples(decimals(), INCH_MARKS)),
    st.builds("".join, st.tuples(fractions(), INCH_MARKS)),
)
SMALL = st.builds(lambda n: f"0.{n:03d}", st.integers(1, 500))
TOLERANCES = st.one_of(
    st.just(""),
    st.builds(" ±{}".format, SMALL),
    st.builds(" +-{}".format, SMALL),
    st.builds(" +{}/-0".format, SMALL),
    st.builds(" -0/-{}".format, SMALL),
    st.sampled_from([" H7", " h9", " js6", " JS7", " P9", " zc11", " running", " press fit"]),
)
TAILS = st.sampled_from(["", " may be less", " may be more", " fixed"])
PREFIXES = st.sampled_from(["", "ø", "R"])
THREADS = st.one_of(
    st.builds("{} BA".format, st.integers(0, 16)),
    st.builds("M{}".format, st.integers(2, 36)),
    st.builds("{} {}".format, fractions(), st.sampled_from(["BSF", "BSW", "BSP", "UNC", "UNF"])),
    st.builds("{} x {} ME".format, fractions(), st.sampled_from([26, 32, 40])),
)
ENDS = st.one_of(
    st.sampled_from([" through", " to bore", " to split", " x 3 beyond split", " x 12.5"]),
    st.builds(" x {}".format, st.integers(10, 60)),  # M5 x 1 would be a pitch
)


@given(LENGTHS, UNITS)
def test_a_length_is_given_back_as_written(text: str, units: DrawingUnits) -> None:
    assert parse_length(text, units=units).write() == text


@pytest.mark.derived(by="exact rational arithmetic")
@given(decimals(), UNITS)
def test_a_decimal_is_the_nearest_float_to_its_exact_value(text: str, units: DrawingUnits) -> None:
    exact = Fraction(f"0{text}") * (Fraction(127, 5) if units == "in" else 1)

    assert parse_length(text, units=units).value == float(exact)


@given(PREFIXES, LENGTHS, TOLERANCES, TAILS)
def test_a_size_is_given_back_as_written(
    prefix: str, length: str, tolerance: str, tail: str
) -> None:
    text = f"{prefix}{length}{tolerance}{tail}"
    size = parse_size(text, units="in")

    assert size.write() == text
    assert (size.tolerance is None) == (tolerance == "")
    own = size.own_deviations()
    assert own is None or own[0] < own[1]


@given(THREADS, st.sampled_from(["", " LH"]))
def test_a_thread_is_given_back_as_written(text: str, hand: str) -> None:
    name = parse_thread(text + hand)

    assert name.write() == text + hand
    assert name.hand == ("left" if hand else "right")


@example("M15", " x 3 beyond split")
@given(st.one_of(THREADS, st.builds("{}{}".format, decimals(), TOLERANCES)), ENDS)
def test_a_step_of_a_hole_is_given_back_as_written(what: str, end: str) -> None:
    step = parse_hole_step(what + end, units="in")

    assert step.write() == what + end
    assert (step.depth is not None) == (" x " in end)
    assert step.through == end.endswith("through")
    assert (step.thread is None) != (step.diameter is None)


@given(st.integers(0, 359), st.integers(0, 59), st.integers(0, 59))
def test_an_angle_is_given_back_as_written(degrees: int, minutes: int, seconds: int) -> None:
    text = f"{degrees}° {minutes}' {seconds}\""

    assert parse_angle(text).write() == text


def given_back_or_refused(text: str, units: DrawingUnits) -> None:
    """Every reader gives the text back or refuses it with a word on what to try."""
    readers = (
        *(partial(read, units=units) for read in (parse_length, parse_size)),
        *(partial(read, units=units) for read in (parse_drill, parse_hole_step)),
        parse_angle,
        parse_thread,
    )
    for read in readers:
        refused: InputFault | None = None
        written: str | None = None
        try:
            written = read(text).write()
        except InputFault as fault:
            refused = fault

        assert written == text or (refused and refused.what and refused.tries)


@given(st.text(max_size=20), UNITS)
def test_any_other_text_is_read_or_refused_but_never_breaks(
    text: str, units: DrawingUnits
) -> None:
    given_back_or_refused(text, units)


@given(st.text(alphabet="0123456789 ./-+±°'\"xHhMBA()mint", max_size=16), UNITS)
def test_a_garbled_figure_is_read_or_refused_but_never_breaks(
    text: str, units: DrawingUnits
) -> None:
    given_back_or_refused(text, units)
