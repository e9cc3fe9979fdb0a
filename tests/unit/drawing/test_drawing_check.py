"""What the check of a drawing notices: the nearest cause by its own name, and nothing else."""

from importlib.resources import files
from pathlib import Path

import pytest

from halfthou.drawing.model import Finding, Part
from halfthou.drawing.solve import solve
from halfthou.errors import Faults
from halfthou.store.part_file import read_part_text

DATA = Path(__file__).parents[2] / "data" / "parts"
PLATE = (DATA / "flange-plate.toml").read_text("utf-8")
ARBOR = files("halfthou.demo").joinpath("arbor.toml").read_text("utf-8")
DOWEL_AT = 'at = ["12 right of left", "12 above bottom"]'
SPIGOT_AT = 'at = ["centred left to right", "centred bottom to top"]'


def part_with(text: str, *changes: tuple[str, str]) -> Part:
    for before, after in changes:
        assert before in text
        text = text.replace(before, after, 1)
    return solve(read_part_text(text, name="trial.toml"))


def only(part: Part) -> str:
    (finding,) = part.findings
    return "\n".join(
        (finding.what, f"  why: {finding.why}", f"  try: {', or '.join(finding.tries)}")
    )


def whats(part: Part) -> list[str]:
    return [finding.what for finding in part.findings]


def test_what_nothing_locates_is_told_by_direction() -> None:
    part = part_with(PLATE, (DOWEL_AT, 'at = "12 right of left"'))

    assert only(part) == (
        "nothing locates dowel bottom to top\n"
        "  why: no dimension ties hole dowel to another surface in that direction\n"
        '  try: give it at = "12 above bottom", or at = "centred bottom to top"'
    )
    assert part.findings[0].grave


def test_a_hole_without_any_place_is_one_finding() -> None:
    part = part_with(PLATE, ('at = "level with spigot" ', ""), ("first at top", "first at top"))

    assert whats(part) == ["nothing locates ring left to right or bottom to top"]


def test_what_hangs_on_something_loose_is_not_told_too() -> None:
    part = part_with(PLATE, (SPIGOT_AT, 'at = "centred left to right"'))

    assert whats(part) == ["nothing locates spigot bottom to top"]


def test_a_body_without_one_of_its_sizes_is_told() -> None:
    part = part_with(PLATE, ('thick = "10"\n', ""))

    assert only(part) == (
        "nothing says how far plate reaches front to back\n"
        "  why: block plate has neither a size nor two placed sides in that direction\n"
        '  try: give it thick = "10", or place both sides with at'
    )


def test_a_dimension_given_twice_that_agrees_goes_in_brackets() -> None:
    part = part_with(PLATE, (SPIGOT_AT, SPIGOT_AT.replace("]", ', "50 right of left"]')))

    assert only(part) == (
        "'spigot: 50 right of left' already follows from "
        "[plate wide 100, spigot centred left to right]: they agree\n"
        "  why: with a tolerance on each, a part can keep some and miss the others\n"
        "  try: put one in brackets, as a reference dimension"
    )
    assert not part.findings[0].grave


def test_in_brackets_it_is_no_longer_told() -> None:
    part = part_with(PLATE, (SPIGOT_AT, SPIGOT_AT.replace("]", ', "(50) right of left"]')))

    assert whats(part) == []


def test_a_wrong_reference_dimension_is_told() -> None:
    part = part_with(PLATE, (SPIGOT_AT, SPIGOT_AT.replace("]", ', "(51) right of left"]')))

    assert whats(part) == [
        "the reference dimension 'spigot: (51) right of left' comes out 1.000 mm smaller"
    ]


def test_dimensions_that_disagree_are_told_by_how_much_and_from_which() -> None:
    part = part_with(PLATE, (SPIGOT_AT, SPIGOT_AT.replace("]", ', "51 right of left"]')))

    assert only(part) == (
        "'spigot: 51 right of left' already follows from "
        "[plate wide 100, spigot centred left to right]: they disagree by 1.000 mm\n"
        "  why: a place that is given twice can only be in one of the two\n"
        "  try: take one of them out, or correct the one that is wrong"
    )
    assert part.findings[0].grave


def test_a_hole_beside_the_metal_is_told() -> None:
    part = part_with(PLATE, (DOWEL_AT, 'at = ["112 right of left", "12 above bottom"]'))

    assert only(part) == (
        "dowel goes into no metal\n"
        "  why: nothing lies below the place where it starts\n"
        "  try: check its at, or check the face it goes in"
    )
    assert part.findings[0].at == (112, 12, 0)


def test_a_hole_over_the_edge_is_told() -> None:
    part = part_with(PLATE, (DOWEL_AT, 'at = ["1 right of left", "12 above bottom"]'))

    assert whats(part) == ["dowel breaks out of the side of its face"]


def test_a_pocket_outside_the_metal_is_told() -> None:
    part = part_with(PLATE, ("right: 6 left of right", "left: 6 right of right"))

    assert whats(part) == ["relief cuts nothing: it lies outside the metal"]


