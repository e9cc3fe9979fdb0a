"""The plummer block as two castings: its order as published, its pieces, its proof."""

from __future__ import annotations

import math

import pytest

from halfthou.errors import NoPlan
from halfthou.planning.assemble import problem_of
from halfthou.planning.cast.case import case_cast
from halfthou.planning.metal import prove_pieces, stages_by_piece
from halfthou.planning.solving.judge import judge
from halfthou.planning.solving.problem import Answer, Slot
from halfthou.planning.working.whole import work_out
from halfthou.shapes.solids import volume
from halfthou.workshop.default import default_workshop
from tests.unit.planning.cast.plummer import (
    TWO_CASTINGS,
    case_of,
    done,
    part_of,
    places,
    plan_of,
)

LINEHAM = "W. J. Lineham, A Text-Book of Mechanical Engineering"


def test_the_plan_is_proved_piece_by_piece() -> None:
    plan = plan_of(TWO_CASTINGS)

    prove_pieces(part_of(TWO_CASTINGS), plan.lumps, plan.set_ups)

    assert [lump.name for lump in plan.lumps] == ["cap", "base"]


@pytest.mark.derived(by="block less what the core takes above 2 under its middle, and a cone")
def test_each_piece_starts_as_its_own_casting() -> None:
    start = stages_by_piece(plan_of(TWO_CASTINGS).lumps, ())[0]
    core = math.pi * 7**2 / 2 + 2 * math.sqrt(7**2 - 2**2) + 7**2 * math.asin(2 / 7)
    wide, narrow = 7 + 4 * math.tan(math.radians(3)), 7.0
    boss = math.pi * 6 / 3 * (wide**2 + wide * narrow + narrow**2)

    assert volume(start["cap"]) == pytest.approx(52 * 24 * 32 - 32 * core + boss, rel=1e-3)


def test_cutting_one_half_leaves_the_other_as_it_was() -> None:
    plan = plan_of(TWO_CASTINGS)
    number = places(plan)["mill base split"][0]
    stages = stages_by_piece(plan.lumps, plan.set_ups)

    assert volume(stages[number]["cap"]) == volume(stages[number - 1]["cap"])
    assert volume(stages[number]["base"]) < volume(stages[number - 1]["base"])


def test_the_judge_keeps_to_every_rule() -> None:
    case = case_of(TWO_CASTINGS)
    problem = problem_of(case)
    task = {t.name: i for i, t in enumerate(problem.tasks)}
    holding = {h.name: i for i, h in enumerate(problem.holdings)}
    plan = plan_of(TWO_CASTINGS)
    slots = tuple(
        Slot(
            holding=holding[s.scheme.key],
            tasks=tuple(task[op.key] for op in s.operations),
            tools=tuple(op.tools[0] for op in s.operations),
        )
        for s in plan.set_ups
    )
    finished = {i for slot in slots for i in slot.tasks}
    chosen = tuple(
        next(n for n, bundle in enumerate(c.bundles) if bundle <= finished)
        for c in problem.choices
    )
    answer = Answer(
        setups=slots, chosen=chosen, price=0, bound=0, proved=False, proved_for_setups=0
    )

    faults = judge(problem, answer).violations

    assert [f for f in faults if not f.startswith("the plan says it costs")] == []


@pytest.mark.published(source=f"{LINEHAM}, p. 264 (bed plate): underside before the seatings")
def test_the_foot_is_machined_before_anything_is_set_from_it() -> None:
    at = places(plan_of(TWO_CASTINGS))

    assert at["mill bottom"] < at["mill base split"]
    assert all(at["mill bottom"] < at[key] for key in at if "holding-down" in key)


@pytest.mark.published(source=f"{LINEHAM}, p. 230-231: joint faces, bolt holes, bolt up, bore")
def test_joint_then_bolt_holes_then_bolted_up_then_bored() -> None:
    plan = plan_of(TWO_CASTINGS)
    at = places(plan)
    faces = [at["mill cap split"], at["mill base split"]]
    studs = [at[key] for key in at if key.startswith("stud")]
    bores = [at[key] for key in done(plan, verbs={"bore"})]

    assert max(faces) < min(studs)
    assert max(studs) < at["bolt up"] < min(bores)


