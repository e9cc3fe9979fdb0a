"""Hardening turned work: after all cutting, before the last size, and not every metal."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from tests.unit.planning.turned.parts import part_of

from halfthou.drawing.model import Part
from halfthou.errors import NoPlan
from halfthou.planning.make_plan import make_plan
from halfthou.planning.model import Plan
from halfthou.planning.treatment import treated
from halfthou.planning.working.whole import work_out
from halfthou.workshop.default import default_workshop

PIN = """
[blank]
bar = "round 16 x 60"

[round.head]
diameter = "14"
long = "6"

[round.shank]
diameter = "10 h6"
long = "14"
"""


def pin(material: str, treatment: str) -> Part:
    text = f'treatment = "{treatment}"\n' + PIN
    return replace(part_of(text), material=material)


@cache
def plan() -> Plan:
    return make_plan(pin("silver steel", "harden, temper to dark straw"), default_workshop())


def verbs() -> list[str]:
    return [op.verb for s in plan().set_ups for op in s.operations]


def test_hardening_comes_after_all_cutting_and_tempering_at_once_after_it() -> None:
    order = verbs()

    assert order.index("temper") == order.index("harden") + 1
    assert set(order[order.index("temper") + 1 :]) == {"lap"}


def test_the_close_size_is_brought_to_it_after_hardening() -> None:
    lapped = [op.feature for s in plan().set_ups for op in s.operations if op.verb == "lap"]

    assert lapped == ["shank"]


def test_the_step_warns_of_hot_work_and_says_the_colour() -> None:
    part = pin("silver steel", "harden, temper to dark straw")
    worked = work_out(plan(), part, default_workshop())
    steps = {s.operations[0].verb: s for u in worked.set_ups for s in u.steps}

    assert any("hot work" in one for one in steps["harden"].cautions)
    assert any("dark straw" in one for one in steps["temper"].remarks)


@pytest.mark.parametrize(
    ("text", "harden", "colour"),
    [
        ("harden, temper to dark straw", True, "dark straw"),
        ("harden", True, ""),
        ("case-harden", True, ""),
        ("chemical black", False, ""),
    ],
)
def test_a_treatment_is_read(text: str, harden: bool, colour: str) -> None:  # noqa: FBT001
    found = treated(pin("silver steel", text))

    assert (found.harden, found.colour) == (harden, colour)


def test_mild_steel_to_be_hardened_is_refused_with_a_way_out() -> None:
    with pytest.raises(NoPlan, match="does not harden") as refused:
        make_plan(pin("mild steel", "harden"), default_workshop())

    assert "case-harden" in str(refused.value)


def test_mild_steel_takes_a_case() -> None:
    made = make_plan(pin("mild steel", "case-harden"), default_workshop())

    assert "harden" in [op.verb for s in made.set_ups for op in s.operations]


def test_brass_is_not_hardened() -> None:
    with pytest.raises(NoPlan, match="brass does not harden"):
        make_plan(pin("brass", "harden"), default_workshop())
