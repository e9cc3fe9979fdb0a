"""Joints, pieces and castings: the part together, the lump before the cut, the raw casting."""

import math
from pathlib import Path

import pytest

from halfthou.drawing.geometry import Region
from halfthou.drawing.lump import as_cast, before_the_cut, joints_of
from halfthou.drawing.model import Hole, Part
from halfthou.drawing.region_space import reach_of, section, shifted
from halfthou.drawing.solve import solve
from halfthou.handbook.materials import material
from halfthou.shapes.finished import finished, solid_of_lump, solid_of_lumps
from halfthou.shapes.solids import bounding_box, cut, is_valid, pieces, solid_of, volume
from halfthou.store.part_file import read_part, read_part_text

DRAWINGS = Path(__file__).parents[2] / "data" / "drawings"
HEAD = """
[part]
name = "trial"
material = "cast iron"
units = "mm"
otherwise = "ISO 2768-m"
[blank]
plate = "100 x 120 x 140"
"""
SPLIT = """
[block.body]
wide = "60"
high = "40"
thick = "12"

[hole.bore]
in = "front"
size = "16 bored through"
at = ["centred left to right", "20 above bottom"]

[hole.stud]
in = "top"
size = ["4 BA clear to split", "4 BA x 10 beyond split"]
at = ["10 right of left", "centred front to back"]
copies = "2 at 40 left to right"

[joint.split]
at = "level with bore bottom to top"
cut = "saw 1.2"
skim = "0.3"
halves = ["cap", "base"]
bolts = "stud"
located_by = "2 dowels"
"""


def part_of(text: str) -> Part:
    return solve(read_part_text(HEAD + text, name="trial.toml"))


def told(part: Part) -> list[str]:
    return [finding.what for finding in part.findings]


def hole(part: Part, name: str) -> Hole:
    return next(one for one in part.features if isinstance(one, Hole) and one.name == name)


def round_volume(diameter: float, long: float) -> float:
    return math.pi / 4 * diameter**2 * long


def cone_volume(first: float, last: float, long: float) -> float:
    return math.pi / 12 * long * (first**2 + first * last + last**2)


def over_disc(radius: float, height: object, steps: int = 4000) -> float:
    """Integrate a height over a disc, strip by strip, the strips even in angle."""
    total = 0.0
    for number in range(steps):
        turn = math.pi * (number + 0.5) / steps
        x, wide = -radius * math.cos(turn), 2 * radius * math.sin(turn)
        total += height(x) * wide * radius * math.sin(turn) * math.pi / steps  # type: ignore[operator]
    return total


def plummer() -> Part:
    return read_part(DRAWINGS / "plummer-block.toml")


@pytest.mark.derived(by="bodies, bore, holes with their drill points, oil hole strip by strip")
def test_a_plummer_block_together_has_the_volume_added_up_by_hand() -> None:
    part = plummer()
    clear, tapped = (step.diameter.nominal for step in hole(part, "stud").steps)
    root = 14 + 2 * 4 * math.tan(math.radians(3))
    foot, pedestal, cap = 96 * 12 * 26, 52 * 28 * 28, 52 * 22 * 28
    bodies = foot + pedestal + cap + cone_volume(root, 14, 4)
    point = 0.3 * tapped
    studs = round_volume(clear, 22) + round_volume(tapped, 18) + cone_volume(tapped, 0, point)
    dowels = round_volume(4, 32) + cone_volume(4, 0, 0.3 * 4)
    feet = round_volume(18, 0.5) + round_volume(9, 11.5)
    bore = 19.05
    oil = cone_volume(6, 3, 1.5)
    oil += over_disc(1.5, lambda x: 26 - 1.5 - math.sqrt((bore / 2) ** 2 - x**2))
    cuts = round_volume(bore, 28) + 2 * studs + 2 * dowels + 2 * feet + oil

    assert volume(finished(part)) == pytest.approx(
        bodies - cuts,
        rel=1e-6,  # where two round walls meet, the kernel follows their curve to a micrometre
    )


