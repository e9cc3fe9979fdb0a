"""What stands in the way on a casting: metal that swings, walls beside holes, heads of bolts."""

from __future__ import annotations

import math

import pytest

from halfthou.drawing.model import Hole
from halfthou.planning.cast.body import metal_of
from halfthou.planning.cast.pieces import pieces_of
from halfthou.planning.cast.reach import head_radius, needed_out, stands_out, under_a_head
from halfthou.planning.working.whole import work_out
from halfthou.workshop.default import default_workshop
from tests.unit.planning.cast.plummer import (
    STANDS_PROUD,
    TWO_CASTINGS,
    case_of,
    part_of,
    places,
    plan_of,
)

CLOSE_TO_THE_STUDS = TWO_CASTINGS.replace(
    '"11 right of cap left", "5 in front', '"8 right of cap left", "7 in front'
).replace('"2 at 30 left to right"', '"2 at 36 left to right"')


def test_a_face_is_not_turned_where_the_foot_stands_proud_of_it() -> None:
    turned = {
        "face back across the joint in the lathe",
        "face front across the joint in the lathe",
    }

    assert not any(s.can & turned for s in case_of(STANDS_PROUD).schemes)
    assert any(s.can & turned for s in case_of(TWO_CASTINGS).schemes)


def test_holes_beside_the_pedestal_are_drilled_before_the_cap_is_on() -> None:
    at = places(plan_of(TWO_CASTINGS))

    assert all(at[key] < at["bolt up"] for key in at if key.startswith("holding-down"))


@pytest.mark.derived(
    by="28 + 2 of wall over the foot, 2 deep, 1 free; with the cap on 50 + 2 more"
)
def test_how_far_a_drill_stands_out_beside_a_wall() -> None:
    case = case_of(TWO_CASTINGS)
    spot = next(op for op in case.operations if op.key == "holding-down spot")
    base = next(lump for lump in case.lumps if lump.name == "base")
    pieces = pieces_of(part_of(TWO_CASTINGS))
    alone = needed_out(metal_of(pieces, (base.name,)), spot)
    joined = needed_out(metal_of(pieces, pieces.names), spot)

    assert alone == pytest.approx(30 + spot.ends + 1)
    assert alone <= stands_out(spot) < joined


@pytest.mark.derived(by="12 from axis to wall: 2 x 11 across; 30 of wall, 2.5 or so deep, 1 free")
def test_a_centre_drill_beside_a_wall_is_in_a_slim_holder() -> None:
    worked = work_out(plan_of(TWO_CASTINGS), part_of(TWO_CASTINGS), default_workshop())
    (spot,) = [
        s
        for one in worked.set_ups
        for s in one.steps
        if s.operations[0].key == "holding-down spot"
    ]
    told = next(r for r in spot.remarks if "no chuck comes down" in r)

    assert "not over Ø22" in told
    assert f"{math.ceil(30 + spot.operations[0].ends + 1)} out of the chuck" in told


@pytest.mark.published(source="BS 1083: 1/4 BSF hexagon 0.445 in across flats, so 13.05 corners")
def test_the_head_of_a_bolt_reaches_out_to_its_corners() -> None:
    bolts = next(
        f for f in part_of(TWO_CASTINGS).features if isinstance(f, Hole) and f.name == "stud"
    )

    assert 2 * head_radius(bolts) == pytest.approx(13.05, abs=0.01)


def test_dowels_under_a_bolt_head_are_not_drilled_bolted_up() -> None:
    for text, hidden in ((CLOSE_TO_THE_STUDS, True), (TWO_CASTINGS, False)):
        ream = next(op for op in case_of(text).operations if op.key == "dowel ream")
        assert under_a_head(pieces_of(part_of(text)), ream) is hidden
    bolted = [
        s for s in case_of(CLOSE_TO_THE_STUDS).schemes if ("cap", "together") in s.piece_state
    ]

    assert not any("dowel ream" in s.can for s in bolted)


def test_dowels_are_in_before_a_face_is_cut_across_both_halves() -> None:
    at = places(plan_of(TWO_CASTINGS))
    across = [at[key] for key in at if key.endswith("across the joint")]

    assert across
    assert at["fit the dowels"] < min(across)


def test_clamps_press_only_on_what_stands_on_the_table() -> None:
    held = [s for s in case_of(TWO_CASTINGS).schemes if "clamps on the foot back" in s.key]

    assert held == []


def test_the_saddle_goes_past_a_bore_whichever_end_is_out() -> None:
    worked = work_out(plan_of(TWO_CASTINGS), part_of(TWO_CASTINGS), default_workshop())
    steps = [s for one in worked.set_ups for s in one.steps if s.operations[0].verb == "bore"]

    for step in steps:
        gone = [m.to for m in step.moves if m.slide == "saddle"]
        assert gone == pytest.approx([29.0])
        assert step.tool_out is not None
        assert step.tool_out > max(gone)


def test_a_bore_made_to_its_mate_comes_to_size_by_cuts_alike() -> None:
    worked = work_out(plan_of(TWO_CASTINGS), part_of(TWO_CASTINGS), default_workshop())
    last = [s for one in worked.set_ups for s in one.steps if s.operations[0].verb == "bore"][-1]

    assert sum(one.count for one in last.passes) >= 2
    assert last.check is not None
    assert last.check.what == "bore before the last cut"
