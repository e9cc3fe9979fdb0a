"""Bad drawings of castings, levers and split parts: each fault found, and named once."""

from pathlib import Path

import pytest

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.errors import Faults
from halfthou.store.part_file import read_part_text

DRAWINGS = Path(__file__).parents[2] / "data" / "drawings"


def text_of(name: str) -> str:
    return (DRAWINGS / f"{name}.toml").read_text("utf-8")


def changed(name: str, *changes: tuple[str, str]) -> Part:
    text = text_of(name)
    for old, new in changes:
        assert old in text, f"{name} has no {old}"
        text = text.replace(old, new)
    return solve(read_part_text(text, name=f"{name}.toml"))


def told(part: Part) -> list[str]:
    return [finding.what for finding in part.findings]


def faults(name: str, *changes: tuple[str, str]) -> list[str]:
    with pytest.raises(Faults) as caught:
        changed(name, *changes)
    return [str(fault).splitlines()[0] for fault in caught.value.exceptions]


def test_halves_that_nothing_holds_together() -> None:
    part = changed("plummer-block", ('bolts = "stud"\n', ""))

    (finding,) = part.findings
    assert finding.what == "nothing holds cap and base together"
    assert finding.why == "split names no bolts"
    assert finding.tries == ('draw a hole through both and write bolts = "stud"',)
    assert finding.grave


def test_bolts_that_do_not_go_through_the_joint() -> None:
    part = changed("plummer-block", ('bolts = "stud"', 'bolts = "holding-down"'))

    assert told(part) == ["holding-down does not hold cap and base together"]


def test_bolts_with_no_dowel_or_register() -> None:
    part = changed("plummer-block", ('located_by = "2 dowels"\n', ""))

    assert told(part) == ["nothing brings cap and base back to one place"]
    assert not part.findings[0].grave


def test_a_joint_that_misses_the_bore() -> None:
    joint = ('[joint.split]\nat = "level with pedestal top"', '[joint.split]\nat = "{}"')
    missed = changed("plummer-block", (joint[0], joint[1].format("16 above foot top")))
    beside = changed("plummer-block", (joint[0], joint[1].format("27 above foot top")))

    assert told(missed) == ["split misses bore: it passes 12.000 mm from its axis"]
    assert missed.findings[0].tries == ('write at = "level with bore bottom to top"',)
    assert told(beside) == ["split cuts bore 1.000 mm beside its middle"]
    assert (missed.findings[0].grave, beside.findings[0].grave) == (True, False)


def test_a_joint_beyond_the_metal() -> None:
    part = changed(
        "plummer-block", ('at = "level with pedestal top"', 'at = "80 above foot bottom"')
    )

    assert told(part) == ["split misses the metal: nothing is left for cap"]


def test_a_boss_in_the_air() -> None:
    part = changed(
        "lever", ('[arm.short]\njoins = "hub and tail"', '[arm.short]\njoins = "hub and eye"')
    )

    (finding,) = part.findings
    assert finding.what == "tail stands in the air: it touches no other metal"
    assert finding.why == "nothing joins it to hub"


def test_an_arm_that_passes_beside_its_boss_leaves_it_in_the_air() -> None:
    part = changed(
        "lever",
        ("back: 2 in front of hub back", "back: 20 in front of hub back"),
        ("16 x 100", "32 x 100"),
    )

    assert told(part) == ["tail stands in the air: it touches no other metal"]


def test_a_casting_smaller_than_its_part() -> None:
    part = changed("plummer-block", ("stock 2, draft 1.5°", "stock 2, over all 96 x 68 x 32"))

    (finding,) = part.findings
    assert finding.what == (
        "the casting is smaller than the part with its stock: "
        "68.000 mm bottom to top against 70.000 mm"
    )
    assert finding.feature == "blank"


def test_a_casting_with_nothing_to_take_off() -> None:
    part = changed("cylinder", ("stock 1.5, draft 1°", "stock 0"))

    assert told(part) == [
        "the casting has no metal to take off chest, barrel, left-flange, right-flange"
    ]


def test_a_throw_larger_than_the_disc() -> None:
    part = changed("crank-disc", ("15 ±0.03 above disc", "20 ±0.03 above disc"))

    assert told(part) == ["seat breaks out of the side of its face"]


def test_a_pin_beside_its_hole() -> None:
    part = changed("crank-disc", ("level with seat bottom to top", "16 above disc"))

    (finding,) = part.findings
    assert finding.what == "pin is not on the axis of seat"
    assert finding.why == "it is pressed into it, and lies 1.000 mm off"


def test_what_nothing_locates_in_a_turned_view_is_one_finding() -> None:
    part = changed("lever", ('    "level with hub left to right in view A",\n', ""))

    assert told(part) == ["nothing locates tail left to right or bottom to top"]


