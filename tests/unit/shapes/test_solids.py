import math

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
from halfthou.shapes.solids import (
    bounding_box,
    centre_of_mass,
    common,
    cut,
    distance,
    fuse,
    is_empty,
    is_valid,
    mass,
    pieces,
    solid_of,
    together,
    volume,
)

CLOSE = 1e-9  # the kernel integrates exactly; the rest is rounding
ORIGIN = (0.0, 0.0, 0.0)

VOLUMES: list[tuple[Region, float]] = [
    (Cylinder(start=ORIGIN, end=(30.0, 0.0, 0.0), diameter=10.0), math.pi * 25 * 30),
    (Cylinder(start=ORIGIN, end=(3.0, 4.0, 12.0), diameter=2.0), math.pi * 13),
    (
        Cone(start=ORIGIN, end=(0.0, 0.0, -9.0), start_diameter=10.0, end_diameter=0.0),
        math.pi * 25 * 9 / 3,
    ),
    (
        Cone(start=ORIGIN, end=(9.0, 0.0, 0.0), start_diameter=10.0, end_diameter=4.0),
        math.pi * 9 / 3 * (25 + 10 + 4),
    ),
    (
        Cone(start=ORIGIN, end=(9.0, 0.0, 0.0), start_diameter=10.0, end_diameter=10.0),
        math.pi * 25 * 9,
    ),
    (Box(low=(1.0, 2.0, 3.0), high=(2.0, 4.0, 6.0)), 6.0),
    (
        Obround(
            start=ORIGIN, end=(20.0, 0.0, 0.0), width=5.0, direction=(0.0, 0.0, -2.0), depth=3.0
        ),
        (20 * 5 + math.pi * 6.25) * 3,
    ),
    (
        Obround(start=ORIGIN, end=ORIGIN, width=5.0, direction=(0.0, 0.0, -1.0), depth=3.0),
        math.pi * 6.25 * 3,
    ),
    (
        Prism(
            outline=(ORIGIN, (10.0, 0.0, 0.0), (10.0, 5.0, 0.0), (0.0, 3.0, 0.0)),
            along=(0.0, 0.0, -4.0),
        ),
        160.0,
    ),
    (
        hexagon_bar(across_flats=20.0, start=ORIGIN, end=(50.0, 0.0, 0.0)),
        math.sqrt(3) / 2 * 400 * 50,
    ),
    (square_bar(across_flats=20.0, start=ORIGIN, end=(0.0, 50.0, 0.0)), 20_000.0),
    (
        Tube(start=ORIGIN, end=(30.0, 0.0, 0.0), inside=10.0, outside=20.0),
        math.pi * (100 - 25) * 30,
    ),
    (
        TaperTube(
            start=ORIGIN, end=(3.0, 0.0, 0.0), start_inside=20.0, end_inside=14.0, outside=20.0
        ),
        math.pi * (100 * 3 - 3 / 3 * (100 + 70 + 49)),
    ),
]


@pytest.mark.derived(by="hand formulas for each body")
@pytest.mark.parametrize(("region", "expected"), VOLUMES, ids=lambda value: type(value).__name__)
def test_a_region_filled_with_metal_has_the_volume_of_its_formula(
    region: Region, expected: float
) -> None:
    solid = solid_of(region)

    assert volume(solid) == pytest.approx(expected, rel=CLOSE)
    assert is_valid(solid)


@pytest.mark.derived(by="hand arithmetic")
def test_sixty_holes_drilled_in_one_go_take_sixty_cylinders_away() -> None:
    plate = solid_of(Box(low=ORIGIN, high=(100.0, 60.0, 20.0)))
    holes = [
        solid_of(
            Cylinder(
                start=(5.0 + 9 * i, 5.0 + 10 * j, -1.0),
                end=(5.0 + 9 * i, 5.0 + 10 * j, 21.0),
                diameter=6.0,
            )
        )
        for i in range(10)
        for j in range(6)
    ]

    drilled = cut(plate, holes)

    assert volume(drilled) == pytest.approx(120_000 - 60 * math.pi * 9 * 20, rel=CLOSE)
    assert is_valid(drilled)


