"""The click's numbers: the vice set over by clock and dials, the saw's own speed, the pin."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

from halfthou.drawing.solve import solve
from halfthou.planning.make_plan import make_plan
from halfthou.planning.milled.slants import slants
from halfthou.planning.worked import Step, Worked
from halfthou.planning.working import words
from halfthou.planning.working.slants import STOPS_BY_JAWS, SetOver, set_over
from halfthou.planning.working.slitting import jaw_beside_saw, saw_diameter
from halfthou.planning.working.task import Task
from halfthou.planning.working.whole import work_out
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop

TEXT = Path(__file__).parents[3].joinpath("data", "drawings", "click.toml").read_text("utf-8")


@cache
def planned() -> tuple[Task, Worked]:
    part, shop = solve(read_part_text(TEXT, name="click.toml")), default_workshop()
    plan = make_plan(part, shop)
    number = next(
        n for n, s in enumerate(plan.set_ups, start=1) if s.operations[0].key == "mill nose"
    )
    return Task(part=part, workshop=shop, plan=plan, number=number), work_out(plan, part, shop)


def step_of(key: str) -> Step:
    return next(
        step for u in planned()[1].set_ups for step in u.steps if step.operations[0].key == key
    )


def over(name: str) -> SetOver:
    face = next(f for f in slants(planned()[0].part) if f.name == name)
    return set_over(planned()[0], face, lead=2.0, room=22.4)


@pytest.mark.derived(by="22·tan 15° and 22·tan 20°, hand arithmetic")
@pytest.mark.parametrize(("name", "angle", "rise"), [("nose", 15, 5.895), ("rear", 20, 8.007)])
def test_the_vice_is_set_over_by_whole_turns_along_and_the_tangent_across(
    name: str, angle: float, rise: float
) -> None:
    one = over(name)

    assert one.angle == pytest.approx(math.radians(angle))
    assert one.run == 22.0
    assert abs(one.rise) == pytest.approx(rise, abs=0.0005)


def test_the_two_slants_of_one_corner_turn_the_vice_opposite_ways() -> None:
    assert over("nose").left != over("rear").left
    assert over("nose").rise * over("rear").rise < 0


@pytest.mark.derived(by="14·sin 15° to the nearest division of 0.02")
def test_a_slant_is_cut_in_from_its_highest_corner_by_the_depth_that_stands_over_it() -> None:
    step = step_of("mill nose")
    last = [m for m in step.moves if m.slide == "table"][-1]

    assert abs(last.to) == pytest.approx(3.62)
    assert step.check is not None
    assert step.check.what == (
        "strip of the right face still standing at the bottom edge before the last cut"
    )
    assert {m.last for m in step.moves if m.slide == "table"} == {"left"}


@pytest.mark.derived(by="9 + 30 from the left end, hand arithmetic")
def test_a_slant_that_starts_on_a_side_is_measured_along_it() -> None:
    edge = step_of("mill rear").measures[0]

    assert edge.aim == pytest.approx(39.0)
    assert edge.where == "edge on the top face, from the left face"


@pytest.mark.derived(
    by="a last cut of 0.10 square to a slant of 20°: 0.10 / sin 20° along the top"
)
def test_before_its_last_cut_a_slant_ends_farther_along_by_what_is_still_on_over_its_sine() -> (
    None
):
    step = step_of("mill rear")
    before = step.passes[-1].depth / math.sin(math.radians(20))

    assert step.check is not None
    assert step.check.expect == pytest.approx(39 + before)
    assert [one.leaves for one in step.passes] == pytest.approx([39 + before, 39.0])
    assert before == pytest.approx(0.29, abs=0.03)


@pytest.mark.derived(
    by="jaws end 11 from the slant's start; a cutter of 16 and 2 past it reach 18"
)
def test_a_cutter_that_would_run_past_a_slant_into_the_jaws_is_stopped_where_it_begins() -> None:
    assert STOPS_BY_JAWS in step_of("mill rear").remarks
    assert words.RIGHT_ACROSS not in step_of("mill rear").remarks
    assert words.RIGHT_ACROSS in step_of("mill nose").remarks


@pytest.mark.derived(by="18 of reach less 4 deep and 2 of room: 12; the saw 6.2 over the jaws")
def test_the_nut_of_a_saw_turns_beside_the_jaws_where_it_hangs_below_their_tops() -> None:
    sawn = next(
        u for u in planned()[1].set_ups for s in u.steps
        if s.operations[0].key == "mill spring"
    )  # fmt: skip
    own = [note for note in sawn.hold_notes if "nut under the saw" in note]

    task = planned()[0]
    here = Task(part=task.part, workshop=task.workshop, plan=task.plan, number=sawn.number)

    assert jaw_beside_saw(here) == 12.0
    assert len(own) == 1
    assert "no more than 12 of jaw" in own[0]


@pytest.mark.derived(by="14 m/min x 0.8 over a rim of 63: 57 rev/min, the slowest there is is 120")
def test_a_slitting_saw_turns_by_its_diameter_and_stands_at_one_height() -> None:
    step = step_of("mill spring")
    heights = [m.to for m in step.moves if m.slide == "knee"]

    assert saw_diameter(next(t for t in default_workshop().tools if "slitting" in t.name)) == 63
    assert step.speed == 120
    up = next(u.set_up.scheme.faces for u in planned()[1].set_ups if step in u.steps)
    assert heights == pytest.approx([55 - 22.2 if up[0] > 0 else 23.8])
    assert [abs(m.to) for m in step.moves if m.slide == "table"] == [pytest.approx(4.0)]
    assert {m.last for m in step.moves if m.slide == "table"} == {"left"}


@pytest.mark.derived(by="46 and half of 5.98, the hole as it is reamed; the limits with it")
def test_a_closely_placed_hole_is_measured_over_a_pin_from_the_face_it_is_drawn_from() -> None:
    pin = next(m for m in step_of("pivot ream").measures if "pin" in m.where)

    assert pin.where == "over a pin that fills the hole, from the right face"
    assert (pin.low, pin.high) == pytest.approx((48.94, 49.04))


def test_a_length_that_two_drawn_sizes_add_up_to_has_what_limits_they_leave() -> None:
    ends = [
        s for u in planned()[1].set_ups for s in u.steps
        if s.operations[0].feature in {"left", "right"}
    ]  # fmt: skip
    own = next(m for m in ends[-1].measures if m.kind == "length")

    assert own.aim == pytest.approx(55.0)
    assert own.high - own.low == pytest.approx(0.4 - 0.1)


def test_the_zero_of_the_holes_is_on_the_face_the_closest_size_is_drawn_from() -> None:
    drilled = next(u for u in planned()[1].set_ups if u.steps[0].operations[0].key == "pivot spot")

    assert drilled.zero is not None
    assert "right" in drilled.zero.surfaces
    assert "left" not in drilled.zero.surfaces


@pytest.mark.derived(by="6 H7 less 0.02 to lap: 5.980 to 5.992; the lap 0.01 under the hole")
def test_a_bore_lapped_when_hard_is_reamed_under_its_size_before() -> None:
    step = step_of("pivot ream")
    own = step.measures[0]

    assert step.tool == "reamer 5.98 mm"
    assert (own.low, own.high) == pytest.approx((5.980, 5.992))
    assert "brass turned to Ø5.97" in step_of("lap pivot").operations[0].remark


def test_a_bore_lapped_after_hardening_has_its_size_to_lap_to() -> None:
    lapped = step_of("lap pivot").measures[0]

    assert (lapped.low, lapped.high) == pytest.approx((6.0, 6.012))


@pytest.mark.derived(by="39 along the top; 9.06 up where the two slants' lines leave the metal")
def test_a_filed_slant_has_the_ends_of_its_line_to_scribe() -> None:
    text = TEXT.replace('must = "parallel to pivot within 0.03"', "")
    part, shop = solve(read_part_text(text, name="click.toml")), default_workshop()
    done = work_out(make_plan(part, shop), part, shop)
    step = next(s for u in done.set_ups for s in u.steps if s.operations[0].key == "file rear")

    low = 14 - 16 * math.tan(math.radians(20))
    assert [m.aim for m in step.measures] == pytest.approx([39.0, low])
    assert [m.where for m in step.measures] == [
        "line on the top face, from the left face",
        "line on the right face, from the bottom face",
    ]
