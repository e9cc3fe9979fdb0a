"""Ways out where no gauge decides: three, as the trade would, and after the fit asked for."""

from __future__ import annotations

import pytest

from halfthou.drawing.model import Surface
from halfthou.planning.unjudged import ways_out
from tests.unit.planning.working.handmade import band, plane, wall

BORE = wall("bore", 0.0, 20.0, band(16.0, 16.0, 16.018, "16 H7"), inside=True)
SEAT = wall("seat", 0.0, 20.0, band(16.0, 16.001, 16.012, "16 mm k6"))


@pytest.mark.parametrize("surface", [BORE, SEAT])
def test_there_are_three_ways_out_and_the_last_is_the_mate(surface: Surface) -> None:
    assert surface.size is not None
    ways = ways_out(surface, surface.size)

    assert len(ways) == 3
    assert ways[2].startswith("finish it to the mate")


def test_a_bore_is_tried_by_a_bought_plug_pair_not_by_one_made_here() -> None:
    ways = ways_out(BORE, BORE.size)  # type: ignore[arg-type]

    assert ways[0].startswith("a bought go and no-go plug")
    assert not any("make a" in one for one in ways)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("3/4 f7", "slides on, oiled, without shake"),
        ("16 mm k6", "goes home by light taps"),
        ("24 s6", "bore its housing smaller"),
    ],
)
def test_a_round_goes_to_its_bore_as_its_fit_asks(text: str, says: str) -> None:
    size = band(16.0, 16.001, 16.012, text)

    assert says in ways_out(SEAT, size)[2]


def test_a_slot_is_judged_by_slips_and_by_its_key() -> None:
    side = plane("key side", 2.0, (1.0, 0.0, 0.0), 3.0)
    ways = ways_out(side, band(5.0, 4.958, 4.988, "5 P9"))

    assert "gauge blocks" in ways[1]
    assert "key" in ways[2]
