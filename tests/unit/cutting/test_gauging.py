"""Which sizes the default workshop can judge, and what it aims at."""

from dataclasses import replace

import pytest

from halfthou.cutting.gauging import aim_for, choose_gauge, decides, gauge_spread
from halfthou.workshop.default import default_workshop
from halfthou.workshop.model import Gauge

HAND = "hand arithmetic from the gauge's bias and scatter"


@pytest.mark.derived(by=HAND)
def test_an_e6_bore_of_20_cannot_be_judged_even_by_a_plug_made_in_the_shop() -> None:
    judged = choose_gauge(kind="bore", low=20.040, high=20.053, workshop=default_workshop())

    assert judged is not None
    assert not judged.decides
    assert judged.gauge.name == "telescopic gauge and micrometer"
    assert judged.doubt == pytest.approx(0.0253, abs=1e-4)  # 2 * sqrt(4² + 12²) µm


@pytest.mark.derived(by=HAND)
def test_an_s6_outside_of_24_cannot_be_judged() -> None:
    judged = choose_gauge(kind="diameter", low=24.035, high=24.048, workshop=default_workshop())

    assert judged is not None
    assert not judged.decides
    assert judged.gauge.name == "micrometer 0-25"


@pytest.mark.derived(by=HAND)
def test_a_three_quarter_inch_f7_is_judged_by_the_micrometer() -> None:
    judged = choose_gauge(kind="diameter", low=19.009, high=19.030, workshop=default_workshop())

    assert judged is not None
    assert judged.decides
    assert judged.gauge.name == "micrometer 0-25"
    assert judged.high - judged.low == pytest.approx(0.0091, abs=1e-4)  # 21 - 2 * 1.65 * 3.606


PLUG = "a plug is known to hypot(3, 3.6) = 4.7 µm: 15.5 off the band, and a third must be left"


@pytest.mark.derived(by=PLUG)
def test_a_plug_made_here_is_no_truer_than_the_micrometer_that_sizes_it() -> None:
    judged = choose_gauge(kind="bore", low=16.0, high=16.018, workshop=default_workshop())

    assert judged is not None
    assert not judged.decides  # 18 - 15.5 = 2.5, under the 6 that must be left
    assert not judged.to_make


@pytest.mark.derived(by=PLUG)
def test_an_h8_hole_of_16_is_judged_by_a_plug_to_make() -> None:
    judged = choose_gauge(kind="bore", low=16.0, high=16.027, workshop=default_workshop())

    assert judged is not None
    assert judged.decides  # 27 - 15.5 = 11.5, over the 9 that must be left
    assert judged.to_make
    assert judged.gauge.kind == "plug gauge"
    assert judged.doubt == pytest.approx(2 * 0.004690, abs=1e-5)


@pytest.mark.derived(by=PLUG)
def test_without_a_micrometer_no_plug_is_worth_making() -> None:
    shop = default_workshop()
    bare = replace(shop, gauges=tuple(g for g in shop.gauges if g.kind != "micrometer"))
    judged = choose_gauge(kind="bore", low=16.0, high=16.027, workshop=bare)

    assert judged is not None
    assert not judged.decides


@pytest.mark.derived(by=HAND)
def test_a_wide_tolerance_is_left_to_the_caliper() -> None:
    judged = choose_gauge(kind="diameter", low=28.4, high=28.8, workshop=default_workshop())

    assert judged is not None
    assert judged.gauge.name == "caliper"


@pytest.mark.derived(by=HAND)
def test_the_aim_leans_to_the_side_with_metal_left_and_stays_inside_the_guard() -> None:
    shop = default_workshop()
    shaft = choose_gauge(kind="diameter", low=19.009, high=19.030, workshop=shop)
    assert shaft is not None
    aim = aim_for(low=19.009, high=19.030, nominal=19.05, inside=False, judged=shaft)

    assert aim == pytest.approx(19.02)  # 19.0216, as a 0.01 micrometer shows it
    assert shaft.low <= aim <= shaft.high


@pytest.mark.derived(by="middle 40.025 less a tenth of 0.050")
def test_a_bore_of_40_plus_0_05_is_aimed_at_40_02() -> None:
    aim = aim_for(low=40.0, high=40.05, nominal=40.0, inside=True, judged=None)

    assert aim == pytest.approx(40.02)


@pytest.mark.derived(by="the nominal lies well within")
def test_a_length_with_room_on_both_sides_is_aimed_at_as_drawn() -> None:
    assert aim_for(low=5.9, high=6.1, nominal=6.0, inside=False, judged=None) == 6.0


@pytest.mark.derived(by="3-4-5 triangle")
def test_bias_and_scatter_add_as_squares() -> None:
    gauge = Gauge(
        name="g",
        kind="micrometer",
        smallest=0,
        largest=25,
        bias=0.003,
        scatter=0.004,
        reads_to=0.01,
    )

    assert gauge_spread(gauge) == pytest.approx(0.005)
    assert decides(low=0.0, high=0.0248, gauge=gauge)
    assert not decides(low=0.0, high=0.0246, gauge=gauge)
