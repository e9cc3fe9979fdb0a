"""Parts solved: every surface in its place, every size with its limits."""

import math
from importlib.resources import files
from pathlib import Path

import pytest

from halfthou.drawing.model import Cutout, Distance, Hole, Keyway, Part, Round
from halfthou.drawing.solve import solve
from halfthou.shapes.solids import cut, is_valid, solid_of, volume
from halfthou.store.part_file import read_part, read_part_text

DEMO = Path(str(files("halfthou.demo")))
DATA = Path(__file__).parents[2] / "data" / "parts"
INCH = 25.4

HEAD = """
[part]
name = "trial"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-m"
[blank]
plate = "40 x 60 x 80"
"""


def part_of(text: str) -> Part:
    return solve(read_part_text(HEAD + text, name="trial.toml"))


def metal_left(part: Part) -> float:
    solid = cut(solid_of(part.metal), [solid_of(region) for region in part.removed])
    assert is_valid(solid)
    return volume(solid)


def distance(part: Part, name: str) -> Distance:
    return next(one for one in part.distances if one.name == name)


def feature(part: Part, name: str) -> object:
    return next(one for one in part.features if one.name == name)  # type: ignore[union-attr]


@pytest.mark.derived(by="adding up the drawn lengths by hand")
def test_rounds_stand_left_to_right_each_from_where_the_last_ends() -> None:
    part = read_part(DEMO / "arbor.toml")
    rounds = [one for one in part.features if isinstance(one, Round)]

    assert [one.name for one in rounds] == ["journal", "collar", "seat", "far-journal", "end"]
    assert [one.right for one in rounds] == pytest.approx(
        [1.5 * INCH, 1.75 * INCH, 4 * INCH, 6 * INCH, 7 * INCH]
    )


@pytest.mark.derived(by="by hand from ISO 286-1: deviations k 1, E 40, s 35 and IT6, IT7")
@pytest.mark.parametrize(
    ("path", "surface", "low", "high"),
    [
        (DEMO / "arbor.toml", "seat", 16.001, 16.012),
        (DEMO / "barrel-end.toml", "bore", 16.0, 16.018),
        (DATA / "bush.toml", "bore", 20.040, 20.053),
        (DATA / "bush.toml", "outside-diameter", 24.035, 24.048),
    ],
)
def test_fits_have_the_limits_of_the_standard(
    path: Path, surface: str, low: float, high: float
) -> None:
    size = read_part(path).surface(surface).size

    assert size is not None
    assert size.origin == "drawn"
    assert (size.low, size.high) == pytest.approx((low, high), abs=1e-9)


@pytest.mark.published(
    source="ISO 2768-1 table 1, class m: over 6 to 30 ±0.2, over 30 to 120 ±0.3"
)
def test_a_size_without_its_own_limits_takes_the_general_ones() -> None:
    part = read_part(DATA / "flange-plate.toml")

    assert distance(part, "plate wide 100").band.width == pytest.approx(0.6)
    assert distance(part, "plate thick 10").band.width == pytest.approx(0.4)
    assert distance(part, "plate wide 100").band.origin == "general"


@pytest.mark.derived(by="1/64 and .005 of an inch by hand")
def test_an_inch_drawing_takes_limits_by_the_form_of_the_figure() -> None:
    part = read_part(DEMO / "arbor.toml")

    assert distance(part, "journal long 1 1/2").band.width == pytest.approx(INCH / 32)
    assert distance(part, "seat right: 4.000 right of left").band.width == pytest.approx(
        0.01 * INCH
    )


