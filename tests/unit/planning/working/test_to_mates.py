"""A size made to a mate: its reading is asked for, and expected only where that is known."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.drawing.model import Mate
from halfthou.planning.worked import Step
from tests.unit.planning.working.handmade import FINISH, ROUGH, SHAFT, chucked, only_step


def made_to_a_barrel(how: str, free: tuple[float, float] | None) -> Step:
    mate = Mate(
        surface="journal",
        text=f"bore of barrel, {how}",
        part="barrel",
        mate_surface="bore",
        free_low=free[0] if free else None,
        free_high=free[1] if free else None,
    )
    return only_step(chucked(ROUGH, FINISH), part=replace(SHAFT, mates=(mate,)))


@pytest.mark.derived(by="the middle of the clearance, 0.03, more for the bore it goes into")
def test_the_reading_expected_of_a_mate_is_off_the_size_by_the_clearance() -> None:
    plain = only_step(chucked(ROUGH, FINISH))
    aimed = next(m for m in plain.measures if m.kind == "diameter")
    reading, own = made_to_a_barrel("0.02 to 0.04 free", (0.02, 0.04)).measures[:2]

    assert (reading.where, reading.kind) == ("the bore of the barrel as made", "bore")
    assert reading.aim == pytest.approx(aimed.aim + 0.03)
    assert own.where == "that reading less 0.02 to 0.04"


def test_of_a_mate_that_goes_in_by_words_alone_a_reading_is_asked_for_and_none_expected() -> None:
    plain = only_step(chucked(ROUGH, FINISH))
    step = made_to_a_barrel("starts by hand, home by light taps", None)
    asked, told = step.remarks[-2:]

    assert asked == (
        "before gripping, the bore of the barrel as made, by telescopic gauge, micrometer; "
        "write it here: ________"
    )
    assert told.startswith("made to the bore of the barrel as it measures, starts by hand")
    assert step.measures == plain.measures
