"""The words of a card, read as the person at the bench reads them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.planning.worked import Move
from halfthou.present.card_view import CoverView, MeasureView, MoveView, SetUpView
from halfthou.present.numbers import THIN
from halfthou.present.set_up_card import Job, set_up_view
from halfthou.present.words_dials import move_words
from halfthou.present.words_measures import size_text

from . import by_hand

Cards = tuple[SetUpView, ...]


def paragraph(card: SetUpView, head: str) -> str:
    body = next(each.body for each in card.paragraphs if each.head == head)
    return body.replace(THIN, " ")


def test_a_card_is_named_by_its_part_its_number_and_its_machine(set_ups: Cards) -> None:
    assert [(card.part, card.title) for card in set_ups] == [
        ("Barrel end", "Set-up 1 of 2 — lathe"),
        ("Barrel end", "Set-up 2 of 2 — mill"),
    ]


def test_the_holding_says_device_surface_length_and_what_it_backs_on(set_ups: Cards) -> None:
    assert paragraph(set_ups[0], "Hold") == (
        "The jaws first: a ring gripped at their back, so large that they stand 2.5 smaller than "
        "the work; boring tool, bore them to the Ø32 as it measures and 0.02 more, 13 mm deep; "
        "undercut the corner; break their edges. "
        "Grip 13 mm of the Ø32 spigot in soft jaws bored Ø32, the right face of the flange hard "
        "back on their step. Left end out, 9.5 mm from the jaws (8 when faced)."
    )


def test_truing_names_the_surfaces_and_the_reading_to_reach(set_ups: Cards) -> None:
    assert paragraph(set_ups[0], "Clock it true").startswith(
        "Tap the right face of the flange home on the step until it sounds solid: no feeler gets "
        "there. When faced, caliper the length at three places round: alike within 0.02, or the "
        "step was not clean. "
        "The jaws are bored in place and hide the rest: nothing else to clock."
    )


def test_zero_says_how_it_is_picked_up_and_what_a_division_is(set_ups: Cards) -> None:
    assert paragraph(set_ups[0], "Zero") == (
        "Saddle: dial to 0 on the face as it is finished; then each new tool by 0.05 feeler, "
        "spindle stopped, 0.05 short of zero. Cross-slide: boring tool just touching on the "
        "Ø16 bore, dial to 0. One turn: cross-slide 100 div, 2 mm off the radius; saddle 60 "
        "div, 3 mm. Figures are travel from 0: a dial that counts down on the way shows the turn "
        "less the divisions."
    )


def test_one_hole_drilled_twice_is_one_sentence(set_ups: Cards) -> None:
    assert set_ups[0].steps[2].doing == "Drill the bore Ø7 then Ø13 right through."


def test_cuts_stand_in_a_ladder_with_what_each_leaves(set_ups: Cards) -> None:
    ladder = set_ups[0].steps[3].ladder

    assert ladder is not None
    assert [rung.leaves for rung in ladder.rungs] == ["Ø37.00", "Ø38.50", "Ø40.00"]
    assert [rung.cuts for rung in ladder.rungs] == ["1–12", "13", "14, last"]


def test_the_dial_is_told_in_turns_and_its_own_divisions(set_ups: Cards) -> None:
    dials = set_ups[0].steps[3].dial

    assert dials == (
        MoveView(slide="saddle left", settings=(f"1{THIN}turn + 20{THIN}div",)),
        MoveView(slide="cross-slide out", settings=(f"6{THIN}turns + 75{THIN}div",)),
    )


def test_a_size_shows_aim_limits_the_drawing_and_the_gauge(set_ups: Cards) -> None:
    assert set_ups[0].steps[3].measures[1] == MeasureView(
        aim="4.00 deep", limits="3.90–4.10", drawn="", gauge="caliper, depth rod ±0.06"
    )


def test_a_plug_says_what_goes_and_what_does_not(set_ups: Cards) -> None:
    assert set_ups[0].steps[5].measures == (
        MeasureView(
            aim="Ø16 H7",
            limits="goes 16.000, not 16.018",
            drawn="",
            gauge="go and no-go plug, made beforehand",
            ticks=("goes", "does not"),
        ),
    )


def test_before_a_cut_that_cannot_be_undone_one_looks_twice(set_ups: Cards) -> None:
    step = set_ups[0].steps[5]

    assert step.check_head == "Look twice before step 6."
    assert step.check == (
        "The bore, by caliper, inside jaws: expect 15.8, within 0.1. If not, stop."
    )


def test_hand_feed_is_seconds_for_one_turn_of_a_named_handle(set_ups: Cards) -> None:
    assert set_ups[0].steps[0].feed == ("saddle:", f"1 turn in 4{THIN}s")
    assert set_ups[0].steps[4].feed == ("0.05 a turn",)


def test_the_tool_in_hand_is_not_named_again(job: Job) -> None:
    worked = job.worked.set_ups[0]
    twice = replace(worked, steps=(worked.steps[3], replace(worked.steps[3], number=5)))
    card = set_up_view(job, twice, by_hand.plain_pictures())

    assert [step.tool for step in card.steps] == ["boring tool, 10 bar", "same tool"]


def test_holes_share_one_table_of_places_with_a_box_for_each_step(set_ups: Cards) -> None:
    (table,) = set_ups[1].places

    assert table.title == "Places of the holes, steps 1 and 2"
    assert table.steps == ("1", "2")
    assert [row[:3] for row in table.rows[:2]] == [("1", "0.00", "26.00"), ("2", "22.52", "13.00")]
    assert table.rows[1][4].replace(THIN, " ") == "away 6 turns + 50 div"


def test_inches_keep_the_divisions_of_the_dial(job: Job) -> None:
    inch = replace(job, units="in")
    card = set_up_view(inch, job.worked.set_ups[0], by_hand.plain_pictures())

    assert (
        card.steps[3].dial
        == set_up_view(job, job.worked.set_ups[0], by_hand.plain_pictures()).steps[3].dial
    )
    assert card.steps[3].measures[0].limits == "1.563–1.586"
    assert card.foot[0].startswith("Figures in inches; the drawing is in mm.")


def test_a_rule_shows_sixty_fourths_to_a_person_who_works_in_inches() -> None:
    move = Move(
        slide="saddle", to=133.35, turns=0, divisions=0, reads="travel", sense="left", by="rule"
    )

    assert move_words(move, "in") == ("saddle left", "5 1/4 in by rule")
    assert move_words(move, "mm") == ("saddle left", "133.5 by rule")


@pytest.mark.parametrize(
    ("text", "size"),
    [("16 H7 through", "16 H7"), ("40 bored x 4", "40"), ("3/4 f7", "3/4 f7"), ("M5 x 10", "M5")],
)
def test_only_the_size_is_taken_from_what_the_drawing_writes(text: str, size: str) -> None:
    assert size_text(text) == size


def test_the_price_on_the_cover_cannot_be_taken_for_the_time(cover: CoverView) -> None:
    assert cover.price == (
        "For choosing between plans, not for the clock: this one counts 2 h 13 min with its "
        "risks; no plan is cheaper."
    )


def test_the_cover_names_what_cannot_be_judged_here_and_what_would(cover: CoverView) -> None:
    (one,) = cover.unjudged

    assert one.size == "The Ø16 bore, 16 H7: 16.000–16.018."
    assert "telescopic gauge and micrometer, good to ±0.03" in one.why
    assert one.remedies == (
        "a go and no-go plug",
        "a borrowed bore gauge",
        "finishing to the mate",
    )


def test_the_cover_says_what_to_saw_and_whose_workshop_it_is_for(cover: CoverView) -> None:
    assert (
        cover.facts[0].body.replace(THIN, " ")
        == "Gunmetal, round 70 bar, 32 long: saw 26 mm long. Before set-up 1 make its go and "
        "no-go plug, go 16.000, no-go 16.018, each end proved by micrometer: silver steel, "
        "round 17 mm, 60 mm long."
    )
    assert cover.workshop.startswith("Figures are for a usual small workshop")
