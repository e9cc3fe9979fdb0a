"""Slants and slots on the drawing: what the cards cut by can be checked on it."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.present.picture.drawn_sizes import cutout_sizes, drawn_notes
from halfthou.store.part_file import read_part_text

DATA = Path(__file__).parents[3] / "data" / "drawings" / "click.toml"


def click() -> Part:
    return solve(read_part_text(DATA.read_text("utf-8"), name=DATA.name))


def test_a_slant_has_its_angle_and_its_name_on_the_drawing() -> None:
    notes = {(one.label.main, one.label.note) for one in drawn_notes(click())}

    assert {("15°", "nose"), ("20°", "rear")} <= notes


@pytest.mark.derived(by="the part file: 4 deep, 14 right of the pivot, which most is drawn from")
def test_a_slot_has_its_depth_and_in_brackets_where_its_middle_lies() -> None:
    sizes = {(one.label.main, one.a.name) for one in cutout_sizes(click())}

    assert sizes == {("4", "top"), ("(14)", "pivot")}