def test_each_half_is_metal_of_its_own_and_both_make_the_part() -> None:
    part = plummer()
    cap, base = (solid_of_lump(piece.lump) for piece in part.pieces)

    assert [piece.name for piece in part.pieces] == ["cap", "base"]
    assert volume(cap) + volume(base) == pytest.approx(volume(finished(part)))
    assert bounding_box(cap).low[1] == pytest.approx(40, abs=1e-6)
    assert bounding_box(base).high[1] == pytest.approx(40, abs=1e-6)


def test_a_feature_belongs_to_each_half_it_shows_in() -> None:
    part = plummer()

    assert {name: part.pieces_of(name) for name in ("cap", "foot", "oil", "holding-down")} == {
        "cap": ("cap",),
        "foot": ("base",),
        "oil": ("cap",),
        "holding-down": ("base",),
    }
    assert part.pieces_of("bore") == part.pieces_of("stud") == ("cap", "base")
    assert part.pieces_of("split") == ("cap", "base")


def test_each_half_has_a_face_of_its_own_at_the_joint() -> None:
    part = plummer()

    assert part.surface("cap split").direction == (0, -1, 0)
    assert part.surface("base split").direction == (0, 1, 0)
    assert part.surface("pedestal top").name == "base split"
    assert part.surface("cap bottom").name == "cap split"


@pytest.mark.derived(by="the section beside the saw, 1.2 and two skims of 0.3 thick")
def test_before_the_cut_the_upper_half_stands_a_kerf_and_two_skims_further_out() -> None:
    part = part_of(SPLIT)
    (joint,) = joints_of(part)
    lumps = before_the_cut(part, joint)
    whole = solid_of_lumps(lumps)
    tapped = hole(part, "stud").steps[1].diameter.nominal
    strip = (60 - 16) * 12 - 2 * round_volume(tapped, 1)

    assert told(part) == []
    assert joint.over == pytest.approx(1.8)
    assert joint.moves == "cap"
    assert is_valid(whole)
    assert len(pieces(whole)) == 1
    assert volume(whole) == pytest.approx(volume(finished(part)) + 1.8 * strip)
    assert bounding_box(whole).high[1] == pytest.approx(41.8, abs=1e-5)
    assert bounding_box(finished(part)).high[1] == pytest.approx(40, abs=1e-5)


def test_the_lower_half_may_be_the_one_that_moves() -> None:
    part = part_of(SPLIT + 'moves = "base"\n')
    whole = solid_of_lumps(before_the_cut(part, joints_of(part)[0]))
    box = bounding_box(whole)

    assert (box.low[1], box.high[1]) == pytest.approx((-1.8, 40), abs=1e-5)
    assert len(pieces(whole)) == 1


def test_two_castings_are_not_sawn_and_are_apart_before() -> None:
    part = plummer()
    lumps = before_the_cut(part, joints_of(part)[0])

    assert [lump.name for lump in lumps] == ["cap", "base"]


@pytest.mark.derived(by="bodies with 2 on each machined side, less the core through them")
def test_machined_faces_of_a_raw_casting_stand_out_and_no_others_do() -> None:
    cap, base = as_cast(plummer())
    r, rise = 7.0, 2.0
    core = math.pi * r**2 / 2
    core += rise * math.sqrt(r**2 - rise**2) + r**2 * math.asin(rise / r)
    slope = math.tan(math.radians(3))
    boss = cone_volume(14 + 8 * slope, 14 - 4 * slope, 6)
    base_by_hand = 96 * 14 * 26 + 52 * 30 * 32 - core * 32
    cap_by_hand = 52 * 24 * 32 + boss - core * 32

    assert volume(solid_of_lump(base)) == pytest.approx(base_by_hand)
    assert volume(solid_of_lump(cap)) == pytest.approx(cap_by_hand)
    box = bounding_box(solid_of_lump(base))
    assert (*box.low, *box.high) == pytest.approx((0, -2, -2, 96, 42, 30), abs=1e-5)


@pytest.mark.derived(by="volume by hand, 7.3 g in each cubic centimetre of grey iron")
def test_the_raw_casting_weighs_what_its_volume_and_density_say() -> None:
    part = plummer()
    density = material(part.material).density
    grams = sum(volume(solid_of_lump(lump)) for lump in as_cast(part)) * density * 1000

    assert grams == pytest.approx((81_517 + 37_538) * 7.3e-3, rel=1e-4)


