"""Cards set in type: how many sheets, the same bytes, no letter the type lacks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.cards.cards import Paper, set_cards, sheets_of
from halfthou.cards.typeset import pages_as_png
from halfthou.errors import HalfthouError
from halfthou.present.card_view import CoverView, SetUpView
from halfthou.present.numbers import THIN
from halfthou.present.picture.lettering import width_of

Cards = tuple[SetUpView, ...]


def test_a_part_has_a_cover_and_a_sheet_for_each_set_up(cover: CoverView, set_ups: Cards) -> None:
    made = set_cards(cover, set_ups)

    assert made.sheets == 3
    assert made.first_sheets == (1, 2, 3)
    assert made.pdf.startswith(b"%PDF-")


def test_the_same_views_give_the_same_bytes(cover: CoverView, set_ups: Cards) -> None:
    assert set_cards(cover, set_ups).pdf == set_cards(cover, set_ups).pdf


@pytest.mark.parametrize("paper", ["A5", "Letter"])
def test_other_papers_are_set_too(cover: CoverView, set_ups: Cards, paper: Paper) -> None:
    made = set_cards(cover, set_ups, paper=paper)

    assert len(made.first_sheets) == 3


def test_steps_that_do_not_fit_go_on_to_another_sheet(set_ups: Cards) -> None:
    many = replace(set_ups[0], steps=set_ups[0].steps * 4)
    made = set_cards(None, (many, set_ups[1]))

    assert made.sheets > 2
    assert made.first_sheets[0] == 1
    assert made.first_sheets[1] == made.sheets


def test_a_little_bench_work_takes_no_sheet_of_its_own(cover: CoverView, set_ups: Cards) -> None:
    saw = replace(set_ups[1], at_the_bench=True, places=())
    job = sheets_of(cover, (saw, set_ups[0], saw)).job

    assert len(job["cover"]["first"]) == 1
    assert [len(card["then"]) for card in job["set-ups"]] == [1]


def test_a_picture_used_twice_goes_in_once(cover: CoverView, set_ups: Cards) -> None:
    sheets = sheets_of(cover, set_ups)

    assert len(sheets.pictures) == len(set(sheets.pictures.values())) == 5


def test_a_picture_that_is_none_is_a_fault_with_its_reason(set_ups: Cards) -> None:
    broken = replace(set_ups[0], picture="no picture")

    with pytest.raises(HalfthouError, match="the card could not be set in type"):
        set_cards(None, (broken,))


def test_sheets_can_be_looked_at_as_pictures(set_ups: Cards) -> None:
    sheets = sheets_of(None, set_ups)
    drawn = pages_as_png(sheets.job, sheets.pictures, dots_an_inch=40.0)

    assert len(drawn) == 2
    assert all(page.startswith(b"\x89PNG") for page in drawn)


def test_the_type_has_every_sign_the_cards_use(cover: CoverView, set_ups: Cards) -> None:
    sheets = sheets_of(cover, set_ups)
    used = set("".join(_words(sheets.job))) - {THIN, "\n"}

    assert {
        sign for sign in used if width_of(sign, size=1000.0) == width_of("\uffff", size=1000.0)
    } == set()


def _words(value: object) -> list[str]:
    if isinstance(value, dict):
        return [word for each in value.values() for word in _words(each)]
    if isinstance(value, list):
        return [word for each in value for word in _words(each)]
    return [value] if isinstance(value, str) else []
