"""Work on the mill in words: faces by name, parallels of the set, zeros to the number set."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

import halfthou.demo
from halfthou.drawing.model import Part
from halfthou.planning.make_plan import make_plan
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working import mill_words
from halfthou.planning.working.whole import work_out
from halfthou.present.places import places_of
from halfthou.present.words_holding import holding_words
from halfthou.present.words_keyway import keyway_figures
from halfthou.present.words_level_round import SAME_ROUND
from halfthou.present.words_steps import order_words
from halfthou.present.words_truing import mill_first_words, truing_words
from halfthou.present.words_zero import zero_words
from halfthou.store.part_file import read_part
from halfthou.workshop.default import default_workshop

PARTS = Path(__file__).parents[2] / "data" / "parts"
DEMO = Path(halfthou.demo.__file__).parent


@cache
def part(name: str) -> Part:
    there = PARTS / f"{name}.toml"
    return read_part(there if there.exists() else DEMO / f"{name}.toml")


@cache
def on_the_mill(name: str) -> tuple[WorkedSetUp, ...]:
    shop = default_workshop()
    worked = work_out(make_plan(part(name), shop), part(name), shop)
    return tuple(u for u in worked.set_ups if u.set_up.scheme.machine == "mill")


def held(name: str, number: int = 0) -> str:
    return holding_words(on_the_mill(name)[number], part(name), "mm").replace("\N{NBSP}", " ")


def zeros(name: str, number: int = 0) -> str:
    said = zero_words(on_the_mill(name)[number], part(name), default_workshop(), "mm")
    return said.replace("\N{NBSP}", " ")


def making(name: str, key: str) -> int:
    return next(
        n
        for n, one in enumerate(on_the_mill(name))
        if any(op.key.startswith(key) for op in one.set_up.operations)
    )


def trued(name: str, number: int) -> str:
    every = on_the_mill(name)
    return truing_words(every[number], part(name), "mm", every[:number])


@pytest.mark.parametrize("name", ["t-slot-nut", "flange-plate", "arbor"])
def test_the_head_is_tried_where_the_mill_is_first_used_and_never_again(name: str) -> None:
    every = on_the_mill(name)
    said = [mill_first_words(one, "mm", every[:n]) for n, one in enumerate(every)]

    assert said[0].startswith("Clock in the spindle swept round the bare table")
    assert not any("bare table" in one for one in said[1:])
    in_vice = [one.set_up.scheme.device.device == "vice" for one in every]
    comes_on = [now and not was for was, now in zip([False, *in_vice], in_vice, strict=False)]
    stays = [now and was for was, now in zip([False, *in_vice], in_vice, strict=False)]
    assert ["fixed jaw end to end" in one for one in said] == comes_on
    assert ["as it stands" in one for one in said] == stays


def test_raw_work_on_the_table_whose_edges_are_milled_is_laid_straight_by_eye() -> None:
    edges = trued("flange-plate", 2)

    assert edges == "Its long edge along the table by eye, a rule against a slot of the table."
    assert "long edge" not in trued("flange-plate", 0)


@pytest.mark.parametrize("name", ["t-slot-nut", "flange-plate"])
def test_the_raw_faces_are_named_with_a_pen_before_the_first_cut_and_only_then(name: str) -> None:
    said = [held(name, n) for n in range(len(on_the_mill(name)))]

    assert said[0].startswith("Felt pen first")
    for side in ("LEFT", "RIGHT", "TOP", "BOTTOM", "FRONT", "BACK"):
        assert side in said[0]
    assert not any("Felt pen" in one for one in said[1:])


def test_each_face_at_the_jaws_is_called_raw_or_milled() -> None:
    assert "the raw bottom face to the fixed jaw" in held("t-slot-nut")
    assert "the milled front face to the fixed jaw" in held("t-slot-nut", 1)
    assert "the raw back face to the moving one" in held("t-slot-nut", 1)


@pytest.mark.derived(by="jaws 25 deep, 5 in them: a pair of 20; a tap of 10 amid 18: 3.5 thick")
def test_parallels_are_called_by_height_and_by_what_clears_the_tap() -> None:
    said = held("t-slot-nut", making("t-slot-nut", "thread tap"))

    assert (
        "two parallels 20 high, no thicker than 3.5 (jaw depth less what is in the jaws; jaws 25 "
        "deep here)"
    ) in said
    assert "5 mm in the jaws" in said


def test_an_end_that_stands_out_past_the_jaws_is_said_with_what_stops_short_of_it() -> None:
    said = held("t-slot-nut", making("t-slot-nut", "thread tap"))

    assert "end stands 4 out past the end of the jaws (3 when cut)" in said
    assert "; parallels stop short of it" in said


def test_a_stop_is_asked_for_only_where_a_cut_pushes() -> None:
    assert "A stop against the push" in held("flange-plate")
    assert "A stop against the push" not in held("barrel-end")


def test_a_seat_in_the_vice_is_told_clear_of_its_collar_and_which_jaw_is_bare() -> None:
    said = held("arbor")

    assert "the collar 2 clear of the left end of the jaws, down on one parallel 14 high" in said
    assert "The far jaw is fixed, the work bare on it; soft copper 0.5 at the near" in said
    assert SAME_ROUND not in said


def test_a_slot_is_tried_in_scrap_before_the_work_is_in_the_vice() -> None:
    assert held("arbor").startswith("First, vice empty: a slot in scrap of the metal")


@pytest.mark.derived(by="2 a turn in 100: 5 is 2 turns and 50")
def test_every_zero_goes_down_to_the_number_that_is_set_and_its_backlash_one_way() -> None:
    tap = zeros("t-slot-nut", making("t-slot-nut", "thread tap"))
    keyway = zeros("arbor")

    assert "on right 2 turns + 50 div: dial to 0 (5 mm: half the finder)" in tap
    assert "on away 2 turns + 50 div: dial to 0" in tap
    assert (
        "lock the table, turn its handle as for going right until it is hard (backlash out), dial "
        "to 0, unlock; finder up clear, left past and back right to 2 turns + 50 div short of that"
    ) in keyway
    assert (
        "edge finder on the near side of the Ø19.05 journal, dial to 0; up and over; on the far "
        "side, lock the cross-table, turn its handle as for going away until it is hard (backlash "
        "out), unlock: half of what the dial has gone is the middle"
    ) in keyway
    assert "(expect 19.02 + 10 = 29.02: 14 turns + 51 div; half 7 turns + 25½ div)" in keyway
    assert tap.index("Table:") < tap.index("Then cross-table:") < tap.index("The height last")


def test_a_raw_edge_is_felt_for_with_the_spindle_stopped_and_the_cutter_turned_back() -> None:
    said = zeros("t-slot-nut", making("t-slot-nut", "mill left with"))

    assert "spindle stopped, cutter turned back by hand until the paper just drags" in said
    assert "half the cutter and the metal still to come off" in said


def test_a_swept_bore_leaves_both_dials_at_nought_their_backlash_taken_up() -> None:
    assert "the last move of each right and away; dials to 0" in zeros("barrel-end")


def test_the_second_side_of_a_round_says_how_backlash_goes_out_where_nothing_before_did() -> None:
    one = on_the_mill("arbor")[0]
    assert one.zero is not None
    across = replace(one.zero, pick_up=tuple(p for p in one.zero.pick_up if p[0] == "y"))
    said = zero_words(replace(one, zero=across), part("arbor"), default_workshop(), "mm")

    assert (
        "lock the cross-table, turn its handle as for going away until it is hard (backlash out), "
        "unlock: half"
    ) in said


@pytest.mark.derived(by="2 a turn in 100: 8.85 is 4 turns and 42.5, 29.25 is 14 turns and 62.5")
def test_a_keyways_ends_are_told_in_its_lines_and_not_in_a_table_of_places() -> None:
    one = on_the_mill("arbor")[0]
    step = one.steps[0]
    told = {k: v.replace("\N{NBSP}", " ") for k, v in keyway_figures(step, "mm").items()}
    said = order_words(step, part("arbor"), "mm", default_workshop()).after

    assert told["starts"] == "right 4 turns + 42½ div"
    assert told["ends"] == "right 14 turns + 62½ div"
    assert told["travel"] == "20.4"
    assert any("last cut: to its figure, counted from the touch" in line.lower() for line in said)
    sunk = next(line for line in said if "(travel 20.4)" in line).replace("\N{NBSP}", " ")
    assert (
        "run to dial reading right 14 turns + 62½ div (travel 20.4), back past the start" in sunk
    )
    assert "coming right to right 4 turns + 42½ div, lock" in sunk
    assert places_of(one, "mm") == ()


@pytest.mark.derived(
    by="holes 26 apart along the table, drill 4.5, 1.5 clear each side: 18.5, so 18"
)
def test_what_carries_a_ring_of_holes_is_no_wider_than_lies_clear_of_every_drill() -> None:
    said = held("barrel-end")

    assert "One clamp between holes 2 and 3, the other between 5 and 6" in said
    assert "the parallel under each, no wider than 18 along the table" in said
    assert "clear of clamp, stud and nut at holes 2, 3, 5 and 6, tried by hand" in said
    assert "stop" not in said  # a drill pushes down only


@pytest.mark.derived(by="no speed over the usual 700 for a finder: the mill's 640")
def test_a_finder_is_run_in_the_drill_chuck_at_a_speed_it_stands() -> None:
    said = zeros("t-slot-nut", making("t-slot-nut", "thread tap"))

    assert said.startswith("Finder in the drill chuck, 640 rev/min. Table: edge finder on")


def lines_at(name: str, key: str) -> str:
    """Give what is said beside the one step whose operation begins so."""
    step = next(s for u in on_the_mill(name) for s in u.steps if key in s.operations[0].makes)
    order = order_words(step, part(name), "mm", default_workshop())
    return " ".join((*order.before, *order.after)).replace("\N{NBSP}", " ")


@pytest.mark.derived(
    by="14 and a last cut of 0.12: 14.12; 17 and 0.5 past it: 8 turns of 2 and 75"
)
def test_roughing_and_an_edges_depth_are_reckoned_from_what_the_work_measures() -> None:
    bottom, left = lines_at("t-slot-nut", "bottom"), lines_at("t-slot-nut", "left")

    assert "measured \N{MINUS SIGN} 14.12 = roughing to take, / 0.02 = div" in bottom
    assert "14.12 or under: the last cut only" in bottom
    assert "its whole height as measured + 0.5 (17 gives 8 turns + 75 div)" in left


@pytest.mark.derived(by="14 high less 7 that stays is 7: 3 turns of 2, and 50 of 0.02")
def test_a_shoulder_whose_foot_the_jaws_hide_ends_at_a_figure_reckoned_from_the_height() -> None:
    steps = [s for u in on_the_mill("t-slot-nut") for s in u.steps]
    first, second = [s for s in steps if s.operations[0].verb == "mill step"]
    order = order_words(first, part("t-slot-nut"), "mm", default_workshop())
    said = " ".join((*order.before, *order.after)).replace("\N{NBSP}", " ")

    assert "(height as measured \N{MINUS SIGN} 7) / 0.02 = div; 14 gives 3 turns + 50 div" in said
    assert mill_words.AS_DEEP in second.remarks
