"""Bosses, rings, arms, slanted faces, turned views and leaning holes: where they come out."""

import math
from pathlib import Path

import pytest

from halfthou.drawing.geometry import Cylinder, Tube
from halfthou.drawing.model import (
    AngledFace,
    Arm,
    Boss,
    Cutout,
    Distance,
    Hole,
    Keyway,
    Part,
    Round,
    Surface,
)
from halfthou.drawing.solve import solve
from halfthou.shapes.finished import finished
from halfthou.shapes.solids import is_valid, solid_of, volume
from halfthou.store.part_file import read_part, read_part_text

DRAWINGS = Path(__file__).parents[2] / "data" / "drawings"
HEAD = """
[part]
name = "trial"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-m"
[blank]
plate = "100 x 120 x 140"
"""
HUB = """
[boss.hub]
axis = "front to back"
diameter = "24"
long = "14"
"""
PLATE = """
[block.plate]
wide = "60"
high = "40"
thick = "10"
"""
TURNED = """
[round.body]
diameter = "20"
long = "30"
"""


def part_of(text: str) -> Part:
    return solve(read_part_text(HEAD + text, name="trial.toml"))


def told(part: Part) -> list[str]:
    return [finding.what for finding in part.findings]


def drawn(name: str) -> Part:
    return read_part(DRAWINGS / f"{name}.toml")


def metal_left(part: Part) -> float:
    solid = finished(part)
    assert is_valid(solid)
    return volume(solid)


def distance(part: Part, name: str) -> Distance:
    return next(one for one in part.distances if one.name == name)


def round_volume(diameter: float, long: float) -> float:
    return math.pi / 4 * diameter**2 * long


def cone_volume(first: float, last: float, long: float) -> float:
    return math.pi / 12 * long * (first**2 + first * last + last**2)


def over_disc(radius: float, height: object, steps: int = 4000) -> float:
    """Integrate a height over a disc, strip by strip across x, by the middle of each strip."""
    total = 0.0
    for number in range(steps):
        # strips even in angle, so that the round edge costs nothing
        turn = math.pi * (number + 0.5) / steps
        x = -radius * math.cos(turn)
        wide = 2 * radius * math.sin(turn)
        total += height(x) * wide * radius * math.sin(turn) * math.pi / steps  # type: ignore[operator]
    return total


ALL = [path.stem for path in sorted(DRAWINGS.glob("*.toml"))]


@pytest.mark.parametrize("name", ALL)
def test_every_place_of_a_drawing_is_given_once_and_its_solid_is_sound(name: str) -> None:
    part = drawn(name)

    assert told(part) == []
    assert metal_left(part) > 0


@pytest.mark.derived(by="true distance 60 with 18 up; 42 up in a view turned 35°")
def test_the_bosses_of_a_lever_stand_where_a_true_distance_and_a_turned_view_put_them() -> None:
    part = drawn("lever")
    hub, eye, tail = (part.surface(name).point for name in ("hub", "eye", "tail"))
    turn = math.radians(35)

    assert (eye[0] - hub[0], eye[1] - hub[1]) == pytest.approx((math.sqrt(60**2 - 18**2), 18))
    assert (tail[0] - hub[0], tail[1] - hub[1]) == pytest.approx(
        (-42 * math.sin(turn), 42 * math.cos(turn))
    )


def lever_by_hand() -> float:
    """Three bosses, two arms less their circles, and less where the arms overlap at the hub."""

    def band(big: float, small: float, apart: float) -> float:
        r, s = big / 2, small / 2
        lean = math.acos((r - s) / apart)
        hull = math.sqrt(apart**2 - (r - s) ** 2) * (r + s)
        hull += r**2 * (math.pi - lean) + s**2 * lean
        return hull - math.pi * (r**2 + s**2)

    upper = math.atan2(18, math.sqrt(60**2 - 18**2)) + math.acos((12 - 8) / 60)
    lower = math.radians(90 + 35) - math.acos((12 - 7) / 42)
    half = (upper - lower) / 2
    shared = 12**2 * (math.tan(half) - half)
    bosses = round_volume(24, 14) + round_volume(16, 10) + round_volume(14, 10)
    holes = round_volume(10, 14) + round_volume(6, 10) + round_volume(5, 10)
    return bosses + 6 * band(24, 16, 60) + 6 * band(24, 14, 42) - 4 * shared - holes


