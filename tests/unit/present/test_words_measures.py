"""How a size is said: a sawn length one way only, a length at the centres as it is really had."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.unit.planning.working.handmade import (
    FACE,
    FINISH,
    ROUGH,
    SHAFT,
    SHOP,
    chucked,
    only_step,
    operation,
    worked,
)

from halfthou.planning.make_plan import make_plan
from halfthou.planning.model import Link
from halfthou.planning.working import words
from halfthou.planning.working.whole import work_out
from halfthou.present.numbers import THIN, Units
from halfthou.present.picture.bench_set_up import _sawn
from halfthou.present.picture.wording import PictureWords
from halfthou.present.words_held import by_rule
from halfthou.present.words_measures import check_words, measures_of
from halfthou.present.words_plan import saw_words
from halfthou.store.part_file import read_part

BENCH = next(d for d in SHOP.holding if d.device == "bench vice")
CENTRES = next(d for d in SHOP.holding if d.device == "centres")
UNITS: tuple[Units, ...] = ("mm", "in", "both")
PARTS = Path(__file__).parents[2] / "data" / "parts"


@pytest.mark.derived(by="180 needed, a millimetre more allowed; the line at the least")
@pytest.mark.parametrize("feature", ["blank", "left"])
def test_a_sawn_length_is_said_one_way_whatever_is_sawn_off(feature: str) -> None:
    sawn = operation("saw", "saw", feature=feature, machine="bench", tools=("hacksaw",),
                     cut_size=180.0)  # fmt: skip
    step = only_step(chucked(sawn, machine="bench", links=(Link(holder=BENCH),)))
    (view,) = measures_of(step, SHAFT, "mm")

    assert (view.aim, view.limits, view.gauge) == ("180 to 181 long", "", "rule")
    assert "180 to 180.5" in check_words(step.check, "mm")


def test_a_length_measured_out_of_the_centres_is_not_called_out_of_the_chuck() -> None:
    held = chucked(ROUGH, FINISH, links=(Link(holder=CENTRES),), grips=())
    step = only_step(chucked(FACE), held)
    at_centres = [v.when for v in measures_of(step, SHAFT, "mm")]
    chucked_step = replace(step, remarks=())

    assert words.LIFT_OUT in step.remarks
    assert "out of the centres" in at_centres
    assert "when it is out" not in at_centres
    assert "when it is out" in [v.when for v in measures_of(chucked_step, SHAFT, "mm")]


@pytest.mark.derived(by="the bush is 20 long; what else is sawn is gripped, faced and parted off")
def test_a_bar_sawn_longer_than_the_work_says_what_the_rest_is_for() -> None:
    part = read_part(PARTS / "bush.toml")
    said = saw_words(work_out(make_plan(part, SHOP), part, SHOP), part, "mm").replace(THIN, " ")

    assert ": 20 for the work, the rest for the jaws, the facing and the parting off." in said


def test_a_bar_sawn_to_its_length_says_no_more() -> None:
    sawn = operation("saw", "saw", feature="blank", machine="bench", tools=("hacksaw",),
                     cut_size=42.0)  # fmt: skip
    held = chucked(sawn, machine="bench", links=(Link(holder=BENCH),))

    said = [saw_words(worked(held), SHAFT, units) for units in UNITS]

    assert not any("for the jaws" in one or "both" in one for one in said)
    assert all(one.endswith("long.") for one in said)


@pytest.mark.derived(by="the piece may be 180 to 181; the line scribed for it lies nearer")
def test_the_picture_gives_the_sawn_length_as_the_step_does() -> None:
    sawn = operation("saw", "saw", feature="blank", machine="bench", tools=("hacksaw",),
                     cut_size=180.0)  # fmt: skip
    step = only_step(chucked(sawn, machine="bench", links=(Link(holder=BENCH),)))
    shown = PictureWords(title="", description="", units="mm")

    assert _sawn(step, 180.0, shown).replace(THIN, " ") == "180 to 181"


def test_a_figure_in_both_units_is_followed_by_neither() -> None:
    assert by_rule(154.8, "both").replace(THIN, " ") == "155 (6 3/32 in)"
    assert by_rule(154.8, "mm") == f"155{THIN}mm"
