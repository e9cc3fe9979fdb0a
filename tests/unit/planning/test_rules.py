"""Rules are found by their names."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfthou.errors import OutOfRangeError
from halfthou.planning.assemble import problem_of
from halfthou.planning.cases import cases
from halfthou.planning.rules import RULES, rule
from halfthou.store.part_file import read_part
from halfthou.workshop.default import default_workshop

PARTS = sorted((Path(__file__).parents[2] / "data" / "parts").glob("*.toml"))


def test_each_rule_has_a_name_of_its_own_and_a_reason() -> None:
    names = [one.name for one in RULES]

    assert len(set(names)) == len(names)
    assert all(one.reason for one in RULES)


def test_a_rule_is_found_by_name() -> None:
    assert rule("face before centring").hard
    assert not rule("key bright bar before its last cut").hard


def test_an_unknown_rule_is_answered_with_the_likely_ones() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        rule("face before drilling")

    assert str(caught.value) == (
        'no rule is called "face before drilling"\n'
        "  why: rules are known by the names listed in planning\n"
        "  try: centre before drilling, or face before centring, or mouth before reaming"
    )


@pytest.mark.parametrize("path", PARTS, ids=lambda path: path.stem)
def test_every_order_and_condition_of_a_problem_goes_by_a_rule_of_the_list(path: Path) -> None:
    named = {one.name for one in RULES}
    for case in cases(read_part(path), default_workshop()):
        problem = problem_of(case)
        asked = {r.rule for r in problem.precedences}
        asked |= {c.rule for k in problem.holdings for c in (*k.need, *k.ban)}

        assert asked - named == set()
        assert all(r.reason for r in problem.precedences)
