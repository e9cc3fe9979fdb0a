"""Speeds the machine has, cuts it can stand, minutes they take."""

import math

import pytest

from halfthou.cutting.feeds import drill_feed, nearest_feed, tooth_feed
from halfthou.cutting.fluid import fluid_for
from halfthou.cutting.hand_feed import seconds_a_turn
from halfthou.cutting.metals import metal_of
from halfthou.cutting.overhang import bar_out, bar_too_long, tool_out, work_too_long
from halfthou.cutting.passes import boring_depth, facing, finishing, roughing, screwcutting
from halfthou.cutting.power import cutting_force, depth_within_power, power_needed
from halfthou.cutting.speeds import cutting_speed, machine_speed, speed_for, turns_a_minute
from halfthou.cutting.times import minutes_cutting, minutes_sawing
from halfthou.workshop.default import default_workshop

SHOP = default_workshop()
STEPS = SHOP.lathes[0].speeds


@pytest.mark.derived(by="1000 * 22 / (pi * 19.05) = 367.6, the step below is 350")
def test_en8_at_three_quarters_of_an_inch_turns_at_350() -> None:
    speed = speed_for(
        metal=metal_of("EN8"), verb="turn", diameter=19.05, workshop=SHOP, speeds=STEPS
    )

    assert speed == 350


@pytest.mark.derived(by="35 m/min * 0.4 / (pi * 16 mm) = 279, the step below is 210")
def test_a_16_reamer_in_gunmetal_turns_at_210() -> None:
    speed = speed_for(metal=metal_of("LG2"), verb="ream", diameter=16, workshop=SHOP, speeds=STEPS)

    assert speed == 210


@pytest.mark.derived(by="usual practice: 100 rev/min at most, the step there is")
def test_screwcutting_is_never_faster_than_100() -> None:
    speed = speed_for(
        metal=metal_of("brass"), verb="thread", diameter=5, workshop=SHOP, speeds=STEPS
    )

    assert speed == 100


@pytest.mark.derived(by="the slowest step is all there is")
def test_work_too_large_for_the_slowest_step_gets_the_slowest() -> None:
    assert machine_speed((60.0, 35.0), 20.0) == 35.0


@pytest.mark.derived(by="skin of iron 12 m/min in the workshop's list")
def test_the_skin_of_a_casting_is_cut_slower() -> None:
    iron = metal_of("cast iron")

    assert cutting_speed(metal=iron, verb="turn", workshop=SHOP, skin=True) == 12
    assert cutting_speed(metal=iron, verb="turn", workshop=SHOP) == 18


@pytest.mark.derived(by="circumference pi * 10 mm in 1000 mm")
def test_spindle_speed_is_surface_speed_over_circumference() -> None:
    assert turns_a_minute(speed=math.pi * 10, diameter=10) == pytest.approx(1000)


@pytest.mark.published(source="ISO 513 group tables: 1350 N/mm², exponent 0.21, f 0.1: 218.9 N")
def test_the_force_on_mild_steel_is_what_the_groups_table_gives() -> None:
    force = cutting_force(metal=metal_of("EN3"), depth=1.0, feed=0.1)

    assert force.low == pytest.approx(218.9, abs=0.1)
    assert force.high == pytest.approx(1.6 * 218.9, abs=0.2)


@pytest.mark.published(source="a tooling maker's worked example: 3 x 0.2 x 3100 N at 120 m/min")
def test_power_is_force_times_speed() -> None:
    assert power_needed(force=3 * 0.2 * 3100, speed=120) / 0.8 == pytest.approx(4.65)


@pytest.mark.derived(by="half the power pulls half the depth")
def test_a_cut_too_heavy_for_the_spindle_is_made_lighter() -> None:
    steel = metal_of("EN8")
    full = depth_within_power(metal=steel, depth=3.0, feed=0.2, diameter=60, speed=165, power=0.4)
    half = depth_within_power(metal=steel, depth=3.0, feed=0.2, diameter=60, speed=165, power=0.2)

    assert full < 3.0
    assert half == pytest.approx(full / 2)


@pytest.mark.derived(by="2 mm a turn, 0.1 * 350 = 35 mm a minute: 3.43 s")
def test_hand_feed_is_told_in_seconds_a_turn() -> None:
    assert seconds_a_turn(lead=2.0, feed=0.1, speed=350) == pytest.approx(3.43, abs=0.005)


@pytest.mark.derived(by="addition")
def test_cuts_add_up_to_the_metal_there_is() -> None:
    rough = roughing(metal_off=6.35, deepest=1.0, leave=0.3, step=0.02)
    last = finishing(metal_off=rough[-1].left, close=True)
    total = sum(cut.count * cut.depth for cut in (*rough, *last))

    assert total == pytest.approx(6.35)
    assert rough[-1].left >= 0.3 - 1e-9
    assert last[0].depth >= 0.1 - 1e-9
    assert [cut.count for cut in last] == [1, 2]
    assert last[-1].depth == pytest.approx(0.10)