@pytest.mark.derived(
    by="flanges 41 across and 6.5 thick, barrel 43 long, chest 21.5 high, core 14"
)
def test_a_cylinder_comes_with_stock_on_its_flanges_and_its_valve_face() -> None:
    (lump,) = as_cast(read_part(DRAWINGS / "cylinder.toml"))
    common = 11 * math.sqrt(13**2 - 11**2) + 13**2 * math.asin(11 / 13)
    waist = math.pi * 13**2 + 22 * 21.5 - common
    by_hand = 2 * round_volume(41, 6.5) + 30 * waist - round_volume(14, 43)

    assert volume(solid_of_lump(lump)) == pytest.approx(by_hand)


def test_a_casting_that_is_sawn_comes_as_one_lump_with_its_kerf() -> None:
    text = SPLIT.replace('thick = "12"', 'thick = "12"\nmachined = "bottom, front"')
    part = solve(
        read_part_text(
            HEAD.replace('plate = "100 x 120 x 140"', 'casting = "stock 2"') + text,
            name="trial.toml",
        )
    )
    whole = solid_of_lumps(as_cast(part))

    assert len(pieces(whole)) == 1
    assert volume(whole) == pytest.approx(60 * (40 + 2 + 1.8) * 14)


def test_a_bar_is_no_casting() -> None:
    assert as_cast(part_of(SPLIT)) == ()


def test_a_casting_is_raw_where_nothing_says_it_is_machined() -> None:
    part = plummer()
    raw = {one.name for one in part.surfaces if one.raw}

    assert {"foot top", "left", "right", "pedestal left", "cap right", "oil-boss"} <= raw
    assert not raw & {"bottom", "top", "pedestal front", "cap back", "bore", "cap split"}
    assert part.surface("oil-boss top").clean_up
    assert not part.surface("bottom").clean_up


def test_the_size_of_a_casting_follows_from_its_stock_unless_it_is_given() -> None:
    text = HEAD.replace('plate = "100 x 120 x 140"', 'casting = "stock 2, over all 70 x 50 x 20"')
    given = solve(read_part_text(text + SPLIT, name="trial.toml"))

    assert plummer().blank.size == pytest.approx((96, 70, 32))
    assert plummer().blank.draft == pytest.approx(math.radians(1.5))
    assert given.blank.size == (70, 50, 20)


def test_each_of_two_castings_has_its_own_size() -> None:
    cap, base = plummer().pieces

    assert cap.blank is not None
    assert base.blank is not None
    assert base.blank.size == pytest.approx((96, 44, 32))
    assert cap.blank.size == pytest.approx((52, 30, 32))


def test_a_joint_knows_the_features_that_place_its_halves() -> None:
    (joint,) = joints_of(plummer())

    assert (joint.located_by, joint.locators) == ("2 dowels", ("dowel",))


def test_a_spotface_that_is_to_clean_up_says_so_of_its_floor() -> None:
    assert plummer().surface("holding-down floor").clean_up


def test_fillets_are_kept_as_notes() -> None:
    assert "fillet R3 on pedestal, not shown" in plummer().notes


@pytest.mark.derived(by="a plate with a bush: one material's volume each")
def test_a_bush_is_a_piece_of_another_metal() -> None:
    part = part_of(
        '[block.plate]\nwide = "60"\nhigh = "40"\nthick = "10"\n'
        '[hole.seat]\nin = "front"\nsize = "12 H7 through"\n'
        'at = ["centred left to right", "centred bottom to top"]\n'
        '[ring.bush]\naxis = "front to back"\ndiameter = "12 p6"\ninside = "8 H7"\nlong = "12"\n'
        'at = ["level with seat", "back: level with plate back"]\n'
        '[hole.oil]\nin = "plate top"\nsize = "2 to seat"\n'
        'at = ["level with seat left to right", "5 in front of back"]\n'
        '[hole.drip]\nin = "bush front"\nsize = "1 x 3 flat"\n'
        'at = ["level with bush bottom to top", "5 right of bush"]\n'
        '[piece.bush]\nmaterial = "phosphor bronze"\nfeatures = ["bush", "drip"]\n'
        'fixed = "retained"\ninto = "seat"\nbar = "round 14 x 30"\n'
    )
    plate, bush = part.pieces
    wall = over_disc(1, lambda x: 20 - math.sqrt(6**2 - x**2))

    assert told(part) == []
    assert (bush.material, bush.fixed, bush.into) == ("phosphor bronze", "retained", "seat")
    assert bush.features == ("bush", "drip")
    assert bush.blank is not None
    assert bush.blank.across == 14
    assert volume(solid_of_lump(bush.lump)) == pytest.approx(
        round_volume(12, 12) - round_volume(8, 12) - round_volume(1, 3)
    )
    assert volume(solid_of_lump(plate.lump)) == pytest.approx(
        60 * 40 * 10 - round_volume(12, 10) - wall, rel=1e-6
    )
    assert part.surface("front").point[2] == 10, "the front of the part, not of its bush"


