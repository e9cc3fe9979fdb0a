"""Plans of two parts dimensioned as in published standards, against common practice.

The parts: a plain bearing bush, ISO 4379 type C, 20 x 24 x 20, and a T-slot nut, DIN 508,
M10 x 12. What a plan must look like is common practice of the trade (no source), except where
a published order of work is named beside the check.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from halfthou import demo as demo_parts
from halfthou.drawing.model import Part
from halfthou.planning.make_plan import make_plan
from halfthou.planning.metal import finished, stages
from halfthou.planning.model import Plan
from halfthou.shapes.solids import volume
from halfthou.store.part_file import read_part
from halfthou.workshop.default import default_workshop

PARTS = Path(__file__).parents[2] / "data" / "parts"


@cache
def part(name: str) -> Part:
    return read_part(PARTS / f"{name}.toml")


@cache
def plan(name: str) -> Plan:
    return make_plan(part(name), default_workshop())


def place(name: str) -> dict[str, tuple[int, int]]:
    """Give the set-up and the place in it of every operation."""
    return {
        op.key: (n, i)
        for n, set_up in enumerate(plan(name).set_ups)
        for i, op in enumerate(set_up.operations)
    }


def maker(name: str, surface: str) -> tuple[int, int]:
    where = place(name)
    return max(
        where[op.key] for s in plan(name).set_ups for op in s.operations if surface in op.makes
    )


def test_the_bushs_bore_and_outside_are_cut_at_one_setting() -> None:
    # Common practice, and R16 of the collected orders: what must run true is cut at one setting.
    assert maker("bush", "bore")[0] == maker("bush", "outside-diameter")[0]


def test_the_bush_is_parted_off_last_in_its_set_up() -> None:
    where = place("bush")
    same = [at for at in where.values() if at[0] == where["part off"][0]]

    assert where["part off"] == max(same)


def test_the_bushs_second_end_is_faced_in_jaws_that_do_not_squeeze_it_out_of_round() -> None:
    # Common practice: no thin ring in hard jaws.
    last = plan("bush").set_ups[-1]

    assert last.scheme.device.device in {"soft jaws", "stub mandrel", "collet"}
    assert {op.verb for op in last.operations} <= {"face", "chamfer"}


def test_a_hole_is_centred_drilled_and_bored_in_that_order() -> None:
    verbs = [op.verb for s in plan("bush").set_ups for op in s.operations if op.feature == "bore"]

    assert verbs[:2] == ["spot", "drill"]
    assert verbs.index("bore") > verbs.index("drill")


def test_nothing_is_finished_before_the_roughing_is_done() -> None:
    keys = [(op.stage, op.key) for s in plan("bush").set_ups for op in s.operations]
    rough = max(i for i, (stage, _) in enumerate(keys) if stage == "rough")
    finish = min(
        i for i, (stage, key) in enumerate(keys) if stage == "finish" and "face" not in key
    )

    assert rough < finish


def test_the_plan_says_that_the_bushs_two_fits_cannot_be_judged_here_and_what_would() -> None:
    unjudged = {u.surface: u for u in plan("bush").unjudged}

    assert set(unjudged) == {"bore", "outside-diameter"}
    assert any("go and no-go plug" in remedy for remedy in unjudged["bore"].remedies)
    assert any("borrow a bore gauge" in remedy for remedy in unjudged["bore"].remedies)
    assert any("mate" in remedy for remedy in unjudged["outside-diameter"].remedies)


@pytest.mark.derived(by="hand arithmetic: pi/4 (24^2 - 20^2) 20 less four chamfers of 0.5 x 45°")
def test_the_metal_left_at_the_end_is_the_bush() -> None:
    pi = 3.141592653589793
    # Pappus: a corner of legs 0.5 turned about the axis, its middle a third of the leg in.
    outer = 2 * pi * (12 - 0.5 / 3) * 0.125
    inner = 2 * pi * (10 + 0.5 / 3) * 0.125
    expected = pi / 4 * (24**2 - 20**2) * 20 - 2 * outer - 2 * inner

    assert volume(finished(part("bush"))) == pytest.approx(expected, rel=1e-6)
    after = stages(plan("bush").blank, plan("bush").set_ups)[-1].after
    assert volume(after) == pytest.approx(expected, rel=1e-4)


def test_each_machined_face_of_the_nut_is_located_from_before_its_opposite_is_cut() -> None:
    # R69 of the collected orders: a machined face to the fixed jaw once there is one.
    made: set[str] = set()
    for set_up in plan("t-slot-nut").set_ups:
        if set_up.scheme.machine != "mill":
            continue
        raw = {s for s in (*set_up.scheme.grips, *set_up.scheme.seats) if s.startswith("stock")}
        if made:
            assert set(set_up.scheme.grips) - raw, "a true face is there and none is used"
        made |= {name for op in set_up.operations for name in op.makes}


def test_the_nut_is_drilled_before_it_is_tapped_and_spotted_before_it_is_drilled() -> None:
    order = [
        op.verb
        for s in plan("t-slot-nut").set_ups
        for op in s.operations
        if op.feature == "thread"
    ]

    assert order[0] == "spot"
    assert order[-1] == "tap"


@pytest.mark.derived(by="hand arithmetic")
def test_every_removed_volume_is_known() -> None:
    for name in ("bush", "t-slot-nut"):
        metal = stages(plan(name).blank, plan(name).set_ups)
        removed = sum(m.removed for m in metal)

        assert removed == pytest.approx(
            volume(metal[0].before) - volume(metal[-1].after), rel=1e-9
        )


def test_a_reamed_bore_is_bored_at_the_setting_that_reams_it() -> None:
    # Common practice: a reamer sizes a hole and never moves it.
    demo = Path(demo_parts.__file__).parent / "barrel-end.toml"
    made = make_plan(read_part(demo), default_workshop())
    where = {op.key: n for n, s in enumerate(made.set_ups) for op in s.operations}
    bored = [n for key, n in where.items() if key.startswith("bore bore")]
    reamed = [n for key, n in where.items() if key.startswith("bore ream")]

    assert bored
    assert bored == reamed
