"""The plummer block sawn from one lump, and a cap too high for the drill."""

from __future__ import annotations

import pytest

from halfthou.planning.cast.joint_holes import BEFORE
from halfthou.planning.metal import before_the_saw, prove_pieces, stages_by_piece
from halfthou.planning.working.whole import work_out
from halfthou.shapes.solids import bounding_box, volume
from halfthou.workshop.default import default_workshop
from tests.unit.planning.cast.plummer import (
    SAWN,
    TWO_CASTINGS,
    case_of,
    done,
    part_of,
    places,
    plan_of,
)

HIGH = TWO_CASTINGS.replace('high = "22"', 'high = "48"')


@pytest.mark.published(source="R. Griffin on one-piece straps: bolt holes before the saw")
def test_bolt_holes_go_through_the_lump_before_it_is_sawn() -> None:
    plan = plan_of(SAWN)
    at = places(plan)
    holes = [at[key] for key in at if key.endswith(BEFORE)]

    assert holes
    assert max(holes) < at["saw through split"] < at["bolt up"]


def test_sawing_first_and_clamping_the_faced_halves_is_the_other_way() -> None:
    ways = next(a for a in case_of(SAWN).alternatives if a.name.startswith("stud"))

    assert {all(key.endswith(BEFORE) for key in bundle) for bundle in ways.bundles} == {
        True,
        False,
    }


def test_the_lump_is_a_kerf_and_two_skims_higher_than_its_halves_together() -> None:
    plan = plan_of(SAWN)
    lump = before_the_saw(plan)[0]
    halves = stages_by_piece(plan.lumps, ())[0]
    apart = sum(volume(half) for half in halves.values())
    section = 52 * 32 - 14 * 32

    assert bounding_box(lump).size[1] == pytest.approx(70 + 1.5 + 2 * 0.5)
    assert volume(lump) == pytest.approx(apart + section * 1.5, rel=2e-2)


def test_after_the_saw_each_half_is_proved_by_itself() -> None:
    plan = plan_of(SAWN)

    prove_pieces(part_of(SAWN), plan.lumps, plan.set_ups)


def test_before_the_saw_the_drill_goes_a_kerf_and_two_skims_deeper() -> None:
    operations = {op.key: op for op in case_of(SAWN).operations}
    clamped, lump = (operations[f"stud drill step 2{end}"] for end in ("", BEFORE))

    assert lump.ends - clamped.ends == pytest.approx(1.5 + 2 * 0.5)


def test_the_saw_goes_over_the_skim_of_the_half_that_stays() -> None:
    worked = work_out(plan_of(SAWN), part_of(SAWN), default_workshop())
    (saw,) = [s for u in worked.set_ups for s in u.steps if s.operations[0].verb == "saw"]

    assert saw.check is not None
    assert saw.check.expect == pytest.approx(40 + 0.5 + 0.75)


def test_marked_out_the_joint_of_the_half_that_moves_stands_a_kerf_further_out() -> None:
    worked = work_out(plan_of(SAWN), part_of(SAWN), default_workshop())
    marks = {m.what: m.height for m in worked.set_ups[0].steps[0].marks if m.kind == "line"}

    assert marks["bottom"] == pytest.approx(12)
    assert marks["base split"] == pytest.approx(40)
    assert marks["cap split"] == pytest.approx(42.5)


def test_where_the_drill_does_not_reach_the_base_is_spotted_through_the_cap() -> None:
    plan = plan_of(HIGH)
    at = places(plan)

    assert at["stud drill step 1"] < at["stud spot through the cap"] < at["stud drill step 2"]
    assert at["stud tap step 2"] < at["bolt up"]
    assert done(plan, verbs={"drill"}, piece="base", feature="stud") == ["stud drill step 2"]


def test_the_pop_of_the_bore_lies_on_the_middle_of_the_raw_casting() -> None:
    worked = work_out(plan_of(TWO_CASTINGS), part_of(TWO_CASTINGS), default_workshop())
    sheet = [m for step in worked.set_ups[0].steps for m in step.marks if m.kind == "pop"]

    assert [round(m.height, 6) for m in sheet] == [0.0, 0.0]
    assert {m.datum for m in sheet} == {
        "middle of cap left and cap right",
        "middle of left and right",
    }
