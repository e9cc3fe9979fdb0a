"""A bearing bracket cast in one piece, and castings with work that is not planned."""

from __future__ import annotations

import pytest

from halfthou.drawing.solve import solve
from halfthou.errors import NoPlan
from halfthou.planning.cases import cases
from halfthou.planning.cast.case import case_cast
from halfthou.planning.metal import prove_pieces
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop
from tests.unit.planning.cast.plummer import DRAWINGS, case_of, part_of, places, plan_of

BRACKET = """
[part]
name = "bracket"
material = "cast iron"
units = "mm"
otherwise = "ISO 2768-mK"
[blank]
casting = "stock 2, draft 1.5°"
[block.foot]
wide = "96"
high = "12"
thick = "30"
machined = "bottom"
[block.upright]
wide = "52"
high = "44"
thick = "28"
at = ["bottom: level with foot top", "centred on foot left to right",
      "centred on foot front to back"]
machined = "front, back"
[hole.bore]
in = "upright front"
size = "19 bored through"
cored = "14"
at = ["centred on upright left to right", "40 ±0.05 above foot bottom"]
"""


@pytest.mark.published(
    source="W. J. Lineham, A Text-Book of Mechanical Engineering, p. 257: foot, then bore"
)
def test_the_foot_comes_first_and_the_bore_is_set_from_it() -> None:
    plan = plan_of(BRACKET)
    at = places(plan)
    bores = [key for key in at if "bore bore" in key]

    assert all(at["mill bottom"] < at[key] for key in bores)
    assert "bottom" in plan.set_ups[at[bores[0]][0] - 1].scheme.seats


def test_a_one_piece_casting_is_proved() -> None:
    plan = plan_of(BRACKET)

    prove_pieces(part_of(BRACKET), plan.lumps, plan.set_ups)


def test_it_can_be_bored_turning_on_an_angle_plate_or_by_a_bar_on_the_cross_slide() -> None:
    held = {
        s.device.device for s in case_of(BRACKET).schemes if any("bore bore" in k for k in s.can)
    }

    assert held == {"angle plate", "cross-slide"}


def test_a_bore_too_high_for_the_cross_slide_is_refused_with_its_remedy() -> None:
    case = case_of(BRACKET.replace("40 ±0.05", "64 ±0.05").replace('high = "44"', 'high = "68"'))
    why = [r for r in case.refused if "bar" in r.operation]

    assert why[0].reason == "its bore lies 64 up and the slide's centres 57"
    assert why[0].remedy == "an angle plate on the faceplate"


@pytest.mark.parametrize(
    ("name", "told"),
    [("cylinder", "left-passage, which leans"), ("lever", "has no flat sides to hold it by")],
)
def test_what_is_not_planned_is_told_by_name(name: str, told: str) -> None:
    text = (DRAWINGS / f"{name}.toml").read_text(encoding="utf-8")

    with pytest.raises(NoPlan) as caught:
        cases(solve(read_part_text(text, name=name)), default_workshop())

    assert told in str(caught.value)


def test_a_casting_cut_apart_needs_a_place_for_its_cap() -> None:
    assert case_cast(part_of(BRACKET), default_workshop()).lumps[0].name == "whole"
