"""Rules that hold for every size, not only for those printed."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfthou.errors import InputFault
from halfthou.handbook.limits_fits import grade_held, it_grade, limits
from halfthou.handbook.over_wires import best_wire, size_over_wires
from halfthou.handbook.shop_maths import (
    arc_radius,
    chord,
    flat_rise,
    pitch_circle,
    sine_bar_stack,
    tailstock_set_over,
)
from halfthou.handbook.threads import Thread, thread
from halfthou.quantities import parse_thread

SIZES = st.floats(1.01, 500)
GRADES = st.integers(5, 11)
SCALES = st.floats(0.1, 40)


@given(SIZES, GRADES)
def test_a_coarser_grade_is_wider_and_is_found_again(size: float, grade: int) -> None:
    assert it_grade(size, grade) < it_grade(size, grade + 1)
    assert grade_held(size, it_grade(size, grade)) == grade


@given(SIZES, st.sampled_from(["d", "e", "f", "g", "h", "js", "m", "n", "p", "r", "s"]), GRADES)
def test_a_class_is_as_wide_as_its_grade_on_hole_and_shaft(
    size: float, letter: str, grade: int
) -> None:
    for each in (letter, letter.upper()):
        lower, upper = limits(size, each, grade)
        assert upper - lower == pytest.approx(it_grade(size, grade), abs=1e-9)


@given(SIZES, st.sampled_from(["d", "e", "f", "g", "h"]), GRADES)
def test_a_clearance_hole_mirrors_its_shaft(size: float, letter: str, grade: int) -> None:
    assert limits(size, letter.upper(), grade).lower == -limits(size, letter, grade).upper


@given(SCALES)
def test_lengths_scale_with_the_unit_and_angles_do_not(scale: float) -> None:
    angle = math.pi / 3
    pairs = [
        (best_wire(pitch=scale, angle=angle), best_wire(pitch=1, angle=angle)),
        (
            size_over_wires(effective=9 * scale, wire=scale, pitch=1.5 * scale, angle=angle),
            size_over_wires(effective=9, wire=1, pitch=1.5, angle=angle),
        ),
        (chord(diameter=50 * scale, angle=1), chord(diameter=50, angle=1)),
        (flat_rise(diameter=20 * scale, width=6 * scale), flat_rise(diameter=20, width=6)),
        (arc_radius(chord=30 * scale, rise=4 * scale), arc_radius(chord=30, rise=4)),
        (sine_bar_stack(bar=100 * scale, angle=0.3), sine_bar_stack(bar=100, angle=0.3)),
        (
            tailstock_set_over(ratio=0.05, length=80 * scale),
            tailstock_set_over(ratio=0.05, length=80),
        ),
    ]

    assert all(big == pytest.approx(scale * small) for big, small in pairs)


@given(st.integers(1, 60), st.floats(1, 300), st.floats(-math.pi, math.pi))
def test_holes_on_a_circle_stand_on_it_and_about_its_middle(
    count: int, diameter: float, first: float
) -> None:
    holes = pitch_circle(count=count, diameter=diameter, first=first, centre=(3, -2))

    assert all(math.dist(hole, (3, -2)) == pytest.approx(diameter / 2) for hole in holes)
    if count > 1:
        assert sum(x for x, _ in holes) / count == pytest.approx(3, abs=1e-6)
        assert sum(y for _, y in holes) / count == pytest.approx(-2, abs=1e-6)


@given(
    st.sampled_from(["{} BA", "M{}", "M{} x 1", "{}/16 BSF", "{}/8 BSW", "1/{} BSP", "{}-20 UNC"]),
    st.integers(0, 99),
)
def test_any_thread_name_gives_a_thread_or_a_fault_that_says_what_to_write(
    form: str, figure: int
) -> None:
    refused: InputFault | None = None
    found: Thread | None = None
    try:
        found = thread(parse_thread(form.format(figure)))
    except InputFault as fault:
        refused = fault

    assert found or (refused and refused.tries)
