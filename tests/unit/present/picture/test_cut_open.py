"""A cutting line with a corner in it shows two half views side by side."""

from __future__ import annotations

from halfthou.present.picture.cut_open import CutOpen, half_lines, half_loop, turned_corner
from halfthou.shapes.flat import Area, extent_of

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (0.0, 4.0))


def view(high: float) -> CutOpen:
    loop = tuple((x, y * high) for x, y in SQUARE)
    area = Area(outer=loop, holes=(), size=40.0 * high)
    return CutOpen(lines=((*loop, loop[0]),), filled=(loop,), cut=(area,), off=())


def test_half_a_closed_line_ends_on_the_upright() -> None:
    extent = extent_of([half_loop(SQUARE, 6.0, -1.0)])

    assert (extent.low, extent.high) == ((0.0, 0.0), (6.0, 4.0))


def test_nothing_is_left_of_a_line_on_the_other_side() -> None:
    assert half_loop(SQUARE, 12.0, 1.0) == ()
    assert half_lines([SQUARE], 12.0, 1.0) == ()


def test_each_half_comes_from_its_own_view_and_they_meet_where_the_line_turns() -> None:
    joined = turned_corner(view(1.0), view(2.0), left_at=3.0, right_at=5.0)
    extents = [extent_of([area.outer]) for area in joined.cut]

    assert (extents[0].low[0], extents[0].high) == (2.0, (5.0, 4.0))
    assert (extents[1].low[0], extents[1].high) == (5.0, (10.0, 8.0))
