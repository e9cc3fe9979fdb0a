"""What the mill is told: aimed places, sides of the finder, heights, ways; the nut and arbor."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

import halfthou.demo
from halfthou.drawing.model import Part
from halfthou.planning.make_plan import make_plan
from halfthou.planning.milled.in_vice import HEAVY, HEAVY_SHARE
from halfthou.planning.worked import Step, Worked, WorkedSetUp
from halfthou.planning.working import keyway_words, mill_words, words
from halfthou.planning.working.bench import FILED_LEG
from halfthou.planning.working.mill_holes import HOLES
from halfthou.planning.working.sawing import PIECE_HELD
from halfthou.planning.working.whole import work_out
from halfthou.planning.working.zero import HIGHEST_SPOT
from halfthou.store.part_file import read_part
from halfthou.workshop.default import default_workshop

PARTS = Path(__file__).parents[3] / "data" / "parts"
DEMO = Path(halfthou.demo.__file__).parent


@cache
def part(name: str) -> Part:
    there = PARTS / f"{name}.toml"
    return read_part(there if there.exists() else DEMO / f"{name}.toml")


@cache
def job(name: str) -> Worked:
    shop = default_workshop()
    return work_out(make_plan(part(name), shop), part(name), shop)


def on_the_mill(name: str) -> list[WorkedSetUp]:
    return [one for one in job(name).set_ups if one.set_up.scheme.machine == "mill"]


def step_of(name: str, key: str) -> tuple[WorkedSetUp, Step]:
    return next(
        (one, step)
        for one in job(name).set_ups
        for step in one.steps
        if step.operations[0].key.startswith(key)
    )


def slides(step: Step, slide: str) -> list[float]:
    """Give the settings of a slide, right, away and up being the positive ways."""
    signs = {"left": -1, "toward": -1}
    return [m.to * signs.get(m.sense, 1) for m in step.moves if m.slide == slide]


def stands(one: WorkedSetUp, way: str) -> tuple[str, float]:
    assert one.zero is not None
    return next((means, at) for w, _, means, at in one.zero.pick_up if w == way)


# --- the nut ---


@pytest.mark.derived(by="neck aimed at 11.62 in the middle of 18: (18 - 11.62)/2 = 3.19 a side")
def test_the_neck_of_the_nut_lies_where_it_is_aimed_at_and_in_the_middle() -> None:
    one, first = step_of("t-slot-nut", "mill left shoulder")
    _, second = step_of("t-slot-nut", "mill right shoulder")
    assert one.zero is not None
    # from the zero edge, whichever it is, along the table as it lies
    flip = one.set_up.scheme.across[0]
    walls = sorted(
        (one.zero.at[0] + flip * slides(step, "table")[-1]) + side * 8.0
        for step, side in ((first, 1), (second, -1))
    )

    assert walls == [pytest.approx(3.19, abs=0.02), pytest.approx(14.81, abs=0.02)]
    assert 11.5 < walls[1] - walls[0] < 11.7
    left = next(m for m in first.measures if m.kind == "position")
    # the dials show 0.02: 4.80 and 22.80 for the cutter's middle, so that is what is aimed at
    assert (left.low, left.aim, left.high) == pytest.approx((3.09, 3.20, 3.29))
    neck = next(m for m in second.measures if m.kind in {"length", "width"})
    assert neck.aim == pytest.approx(11.60) == pytest.approx(walls[1] - walls[0])
    assert left.good is not None
    assert left.low < left.good[0] < left.aim < left.good[1] < left.high


def test_the_picture_shows_where_the_neck_is_aimed_at_and_its_drawn_width() -> None:
    one, first = step_of("t-slot-nut", "mill left shoulder")
    wanted = {w.surfaces: w for w in one.wanted}

    side = wanted["left", "neck left"]
    assert (side.kind, side.band) == ("position", None)
    assert side.value == pytest.approx(3.20)
    assert side.step == first.number
    neck = wanted["neck left", "neck right"]
    assert neck.band is not None
    assert neck.band.text == "12 -0.3/-0.5"


@pytest.mark.derived(by="14 high, 0.5 below, 2 clear: 17; the shoulder's 9 would do")
def test_a_cutter_keeps_one_reach_through_a_set_up_so_that_the_knees_zero_holds() -> None:
    one, first = step_of("t-slot-nut", "mill left shoulder")
    outs = {step.tool_out for step in one.steps if step.tool == first.tool}

    assert outs == {17.0}


def test_the_knee_is_not_locked_before_it_is_wound_up() -> None:
    for one in on_the_mill("t-slot-nut"):
        for step in one.steps:
            if {mill_words.KNEE_LOCKED, mill_words.ONE_DEPTH} & set(step.remarks):
                assert "knee" not in step.lock
    _, nose = step_of("click", "mill nose")
    assert mill_words.KNEE_ONCE in nose.remarks
    assert "knee" not in nose.lock


def test_a_face_without_a_drawn_size_goes_on_only_while_it_is_not_clean() -> None:
    faced = [
        step
        for one in on_the_mill("t-slot-nut")[:2]
        for step in one.steps
        if step.operations[0].verb == "mill face"
    ]

    assert faced
    assert all(mill_words.NOT_CLEAN in step.remarks for step in faced)


@pytest.mark.derived(by="pilot 4.2: BS1, 0.7 of its body 3.18; 1.3 of its pilot 1.19 and the cone")
def test_a_spot_is_made_for_the_drill_that_comes_next() -> None:
    steps = [step for one in on_the_mill("t-slot-nut") for step in one.steps]
    spot = next(step for step in steps if step.operations[0].verb == "spot")
    op = spot.operations[0]

    assert "1/8" in spot.tool
    assert op.cut_size == pytest.approx(0.7 * 3.175)
    assert op.ends == pytest.approx(1.3 * 1.191 + (2.2225 - 1.191) / 2 / 0.57735, abs=0.01)


def test_a_drills_depth_at_the_mill_is_counted_from_the_tip_level_with_the_face() -> None:
    drilled = [s for o in on_the_mill("t-slot-nut") for s in o.steps if "drill" in s.tool]

    assert any(words.TIP_AT_FACE in step.remarks for step in drilled)
    assert any(mill_words.CLEAR_BELOW_VICE in step.remarks for step in drilled)


@pytest.mark.derived(by="0.4 over at first: 11.60 + 0.4 = 12.00, then in")
def test_the_close_width_is_measured_before_its_last_cut() -> None:
    _, second = step_of("t-slot-nut", "mill right shoulder")
    interim, last = slides(second, "table")

    assert abs(interim - last) == pytest.approx(0.4, abs=0.011)
    assert second.check is not None
    assert second.check.expect == pytest.approx(12.0)
    assert second.check.means == "caliper"


def test_depth_is_set_by_winding_the_knee_up_in_whole_divisions() -> None:
    for name in ("t-slot-nut", "arbor"):
        knees = [
            m for u in on_the_mill(name) for s in u.steps for m in s.moves if m.slide == "knee"
        ]

        assert knees
        assert {m.sense for m in knees} == {"up"}
        assert all(m.divisions == int(m.divisions) for m in knees)


def test_every_setting_of_a_milled_cut_is_listed() -> None:
    for one in on_the_mill("t-slot-nut"):
        for step in one.steps:
            knees = slides(step, "knee")
            sideways = len(slides(step, "table") + slides(step, "cross-table"))
            cuts = sum(p.count for p in step.passes)
            assert not cuts or cuts in {len(knees), sideways}


def test_only_what_does_not_move_is_locked() -> None:
    for name in ("t-slot-nut", "flange-plate", "arbor"):
        for one in on_the_mill(name):
            for step in one.steps:
                if step.feed is not None and step.passes:
                    assert step.feed.slide not in step.lock


@pytest.mark.derived(by="clockwise from above: with the work on its left the table comes nearer")
def test_the_table_goes_against_the_cutters_turning() -> None:
    found = 0
    for one in on_the_mill("t-slot-nut"):
        for step in one.steps:
            way = step.feed.table_goes if step.feed is not None else ""
            key = step.operations[0].key
            if not way:
                continue
            found += 1
            outward = -1.0 if "left" in key else 1.0
            right_on_table = outward * one.set_up.scheme.across[0] > 0
            assert way == ("toward" if right_on_table else "away"), key

    assert found >= 4


@pytest.mark.derived(
    by="a finder of 10 against the left face stands 5 left, at the fixed jaw 5 near"
)
def test_the_finder_stands_outside_the_edge_and_in_front_of_the_fixed_jaw() -> None:
    one, _ = step_of("t-slot-nut", "thread spot")
    assert one.zero is not None
    surface = next(s for w, s, _, _ in one.zero.pick_up if w == "x")
    outward = -1.0 if surface == "left" else 1.0

    assert stands(one, "x") == ("edge finder", 5.0 * outward * one.set_up.scheme.across[0])
    assert stands(one, "y") == ("edge finder on the fixed jaw, beside the work", -5.0)


@pytest.mark.derived(by="cutter of 16 with 1 of raw metal: 8 + 1 outside the finished edge")
def test_a_sawn_edge_is_come_up_to_by_the_cutter_and_paper() -> None:
    raw = [
        (means, at)
        for one in on_the_mill("t-slot-nut")
        if one.zero is not None
        for way, _, means, at in one.zero.pick_up
        if way == "x" and "raw" in means
    ]

    assert raw
    assert all(means == "cutter and a slip of paper on the raw edge" for means, _ in raw)
    assert {abs(at) for _, at in raw} == {9.0}


@pytest.mark.derived(by="a top still raw: 14 and 3 over it, and 0.5 below the edge: 17.5")
def test_depths_count_from_the_face_as_it_stands_when_it_is_touched() -> None:
    for name in ("t-slot-nut", "flange-plate"):
        for one in on_the_mill(name):
            done = {n for u in job(name).set_ups[: one.number - 1] for s in u.steps
                    for n in s.operations[0].makes}  # fmt: skip
            for step in one.steps:
                if step.touch is not None and "feeler" in step.touch.means:
                    raw = step.touch.surface.removeprefix("stock ") not in done
                    assert step.touch.surface.startswith("stock ") == raw
                    assert step.touch.above == pytest.approx(0.05)
                done |= set(step.operations[0].makes)
    _, left = step_of("t-slot-nut", "mill left with")
    assert left.touch is not None
    assert left.touch.surface == "stock bottom"
    assert slides(left, "knee") == [pytest.approx(17.5)]


def test_every_cut_has_its_setting_and_what_it_leaves() -> None:
    for name in ("t-slot-nut", "flange-plate", "arbor"):
        for one in on_the_mill(name):
            for step in one.steps:
                for lot, after in pairwise([*step.passes, None]):
                    assert lot is not None
                    assert len(lot.settings) == lot.count, step.operations[0].key
                    if after is not None:
                        sizing = step.operations[0].verb == "mill face"
                        way = -1.0 if sizing else 1.0
                        off = after.count * after.depth
                        assert after.leaves == pytest.approx(lot.leaves + way * off)


@pytest.mark.derived(by="backlash: a dial is right only the way its zero was set")
def test_every_place_is_come_to_going_right_or_away() -> None:
    for name in ("t-slot-nut", "flange-plate", "arbor", "barrel-end"):
        for one in on_the_mill(name):
            moves = [m for s in one.steps for m in s.moves]
            moves += [m for s in one.steps for p in s.places for m in p.moves]
            ways = {(m.slide, m.last) for m in moves if m.slide in {"table", "cross-table"}}

            assert ways <= {("table", "right"), ("cross-table", "away")}


@pytest.mark.derived(by="sawn 20 to 21: more may be on than the cuts listed take")
def test_the_last_cut_to_a_size_takes_what_is_over_and_is_never_begun_under_it() -> None:
    steps = [s for u in on_the_mill("t-slot-nut") for s in u.steps]
    sized = [
        s for s in steps
        if s.operations[0].verb == "mill face" and s.measures[0].band is not None
    ]  # fmt: skip

    assert len(sized) == 3
    for step in sized:
        assert step.check is not None
        assert step.check.low == pytest.approx(step.measures[0].aim)
        over_the_top = step.operations[0].feature.rsplit(" ", 1)[-1] != "right"
        said = mill_words.ROUGHING_TO_TAKE if over_the_top else mill_words.WHAT_IS_OVER
        assert said in step.remarks
    for step in steps:
        if step.operations[0].verb == "mill face":
            assert sum("its name goes on the new face" in r for r in step.remarks) == 1


@pytest.mark.derived(by="cuts of 0.88 and 2.88 off 19 and 17 down to 18 and 14, a last of 0.12")
def test_a_first_face_leaves_what_the_roughing_of_the_face_opposite_takes_and_its_last_cut() -> (
    None
):
    steps = [s for u in on_the_mill("t-slot-nut") for s in u.steps]
    first = [
        s.measures[0] for s in steps
        if s.operations[0].verb == "mill face" and s.measures[0].band is None
    ]  # fmt: skip

    assert [(m.low, m.aim) for m in first] == [
        pytest.approx(pair) for pair in ((18.88, 19.0), (16.88, 17.0), (18.88, 19.0))
    ]


@pytest.mark.derived(by="5 of 14 in the jaws is under two fifths: 0.88 in three of 0.4 or less")
def test_work_held_low_in_the_vice_is_cut_sideways_lightly() -> None:
    one, step = next(
        (u, s)
        for u in on_the_mill("t-slot-nut")
        for s in u.steps
        if s.operations[0].verb == "mill face" and "right" in s.operations[0].makes
    )
    scheme = one.set_up.scheme

    assert scheme.grip_high - scheme.grip_low == pytest.approx(5.0)
    cuts = [(lot.count, round(lot.depth, 2)) for lot in step.passes]
    assert cuts == [(2, 0.32), (1, 0.24), (1, 0.12)]


@pytest.mark.derived(by="drills of 4.2 and 8.5; the hole in the middle of 18 by 18")
def test_drilled_holes_say_what_to_expect_and_spots_lie_by_rule_from_two_edges() -> None:
    _, spot = step_of("t-slot-nut", "thread spot")
    _, pilot = step_of("t-slot-nut", "thread pilot")
    _, drill = step_of("t-slot-nut", "thread drill")

    assert [m.aim for m in (*pilot.measures, *drill.measures)] == [4.2, 8.5]
    assert spot.check is not None
    where = {spot.check.what.split()[-2], spot.measures[0].where.split()[-2]}
    assert len(where & {"left", "right"}) == len(where & {"front", "back"}) == 1
    assert (spot.check.expect, spot.measures[0].aim) == pytest.approx((9.0, 9.0))
    _, ring = step_of("flange-plate", "ring drill")
    assert ring.measures[0].gauge == "shank of a drill"
    assert (ring.measures[0].low, ring.measures[0].high) == pytest.approx((5.4, 5.6))


def test_the_drill_chuck_goes_in_with_table_locked_and_knee_down() -> None:
    for name in ("t-slot-nut", "flange-plate", "barrel-end"):
        for one in on_the_mill(name):
            holes = [s for s in one.steps if s.operations[0].verb in HOLES]
            said = [s.number for s in one.steps if mill_words.CHUCK_IN in s.remarks]

            assert said == [s.number for s in holes[:1]]
            assert all({"table", "cross-table", "knee"} <= set(s.lock) for s in holes)


def test_no_zero_is_set_for_a_way_that_nothing_is_dialled_in() -> None:
    for name in ("t-slot-nut", "flange-plate"):
        for one in on_the_mill(name):
            assert one.zero is not None
            by_lanes = {s.number for s in one.steps if words.LANES_FROM_MIDDLE in s.remarks}
            used = {
                m.slide for s in one.steps for m in s.moves
                if s.number not in by_lanes or m.slide == "knee"
            }  # fmt: skip
            used |= {m.slide for s in one.steps for p in s.places for m in p.moves}
            ways = {way for way, _, _, _ in one.zero.pick_up}
            assert ("x" in ways) == ("table" in used)
            assert ("y" in ways) == ("cross-table" in used)
            assert ("z" in ways) == ("knee" in used)


@pytest.mark.derived(by="14 of metal, point 0.3 x 8.5 and 1.5 clear: 18.05")
def test_a_through_hole_goes_no_deeper_than_it_must() -> None:
    _, drill = step_of("t-slot-nut", "thread drill")

    assert slides(drill, "quill") == [pytest.approx(18.05, abs=0.02)]


def test_a_cutter_is_touched_again_only_when_it_is_another_or_the_top_has_gone() -> None:
    for name in ("t-slot-nut", "flange-plate"):
        for one in on_the_mill(name):
            tool, faced = "", False
            for step in one.steps:
                if not any(m.slide == "knee" for m in step.moves):
                    tool = step.tool
                    continue
                touched = step.touch is not None
                facing = step.touch is not None and step.touch.means == HIGHEST_SPOT
                assert touched == (step.tool != tool or faced or facing)
                tool, faced = step.tool, facing


def test_the_mouth_is_opened_before_the_tap() -> None:
    one, _ = step_of("t-slot-nut", "thread tap")
    keys = [step.operations[0].key for step in one.steps]

    assert keys.index("thread drill") < keys.index("thread mouth") < keys.index("thread tap")
    tap = one.steps[keys.index("thread tap")]
    assert tap.fluid == "tapping compound"
    assert not tap.moves


def test_a_heavy_face_is_cut_with_half_the_height_in_the_jaws() -> None:
    for one in on_the_mill("t-slot-nut"):
        scheme = one.set_up.scheme
        high = scheme.grip_high - scheme.grip_low
        for op in one.set_up.operations:
            if op.verb == "mill face" and op.cut_size > HEAVY:
                assert high >= HEAVY_SHARE * (14 + op.cut_size) - 1e-6


def test_a_narrow_face_is_milled_with_the_end_mill() -> None:
    steps = [s for u in on_the_mill("t-slot-nut") for s in u.steps]
    faces = [s.tool for s in steps if s.operations[0].verb == "mill face"]

    assert len(faces) == 6
    assert all(tool.startswith("end mill") for tool in faces)


@pytest.mark.parametrize("name", ["t-slot-nut", "flange-plate", "arbor", "barrel-end"])
def test_the_price_and_the_worked_minutes_of_milling_agree(name: str) -> None:
    worked = sum(u.minutes for u in on_the_mill(name))
    priced = sum(
        u.set_up.scheme.minutes + sum(op.minutes for op in u.set_up.operations)
        for u in on_the_mill(name)
    )

    assert worked == pytest.approx(priced, rel=0.35)  # tool changes stand in the one alone


def test_the_whole_plan_of_the_nut_takes_what_its_price_says() -> None:
    plan = make_plan(part("t-slot-nut"), default_workshop())

    assert sum(u.minutes for u in job("t-slot-nut").set_ups) == pytest.approx(
        plan.minutes, rel=0.25
    )


# --- the arbor's keyway ---


@pytest.mark.derived(by="a seat of 16.001 to 16.012 less 3.04 to 3.06 leaves 12.941 to 12.972")
def test_a_keyway_is_as_deep_as_leaves_the_drawn_size() -> None:
    one, key = step_of("arbor", "key mill")
    leaves = next(m for m in key.measures if m.surface == "key floor")
    last = [m for m in key.moves if m.slide == "knee"][-1]

    assert (leaves.low, leaves.high) == pytest.approx((12.9, 13.0))
    assert leaves.low < 16.0015 - last.to
    assert 16.012 - last.to < leaves.high
    assert (last.turns, last.divisions) in {(1, 52), (1, 53)}
    floor = next(w for w in one.wanted if w.surfaces == ("key floor", "seat"))
    assert floor.a[1] - floor.b[1] == pytest.approx(13.0)


@pytest.mark.derived(by="8.003 less the root of 8.003² - 2.4865²: 0.396; 3.04 less that: 2.64")
def test_a_keyways_depth_is_felt_from_its_lips_in_the_jaws_and_over_the_bar_when_out() -> None:
    _, key = step_of("arbor", "key mill")
    by_where = {m.where: m for m in key.measures}

    assert by_where["from the two lips of the slot"].aim == pytest.approx(2.644, abs=0.002)
    assert key.check is not None
    assert key.check.expect == pytest.approx(2.644 - 0.12, abs=0.002)
    over = next(m for m in key.measures if m.surface == "key floor" and m.kind == "length")
    assert over.when == "out of the holding"


@pytest.mark.derived(by="3.04 deep, a collar of 28.575 on 16: 6.29, and 2 free: 11.3, so 12")
def test_the_cutter_stands_out_past_the_collar_beside_the_keyway() -> None:
    _, key = step_of("arbor", "key mill")

    assert key.tool_out == 12.0


@pytest.mark.derived(by="quarter of an inch from the collar, cutter of 5: 6.35 + 2.5 = 8.85")
def test_a_keyways_distance_from_the_collar_lies_along_the_table() -> None:
    one, key = step_of("arbor", "key mill")
    start = next(m for m in key.measures if m.surface == "key left")
    wanted = next(w for w in one.wanted if w.surfaces == ("collar right", "key left"))

    assert start.kind == "position"
    assert wanted.kind == "position"
    assert wanted.a[1:] == wanted.b[1:]
    assert [p.x for p in key.places] == pytest.approx([8.85, 29.25])


@pytest.mark.derived(by="jaws shut on 16 over a tail of 12.7 leave no room for a finder of 10")
def test_the_middle_of_the_arbor_is_found_on_the_journal_that_stands_out_of_the_jaws() -> None:
    one, _ = step_of("arbor", "key mill")

    assert stands(one, "y") == ("edge finder, both sides", 0.0)
    assert one.zero is not None
    assert next(p[1] for p in one.zero.pick_up if p[0] == "y") == "journal"
    assert stands(one, "x") == ("edge finder", 5.0)


@pytest.mark.derived(by="the last cut is 0.12: half of it may be gone already, 0.2 may be lacking")
def test_a_keyway_is_looked_at_while_it_can_still_be_saved_and_ends_at_its_touch() -> None:
    _, key = step_of("arbor", "key mill")

    assert key.check is not None
    assert key.check.means == "caliper, depth rod"
    assert key.check.low == pytest.approx(2.464, abs=0.002)
    assert key.check.high == pytest.approx(2.584, abs=0.002)
    assert keyway_words.BY_THE_TOUCH in key.remarks


def test_a_keyways_table_is_locked_at_its_start_before_the_cutter_goes_down() -> None:
    _, key = step_of("arbor", "key mill")

    assert key.lock == ()
    assert {keyway_words.AT_THE_START, keyway_words.SUNK} <= set(key.remarks)
    assert mill_words.KNEE_LOCKED not in key.remarks


def test_the_plug_of_a_keyway_is_not_made_when_the_work_is_already_held() -> None:
    _, key = step_of("arbor", "key mill")

    assert words.PLUG not in key.remarks


# --- the barrel end's ring ---


@pytest.mark.derived(by="8 thick, point 0.3 x 4.5 and 1.5 clear: 10.85; right across 52")
def test_the_ring_is_looked_at_right_across_and_drilled_just_through() -> None:
    one, spot = step_of("barrel-end", "ring spot")
    _, drill = step_of("barrel-end", "ring drill")

    assert spot.check is not None
    assert spot.check.expect == pytest.approx(52.0)
    assert slides(drill, "quill")[0] == pytest.approx(10.85, abs=0.02)
    assert one.zero is not None
    assert "z" not in {way for way, _, _, _ in one.zero.pick_up}


# --- a ledge and a slot with one-sided limits ---

GIB = """
[part]
name = "gib"
material = "grey iron"
units = "mm"
otherwise = "ISO 2768-mK"

