from __future__ import annotations

import math

import pytest

from halfthou.errors import InputFault
from halfthou.handbook.general_tolerance import (
    ByFigure,
    Iso2768,
    general_angle,
    general_edge,
    general_geometry,
    general_limits,
    parse_otherwise,
)
from halfthou.quantities import parse_length

FINE_PRINT = "fractions ±1/64, two places ±.010, three places ±.005, angles ±30'"


@pytest.mark.published(source="ISO 2768-1:1989, table 1")
@pytest.mark.parametrize(
    ("rule", "size", "half"),
    [
        ("ISO 2768-mK", "35", 0.3),
        ("ISO 2768-m", "30", 0.2),
        ("ISO 2768-fH", "30.1", 0.15),
        ("ISO 2768-c", "500", 2.0),
        ("ISO 2768-v", "3.5", 0.5),
        ("ISO 2768-m", "0.5", 0.1),
        ("iso 2768 - m K", "6", 0.1),
    ],
)
def test_a_class_gives_the_printed_half_width(rule: str, size: str, half: float) -> None:
    found = general_limits(parse_otherwise(rule), parse_length(size, units="mm"))

    assert found == (-half, half)


@pytest.mark.parametrize(("rule", "size"), [("ISO 2768-m", "0.4"), ("ISO 2768-v", "2")])
def test_a_size_outside_the_class_gets_no_tolerance(rule: str, size: str) -> None:
    assert general_limits(parse_otherwise(rule), parse_length(size, units="mm")) is None


@pytest.mark.derived(by="hand arithmetic, 1/64 in = 0.396875 mm")
@pytest.mark.parametrize(
    ("size", "half"),
    [
        ("1 1/2", 0.396875),
        ("2", 0.396875),
        (".75", 0.254),
        (".875", 0.127),
        ("4.000", 0.127),
        (".8750", None),
    ],
)
def test_by_the_figure_each_form_has_its_own_half_width(size: str, half: float | None) -> None:
    found = general_limits(parse_otherwise(FINE_PRINT), parse_length(size, units="in"))

    assert (found is None) if half is None else (found == pytest.approx((-half, half)))


def test_one_clause_for_decimals_covers_any_number_of_places() -> None:
    rule = parse_otherwise("fractions ±1/64, decimals ±.005")
    found = general_limits(rule, parse_length(".8750", units="in"))

    assert isinstance(rule, ByFigure)
    assert found == pytest.approx((-0.127, 0.127))


def test_angles_edges_and_geometry_follow_the_rule() -> None:
    iso, figure = parse_otherwise("ISO 2768-mK"), parse_otherwise(FINE_PRINT)

    assert isinstance(iso, Iso2768)
    assert general_angle(iso, 12) == pytest.approx(math.radians(0.5))
    assert general_angle(figure, 12) == pytest.approx(math.radians(0.5))
    assert general_edge(iso, 1) == 0.2
    assert general_edge(figure, 1) == pytest.approx(0.396875)
    assert general_geometry(iso, "symmetry", 50) == 0.6
    assert general_geometry(iso, "squareness", 100) == 0.4
    assert general_geometry(figure, "symmetry", 50) is None
    assert general_geometry(parse_otherwise("ISO 2768-m"), "run-out", 50) is None


@pytest.mark.parametrize("text", ["", "ISO 2768-xK", "fractions 1/64", "ISO 2768", "about right"])
def test_a_rule_that_cannot_be_read_is_named(text: str) -> None:
    with pytest.raises(InputFault) as fault:
        parse_otherwise(text)

    assert fault.value.what == f"'{text}' cannot be read as a general tolerance"
