"""Texts of a part file that cannot stand: each told by its own name, with its place."""

import pytest

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.errors import Faults
from halfthou.store.part_file import read_part_text

HEAD = """
[part]
name = "trial"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"
[blank]
"""
TURNED = (
    HEAD
    + """bar = "round 30 x 80"
[round.body]
diameter = "28"
long = "40"
[round.neck]
diameter = "16 f7"
long = "20"
"""
)
MILLED = (
    HEAD
    + """plate = "40 x 70 x 90"
[block.body]
wide = "80"
high = "60"
thick = "40"
"""
)


def part_of(text: str) -> Part:
    return solve(read_part_text(text, name="trial.toml"))


def told(text: str) -> list[str]:
    """First line and place of every fault."""
    with pytest.raises(Faults) as caught:
        part_of(text)
    lines = str(caught.value).split("\n\n")
    return [" | ".join(line.strip() for line in fault.splitlines()[:2]) for fault in lines]


KEY = '[keyway.key]\nin = "neck"\nwide = "5"\nlong = "8"\n'
AT_EDGE = "where: trial.toml, chamfer.edge"
HOLE = '[hole.bore]\nin = "right"\nsize = "8 through"\n'
FACED = (
    '[hole.bore]\nin = "front"\nsize = "8 through"\nat = ["20 right of left", "20 above bottom"]\n'
)