[blank]
bar = "flat 32 x 22 x 54"

[block.body]
wide = "50"
high = "20"
thick = "30"

[slot.way]
in = "top"
wide = "10 +0.1/+0.05"
deep = "6 +0.2/0"
at = "20 right of left"

[step.ledge]
in = "top"
wide = "12 +0.15/0"
deep = "5"
at = "right: level with right"
"""


@pytest.mark.derived(by="12.06 in from the right of 50 and 8 of cutter: 45.94; 6 +0.2/0 at 6.08")
def test_one_sided_limits_of_a_ledge_and_a_slot_are_what_the_dials_come_to(tmp_path: Path) -> None:
    path = tmp_path / "gib.toml"
    path.write_text(GIB, encoding="utf-8")
    gib, shop = read_part(path), default_workshop()
    set_ups = work_out(make_plan(gib, shop), gib, shop).set_ups
    steps = {s.operations[0].key: (u, s) for u in set_ups for s in u.steps}

    one, ledge = steps["mill ledge"]
    assert one.zero is not None
    wall = one.zero.at[0] + one.set_up.scheme.across[0] * slides(ledge, "table")[-1] - 8.0
    assert 12.0 < 50.0 - wall < 12.15
    _, way = steps["mill way"]
    assert 6.0 < slides(way, "knee")[-1] < 6.2
    walls = [abs(at) for at in slides(way, "table")]
    tool = 10.0
    assert 10.05 < max(walls) - min(walls) + tool < 10.1
    assert {m.surface for m in way.measures} == {"way right", "way floor"}


def test_what_is_too_short_to_saw_by_is_told_with_the_piece_held_not_scolded() -> None:
    step = job("t-slot-nut").set_ups[0].steps[0]

    assert PIECE_HELD in step.remarks
    assert not any("buy" in caution for caution in step.cautions)


def test_a_filed_chamfer_is_scribed_by_rule_and_lies_upward() -> None:
    steps = job("t-slot-nut").set_ups[-1].steps

    assert any(FILED_LEG in step.remarks for step in steps)