@pytest.mark.derived(by="bosses, belts round two circles, and the kite two tangents enclose")
def test_a_lever_has_the_volume_added_up_by_hand() -> None:
    text = (DRAWINGS / "lever.toml").read_text("utf-8")
    dry = solve(read_part_text(text[: text.index("[hole.oil]")], name="lever.toml"))

    assert metal_left(dry) == pytest.approx(lever_by_hand(), rel=1e-9)


@pytest.mark.derived(by="7 mm down to the wall of the pivot, at 20°")
def test_a_leaning_hole_ends_where_its_axis_meets_the_wall() -> None:
    oil = next(one for one in drawn("lever").features if one.name == "oil")  # type: ignore[union-attr]

    assert isinstance(oil, Hole)
    assert oil.into == pytest.approx((0, -math.cos(math.radians(20)), math.sin(math.radians(20))))
    assert oil.leans == pytest.approx(math.radians(20))
    assert oil.steps[-1].end == pytest.approx(7 / math.cos(math.radians(20)))


@pytest.mark.derived(by="a straight hole of the slant length: what one end lacks the other has")
def test_a_hole_that_leans_through_a_plate_takes_its_slant_length() -> None:
    hole = '[hole.vent]\nin = "front"\nsize = "6 through"\nleans = "30° to right"\n'
    part = part_of(f'{PLATE}{hole}at = ["20 right of left", "15 above bottom"]\n')

    assert metal_left(part) == pytest.approx(
        60 * 40 * 10 - round_volume(6, 10 / math.cos(math.radians(30)))
    )


@pytest.mark.derived(by="profile by shoelace, less a hole, a thread's hole and a slot")
def test_a_click_has_its_nose_where_the_drawing_puts_it() -> None:
    part = drawn("click")
    nose, rear = math.tan(math.radians(15)), math.tan(math.radians(20))
    # 55 - y * nose = x  and  y = 14 - (x - 39) * rear
    height = (14 - 16 * rear) / (1 - nose * rear)
    corners = [(0, 0), (55, 0), (55 - height * nose, height), (39, 14), (0, 14)]
    area = 0.5 * sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    stop = next(one for one in part.features if one.name == "stop")  # type: ignore[union-attr]
    assert isinstance(stop, Hole)
    holes = round_volume(6, 8) + round_volume(stop.steps[0].diameter.nominal, 8)

    assert metal_left(part) == pytest.approx(area * 8 - holes - 1.6 * 4 * 8)
    assert part.surface("right").name == "nose", "the side it took whole now means the face"
    assert part.surface("top").high[0] == pytest.approx(39)
    assert part.surface("nose").high == pytest.approx((55, height, 8))
    assert part.treatment == "harden, temper to dark straw"


@pytest.mark.derived(by="two rounds, an eccentric bore, two chamfers, a cross-hole strip by strip")
def test_a_depthing_bush_has_its_bore_off_the_axis() -> None:
    part = drawn("depthing-bush")
    bore, grub = (
        next(one for one in part.features if one.name == name)  # type: ignore[union-attr]
        for name in ("bore", "grub")
    )
    assert isinstance(bore, Hole)
    assert isinstance(grub, Hole)
    drill = grub.steps[0].diameter.nominal
    cross = over_disc(
        drill / 2, lambda y: math.sqrt(10**2 - y**2) - math.sqrt(3**2 - (y - 0.8) ** 2)
    )
    chamfers = sum(
        round_volume(wide, 0.3) - cone_volume(wide, wide - 0.6, 0.3) for wide in (20, 14)
    )
    rounds = round_volume(20, 6) + round_volume(14, 12)

    assert bore.entries == ((18.0, 0.8, 0.0),)
    assert not bore.on_axis
    assert metal_left(part) == pytest.approx(
        rounds - round_volume(6, 18) - cross - chamfers,
        rel=2e-6,  # where two round walls meet, the kernel follows their curve to a micrometre
    )
    offset = distance(part, "bore 0.8 ±0.02 off outside")
    assert offset.direction == pytest.approx((0, 1, 0))
    assert (offset.band.low, offset.band.high) == pytest.approx((0.78, 0.82))


@pytest.mark.derived(by="an angle of 30° from the top, anticlockwise as the right end is seen")
def test_a_bore_off_the_axis_may_lie_at_an_angle() -> None:
    part = part_of(
        TURNED + '[hole.bore]\nin = "right"\nsize = "5 through"\n'
        'at = ["2 off outside", "30° from top"]\n'
    )
    (bore,) = (one for one in part.features if isinstance(one, Hole))

    assert bore.entries[0] == pytest.approx(
        (30, 2 * math.cos(math.radians(30)), 2 * math.sin(math.radians(30)))
    )
    assert told(part) == []


