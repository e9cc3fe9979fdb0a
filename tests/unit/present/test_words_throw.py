"""Work thrown over in the chuck: what the card tells the hands to do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from tests.unit.planning.turned.parts import part_of
from tests.unit.planning.turned.test_off_axis import BUSH

from halfthou.drawing.model import Hole, Part
from halfthou.planning.make_plan import make_plan
from halfthou.planning.model import Scheme
from halfthou.planning.working.whole import work_out
from halfthou.present.words_throw import side_words, throw_on_the_clock
from halfthou.present.words_truing import truing_words
from halfthou.workshop.default import default_workshop


def _thrown_schemes(part: Part) -> Iterator[Scheme]:
    plan = make_plan(part, default_workshop())
    return (one.scheme for one in plan.set_ups if any(one.scheme.throw))


def test_the_card_says_how_far_over_which_way_and_what_the_clock_then_reads() -> None:
    part, workshop = part_of(BUSH), default_workshop()
    worked = work_out(make_plan(part, workshop), part, workshop)
    number = next(i for i, one in enumerate(worked.set_ups) if any(one.set_up.scheme.throw))

    told = truing_words(worked.set_ups[number], part, "mm", worked.set_ups[:number])

    assert (
        "Rod in the grub hole, level toward you: seen from the tailstock it points to 9 o'clock "
        "and the line wanted lies 0.8 straight below the work's middle, so the work is moved "
        "0.8 up."
    ) in told
    assert (
        "Clock on top of the Ø20 flange: least with the rod pointing level away from you, 1.6 "
        "more half a turn on, within 0.02; alike at the two quarter turns between."
    ) in told


@pytest.mark.derived(by="hand: the work's top and front turned about its axis on a sketch")
@pytest.mark.parametrize(
    ("end_out", "throw", "hour"),
    [
        # the left end toward the tailstock: its front is on the right, so turned half round
        ("left", (0.0, 0.8, 0.0), 6.0),
        ("left", (0.0, -0.8, 0.0), 0.0),
        ("left", (0.0, 0.0, 0.8), 9.0),
        # the right end toward the tailstock: its front is on the left, as the rod then points
        ("right", (0.0, 0.8, 0.0), 0.0),
        ("right", (0.0, 0.0, -0.8), 3.0),
    ],
)
def test_seen_from_the_tailstock_a_line_lies_by_which_end_is_out(
    end_out: str, throw: tuple[float, float, float], hour: float
) -> None:
    part = part_of(BUSH)
    rod = next(f for f in part.features if isinstance(f, Hole) and f.name == "grub")
    scheme = next(iter(_thrown_schemes(part)))
    out = 1.0 if end_out == "right" else -1.0
    turned = replace(scheme, faces=(out, 0.0, 0.0), throw=throw)

    assert throw_on_the_clock(turned, rod) % 12 == pytest.approx(hour)


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
