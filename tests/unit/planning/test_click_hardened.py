"""The click of the winding barrel: squared, drilled, slit, slanted, hardened, tempered, lapped."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.errors import NoPlan
from halfthou.planning.assemble import Case
from halfthou.planning.make_plan import make_plan
from halfthou.planning.milled.case import case_milled
from halfthou.planning.milled.lump import part_extents
from halfthou.planning.milled.slants import over_the_slant, slants, stands_over
from halfthou.planning.milled.squared import squared
from halfthou.planning.model import Plan
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop

TEXT = Path(__file__).parents[2].joinpath("data", "drawings", "click.toml").read_text("utf-8")


def drawn(text: str = TEXT) -> Part:
    return solve(read_part_text(text, name="click.toml"))


@cache
def case_of(text: str = TEXT) -> Case:
    return case_milled(drawn(text), default_workshop())


@cache
def plan() -> Plan:
    return make_plan(drawn(), default_workshop())


def set_up_of(key: str) -> int:
    return next(n for n, s in enumerate(plan().set_ups) if any(o.key == key for o in s.operations))


def before(first: str, then: str) -> str:
    return next(
        (o.rule for o in case_of().orders if (o.before, o.after) == (first, then) and o.hard), ""
    )


def test_the_click_is_planned_judged_and_proved_down_to_its_last_lapping() -> None:
    verbs = [op.verb for s in plan().set_ups for op in s.operations]

    assert verbs[0] == "saw"
    assert verbs[-4:] == ["deburr", "harden", "temper", "lap"]


def test_both_slants_at_one_end_are_milled_in_one_grip_the_vice_set_over() -> None:
    number = set_up_of("mill nose")
    scheme = plan().set_ups[number].scheme

    assert number == set_up_of("mill rear")
    assert scheme.key.endswith("set over for the slant")
    assert abs(scheme.faces[2]) == 1
    assert scheme.jaws is not None


def test_an_end_that_a_slant_takes_is_squared_drilled_from_and_only_then_slanted() -> None:
    assert before("mill right", "mill nose") == "square sides before the slant"
    assert before("mill right", "pivot ream") == "cut a face before locating from it"
    assert before("pivot ream", "mill nose") == "use a side before the slant takes it"


def test_a_side_that_a_slant_takes_whole_is_a_face_of_its_own_while_it_is_worked() -> None:
    part = squared(drawn())
    size = next(d for d in part.distances if "46" in d.band.text)

    assert part.surface("right").name == "right"
    assert part.surface("right").point[0] == pytest.approx(55)
    assert {size.a, size.b} == {"pivot", "right"}


@pytest.mark.derived(by="a right-angled triangle: 14 high at 15°, 16 long at 20°")
def test_a_slant_is_as_deep_as_the_corner_that_stands_over_it() -> None:
    part = drawn()
    nose, rear = slants(part)
    body = part_extents(part)
    alone = {f.name: over_the_slant(stands_over(body, f, ()), f) for f in (nose, rear)}

    assert alone["nose"] == pytest.approx(14 * math.sin(math.radians(15)))
    assert alone["rear"] == pytest.approx(16 * math.sin(math.radians(20)))


@pytest.mark.derived(by="shoelace corner of the two slants, hand arithmetic")
def test_a_slant_cut_after_its_neighbour_has_only_the_corner_left_by_it_to_take() -> None:
    part = drawn()
    nose, rear = slants(part)
    tan15, tan20 = math.tan(math.radians(15)), math.tan(math.radians(20))
    after = over_the_slant(stands_over(part_extents(part), rear, (nose,)), rear)
    top = (55 - 14 * tan15, 14.0)
    beyond = (top[0] - 39) * math.sin(math.radians(20))

    assert after == pytest.approx(beyond)
    assert after < 16 * math.sin(math.atan(tan20))


def test_a_reamed_hole_is_drilled_and_reamed_without_letting_go() -> None:
    assert ("pivot drill", "pivot ream") in {(o.before, o.after) for o in case_of().at_once}


def test_a_shallow_slit_in_a_stout_bar_does_not_have_to_come_last() -> None:
    assert before("mill nose", "mill spring") == ""


def test_what_is_hardened_is_told_its_quench_and_the_colour_with_its_heat() -> None:
    said = {op.verb: op.remark for op in case_of().operations}

    assert "into oil" in said["harden"]
    assert "dark straw, about 245 °C" in said["temper"]


def test_silver_steel_goes_into_water_and_brass_is_refused() -> None:
    silver = case_of(TEXT.replace('"gauge plate"', '"silver steel"'))
    said = next(op.remark for op in silver.operations if op.verb == "harden")

    assert "into water" in said
    with pytest.raises(NoPlan) as caught:
        case_of(TEXT.replace('"gauge plate"', '"brass"'))
    assert str(caught.value) == (
        "the click is to be hardened and brass does not harden\n"
        "  where: [part] treatment\n"
        "  why: a quench hardens steel with carbon enough in it, and no other metal\n"
        "  try: silver steel or gauge plate"
    )


def test_slants_that_leave_too_little_to_hold_are_refused_by_name() -> None:
    stub = (
        TEXT.replace("right: 46 ±0.05", "right: 20 ±0.05")
        .replace('"30 right of pivot", "level with top"', '"4 right of pivot", "level with top"')
        .replace('at = ["22 right', 'at = ["8 right')
        .replace('at = "14 right', 'at = "2 right')
    )
    refused = {r.operation: r.reason for r in case_of(stub).refused}

    assert refused["mill rear"].startswith("with the right end out far enough only")


WEDGE = """
[part]
name = "wedge"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"
[blank]
bar = "flat 30 x 20 x 70"
[block.body]
wide = "60"
high = "28"
thick = "20"
[face.slope]
in = "top"
leans = "8° to front"
at = ["level with top", "15 behind front"]
"""
STRUT = """
[part]
name = "strut"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"
[blank]
bar = "flat 20 x 10 x 110"
[block.body]
wide = "100"
high = "20"
thick = "10"
[hole.bolt]
in = "front"
size = "8 H7 reamed through"
at = ["15 ±0.05 right of left", "centred bottom to top"]
[face.a]
in = "left"
leans = "45° to top"
at = ["level with left", "level with bottom"]
[face.b]
in = "right"
leans = "45° to bottom"
at = ["level with right", "level with top"]
"""


def test_a_slant_longer_than_any_end_mill_reaches_is_refused_with_the_mill_it_wants() -> None:
    with pytest.raises(NoPlan) as caught:
        make_plan(drawn(WEDGE), default_workshop())

    assert str(caught.value) == (
        "the wedge has work that nothing here can hold or reach: mill slope\n"
        "  why: machine vice, set over: slope is cut with the side of the cutter, and no end mill "
        "with flutes 61 long is here\n"
        "  try: end mill with flutes 61 long, or file it to a line"
    )


def test_slants_at_both_ends_are_milled_in_two_grips_after_the_hole_placed_from_an_end() -> None:
    done = make_plan(drawn(STRUT), default_workshop())
    keys = [op.key for s in done.set_ups for op in s.operations]
    over = [s.scheme.out for s in done.set_ups if "set over" in s.scheme.key]

    assert keys.index("bolt ream") < keys.index("mill a")
    assert sorted(over) == ["left", "right"]


def test_a_length_between_two_ends_that_slants_take_is_measured_between_the_ends() -> None:
    long = next(d for d in squared(drawn(STRUT)).distances if d.band.nominal == 100)

    assert {long.a, long.b} == {"left", "right"}


def test_an_end_stands_out_of_the_jaws_by_whole_millimetres() -> None:
    scheme = plan().set_ups[set_up_of("mill nose")].scheme

    assert scheme.out_by == pytest.approx(27)


def test_a_small_slant_with_nothing_close_on_it_may_be_filed_to_a_line_instead() -> None:
    plain = TEXT.replace('must = "parallel to pivot within 0.03"', "")
    choice = {a.name: a.bundles for a in case_of(plain).alternatives}
    done = make_plan(drawn(plain), default_workshop())

    assert choice["nose: how cut"] == (("mill nose",), ("file nose",))
    assert {"file nose", "file rear"} <= {o.key for s in done.set_ups for o in s.operations}
    assert "nose: how cut" not in {a.name for a in case_of().alternatives}
