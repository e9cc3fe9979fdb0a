"""Working out the rarer steps: bores, grooves, tapers, threads, parting, milling, the bench."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from halfthou.drawing.geometry import Box, Cylinder, Obround, Tube
from halfthou.drawing.model import Block, Part
from halfthou.errors import HalfthouError
from halfthou.handbook.threads import thread
from halfthou.planning.model import Link, SetUp
from halfthou.planning.worked import Step, WorkedSetUp
from halfthou.quantities import parse_thread

from .handmade import (
    BORE,
    FACE,
    FINISH,
    LEFT,
    PLATE,
    RIGHT,
    ROUGH,
    SHAFT,
    SHOP,
    UP,
    band,
    chucked,
    on_the_mill,
    only_step,
    operation,
    wall,
    worked,
)

AXIS = ((40.0, 0.0, 0.0),)


def slides(step: Step, name: str) -> list[float]:
    return [move.to for move in step.moves if move.slide == name]


def in_the_vice(*operations: object, part: Part = PLATE, **rest: object) -> WorkedSetUp:
    told: dict[str, object] = {
        "faces": UP,
        "across": RIGHT,
        "grips": ("top", "bottom"),
        "seats": ("back",),
        "true_on": (),
    }
    set_up = on_the_mill(*operations, **(told | rest))  # type: ignore[arg-type]
    return worked(set_up, part=part).set_ups[0]


@pytest.mark.derived(
    by="(16.0 - 13.0) / 2 = 1.5 a side to within 0.25; 20 deep and the bar 23 out"
)
def test_a_bore_is_opened_outward_with_a_bar_no_further_out_than_it_need_be() -> None:
    size = band(16.0, 16.0, 16.05, "16 +0.05/0")
    part = replace(
        SHAFT, surfaces=(*SHAFT.surfaces[:5], wall("bore", 20.0, 40.0, size, inside=True))
    )
    bore = operation(
        "bore",
        "bore",
        "only",
        feature="bore",
        at=AXIS,
        ends=20.0,
        from_size=13.0,
        cut_size=16.0,
        size=size,
        makes=("bore",),
        inside=True,
        tools=("boring tool, 10 bar",),
    )
    step = only_step(chucked(bore), part=part)

    assert step.tool_out == 23.0
    assert step.aim == pytest.approx(16.02)
    assert slides(step, "cross-slide")[-1] == pytest.approx(1.51, abs=0.011)
    assert {m.sense for m in step.moves if m.slide == "cross-slide"} == {"out"}
    assert slides(step, "saddle") == [19.0, 20.0]
    assert "throw the feed out short of the floor and wind the last by hand" in step.remarks
    assert step.check is not None
    assert step.check.expect == pytest.approx(16.02 - 0.2)
    assert "no finger, rag or emery in the bore while it turns" in step.cautions


@pytest.mark.derived(by="4 diameters of a 6 bar are 24; 40 deep wants 43")
def test_a_bar_out_too_far_is_said_to_be() -> None:
    bore = operation(
        "bore",
        "bore",
        "rough",
        feature="bore",
        at=AXIS,
        ends=40.0,
        from_size=7.0,
        cut_size=7.8,
        inside=True,
        tools=("boring tool, 6 bar",),
    )
    step = only_step(chucked(bore))

    assert any("out further than it likes" in remark for remark in step.remarks)
    assert step.measures[0].surface == "bore"


@pytest.mark.derived(by="3 wide with a 1.5 tool: left corner at 11.5, then on to 13; 2 deep")
def test_a_groove_wider_than_its_tool_is_plunged_twice() -> None:
    groove = operation(
        "groove",
        "groove",
        feature="groove",
        starts=27.0,
        ends=30.0,
        from_size=20.0,
        cut_size=16.0,
        tools=("grooving tool 1.5",),
    )
    step = only_step(chucked(groove))

    assert slides(step, "saddle") == [pytest.approx(11.5), pytest.approx(13.0)]
    assert slides(step, "cross-slide") == [2.0]
    assert step.passes[0].count == 2
    assert step.lock == ("saddle", "top-slide")
    assert step.speed == 165  # 11 m/min at 20 mm: 175


def test_a_narrow_neck_is_plunged_like_a_groove() -> None:
    neck = replace(ROUGH, stage="only", starts=20.0, ends=23.0, tools=("grooving tool 3",))
    step = only_step(chucked(neck))

    assert step.feed is not None
    assert step.feed.slide == "cross-slide"
    assert step.passes[0].count == 1


@pytest.mark.derived(by="the far side of a 2 mm tool, 42.5 from the face")
def test_parting_off_is_looked_at_by_rule_first() -> None:
    part_off = operation(
        "part off", "part off", feature="left", starts=-0.5, ends=-2.5, tools=("parting tool",)
    )
    step = only_step(chucked(FACE, part_off))

    assert slides(step, "saddle") == [42.5]
    assert step.check is not None
    assert (step.check.means, step.check.expect) == ("rule", 40.5)
    assert step.cautions == ("keep fingers from under the piece as it comes off",)


@pytest.mark.derived(by="0.5 on the top-slide is 25 divisions of 0.02")
def test_a_chamfer_is_fed_on_from_where_it_touches() -> None:
    chamfer = operation(
        "chamfer",
        "chamfer",
        cut_size=0.5,
        tools=("chamfer tool 45°",),
        region=(Cylinder(start=(39, 0, 0), end=(41, 0, 0), diameter=20),),
    )
    step = only_step(chucked(chamfer))

    assert (step.moves[0].slide, step.moves[0].divisions) == ("top-slide", 25.0)
    assert step.speed == 165


@pytest.mark.derived(by="1 a side in 20: atan(1/20)")
def test_a_taper_sets_the_top_slide_over() -> None:
    taper = operation(
        "taper", "turn taper", "finish", starts=20.0, ends=40.0, from_size=20.0, cut_size=18.0
    )
    step = only_step(chucked(taper))

    assert step.set_over == pytest.approx(math.atan(1 / 20))
    assert step.lock == ("saddle",)
    assert step.feed is not None
    assert step.feed.slide == "top-slide"


def test_a_die_is_run_on_by_hand() -> None:
    die = operation(
        "thread",
        "thread",
        cut_size=10.0,
        starts=20.0,
        ends=40.0,
        tools=("die M10",),
        thread=thread(parse_thread("M10")),
    )
    step = only_step(chucked(die))

    assert step.speed is None
    assert step.fluid == "tapping compound"
    assert slides(step, "tailstock") == [20.0]
    assert step.measures[0].kind == "thread"


def test_a_left_hand_thread_warns_of_the_screwed_nose() -> None:
    left = operation(
        "thread",
        "thread",
        cut_size=10.0,
        starts=20.0,
        ends=40.0,
        tools=("screwcutting tool 60°",),
        thread=replace(thread(parse_thread("M10")), hand="left"),
    )
    step = only_step(chucked(left))

    assert any("away from the chuck" in caution for caution in step.cautions)


@pytest.mark.derived(by="7 of thread, 3 pitches of 0.8 and the point: 9.4 + 1.26")
def test_a_tapped_hole_in_the_lathe_leaves_room_for_the_lead() -> None:
    m5 = thread(parse_thread("M5"))
    drill = operation(
        "drill",
        "drill",
        "rough",
        feature="bore",
        at=AXIS,
        ends=7.0,
        cut_size=4.2,
        tools=("drill 4.2 mm",),
        inside=True,
    )
    tap = operation(
        "tap",
        "tap",
        feature="bore",
        at=AXIS,
        ends=7.0,
        cut_size=5.0,
        thread=m5,
        tools=("taps M5",),
        inside=True,
    )
    steps = worked(chucked(drill, tap)).set_ups[0].steps

    assert slides(steps[0], "tailstock") == [pytest.approx(10.66)]
    assert any("taper tap first" in remark for remark in steps[1].remarks)
    assert any("unscrew" in caution for caution in steps[1].cautions)


def test_a_deep_hole_through_is_drawn_up_again_and_eased_at_the_end() -> None:
    drill = operation(
        "drill",
        "drill",
        "rough",
        feature="bore",
        at=AXIS,
        ends=70.0,
        cut_size=7.8,
        size=BORE,
        makes=("bore",),
        through=True,
        tools=("drill 7.8 mm",),
        inside=True,
    )
    step = only_step(chucked(drill))

    assert any("deeper than its travel" in remark for remark in step.remarks)
    assert step.cautions == ("the drill grabs as it breaks through: ease the feed",)
    assert step.measures[0].surface == "bore"


def test_spotting_and_centring_say_how_far() -> None:
    spot = operation(
        "spot",
        "spot",
        feature="bore",
        at=AXIS,
        ends=3.0,
        cut_size=3.0,
        tools=("centre drill",),
        inside=True,
    )
    centre = operation(
        "centre",
        "centre",
        feature="centres",
        ends=2.4,
        cut_size=3.0,
        tools=("centre drill BS 1/8",),
        inside=True,
    )
    steps = worked(chucked(spot, centre)).set_ups[0].steps

    assert steps[0].measures == ()
    assert steps[1].measures == ()
    assert slides(steps[1], "tailstock") == [2.4]


@pytest.mark.derived(by="2 over with 0.45 a cut and 0.10 to end: five cuts; two traverses of 35")
def test_a_face_is_flown_over_and_its_thickness_looked_at_before_the_last_cut() -> None:
    face = operation(
        "mill front",
        "mill face",
        feature="front",
        machine="mill",
        makes=("front",),
        approach=(UP,),
        tools=("fly cutter 50",),
        starts=2.0,
        cut_size=2.0,
        region=(Box(low=(-2, -2, 10), high=(62, 42, 14)),),
    )
    step = in_the_vice(face).steps[0]

    assert slides(step, "knee")[-1] == pytest.approx(2.0)
    assert step.speed == 370  # 80 m/min at 50 mm: 509
    assert step.lock == ("cross-table", "quill")
    assert step.minutes > 5


@pytest.mark.derived(by="3 deep from the top; cutter of 6: middles 3 inside the walls")
def test_a_pocket_is_cut_between_two_corners_of_the_cutters_middle() -> None:
    wide = band(20.0, 19.8, 20.2, "20")
    pocket = operation(
        "pocket",
        "mill pocket",
        feature="pocket",
        machine="mill",
        approach=(UP,),
        tools=("slot drill 6",),
        cut_size=3.0,
        size=wide,
        region=(Box(low=(30, 10, 7), high=(50, 24, 10)),),
    )
    result = in_the_vice(pocket)
    step = result.steps[0]

    assert [(p.x, p.y) for p in step.places] == [(33.0, -27.0), (47.0, -19.0)]
    assert slides(step, "knee")[-1] == pytest.approx(3.0)
    assert step.check is not None
    assert step.check.expect == pytest.approx(30.0)
    assert any("each wall to size" in remark for remark in step.remarks)


@pytest.mark.derived(
    by="round of 20: the fixed jaw is 10 beyond its middle, the finder 5 this side of it; 4 deep"
)
def test_a_keyway_is_picked_up_on_the_side_of_its_round_and_its_depth_on_top() -> None:
    key = operation(
        "key",
        "mill keyway",
        feature="key",
        machine="mill",
        approach=(UP,),
        tools=("slot drill 6",),
        cut_size=6.0,
        from_size=4.0,
        starts=15.0,
        ends=35.0,
        at=((15.0, 0.0, 6.0), (35.0, 0.0, 6.0)),
        region=(
            Obround(start=(18, 0, 12), end=(32, 0, 12), width=6, direction=(0, 0, -1), depth=6),
        ),
    )
    turned = chucked(FACE, FINISH)
    lying = on_the_mill(
        key,
        faces=UP,
        across=RIGHT,
        grips=("journal",),
        seats=("journal",),
        true_on=(("journal", 0.02),),
    )
    result = worked(turned, lying).set_ups[1]
    step = result.steps[0]

    assert result.zero is not None
    picks = {way: (name, allowance) for way, name, _, allowance in result.zero.pick_up}
    assert picks["y"][0] == "journal"
    assert picks["y"][1] == pytest.approx(9.985 - 5, abs=0.01)
    assert picks["z"][0] == "journal"
    assert slides(step, "knee")[-1] == pytest.approx(4.0, abs=0.02)
    assert [p.y for p in step.places] == [0.0, 0.0]
    assert step.places[1].x - step.places[0].x == pytest.approx(14.0)


@pytest.mark.derived(by="a finder of 10 and 2 more: past the work at 40 the jaws reach 52, or 5")
@pytest.mark.parametrize(
    ("jaws", "where"),
    [((12.0, 92.0), "beside the work"), ((12.0, 45.0), "before the work goes in")],
)
def test_the_finder_is_brought_on_the_fixed_jaw_while_there_is_room_for_it(
    jaws: tuple[float, float], where: str
) -> None:
    key = operation(
        "key", "mill keyway", feature="key", machine="mill", approach=(UP,),
        tools=("slot drill 6",), cut_size=6.0, from_size=4.0, starts=15.0, ends=35.0,
        at=((15.0, 0.0, 6.0), (35.0, 0.0, 6.0)),
        region=(
            Obround(start=(18, 0, 12), end=(32, 0, 12), width=6, direction=(0, 0, -1), depth=6),
        ),
    )  # fmt: skip
    lying = on_the_mill(
        key, faces=UP, across=RIGHT, grips=("journal",), seats=("journal",),
        true_on=(("journal", 0.02),), jaws=jaws,
    )  # fmt: skip
    zero = worked(chucked(FACE, FINISH), lying).set_ups[1].zero

    assert zero is not None
    (across,) = [one for one in zero.pick_up if one[0] == "y"]
    assert across[2] == f"edge finder on the fixed jaw, {where}"
    assert across[3] == pytest.approx(9.985 - 5, abs=0.01)


def test_reaming_and_countersinking_on_the_mill() -> None:
    at: dict[str, Any] = {
        "feature": "tapped",
        "machine": "mill",
        "at": ((15.0, 10.0, 10.0), (45.0, 10.0, 10.0)),
        "approach": (UP,),
        "inside": True,
    }
    ream = operation(
        "ream",
        "ream",
        "finish",
        cut_size=8.0,
        from_size=7.8,
        ends=11.0,
        through=True,
        tools=("reamer 8 mm",),
        **at,
    )
    sink = operation(
        "sink", "countersink", cut_size=9.0, ends=1.0, tools=("countersink 90°",), **at
    )
    steps = in_the_vice(ream, sink).steps

    assert slides(steps[0], "quill") == [pytest.approx(13.4)]
    assert steps[0].check is not None
    assert steps[0].check.means == "shank of a drill"
    (mouth,) = steps[1].measures
    assert (mouth.aim, mouth.gauge) == (9.0, "caliper")


def test_sawing_filing_and_deburring_at_the_bench() -> None:
    holder = next(d for d in SHOP.holding if d.device == "bench vice")
    jobs = (
        operation(
            "saw", "saw", feature="blank", machine="bench", tools=("hacksaw",), cut_size=42.0
        ),
        operation("file", "chamfer", machine="bench", tools=("file",), cut_size=0.5),
        operation("deburr", "deburr", machine="bench", tools=("file",), remark="oil hole too"),
        operation(
            "tap",
            "tap",
            machine="bench",
            tools=("taps M5",),
            ends=7.0,
            thread=thread(parse_thread("M5")),
        ),
        operation("other", "mark out", machine="bench", tools=("scriber",)),
    )
    result = worked(chucked(*jobs, machine="bench", links=(Link(holder=holder),))).set_ups[0]

    assert result.zero is None
    assert result.steps[0].check is not None
    assert (result.steps[0].check.low, result.steps[0].check.high) == (42.0, 42.5)
    own = result.steps[0].measures[0]
    assert (own.low, own.high) == (42.0, 43.0)
    assert result.steps[0].measures[0].gauge == "rule"
    assert "oil hole too" in result.steps[2].remarks
    assert result.steps[3].measures[0].kind == "thread"
    assert result.cautions == ()


@pytest.mark.parametrize(
    ("device", "says"),
    [
        ("collet", "collet of the work's own size"),
        ("centres", "centres cleaned and oiled"),
        ("faceplate", "three holds and a stop"),
        ("stub mandrel", "mandrel turned in place"),
        ("soft jaws", "jaws bored in place"),
        ("four-jaw chuck", "soft metal under the jaws"),
    ],
)
def test_each_device_says_how_it_holds(device: str, says: str) -> None:
    holder = next(d for d in SHOP.holding if d.device == device)
    held = chucked(
        FINISH,
        links=(Link(holder=holder),),
        grips=("collar",),
        seats=("left",),
        true_on=(("collar", 0.02), ("left", 0.02)),
    )
    first = chucked(replace(FACE, key="left", makes=("left", "collar")))
    result = worked(first, held).set_ups[1]

    assert any(note.startswith(says) for note in result.hold_notes)
    assert result.true_notes


def test_work_that_sticks_out_too_far_and_metal_nobody_knows_are_said() -> None:
    long = replace(chucked(ROUGH).scheme, stick_out=100.0)
    result = worked(
        SetUp(scheme=long, operations=(ROUGH,)), part=replace(SHAFT, material="unobtainium")
    ).set_ups[0]

    assert any("sticks out further" in note for note in result.hold_notes)
    assert any("speeds are those of mild steel" in note for note in result.hold_notes)


def test_a_plan_for_a_machine_that_is_gone_is_refused() -> None:
    with pytest.raises(HalfthouError, match="the plan uses a lathe and this workshop has none"):
        worked(chucked(ROUGH), shop=replace(SHOP, lathes=()))
    with pytest.raises(HalfthouError, match="the plan uses a mill and this workshop has none"):
        worked(on_the_mill(), shop=replace(SHOP, mills=()))


def test_a_diameter_dial_and_a_lathe_without_a_saddle_dial_are_told_as_they_are() -> None:
    lathe = SHOP.lathes[0]
    other = replace(lathe, saddle=None, cross_slide=replace(lathe.cross_slide, reads="diameter"))
    step = only_step(chucked(FACE, ROUGH), shop=replace(SHOP, lathes=(other,)))
    saddle, *infeed = step.moves

    assert saddle.by == "rule"
    assert {move.reads for move in infeed if move.slide == "cross-slide"} == {"diameter"}


def test_a_piece_not_round_is_swung_slowly() -> None:
    bore = operation(
        "bore",
        "drill",
        "rough",
        feature="tapped",
        at=((15.0, 10.0, 10.0),),
        approach=(UP,),
        ends=11.0,
        cut_size=6.0,
        tools=("drill 6 mm",),
        through=True,
        inside=True,
    )
    step = only_step(chucked(bore, faces=UP), part=PLATE)

    assert step.speed == 350


def test_a_ring_about_a_bore_of_the_lathe_is_left_from_the_left() -> None:
    tube = Tube(start=(0, 0, 0), end=(10, 0, 0), inside=24.0, outside=29)
    turned = operation(
        "collar",
        "turn",
        feature="collar",
        approach=(LEFT,),
        starts=-3.0,
        ends=10.0,
        from_size=25.0,
        cut_size=24.0,
        makes=("collar",),
        region=(tube,),
    )
    result = worked(chucked(turned, faces=LEFT)).set_ups[0]

    assert result.zero is not None
    assert result.zero.at == (0.0, 0.0, 0.0)
    assert slides(result.steps[0], "saddle") == [10.0]


@pytest.mark.derived(by="wall at 50 of 60, cutter of 10: its middle at 55; 4 down from the top")
def test_a_step_that_runs_right_through_is_told_by_one_line() -> None:
    step = operation(
        "step",
        "mill step",
        feature="step",
        machine="mill",
        approach=(UP,),
        tools=("end mill 10",),
        cut_size=4.0,
        region=(Box(low=(50, -2, 6), high=(62, 42, 12)),),
    )
    told = in_the_vice(step).steps[0]

    assert told.places == ()
    assert slides(told, "table") == [55.0]
    assert slides(told, "knee")[-1] == pytest.approx(4.0)
    assert told.check is not None
    assert told.check.expect == pytest.approx(10.0)


@pytest.mark.derived(by="6 deep, a lead of 1 for the reamer, and 0.3 of 3.9 for the point")
def test_a_blind_hole_is_drilled_deeper_for_the_reamers_lead() -> None:
    at: dict[str, Any] = {
        "feature": "tapped",
        "machine": "mill",
        "at": ((15.0, 10.0, 10.0),),
        "approach": (UP,),
        "inside": True,
    }
    drill = operation("drill", "drill", "rough", cut_size=3.9, ends=6.0, tools=("d",), **at)
    ream = operation("ream", "ream", "finish", cut_size=4.0, from_size=3.9, ends=6.0, **at)
    steps = in_the_vice(drill, ream).steps

    assert slides(steps[0], "quill") == [pytest.approx(8.17)]
    assert steps[1].speed == 370  # 32 m/min at 4 mm would be 2546: never over 500


def test_belts_and_a_change_of_chuck_bring_their_cautions() -> None:
    four = next(d for d in SHOP.holding if d.device == "four-jaw chuck")
    spot = operation("spot", "spot", feature="bore", at=AXIS, ends=3.0, cut_size=3.0, inside=True)
    set_ups = worked(chucked(FACE), chucked(FINISH, spot, links=(Link(holder=four),))).set_ups

    assert "isolate the machine before changing belts" not in set_ups[0].cautions
    assert "isolate the machine before changing belts" in set_ups[1].cautions
    assert "board on the bed before a heavy chuck goes on or comes off" in set_ups[1].cautions


@pytest.mark.derived(by="10 thick and 1 of skin still on the back: 11")
def test_a_first_face_is_measured_from_the_raw_side_opposite() -> None:
    body = Block(name="plate", low=(0, 0, 0), high=(60, 40, 10), machined=frozenset())
    blank = replace(PLATE.blank, size=(60.0, 40.0, 12.0))
    part = replace(PLATE, features=(*PLATE.features, body), blank=blank)
    face = operation(
        "mill front",
        "mill face",
        feature="front",
        machine="mill",
        makes=("front",),
        approach=(UP,),
        tools=("fly cutter 50",),
        cut_size=1.0,
        region=(Box(low=(-2, -2, 10), high=(62, 42, 14)),),
    )
    back = replace(face, key="mill back", makes=("back",), approach=((0.0, 0.0, -1.0),))
    turned = on_the_mill(
        back, faces=(0.0, 0.0, -1.0), across=RIGHT, grips=(), seats=(), true_on=()
    )
    first = on_the_mill(face, faces=UP, across=RIGHT, grips=(), seats=(), true_on=())
    steps = [u.steps[0] for u in worked(first, turned, part=part).set_ups]

    assert [m.aim for m in steps[0].measures] == [11.0]
    # under 10.88 the cuts printed for the face opposite would take it under 10; 1 over is raw
    assert [m.low for m in steps[0].measures] == pytest.approx([10.88])
    assert [m.high for m in steps[0].measures] == [12.0]
    assert steps[0].passes[-1].leaves == 0.0  # what it measures then hangs on the blank in hand
    assert steps[1].measures == ()
