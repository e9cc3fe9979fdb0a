"""Work thrown over in the chuck: what the card tells the hands to do."""

from __future__ import annotations

import pytest
from tests.unit.planning.turned.parts import part_of
from tests.unit.planning.turned.test_off_axis import BUSH

from halfthou.planning.make_plan import make_plan
from halfthou.planning.working.whole import work_out
from halfthou.present.words_throw import side_words
from halfthou.present.words_truing import truing_words
from halfthou.workshop.default import default_workshop


def test_the_card_says_how_far_over_which_way_and_what_the_clock_then_reads() -> None:
    part, workshop = part_of(BUSH), default_workshop()
    worked = work_out(make_plan(part, workshop), part, workshop)
    number = next(i for i, one in enumerate(worked.set_ups) if any(one.set_up.scheme.throw))

    told = truing_words(worked.set_ups[number], part, "mm", worked.set_ups[:number])

    assert "Set over 0.8 toward the top" in told
    assert "Clock the Ø20 flange: 1.6 over the turn within 0.02, least at the top" in told
    assert "rod in the grub hole points to the front" in told


@pytest.mark.parametrize(
    ("throw", "told"),
    [
        ((0.0, -2.0, 0.0), "bottom"),
        ((0.0, 0.0, 2.0), "front"),
        ((0.0, 1.0, 1.0), "place 45.0° from the top to the front"),
    ],
)
def test_a_throw_is_named_by_its_side(throw: tuple[float, float, float], told: str) -> None:
    assert side_words(throw) == told
