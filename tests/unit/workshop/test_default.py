"""The default workshop is the one the trade page describes."""

import pytest

from halfthou.errors import Faults
from halfthou.workshop.default import default_tables, default_workshop
from halfthou.workshop.described import difference, merged, tables_of, workshop_from
from halfthou.workshop.drawer import written_out

BY_HAND = "written from the description of a small home workshop"


@pytest.mark.derived(by=BY_HAND)
def test_the_default_workshop_has_the_lathe_the_mill_and_their_speeds() -> None:
    shop = default_workshop()

    assert list(shop.lathes[0].speeds) == [35, 60, 100, 165, 210, 350, 590, 980]
    assert list(shop.mills[0].speeds) == [120, 210, 370, 640, 1100, 1900]
    assert shop.lathes[0].cross_slide.reads == "radius"


@pytest.mark.derived(by=BY_HAND)
def test_drills_go_from_1_to_13_by_tenths() -> None:
    drills = default_workshop().drills.drills

    assert len(drills) == 121
    assert (drills[0], drills[1], drills[-1]) == ("1", "1.1", "13")


def test_a_workshop_told_in_tables_and_read_again_is_the_same() -> None:
    shop = default_workshop()

    assert workshop_from(tables_of(shop), file="x", built_in=True) == shop


def test_nothing_differs_from_itself() -> None:
    told = tables_of(default_workshop())

    assert difference(told, told) == {}


@pytest.mark.derived(by="25.4 mm to the inch")
def test_a_dial_in_inches_takes_the_place_of_one_in_mm() -> None:
    own = {"lathe": {"old faithful": {"cross_slide": {"lead_in": 0.1, "division_in": 0.001}}}}
    shop = workshop_from(merged(default_tables(), own), file="workshop.toml")
    lathe = shop.lathes[0]

    assert lathe.name == "old faithful"
    assert lathe.cross_slide.lead == pytest.approx(2.54)
    assert lathe.cross_slide.units == "in"
    assert not lathe.usual
    assert lathe.centre_height == 90


def test_something_not_had_is_taken_away() -> None:
    shop = workshop_from(
        merged(default_tables(), {"holding": {"soft jaws": {"have": False}}}), file="w"
    )

    assert "soft jaws" not in {device.name for device in shop.holding}


def test_all_faults_are_told_together_each_with_its_place_and_a_near_name() -> None:
    own = {
        "lathe": {"lathe": {"centre_hight_mm": 80}},
        "gauge": {"micrometer 0-25": {"bias_mm": "small"}},
        "holding": {"soft jaws": {"device": "soft jaw"}},
    }
    with pytest.raises(Faults) as caught:
        workshop_from(merged(default_tables(), own), file="workshop.toml")

    assert str(caught.value) == (
        "centre_hight_mm is not a field of this table\n"
        '  where: workshop.toml, lathe."lathe"\n'
        "  why: nothing reads it\n"
        "  try: centre_height_mm\n"
        "\n"
        "'soft jaw' is not known here\n"
        '  where: workshop.toml, holding."soft jaws", device\n'
        "  why: only these words have a meaning here\n"
        "  try: soft jaws\n"
        "\n"
        "bias_mm is not a number: 'small'\n"
        '  where: workshop.toml, gauge."micrometer 0-25", bias_mm\n'
        "  why: bias_mm takes a number\n"
        "  try: write a number"
    )


@pytest.mark.derived(by="counting")
def test_series_of_drills_are_written_out_one_by_one() -> None:
    assert written_out("1/64 to 3/64 by 1/64") == ("1/64", "1/32", "3/64")
    assert written_out("letters A to C") == ("letter A", "letter B", "letter C")
    assert written_out("Nos 59 to 60") == ("No. 59", "No. 60")


@pytest.mark.parametrize(
    ("own", "says"),
    [
        ({"holding": {"big vice": {"machine": "mill"}}}, "device is missing"),
        ({"lathe": {"l": {"speeds_rev_min": 100}}}, "speeds_rev_min is not a list: 100"),
        ({"mill": {"m": {"travels_mm": [1, 2, 3]}}}, "travels_mm is not a list of 2"),
        ({"gauge": {"rule": {"bias_mm": 1, "bias_in": 1}}}, "bias is given twice"),
        ({"saw_kerf_mm": -1}, "saw_kerf_mm is -1"),
        ({"tool": {"knife tool": {"teeth": 1.5}}}, "teeth is not a whole number: 1.5"),
        (
            {"lathe": {"lathe": {"have": False}}, "mill": {"mill": {"have": False}}},
            "no lathe and no",
        ),
        ({"drills": {"drills": ["1 to 13 by nought"]}}, "not understood as a series of drills"),
        ({"drills": {"drills": ["13 to 1 by 0.1"]}}, "not understood as a series of drills"),
        ({"drills": {"drills": ["1/0 to 1 by 1/64"]}}, "not understood as a series of drills"),
        ({"holding": "none"}, "holding is not a table of named things"),
        (
            {"holding": {"soft jaw": {"have": False}}},
            "there is no holding called soft jaw to take away",
        ),
        ({"gauge": {"micrometer 25-55": {"have": False}}}, "try: micrometer 25-50"),
        ({"holding": {"vice": 3}}, "vice is not a table"),
        ({"cutting_speeds_m_min": {"brass": "fast"}}, "brass is not a number: 'fast'"),
        ({"drills": {"taps": "M5"}}, "taps is not a list: 'M5'"),
    ],
)
def test_each_fault_of_a_workshop_file_is_named(own: dict[str, object], says: str) -> None:
    with pytest.raises(Faults) as caught:
        workshop_from(merged(default_tables(), own), file="workshop.toml")

    assert says in str(caught.value)


@pytest.mark.derived(by="0.0625 in of 25.4 mm")
def test_sizes_in_inches_and_single_drills_are_taken() -> None:
    own = {"saw_kerf_in": 0.0625, "drills": {"drills": ["6.35", "1 to 3/2 by 1/4"]}}
    shop = workshop_from(merged(default_tables(), own), file="w")

    assert shop.saw_kerf == pytest.approx(1.5875)
    assert shop.drills.drills == ("6.35", "1 in", "1 1/4", "1 1/2")
    assert shop.drills.reamers == default_workshop().drills.reamers