@pytest.mark.derived(by="division")
def test_two_last_cuts_are_alike_when_little_is_left() -> None:
    cuts = finishing(metal_off=0.12, close=True)

    assert [(cut.count, round(cut.depth, 3)) for cut in cuts] == [(2, 0.06)]
    assert finishing(metal_off=0.02, close=True) == ()


@pytest.mark.derived(by="addition")
def test_a_face_ends_with_one_light_cut() -> None:
    cuts = facing(metal_off=1.0, deepest=0.75, step=0.02)

    assert sum(cut.count * cut.depth for cut in cuts) == pytest.approx(1.0)
    assert cuts[-1].depth == pytest.approx(0.12, abs=0.021)


@pytest.mark.derived(by="addition")
def test_a_thread_is_cut_to_its_depth_and_gone_over_once_more() -> None:
    cuts = screwcutting(depth=1.0165, step=0.02)

    assert sum(cut.count * cut.depth for cut in cuts) == pytest.approx(1.0165)
    assert cuts[-1].purpose == "spring"
    assert [cut.depth for cut in cuts[:-2]] == sorted((c.depth for c in cuts[:-2]), reverse=True)


@pytest.mark.derived(by="divisions of 0.02 counted")
def test_every_roughing_cut_is_whole_divisions() -> None:
    for off in (0.9, 1.37, 2.26, 7.62, 18.75):
        rough = roughing(metal_off=off, deepest=0.97, leave=0.25, step=0.02)
        assert all(abs(cut.depth / 0.02 - round(cut.depth / 0.02)) < 1e-6 for cut in rough)
        assert all(cut.depth <= 0.97 for cut in rough)
        assert 0.25 - 1e-9 <= rough[-1].left < 0.27 + 1e-9


@pytest.mark.derived(by="35 m/min on 70 mm is 159 rev/min: 165 is 4 in 100 over, 210 is not near")
def test_a_speed_a_hair_over_is_taken_and_not_the_step_far_below() -> None:
    steps = (60.0, 100.0, 165.0, 210.0, 350.0)

    assert machine_speed(steps, 159.2) == 165.0
    assert machine_speed(steps, 156.0) == 100.0


@pytest.mark.derived(by="a twentieth of the bar")
def test_a_thin_boring_bar_takes_thin_cuts() -> None:
    assert boring_depth(bar=6, out=24, deepest=1.0) == pytest.approx(0.3)
    assert boring_depth(bar=25, out=40, deepest=1.0) == pytest.approx(0.75)


@pytest.mark.derived(by="hand arithmetic")
def test_tools_bars_and_work_stick_out_no_further_than_they_should() -> None:
    assert tool_out(10) == 15
    assert bar_out(depth=20, bar=10) == 23
    assert not bar_too_long(depth=37, bar=10)
    assert bar_too_long(depth=38, bar=10)
    assert work_too_long(stick_out=61, diameter=20, centre=False)
    assert not work_too_long(stick_out=200, diameter=20, centre=True)


@pytest.mark.derived(by="0.015 and 1/250 of the diameter")
def test_feeds_follow_the_diameter_within_bounds() -> None:
    steel = metal_of("mild steel")

    assert drill_feed(1.0, steel) == 0.02
    assert drill_feed(10.0, steel) == pytest.approx(0.15)
    assert drill_feed(10.0, metal_of("brass")) == pytest.approx(0.2)
    assert tooth_feed(16.0) == 0.06
    assert nearest_feed((0.05, 0.1, 0.2), 0.12) == 0.1
    assert nearest_feed((0.05, 0.1, 0.2), 0.01) == 0.05


@pytest.mark.derived(by="usual practice as told")
def test_iron_and_brass_are_cut_dry_steel_with_oil_aluminium_with_paraffin() -> None:
    assert fluid_for(metal_of("cast iron"), "turn") == "dry"
    assert fluid_for(metal_of("CZ121"), "tap") == "dry"
    assert fluid_for(metal_of("EN1A"), "drill") == "cutting oil"
    assert fluid_for(metal_of("HE30"), "mill face") == "paraffin"
    assert fluid_for(metal_of("EN8"), "tap") == "tapping compound"


@pytest.mark.derived(by="50 / (0.1 * 500) + 0.25 twice, and 0.75")
def test_minutes_are_travel_over_feed_with_handling() -> None:
    assert minutes_cutting(passes=2, length=50, feed=0.1, speed=500, measured=1) == 3.25


def test_a_metal_nobody_knows_counts_as_mild_steel_and_says_so() -> None:
    metal = metal_of("unobtainium")

    assert metal.speed == "mild steel"
    assert not metal.known


@pytest.mark.derived(by="common practice: a 70 mm bar by hacksaw, 25 to 30 minutes")
def test_sawing_by_hand_takes_as_long_as_the_section_is_large() -> None:
    area = 3.14159 / 4 * 70**2

    assert 25 <= minutes_sawing(area) <= 30
    assert minutes_sawing(2 * area) - minutes_sawing(area) == pytest.approx(
        minutes_sawing(3 * area) - minutes_sawing(2 * area)
    )
