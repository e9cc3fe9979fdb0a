"""Centres that do not stay in the part: drilled in spare metal, faced off at last."""

from __future__ import annotations

import pytest

from halfthou.errors import NoPlan
from halfthou.planning.assemble import problem_of, set_ups_of
from halfthou.planning.metal import prove
from halfthou.planning.solving.solver import solve
from halfthou.planning.turned.turned_off import centre_hole, spare_for_centre

from .parts import cases_of, part_of, sawn

PIN = """
[blank]
bar = "round 20 x {}"
[round.body]
diameter = "16 h7"
long = "70"
[round.end]
diameter = "12"
long = "30"
[centres]
both = "BS 3/16"
left_in = false
"""


@pytest.mark.derived(
    by="hand: BS2 pilot 1.5875, body 4.7625; cone to 0.7 body, 3.33375 across, "
    "(3.33375 - 1.5875)/2 / tan 30° = 1.5123 deep; pilot 1.3 x 1.5875 = 2.0638"
)
def test_the_spare_metal_is_as_deep_as_the_centre() -> None:
    part = part_of(PIN.format(300))
    one = next(f for f in part.features if type(f).__name__ == "Centres")

    assert centre_hole(one).deep == pytest.approx(1.5123 + 2.0638, abs=1e-3)  # type: ignore[arg-type]
    assert spare_for_centre(part, "left") == pytest.approx(3.5761 + 0.5, abs=1e-3)


def test_the_plan_leaves_the_part_without_its_centres() -> None:
    case = sawn(PIN.format(112))
    answer = solve(problem_of(case), effort=1.0)

    assert answer is not None
    set_ups = set_ups_of(case, answer)
    order = [op.key for s in set_ups for op in s.operations]
    assert order.index("centre right") < order.index("face right to finish")
    prove(case.part, case.metal, set_ups)


def test_a_blank_too_short_for_them_is_refused_with_the_figures() -> None:
    with pytest.raises(NoPlan) as caught:
        cases_of(PIN.format(104))

    assert "too short for centres that are faced off" in caught.value.what
    assert "100.0 long and the centres need 8.2 more" in caught.value.why
    assert "left_in = true under [centres]" in caught.value.tries
