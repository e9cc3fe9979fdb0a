"""What stands at a dimension."""

from __future__ import annotations

from typing import Any

import pytest

from halfthou.drawing.model import Band
from halfthou.planning.worked import Wanted
from halfthou.present.picture.label import Label
from halfthou.present.picture.wording import aimed, final_wants, label_of, size_label


def want(text: str, value: float, **more: Any) -> Wanted:
    band = Band(
        nominal=value, low=value - 0.1, high=value, text=text, origin="drawn", place="journal"
    )
    given: dict[str, Any] = {
        "step": 3,
        "kind": "diameter",
        "surfaces": ("journal",),
        "a": (0.0, value / 2, 0.0),
        "b": (0.0, -value / 2, 0.0),
        "band": band,
        "value": value,
    }
    return Wanted(**{**given, **more})


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("20 H7 through", "Ø20 H7"),
        ("22 bored through", "Ø22"),
        ("40 H7 x 4", "Ø40 H7"),
        (".375 x 3/32 at left", "Ø.375"),
        ("1 1/8", "Ø1 1/8"),
        ("5 to bore", "Ø5"),
        ("1/4 BSF clear", "1/4 BSF clear"),
    ],
)
def test_a_size_is_shown_as_written_without_what_the_picture_shows(
    written: str, shown: str
) -> None:
    assert size_label(written, sign="Ø").main == shown


def test_limits_stand_one_over_the_other() -> None:
    label = size_label("30 +0/-0.1")

    assert (label.main, label.upper, label.lower) == ("30", "0", "−0.1")


def test_a_size_carries_its_step() -> None:
    label = label_of(want("12 f7", 12.0))

    assert (label.main, label.step, label.passing) == ("Ø12 f7", 3, False)


@pytest.mark.derived(by="hand arithmetic: 7/8 in = 22.225 mm")
def test_an_inch_drawing_on_a_metric_card_shows_what_the_dial_shows_and_what_is_drawn() -> None:
    label = label_of(want(".875 k6", 22.225), "mm", "in")

    assert label.main == "Ø22.225 (.875 k6 in)"


def test_a_size_that_names_its_own_unit_is_left_alone() -> None:
    assert label_of(want("16 mm k6", 16.0), "in", "in").main == "Ø16 mm k6"
    assert label_of(want("16 mm k6", 16.0), "mm", "in").main == "Ø16 mm k6"


def test_a_thread_has_no_diameter_sign() -> None:
    assert label_of(want("3/8 BSF", 9.525, kind="thread"), "mm", "in").main == "3/8 BSF"


def test_words_that_are_no_figure_give_way_to_the_size_itself() -> None:
    assert label_of(want("right: level with foot", 12.0, kind="length")).main == "12"


def test_a_passing_size_is_left_out_where_the_last_one_comes_in_the_same_set_up() -> None:
    passing = want("", 12.5, temporary=True, band=None)
    last = want("12 f7", 12.0)

    assert final_wants((passing, last)) == (last,)
    assert final_wants((passing,)) == (passing,)


def test_a_distance_of_nothing_is_not_dimensioned() -> None:
    assert final_wants((want("level", 0.0, kind="depth"),)) == ()


def test_a_walls_place_is_shown_as_the_step_aims_at_it_and_a_holes_as_it_lies() -> None:
    wall = want("3", 3.2, kind="position", surfaces=("left", "wall"), band=None)
    hole = want("9", 9.0, kind="position", surfaces=(), band=None)

    assert aimed(Label(main="3"), wall, 3.0, (), "mm") == Label(main="3.2", step=3)
    assert aimed(Label(main="9"), hole, 6.0, (), "mm") == Label(main="6", step=3)