@pytest.mark.derived(by="volume by hand: two discs less recess, bore, holes and four chamfers")
def test_the_metal_of_the_barrel_end_is_what_a_hand_calculation_gives() -> None:
    def disc(diameter: float, long: float) -> float:
        return math.pi / 4 * diameter**2 * long

    def rim(diameter: float, leg: float) -> float:
        # a 45° triangle turned about the axis, by Pappus
        return leg**2 / 2 * math.pi * (diameter - 2 * leg / 3)

    def mouth(diameter: float, leg: float) -> float:
        return leg**2 / 2 * math.pi * (diameter + 2 * leg / 3)

    by_hand = disc(64, 8) + disc(32, 14) - disc(40, 4) - disc(16, 18) - 6 * disc(4.5, 8)
    by_hand -= 2 * rim(64, 0.5) + rim(32, 0.5) + mouth(16, 0.5)

    assert metal_left(read_part(DEMO / "barrel-end.toml")) == pytest.approx(by_hand, rel=1e-9)


@pytest.mark.derived(by="volume by hand: block less two steps, a tapping hole and two chamfers")
def test_the_metal_of_the_t_slot_nut_is_what_a_hand_calculation_gives() -> None:
    part = read_part(DATA / "t-slot-nut.toml")
    hole = feature(part, "thread")
    assert isinstance(hole, Hole)
    by_hand = 18 * 14 * 18 - 2 * 3 * 7 * 18 - 2 * 0.5 * 18
    by_hand -= math.pi / 4 * hole.steps[0].diameter.nominal ** 2 * 14

    assert metal_left(part) == pytest.approx(by_hand, rel=1e-9)


@pytest.mark.derived(by="pitch circle by sine and cosine, anticlockwise from the top")
def test_holes_on_a_circle_begin_where_the_drawing_says() -> None:
    ring = feature(read_part(DATA / "flange-plate.toml"), "ring")

    assert isinstance(ring, Hole)
    for number, (x, y, z) in enumerate(ring.entries):
        turn = math.radians(90 + 60 * number)
        assert (x, y, z) == pytest.approx((50 + 28 * math.cos(turn), 40 + 28 * math.sin(turn), 10))


def test_a_hole_drilled_from_the_left_runs_its_circle_as_seen_from_there() -> None:
    ring = feature(read_part(DEMO / "barrel-end.toml"), "ring")

    assert isinstance(ring, Hole)
    assert ring.entries[0] == (0.0, 26.0, 0.0)
    assert ring.entries[1][2] < 0, "anticlockwise as the left end is looked at goes to the back"


def test_a_keyways_floor_follows_from_what_it_leaves() -> None:
    key = feature(read_part(DEMO / "arbor.toml"), "key")

    assert isinstance(key, Keyway)
    assert key.floor == pytest.approx(13 - 8)
    assert (key.left, key.right) == pytest.approx((2 * INCH, 3 * INCH))


def test_a_shoulder_is_one_plane_named_after_the_larger_round() -> None:
    part = read_part(DEMO / "arbor.toml")

    assert part.surface("seat left").name == "collar right"
    assert part.surface("journal left").name == "left"
    assert part.surface("end right").name == "right"


def test_a_row_is_placed_by_its_first_member_unless_it_is_centred() -> None:
    body = '[block.body]\nwide = "80"\nhigh = "60"\nthick = "40"\n'
    row = '[hole.row]\nin = "front"\nsize = "5 through"\ncopies = "3 at 20 left to right"\n'
    placed = part_of(body + row + 'at = ["10 right of left", "10 above bottom"]\n')
    centred = part_of(body + row + 'at = ["centred left to right", "10 above bottom"]\n')
    first, second = feature(placed, "row"), feature(centred, "row")

    assert isinstance(first, Hole)
    assert isinstance(second, Hole)
    assert [entry[0] for entry in first.entries] == [10, 30, 50]
    assert [entry[0] for entry in second.entries] == [20, 40, 60]


@pytest.mark.derived(by="a 3-4-5 triangle")
def test_a_true_distance_between_axes_is_solved_with_the_one_beside_it() -> None:
    body = '[block.body]\nwide = "80"\nhigh = "60"\nthick = "40"\n'
    part = part_of(
        body + '[hole.hub]\nin = "front"\nsize = "10 through"\n'
        'at = ["15 right of left", "10 above bottom"]\n'
        '[hole.eye]\nin = "front"\nsize = "6 through"\n'
        'at = ["50 centres right of hub", "30 above hub"]\n'
    )
    eye = feature(part, "eye")

    assert isinstance(eye, Hole)
    assert eye.entries[0] == pytest.approx((55, 40, 40))


