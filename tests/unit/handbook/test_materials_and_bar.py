from __future__ import annotations

import pytest

from halfthou.errors import InputFault, OutOfRangeError
from halfthou.handbook.keys import key_for
from halfthou.handbook.materials import material, materials
from halfthou.handbook.stock import bars, next_bar


@pytest.mark.parametrize(
    ("name", "known_as", "group"),
    [
        ("mild steel", "mild steel", "mild steel"),
        ("EN3B", "mild steel", "mild steel"),
        ("EN8", "EN8", "medium carbon steel"),
        ("en 8", "EN8", "medium carbon steel"),
        ("silver steel", "silver steel", "tool steel"),
        ("cast iron", "cast iron", "grey iron"),
        ("LG2", "gunmetal", "gunmetal"),
        ("phosphor bronze", "phosphor bronze", "phosphor bronze"),
        ("brass CZ121", "brass", "brass"),
        ("aluminium 6082", "aluminium 6082", "aluminium"),
        ("Aluminium HE30", "aluminium 6082", "aluminium"),
    ],
)
def test_a_metal_is_known_by_its_workshop_names(name: str, known_as: str, group: str) -> None:
    found = material(name)

    assert (found.name, found.group) == (known_as, group)


def test_a_metal_nobody_knows_is_refused_with_near_names() -> None:
    with pytest.raises(InputFault) as fault:
        material("phosfor bronze")

    assert fault.value.what == "no material is called 'phosfor bronze'"
    assert fault.value.tries[0] == "write phosphor bronze"


def test_a_grade_under_a_foreign_family_is_not_taken() -> None:
    with pytest.raises(InputFault):
        material("brass EN8")


@pytest.mark.published(source="Callister's tables of density; one copy prints 1.175 for aluminium")
def test_metals_have_their_weight_in_kg_to_the_cubic_mm() -> None:
    assert material("EN8").density == pytest.approx(7.85e-6)
    assert material("aluminium 6082").density == pytest.approx(2.7e-6)
    assert all(1e-6 < each.density < 9e-6 for each in materials())


def test_the_next_bar_is_the_smallest_that_holds_the_part() -> None:
    assert next_bar(28.575, units="in").size.text == "1 1/8 in"
    assert next_bar(28.6, units="in").size.text == "1 1/4 in"
    assert next_bar(28.5).size.value == 30
    assert next_bar(20, "hexagon").size.value == 22
    assert bars("square", "in")[0].size.text == "1/8 in"
    with pytest.raises(OutOfRangeError) as fault:
        next_bar(300)
    assert fault.value.what == "no usual round bar is 300.0 mm or more"


@pytest.mark.published(source="25.40 h9 = 0/-0.052 as printed for bright bar")
def test_bright_bar_comes_under_size() -> None:
    assert next_bar(25.4, units="in").tolerance == pytest.approx((-0.052, 0))
    assert next_bar(19, "hexagon").tolerance == pytest.approx((-0.13, 0))


@pytest.mark.published(source="BS 46-1:1958 and ISO 773 as printed")
def test_keys_follow_the_shaft() -> None:
    inch, metric = key_for(0.875 * 25.4, units="in"), key_for(25, units="mm")

    assert inch.width == 6.35
    assert inch.shaft_depth == pytest.approx((0.142 * 25.4, 0.148 * 25.4))
    assert (metric.width, metric.height, metric.shaft_depth) == (8, 7, (4.0, 4.2))
    with pytest.raises(OutOfRangeError, match="no parallel key is listed for a shaft of 3 mm"):
        key_for(3, units="mm")
    with pytest.raises(OutOfRangeError, match="no parallel key is listed for a shaft of 100 mm"):
        key_for(100, units="in")
