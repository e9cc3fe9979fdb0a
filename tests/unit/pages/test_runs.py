from __future__ import annotations

import threading
from collections.abc import Callable

import pytest

from halfthou.errors import NoPlan
from halfthou.pages.drawn_once import DrawnOnce
from halfthou.pages.runs import Run, Runs

Progress = Callable[[str, float], None]
Stop = Callable[[], bool]


def ended(runs: Runs) -> Run:
    run = runs.of("arbor")
    assert run is not None
    pause = threading.Event()
    for _ in range(500):
        if run.over:
            return run
        pause.wait(0.01)
    raise AssertionError("the run does not end")


def at_once(*, on_progress: Progress, should_stop: Stop) -> tuple[str, ...]:
    del should_stop
    on_progress("blank 1 of 1", 0.5)
    return ("the same as before",)


def test_a_run_tells_how_far_it_is_and_how_it_ended() -> None:
    runs = Runs()
    runs.start("arbor", entry="1", work=at_once)
    run = ended(runs)

    assert (run.words, run.share, run.difference) == ("blank 1 of 1", 0.5, ("the same as before",))


def test_a_form_sent_twice_counts_once() -> None:
    runs = Runs()
    runs.start("arbor", entry="1", work=at_once)
    first = ended(runs)
    runs.start("arbor", entry="1", work=at_once)

    assert runs.of("arbor") is first


def test_no_second_run_begins_while_one_goes_on_and_it_can_be_stopped() -> None:
    def until_stopped(*, on_progress: Progress, should_stop: Stop) -> tuple[str, ...]:
        del on_progress
        pause = threading.Event()
        while not should_stop():
            pause.wait(0.01)
        return ()

    runs = Runs()
    runs.start("arbor", entry="1", work=until_stopped)
    runs.start("arbor", entry="2", work=at_once)
    runs.stop("arbor")

    assert ended(runs).entry == "1"


def test_a_run_that_finds_no_plan_keeps_the_reason() -> None:
    def none(**_: object) -> tuple[str, ...]:
        raise NoPlan("the arbor cannot be held")

    runs = Runs()
    runs.start("arbor", entry="1", work=none)

    assert str(ended(runs).error) == "the arbor cannot be held"


def test_how_a_run_ended_is_not_said_of_what_was_changed_since() -> None:
    def none(**_: object) -> tuple[str, ...]:
        raise NoPlan("the arbor cannot be held")

    runs = Runs()
    runs.start("arbor", entry="1", work=none, about="as it was")
    run = ended(runs)
    runs.let_go("arbor", about="as it was")
    kept = run.error
    runs.let_go("arbor", about="as it is")

    now = runs.of("arbor")
    assert kept is not None
    assert now is not None
    assert (now.error, now.entry, now.over) == (None, "1", True)
    assert run.error is kept


def test_a_thing_is_made_once_for_each_key() -> None:
    drawn, made = DrawnOnce(), []
    for _ in range(3):
        drawn.now("arbor", lambda: made.append("arbor"))

    assert made == ["arbor"]


def test_something_slow_is_made_in_the_background() -> None:
    drawn, go_on = DrawnOnce(), threading.Event()

    def slow() -> str:
        go_on.wait(20)
        return "drawn"

    assert drawn.later("arbor", slow) is None
    assert drawn.late == 0

    go_on.set()
    assert drawn.now("arbor", slow) == "drawn"
    assert drawn.later("arbor", slow) == "drawn"


def test_what_goes_wrong_in_the_background_is_raised_to_who_asks() -> None:
    def broken() -> str:
        raise ValueError("broken")

    with pytest.raises(ValueError, match="broken"):
        DrawnOnce().later("arbor", broken)