def test_a_true_distance_shorter_than_the_one_beside_it_cannot_be_reached() -> None:
    body = '[block.body]\nwide = "80"\nhigh = "60"\nthick = "40"\n'
    part = part_of(
        body + '[hole.hub]\nin = "front"\nsize = "10 through"\n'
        'at = ["15 right of left", "10 above bottom"]\n'
        '[hole.eye]\nin = "front"\nsize = "6 through"\n'
        'at = ["25 centres right of hub", "30 above hub"]\n'
    )

    assert [one.what for one in part.findings if "cannot be reached" in one.what] == [
        "'eye: 25 centres right of hub' cannot be reached"
    ]


@pytest.mark.derived(by="sine and cosine of 30°")
def test_a_place_so_far_off_an_axis_at_an_angle() -> None:
    body = '[block.body]\nwide = "80"\nhigh = "60"\nthick = "40"\n'
    part = part_of(
        body + '[hole.hub]\nin = "front"\nsize = "10 through"\n'
        'at = ["centred left to right", "centred bottom to top"]\n'
        '[hole.stop]\nin = "front"\nsize = "6 through"\nat = ["20 off hub", "30° from top"]\n'
    )
    stop = feature(part, "stop")

    assert isinstance(stop, Hole)
    assert stop.entries[0] == pytest.approx((30, 30 + 20 * math.cos(math.pi / 6), 40))


def test_a_slot_runs_out_where_nothing_ends_it() -> None:
    body = '[block.body]\nwide = "80"\nhigh = "60"\nthick = "40"\n'
    part = part_of(
        body + '[slot.way]\nin = "top"\nwide = "12 H9"\ndeep = "8"\nat = "centred left to right"\n'
    )
    way = feature(part, "way")

    assert isinstance(way, Cutout)
    assert (way.low, way.high) == ((34, 52, 0), (46, 60, 40))
    assert way.open_sides == {"top", "front", "back"}
    assert part.surface("way floor").point[1] == 52


@pytest.mark.derived(by="taper of 1 in 12 on diameter over 36 mm")
def test_a_taper_needs_three_of_its_four_figures() -> None:
    part = part_of('[round.tail]\ndiameter = "20"\ntaper = "1 in 12"\nlong = "36"\n')
    tail = feature(part, "tail")

    assert isinstance(tail, Round)
    assert tail.right_diameter is not None
    assert tail.right_diameter.nominal == pytest.approx(17)


@pytest.mark.derived(by="cylinders by hand; the drill's point reaches 0.3 of its diameter")
def test_a_blind_hole_has_the_drills_point_below_its_full_depth() -> None:
    part = part_of(
        '[block.body]\nwide = "80"\nhigh = "60"\nthick = "40"\n[hole.blind]\nin = "front"\n'
        'size = "10 x 20"\nat = ["20 right of left", "20 above bottom"]\n'
    )
    gone = math.pi / 4 * 100 * 20 + math.pi / 4 * 100 * 3 / 3

    assert metal_left(part) == pytest.approx(80 * 60 * 40 - gone, rel=1e-9)


def test_a_hole_that_ends_in_another_is_cut_through_to_it() -> None:
    part = part_of(
        '[block.body]\nwide = "80"\nhigh = "60"\nthick = "40"\n'
        '[hole.bore]\nin = "front"\nsize = "20 through"\n'
        'at = ["centred left to right", "centred bottom to top"]\n'
        '[hole.oil]\nin = "top"\nsize = ["6 csk 90°", "3 to bore"]\n'
        'at = ["centred left to right", "centred front to back"]\n'
    )
    oil = feature(part, "oil")

    assert isinstance(oil, Hole)
    assert oil.steps[0].end == pytest.approx(1.5)
    assert oil.steps[1].end == pytest.approx(20)
    assert oil.steps[1].breaks_out
