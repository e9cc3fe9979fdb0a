"""What a part waits for is said once, for its cover."""

from __future__ import annotations

from halfthou.planning.waits import waits_of
from tests.unit.planning.cast.plummer import TWO_CASTINGS, part_of, plan_of

SAID = "the arbor, made first: the bore is made to its journal as it measures (0.02 to 0.04 free)"


def test_the_mate_is_named_with_what_is_made_to_it() -> None:
    assert [reason.text for reason in waits_of(part_of(TWO_CASTINGS))] == [SAID]


def test_a_plan_tells_it_for_its_cover() -> None:
    assert [r.text for r in plan_of(TWO_CASTINGS).reasons if r.set_up == 0] == [SAID]
