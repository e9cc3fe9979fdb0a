import math

import pytest

from halfthou.drawing.geometry import Box, Cylinder, Tube
from halfthou.shapes.flat import Area, Segment2
from halfthou.shapes.section import axial_section, behind_plane, hatch, section
from halfthou.shapes.solids import Solid, bounding_box, common, cut, solid_of, volume
from halfthou.shapes.views import seen_from


@pytest.fixture
def bush() -> Solid:
    """Return a plain bush, 20 outside, 12 bore, 50 long."""
    return solid_of(Tube(start=(0.0, 0.0, 0.0), end=(50.0, 0.0, 0.0), inside=12.0, outside=20.0))


@pytest.mark.derived(by="hand arithmetic")
def test_a_bush_cut_along_its_axis_is_two_strips(bush: Solid) -> None:
    areas = axial_section(bush)

    assert [area.size for area in areas] == pytest.approx([200.0, 200.0], rel=1e-9)
    assert all(area.holes == () for area in areas)
    assert {round(area.extent.low[1]) for area in areas} == {-10, 6}


@pytest.mark.derived(by="hand arithmetic")
@pytest.mark.parametrize(("half", "low", "high"), [("upper", 6.0, 10.0), ("lower", -10.0, -6.0)])
def test_half_a_section_stops_at_the_axis(bush: Solid, half: str, low: float, high: float) -> None:
    (area,) = axial_section(bush, half="upper" if half == "upper" else "lower")

    assert area.extent.low == pytest.approx((0.0, low), abs=1e-9)
    assert area.extent.high == pytest.approx((50.0, high), abs=1e-9)


@pytest.mark.derived(by="hand arithmetic")
def test_a_solid_bar_is_halved_at_its_axis() -> None:
    bar = solid_of(Cylinder(start=(0.0, 0.0, 0.0), end=(50.0, 0.0, 0.0), diameter=20.0))

    (area,) = axial_section(bar, half="upper")

    assert area.size == pytest.approx(500.0, rel=1e-9)


@pytest.mark.derived(by="area of a ring")
def test_a_bush_cut_across_is_a_ring_with_one_hole(bush: Solid) -> None:
    (area,) = section(bush, origin=(20.0, 0.0, 0.0), normal=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0))

    assert area.size == pytest.approx(math.pi * (100 - 36), rel=1e-9)
    assert len(area.holes) == 1
    assert _shoelace(area) == pytest.approx(area.size, rel=2e-3)  # arcs drawn as chords


def test_a_plane_that_misses_the_metal_cuts_nothing(bush: Solid) -> None:
    areas = section(bush, origin=(60.0, 0.0, 0.0), normal=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0))

    assert areas == ()


@pytest.mark.derived(by="symmetry")
@pytest.mark.parametrize("normal", [(0.0, 0.0, 1.0), (0.0, 1.0, 0.0), (0.0, -3.0, 4.0)])
def test_half_the_bush_lies_behind_a_plane_through_its_axis(
    bush: Solid, normal: tuple[float, float, float]
) -> None:
    rest = behind_plane(bush, origin=(0.0, 0.0, 0.0), normal=normal)

    assert volume(rest) == pytest.approx(volume(bush) / 2, rel=1e-9)


@pytest.mark.derived(by="counting lines on paper")
def test_a_full_section_is_the_view_of_what_lies_behind_the_plane(bush: Solid) -> None:
    rest = behind_plane(bush, origin=(0.0, 0.0, 0.0), normal=(0.0, 0.0, 1.0))

    view = seen_from(rest, "front")

    assert bounding_box(rest).high[2] == pytest.approx(0.0, abs=1e-6)
    assert len(view.visible) == 6
    assert view.hidden == ()


@pytest.mark.derived(by="hand arithmetic")
def test_level_hatching_of_a_square_is_one_line_a_pitch() -> None:
    square = _square((0.5, 0.5), 10.0)

    lines = hatch([square], angle=0.0, pitch=2.0)

    assert [line[0][1] for line in lines] == pytest.approx([2, 4, 6, 8, 10])
    assert all(_length(line) == pytest.approx(10.0) for line in lines)


@pytest.mark.parametrize("angle", [0.0, 30.0, 45.0, -45.0, 90.0, 135.0])
def test_hatching_stays_in_the_metal(bush: Solid, angle: float) -> None:
    slotted = cut(bush, [solid_of(Box(low=(-1.0, -1.0, -11.0), high=(51.0, 1.0, 0.0)))])
    areas = section(slotted, origin=(20.0, 0.0, 0.0), normal=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0))

    lines = hatch(areas, angle=math.radians(angle), pitch=1.5)

    assert len(lines) > 10
    for (ax, ay), (bx, by) in lines:
        for part in (0.0, 0.25, 0.5, 0.75, 1.0):
            radius = math.hypot(ax + part * (bx - ax), ay + part * (by - ay))
            assert 6 - 0.01 <= radius <= 10 + 0.01


@pytest.mark.derived(by="area over pitch")
def test_the_length_of_hatching_is_area_over_pitch(bush: Solid) -> None:
    areas = section(bush, origin=(20.0, 0.0, 0.0), normal=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0))

    total = sum(_length(line) for line in hatch(areas, angle=0.7, pitch=0.05))

    assert total * 0.05 == pytest.approx(areas[0].size, rel=0.005)


def test_hatching_of_two_areas_lines_up() -> None:
    left, right = _square((0.0, 0.0), 4.0), _square((7.0, 0.0), 4.0)

    both = hatch([left, right], angle=0.0, pitch=1.5)

    assert {round(a[1], 9) for a, _ in hatch([left], angle=0.0, pitch=1.5)} == {
        round(a[1], 9) for a, _ in both
    }


def test_what_a_cut_took_and_left_share_their_section(bush: Solid) -> None:
    tool = solid_of(Box(low=(30.0, -20.0, -20.0), high=(60.0, 20.0, 20.0)))

    whole, left, took = (
        sum(area.size for area in axial_section(solid))
        for solid in (bush, cut(bush, [tool]), common(bush, tool))
    )

    assert left + took == pytest.approx(whole, rel=1e-9)


def _square(low: tuple[float, float], side: float) -> Area:
    x, y = low
    corners = ((x, y), (x + side, y), (x + side, y + side), (x, y + side))
    return Area(outer=corners, holes=(), size=side * side)


def _length(line: Segment2) -> float:
    return math.dist(*line)


def _shoelace(area: Area) -> float:
    def loop(points: tuple[tuple[float, float], ...]) -> float:
        turned = (*points[1:], points[0])
        return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, turned, strict=True)) / 2)

    return loop(area.outer) - sum(loop(hole) for hole in area.holes)
