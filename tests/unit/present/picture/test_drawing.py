"""A part's own drawing."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path as FilePath

import pytest

from halfthou.drawing.model import Finding, Part
from halfthou.present.picture.drawing import part_drawing, part_sheet
from halfthou.present.picture.placing import clashes
from halfthou.present.picture.sheet import Disc, Sheet, Words, box_of
from halfthou.shapes.solids import Solid, cut, solid_of
from halfthou.store.part_file import read_part

ARBOR = """
[part]
name = "winding arbor"
material = "EN8"
units = "in"
otherwise = "fractions ±1/64, decimals ±0.005"

[blank]
bar = "round 1 1/4 in x 7 3/4"

[round.journal]
diameter = "3/4 f7"
long = "1 1/2"

[round.collar]
diameter = "1 1/8"
long = "1/4"

[round.end]
thread = "1/2 BSF"
at = "right: 3 right of left"

[chamfer.ends]
on = "left, right"
size = "1/32 x 45°"
"""

PLATE = """
[part]
name = "flange plate"
material = "aluminium 6082"
units = "mm"
otherwise = "ISO 2768-mK"

[blank]
plate = "12 x 110 x 90"

[block.plate]
wide = "100"
high = "80"
thick = "10"

[hole.spigot]
in = "front"
size = ["40 H7 x 4", "25 through"]
at = ["centred left to right", "centred bottom to top"]

[hole.ring]
in = "front"
size = "5.5 through"
at = "level with spigot"
copies = "6 on 56 circle, first at top"
"""


@pytest.fixture
def folder(tmp_path: FilePath) -> FilePath:
    return tmp_path


def made(folder: FilePath, text: str) -> tuple[Part, Solid]:
    path = folder / "part.toml"
    path.write_text(text, encoding="utf-8")
    part = read_part(path)
    return part, cut(solid_of(part.metal), [solid_of(region) for region in part.removed])


def texts(sheet: Sheet) -> list[str]:
    return [mark.text for mark in sheet.marks if isinstance(mark, Words)]


def test_a_turned_part_shows_every_drawn_size_in_the_files_own_words(folder: FilePath) -> None:
    sheet = part_sheet(*made(folder, ARBOR))

    wanted = {"Ø3/4 f7", "Ø1 1/8", "1/2 BSF", "1 1/2", "1/4", "3", "1/32 × 45°"}
    assert wanted <= set(texts(sheet))
    assert clashes(sheet) == ()


@pytest.mark.parametrize("angle", ["first", "third"])
def test_a_milled_part_is_drawn_in_three_views_without_a_clash(
    folder: FilePath, angle: str
) -> None:
    sheet = part_sheet(*made(folder, PLATE), angle=angle)  # type: ignore[arg-type]

    assert {"100", "80", "10", "Ø40 H7", "Ø25", "6 × Ø5.5 on Ø56"} <= set(texts(sheet))
    assert clashes(sheet) == ()


def test_what_the_check_noticed_is_ringed_and_numbered(folder: FilePath) -> None:
    part, solid = made(folder, PLATE)
    finding = Finding(
        what="nothing locates relief",
        feature="relief",
        why="",
        tries=(),
        grave=True,
        at=(80.0, 10.0, 10.0),
    )
    sheet = part_sheet(replace(part, findings=(finding,)), solid)
    rings = [mark for mark in sheet.marks if mark.style == "finding"]

    assert len(rings) == 1
    assert isinstance(rings[0], Disc)
    assert "1" in texts(sheet)
    assert "nothing locates relief" in sheet.description


def test_first_angle_puts_the_top_view_below_and_third_angle_above(folder: FilePath) -> None:
    part, solid = made(folder, PLATE)

    def height_of_circles(angle: str) -> float:
        sheet = part_sheet(part, solid, angle=angle)  # type: ignore[arg-type]
        spot = next(m for m in sheet.marks if isinstance(m, Words) and m.text == "6 × Ø5.5 on Ø56")
        return box_of((spot,)).middle[1] / sheet.height

    assert height_of_circles("first") < height_of_circles("third")


def test_a_drawing_says_its_units_general_tolerance_and_scale(folder: FilePath) -> None:
    assert "sizes in mm · otherwise ISO 2768-mK · scale 1:1" in part_drawing(*made(folder, PLATE))
