from __future__ import annotations

import math
from typing import Any

import pytest

from halfthou.errors import InputFault
from halfthou.quantities import HoleStep, parse_hole_step


def read(step: HoleStep) -> dict[str, Any]:
    """Only what a step says, in plain values."""
    found = {
        "diameter": step.diameter and step.diameter.text,
        "thread": step.thread and step.thread.text,
        "clear": step.clear,
        "kind": None if step.kind == "plain" else step.kind,
        "angle": step.angle and round(math.degrees(step.angle)),
        "depth": step.depth and step.depth.value,
        "to": step.to,
        "beyond": step.beyond,
        "through": step.through,
        "process": step.process,
        "clean_up": step.clean_up,
        "flat": step.flat,
        "taper": step.taper,
    }
    return {key: value for key, value in found.items() if value}


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("9 through", {"diameter": "9", "through": True}),
        ("22 mm through", {"diameter": "22 mm", "through": True}),
        ("22 bored through", {"diameter": "22", "process": "bored", "through": True}),
        ("3/8 in reamed through", {"diameter": "3/8 in", "process": "reamed", "through": True}),
        ("4 H7 x 6", {"diameter": "4 H7", "depth": 6}),
        ("40 H7 x 4", {"diameter": "40 H7", "depth": 4}),
        ("12.2/12.1 x 5", {"diameter": "12.2/12.1", "depth": 5}),
        ("20 +0.02/-0 x 12", {"diameter": "20 +0.02/-0", "depth": 12}),
        ("10 x 20 flat", {"diameter": "10", "depth": 20, "flat": True}),
        ("12 taper 1 in 20 x 30", {"diameter": "12", "taper": "1 in 20", "depth": 30}),
        (
            "1/2 in taper 3/8 per foot through",
            {"diameter": "1/2 in", "taper": "3/8 per foot", "through": True},
        ),
        ("2 to bore", {"diameter": "2", "to": "bore"}),
        ("6 csk 90°", {"diameter": "6", "kind": "countersink", "angle": 90}),
        ("14 counterbore x 8", {"diameter": "14", "kind": "counterbore", "depth": 8}),
        ("20 spotface clean up", {"diameter": "20", "kind": "spotface", "clean_up": True}),
        ("22 BORED THROUGH", {"diameter": "22", "process": "bored", "through": True}),
        ("6 Csk 90°", {"diameter": "6", "kind": "countersink", "angle": 90}),
        ("8 x 12 MM", {"diameter": "8", "depth": 12}),
        ("M10 through", {"thread": "M10", "through": True}),
        ("M10 x 20", {"thread": "M10", "depth": 20}),
        ("M10 x 1 through", {"thread": "M10 x 1", "through": True}),
        ("M10 x 1 x 18", {"thread": "M10 x 1", "depth": 18}),
        ("M1.2 x 0.25 x 3", {"thread": "M1.2 x 0.25", "depth": 3}),
        ("M15 x 3 beyond split", {"thread": "M15", "depth": 3, "beyond": "split"}),
        (
            "M10 x 1 through beyond split",
            {"thread": "M10 x 1", "through": True, "beyond": "split"},
        ),
        ("M5 clear through", {"thread": "M5", "clear": True, "through": True}),
        ("1/4 BSF x 18", {"thread": "1/4 BSF", "depth": 18}),
        ("1/4 x 40 ME x 12", {"thread": "1/4 x 40 ME", "depth": 12}),
        ("1/4 x 40 ME through", {"thread": "1/4 x 40 ME", "through": True}),
        ("4 BA clear to split", {"thread": "4 BA", "clear": True, "to": "split"}),
        ("4 BA x 14 beyond split", {"thread": "4 BA", "depth": 14, "beyond": "split"}),
    ],
)
def test_a_step_of_a_hole_is_read(text: str, says: dict[str, Any]) -> None:
    step = parse_hole_step(text, units="mm")

    assert read(step) == says
    assert step.write() == text


def test_a_fraction_is_a_diameter_on_an_inch_drawing() -> None:
    step = parse_hole_step("3/8 reamed through", units="in")

    assert step.diameter is not None
    assert step.diameter.nominal.value == 9.525


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("8", "'8' does not say how deep it goes"),
        ("M10 x 1", "'M10 x 1' does not say how deep it goes"),
        ("8 x 20 through", "'8 x 20 through' says twice how deep it goes: through and x 20"),
        ("9 clear through", "'9 clear through' asks for clearance without naming a thread"),
        ("wibble", "'wibble' cannot be read as a step of a hole"),
        ("4 BZ x 3", "'4 BZ x 3' cannot be read as a step of a hole"),
        ("1/2 FOO through", "'1/2 FOO through' cannot be read as a step of a hole"),
        ("1/4 ME through", "'1/4 ME' cannot be read as a thread"),
        ("25 i7 through", "'25 i7' names no fit: i7"),
        ("3/8 reamed through", "'3/8' is a fraction without a unit on a drawing in mm"),
        ("", "a step of a hole is empty"),
    ],
)
def test_a_text_that_is_no_step_is_named_with_the_fault(text: str, what: str) -> None:
    with pytest.raises(InputFault) as fault:
        parse_hole_step(text, units="mm")

    assert fault.value.what == what
    assert fault.value.tries
