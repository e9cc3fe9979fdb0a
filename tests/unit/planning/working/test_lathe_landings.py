"""Dials of the lathe land where the card says, and say what is left where they cannot."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from halfthou.cutting.gauging import choose_gauge
from halfthou.drawing.model import Band, Part, Surface
from halfthou.handbook.threads import thread
from halfthou.planning.model import Operation, Plan, SetUp
from halfthou.planning.worked import Step, Worked
from halfthou.planning.working import words
from halfthou.planning.working.abrasive import tried_in
from halfthou.planning.working.measures import _sure
from halfthou.planning.working.whole import work_out
from halfthou.quantities import parse_thread

from .handmade import (
    FACE,
    FINISH,
    RIGHT,
    ROUGH,
    SHAFT,
    SHOP,
    band,
    chucked,
    only_step,
    operation,
    plane,
    worked,
)

THREAD = thread(parse_thread("3/8 BSF"))

SEAT = band(16.0, 16.001, 16.012, "16 k6")
E6 = band(20.0, 20.040, 20.053, "20 E6")


def with_journal(size: Band) -> Part:
    """Give the shaft with another size of journal."""
    surfaces = tuple(replace(s, size=size) if s.name == "journal" else s for s in SHAFT.surfaces)
    return replace(SHAFT, surfaces=surfaces)


def turned_fine() -> tuple[Step, ...]:
    finish = replace(FINISH, size=SEAT, cut_size=16.0065, from_size=16.5)
    rough = replace(ROUGH, cut_size=16.5)
    return worked(chucked(FACE, rough, finish), part=with_journal(SEAT)).set_ups[0].steps


def cut_sizes(step: Step) -> list[float]:
    return [one.leaves for one in step.passes]


@pytest.mark.derived(by="16.012 and 0.005 more, to a hundredth: 16.02; 15 divisions to it")
def test_a_band_finer_than_half_a_division_is_stopped_short_of_on_the_metal_side() -> None:
    rough, finish, strip = turned_fine()[1:]

    assert rough.passes[-1].leaves == pytest.approx(16.62)
    assert cut_sizes(finish) == pytest.approx([16.42, 16.22, 16.02])
    assert [m.divisions for one in finish.passes for m in one.settings] == [5.0, 10.0, 15.0]
    assert (finish.measures[0].aim, finish.measures[0].band) == (16.02, None)
    assert finish.measures[0].low > SEAT.high
    assert words.STOP_FOR_ABRASIVE in finish.remarks
    assert strip.tool == "fine abrasive strip"
    assert strip.length == pytest.approx(30.0)  # to the shoulder; the jaws stand clear of it
    assert strip.measures[0].band == SEAT
    assert strip.operations[0].from_size == pytest.approx(16.02)


@pytest.mark.derived(by="what the dial left less what is aimed at")
def test_fine_abrasive_has_one_or_two_hundredths_to_take() -> None:
    finish, strip = turned_fine()[-2:]
    left = finish.passes[-1].leaves - strip.measures[0].aim

    assert 0.01 <= left <= 0.02


def test_grit_comes_last_of_all_that_is_done_at_a_setting() -> None:
    finish = replace(FINISH, size=SEAT, cut_size=16.0065, from_size=16.5)
    chamfer = operation("chamfer", "chamfer", feature="ends", cut_size=0.5,
                        tools=("chamfer tool 45°",))  # fmt: skip
    off = operation("off", "part off", feature="left", starts=0.0, ends=-2.0,
                    tools=("parting tool",))  # fmt: skip
    steps = worked(
        chucked(FACE, finish, chamfer, off), part=with_journal(SEAT)
    ).set_ups[0].steps  # fmt: skip

    assert [one.operations[0].verb for one in steps[1:]] == ["turn", "chamfer", "lap", "part off"]


def test_an_abrasive_strip_is_never_wrapped_round_a_finger_and_the_bed_is_covered() -> None:
    strip = turned_fine()[-1]
    (said,) = strip.cautions

    assert "by its two ends" in said
    assert "never wrapped round a finger" in said
    assert "bed covered" in said
    assert words.STARTED_BY_HAND in strip.remarks  # no gauge here decides eleven thousandths


@pytest.mark.derived(by="band of 0.021 against a half division that counts 0.02 on the diameter")
def test_a_band_the_dial_can_hit_is_turned_to_size() -> None:
    steps = worked(chucked(FACE, ROUGH, FINISH)).set_ups[0].steps

    assert [one.tool for one in steps] == ["knife tool"] * 3
    assert steps[-1].passes[-1].leaves == pytest.approx(19.97)


def test_with_a_readout_no_division_is_too_coarse() -> None:
    lathe = replace(SHOP.lathes[0], readout=True)
    finish = replace(FINISH, size=SEAT, cut_size=16.0065, from_size=16.5)
    step = only_step(
        chucked(FACE, finish), part=with_journal(SEAT), shop=replace(SHOP, lathes=(lathe,))
    )

    assert step.tool == "knife tool"


def bored(surfaces: tuple[Surface, ...] = SHAFT.surfaces, **lathe: object) -> tuple[Step, ...]:
    surfaces = tuple(replace(s, size=E6) if s.name == "bore" else s for s in surfaces)
    finish = operation(
        "bore", "bore", "finish", feature="bore", at=((40.0, 0.0, 0.0),), ends=20.0,
        cut_size=20.0465, from_size=19.4, tools=("boring tool, 10 bar",), makes=("bore",),
        size=E6, inside=True,
    )  # fmt: skip
    shop = replace(SHOP, lathes=(replace(SHOP.lathes[0], **lathe),))  # type: ignore[arg-type]
    part = replace(SHAFT, surfaces=surfaces)
    return worked(chucked(FACE, finish), part=part, shop=shop).set_ups[0].steps[1:]


@pytest.mark.derived(by="20.040 less the 0.03 its gauge may be out, to a hundredth: 20.01")
def test_a_bore_finer_than_the_dial_is_left_small_and_lapped() -> None:
    cut, lap = bored()

    assert cut.measures[0].aim == pytest.approx(20.01)
    assert cut.measures[0].high == pytest.approx(20.015)
    assert cut.passes[-1].leaves == pytest.approx(20.01, abs=0.011)
    assert cut.check is not None
    assert cut.check.means.startswith("telescopic")  # a caliper would pass a scrapped bore
    assert words.RUNS_FREE in lap.remarks  # 20 E6 is no fit that a shaft could try
    assert lap.tool.startswith("split lap")
    assert lap.speed is not None
    assert cut.speed is not None
    assert lap.speed < cut.speed
    assert not any("finger" in remark for remark in lap.remarks)


@pytest.mark.derived(by="a lap stays 1 off the end of a bore that ends in the bar, 24 deep: 23")
def test_a_lap_in_a_bore_that_ends_in_the_bar_is_marked_short_of_its_end() -> None:
    _, lap = bored()

    cut = bored()[0]
    assert lap.length == pytest.approx(max(m.to for m in cut.moves if m.slide == "saddle") - 1)
    assert words.LAP_BLIND in lap.remarks


def test_a_bore_that_pressing_in_closes_is_measured_again_before_its_shaft_is_made() -> None:
    s6 = band(24.0, 24.035, 24.048, "24 s6")
    pressed = tuple(replace(s, size=s6) if s.name == "collar" else s for s in SHAFT.surfaces)

    _, lap = bored(surfaces=pressed)

    assert words.CLOSES_IN in lap.remarks
    assert words.RUNS_FREE not in lap.remarks


@pytest.mark.derived(
    by="parted with its left corner at 22.5: 1.5 more is 24; the drill's point on"
)
def test_a_hole_through_a_piece_that_is_parted_ends_in_the_bar_past_the_parting() -> None:
    off = operation("off", "part off", feature="left", starts=19.5, ends=17.5,
                    tools=("parting tool",))  # fmt: skip
    drill = operation("drill", "drill", feature="bore", at=((40.0, 0.0, 0.0),), ends=20.0,
                      cut_size=13.0, tools=("drill 13 mm",), through=True)  # fmt: skip
    bore = replace(drill, key="bore", verb="bore", tools=("boring tool, 10 bar",), from_size=13.0,
                   cut_size=19.0, stage="rough")  # fmt: skip
    _, drilled, opened, parted = worked(chucked(FACE, drill, bore, off)).set_ups[0].steps

    assert opened.length == pytest.approx(24.0)
    assert drilled.moves[-1].to > 24.0
    assert words.BLIND_IN_BAR in drilled.remarks
    assert words.GRABS not in drilled.cautions
    assert parted.tool == "parting tool 2 wide"
    assert parted.measures[0].when == "out of the holding"


def test_a_press_fit_is_not_tried_in_its_mate() -> None:
    s6, k6, g6 = (band(24.0, 24.0, 24.01, f"24 {fit}") for fit in ("s6", "k6", "g6"))

    assert tried_in(s6, inside=False) == words.PRESSED
    assert tried_in(replace(s6, text="24 S7"), inside=True) == words.PRESSED_BORE
    assert tried_in(k6, inside=False) == words.STARTED_BY_HAND
    assert tried_in(g6, inside=False) == words.MATE_SLIDES
    assert tried_in(None, inside=False) == words.TO_THE_MATE


def test_what_a_bore_is_over_comes_off_the_first_cut_and_of_a_diameter_goes_on_to_it() -> None:
    outside = worked(chucked(FACE, ROUGH, FINISH)).set_ups[0].steps[-1]
    bore = bored()[0]

    assert outside.remarks[0] == words.FROM_MEASURED
    assert "add half of what it is over" in words.FROM_MEASURED
    assert bore.remarks[0] == words.FROM_MEASURED_BORE
    assert "take half of what it is over the size expected off" in words.FROM_MEASURED_BORE


def test_a_dial_that_reads_the_diameter_takes_the_whole_of_what_is_over() -> None:
    dial = replace(SHOP.lathes[0].cross_slide, reads="diameter", division=0.04)
    bore = bored(cross_slide=dial)[0]

    assert bore.remarks[0] == words.FROM_MEASURED_BORE_ON_DIAMETER
    assert words.ALIKE_ON_DIAMETER in bore.remarks


@pytest.mark.derived(by="each size is the one before less twice what the slide went in")
def test_sizes_left_are_what_the_printed_dials_come_to() -> None:
    rough, finish = worked(chucked(FACE, ROUGH, FINISH)).set_ups[0].steps[1:]

    for step, start in ((rough, 25.0), (finish, 20.57)):
        stands = [m.to for one in step.passes for m in one.settings]
        depths = [one.depth for one in step.passes for _ in range(one.count)]
        assert stands == pytest.approx([sum(depths[: n + 1]) for n in range(len(depths))])
        ends = [one.settings[-1].to for one in step.passes]
        assert cut_sizes(step) == pytest.approx([start - 2 * to for to in ends], abs=0.011)


@pytest.mark.derived(by="(13.29 - 9.398) / 2 = 1.946: 97.3 divisions, to the nearest half 97.5")
def test_a_size_without_limits_is_set_to_the_nearest_half_division() -> None:
    end = operation("end", "turn", feature="end", starts=20.0, ends=43.0, from_size=13.29,
                    cut_size=9.398)  # fmt: skip
    step = only_step(chucked(FACE, end))

    assert step.passes[-1].settings[-1].divisions == 97.5
    assert sum(one.count * one.divisions for one in step.passes) == 97.5
    assert step.moves[-1].divisions == 97.5


# --- faces and lengths ---

LEFT = replace(FACE, key="face left", feature="left", makes=("left",), starts=0.0, ends=-2.0,
               approach=((-1.0, 0.0, 0.0),))  # fmt: skip
OTHER_WAY: dict[str, object] = {
    "faces": (-1.0, 0.0, 0.0), "grip_low": 20.0, "grip_high": 42.0
}  # fmt: skip


def faced_to_length() -> Worked:
    part = replace(SHAFT, distances=())
    return worked(chucked(FACE, grip_low=0.0, grip_high=8.0), chucked(LEFT, **OTHER_WAY),
                  part=part)  # fmt: skip


@pytest.mark.derived(by="41 to 42 long to be 40: up to 2 off, the last 0.1 to what was measured")
def test_cuts_of_a_face_go_as_far_as_the_length_measured_asks() -> None:
    step = faced_to_length().set_ups[1].steps[0]
    *rough, last = step.passes

    assert step.check is not None
    assert (step.check.low, step.check.high) == (41.0, 42.0)
    assert sum(one.count * one.depth for one in rough) == pytest.approx(1.9)
    assert last.to_measured == pytest.approx(40.0)
    assert last.settings == ()
    assert last.leaves == pytest.approx(40.0)
    assert all(one.leaves == 0.0 for one in rough)
    assert len(step.moves) == 1
    assert set(step.remarks[:2]) == {words.FROM_FACE, words.MEASURE_BEFORE}


@pytest.mark.derived(by="1 to face and half of the saw's 1 over: 1.5; jaws 20 from the face")
def test_work_stands_out_by_what_the_saw_is_expected_to_have_left() -> None:
    held = faced_to_length().set_ups[1].set_up

    assert held.operations[0].from_size == pytest.approx(1.5)
    assert held.scheme.stick_out == pytest.approx(21.5)


def sawn(length: float) -> Worked:
    saw = operation("saw", "saw", feature="blank", machine="bench", tools=("hacksaw",))
    bench = chucked(saw, machine="bench")
    first = chucked(FACE, grip_low=-1.0, grip_high=9.0, stick_out=31.8)
    plan = Plan(set_ups=(bench, first, chucked(ROUGH, grip_low=-1.0, grip_high=9.0)),
                blank_size=(length, 25.0, 25.0), minutes=60.0, bound=60.0, proved=True,
                up_to_set_ups=3)  # fmt: skip
    return work_out(plan, SHAFT, SHOP)


@pytest.mark.derived(by="41.8 is sawn to 42: with 10 gripped 32 stand out, 31 when 1 is faced off")
def test_what_stands_out_is_of_the_bar_as_the_rule_lets_it_be_sawn() -> None:
    first, second = (u.set_up.scheme for u in sawn(41.8).set_ups[1:])

    assert (first.grip_low, first.grip_high) == pytest.approx((-1.2, 8.8))
    assert first.stick_out == pytest.approx(32.2)
    assert second.stick_out == pytest.approx(31.2)


def between_centres(*operations: Operation) -> SetUp:
    device = next(d for d in SHOP.holding if d.device == "centres")
    one = chucked(*operations, grips=(), grip_low=0.0, grip_high=0.0)
    link = replace(one.scheme.links[0], holder=device)
    return replace(one, scheme=replace(one.scheme, links=(link,), centre=True, key="centres"))


def turned_between_centres() -> tuple[Step, ...]:
    ends = chucked(FACE, replace(LEFT, starts=0.0))
    return worked(ends, between_centres(ROUGH, FINISH)).set_ups[1].steps


def test_a_length_from_an_end_is_measured_lifted_out_of_the_centres() -> None:
    step = turned_between_centres()[-1]
    (length,) = (m for m in step.measures if m.kind == "depth")

    assert length.when == "out of the holding"
    assert words.LIFT_OUT in step.remarks
    assert "the same slot" in words.LIFT_OUT


def test_with_a_centre_behind_work_in_the_chuck_the_centre_is_drawn_back_to_measure() -> None:
    step = only_step(chucked(FACE), chucked(ROUGH, FINISH, centre=True))

    assert words.CENTRE_BACK in step.remarks
    assert words.LIFT_OUT not in step.remarks


@pytest.mark.derived(by="40 held, readings 30 less two anvils of 3 apart: 40 / (2 x 24) = 0.833")
def test_the_tailstock_is_shifted_toward_you_where_its_end_is_bigger() -> None:
    step = turned_between_centres()[-1]

    assert step.shift == pytest.approx(40 / 48)
    assert words.ALIGNED in step.remarks
    assert words.shift_words(step.shift, 24.0) in step.remarks
    assert words.shift_words(step.shift, 24.0).startswith(
        "bigger at the tailstock end: clock on its barrel, set over toward you by 0.8 times the "
        "difference of two readings 24 mm apart"
    )


def test_a_length_drawn_from_the_other_end_is_left_long_and_comes_by_what_it_is_over() -> None:
    closer = replace(
        SHAFT.distances[0], name="left to collar", a="left", b="collar right",
        band=band(10.0, 9.95, 10.05, "10 ±0.05"),
    )  # fmt: skip
    part = replace(SHAFT, distances=(*SHAFT.distances, closer))
    ends = chucked(FACE, replace(LEFT, starts=0.0))
    step = worked(ends, between_centres(ROUGH, FINISH), part=part).set_ups[1].steps[-1]
    loose = worked(ends, between_centres(ROUGH, FINISH)).set_ups[1].steps[-1]

    assert words.BY_WHAT_IT_IS_OVER in step.remarks
    assert "top-slide" not in {move.slide for move in step.moves}  # no figure that could scrap it
    assert "the length overall as measured, less that" in words.FOLLOWS
    assert words.FOLLOWS not in loose.remarks


@pytest.mark.derived(by="60 from the face, by rule to 59.5: 0.5 by the top-slide is 25 divisions")
def test_a_shoulder_stopped_short_of_by_rule_comes_to_length_by_the_top_slide() -> None:
    far = replace(FINISH, starts=10.0, ends=73.0)
    step = only_step(chucked(replace(FACE, starts=70.0, ends=72.0), far))
    (top,) = (m for m in step.moves if m.slide == "top-slide")

    assert (top.turns, top.divisions) == (0, 25.0)
    assert words.COME_NEAR in step.remarks
    assert words.COME_NEAR.index("unlock the top-slide") < words.COME_NEAR.index(
        "lock the top-slide again"
    )


@pytest.mark.derived(by="22 m/min at a rim of 70 is just over 100 rev/min; at 20.57 it is 340")
def test_a_larger_shoulder_is_faced_at_the_speed_its_rim_stands() -> None:
    part = replace(SHAFT, blank=replace(SHAFT.blank, across=70.0))
    wide = replace(ROUGH, from_size=70.0)
    step = only_step(chucked(FACE, wide, FINISH), part=part)
    small = only_step(chucked(FACE, ROUGH, FINISH))

    assert step.shoulder_speed == 100
    assert any("100 rev/min" in remark for remark in step.remarks)
    assert small.speed is not None
    assert small.shoulder_speed is None or small.shoulder_speed < small.speed


def threaded() -> tuple[Step, ...]:
    """Cut a 3/8 BSF end 10 long with an undercut, beside a shoulder of 12.7 drawn to ±0.4."""
    shoulder = replace(plane("shoulder", 30.0, RIGHT, 6.35), name="shoulder")
    ends = replace(SHAFT.distances[0], name="end long", a="shoulder", b="right",
                   band=band(10.0, 9.6, 10.4, "10 ±0.4"))  # fmt: skip
    part = replace(SHAFT, surfaces=(*SHAFT.surfaces, shoulder), distances=(*SHAFT.distances, ends))
    beside = replace(ROUGH, key="beside", starts=20.0, from_size=25.0, cut_size=12.7)
    end = operation("end", "turn", feature="end", starts=30.0, ends=43.0, from_size=12.7,
                    cut_size=THREAD.major - 0.1 * THREAD.pitch, makes=("shoulder",))  # fmt: skip
    undercut = operation("undercut", "groove", feature="undercut", starts=30.0, ends=32.4,
                         from_size=THREAD.major, cut_size=7.14,
                         tools=("grooving tool 1.5",))  # fmt: skip
    cut = operation("thread", "thread", feature="end", starts=30.0, ends=40.0,
                    cut_size=THREAD.major, tools=("screwcutting tool 55°",),
                    thread=THREAD)  # fmt: skip
    return worked(chucked(FACE, beside, end, undercut, cut), part=part).set_ups[0].steps


def test_the_mandrel_handle_is_out_before_the_belt_is_tightened() -> None:
    step = threaded()[-1]

    assert words.HANDLE_OUT in step.cautions
    assert words.WHEELS_HUNG in step.remarks
    assert words.WHEELS_OFF in step.remarks


@pytest.mark.derived(
    by="flank at 12.7: (4.8/2 + H/6) tan 27.5 = 1.355; 0.15 clear and a quarter of 0.8: 8.29"
)
def test_the_flank_of_a_threading_tool_stays_off_the_nearest_the_shoulder_may_lie() -> None:
    screw = threaded()[-1]
    half = ((12.7 - THREAD.minor) / 2 + THREAD.pitch * 0.9605 / 6) * math.tan(math.radians(27.5))
    (stop,) = (m for m in screw.moves if m.slide == "saddle")

    assert half == pytest.approx(1.355, abs=0.005)
    assert stop.to == pytest.approx(10.0 - half - 0.15 - 0.8 / 4, abs=0.03)
    assert words.BY_MANDREL_HANDLE in screw.remarks  # no room to stop a motor in


def test_for_a_thread_the_saddle_is_free_and_a_pointed_tool_is_not_felt_for() -> None:
    screw = threaded()[-1]

    assert "saddle" not in screw.lock
    assert screw.lock == ("top-slide",)
    assert words.SADDLE_FREE in screw.remarks
    assert words.TIP_AT_THE_FACE in screw.remarks
    assert "by eye" in words.TIP_AT_THE_FACE
    assert words.FROM_MAJOR in screw.remarks
    assert words.FROM_TOUCH not in screw.remarks


def test_the_corner_of_the_undercutting_tool_only_just_touches_the_shoulder() -> None:
    groove = threaded()[-2]

    assert words.CORNER_AT_SHOULDER in groove.remarks
    assert groove.passes[0].settings[0].divisions == pytest.approx(56.5)


# --- small ends, chamfers, looks ---


def test_a_small_end_beside_the_tailstock_is_minded() -> None:
    small = replace(ROUGH, cut_size=12.0)

    assert words.SMALL_END in only_step(chucked(FACE), chucked(small, centre=True)).remarks
    assert words.SMALL_END not in only_step(chucked(FACE), chucked(ROUGH, centre=True)).remarks
    assert words.SMALL_END not in only_step(chucked(FACE, small)).remarks


@pytest.mark.derived(by="1/32 in is 0.79375: 40 divisions of 0.02 are 0.80; 0.5 is 25")
@pytest.mark.parametrize(("leg", "divisions"), [(0.79375, 40.0), (0.5, 25.0)])
def test_the_leg_of_a_chamfer_is_whole_divisions_from_the_corner_touched(
    leg: float, divisions: float
) -> None:
    chamfer = operation(
        "chamfer", "chamfer", feature="ends", cut_size=leg, tools=("chamfer tool 45°",)
    )
    step = only_step(chucked(FACE, FINISH, chamfer))

    assert (step.moves[0].turns, step.moves[0].divisions) == (0, divisions)
    assert step.remarks[0] == words.TOUCH_THE_CORNER


def test_an_outside_is_looked_at_twice_by_the_micrometer_that_spans_it() -> None:
    step = only_step(chucked(FACE, ROUGH, FINISH))
    none = replace(SHOP, gauges=tuple(g for g in SHOP.gauges if g.kind != "micrometer"))
    without = only_step(chucked(FACE, ROUGH, FINISH), shop=none)

    assert step.check is not None
    assert without.check is not None
    assert step.check.means == "micrometer 0-25"
    assert not without.check.means.startswith("micrometer")


@pytest.mark.derived(by="23.8 to 24.2 drawn in by the caliper's doubt of 0.038, to its marks")
def test_sure_at_is_the_limits_drawn_in_by_the_doubt_that_is_told() -> None:
    collar = operation("collar", "turn", feature="collar", starts=0.0, ends=10.0, from_size=25.0,
                       cut_size=24.0, makes=("collar",))  # fmt: skip
    (own, *_) = only_step(chucked(FACE, collar)).measures

    assert own.good is not None
    assert own.good[0] == pytest.approx(math.ceil((own.low + own.doubt) / 0.02) * 0.02)
    assert own.good[1] == pytest.approx(math.floor((own.high - own.doubt) / 0.02) * 0.02)


@pytest.mark.derived(by="12.6664 to 12.6836 less 0.0076 either way; no mark of 0.01 but 12.67")
def test_sure_at_without_a_mark_round_the_aim_is_still_drawn_in_by_the_doubt_told() -> None:
    tight = band(12.675, 12.6664, 12.6836)
    judged = choose_gauge(kind="diameter", low=tight.low, high=tight.high, workshop=SHOP)

    assert judged is not None
    good = _sure(judged, tight, 12.675)

    assert good == pytest.approx((tight.low + judged.doubt, tight.high - judged.doubt))


@pytest.mark.derived(by="limits 0.015 apart and a doubt of 0.0076 either way leave nothing")
def test_nothing_is_called_sure_where_the_doubt_leaves_nothing() -> None:
    tight = band(12.69, 12.685, 12.700)
    judged = choose_gauge(kind="diameter", low=tight.low, high=tight.high, workshop=SHOP)

    assert judged is not None
    assert _sure(judged, tight, 12.69) is None


def test_what_is_touched_comes_before_what_is_cut() -> None:
    for one in worked(chucked(FACE, ROUGH, FINISH)).set_ups[0].steps:
        touched = [n for n, said in enumerate(one.remarks) if "touch" in said]
        assert touched[0] <= 1


def test_a_rule_is_never_sure_of_less_than_its_own_marks() -> None:
    rules = tuple(gauge for gauge in SHOP.gauges if gauge.kind == "rule")
    judged = choose_gauge(
        kind="length", low=177.41, high=178.19, workshop=replace(SHOP, gauges=rules)
    )

    assert judged is not None
    assert _sure(judged, band(177.8, 177.41, 178.19, "7 in"), 177.8) is None
