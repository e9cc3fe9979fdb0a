"""The sheet: paper boxes of what stands on it, scales, the SVG it is written as."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from halfthou.present.picture.lettering import width_of
from halfthou.present.picture.sheet import (
    Box,
    Disc,
    Path,
    Shade,
    Sheet,
    Words,
    box_of,
    box_of_words,
    preferred_scale,
    scale_words,
    shifted,
    svg,
)

SVG = "{http://www.w3.org/2000/svg}"


def sheet() -> Sheet:
    marks = (
        Path(lines=(((0.0, 0.0), (10.0, 0.0)),), style="outline"),
        Disc(centre=(5.0, 5.0), radius=2.0, style="balloon"),
        Words(at=(2.0, 8.0), text="Ø20 <H7> & more", style="dimension words", turned=True),
        Shade(png=b"\x89PNG", box=Box(left=0, top=0, right=4, bottom=3)),
    )
    return Sheet(width=40, height=30, title="bush & arbor", description="as <it> is", marks=marks)


def test_a_sheet_is_written_as_well_formed_svg_at_its_real_size() -> None:
    root = ET.fromstring(svg(sheet()))  # noqa: S314

    assert (root.get("width"), root.get("height")) == ("40mm", "30mm")
    assert root.get("viewBox") == "0 0 40 30"
    assert root.findtext(f"{SVG}title") == "bush & arbor"
    assert root.findtext(f"{SVG}desc") == "as <it> is"


def test_text_stays_text_and_can_be_selected() -> None:
    root = ET.fromstring(svg(sheet()))  # noqa: S314

    assert [text.text for text in root.iter(f"{SVG}text")] == ["Ø20 <H7> & more"]


def test_colours_stand_in_attributes_because_the_pages_allow_no_style_in_line() -> None:
    text = svg(sheet())

    assert "<style" not in text
    assert "style=" not in text
    assert "<script" not in text


def test_the_same_sheet_is_written_to_the_same_bytes() -> None:
    assert svg(sheet()) == svg(sheet())


def test_turned_words_cover_paper_upward_from_where_they_start() -> None:
    level = box_of_words(Words(at=(10.0, 20.0), text="Ø24", size=3.5))
    turned = box_of_words(Words(at=(10.0, 20.0), text="Ø24", size=3.5, turned=True))

    assert turned.bottom == pytest.approx(20.0)
    assert turned.height == pytest.approx(level.width)
    assert turned.left == pytest.approx(10.0 - (20.0 - level.top))


@pytest.mark.derived(by="advance widths read with another program from the type's own file")
def test_a_line_of_words_is_as_long_as_its_letters() -> None:
    assert width_of("Ø20", size=1000.0) == pytest.approx(692 + 495 + 558)


def test_middle_and_end_anchors_hang_the_words_left_of_their_point() -> None:
    middle = box_of_words(Words(at=(0.0, 0.0), text="46", anchor="middle"))
    end = box_of_words(Words(at=(0.0, 0.0), text="46", anchor="end"))

    assert middle.left == pytest.approx(-middle.right)
    assert end.right == pytest.approx(0.0)


def test_marks_moved_over_the_paper_keep_their_size() -> None:
    before = box_of(sheet().marks)
    after = box_of(shifted(sheet().marks, (3.0, -2.0)))

    assert after.left == pytest.approx(before.left + 3.0)
    assert after.top == pytest.approx(before.top - 2.0)
    assert after.width == pytest.approx(before.width)


def test_nothing_covers_no_paper() -> None:
    assert box_of(()).width == 0.0


def test_the_scale_is_the_largest_preferred_one_that_goes_in() -> None:
    assert preferred_scale(size=(24.0, 24.0), room=(80.0, 61.0)) == 2.5
    assert preferred_scale(size=(300.0, 20.0), room=(100.0, 100.0)) == 0.25
    assert preferred_scale(size=(3000.0, 20.0), room=(100.0, 100.0)) == pytest.approx(1 / 30)


def test_scales_are_written_as_drawings_write_them() -> None:
    assert [scale_words(scale) for scale in (5.0, 1.0, 0.5)] == ["5:1", "1:1", "1:2"]