def test_a_cut_may_be_shared_with_the_rest() -> None:
    text = (
        '[block.plate]\nwide = "60"\nhigh = "40"\nthick = "10"\n'
        '[hole.seat]\nin = "front"\nsize = "12 H7 through"\n'
        'at = ["centred left to right", "centred bottom to top"]\n'
        '[boss.plug]\naxis = "front to back"\ndiameter = "12 p6"\nlong = "10"\n'
        'at = ["level with seat", "back: level with plate back"]\n'
        '[hole.pin]\nin = "plate top"\nsize = "3 H7 through"\n'
        'at = ["level with seat left to right", "5 in front of back"]\n'
        '[piece.plug]\nmaterial = "brass"\nfeatures = "plug"\nfixed = "pinned"\ninto = "seat"\n'
    )
    part = part_of(text + 'shares = "pin"\n')
    plug = part.pieces[1]
    across = over_disc(1.5, lambda x: 2 * math.sqrt(6**2 - x**2))

    assert part.pieces_of("pin") == ("whole", "plug")
    assert volume(solid_of_lump(plug.lump)) == pytest.approx(
        round_volume(12, 10) - across,
        rel=2e-5,  # where two round walls meet, the kernel follows their curve to a micrometre
    )


def regions() -> tuple[Region, ...]:
    found = [region for name in ("lever", "cylinder", "crank-disc") for region in _of(name)]
    return tuple(found)


def _of(name: str) -> tuple[Region, ...]:
    part = read_part(DRAWINGS / f"{name}.toml")
    return (*part.metal, *part.removed)


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_the_box_round_a_region_is_the_one_its_solid_has(axis: int) -> None:
    for region in regions():
        low, high = reach_of(region)
        box = bounding_box(solid_of(region))
        assert low[axis] == pytest.approx(box.low[axis], abs=1e-4)
        assert high[axis] == pytest.approx(box.high[axis], abs=1e-4)


def test_a_moved_region_keeps_its_volume_and_a_section_lies_in_its_plane() -> None:
    for region in regions():
        moved = shifted(region, (1.0, 2.0, 3.0))
        low, high = reach_of(region)
        middle = (low[1] + high[1]) / 2

        assert reach_of(moved)[0] == pytest.approx((low[0] + 1, low[1] + 2, low[2] + 3))
        for strip in section(region, axis=1, at=middle, thick=0.5):
            assert reach_of(strip)[0][1] == pytest.approx(middle)
            assert reach_of(strip)[1][1] == pytest.approx(middle + 0.5)


@pytest.mark.derived(by="a spigot 20 across and 15 long, on a foot 14 high with its stock")
def test_a_chucking_piece_is_metal_of_the_casting_alone() -> None:
    part = solve(
        read_part_text(
            HEAD.replace('plate = "100 x 120 x 140"', 'casting = "stock 2"')
            + '[block.foot]\nwide = "80"\nhigh = "30"\nthick = "30"\nmachined = "bottom"\n'
            '[boss.spigot]\non = "foot left"\ndiameter = "20"\nlong = "15"\n'
            'at = ["level with foot bottom to top", "level with foot front to back"]\n'
            "comes_off = true\n",
            name="trial.toml",
        )
    )
    (cast,) = as_cast(part)

    assert told(part) == []
    assert volume(finished(part)) == pytest.approx(80 * 30 * 30)
    assert volume(solid_of_lump(cast)) == pytest.approx(80 * 32 * 30 + round_volume(20, 15))
    assert part.surface("left").point[0] == 0
    assert not [one for one in part.surfaces if one.feature == "spigot"]
    assert [one.name for one in part.comes_off] == ["spigot"]  # type: ignore[union-attr]


