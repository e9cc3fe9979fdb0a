"""Words of a card that were wrong once, as a hand at the bench found them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.unit.cards import by_hand

from halfthou.planning.model import Link
from halfthou.planning.worked import Move, Slide, WorkedSetUp
from halfthou.planning.working.words import BELTS, CENTRE, KEY_OUT, TURN_BY_HAND
from halfthou.present.numbers import THIN
from halfthou.present.set_up_card import Job, set_up_view
from halfthou.present.words_cautions import caution_box
from halfthou.present.words_dials import dial_words
from halfthou.present.words_held import by_rule
from halfthou.present.words_holding import holding_words
from halfthou.present.words_kit import cutting_kit, gauge_kit, holding_kit
from halfthou.present.words_same_grip import goes_back, same_grip
from halfthou.present.words_surfaces import surface_words


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return by_hand.job(tmp_path)


@pytest.fixture
def turned(job: Job) -> WorkedSetUp:
    return job.worked.set_ups[0]


def move(slide: Slide, turns: int, divisions: float) -> Move:
    return Move(
        slide=slide, to=turns * 2 + divisions / 50, turns=turns, divisions=divisions,
        reads="travel", sense="down", by="dial",
    )  # fmt: skip


def settings(job: Job, *moves: Move) -> tuple[tuple[str, ...], ...]:
    step = replace(job.worked.set_ups[0].steps[0], moves=moves, passes=())
    said = dial_words(step, "mm")
    return tuple((view.slide, *(one.replace(THIN, " ") for one in view.settings)) for view in said)


def test_the_knee_comes_up_to_the_cutter(job: Job) -> None:
    assert settings(job, move("knee", 1, 25)) == (("knee up", "1 turn + 25 div"),)


def test_settings_within_a_turn_stand_on_one_line(job: Job) -> None:
    said = settings(job, *(move("cross-slide", 0, n) for n in (5, 10.5, 15)))

    assert said == (("cross-slide down", "5, 10½, 15 div"),)


def test_every_one_of_many_settings_is_listed(job: Job) -> None:
    said = settings(job, move("knee", 0, 48), move("knee", 0, 96), move("knee", 1, 44))

    assert said == (("knee up", "turns+div: 0+48, 0+96, 1+44"),)


def test_a_rule_is_set_to_half_millimetres_and_to_sixty_fourths() -> None:
    assert [by_rule(154.8, unit).replace(THIN, " ") for unit in ("mm", "in")] == [
        "155 mm",
        "6 3/32 in",
    ]


def test_work_that_keeps_its_grip_is_left_in_the_chuck(job: Job, turned: WorkedSetUp) -> None:
    scheme = replace(turned.set_up.scheme, centre=True)
    after = replace(turned, number=2, set_up=replace(turned.set_up, scheme=scheme))

    assert same_grip(scheme, turned.set_up.scheme)
    assert holding_words(after, job.part, "mm", turned).startswith(
        "Leave it in the chuck as it is and bring the tailstock centre up."
    )


def test_only_work_that_comes_back_to_its_jaws_is_marked(turned: WorkedSetUp) -> None:
    held = replace(turned.set_up.scheme, links=_three_jaw(turned))
    other = replace(held, faces=(1.0, 0.0, 0.0), grips=("flange",))
    there, away, back = (
        replace(turned, number=number, set_up=replace(turned.set_up, scheme=scheme))
        for number, scheme in ((1, held), (2, other), (3, held))
    )

    assert goes_back(there, (there, away, back))
    assert not goes_back(there, (there, away))


def _three_jaw(turned: WorkedSetUp) -> tuple[Link, ...]:
    link = turned.set_up.scheme.links[-1]
    return (replace(link, holder=replace(link.holder, device="three-jaw chuck")),)


def test_no_jaws_are_named_between_centres(turned: WorkedSetUp) -> None:
    link = turned.set_up.scheme.links[-1]
    links = (replace(link, holder=replace(link.holder, device="centres")),)
    scheme = replace(turned.set_up.scheme, links=links)
    on_centres = replace(
        turned,
        set_up=replace(turned.set_up, scheme=scheme),
        cautions=(TURN_BY_HAND, CENTRE, BELTS),
        steps=(),
    )

    assert caution_box(on_centres) == (
        "Turn by hand once before switching on: driver and work clear of the saddle.",
        "Dead centre greased, or a running one; ease it as the work warms.",
        "Isolate before changing belts.",
    )


def test_a_caution_is_said_in_the_box_and_not_again_at_its_step(
    job: Job, turned: WorkedSetUp
) -> None:
    step = replace(turned.steps[0], cautions=(KEY_OUT,))
    card = set_up_view(job, replace(turned, steps=(step,)), by_hand.plain_pictures())

    assert "Key out of the chuck." in card.cautions
    assert card.steps[0].warn == ()


def test_what_to_lay_out_names_what_holds_what_cuts_and_what_measures(job: Job) -> None:
    held = [one.name for one in holding_kit(job.worked, job.part, "mm")]
    cut = [one.name for one in cutting_kit(job.worked)]
    measured = [one.name for one in gauge_kit(job.worked, job.part)]

    assert {"three-jaw and key, soft jaws", "soft hammer"} <= set(held)
    assert any(name.startswith("drill chuck") for name in held)
    assert "deburring tool" in cut
    assert "rule" in measured


def test_a_millimetre_size_of_an_inch_drawing_keeps_its_millimetres(job: Job) -> None:
    surface = next(one for one in job.part.surfaces if one.name == "spigot")
    assert surface.size is not None
    in_mm = replace(surface, size=replace(surface.size, text="32 mm h8"))
    part = replace(job.part, units="in", surfaces=(in_mm,))

    assert surface_words("spigot", part, "in") == "the Ø32 mm spigot"
