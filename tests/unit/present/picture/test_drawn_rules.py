"""Rules of the finished drawing: what is shown in brackets, how holes are named, which angle."""

from __future__ import annotations

import pytest

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.present.drawing_sheet import SheetRow, drawing_rows
from halfthou.present.picture.drawing import part_sheet
from halfthou.present.picture.drawn_sizes import drawn_distances, overall
from halfthou.present.picture.placing import clashes
from halfthou.present.picture.projection_mark import projection_mark
from halfthou.present.picture.sheet import Disc, Path, Sheet, Words
from halfthou.shapes.finished import finished
from halfthou.store.part_file import read_part_text

PLATE = """
[part]
name = "click plate"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"

[blank]
plate = "12 x 70 x 50"

[block.plate]
wide = "60"
high = "40"
thick = "10"

[hole.pivot]
in = "front"
size = "6 H7 through"
at = ["37 right of left", "20 above bottom", "(23) left of right"]
"""
BUSH = """
[part]
name = "depthing bush"
material = "phosphor bronze"
units = "mm"
otherwise = "ISO 2768-mK"

[blank]
bar = "round 22 x 60"

[round.flange]
diameter = "20"
long = "6"

[round.body]
diameter = "14 h6"
long = "12"

[hole.bore]
in = "right"
size = "6 H7 through"
at = "0.8 ±0.02 off outside"

[hole.grub]
in = "flange front"
size = "6 BA to bore"
at = "3 right of left"
"""


def part_of(text: str) -> Part:
    return solve(read_part_text(text, name="part.toml"))


def texts(sheet: Sheet) -> list[str]:
    return [mark.text for mark in sheet.marks if isinstance(mark, Words)]


def test_a_dimension_in_brackets_stands_on_the_finished_drawing_in_brackets() -> None:
    part = part_of(PLATE)
    sheet = part_sheet(part, finished(part))
    shown = next(m for m in sheet.marks if isinstance(m, Words) and m.text == "(23)")

    assert shown.weight == "regular"
    assert clashes(sheet) == ()


def test_a_dimension_in_brackets_is_never_worked_to() -> None:
    part = part_of(PLATE)

    assert [one.band.nominal for one in part.reference] == [23.0]
    assert "(23)" not in [one.band.text for one in part.distances]
    assert part.findings == ()


def test_a_length_in_brackets_stands_on_a_turned_drawing_too() -> None:
    part = part_of(BUSH.replace('long = "12"', 'long = "(12)"\nat = "right: 18 right of left"'))

    assert "(12)" in texts(part_sheet(part, finished(part)))


def test_the_sheet_says_that_a_dimension_in_brackets_follows_and_allows_nothing() -> None:
    rows = [row for group in drawing_rows(part_of(PLATE)) for row in group.rows]

    assert (
        SheetRow(
            what="at", drawn="(23) left of right", allows="", origin="follows from the others"
        )
        in rows
    )


@pytest.mark.derived(by="a flange 6 and a body 12 long: 18 over all")
def test_the_length_over_all_stands_in_brackets_where_it_follows_from_the_others() -> None:
    part = part_of(BUSH)
    lengths = [one for one in drawn_distances(part) if one.axis == 0]

    assert [one.label.main for one in overall(part, lengths)] == ["(18)"]


def test_no_length_over_all_is_added_to_one_that_is_drawn() -> None:
    part = part_of(BUSH)
    lengths = [one for one in drawn_distances(part) if one.axis == 0]
    whole = overall(part, lengths)[0]

    assert overall(part, [*lengths, whole]) == ()
    assert overall(part, lengths[:1]) == ()


def test_a_hole_across_turned_work_is_named_where_its_mouth_is_and_not_as_a_ring() -> None:
    part = part_of(BUSH)
    sheet = part_sheet(part, finished(part))

    assert texts(sheet).count("6 BA") == 1
    assert clashes(sheet) == ()


def test_how_far_a_bore_lies_off_the_axis_is_dimensioned_in_the_end_view() -> None:
    part = part_of(BUSH)

    assert "0.8 ±0.02" in texts(part_sheet(part, finished(part)))


@pytest.mark.published(source="ISO 5456-2: symbols of first and third angle projection")
@pytest.mark.parametrize("angle", ["first", "third"])
def test_the_small_end_of_the_cone_faces_the_eye_and_its_view_lies_as_the_angle_says(
    angle: str,
) -> None:
    marks = projection_mark(at=(0.0, 0.0), angle=angle)  # type: ignore[arg-type]
    cone = next(mark for mark in marks if isinstance(mark, Path) and mark.closed)
    rings = [mark for mark in marks if isinstance(mark, Disc)]
    xs = [x for x, _ in cone.lines[0]]
    heights = {x: max(abs(y) for at, y in cone.lines[0] if at == x) for x in xs}

    assert heights[min(xs)] < heights[max(xs)]
    assert all((ring.centre[0] > max(xs)) == (angle == "first") for ring in rings)


def test_a_drawing_is_in_first_angle_unless_told() -> None:
    part = part_of(PLATE)
    solid = finished(part)

    assert part_sheet(part, solid) == part_sheet(part, solid, angle="first")
    assert part_sheet(part, solid) != part_sheet(part, solid, angle="third")
