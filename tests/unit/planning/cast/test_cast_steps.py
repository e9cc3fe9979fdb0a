"""Steps on a casting: what is over is measured, the skin cut slowly, the bore made to its mate."""

from __future__ import annotations

from functools import cache

import pytest

from halfthou.planning.cast.skin import slow_enough
from halfthou.planning.model import Operation
from halfthou.planning.worked import Step, WorkedSetUp
from halfthou.planning.working.cast_zero import ON_THE_BOSS, STILL_OVER
from halfthou.planning.working.mill_words import ROUGHING_TO_TAKE
from halfthou.planning.working.whole import work_out
from halfthou.workshop.default import default_workshop
from tests.unit.planning.cast.plummer import TWO_CASTINGS, part_of, plan_of


@cache
def worked() -> tuple[WorkedSetUp, ...]:
    return work_out(plan_of(TWO_CASTINGS), part_of(TWO_CASTINGS), default_workshop()).set_ups


def step_of(key: str) -> Step:
    return next(s for u in worked() for s in u.steps if s.operations[0].key == key)


def set_up_of(key: str) -> WorkedSetUp:
    return next(u for u in worked() if any(s.operations[0].key == key for s in u.steps))


def said(step: Step) -> str:
    return "; ".join(step.remarks)


@pytest.mark.derived(by="40 drawn from the bottom to the axis, which lies in the joint")
def test_the_joint_face_of_the_base_is_measured_from_the_bottom() -> None:
    (size,) = step_of("mill base split").measures

    assert (size.aim, size.low, size.high) == pytest.approx((40.0, 39.95, 40.05))


@pytest.mark.derived(by="22 drawn; of 2 stock at least half comes off, at most twice as much")
def test_a_raw_face_is_measured_before_it_is_held_not_trusted_to_its_stock() -> None:
    step = step_of("mill cap split")

    assert step.check is not None
    assert (step.check.low, step.check.high) == pytest.approx((23.0, 26.0))
    assert ROUGHING_TO_TAKE in step.remarks


def test_the_second_end_faced_in_the_lathe_takes_what_is_left_over() -> None:
    assert "what it is over as cast comes off here" in said(
        step_of("face back across the joint in the lathe")
    )


@pytest.mark.derived(by="28 drawn, 2 stock on either side: 32 as cast, 30 after the first side")
def test_the_first_of_two_ends_takes_half_so_both_lie_alike_about_the_middle() -> None:
    step = step_of("mill front across the joint")

    assert [m.aim for m in step.measures] == pytest.approx([32.0, 30.0])
    assert step.measures[0].when == "before gripping"
    assert "half of what the thickness as cast is over the 28 ±0.1 drawn" in said(step)


def test_nothing_cut_is_measured_from_a_raw_face_where_a_cut_one_tells_its_place() -> None:
    step = step_of("face back across the joint in the lathe")

    assert [m.aim for m in step.measures] == pytest.approx([28.0])


def test_a_face_of_no_size_is_cut_only_until_no_skin_is_left() -> None:
    step = step_of("mill top")

    assert sum(p.count for p in step.passes) == 1
    assert len([m for m in step.moves if m.slide == "knee"]) == 1
    assert "one cut; a second as deep only if skin shows: height free" in said(step)


@pytest.mark.derived(by="12 m/min for the skin of grey iron over pi x 16, the step below")
def test_the_cut_through_the_skin_goes_slower_than_those_under_it() -> None:
    step = step_of("mill bottom")

    assert step.speed == 370
    assert "that cut at 210 rev/min" in said(step)


@pytest.mark.derived(by="pi x 50 x 120 is 18.8 m/min, over the 12 of the skin")
def test_a_cutter_the_mill_cannot_turn_slowly_enough_is_kept_off_the_skin() -> None:
    names = ("face mill 50", "end mill 16")

    assert slow_enough(names, "cast iron", default_workshop()) == ("end mill 16",)
    assert slow_enough(names, "mild steel", default_workshop()) == names


@pytest.mark.derived(by="40 less half of the bore as roughed")
def test_the_height_of_the_bore_is_looked_at_while_it_can_still_be_shifted() -> None:
    rough = step_of("rough bore bore in the lathe")
    bore, wall = rough.measures

    assert wall.where == "from the bottom face to the near wall"
    assert wall.aim == pytest.approx(40 - bore.aim / 2)


@pytest.mark.derived(by="3/4 in, and the middle of 0.02 to 0.04 less for the journal")
def test_a_bore_made_to_its_mate_asks_for_the_mate_s_reading_first() -> None:
    step = step_of("bore bore in the lathe")
    reading, own = step.measures[:2]

    assert (reading.where, reading.when) == ("the journal of the arbor as made", "before gripping")
    assert own.where == "that reading and 0.02 to 0.04"
    assert (reading.aim, own.aim) == pytest.approx((19.02, 19.05))
    assert own.band is None
    assert "made to the journal of the arbor as it measures, 0.02 to 0.04 free" in said(step)


def test_a_depth_that_begins_at_the_closed_joint_is_not_asked_for() -> None:
    assert [m.kind for m in step_of("dowel ream").measures] == ["bore"]


def test_bolts_and_dowels_to_be_got_are_named_by_their_size() -> None:
    assert step_of("bolt up").tool == "spanner, 2 hexagon bolts 1/4 BSF x 35"
    assert step_of("fit the dowels").tool == "hammer and soft drift, 2 dowels for 4 H7, 30 long"


