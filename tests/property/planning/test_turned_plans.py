"""Whatever is turned is planned and proved, or refused by name with a reason and a way out."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve as drawn
from halfthou.errors import NoPlan
from halfthou.planning.assemble import Case, problem_of, set_ups_of
from halfthou.planning.cases import cases
from halfthou.planning.make_plan import _why_not
from halfthou.planning.metal import prove, stages
from halfthou.planning.model import SetUp
from halfthou.planning.reasons import reasons_for
from halfthou.planning.rules import RULES
from halfthou.planning.solving.judge import judge
from halfthou.planning.solving.solver import solve
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop
from halfthou.workshop.model import Workshop

from .turned_parts import arbors, bushes, flanges, spigots

QUICK = 0.25
"""Effort for one part: the first plan is enough here."""
FEW = settings(
    max_examples=10, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck)
)


@cache
def workshop() -> Workshop:
    return default_workshop()


def planned(part: Part) -> tuple[Case, tuple[SetUp, ...]] | NoPlan:
    try:
        tried = cases(part, workshop())
    except NoPlan as refused:
        return refused
    for case in tried:
        assert {o.rule for o in case.orders} <= {r.name for r in RULES}
        held = {key for s in case.schemes for key in s.can}
        choice = {k for a in case.alternatives for bundle in a.bundles for k in bundle}
        if any(o.key not in held | choice for o in case.operations):
            continue
        problem = problem_of(case)
        answer = solve(problem, effort=QUICK)
        if answer is not None:
            assert judge(problem, answer).violations == ()
            return case, set_ups_of(case, answer)
    return _why_not(tried)


def holds(text: str) -> None:
    part = drawn(read_part_text(text, name="part.toml"))
    if any(f.grave for f in part.findings):
        return
    found = planned(part)
    if isinstance(found, NoPlan):
        assert part.name in found.what
        assert found.why
        assert found.tries
        return
    case, set_ups = found
    prove(part, case.metal, set_ups)
    assert all(m.removed >= -1e-6 for m in stages(case.metal, set_ups))
    assert all(reason.text for reason in reasons_for(case, set_ups, workshop()))


@pytest.mark.slow
@FEW
@given(arbors())
def test_every_arbor_is_planned_to_its_drawing_or_refused_with_a_way_out(text: str) -> None:
    holds(text)


@pytest.mark.slow
@FEW
@given(bushes())
def test_every_bush_is_planned_to_its_drawing_or_refused_with_a_way_out(text: str) -> None:
    holds(text)


@pytest.mark.slow
@FEW
@given(flanges())
def test_every_flanged_spacer_is_planned_to_its_drawing_or_refused(text: str) -> None:
    holds(text)


@pytest.mark.slow
@FEW
@given(spigots())
def test_every_spigot_is_planned_to_its_drawing_or_refused(text: str) -> None:
    holds(text)