@pytest.mark.derived(by="a radius of 10 at 30° from the top")
def test_a_hole_in_a_round_outside_goes_straight_to_the_axis() -> None:
    part = part_of(
        TURNED + '[hole.grub]\nin = "body outside"\nsize = "M3 x 5"\n'
        'at = ["12 right of left", "30° from top"]\n'
    )
    (grub,) = (one for one in part.features if isinstance(one, Hole))
    up, out = math.cos(math.radians(30)), math.sin(math.radians(30))

    assert told(part) == []
    assert grub.entries[0] == pytest.approx((12, 10 * up, 10 * out))
    assert grub.into == pytest.approx((0, -up, -out))
    assert grub.face == "body"
    assert grub.leans == 0


def test_a_hole_in_the_end_of_a_boss_lies_on_its_axis() -> None:
    part = part_of(HUB + '[hole.pivot]\nin = "hub front"\nsize = "10 H7 through"\n')
    (pivot,) = (one for one in part.features if isinstance(one, Hole))

    assert told(part) == []
    assert pivot.entries == ((12.0, 12.0, 14.0),)
    assert metal_left(part) == pytest.approx(round_volume(24, 14) - round_volume(10, 14))


@pytest.mark.derived(by="a frustum: 14 at the top, 3° a side over 4")
def test_a_boss_with_draft_widens_toward_its_root() -> None:
    part = part_of(
        PLATE + '[boss.pad]\non = "plate top"\ndiameter = "8"\nlong = "4"\ndraft = "3°"\n'
        'at = ["centred left to right", "centred front to back"]\n'
    )
    root = 8 + 2 * 4 * math.tan(math.radians(3))
    (pad,) = (one for one in part.features if isinstance(one, Boss))

    assert told(part) == []
    assert pad.root_diameter == pytest.approx(root)
    assert metal_left(part) == pytest.approx(60 * 40 * 10 + cone_volume(root, 8, 4))
    assert part.surface("pad").kind == "cone"
    assert part.surface("pad top").name == "top"


@pytest.mark.derived(by="a tube less nothing, plus the boss outside it by strips")
def test_a_boss_on_a_round_outside_reaches_down_to_the_metal() -> None:
    part = part_of(
        '[ring.pipe]\naxis = "left to right"\ndiameter = "30"\ninside = "20"\nlong = "40"\n'
        '[boss.pad]\non = "pipe top"\ndiameter = "10"\nlong = "5"\n'
        'at = ["20 right of pipe left", "level with pipe front to back"]\n'
    )
    outside = over_disc(5, lambda z: 20 - math.sqrt(15**2 - z**2))

    assert told(part) == []
    assert metal_left(part) == pytest.approx(
        round_volume(30, 40) - round_volume(20, 40) + outside, rel=1e-7
    )


def test_a_ring_has_a_bore_of_its_own() -> None:
    part = part_of(
        '[ring.rim]\naxis = "front to back"\ndiameter = "60"\ninside = "40 H7"\nlong = "8"\n'
    )
    inside = part.surface("rim inside")

    assert isinstance(part.metal[0], Tube)
    assert inside.inside
    assert inside.size is not None
    assert inside.size.high == pytest.approx(40.025)


def test_an_arm_has_two_edges_that_touch_both_bosses() -> None:
    part = drawn("lever")
    (arm,) = (one for one in part.features if isinstance(one, Arm) and one.name == "long")
    edge = part.surface("long edge")

    def off(surface: Surface, centre: tuple[float, float, float]) -> float:
        gaps = zip(surface.point, centre, surface.direction, strict=True)
        return sum((p - c) * n for p, c, n in gaps)

    assert [off(edge, centre) for centre in arm.centres] == pytest.approx([12, 8])
    assert arm.covered == (True, True)


def test_an_arm_thicker_than_its_boss_brings_its_own_round_end() -> None:
    part = part_of(
        HUB + '[boss.eye]\naxis = "front to back"\ndiameter = "10"\nlong = "4"\n'
        'at = ["40 right of hub", "level with hub bottom to top", "back: level with hub back"]\n'
        '[arm.web]\njoins = "hub and eye"\nthick = "6"\nat = "back: level with hub back"\n'
    )
    ends = [one for one in part.metal if isinstance(one, Cylinder) and one.diameter == 10]

    assert sorted(one.end[2] for one in ends) == [4, 6]
    assert told(part) == []
    assert metal_left(part) > 0


