"""Holes on the axis: tools of the drawer by their names, grooves inside, orders by their rules."""

from __future__ import annotations

import pytest

from halfthou.planning.drilling import centre_drill_for
from halfthou.planning.model import SetUp
from halfthou.planning.rules import RULES
from halfthou.planning.to_get import in_hand, to_get

from .parts import sawn, workshop

BUSH = """
[blank]
bar = "round 30 x 80"
[round.body]
diameter = "28"
long = "25"
[hole.bore]
in = "right"
size = "{}"
"""


@pytest.mark.published(source="BS 328: bodies 1/8, 3/16, 1/4, 5/16, 7/16 in")
@pytest.mark.parametrize(
    ("drill", "name"), [(2.0, "BS 1/8"), (5.0, "BS 3/16"), (6.5, "BS 1/4"), (13.0, "BS 7/16")]
)
def test_the_centre_drill_is_the_largest_not_wider_than_the_drill(drill: float, name: str) -> None:
    chosen = centre_drill_for(workshop(), drill)

    assert chosen.tool == f"centre drill {name}"
    assert chosen.across <= drill


def test_every_tool_for_a_usual_hole_is_in_hand() -> None:
    case = sawn(BUSH.format("16 H7 through"))
    tools = {op.tools[0] for op in case.operations if op.feature == "bore"}

    assert tools <= in_hand(workshop())


def test_a_reamer_that_is_not_there_is_said_to_be_got() -> None:
    case = sawn(BUSH.format("7 H7 through"))
    scheme = case.schemes[0]
    ream = [op for op in case.operations if op.verb == "ream"][:1]
    said = [r.text for r in to_get((SetUp(scheme=scheme, operations=tuple(ream)),), workshop())]

    assert said == ["to be got: reamer 7 mm, for bore; the workshop has none"]


def test_a_groove_in_a_bore_follows_the_bore() -> None:
    case = sawn(
        BUSH.format("16 H7 through")
        + '[groove.oil]\nin = "bore"\nwide = "3"\ndiameter = "18"\nat = "12 right of left"\n'
    )
    before = {o.before for o in case.orders if o.after == "oil"}

    assert {"bore ream from right", "bore ream from left"} <= before
    assert next(o for o in case.operations if o.key == "oil").inside


def test_every_order_goes_by_a_rule_with_a_reason() -> None:
    reasons = {r.name: r.reason for r in RULES}
    case = sawn(BUSH.format("16 H7 through"))

    assert {o.rule for o in case.orders} <= set(reasons)
    assert all(reasons[o.rule] for o in case.orders)


@pytest.mark.derived(by="BS1 for 1.4: 1.2 times its pilot 1.19 is 1.43, no wider than the drill")
def test_a_small_drill_has_at_least_a_mouth_to_start_in() -> None:
    chosen = centre_drill_for(workshop(), 1.4)

    assert chosen.across == pytest.approx(1.4)
    assert chosen.deep > 1.3 * 1.19
