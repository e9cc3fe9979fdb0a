"""Whatever is turned, the dials obeyed land on what the card says."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve as drawn
from halfthou.errors import NoPlan
from halfthou.planning.model import Plan
from halfthou.planning.worked import Step, Worked
from halfthou.planning.working.whole import work_out
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop

from .test_turned_plans import planned
from .turned_parts import arbors, bushes, flanges, spigots

FEW = settings(
    max_examples=4, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck)
)
DIVISION = 0.02
CLOSE = 0.15


def worked(text: str) -> tuple[Part, Worked] | None:
    part = drawn(read_part_text(text, name="part.toml"))
    found = planned(part)
    if isinstance(found, NoPlan):
        return None
    case, set_ups = found
    plan = Plan(
        set_ups=set_ups,
        blank_size=case.blank,
        minutes=1.0,
        bound=1.0,
        proved=False,
        up_to_set_ups=len(set_ups),
    )
    return part, work_out(plan, part, default_workshop())


def lands(text: str) -> None:
    found = worked(text)
    if found is None:
        return
    _, plan = found
    for set_up in plan.set_ups:
        if set_up.set_up.scheme.machine != "lathe":
            continue
        for step in set_up.steps:
            every_cut_has_its_setting(step)
            obeyed(step)
            never_past_the_length(step)


def every_cut_has_its_setting(step: Step) -> None:
    for one in step.passes:
        assert len(one.settings) == (0 if one.to_measured else one.count)
    dials = [m for one in step.passes if not one.side_by_side for m in one.settings]
    assert all(m.divisions == int(m.divisions) for m in dials[:-2])


def obeyed(step: Step) -> None:
    """From the size expected, the last setting comes to within a division of the aim."""
    (op,) = step.operations
    if op.verb not in {"turn", "bore"} or not step.passes or step.passes[0].side_by_side:
        return
    off = sum(one.count * one.depth for one in step.passes)
    shown = step.passes[-1].settings[-1].to
    assert abs(off - shown) <= DIVISION / 2
    if op.size is not None and op.stage == "finish" and op.size.width < CLOSE and step.aim:
        outside = step.operations[0].verb == "turn"
        reached = op.from_size - 2 * shown if outside else op.from_size + 2 * shown
        assert op.size.low - 1e-9 <= reached <= op.size.high + 1e-9
        assert step.passes[-1].depth == pytest.approx(step.passes[-2].depth)


def never_past_the_length(step: Step) -> None:
    """See that no stop lies past a shoulder."""
    stops = [m for m in step.moves if m.slide == "saddle"]
    if step.length and "turned past its end, so that no lip is left there" not in step.remarks:
        jaws = any("just clear of the jaws" in remark for remark in step.remarks)
        assert jaws or max((m.to for m in stops), default=0.0) <= step.length + 0.026


@pytest.mark.derived(by="addition of the cuts")
@FEW
@given(arbors())
def test_the_dials_of_an_arbor_land_on_its_sizes(text: str) -> None:
    lands(text)


@pytest.mark.derived(by="addition of the cuts")
@FEW
@given(bushes())
def test_the_dials_of_a_bush_land_on_its_sizes(text: str) -> None:
    lands(text)


@pytest.mark.derived(by="addition of the cuts")
@FEW
@given(flanges())
def test_the_dials_of_a_flange_land_on_its_sizes(text: str) -> None:
    lands(text)


@pytest.mark.derived(by="addition of the cuts")
@FEW
@given(spigots())
def test_the_dials_of_a_spigot_land_on_its_sizes(text: str) -> None:
    lands(text)