def test_a_place_given_twice_beside_a_turned_view() -> None:
    part = changed(
        "lever", ('    "back: 2 in front', '    "34.4 above hub",\n    "back: 2 in front')
    )

    (finding,) = part.findings
    assert finding.what.startswith("'tail: 34.4 above hub' already follows from [")
    assert finding.what.endswith("they disagree by 0.004 mm")


def test_a_distance_between_axes_that_cannot_be_reached() -> None:
    part = changed("lever", ("18 above hub", "70 above hub"))

    assert "cannot be reached" in " ".join(told(part))


def test_a_leaning_hole_that_passes_beside_its_bore() -> None:
    part = changed(
        "lever",
        ('["level with hub left to right", "9 behind hub front"]',
         '["8 right of hub", "9 behind hub front"]'),
    )  # fmt: skip

    assert told(part) == ["a hole that ends in pivot passes beside it"]


@pytest.mark.parametrize(
    ("name", "old", "new", "first"),
    [
        ("lever", '"hub and tail"', '"hub and hub"', "'hub and hub' does not name two bosses"),
        ("lever", '"hub and tail"', '"hub and pivot"',
         "short joins hub and pivot, and one of them is no boss"),
        ("lever", '"35° anticlockwise"', '"35° left"',
         "'35° left' does not say how the view is turned"),
        ("lever", 'leans = "20° to front"', 'leans = "20°"',
         "'20°' does not say how far it leans, and to which side"),
        ("lever", 'leans = "20° to front"', 'leans = "95° to front"',
         "'95° to front' does not lean"),
        ("lever", 'leans = "20° to front"', 'leans = "20° to top"',
         "what goes in from the top cannot lean to the top"),
        ("lever", "in view A", "in view B", "nothing in this file is called 'B'"),
        ("lever", "42 above hub in view A", "top: 42 above hub in view A",
         "'top: 42 above hub in view A' does not place an axis from another axis"),
        ("lever", '[boss.hub]\naxis = "front to back"\n', "[boss.hub]\n",
         "nothing says which way hub runs"),
        ("lever", '[boss.hub]\naxis = "front to back"', '[boss.hub]\naxis = "sideways"',
         "'sideways' is no direction"),
        ("plummer-block", 'halves = ["cap", "base"]', 'halves = ["cap", "cap"]',
         "split has 1 halves"),
        ("plummer-block", 'bolts = "stud"', 'bolts = "stud"\nmoves = "foot"',
         "'foot' is no half of split"),
        ("plummer-block", 'on = "cap top"', 'on = "cap"',
         "nothing says which way oil-boss runs"),
        ("plummer-block", "stock 2, draft 1.5°", "two inches of metal",
         "'two inches of metal' says nothing of a casting"),
        ("crank-disc", 'fixed = "pressed"', 'fixed = "wedged"', "'fixed' is 'wedged'"),
        ("crank-disc", 'features = "pin"', 'features = "pn"',
         "nothing in this file is called 'pn'"),
        ("crank-disc", '"90° from top"', '"level with disc"',
         "nothing says where round the outside grub enters"),
        ("cylinder", 'copies = "2 at 14 left to right"', 'copies = "2 on 14 circle"',
         "'2 on 14 circle' would turn ports as it goes round"),
        ("click", '"level with right", "level with bottom"',
         '"level with right", "level with back"',
         "'level with back' does not place nose: it has nothing to place front to back"),
    ],
)  # fmt: skip
def test_a_text_that_cannot_be_built_is_named(name: str, old: str, new: str, first: str) -> None:
    assert faults(name, (old, new))[0] == first


def test_a_ring_without_metal_is_a_fault() -> None:
    text = text_of("lever").replace(
        '[boss.hub]\naxis = "front to back"\ndiameter = "24"',
        '[ring.hub]\naxis = "front to back"\ndiameter = "24"\ninside = "24"',
    )
    with pytest.raises(Faults) as caught:
        solve(read_part_text(text, name="lever.toml"))

    assert "hub is 24.000 mm inside and 24.000 mm outside" in str(caught.value.exceptions[0])


def test_bosses_within_each_other_have_no_arm() -> None:
    assert faults(
        "lever", ("60 ±0.05 centres right of hub", "2 right of hub"), ("18 above", "1 above")
    )[0] == ("long joins hub and eye, and one lies within the other")


def test_a_cast_hole_as_wide_as_the_bore_leaves_nothing_to_bore() -> None:
    cored = next(line for line in text_of("plummer-block").splitlines() if "cored" in line)
    part = changed("plummer-block", (cored, 'cored = "140"'))

    (finding,) = part.findings
    assert finding.what.startswith("the casting's hole at bore is 140.000 mm across, and bore ")
    assert finding.why == "the cast hole is bored out to size, so it has to be smaller"
    assert finding.grave