def test_dowels_place_the_cap_before_the_bore_is_cut() -> None:
    plan = plan_of(TWO_CASTINGS)
    at = places(plan)
    bores = [at[key] for key in done(plan, verbs={"bore"})]

    assert at["dowel ream"] < at["fit the dowels"] < min(bores)


@pytest.mark.published(source=f"{LINEHAM}, p. 257: the bore and a face at one setting")
def test_a_face_is_cut_at_the_setting_of_the_bore() -> None:
    plan = plan_of(TWO_CASTINGS)
    at = places(plan)
    (bore,) = {at[key][0] for key in done(plan, verbs={"bore"})}

    assert bore in {at[key][0] for key in done(plan, verbs={"face"})}


def test_the_first_cut_of_each_half_is_located_on_what_stays_raw() -> None:
    plan = plan_of(TWO_CASTINGS)
    raw = {s.name for s in part_of(TWO_CASTINGS).surfaces if s.raw}
    seen: dict[str, list[bool]] = {"cap": [], "base": []}
    for set_up in plan.set_ups:
        held = dict(set_up.scheme.piece_state)
        if set_up.scheme.machine == "bench" or list(held.values()) != ["apart"]:
            continue
        seen[next(iter(held))].append(bool(set(set_up.scheme.seats) & raw))

    assert seen["cap"][0]
    assert seen["base"][0]
    assert not any([*seen["cap"][1:], *seen["base"][1:]])


def test_what_is_held_says_which_piece_in_which_state() -> None:
    states = {s.piece_state for s in case_of(TWO_CASTINGS).schemes if s.machine != "bench"}

    assert (("cap", "apart"),) in states
    assert (("base", "apart"),) in states
    assert (("cap", "clamped"), ("base", "clamped")) in states
    assert (("cap", "together"), ("base", "together")) in states


def test_oil_hole_before_the_last_cut_of_the_bore_it_meets() -> None:
    plan = plan_of(TWO_CASTINGS)
    at = places(plan)
    last = [key for key in done(plan, verbs={"bore"}) if not key.startswith("rough")]

    assert all(at["oil drill"] < at[key] for key in last)


def test_marked_out_before_the_first_cut() -> None:
    at = places(plan_of(TWO_CASTINGS))

    assert at["mark out base"] < at["mill bottom"]
    assert at["mark out cap"] < at["mill cap split"]


def test_a_spot_and_its_drill_stay_in_one_set_up() -> None:
    at = places(plan_of(TWO_CASTINGS))

    for hole in ("stud", "dowel", "holding-down", "oil"):
        (spot,) = [at[key][0] for key in at if key == f"{hole} spot"]
        assert {at[k][0] for k in at if k.startswith(hole) and "drill" in k} == {spot}


def test_clearing_bolts_alone_do_not_place_a_cap() -> None:
    text = TWO_CASTINGS.replace('located_by = "2 dowels"\n', "")

    with pytest.raises(NoPlan) as caught:
        case_cast(part_of(text), default_workshop())

    assert "nothing places the cap on the base" in str(caught.value)


def test_the_numbers_of_every_set_up_are_worked_out() -> None:
    worked = work_out(plan_of(TWO_CASTINGS), part_of(TWO_CASTINGS), default_workshop())
    foot = next(u for u in worked.set_ups if u.steps[0].operations[0].key == "mill bottom")
    joint = next(u for u in worked.set_ups if u.steps[0].operations[0].key == "mill base split")

    assert foot.steps[0].measures[0].aim == pytest.approx(12.0)
    assert sum(p.count * p.depth for p in joint.steps[0].passes) == pytest.approx(2.0)
    assert joint.zero is not None
    assert joint.zero.surfaces == ("base split",)
