"""Rules are found by their names."""

from __future__ import annotations

import pytest

from halfthou.errors import OutOfRangeError
from halfthou.planning.rules import RULES, rule


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
        "  try: centre before drilling, or face before centring"
    )
