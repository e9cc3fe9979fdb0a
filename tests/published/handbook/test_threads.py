"""Threads and the drills for them against printed tables."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from halfthou.handbook.drills import drills_of
from halfthou.handbook.over_wires import best_wire, size_over_wires
from halfthou.handbook.tapping import (
    clearance_diameter,
    engagement_of,
    tapping_diameter,
    tapping_drill,
)
from halfthou.handbook.threads import thread
from halfthou.quantities import parse_thread

DATA = Path(__file__).parents[2] / "data"
METRIC_BOX = drills_of("metric", most=25)


def rows(name: str) -> list[dict[str, str]]:
    lines = (DATA / f"{name}.csv").read_text("utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("# ")))


def printed_name(row: dict[str, str]) -> str:
    if row["series"] == "BA":
        return f"{row['size']} BA"
    if row["series"] == "ME":
        return f"{row['size']} x {round(25.4 / float(row['pitch_mm']))} ME"
    return f"{row['size']} {row['series']}"


@pytest.mark.published(
    source="Machinery's Handbook 31, p. 2115 (BS 93); BS 84; ISO 724; ISO 228-1"
)
@pytest.mark.parametrize(
    ("name", "major", "pitch", "effective", "minor"),
    [
        ("0 BA", 6.0, 1.0, 5.4, 4.8),
        ("2 BA", 4.7, 0.81, 4.215, 3.73),
        ("4 BA", 3.6, 0.66, 3.205, 2.81),
        ("16 BA", 0.79, 0.19, 0.675, 0.56),
        ("M10", 10, 1.5, 9.026, 8.16),
        ("M10 x 1", 10, 1.0, 9.35, 8.773),
        ("M5", 5, 0.8, 4.48, 4.019),
        ("1/4 BSP", 13.157, 1.337, 12.301, 11.445),
    ],
)
def test_metric_and_ba_threads_have_their_printed_sizes(
    name: str, major: float, pitch: float, effective: float, minor: float
) -> None:
    found = thread(parse_thread(name))
    sizes = [found.major, found.pitch, found.effective, found.minor]

    assert [round(each, 3) for each in sizes] == [major, pitch, effective, minor]


@pytest.mark.published(source="BS 84 as printed, inches to four places; 1/8 BSW minor is .0930")
@pytest.mark.parametrize(
    ("name", "tpi", "effective", "minor"),
    [
        ("1/8 BSW", 40, 0.1090, 0.0930),
        ("1/4 BSW", 20, 0.2180, 0.1860),
        ("5/16 BSW", 18, 0.2769, 0.2414),
        ("3/8 BSW", 16, 0.3350, 0.2950),
        ("1/2 BSW", 12, 0.4466, 0.3933),
        ("3/16 BSF", 32, 0.1675, 0.1475),
        ("3/8 BSF", 20, 0.3430, 0.3110),
        ("1/2 BSF", 16, 0.4600, 0.4200),
    ],
)
def test_whitworth_threads_have_their_printed_sizes(
    name: str, tpi: float, effective: float, minor: float
) -> None:
    found = thread(parse_thread(name))

    assert found.tpi == tpi
    assert found.effective / 25.4 == pytest.approx(effective, abs=6e-5)  # printed to 0.0001 in
    assert found.minor / 25.4 == pytest.approx(minor, abs=6e-5)


@pytest.mark.published(source="ASME B1.1 tables as printed; 5/8-11 and 1/4-20 nut bores")
def test_unified_nuts_have_their_printed_bores() -> None:
    quarter = thread(parse_thread("1/4-20 UNC")).minor_limits
    tiny = thread(parse_thread("2-56 UNC")).minor_limits

    assert quarter == pytest.approx((0.196 * 25.4, 0.207 * 25.4), abs=1e-9)
    assert tiny == pytest.approx((0.0667 * 25.4, 0.0737 * 25.4), abs=1e-9)


@pytest.mark.published(source="tapping drills printed in several lists of the trade")
def test_the_share_of_thread_is_that_of_the_printed_lists() -> None:
    compared = [row for row in rows("tap_clearance_drills") if row["tap_mm"]]
    for row in compared:
        found = thread(parse_thread(printed_name(row)))
        share = engagement_of(found, float(row["tap_mm"]))
        # the lists give whole points, and the brass ones were rounded twice
        assert 100 * share == pytest.approx(float(row["pct_mm"]), abs=1.0), printed_name(row)

    assert len(compared) > 40


@pytest.mark.published(source="tapping drills printed in several lists of the trade")
def test_the_drill_chosen_lies_within_the_spread_of_the_printed_lists() -> None:
    for row in rows("tap_clearance_drills"):
        if not row["tap_mm"]:
            continue
        found = thread(parse_thread(printed_name(row)))
        choice = tapping_drill(found, METRIC_BOX)
        spread = 0.15 * 2 * found.depth  # the lists differ by 15 points for one thread

        assert abs(choice.drill.diameter - float(row["tap_mm"])) <= spread + 0.05


@pytest.mark.published(source="ISO 2306 for metric; printed lists of the trade for the rest")
@pytest.mark.parametrize(
    ("name", "drill"),
    [
        ("M2", 1.6),
        ("M3", 2.5),
        ("M4", 3.3),
        ("M5", 4.2),
        ("M6", 5.0),
        ("M8", 6.8),
        ("M10", 8.5),
        ("M10 x 1", 9.0),
        ("0 BA", 5.1),
        ("2 BA", 4.0),
        ("4 BA", 3.0),
        ("3/8 BSF", 8.3),
        ("1/4 BSW", 5.1),
    ],
)
def test_the_usual_tapping_drill_is_chosen_from_a_metric_box(name: str, drill: float) -> None:
    choice = tapping_drill(thread(parse_thread(name)), METRIC_BOX)

    assert choice.drill.diameter == drill
    assert choice.within_limits is not False


@pytest.mark.published(source="Rc and G tapping drills, lists that agree")
def test_pipe_tapping_drills_lie_near_the_printed_ones() -> None:
    for row in rows("bsp_tapping"):
        found = thread(parse_thread(f"{row['size']} BSP"))

        assert 0.65 < engagement_of(found, float(row["drill"])) < 0.95


@pytest.mark.published(source="clearing drills printed in several lists of the trade")
def test_clearing_sizes_lie_near_the_printed_ones() -> None:
    for row in rows("tap_clearance_drills"):
        if row["clear_mm"]:
            size = clearance_diameter(thread(parse_thread(printed_name(row))))

            assert size == pytest.approx(float(row["clear_mm"]), abs=0.24)  # the lists' own spread


@pytest.mark.derived(by="hand arithmetic: 4.7 - 2 x 0.75 x 0.6 x 0.81")
def test_the_hole_before_the_tap_follows_from_the_share_of_thread() -> None:
    assert tapping_diameter(thread(parse_thread("2 BA"))) == pytest.approx(3.971)


@pytest.mark.published(source="Machinery's Handbook 31, p. 2130, 60° threads")
def test_sizes_over_wires_are_those_printed_for_american_threads() -> None:
    for row in rows("three_wire_checks"):
        whole = row["dia"].split("/")
        pitch = 1 / float(row["tpi"])
        effective = int(whole[0]) / int(whole[1]) - 0.649519 * pitch
        size = size_over_wires(
            effective=effective, wire=float(row["wire"]), pitch=pitch, angle=math.pi / 3
        )

        assert size == pytest.approx(float(row["M_US_printed"]), abs=1e-4)


@pytest.mark.published(source="1 5/8 x 11 Whitworth, wires .055: 1.65358, where 3 W gives 1.6445")
def test_a_whitworth_thread_over_wires_does_not_use_the_constant_of_60_degrees() -> None:
    size = size_over_wires(effective=1.566788, wire=0.055, pitch=1 / 11, angle=math.radians(55))

    assert size == pytest.approx(1.65358, abs=1e-5)


@pytest.mark.published(source="best wires .57735p, .5637p, .5462p")
def test_the_best_wire_touches_at_the_effective_diameter() -> None:
    wires = [best_wire(pitch=1, angle=math.radians(angle)) for angle in (60, 55, 47.5)]

    assert wires == pytest.approx([0.57735, 0.5637, 0.5462], abs=7e-5)


@pytest.mark.published(source="ISO 965-1 and ASME B1.1 as printed: M10 6g, 1/4-20 2A")
def test_screws_have_their_printed_limits() -> None:
    metric, unified = thread(parse_thread("M10")), thread(parse_thread("1/4-20 UNC"))

    assert metric.screw_major == (9.732, 9.968)
    assert metric.screw_effective == (8.862, 8.994)
    assert unified.screw_major == pytest.approx((0.2408 * 25.4, 0.2489 * 25.4))
    assert unified.screw_effective == pytest.approx((0.2127 * 25.4, 0.2164 * 25.4))
    assert thread(parse_thread("3/8 BSF")).screw_major is None


@pytest.mark.published(
    source="BS 93; a list that goes round gives No. 70 for 14 BA, under its bore"
)
def test_no_drill_smaller_than_the_bore_of_the_nut_is_ever_chosen() -> None:
    choice = tapping_drill(thread(parse_thread("14 BA")), drills_of("number"))

    assert choice.drill.name == "No. 68"
    assert choice.drill.diameter > 0.72