@pytest.mark.parametrize("name", ["plummer-block", "cylinder"])
def test_a_part_lies_within_its_raw_casting(name: str) -> None:
    part = read_part(DRAWINGS / f"{name}.toml")
    castings = as_cast(part)

    for piece, lump in zip(part.pieces, castings, strict=True):
        over = cut(solid_of_lump(piece.lump), [solid_of_lump(lump)])
        assert volume(over) == pytest.approx(0, abs=1e-6)


def test_the_depth_beyond_a_joint_is_measured_from_the_face_of_that_half() -> None:
    part = plummer()
    (deep,) = (one for one in part.distances if one.name == "stud step 2 deep")

    assert (deep.a, deep.b, deep.band.nominal) == ("base split", "stud step 2 floor", 18)
    assert not [one for one in part.distances if {one.a, one.b} == {"base split", "cap split"}]


def test_a_joint_may_stand_upright() -> None:
    part = part_of(
        '[block.body]\nwide = "60"\nhigh = "40"\nthick = "12"\n'
        '[hole.bolt]\nin = "right"\nsize = ["4 BA clear to slit", "4 BA x 12 beyond slit"]\n'
        'at = ["centred bottom to top", "centred front to back"]\n'
        '[joint.slit]\nat = "25 right of left"\ncut = "saw 2"\nhalves = ["far", "near"]\n'
        'bolts = "bolt"\nlocated_by = "register"\n'
    )
    far, near = (volume(solid_of_lump(piece.lump)) for piece in part.pieces)
    whole = solid_of_lumps(before_the_cut(part, joints_of(part)[0]))

    assert told(part) == []
    assert far > near
    assert bounding_box(whole).high[0] == pytest.approx(62, abs=1e-5)


def test_a_piece_that_is_halved_again_makes_three() -> None:
    part = part_of(
        '[block.body]\nwide = "60"\nhigh = "40"\nthick = "12"\n'
        '[hole.bolt]\nin = "top"\nsize = "4 through"\n'
        'at = ["10 right of left", "centred front to back"]\n'
        '[joint.upper]\nat = "30 above bottom"\ncut = "saw 1"\nhalves = ["cap", "rest"]\n'
        'bolts = "bolt"\nlocated_by = "dowels"\n'
        '[joint.lower]\nat = "10 above bottom"\ncut = "saw 1"\nhalves = ["rest", "foot"]\n'
        'bolts = "bolt"\nlocated_by = "dowels"\n'
    )
    hole_each = round_volume(4, 1)
    highs = {"cap": 10, "rest": 20, "foot": 10}

    assert {piece.name for piece in part.pieces} == set(highs)
    for piece in part.pieces:
        high = highs[piece.name]
        assert volume(solid_of_lump(piece.lump)) == pytest.approx(high * (60 * 12 - hole_each))


def test_a_bore_is_meant_to_lie_in_the_middle_of_its_raw_boss() -> None:
    part = read_part(DRAWINGS / "cylinder.toml")
    meant = {
        (one.surface, one.to): one.within for one in part.requirements if one.kind == "concentric"
    }

    assert meant == {
        ("bore", "barrel"): 1.0,
        ("left-flange", "bore"): 0.1,
        ("right-flange", "bore"): 0.1,
    }
    struck = (
        (DRAWINGS / "cylinder.toml")
        .read_text("utf-8")
        .replace(
            'material = "gunmetal"', 'material = "gunmetal"\nmeant = "not concentric: left-flange"'
        )
    )
    left = solve(read_part_text(struck, name="cylinder.toml"))
    assert ("left-flange", "bore") not in {(one.surface, one.to) for one in left.requirements}


def test_a_face_of_one_metal_is_not_meant_square_to_a_hole_in_another() -> None:
    part = read_part(DRAWINGS / "crank-disc.toml")

    assert not [
        one for one in part.requirements if one.surface.startswith("pin") and one.to == "seat"
    ]