@pytest.mark.parametrize(
    ("extra", "first"),
    [
        (
            f'{KEY}at = "left: 2 right of neck left"\n',
            "key does not say how deep it goes | where: trial.toml, keyway.key",
        ),
        (
            f'{KEY}leaves = "30"\nat = "left: 2 right of neck left"\n',
            "key leaves 30 of a round 16.000 mm across | where: trial.toml, keyway.key",
        ),
        (
            HOLE + KEY.replace("neck", "bore") + 'deep = "1"\nat = "left: 2 right of left"\n',
            "key is cut into 'bore', which is no round | where: trial.toml, keyway.key",
        ),
        (
            '[groove.ring]\nin = "body"\nwide = "2"\nat = "left: 4 right of left"\n',
            "ring does not say how deep it goes | where: trial.toml, groove.ring",
        ),
        (
            '[chamfer.edge]\non = "neck left"\nsize = "1 x 45°"\n',
            f"'neck left' is an inside corner and has no edge to take off | {AT_EDGE}",
        ),
        (
            '[chamfer.edge]\non = "neck top"\nsize = "1 x 45°"\n',
            "the top of neck is round and has no edge | where: trial.toml, chamfer.edge",
        ),
        (
            '[chamfer.edge]\non = "neck"\nsize = "1 x 45°"\n',
            "'neck' is no edge: it names no side | where: trial.toml, chamfer.edge",
        ),
        (
            '[chamfer.edge]\non = "right"\nsize = "9 x 45°"\n',
            "chamfer 9 x 45° is deeper than neck is thick | where: trial.toml, chamfer.edge",
        ),
        (
            HOLE + '[chamfer.edge]\non = "bore top"\nsize = "1 x 45°"\n',
            f"bore has no mouth on the top: it runs along another direction | {AT_EDGE}",
        ),
        (
            '[chamfer.edge]\non = "right"\nsize = "0 x 45°"\n',
            "'0 x 45°' takes no edge off | where: trial.toml, chamfer.edge size",
        ),
        (
            '[hole.bore]\nin = "neck"\nsize = "8 through"\n',
            "'neck' is no face to cut into: it names no side | where: trial.toml, hole.bore",
        ),
        (
            HOLE + '[hole.oil]\nin = "bore left"\nsize = "3 x 5"\n',
            "there is no face 'bore left' to cut into | where: trial.toml, hole.oil",
        ),
        (
            '[round.end]\nlong = "5"\n',
            "end has no diameter | where: trial.toml, round.end",
        ),
        (
            '[round.end]\ndiameter = "10"\ntaper = "1 in 12"\nat = "right: 70 right of left"\n',
            "end has one diameter and a taper, and no length | where: trial.toml, round.end",
        ),
        (
            '[round.end]\ndiameter = "2"\ntaper = "1 in 12"\nlong = "30"\n',
            "end tapers away to nothing before its right end | where: trial.toml, round.end",
        ),
        (
            '[round.end]\ndiameter = "12"\ntaper = "steep"\nlong = "30"\n',
            "'steep' cannot be read as a taper | where: trial.toml, round.end taper",
        ),
        (
            '[round.end]\ndiameter = "12"\ntaper = "0 in 12"\nlong = "30"\n',
            "'0 in 12' is no taper | where: trial.toml, round.end taper",
        ),
        (
            '[round.end]\ndiameter = "12"\nundercut = "10 wide"\nlong = "30"\n',
            "'10 wide' cannot be read as an undercut | where: trial.toml, round.end undercut",
        ),
        (
            '[round.end]\ndiameter = "0"\nlong = "30"\n',
            "'0' is a size of nothing | where: trial.toml, round.end diameter",
        ),
        (
            '[round.end]\ndiameter = "12 q7"\nlong = "30"\n',
            "'12 q7' names no fit: q7 | where: trial.toml, round.end diameter",
        ),
        (
            '[round.left]\ndiameter = "12"\nlong = "30"\n',
            "'left' cannot be the name of a round | where: trial.toml, round.left",
        ),
        (
            '[round.end]\ndiameter = "12"\nat = "right: 50 right of left"\n',
            "end comes out -10.000 mm long | where: trial.toml, round.end",
        ),
        (
            '[hole.bore]\nin = "right"\nsize = "0 x 5"\n',
            "'0 x 5' is a hole of no diameter | where: trial.toml, hole.bore size",
        ),
        (
            '[hole.bore]\nin = "right"\nsize = "8 through"\ncopies = "1 on 12 circle"\n',
            "'1 on 12 circle' repeats nothing | where: trial.toml, hole.bore copies",
        ),
        (
            '[hole.bore]\nin = "right"\nsize = "8 through"\ncopies = "some"\n',
            "'some' cannot be read as a pattern | where: trial.toml, hole.bore copies",
        ),
        (
            '[hole.bore]\nin = "right"\nsize = "8 through"\nsuits = "anything"\n',
            "'anything' names no mate | where: trial.toml, hole.bore suits",
        ),
        (
            HOLE + 'must = "flange: square to neck within 0.1"\n',
            "nothing in this file is called 'flange' | where: trial.toml, hole.bore must",
        ),
        (
            HOLE + 'must = "square to neck top within 0.1"\n',
            "'neck top' is no surface of this part | where: trial.toml, hole.bore must",
        ),
        (
            '[hole.bore]\nin = "right"\nsize = "8 through"\nnote = " "\n',
            "'note' is empty | where: trial.toml, hole.bore note",
        ),
        (
            '[hole.bore]\nin = "right"\nsize = []\n',
            "'size' is an empty list | where: trial.toml, hole.bore size",
        ),
        (
            '[hole.bore]\nin = ["right"]\nsize = "8 through"\n',
            "'in' is a list and takes one text | where: trial.toml, hole.bore in",
        ),
        (
            '[centres]\nboth = "BS 1/8"\nleft_in = "yes"\n',
            "'left_in' is a text and takes true or false | where: trial.toml, centres left_in",
        ),
        (
            '[hole.bore]\nin = true\nsize = "8 through"\n',
            "'in' is true or false and takes a text | where: trial.toml, hole.bore in",
        ),
        (
            '[hole]\nin = "right"\n',
            "[hole] has no name of its own | where: trial.toml, hole.in",
        ),
        (
            '[hole.bore]\nin = "right"\n',
            "hole.bore does not give 'size' | where: trial.toml, hole.bore",
        ),
        (
            '[centres]\nboth = "BS 9"\n',
            "no centre drill is called 'BS 9' | where: trial.toml, centres both",
        ),
        (
            '[keyway.key]\nin = "neck"\nwide = "5"\nends = "pointed"\n',
            "'ends' is 'pointed' | where: trial.toml, keyway.key ends",
        ),
        (
            '[round.end]\ndiameter = "12"\nlong = "5"\nmachined = "outsde"\n',
            "'machined' is 'outsde' | where: trial.toml, round.end machined",
        ),
    ],
)
def test_a_turned_part_is_refused_with_its_cause(extra: str, first: str) -> None:
    assert told(TURNED + extra)[0] == first


