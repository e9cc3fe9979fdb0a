from __future__ import annotations

import pytest

from halfthou.errors import InputFault
from halfthou.quantities import parse_drill


def test_number_and_letter_drills_are_known_by_name() -> None:
    assert parse_drill("No. 27", units="mm").number == 27
    assert parse_drill("#27", units="mm").number == 27
    assert parse_drill("letter F", units="mm").letter == "F"


@pytest.mark.derived(by="hand arithmetic")
def test_a_bare_fraction_is_an_inch_drill_on_any_drawing() -> None:
    fraction = parse_drill("7/32", units="mm").length
    metric = parse_drill("5.5", units="mm").length

    assert fraction is not None
    assert metric is not None
    assert (fraction.value, metric.value) == (5.55625, 5.5)


@pytest.mark.parametrize("text", ["F", "No. 99", "#0", "", "letter 4", "-3"])
def test_a_text_that_is_no_drill_is_refused(text: str) -> None:
    with pytest.raises(InputFault):
        parse_drill(text, units="mm")
