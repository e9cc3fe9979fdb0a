from __future__ import annotations

import pytest

from halfthou.errors import InputFault, OutOfRangeError
from halfthou.handbook.centre_drills import centre_for, find_centre_drill
from halfthou.handbook.drills import (
    drilling_depth,
    drills_of,
    find_drill,
    ladder,
    nearest_drill,
    point_allowance,
    reaming_allowance,
    reaming_drill,
    tap_lead,
)
from halfthou.quantities import DrillName, parse_drill

BOX = drills_of("metric", most=13)


@pytest.mark.published(source="gauge drill sizes: No. 1 .2280, No. 27 .1440, F .2570, Z .4130 in")
@pytest.mark.parametrize(
    ("name", "inches"),
    [("No. 1", 0.228), ("No. 27", 0.144), ("letter F", 0.257), ("letter Z", 0.413)],
)
def test_gauge_drills_have_their_printed_diameters(name: str, inches: float) -> None:
    found = find_drill(parse_drill(name, units="mm"))

    assert found.diameter == pytest.approx(inches * 25.4)
    assert found.name == name


def test_the_ladder_rises_and_holds_all_four_systems() -> None:
    diameters = [drill.diameter for drill in ladder()]

    assert diameters == sorted(diameters)
    assert {drill.kind for drill in ladder()} == {"metric", "number", "letter", "fraction"}
    assert len({drill.name for drill in ladder()}) == len(ladder())


def test_a_quarter_inch_is_called_by_the_way_it_was_written() -> None:
    assert find_drill(parse_drill("1/4", units="mm")).name == "1/4 in"
    assert find_drill(parse_drill("5.5", units="mm")).name == "5.5 mm"


def test_a_drill_named_in_code_must_have_a_size() -> None:
    with pytest.raises(InputFault, match="drill 'blunt' has no size"):
        find_drill(DrillName(kind="length", text="blunt"))


def test_a_drill_no_series_has_is_refused_with_its_neighbours() -> None:
    with pytest.raises(InputFault) as fault:
        find_drill(parse_drill("5.53", units="mm"))

    assert str(fault.value) == (
        "no drill is 5.53\n"
        "  why: it lies between the sizes of the metric, number, letter and inch series\n"
        "  try: take 7/32 in, or take 5.5 mm"
    )


@pytest.mark.derived(by="usual practice by hand: 0.1 to 5 mm, 0.2 to 12")
@pytest.mark.parametrize(
    ("reamer", "drill"), [(3, 2.9), (5, 4.9), (8, 7.8), (10, 9.8), (12, 11.8)]
)
def test_a_drill_before_the_reamer_leaves_the_usual_metal(reamer: float, drill: float) -> None:
    found = reaming_drill(reamer, BOX)

    assert found is not None
    assert found.diameter == drill


def test_no_drill_is_named_where_the_box_has_none() -> None:
    assert reaming_drill(20, BOX) is None
    assert nearest_drill(5, [], least=4) is None
    with pytest.raises(OutOfRangeError, match="no reaming allowance for 60 mm"):
        reaming_allowance(60)


@pytest.mark.derived(by="tan 31° / 2 = 0.3004 for a point of 118°")
def test_the_allowance_for_the_point_is_that_of_118_degrees() -> None:
    assert point_allowance(10) == pytest.approx(3.004, abs=0.01)
    assert tap_lead(1.25) == 3.75


@pytest.mark.derived(by="flute of 10 mm jobber 87, less 15")
def test_a_jobber_drill_reaches_its_flute_less_one_and_a_half_diameters() -> None:
    assert drilling_depth(10) == 72
    assert drilling_depth(30) is None


def test_centre_drills_go_by_number_body_or_pilot() -> None:
    assert find_centre_drill("BS 1/8") == find_centre_drill("BS1")
    assert find_centre_drill("2.5") == find_centre_drill("A2.5")
    for name in ("BS9", "BS 5/32"):
        with pytest.raises(InputFault, match=f"no centre drill is called '{name}'"):
            find_centre_drill(name)


@pytest.mark.published(source="table with ISO 6411 centre holes")
def test_the_centre_suits_the_diameter_of_the_work() -> None:
    assert [centre_for(size).pilot for size in (8, 20, 32)] == [1, 2.5, 3.15]
    with pytest.raises(OutOfRangeError):
        centre_for(200)


@pytest.mark.derived(by="BS 328 as recalled: No. 3 has a body of a quarter inch")
def test_a_centre_drill_is_called_by_its_number_and_its_body() -> None:
    assert find_centre_drill("BS 1/4").called == "BS No. 3 (body 1/4 in)"
    assert find_centre_drill("BS 7/16").called == "BS No. 5 (body 7/16 in)"
    assert find_centre_drill("A2.5").called == "A2.5 (body 6.3 mm)"