@pytest.mark.parametrize(
    ("extra", "first"),
    [
        (
            FACED.replace('"20 above bottom"', '"20 in front of back"'),
            "'20 in front of back' does not place",
        ),
        (FACED.replace('"20 above bottom"', '"20"'), "'20' cannot be read as a place"),
        (FACED.replace('"20 above bottom"', '"20 above bottom in view A"'), "'20 above bottom in"),
        (
            FACED + '[hole.eye]\nin = "front"\nsize = "6 through"\nat = "20 off bore"\n',
            "'20 off bore' says how far off, and not in which direction",
        ),
        (
            '[chamfer.edge]\non = "body top bottom"\nsize = "1 x 45°"\n',
            "top and bottom of body meet",
        ),
        (
            '[joint.split]\nat = "20 above bottom"\ncut = "saw 1"\nhalves = "cap"\n',
            "split has 1 halves",
        ),
        (
            '[joint.split]\nat = "20 above bottom"\ncut = "somehow"\nhalves = ["a", "b"]\n',
            "'somehow' does not say how the joint comes about",
        ),
        (
            FACED + 'copies = "4 on 20 circle, first at front"\n',
            "an angle on the front cannot begin at the front",
        ),
        ('[centres]\nboth = "BS 1/8"\n', "centres are drilled in turned work"),
        ('[joint.split]\nat = "level with body"\ncut = "saw 1"\nhalves = ["a", "b"]\n',
         "'level with body' does not say in which direction"),
    ],
)  # fmt: skip
def test_a_milled_part_is_refused_with_its_cause(extra: str, first: str) -> None:
    assert told(MILLED + extra)[0].startswith(first)


@pytest.mark.parametrize(
    ("blank", "first"),
    [
        ('bar = "round 30 x 60 x 90"', "'round 30 x 60 x 90' cannot be read as a bar"),
        ('bar = "flat 30 x 60"', "'flat 30 x 60' cannot be read as a bar"),
        ('bar = "round 0 x 60"', "'round 0 x 60' has a size of nothing"),
        ('plate = "30 x 60"', "'30 x 60' cannot be read as a plate"),
        ('plate = "0 x 60 x 70"', "'0 x 60 x 70' has a size of nothing"),
        ("black = true", "the blank is not described"),
        ('bar = "round 30 x 60"\nplate = "1 x 2 x 3"', "the blank is bar and plate"),
        ("", "trial.toml has an empty [blank]"),
    ],
)
def test_a_blank_is_one_lump_and_has_its_sizes(blank: str, first: str) -> None:
    text = TURNED.replace('bar = "round 30 x 80"', blank)

    assert told(text)[0].startswith(first)


@pytest.mark.parametrize(
    ("blank", "form", "size"),
    [
        ('bar = "hexagon 32 x 90"', "hexagon bar", (90, 32, 32)),
        ('bar = "round 32"', "round bar", (0, 32, 32)),
        ('bar = "round 32 x 90"\nblack = true', "round bar", (90, 32, 32)),
        ('casting = "stock 2, draft 1.5°"', "casting", (60, 28, 28)),  # nothing is machined
        ('casting = "as supplied"', "casting", (60, 28, 28)),
    ],
)
def test_a_blank_lies_along_the_part(
    blank: str, form: str, size: tuple[float, float, float]
) -> None:
    part = part_of(TURNED.replace('bar = "round 30 x 80"', blank))

    assert (part.blank.form, part.blank.size) == (form, size)
    assert part.blank.bright == ("black" not in blank and form != "casting")


def test_a_flat_bar_is_turned_to_suit_a_block() -> None:
    part = part_of(MILLED.replace('plate = "40 x 70 x 90"', 'bar = "flat 65 x 45 x 90"'))

    assert part.blank.size == (90, 65, 45)


def test_a_fit_to_a_mate_may_be_free_or_tight_or_only_named() -> None:
    free = part_of(TURNED + HOLE + 'suits = "journal of arbor, 0.02 to 0.04 free, lapped"\n')
    tight = part_of(TURNED + HOLE + 'suits = "journal of arbor, 0.01 to 0.02 tight"\n')
    named = part_of(TURNED + HOLE + 'suits = "journal of arbor"\n')

    assert (free.mates[0].free_low, free.mates[0].free_high) == (0.02, 0.04)
    assert (tight.mates[0].free_low, tight.mates[0].free_high) == (-0.02, -0.01)
    assert (named.mates[0].part, named.mates[0].free_low) == ("arbor", None)


def test_a_groove_may_be_cut_inside_a_bore() -> None:
    part = part_of(
        TURNED + HOLE + '[groove.ring]\nin = "bore"\nwide = "2"\ndeep = "1"\n'
        'at = "left: 4 right of left"\n'
    )
    size = part.surface("ring").size

    assert size is not None
    assert size.nominal == 10
    assert part.surface("ring").inside


def test_a_groove_by_its_depth_leaves_that_much_less() -> None:
    part = part_of(
        TURNED
        + '[groove.ring]\nin = "body"\nwide = "2"\ndeep = "1"\nat = "left: 4 right of left"\n'
    )
    size = part.surface("ring").size

    assert size is not None
    assert size.nominal == 26


