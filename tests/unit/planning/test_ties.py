"""What it costs to cut two related surfaces at two settings."""

from __future__ import annotations

import math

import pytest

from halfthou.planning.ties import LOST_PART, price_apart


@pytest.mark.derived(by="tables of e^x: e^-2 = 0.135335, e^-8 = 0.000335")
@pytest.mark.parametrize(("error", "lost"), [(0.1, 0.135335), (0.05, 0.000335)])
def test_one_part_in_seven_is_lost_at_the_error_itself(error: float, lost: float) -> None:
    assert price_apart(within=0.1, error=error) / LOST_PART == pytest.approx(lost, rel=2e-3)


def test_a_holding_without_error_costs_nothing_and_a_bad_one_the_part() -> None:
    assert price_apart(within=0.1, error=0.0) == 0.0
    assert price_apart(within=0.01, error=1.0) == pytest.approx(LOST_PART, rel=1e-3)
    assert math.isfinite(price_apart(within=0.0, error=0.1))
