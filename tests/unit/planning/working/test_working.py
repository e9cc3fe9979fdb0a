"""A plan worked out: zeros, dials, passes, places, gauges, checks and cautions."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.drawing.geometry import Box
from halfthou.handbook.threads import thread
from halfthou.quantities import parse_thread

from .handmade import (
    BORE,
    FACE,
    FINISH,
    LEFT,
    PLATE,
    RIGHT,
    RING,
    ROUGH,
    SHAFT,
    SHOP,
    UP,
    chucked,
    on_the_mill,
    only_step,
    operation,
    worked,
)


@pytest.mark.derived(by="the finished face; a 0.05 feeler under the tool")
def test_the_zero_of_a_chucking_is_its_finished_face_felt_with_a_feeler() -> None:
    zero = worked(chucked(FACE, ROUGH)).set_ups[0].zero

    assert zero is not None
    assert zero.at == (40.0, 0.0, 0.0)
    assert zero.pick_up[0] == ("x", "right", "0.05 feeler", 0.05)


@pytest.mark.derived(by="(25 - 20.48) / 2 = 2.26 a side in three cuts; 100 divisions to 2 mm")
def test_roughing_is_told_in_cuts_and_in_turns_and_divisions() -> None:
    step = only_step(chucked(FACE, ROUGH))
    infeed = [m for m in step.moves if m.slide == "cross-slide"][-1]

    assert sum(p.count * p.depth for p in step.passes) == pytest.approx(2.26, abs=0.021)
    assert all(p.depth <= 1.0 for p in step.passes)
    assert step.passes[-1].leaves >= 20.48
    assert infeed.turns == 1
    assert infeed.divisions == pytest.approx(12.5, abs=0.51)
    assert step.speed == 210  # 22 m/min at 25 mm: 280, the step below
    assert step.feed is not None
    assert step.feed.per_turn == 0.10
    assert step.tool_out == 15.0
    assert step.fluid == "cutting oil"


@pytest.mark.derived(
    by="0.5 short of a shoulder 30 from the face, the feed out 1 before: 9 turns of 3 mm"
)
def test_roughing_stops_short_of_the_shoulder() -> None:
    step = worked(chucked(FACE, ROUGH, FINISH)).set_ups[0].steps[1]
    feed_out, by_hand = (m for m in step.moves if m.slide == "saddle")

    assert feed_out.to == pytest.approx(28.5)
    assert by_hand.to == pytest.approx(29.5)
    assert (by_hand.turns, by_hand.divisions) == (9, 50.0)
    assert step.length == pytest.approx(29.5)


@pytest.mark.derived(by="three cuts of 0.10 a side; 19.9716, as a 0.01 micrometer shows it")
def test_finishing_ends_with_two_cuts_alike_and_a_coarse_look_before_the_last() -> None:
    step = only_step(chucked(FACE, ROUGH, FINISH))

    assert step.aim == pytest.approx(19.97)
    assert [p.count for p in step.passes] == [1, 1, 1]
    assert [p.depth for p in step.passes] == pytest.approx([0.10, 0.10, 0.10])
    assert [p.leaves for p in step.passes] == pytest.approx([20.37, 20.17, 19.97])
    assert step.measures[0].gauge == "micrometer 0-25"
    assert step.measures[0].decides
    assert step.check is not None
    assert step.check.means == "micrometer 0-25"
    assert step.check.expect == pytest.approx(20.17)


@pytest.mark.derived(by="the shoulder is there with the finishing cut, its face already was")
def test_a_length_is_measured_by_the_step_that_completes_it() -> None:
    steps = worked(chucked(FACE, ROUGH, FINISH)).set_ups[0].steps
    lengths = [(s.number, m.aim, m.gauge) for s in steps for m in s.measures if m.kind == "depth"]

    assert lengths == [(3, 30.0, "caliper, depth rod")]


@pytest.mark.derived(by="Ø20.48 is what roughing has left: 0.26 a side, not 2.5")
def test_a_diameter_already_roughed_is_not_roughed_again() -> None:
    again = replace(FINISH, key="again", stage="only", from_size=25.0)
    step = only_step(chucked(FACE, ROUGH, again))

    assert sum(p.count * p.depth for p in step.passes) < 0.3


@pytest.mark.derived(by="depth 20 + 0.3 * 7.8 for the point = 22.34")
def test_a_drill_goes_deeper_by_its_point() -> None:
    drill = operation(
        "drill",
        "drill",
        "rough",
        feature="bore",
        at=((40.0, 0.0, 0.0),),
        ends=20.0,
        cut_size=7.8,
        tools=("drill 7.8 mm",),
        inside=True,
    )
    step = only_step(chucked(drill))

    assert step.moves[0].to == pytest.approx(22.34)
    assert step.moves[0].by == "rule"
    assert step.feed is not None
    assert step.feed.seconds_a_handle_turn >= 2.0


@pytest.mark.derived(by="15 µm of 8 H7: a plug sized by micrometer takes 15.5, nothing is left")
def test_no_plug_is_made_for_a_bore_closer_than_the_micrometer_can_prove_it() -> None:
    ream = operation(
        "ream",
        "ream",
        "finish",
        feature="bore",
        at=((40.0, 0.0, 0.0),),
        ends=20.0,
        cut_size=8.0,
        from_size=7.8,
        tools=("reamer 8 mm",),
        makes=("bore",),
        size=BORE,
        inside=True,
    )
    step = only_step(chucked(ream))

    assert not step.measures[0].to_make
    assert not step.measures[0].decides
    assert not any("plug" in remark for remark in step.remarks)
    assert step.speed == 350  # 22 * 0.4 / (pi * 8) = 350.1


@pytest.mark.derived(by="9 on the radius, a quarter turn apart: 9 * sqrt(2) between neighbours")
def test_holes_on_a_circle_are_set_out_from_its_middle_in_turns_and_divisions() -> None:
    turned = chucked(FACE, FINISH, replace(FACE, key="left", makes=("left", "collar")))
    spot = operation(
        "spot ring",
        "spot",
        "rough",
        feature="ring",
        machine="mill",
        at=RING.entries,
        approach=(LEFT,),
        cut_size=2.4,
        ends=1.2,
        tools=("centre drill",),
        inside=True,
    )
    result = worked(turned, on_the_mill(spot)).set_ups[1]
    step = result.steps[0]

    assert result.zero is not None
    assert result.zero.pick_up[0][:3] == ("x", "collar", "0.01 clock swept round it")
    assert (step.places[0].x, step.places[0].y) == (9.0, 0.0)
    assert step.places[0].moves[0].turns == 4
    assert step.places[0].moves[0].divisions == 50.0
    assert step.check is not None
    assert step.check.expect == pytest.approx(18.0)
    assert set(step.lock) >= {"table", "cross-table"}
    assert "diameter" in {want.kind for want in result.wanted}


@pytest.mark.derived(by="what a readout shows is the travel itself")
def test_with_a_readout_places_are_read_and_no_turns_are_counted() -> None:
    shop = replace(SHOP, mills=(replace(SHOP.mills[0], readout=True),))
    turned = chucked(FACE, FINISH, replace(FACE, key="left", makes=("left", "collar")))
    spot = operation(
        "spot ring",
        "spot",
        "rough",
        feature="ring",
        machine="mill",
        at=((0.0, 9.0, 0.0),),
        approach=(LEFT,),
        cut_size=2.4,
        ends=1.2,
        tools=("centre drill",),
        inside=True,
    )
    step = only_step(turned, on_the_mill(spot), shop=shop)

    assert {m.by for m in step.places[0].moves} == {"readout"}


@pytest.mark.derived(by="edge finder 10 across: 5 on from where it kicks; fixed jaw at the back")
def test_a_plate_is_picked_up_on_two_edges_with_half_the_edge_finder() -> None:
    spot = operation(
        "spot",
        "spot",
        "rough",
        feature="tapped",
        machine="mill",
        at=((15.0, 10.0, 10.0),),
        approach=(UP,),
        cut_size=3.0,
        ends=1.5,
        tools=("centre drill",),
        inside=True,
    )
    result = worked(
        on_the_mill(
            spot, faces=UP, across=RIGHT, grips=("top", "bottom"), seats=("back",), true_on=()
        ),
        part=PLATE,
    ).set_ups[0]

    assert result.zero is not None
    assert result.zero.at == (0.0, 40.0, 10.0)
    assert result.zero.pick_up[:2] == (
        ("x", "left", "edge finder", -5.0),
        ("y", "top", "edge finder on the fixed jaw, beside the work", -5.0),
    )
    assert (result.steps[0].places[0].x, result.steps[0].places[0].y) == (15.0, -30.0)


@pytest.mark.derived(by="7 + 3 * 0.8 = 9.4 wanted; 10 thick less 1 and the point 1.26 gives 7.74")
def test_a_tapping_hole_never_comes_out_behind_and_the_card_says_to_bottom_the_thread() -> None:
    at = {
        "feature": "tapped",
        "machine": "mill",
        "at": ((15.0, 10.0, 10.0),),
        "approach": (UP,),
        "inside": True,
    }
    drill = operation(
        "drill", "drill", "rough", cut_size=4.2, ends=7.0, tools=("drill 4.2 mm",), **at
    )
    tap = operation(
        "tap",
        "tap",
        "finish",
        cut_size=5.0,
        ends=7.0,
        tools=("taps M5",),
        thread=thread(parse_thread("M5")),
        **at,
    )
    steps = (
        worked(
            on_the_mill(
                drill,
                tap,
                faces=UP,
                across=RIGHT,
                grips=("top", "bottom"),
                seats=("back",),
                true_on=(),
            ),
            part=PLATE,
        )
        .set_ups[0]
        .steps
    )

    assert steps[0].moves[0].to == pytest.approx(9.0)
    assert any("bottoming tap" in remark for remark in steps[0].remarks)
    assert steps[1].fluid == "tapping compound"
    assert steps[1].speed is None


@pytest.mark.derived(
    by="half the cutter outside a line 60 from the zero: 68; 0.10 before it: 68.1"
)
def test_an_edge_milled_with_the_side_of_the_cutter_is_told_by_the_table() -> None:
    side = operation(
        "mill right",
        "mill face",
        feature="right",
        machine="mill",
        makes=("right",),
        approach=(UP,),
        tools=("end mill 16",),
        starts=3.0,
        cut_size=3.0,
        region=(Box(low=(60, -2, -2), high=(65, 42, 12)),),
    )
    step = only_step(
        on_the_mill(
            side,
            device="clamps",
            faces=UP,
            across=RIGHT,
            grips=("front",),
            seats=("back",),
            true_on=(),
        ),
        part=PLATE,
    )
    table = [m for m in step.moves if m.slide == "table"]

    assert table[-1].to == pytest.approx(68.0)
    assert table[-2].to == pytest.approx(68.1, abs=0.021)
    assert step.places == ()
    assert "run right across, clear of the work at both ends" in step.remarks
    assert step.fluid == "paraffin"


@pytest.mark.derived(by="3 mm leadscrew: 1.5 goes into it, 1.5875 (16 to the inch) does not")
def test_a_thread_foreign_to_the_leadscrew_says_not_to_open_the_half_nut() -> None:
    cut = operation(
        "thread",
        "thread",
        cut_size=20.0,
        starts=20.0,
        ends=40.0,
        tools=("screwcutting tool 60°",),
        thread=thread(parse_thread("M10")),
    )
    metric = only_step(chucked(cut))
    inch = only_step(chucked(replace(cut, thread=thread(parse_thread("1/2 BSF")))))

    assert metric.wheels == (1, 2)
    assert any("may be opened" in remark for remark in metric.remarks)
    assert inch.wheels == (127, 240)
    assert any("do not open" in remark for remark in inch.remarks)
    assert inch.speed == 100
    assert inch.passes[-1].purpose == "spring"


@pytest.mark.derived(by="a screwed nose and a chuck")
def test_cautions_stand_where_the_danger_is() -> None:
    set_up = worked(chucked(FACE, ROUGH), chucked(FINISH)).set_ups[0]

    assert set_up.cautions[0].startswith("turn the work once by hand")
    assert "key out of the chuck" in set_up.cautions
    assert any("screwed nose" in caution for caution in set_up.cautions)
    assert set_up.mark == "mark the work against No. 1 jaw before it leaves the chuck"
    assert not set_up.rest_here


@pytest.mark.derived(by="counting")
def test_what_to_lay_out_names_the_set_ups_each_thing_serves() -> None:
    result = worked(chucked(FACE, ROUGH), chucked(FINISH))

    assert ("knife tool", (1, 2)) in result.tools
    assert ("micrometer 0-25", (2,)) in result.gauges
    assert result.saw == 42.0


@pytest.mark.derived(by="brass digs in on a raked tool")
def test_brass_asks_for_a_tool_without_rake() -> None:
    step = only_step(chucked(ROUGH), part=replace(SHAFT, material="brass"))

    assert "no top rake, or it digs in" in step.remarks
    assert step.fluid == "dry"


def test_no_sentence_for_the_card_carries_a_figure_or_ends_with_a_stop() -> None:
    set_ups = worked(chucked(FACE, ROUGH), chucked(FINISH)).set_ups
    said = [
        text
        for u in set_ups
        for text in (
            *u.cautions,
            *u.hold_notes,
            *u.true_notes,
            *u.next_notes,
            *(r for s in u.steps for r in (*s.remarks, *s.cautions)),
        )
    ]

    plain = ("rev/min", "times the difference")  # figures without a unit of length
    lengths = [text for text in said if not any(one in text for one in plain)]

    assert not [text for text in lengths if any(c.isdigit() for c in text)]
    assert not [text for text in said if text.endswith(".")]


def test_regions_before_are_those_of_earlier_set_ups() -> None:
    set_ups = worked(chucked(FACE, ROUGH), chucked(FINISH)).set_ups

    assert set_ups[0].before == ()
    assert set_ups[1].before == set_ups[0].off == ROUGH.region
