from __future__ import annotations

import math

import pytest

from halfthou.errors import InputFault, OutOfRangeError
from halfthou.handbook.drills import drills_of
from halfthou.handbook.over_wires import thread_over_wires
from halfthou.handbook.tapping import clearance_drill, tapping_drill
from halfthou.handbook.threads import thread, threads
from halfthou.quantities import parse_thread

BOX = drills_of("metric", most=13)


def test_every_listed_thread_is_found_by_its_own_name() -> None:
    for each in threads():
        assert thread(parse_thread(each.designation)) == each


@pytest.mark.derived(by="geometry of a thread: root, effective, outside in that order")
def test_every_thread_has_its_diameters_in_order() -> None:
    for each in threads():
        assert each.minor <= each.minor_internal + 1e-9 < each.effective < each.major
        assert each.major - each.effective == pytest.approx(each.depth, abs=0.0051)  # BS 93 rounds
        if each.tpi is not None:
            assert each.pitch == pytest.approx(25.4 / each.tpi, abs=6e-4)  # pipe rounds to 0.001
        if each.minor_limits is not None:
            least, most = each.minor_limits
            assert least < most < each.major
            assert least == pytest.approx(each.minor_internal, abs=0.02)


def test_the_first_pitch_of_a_size_is_the_usual_one() -> None:
    assert thread(parse_thread("M10")).pitch == 1.5
    assert thread(parse_thread("7/16 BSC")).tpi == 26


def test_a_left_hand_thread_keeps_its_hand() -> None:
    assert thread(parse_thread("3/8 BSF LH")).hand == "left"


@pytest.mark.parametrize(
    ("name", "text"),
    [
        (
            "M9",
            (
                "no thread is called 'M9'\n"
                "  why: the M series here has no size 9\n"
                "  try: write M10, or write M10 x 0.75"
            ),
        ),
        (
            "17 BA",
            (
                "no thread is called '17 BA'\n"
                "  why: the BA series here has no size 17\n"
                "  try: write 16 BA, or write 15 BA"
            ),
        ),
        (
            "1/4 x 28 ME",
            (
                "'1/4 x 28 ME' has a pitch that its series does not list\n"
                "  why: at this size the series has 1/4 x 40 ME, 1/4 x 32 ME\n"
                "  try: write 1/4 x 40 ME, or write 1/4 x 32 ME"
            ),
        ),
        (
            "13-20 UNC",
            (
                "no thread is called '13-20 UNC'\n"
                "  why: the UNC series here has no size #13\n"
                "  try: write 12-24 UNC, or write 1/4-20 UNC"
            ),
        ),
    ],
)
def test_a_size_no_series_has_is_refused_with_its_neighbours(name: str, text: str) -> None:
    with pytest.raises(InputFault) as fault:
        thread(parse_thread(name))

    assert str(fault.value) == text


def test_the_choice_says_both_measures_of_engagement() -> None:
    metric = tapping_drill(thread(parse_thread("M5")), BOX)
    whitworth = tapping_drill(thread(parse_thread("3/8 BSF")), BOX)

    assert metric.engagement == pytest.approx(0.77, abs=0.005)
    assert metric.overlap == pytest.approx(0.92, abs=0.005)
    assert whitworth.engagement == pytest.approx(whitworth.overlap)


def test_a_tougher_metal_may_ask_for_less_thread() -> None:
    usual = tapping_drill(thread(parse_thread("M6")), BOX)
    less = tapping_drill(thread(parse_thread("M6")), BOX, engagement=0.6)

    assert less.drill.diameter > usual.drill.diameter


def test_an_empty_box_says_what_to_buy() -> None:
    small = drills_of("metric", most=3)
    with pytest.raises(OutOfRangeError) as tap:
        tapping_drill(thread(parse_thread("M10")), small)
    with pytest.raises(OutOfRangeError) as clear:
        clearance_drill(thread(parse_thread("M10")), small)

    assert str(tap.value) == (
        "no drill in hand suits M10: 8.38 to 8.93 mm needed\n"
        "  why: the tap would break in a smaller hole and strip in a larger\n"
        "  try: buy a drill of 8.54 mm, or bore the hole"
    )
    assert clear.value.what == "no drill in hand clears M10: 10.05 to 11.30 mm needed"


def test_clearing_drills_grow_with_the_fit_and_always_clear() -> None:
    big = drills_of("metric", "fraction")
    for name in ("4 BA", "M5", "3/8 BSF", "1/4 x 40 ME"):
        found = thread(parse_thread(name))
        close = clearance_drill(found, big).drill.diameter
        medium = clearance_drill(found, big, fit="medium").drill.diameter
        free = clearance_drill(found, big, fit="free").drill.diameter

        assert found.major < close <= medium <= free


@pytest.mark.derived(by="M = E + 3W - 0.866025p by hand")
def test_a_thread_over_wires_uses_its_own_angle() -> None:
    size = thread_over_wires(thread(parse_thread("M10")), 0.9)

    assert size == pytest.approx(9.026 + 2.7 - math.sqrt(3) / 2 * 1.5)


@pytest.mark.derived(by="1.08 x 3.5 + 0.1 by hand, a size the metric list leaves out")
def test_a_metric_size_without_a_listed_clearing_hole_falls_back_on_usual_practice() -> None:
    choice = clearance_drill(thread(parse_thread("M3.5")), BOX, fit="medium")

    assert choice.wanted == pytest.approx(3.88)
    assert choice.table is None