def test_a_casting_is_marked_out_on_the_surface_plate_not_in_the_vice() -> None:
    assert any(
        "on the surface plate, on three jacks" in n for n in set_up_of("mark out cap").hold_notes
    )


def test_what_is_said_at_a_step_is_not_said_again_as_a_reason() -> None:
    plan = plan_of(TWO_CASTINGS)
    remarks: dict[int, tuple[Operation, ...]] = {
        n: s.operations for n, s in enumerate(plan.set_ups, start=1)
    }

    assert not [
        r for r in plan.reasons if any(r.text == op.remark for op in remarks.get(r.set_up, ()))
    ]


@pytest.mark.derived(by="a boss 6 high as cast hangs below the cap's top: the next pair is 8")
def test_parallels_are_of_a_usual_set_and_clear_what_hangs_between_them() -> None:
    scheme = set_up_of("mill cap split").set_up.scheme

    assert scheme.parallels is not None
    assert scheme.parallels[0] == pytest.approx(8.0)


@pytest.mark.derived(by="2 over on either side of 28: the first side leaves 30, in whatever cuts")
def test_half_of_what_is_over_comes_off_the_first_of_two_sides() -> None:
    step = step_of("mill front across the joint")

    assert step.passes[-1].leaves == pytest.approx(30.0)
    assert step.passes[0].leaves < 32.0


def test_a_place_is_not_told_from_a_face_that_is_still_to_be_cut() -> None:
    for key in ("stud spot", "dowel spot", "holding-down spot"):
        told = [m.where for m in step_of(key).measures if m.kind == "position"]
        assert told
        assert not any(where.endswith("from the front face") for where in told)


def test_a_boss_that_cleans_up_is_milled_alone() -> None:
    assert "the oil boss alone: what lies lower stays as cast" in said(step_of("mill top"))


def test_only_holes_that_come_into_a_bore_are_cleared_of_its_burr() -> None:
    told = said(step_of("bore bore in the lathe"))

    assert "through the oil hole" in told
    assert "through the stud hole" not in told
    assert "through the dowel hole" not in told


@pytest.mark.derived(by="5, half the finder of 10, and 2 of stock, half of 32 less 28")
def test_a_zero_on_a_raw_face_carries_the_metal_still_over_it() -> None:
    one = set_up_of("oil spot")
    assert one.zero is not None
    (along,) = (pick for pick in one.zero.pick_up if pick[0] == "x")

    assert along[1] == "front"
    assert along[2].endswith(STILL_OVER)
    assert along[3] == pytest.approx(-7.0)
    assert any(
        "front face to the back face as it is now, by caliper: about 32" in n
        and "half of what that is over 28, 2 here" in n
        for n in one.hold_notes
    )


def test_a_zero_on_a_face_that_stays_raw_carries_nothing() -> None:
    one = set_up_of("dowel spot")

    assert one.zero is not None
    assert not any(STILL_OVER in means for _, _, means, _ in one.zero.pick_up)


def test_a_hole_on_a_boss_as_cast_is_spotted_central_in_the_boss() -> None:
    assert ON_THE_BOSS in step_of("oil spot").remarks
    assert ON_THE_BOSS not in step_of("dowel spot").remarks


@pytest.mark.derived(by="40 less half of 18.45 left by the rough cuts; 40 ±0.05 as drawn")
def test_the_height_of_the_bore_is_read_by_micrometer_and_written_as_made() -> None:
    rough, done = step_of("rough bore bore in the lathe"), step_of("bore bore in the lathe")
    wall = next(m for m in rough.measures if m.kind == "length")
    high = next(m for m in done.measures if m.kind == "length")

    assert (wall.gauge, high.gauge) == ("micrometer 25-50", "micrometer 25-50")
    assert wall.aim == pytest.approx(40 - 18.45 / 2, abs=0.01)
    assert (high.low, high.high) == pytest.approx((39.95, 40.05))
    assert "out by more than 0.03" in said(rough)


def test_a_tap_is_started_in_the_chuck_and_goes_on_by_the_wrench_to_a_mark() -> None:
    step = step_of("stud tap step 2")

    assert "tap marked 40 from its end" in said(step)
    assert "then let go of, and on by the wrench to the mark" in said(step)
    assert not [m for m in step.moves if m.slide == "quill"]


@pytest.mark.derived(by="the face goes from the foot's top, 12, to the cap's, 62")
def test_clamps_stay_below_the_cut_and_lanes_go_from_its_own_middle() -> None:
    notes = "; ".join(set_up_of("mill front across the joint").hold_notes)

    assert "clamps, nuts and studs all below the foot's upper edge" in notes
    assert "wound round its whole way by hand first" in notes
    assert "lanes from the middle of the face to be cut, 37 from the plate" in said(
        step_of("mill front across the joint")
    )


def test_a_strap_beside_holes_has_a_greatest_height_and_tools_reach_past_it() -> None:
    notes = "; ".join(set_up_of("dowel spot").hold_notes)

    assert "together not over 20 above the face drilled" in notes
    assert "out of its chuck by its depth and 22 more" in notes


def test_on_a_faceplate_no_jaws_are_spoken_of() -> None:
    assert "the jaws" not in said(step_of("bore bore in the lathe"))
