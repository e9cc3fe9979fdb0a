import pytest

from halfthou.drawing.geometry import Box, Cylinder, Tube
from halfthou.shapes.centres import centre_lines
from halfthou.shapes.solids import cut, solid_of
from halfthou.shapes.views import SIDES


@pytest.mark.derived(by="geometry")
def test_a_stepped_shaft_has_one_centre_line_from_end_to_end() -> None:
    bar = solid_of(Cylinder(start=(0.0, 0.0, 0.0), end=(90.0, 0.0, 0.0), diameter=25.0))
    ring = Tube(start=(50.0, 0.0, 0.0), end=(90.0, 0.0, 0.0), inside=18.0, outside=25.0)
    direction, up = SIDES["front"]

    (line,) = centre_lines(cut(bar, [solid_of(ring)]), direction=direction, up=up, beyond=3.0)

    assert sorted(line) == [pytest.approx((-3.0, 0.0)), pytest.approx((93.0, 0.0))]


@pytest.mark.derived(by="geometry")
def test_a_hole_seen_end_on_has_a_cross_and_from_the_side_a_line() -> None:
    block = solid_of(Box(low=(0.0, 0.0, 0.0), high=(40.0, 30.0, 10.0)))
    hole = solid_of(Cylinder(start=(20.0, 15.0, -1.0), end=(20.0, 15.0, 11.0), diameter=8.0))
    drilled = cut(block, [hole])

    front, top = (
        centre_lines(drilled, direction=SIDES[side][0], up=SIDES[side][1], beyond=2.0)
        for side in ("front", "top")
    )

    assert sorted(sorted(line) for line in front) == [
        [pytest.approx((14.0, 15.0)), pytest.approx((26.0, 15.0))],
        [pytest.approx((20.0, 9.0)), pytest.approx((20.0, 21.0))],
    ]
    assert sorted(sorted(line) for line in top) == [
        [pytest.approx((20.0, -12.0)), pytest.approx((20.0, 2.0))]
    ]


def test_a_plain_block_has_no_centre_lines() -> None:
    block = solid_of(Box(low=(0.0, 0.0, 0.0), high=(40.0, 30.0, 10.0)))

    assert centre_lines(block, direction=(0.0, 0.0, 1.0), up=(0.0, 1.0, 0.0), beyond=2.0) == ()