@pytest.mark.derived(by="a first pocket and a copy 20 further right")
def test_pockets_and_keyways_are_repeated_in_a_row() -> None:
    part = part_of(
        PLATE + '[pocket.port]\nin = "front"\nwide = "4"\nhigh = "20"\ndeep = "3"\n'
        'at = ["left: 10 right of left", "bottom: 10 above bottom"]\n'
        'copies = "2 at 20 left to right"\n'
    )
    keyed = part_of(
        TURNED + '[keyway.key]\nin = "body"\nwide = "4"\ndeep = "2"\nlong = "8"\nends = "square"\n'
        'at = ["left: 2 right of body left", "top"]\ncopies = "2 at 14 left to right"\n'
    )
    ports = [one for one in part.features if isinstance(one, Cutout)]

    assert [(one.name, one.low[0]) for one in ports] == [("port", 10), ("port 2", 30)]
    assert part.surface("port 2 floor").point[0] == 32
    assert metal_left(part) == pytest.approx(60 * 40 * 10 - 2 * 4 * 20 * 3)
    keys = [(one.name, one.left) for one in keyed.features if isinstance(one, Keyway)]
    assert keys == [("key", 2), ("key 2", 16)]


def test_a_slanted_face_says_which_way_it_leans() -> None:
    part = part_of(
        PLATE + '[face.nose]\nin = "right"\nleans = "30° to front"\n'
        'at = ["10 left of right", "level with back"]\n'
    )
    (face,) = (one for one in part.features if isinstance(one, AngledFace))

    assert told(part) == []
    assert face.normal == pytest.approx((math.cos(math.pi / 6), 0, 0.5))
    slope = 10 * math.tan(math.pi / 6)
    assert metal_left(part) == pytest.approx(50 * 40 * 10 - slope * 10 / 2 * 40)


@pytest.mark.derived(by="disc and boss, bore, seat, a cross-hole strip by strip; the pin")
def test_a_crank_disc_has_its_pin_in_another_metal() -> None:
    part = drawn("crank-disc")
    (grub,) = (one for one in part.features if isinstance(one, Hole) and one.name == "grub")
    cross = over_disc(
        grub.steps[0].diameter.nominal / 2,
        lambda x: math.sqrt(9**2 - x**2) - math.sqrt(4**2 - x**2),
    )
    disc = round_volume(42, 8) + round_volume(18, 6) - round_volume(8, 14) - round_volume(5, 8)

    assert metal_left(part) == pytest.approx(disc - cross + round_volume(5, 20), rel=1e-7)
    assert part.turned, "its own metal is rounds on one axis"
    assert part.surface("left").point[0] == 0, "the part's sides are those of its own metal"
    assert part.surface("pin left").point[0] == pytest.approx(-12)
    assert {one.name for one in part.features if isinstance(one, Round)} == {"disc", "boss"}


@pytest.mark.derived(by="barrel, flanges and chest as areas; ports as round-ended slots")
def test_a_cylinder_has_the_metal_added_up_by_hand() -> None:
    part = drawn("cylinder")
    common = 11 * math.sqrt(13**2 - 11**2) + 13**2 * math.asin(11 / 13)
    waist = math.pi * 13**2 + 22 * 20 - common
    pocket = (math.pi * 1.25**2 + 2.5 * 7.5) * 4
    pockets = [one for one in part.features if isinstance(one, Cutout) and "port" in one.name]

    assert volume(solid_of(part.metal)) == pytest.approx(
        2 * round_volume(38, 5) + 30 * waist, rel=1e-9
    )
    assert [one.name for one in pockets] == ["ports", "ports 2"]
    text = (DRAWINGS / "cylinder.toml").read_text("utf-8")
    plain = text[: text.index("[pocket.exhaust]")]
    assert metal_left(solve(read_part_text(plain, name="c.toml"))) == pytest.approx(
        2 * round_volume(38, 5) + 30 * waist - round_volume(18, 40) - 2 * pocket, rel=1e-9
    )


@pytest.mark.parametrize(
    ("of", "turned", "place", "off"),
    [
        ("front", "90° anticlockwise", "10 right of hub", (0, 10, 0)),
        ("front", "90° clockwise", "10 right of hub", (0, -10, 0)),
        ("front", "90° anticlockwise", "10 above hub", (-10, 0, 0)),
        ("front", "180° clockwise", "10 below hub", (0, 10, 0)),
    ],
)
@pytest.mark.derived(by="quarter turns, by eye")
def test_up_in_a_view_is_up_turned_so(
    of: str, turned: str, place: str, off: tuple[float, float, float]
) -> None:
    other = "bottom to top" if " right " in place else "left to right"
    part = part_of(
        f'{HUB}[view.A]\nturned = "{turned}"\nof = "{of}"\n'
        '[boss.eye]\naxis = "front to back"\ndiameter = "10"\nlong = "4"\n'
        f'at = ["{place} in view A", "level with hub {other} in view A", '
        '"back: level with hub back"]\n'
    )
    hub, eye = part.surface("hub").point, part.surface("eye").point

    assert told(part) == []
    assert tuple(b - a for a, b in zip(hub, eye, strict=True)) == pytest.approx(off, abs=1e-9)


