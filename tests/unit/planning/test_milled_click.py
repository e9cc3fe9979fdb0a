"""A thin click with a narrow spring slot: low holds, the slitting saw, too large a plate."""

from __future__ import annotations

from functools import cache

import pytest

from halfthou.drawing.solve import solve
from halfthou.errors import NoPlan
from halfthou.planning.assemble import Case
from halfthou.planning.milled.case import case_milled
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop

HEAD = """
[part]
name = "click"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"
"""
CLICK = """
[blank]
bar = "flat 20 x 6 x 60"
[block.body]
wide = "50"
high = "18"
thick = "5"
[hole.pivot]
in = "front"
size = "6 H7 through"
at = ["10 right of left", "centred bottom to top"]
[slot.spring]
in = "right"
wide = "12"
high = "1.6"
at = ["4.5 above bottom"]
"""
PLATE = """
[blank]
plate = "420 x 200 x 20"
[block.body]
wide = "410"
high = "190"
thick = "15"
"""
SMALL = """
[blank]
bar = "round 20 x 60"
[block.body]
wide = "50"
high = "18"
thick = "15"
"""


@cache
def case_of(text: str) -> Case:
    return case_milled(solve(read_part_text(HEAD + text, name="click.toml")), default_workshop())


def test_a_thin_plate_is_held_low_so_that_the_cutter_clears_the_jaws() -> None:
    flat = [s for s in case_of(CLICK).schemes if "mill front" in s.can and s.faces[2] > 0]

    assert flat
    assert all(2.0 <= s.grip_high - s.grip_low <= 5.0 for s in flat)


def test_a_slot_narrower_than_any_end_mill_is_slit_with_the_saw_level_and_last() -> None:
    slot = next(op for op in case_of(CLICK).operations if op.feature == "spring")
    before = {o.before for o in case_of(CLICK).orders if o.after == slot.key and o.hard}

    assert slot.tools == ("slitting saw 63 x 1.6",)
    assert slot.approach == ((0.0, -1.0, 0.0), (0.0, 1.0, 0.0))
    assert {"mill top", "pivot drill", "mill front"} <= before


def test_a_reamed_hole_is_spotted_drilled_under_size_and_reamed() -> None:
    pivot = [op for op in case_of(CLICK).operations if op.key.startswith("pivot")][:3]

    assert [op.verb for op in pivot] == ["spot", "drill", "ream"]
    assert [op.tools for op in pivot[1:]] == [("drill 5.8 mm",), ("reamer 6 mm",)]


def test_work_longer_than_the_table_travels_is_refused_in_those_words() -> None:
    reasons = {r.reason for r in case_of(PLATE).refused if r.operation == "mill front"}

    assert "it is 420 long and the mill's table travels 300" in reasons
    assert "the vice opens 75 mm and the work is 190 across" in reasons


def test_a_round_bar_too_small_across_the_corners_is_no_blank() -> None:
    with pytest.raises(NoPlan) as caught:
        case_of(SMALL)

    assert str(caught.value) == (
        "the blank of the click is too small\n"
        "  where: [blank] round 20 x 60\n"
        "  why: it is 20 round and the part 23.4 across its corners\n"
        "  try: a blank with metal over every side: left, right, bottom, top, back, front"
    )
