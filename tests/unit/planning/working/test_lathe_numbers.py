"""Numbers of lathe set-ups that once were wrong on paper."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from halfthou.handbook.threads import thread
from halfthou.planning.worked import Step
from halfthou.planning.working.change_wheels import WHEELS, train_for
from halfthou.quantities import parse_thread

from .handmade import FACE, FINISH, ROUGH, SHAFT, chucked, only_step, operation, worked

THREAD = thread(parse_thread("3/8 BSF"))


def dials(step: Step) -> list[tuple[int, float]]:
    """Every setting of the cross-slide, cut by cut."""
    return [(m.turns, m.divisions) for one in step.passes for m in one.settings]


@pytest.mark.derived(by="19.97 and three cuts of 0.10 a side before it: 20.57")
def test_what_roughing_leaves_is_the_one_figure_that_finishing_starts_from() -> None:
    rough, finish = worked(chucked(FACE, ROUGH, FINISH)).set_ups[0].steps[1:]

    assert rough.passes[-1].leaves == pytest.approx(20.57)
    assert rough.measures[0].aim == pytest.approx(20.57)
    assert rough.operations[0].cut_size == pytest.approx(20.57)
    assert finish.operations[0].from_size == pytest.approx(20.57)
    assert finish.passes[0].depth == pytest.approx(0.1)


def test_every_cut_has_its_setting_in_whole_divisions_until_the_last_size() -> None:
    rough = worked(chucked(FACE, ROUGH, FINISH)).set_ups[0].steps[1]
    settings = dials(rough)

    assert len(settings) == sum(one.count for one in rough.passes)
    assert all(divisions == int(divisions) for _, divisions in settings[:-1])


def test_the_dials_of_a_close_size_land_on_its_aim() -> None:
    finish = worked(chucked(FACE, ROUGH, FINISH)).set_ups[0].steps[2]
    off = sum(one.count * one.depth for one in finish.passes)
    shown = finish.passes[-1].settings[-1].to

    assert shown == pytest.approx(off, abs=0.0051)
    assert finish.operations[0].from_size - 2 * shown < 19.98
    assert [one.count for one in finish.passes] == [1, 1, 1]


@pytest.mark.derived(by="by rule to a half millimetre at least 0.5 short of 60")
def test_a_rule_never_stops_past_a_shoulder() -> None:
    far = replace(FINISH, starts=10.0, ends=73.0)
    face = replace(FACE, starts=70.0, ends=72.0)
    step = only_step(chucked(face, far))
    (saddle,) = (m for m in step.moves if m.slide == "saddle")

    assert saddle.by == "rule"
    assert saddle.to == pytest.approx(59.5)
    assert step.length == pytest.approx(60.0)


@pytest.mark.derived(by="collar ends 40 from the right face, the jaws 50 from it: 2 past")
def test_a_diameter_that_nothing_larger_follows_is_turned_past_its_end() -> None:
    collar = operation(
        "collar", "turn", feature="collar", starts=0.0, ends=43.0, from_size=25.0, cut_size=24.0
    )
    near = only_step(chucked(FACE, collar, grip_low=-30.0, grip_high=-10.0))
    against = only_step(chucked(FACE, collar))

    assert next(m.to for m in near.moves if m.slide == "saddle") == pytest.approx(42.0)
    assert max(m.to for m in against.moves if m.slide == "saddle") == pytest.approx(39.5)
    assert any("just clear of the jaws" in remark for remark in against.remarks)
    assert any("bed stop" in remark for remark in against.remarks)


@pytest.mark.derived(
    by="70 over 20.48 is 24.76 high and 4 for the holder: 29; 25 over it asks nothing"
)
def test_a_tool_is_out_far_enough_for_the_shoulder() -> None:
    deep = replace(ROUGH, from_size=70.0, cut_size=20.48)
    part = replace(SHAFT, blank=replace(SHAFT.blank, across=70.0))
    low = only_step(chucked(FACE, ROUGH))
    high = only_step(chucked(FACE, deep), part=part)

    assert low.tool_out == 15.0
    assert high.tool_out == 29.0


@pytest.mark.derived(by="(9.398 - minor) / 2 deep; undercut from 7.6 to 10: its middle 8.8")
def test_a_thread_is_as_deep_as_the_diameter_turned_asks_and_stops_in_its_undercut() -> None:
    turned = operation(
        "end", "turn", feature="end", starts=30.0, ends=43.0, from_size=20.0,
        cut_size=THREAD.major - 0.1 * THREAD.pitch,
    )  # fmt: skip
    undercut = operation(
        "undercut", "groove", feature="end undercut", starts=30.0, ends=32.4,
        from_size=THREAD.major, cut_size=7.14, tools=("grooving tool 1.5",),
    )  # fmt: skip
    cut = operation(
        "thread", "thread", feature="end", starts=30.0, ends=40.0, cut_size=THREAD.major,
        tools=("screwcutting tool 55°",), thread=THREAD,
    )  # fmt: skip
    steps = worked(chucked(FACE, turned, undercut, cut)).set_ups[0].steps
    groove, screw = steps[-2:]
    depths = [one.depth for one in screw.passes for _ in range(one.count)]

    assert sum(depths) == pytest.approx(THREAD.depth - 0.05 * THREAD.pitch, abs=0.001)
    assert depths[:-2] == sorted(depths[:-2], reverse=True)
    assert screw.moves[0].to == pytest.approx(8.8, abs=0.03)
    assert screw.speed is not None
    assert 60 * 2.4 / (THREAD.pitch * screw.speed) >= 2.0
    assert any("mandrel handle" in remark for remark in screw.remarks)
    assert groove.passes[0].side_by_side
    assert groove.passes[0].depth == pytest.approx((THREAD.major - 0.127 - 7.14) / 2, abs=0.002)


@pytest.mark.derived(by="drivers over driven is the pitch over the leadscrew's")
def test_change_wheels_are_wheels_of_the_usual_set() -> None:
    for pitch in (0.5, 0.75, 1.0, 1.27, 1.5, 25.4 / 26, 25.4 / 19, 25.4 / 11, 3.0):
        found = train_for(pitch=pitch, leadscrew=3.0)
        assert found is not None
        drivers, driven = found
        assert set(drivers) | set(driven) <= set(WHEELS)
        assert math.prod(drivers) / math.prod(driven) == pytest.approx(pitch / 3.0, rel=2e-4)


@pytest.mark.derived(by="the left face is in the chuck: 40 overall cannot be measured there")
def test_a_length_into_the_chuck_is_measured_before_gripping_or_when_it_is_out() -> None:
    left = replace(FACE, key="face left", feature="left", makes=("left",), starts=0.0, ends=-2.0)
    first = chucked(left, faces=(-1.0, 0.0, 0.0), grip_low=20.0, grip_high=42.0)
    part = replace(SHAFT, distances=())
    step = only_step(first, chucked(FACE, grip_low=0.0, grip_high=8.0), part=part)
    (length,) = step.measures

    assert length.aim == pytest.approx(40.0)
    assert length.when == "out of the holding"
    assert step.check is not None
    assert (step.check.low, step.check.high) == (41.0, 42.0)


def test_a_chamfer_is_cut_at_the_speed_already_set() -> None:
    chamfer = operation(
        "chamfer", "chamfer", feature="ends", cut_size=0.5, tools=("chamfer tool 45°",)
    )
    turned, corner = worked(chucked(FACE, FINISH, chamfer)).set_ups[0].steps[1:]

    assert corner.speed == turned.speed
    assert corner.feed is not None
    assert corner.feed.turns == pytest.approx(0.5 / 1.5)
