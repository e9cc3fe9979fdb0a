import time

import pytest

from halfthou.drawing.geometry import Box, Cylinder, Obround
from halfthou.shapes.flat import View
from halfthou.shapes.solids import Solid, cut, fuse, solid_of
from halfthou.shapes.views import SIDES, Side, paper_axes, project, seen_from

LINE_WIDTH = 0.05  # the eye's tilt moves lines by less than this on parts of this size


def _extent(view: View) -> tuple[float, float, float, float]:
    return (*view.extent.low, *view.extent.high)


@pytest.fixture
def block() -> Solid:
    """Return a block 100 x 60 x 20 with a bore through its front, one across it, and a slot."""
    return cut(
        solid_of(Box(low=(0.0, 0.0, 0.0), high=(100.0, 60.0, 20.0))),
        [
            solid_of(Cylinder(start=(50.0, 30.0, -1.0), end=(50.0, 30.0, 21.0), diameter=16.0)),
            solid_of(Cylinder(start=(50.0, -1.0, 10.0), end=(50.0, 61.0, 10.0), diameter=8.0)),
            solid_of(
                Obround(
                    start=(20.0, 20.0, 20.0),
                    end=(20.0, 40.0, 20.0),
                    width=10.0,
                    direction=(0.0, 0.0, -1.0),
                    depth=5.0,
                )
            ),
        ],
    )


@pytest.mark.derived(by="geometry")
@pytest.mark.parametrize(
    ("side", "extent"),
    [
        ("front", (0.0, 0.0, 100.0, 60.0)),
        ("back", (-100.0, 0.0, 0.0, 60.0)),
        ("left", (0.0, 0.0, 20.0, 60.0)),
        ("right", (-20.0, 0.0, 0.0, 60.0)),
        ("top", (0.0, -20.0, 100.0, 0.0)),
        ("bottom", (0.0, 0.0, 100.0, 20.0)),
    ],
)
def test_a_plain_block_is_four_lines_from_every_side(
    side: Side, extent: tuple[float, float, float, float]
) -> None:
    view = seen_from(solid_of(Box(low=(0.0, 0.0, 0.0), high=(100.0, 60.0, 20.0))), side)

    assert [len(line) for line in view.visible] == [2, 2, 2, 2]
    assert view.hidden == ()
    assert _extent(view) == pytest.approx(extent, abs=LINE_WIDTH)


@pytest.mark.derived(by="geometry")
def test_a_bar_is_a_rectangle_from_the_front_and_a_circle_from_its_end() -> None:
    bar = solid_of(Cylinder(start=(0.0, 0.0, 0.0), end=(50.0, 0.0, 0.0), diameter=20.0))
    front, end = seen_from(bar, "front"), seen_from(bar, "right")

    assert [len(line) for line in front.visible] == [2, 2, 2, 2]
    assert front.hidden == ()
    assert _extent(front) == pytest.approx((0.0, -10.0, 50.0, 10.0), abs=LINE_WIDTH)
    (circle,) = end.visible
    assert circle[0] == circle[-1]
    assert [x * x + y * y for x, y in circle] == pytest.approx([100.0] * len(circle), abs=0.5)
    assert end.hidden == ()


@pytest.mark.derived(by="counting lines on paper")
def test_a_bore_across_shows_as_two_dashed_lines_broken_by_the_bore_it_meets(
    block: Solid,
) -> None:
    view = seen_from(block, "front")
    upright = [line for line in view.hidden if abs(line[0][0] - line[-1][0]) < LINE_WIDTH]

    assert sorted(round(line[0][0]) for line in upright) == [46, 46, 54, 54]


def test_the_slot_is_seen_from_the_front_and_hidden_from_the_back(block: Solid) -> None:
    def goes_round(lines: tuple[tuple[tuple[float, float], ...], ...]) -> bool:
        return any(
            len(line) > 2 and min(abs(x) for x, _ in line) == pytest.approx(15, abs=LINE_WIDTH)
            for line in lines
        )

    assert goes_round(seen_from(block, "front").visible)
    assert not goes_round(seen_from(block, "back").visible)
    assert goes_round(seen_from(block, "back").hidden)


def test_where_a_flat_runs_into_a_curve_no_line_is_drawn() -> None:
    boss = fuse(
        [
            solid_of(Cylinder(start=(0.0, 20.0, 0.0), end=(0.0, 20.0, 30.0), diameter=40.0)),
            solid_of(Box(low=(-20.0, 0.0, 0.0), high=(20.0, 20.0, 30.0))),
        ]
    )

    view = seen_from(boss, "left")

    assert len(view.visible) == 4
    assert _extent(view) == pytest.approx((0.0, 0.0, 30.0, 40.0), abs=LINE_WIDTH)


def test_holes_that_meet_edge_on_do_not_hold_the_work_up(block: Solid) -> None:
    began = time.perf_counter()
    for side in SIDES:
        seen_from(block, side)

    assert time.perf_counter() - began < 5  # 0.15 s here; untilted views have taken 20 s each


def test_an_eye_may_look_from_any_direction() -> None:
    cube = solid_of(Box(low=(0.0, 0.0, 0.0), high=(10.0, 10.0, 10.0)))

    view = project(cube, direction=(1.0, 1.0, 1.0), up=(0.0, 1.0, 0.0))

    assert len(view.visible) == 9
    assert len(view.hidden) == 3
    assert view.extent.height == pytest.approx(10 * (2 / 3) ** 0.5 * 2, abs=LINE_WIDTH)


@pytest.mark.parametrize("side", list(SIDES))
def test_right_up_and_the_eye_make_a_right_handed_frame(side: Side) -> None:
    right, up, toward = paper_axes(*SIDES[side])

    assert toward == pytest.approx(
        (
            right[1] * up[2] - right[2] * up[1],
            right[2] * up[0] - right[0] * up[2],
            right[0] * up[1] - right[1] * up[0],
        )
    )