@pytest.mark.derived(by="hand arithmetic")
def test_two_overlapping_blocks_share_and_join_as_sets_do() -> None:
    a = solid_of(Box(low=ORIGIN, high=(10.0, 10.0, 10.0)))
    b = solid_of(Box(low=(6.0, 0.0, 0.0), high=(16.0, 10.0, 10.0)))

    assert volume(common(a, b)) == pytest.approx(400, rel=CLOSE)
    assert volume(fuse([a, b])) == pytest.approx(1600, rel=CLOSE)
    assert volume(together([a, b])) == pytest.approx(2000, rel=CLOSE)


def test_a_set_of_regions_is_their_union() -> None:
    regions = (
        Cylinder(start=ORIGIN, end=(20.0, 0.0, 0.0), diameter=10.0),
        Cylinder(start=(10.0, 0.0, 0.0), end=(30.0, 0.0, 0.0), diameter=10.0),
    )

    assert volume(solid_of(regions)) == pytest.approx(math.pi * 25 * 30, rel=CLOSE)


@pytest.mark.derived(by="hand arithmetic")
def test_a_bar_sawn_through_is_two_lumps_largest_first() -> None:
    bar = solid_of(Cylinder(start=ORIGIN, end=(50.0, 0.0, 0.0), diameter=20.0))
    saw = solid_of(Box(low=(20.0, -20.0, -20.0), high=(22.0, 20.0, 20.0)))

    left = pieces(cut(bar, [saw]))

    assert [volume(lump) for lump in left] == pytest.approx(
        [math.pi * 100 * 28, math.pi * 100 * 20], rel=CLOSE
    )


def test_metal_cut_away_entirely_leaves_nothing() -> None:
    block = solid_of(Box(low=ORIGIN, high=(1.0, 1.0, 1.0)))
    larger = solid_of(Box(low=(-1.0, -1.0, -1.0), high=(2.0, 2.0, 2.0)))

    gone = cut(block, [larger])

    assert is_empty(gone)
    assert volume(gone) == 0
    assert is_empty(common(gone, block))
    assert distance(gone, block) == math.inf
    with pytest.raises(HalfthouError, match="nothing is left"):
        bounding_box(gone)


@pytest.mark.derived(by="geometry")
def test_the_box_round_a_slanting_bar_is_exact() -> None:
    bar = solid_of(Cylinder(start=ORIGIN, end=(30.0, 40.0, 0.0), diameter=10.0))

    box = bounding_box(bar)

    assert box.low == pytest.approx((-4.0, -3.0, -5.0), abs=1e-6)
    assert box.high == pytest.approx((34.0, 43.0, 5.0), abs=1e-6)
    assert box.middle == pytest.approx((15.0, 20.0, 0.0), abs=1e-6)
    assert centre_of_mass(bar) == pytest.approx((15.0, 20.0, 0.0), abs=1e-9)


@pytest.mark.derived(by="geometry")
def test_the_gap_between_cutter_and_work_is_the_shortest() -> None:
    work = solid_of(Cylinder(start=ORIGIN, end=(50.0, 0.0, 0.0), diameter=20.0))
    cutter = solid_of(Cylinder(start=(25.0, 16.0, -20.0), end=(25.0, 16.0, 20.0), diameter=6.0))
    touching = solid_of(Box(low=(50.0, -5.0, -5.0), high=(60.0, 5.0, 5.0)))

    assert distance(work, cutter) == pytest.approx(3.0, abs=1e-6)
    assert distance(work, touching) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.derived(by="hand arithmetic")
def test_a_steel_block_weighs_its_volume_times_its_density() -> None:
    block = solid_of(Box(low=ORIGIN, high=(100.0, 50.0, 20.0)))

    assert mass(block, density=7850.0) == pytest.approx(0.785, rel=CLOSE)