@pytest.mark.derived(by="30° about the vertical, up on paper lying to the back")
def test_a_view_from_above_turns_about_the_vertical() -> None:
    part = part_of(
        '[boss.hub]\naxis = "bottom to top"\ndiameter = "24"\nlong = "14"\n'
        '[view.A]\nturned = "30° anticlockwise"\nof = "top"\n'
        '[boss.eye]\naxis = "bottom to top"\ndiameter = "16"\nlong = "14"\n'
        'at = ["18 right of hub in view A", "level with hub front to back in view A", '
        '"bottom: level with hub bottom"]\n'
    )
    hub, eye = part.surface("hub").point, part.surface("eye").point

    assert told(part) == []
    assert (eye[0] - hub[0], eye[2] - hub[2]) == pytest.approx(
        (18 * math.cos(math.pi / 6), -18 * math.sin(math.pi / 6))
    )


@pytest.mark.derived(by="only the ear's own corner goes: a triangle 5 by 5 tan 45°")
def test_a_slanted_face_of_one_body_leaves_its_neighbour_whole() -> None:
    part = part_of(
        PLATE + '[block.ear]\nwide = "10"\nhigh = "20"\nthick = "10"\n'
        'at = ["right: level with plate left", "bottom: level with plate top", '
        '"back: level with plate back"]\n'
        '[block.foot]\nwide = "20"\nhigh = "40"\nthick = "10"\n'
        'at = ["right: level with plate left", "top: level with ear bottom", '
        '"back: level with plate back"]\n'
        '[face.bevel]\nin = "ear top"\nleans = "45° to right"\n'
        'at = ["5 left of ear right", "level with ear top"]\n'
    )

    assert told(part) == []
    assert metal_left(part) == pytest.approx(60 * 40 * 10 + 2000 + 8000 - 5 * 5 / 2 * 10)


@pytest.mark.derived(by="20 off at 30° from the top: sine and cosine")
def test_a_boss_may_be_placed_off_another_at_an_angle() -> None:
    part = part_of(
        HUB + '[boss.eye]\naxis = "front to back"\ndiameter = "20"\nlong = "14"\n'
        'at = ["20 ±0.1 off hub", "30° from top", "back: level with hub back"]\n'
    )
    hub, eye = part.surface("hub").point, part.surface("eye").point
    off = next(one for one in part.distances if " off " in one.name)

    assert told(part) == []
    assert (eye[0] - hub[0], eye[1] - hub[1]) == pytest.approx(
        (-20 * math.sin(math.pi / 6), 20 * math.cos(math.pi / 6))
    )
    assert off.direction == pytest.approx((-0.5, math.cos(math.pi / 6), 0))
    assert (off.band.nominal, off.band.low) == pytest.approx((20, 19.9))


@pytest.mark.derived(by="from a middle at 30 with its limits, to the side at 0")
def test_a_distance_from_a_middle_keeps_its_limits_from_the_low_side() -> None:
    part = part_of(
        PLATE + '[hole.a]\nin = "front"\nsize = "4 through"\n'
        'at = ["12 +0.2/-0.1 left of plate", "centred bottom to top"]\n'
    )
    (one,) = (one for one in part.distances if one.name.startswith("a 12"))

    assert (one.a, one.b, one.direction) == ("left", "a", (1, 0, 0))
    assert (one.band.nominal, one.band.low, one.band.high) == pytest.approx((18, 17.8, 18.1))


@pytest.mark.derived(by="12 across, 1 in 20 on diameter over 10: 11.5 at the far end")
def test_a_hole_may_taper() -> None:
    part = part_of(
        PLATE + '[hole.seat]\nin = "front"\nsize = "12 taper 1 in 20 through"\n'
        'at = ["centred left to right", "centred bottom to top"]\n'
    )
    (seat,) = (one for one in part.features if isinstance(one, Hole))

    assert told(part) == []
    assert seat.steps[0].end_diameter == pytest.approx(11.5)
    assert part.surface("seat").kind == "cone"
    assert metal_left(part) == pytest.approx(60 * 40 * 10 - cone_volume(12, 11.5, 10))