def test_a_keyway_by_its_depth_leaves_the_rest() -> None:
    part = part_of(
        TURNED + '[keyway.key]\nin = "neck"\nwide = "5"\nlong = "8"\ndeep = "3"\n'
        'at = ["left: 2 right of neck left", "front"]\n'
    )

    assert part.surface("key floor").point == (46, 0, 5)


def test_a_centre_as_wide_as_its_end_is_told() -> None:
    part = part_of(TURNED + '[round.tip]\ndiameter = "3"\nlong = "5"\n[centres]\nright = "A5"\n')

    assert [one.what for one in part.findings] == [
        "the centre in the right end is as wide as the end"
    ]


def test_a_hole_meant_to_end_in_another_that_passes_beside_it_is_told() -> None:
    part = part_of(
        MILLED + FACED + '[hole.oil]\nin = "top"\nsize = "3 to bore"\n'
        'at = ["40 right of left", "centred front to back"]\n'
    )

    assert [one.what for one in part.findings] == ["a hole that ends in bore passes beside it"]


def test_sides_not_named_as_machined_stay_as_bought() -> None:
    part = part_of(
        MILLED.replace('thick = "40"', 'thick = "40"\nmachined = "top, front clean up"')
    )

    assert {one.name for one in part.surfaces if not one.raw} == {"top", "front"}


def test_a_step_is_trimmed_from_the_sides_it_opens_into() -> None:
    part = part_of(
        MILLED + '[step.ledge]\nin = "top"\ndeep = "10"\nat = "right: 30 right of left"\n'
    )

    assert part.surface("top").low[0] == 30
    assert part.surface("left").high[1] == 50
    assert part.surface("front").high == (80, 60, 40)


def test_the_sides_of_the_part_are_those_of_whichever_body_reaches_furthest() -> None:
    part = part_of(
        MILLED.replace("40 x 70 x 90", "40 x 80 x 130")
        + '[block.ear]\nwide = "20"\nhigh = "15"\nthick = "40"\n'
        'at = ["left: level with body right", "bottom: level with body top", '
        '"centred on body front to back"]\n'
        '[block.lug]\nwide = "20"\nhigh = "60"\nthick = "40"\n'
        'at = ["right: level with body left", "bottom: level with body bottom", '
        '"centred on body front to back"]\n'
        '[hole.pin]\nin = "front"\nsize = "6 through"\n'
        'at = ["10 right of left", "centred bottom to top"]\n'
    )

    assert part.surface("left").feature == "lug"
    assert part.surface("top").feature == "ear"
    assert part.surface("pin").point == (10, 37.5, 40)


def test_holes_on_a_circle_are_in_position_by_the_general_tolerance_where_none_is_stated() -> None:
    part = part_of(
        TURNED
        + '[hole.ring]\nin = "left"\nsize = "3 x 6"\ncopies = "4 on 22 circle, first at top"\n'
    )
    position = [one for one in part.requirements if one.kind == "position"]

    assert [one.surface for one in position] == ["ring", "ring 2", "ring 3", "ring 4"]
    assert {(one.to, one.origin) for one in position} == {("neck", "general")}
    assert position[0].within == pytest.approx(0.4)


def test_a_circle_on_the_top_begins_at_the_back_unless_it_says_otherwise() -> None:
    part = part_of(
        MILLED + '[hole.ring]\nin = "top"\nsize = "4 x 8"\ncopies = "4 on 20 circle"\n'
        'at = ["centred left to right", "centred front to back"]\n'
    )

    assert part.surface("ring").point == (40, 60, 10)


def test_a_block_beside_turned_metal_is_placed_from_it() -> None:
    part = part_of(
        TURNED + '[block.head]\nwide = "10"\nhigh = "12"\nthick = "12"\n'
        'at = ["left: level with neck right", "centred on neck bottom to top", '
        '"centred on neck front to back"]\n'
    )

    assert part.surface("head top").point == (65, 6, 0)
    assert not part.turned


def test_the_walls_of_a_pocket_are_held_against_the_stated_limit() -> None:
    part = part_of(
        MILLED.replace('units = "mm"', 'units = "mm"\nwall = "3"')
        + '[pocket.well]\nin = "front"\nwide = "20"\nhigh = "20"\ndeep = "38"\n'
        'at = ["left: 2 right of left", "bottom: 20 above bottom"]\n'
    )

    assert [one.what for one in part.findings] == [
        "the wall between well and body left is 2.000 mm against 3.000 mm",
        "the wall between well floor and body back is 2.000 mm against 3.000 mm",
    ]
