"""Zeros of the lathe: only where a slide is moved, and felt for only where a tool needs it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.planning.model import SetUp
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working import words
from halfthou.present.words_zero import zero_words
from tests.unit.planning.working.handmade import (
    FACE,
    FINISH,
    ROUGH,
    SHAFT,
    SHOP,
    chucked,
    operation,
    worked,
)

CENTRE = operation("centre", "centre", tools=("centre drill BS2",),
                   starts=40.0, ends=36.0, cut_size=3.0, at=((40.0, 0.0, 0.0),))  # fmt: skip


def one(*set_ups: SetUp) -> WorkedSetUp:
    return worked(*set_ups).set_ups[-1]


def ways(found: WorkedSetUp) -> set[str]:
    assert found.zero is not None
    return {way for way, _, _, _ in found.zero.pick_up}


@pytest.mark.derived(by="facing is set by the top-slide, a centre drill by the tailstock")
def test_a_set_up_that_only_faces_and_centres_has_neither_saddle_nor_cross_slide_zero() -> None:
    found = one(chucked(FACE, CENTRE))

    assert ways(found) == set()
    assert found.zero is not None
    assert found.zero.at == (40.0, 0.0, 0.0)
    assert "addle:" not in zero_words(found, SHAFT, SHOP, "mm")


def test_turning_has_both() -> None:
    assert ways(one(chucked(FACE, ROUGH))) == {"x", "diameter"}


def test_the_tool_that_faced_the_work_is_not_felt_for() -> None:
    said = zero_words(one(chucked(FACE, ROUGH)), SHAFT, SHOP, "mm")

    assert "Saddle: dial to 0 on the face as it is finished. " in said
    assert "feeler" not in said


def test_every_feeler_is_felt_with_the_spindle_stopped() -> None:
    other = next(t.name for t in SHOP.tools if t.name != "knife tool" and "knife" not in t.name)
    fresh = replace(ROUGH, tools=(other,))
    faced = zero_words(one(chucked(FACE, fresh)), SHAFT, SHOP, "mm")
    cut_before = zero_words(one(chucked(FACE), chucked(ROUGH, FINISH)), SHAFT, SHOP, "mm")

    assert "then the next tool by 0.05 feeler, spindle stopped, 0.05 short of zero" in faced
    assert "0.05 feeler on the right face, spindle stopped, 0.05 short of zero" in cut_before


def test_a_pointed_tool_is_set_by_eye_and_not_felt_for() -> None:
    found = one(chucked(FACE), chucked(ROUGH, FINISH))
    thread = replace(found.steps[-1], tool="screwcutting tool", remarks=(words.TIP_AT_THE_FACE,))
    said = zero_words(replace(found, steps=(*found.steps, thread)), SHAFT, SHOP, "mm")

    assert "with each tool but a pointed one, set level with it by eye" in said
