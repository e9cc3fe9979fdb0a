"""ISO 286 limits against tables worked outside this package and rows known to be misprinted."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from halfthou.handbook.limits_fits import grade_held, it_grade, limits

CHECKS = Path(__file__).parents[2] / "data" / "iso286_fit_checks.csv"


def rows() -> list[dict[str, str]]:
    lines = CHECKS.read_text("utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("# ")))


def micrometres(size: float, symbol: str) -> tuple[float, float]:
    found = re.fullmatch(r"([A-Za-z]+)(\d+)", symbol)
    assert found
    lower, upper = limits(size, found[1], int(found[2]))
    return lower * 1e3, upper * 1e3


@pytest.mark.derived(by="a second program from the three ISO 286 tables, 563 fits")
def test_every_common_fit_has_the_limits_another_program_gives() -> None:
    wrong = []
    for row in rows():
        hole, shaft = row["fit"].split("/")
        got = (
            *micrometres(float(row["size_mm"]), hole),
            *micrometres(float(row["size_mm"]), shaft),
        )
        want = tuple(float(row[key]) for key in ("EI", "ES", "ei", "es"))
        if got != pytest.approx(want, abs=1e-6):
            wrong.append((row["size_mm"], row["fit"], got, want))

    assert len(rows()) > 500
    assert wrong == []


@pytest.mark.published(source="ISO 286-1:2010, tables 1 to 5")
@pytest.mark.parametrize(
    ("size", "symbol", "lower", "upper"),
    [
        (25, "H7", 0, 21),
        (20, "f7", -41, -20),
        (30, "h9", -52, 0),
        (22.225, "k6", 2, 15),
        (6.35, "P9", -51, -15),
        (20, "E6", 40, 53),
        (24, "s6", 35, 48),
        (10, "H7", 0, 15),
        (10.0001, "H7", 0, 18),
        (300, "M6", -41, -9),
        (20, "N9", -52, 0),
        (2, "N9", -29, -4),
        (50, "J7", -11, 14),
        (50, "j6", -5, 11),
        (8, "cd7", -71, -56),
    ],
)
def test_limits_stand_as_the_standard_prints_them(
    size: float, symbol: str, lower: float, upper: float
) -> None:
    assert micrometres(size, symbol) == pytest.approx((lower, upper), abs=1e-6)


@pytest.mark.published(source="ISO 286-1:2010; other copies print these wrongly")
@pytest.mark.parametrize(
    ("size", "symbol", "right", "misprint"),
    [
        (350, "E7", 182, 185),
        (7, "K6", 2, None),
        (2, "js7", 5, 6),
        (4, "f8", -10, 10),
        (4, "G7", 16, 14),
        (35, "H11", 160, 140),
        (20, "d10", -65, -69),
        (8, "f7", -13, -12),
    ],
)
def test_misprints_that_go_round_are_not_ours(
    size: float, symbol: str, right: float, misprint: float | None
) -> None:
    upper = micrometres(size, symbol)[1]

    assert upper == pytest.approx(right, abs=1e-6)
    assert upper != misprint


@pytest.mark.published(source="ISO 286-1:2010, table 1, band over 30 to 50")
def test_grades_of_the_band_30_to_50() -> None:
    widths = [round(it_grade(40, grade) * 1e3) for grade in range(5, 14)]

    assert widths == [11, 16, 25, 39, 62, 100, 160, 250, 390]


@pytest.mark.derived(by="the standard tolerance factor i = 0.45 D^(1/3) + 0.001 D")
def test_table_of_grades_keeps_near_the_formula_it_was_rounded_from() -> None:
    factors = {6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100}
    bands = [(6, 10), (10, 18), (18, 30), (30, 50), (50, 80), (80, 120), (250, 315), (400, 500)]
    for low, high in bands:
        mean = (low * high) ** 0.5
        factor = (0.45 * mean ** (1 / 3) + 0.001 * mean) * 1e-3
        for grade, times in factors.items():
            assert it_grade(high, grade) == pytest.approx(times * factor, rel=0.08)


@pytest.mark.derived(by="reading the table backwards")
def test_grade_held_is_the_coarsest_that_fits_in_the_width() -> None:
    assert grade_held(25, 0.021) == 7
    assert grade_held(25, 0.0329) == 7
    assert grade_held(25, 0.6) == 14
    assert grade_held(25, 0.0001) == 0
    assert grade_held(0.8, 5) == 13
