from __future__ import annotations

import pytest

from halfthou.handbook.general_tolerance import parse_otherwise
from halfthou.handbook.size_limits import size_limits
from halfthou.quantities import DrawingUnits, parse_size

RULE = parse_otherwise("ISO 2768-mK")


@pytest.mark.derived(by="the ISO tables read by hand")
@pytest.mark.parametrize(
    ("text", "units", "lower", "upper", "basis"),
    [
        ("25 H7", "mm", 25.0, 25.021, "ISO 286 H7"),
        ("3/4 f7", "in", 19.009, 19.03, "ISO 286 f7"),
        ("20.00/19.98", "mm", 19.98, 20.0, "the drawing"),
        ("40 ±0.05", "mm", 39.95, 40.05, "the drawing"),
        ("35", "mm", 34.7, 35.3, "ISO 2768-mK"),
        ("3/4 running", "in", 19.009, 19.03, "running fit taken as f7"),
    ],
)
def test_limits_come_from_the_size_or_from_the_rule_for_the_rest(
    text: str, units: DrawingUnits, lower: float, upper: float, basis: str
) -> None:
    found = size_limits(parse_size(text, units=units), otherwise=RULE)

    assert found is not None
    assert (found.lower, found.upper) == pytest.approx((lower, upper))
    assert found.basis == basis
    assert found.middle - found.width / 2 == pytest.approx(found.lower)


@pytest.mark.derived(by="H8 at 3/4 in read from the ISO tables by hand")
def test_a_fit_in_words_is_another_class_inside_than_outside() -> None:
    found = size_limits(parse_size("3/4 running", units="in"), otherwise=RULE, inside=True)

    assert found is not None
    assert (found.lower, found.upper) == pytest.approx((19.05, 19.083))
    assert found.basis == "running fit taken as H8"


def test_a_reference_size_or_one_without_any_rule_has_no_limits() -> None:
    assert size_limits(parse_size("(30)", units="mm"), otherwise=RULE) is None
    assert size_limits(parse_size("30", units="mm"), otherwise=None) is None
    assert size_limits(parse_size("0.3", units="mm"), otherwise=RULE) is None
