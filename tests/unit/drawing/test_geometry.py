import math
from collections.abc import Callable

import pytest

from halfthou.drawing.geometry import (
    Box,
    Cone,
    Cylinder,
    Obround,
    Prism,
    Region,
    TaperTube,
    Tube,
    hexagon_bar,
    square_bar,
)
from halfthou.errors import HalfthouError

O = (0.0, 0.0, 0.0)  # noqa: E741  (the frame's origin)
X = (1.0, 0.0, 0.0)
Y = (0.0, 1.0, 0.0)
Z = (0.0, 0.0, 1.0)


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: Cylinder(start=O, end=O, diameter=1.0), "no length"),
        (lambda: Cylinder(start=O, end=X, diameter=0.0), "diameter 0.0 mm"),
        (lambda: Cone(start=O, end=X, start_diameter=0.0, end_diameter=0.0), "end diameters"),
        (lambda: Box(low=O, high=X), "no room inside"),
        (lambda: Obround(start=O, end=X, width=1.0, direction=X, depth=1.0), "not square"),
        (lambda: Obround(start=O, end=X, width=0.0, direction=Z, depth=1.0), "0.0 mm wide"),
        (lambda: Prism(outline=(O, X), along=Z), "2 corners"),
        (lambda: Prism(outline=(O, X, Y), along=X), "no room inside"),
        (lambda: Prism(outline=(O, X, (1.0, 1.0, 0.1), Y), along=Z), "not flat"),
        (lambda: Tube(start=O, end=X, inside=2.0, outside=2.0), "2.0 mm inside"),
        (
            lambda: TaperTube(start=O, end=X, start_inside=1.0, end_inside=3.0, outside=2.0),
            "1.0 to 3.0 mm inside",
        ),
    ],
)
def test_a_region_with_no_room_in_it_is_refused_with_its_reason(
    make: Callable[[], Region], said: str
) -> None:
    with pytest.raises(HalfthouError, match=said) as caught:
        make()

    assert caught.value.why
    assert caught.value.tries


@pytest.mark.derived(by="geometry")
def test_a_hexagon_bar_has_a_flat_on_top_and_corners_at_the_sides() -> None:
    bar = hexagon_bar(across_flats=20.0, start=O, end=(50.0, 0.0, 0.0))

    assert max(y for _, y, _ in bar.outline) == pytest.approx(10.0)
    assert max(z for _, _, z in bar.outline) == pytest.approx(20 / math.sqrt(3))
    assert all(x == 0 for x, _, _ in bar.outline)
    assert bar.along == (50.0, 0.0, 0.0)


@pytest.mark.derived(by="geometry")
@pytest.mark.parametrize("end", [X, Y, Z, (-3.0, 0.0, 4.0)])
def test_a_square_bar_has_the_area_of_its_section_whichever_way_it_lies(
    end: tuple[float, float, float],
) -> None:
    bar = square_bar(across_flats=6.0, start=O, end=end)

    assert math.hypot(*bar.normal) / 2 == pytest.approx(36.0)