def test_a_wall_thinner_than_stated_is_told() -> None:
    part = part_with(PLATE, ('units = "mm"', 'units = "mm"\nwall = "5"'), ("H7 x 6", "H7 x 8"))

    assert only(part) == (
        "the wall between dowel floor and the far side is 2.000 mm against 5.000 mm\n"
        "  why: the part states how thin a wall may be\n"
        "  try: move one of them, or make one of them smaller"
    )


def test_holes_that_run_into_each_other_are_told() -> None:
    part = part_with(PLATE, ("6 on 56 circle", "6 on 44 circle"))

    assert whats(part) == ["spigot breaks into ring: they overlap by 0.750 mm"]


def test_a_thread_deeper_than_its_hole_is_told() -> None:
    part = part_with(PLATE, ('size = "4 H7 x 6"', 'size = ["M4 x 8", "3.3 x 6"]'))

    assert only(part) == (
        "the thread of dowel is deeper than its hole\n"
        "  why: 'M4 x 8' goes 8.000 mm deep and '3.3 x 6' 6.000 mm\n"
        "  try: drill deeper: three pitches past the thread, or make the thread shorter"
    )


@pytest.mark.parametrize(
    ("blank", "told"),
    [
        ("9 x 110 x 90", "the blank is smaller than the part: 9.000 mm thick against 10.000 mm"),
        ("12 x 95 x 90", "the blank is smaller than the part: 95.000 mm long against 100.000 mm"),
    ],
)
def test_a_blank_smaller_than_the_part_is_told(blank: str, told: str) -> None:
    assert whats(part_with(PLATE, ("12 x 110 x 90", blank))) == [told]


def test_a_plate_is_turned_so_that_its_sizes_lie_along_the_parts_own() -> None:
    part = part_with(PLATE, ("12 x 110 x 90", "90 x 12 x 110"))

    assert part.blank.size == (110, 90, 12)


def test_a_keyway_past_the_end_of_its_round_is_told() -> None:
    part = part_with(ARBOR, ('long = "1"', 'long = "2 1/2"'))

    assert whats(part) == ["key reaches 0.500 in past the end of seat"]


def test_a_keyway_with_no_place_along_its_round_is_told() -> None:
    part = part_with(ARBOR, ('"left: 1/4 right of seat left", ', ""))

    assert whats(part) == ["nothing locates key left to right"]


def test_a_bar_that_nobody_sells_is_told_and_is_not_grave() -> None:
    part = part_with(ARBOR, ("round 1 1/4 x", "round 1 5/32 x"))

    assert whats(part) == ["no usual round bar measures 1.1562 in across"]
    assert not part.findings[0].grave


def meant(part: Part) -> list[str]:
    return [one.text for one in part.requirements if one.origin == "taken as meant"]


def test_diameters_on_one_line_are_meant_to_run_true_unless_it_is_stated() -> None:
    part = part_with(ARBOR)
    by_text = {one.text: one for one in part.requirements}

    assert by_text["collar concentric with journal"].within == 0.1
    assert "seat concentric with journal" not in by_text, "its run-out is stated"


@pytest.mark.derived(by="half of IT7 at 12.7 mm, 0.018 / 2")
def test_two_fitted_diameters_are_meant_true_within_half_the_tighter_fit() -> None:
    part = part_with(ARBOR, ('long = "2"\nmust = "run-out to journal within .001"', 'long = "2"'))
    by_text = {one.text: one for one in part.requirements}

    assert by_text["far-journal concentric with journal"].within == pytest.approx(0.009)


@pytest.mark.derived(by="0.02 in 50 over a collar of 28.575")
def test_a_face_that_meets_a_fitted_diameter_is_meant_square() -> None:
    square = next(
        one for one in part_with(ARBOR).requirements if one.text.startswith("collar left square")
    )

    assert square.within == pytest.approx(0.02 * 28.575 / 50)


def test_what_is_meant_can_be_struck_out() -> None:
    struck = 'units = "in"\nmeant = ["not concentric: collar", "not square"]'
    part = part_with(ARBOR, ('units = "in"', struck))

    assert meant(part) == ["end concentric with journal"]


def test_a_finding_says_where_on_the_part_it_is() -> None:
    part = part_with(ARBOR, ('long = "1"', 'long = "2 1/2"'))
    finding: Finding = part.findings[0]

    assert finding.feature == "key"
    assert finding.at is not None


def test_a_copy_of_a_hole_that_lies_off_the_plate_is_told_by_its_number() -> None:
    part = part_with(PLATE, ('copies = "2 at 76', 'copies = "2 at 110'))

    assert "dowel 2 goes into no metal" in whats(part)


def test_a_pocket_is_not_rounder_than_half_its_width() -> None:
    with pytest.raises(Faults) as caught:
        part_with(PLATE, ('corners = "R3"', 'corners = "R12"'))

    assert "corners of R12 do not fit relief" in str(caught.value)
