"""Directions and extents."""

from __future__ import annotations

import pytest

from halfthou.drawing.geometry import Box, Cone, Cylinder, Obround, Prism, Region, TaperTube, Tube
from halfthou.planning.axes import (
    Extents,
    extents_of,
    extents_of_all,
    opposite,
    other_side,
    side_toward,
)

UP = (0.0, 1.0, 0.0)
A, B = (0.0, 0.0, 0.0), (10.0, 0.0, 0.0)


@pytest.mark.derived(by="hand arithmetic")
@pytest.mark.parametrize(
    ("region", "low", "high"),
    [
        (Box(low=A, high=(1.0, 2.0, 3.0)), A, (1.0, 2.0, 3.0)),
        (Cylinder(start=A, end=B, diameter=4.0), (0.0, -2.0, -2.0), (10.0, 2.0, 2.0)),
        (
            Cone(start=A, end=B, start_diameter=4.0, end_diameter=0.0),
            (0.0, -2.0, -2.0),
            (10.0, 2.0, 2.0),
        ),
        (Tube(start=A, end=B, inside=2.0, outside=6.0), (0.0, -3.0, -3.0), (10.0, 3.0, 3.0)),
        (
            TaperTube(start=A, end=B, start_inside=2.0, end_inside=4.0, outside=6.0),
            (0.0, -3.0, -3.0),
            (10.0, 3.0, 3.0),
        ),
        (
            Obround(start=A, end=B, width=4.0, direction=(0.0, -1.0, 0.0), depth=3.0),
            (-2.0, -3.0, -2.0),
            (12.0, 0.0, 2.0),
        ),
        (
            Prism(outline=(A, B, (10.0, 5.0, 0.0)), along=(0.0, 0.0, 7.0)),
            A,
            (10.0, 5.0, 7.0),
        ),
    ],
)
def test_a_region_reaches_as_far_as_its_box(
    region: Region, low: tuple[float, ...], high: tuple[float, ...]
) -> None:
    found = extents_of(region)

    assert found.low == pytest.approx(low)
    assert found.high == pytest.approx(high)


def test_several_regions_reach_as_far_as_the_farthest() -> None:
    found = extents_of_all(
        (Box(low=A, high=(1.0, 1.0, 1.0)), Cylinder(start=A, end=B, diameter=2))
    )

    assert found == Extents(low=(0.0, -1.0, -1.0), high=(10.0, 1.0, 1.0))
    assert extents_of_all(()) is None


def test_readings_run_along_the_direction_asked_for() -> None:
    box = Extents(low=(0.0, 1.0, 0.0), high=(1.0, 5.0, 1.0))

    assert box.least(UP) == 1.0
    assert box.most(UP) == 5.0
    assert box.least(opposite(UP)) == -5.0
    assert box.length(opposite(UP)) == 4.0
    assert box.middle == (0.5, 3.0, 0.5)


def test_sides_know_their_opposites() -> None:
    assert side_toward((0.0, 0.0, -0.9)) == "back"
    assert other_side("left") == "right"
