"""A plate too wide for the vice, with a bore too large for the drill chuck."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from halfthou.planning.assemble import Case
from halfthou.planning.milled.case import case_milled
from halfthou.store.part_file import read_part
from halfthou.workshop.default import default_workshop

PARTS = Path(__file__).parents[2] / "data" / "parts"


@cache
def case() -> Case:
    return case_milled(read_part(PARTS / "flange-plate.toml"), default_workshop())


def test_no_vice_holds_it_flat() -> None:
    flat = [s for s in case().schemes if s.device.device == "vice" and s.faces[2]]

    assert flat == []


def test_both_large_faces_are_milled_under_clamps_that_are_moved() -> None:
    moved = [s for s in case().schemes if "clamps moved" in s.key]

    assert {key for s in moved for key in s.can} == {"mill front", "mill back"}


def test_its_edges_are_milled_lying_flat_with_the_side_of_the_cutter() -> None:
    held = {key for s in case().schemes for key in s.can}
    sides = ("left", "right", "top", "bottom")

    assert all(f"mill {side} with the side of the cutter" in held for side in sides)


def test_what_cannot_stand_in_the_vice_is_refused_with_a_remedy() -> None:
    refused = [r for r in case().refused if r.operation == "mill left"]

    assert "it stands 105 high and the jaws are 25 deep" in {r.reason for r in refused}
    assert all(r.remedy for r in refused)


def test_the_large_bore_is_bored_in_the_lathe_with_its_place_running_true() -> None:
    bored = [op for op in case().operations if op.feature == "spigot"]
    holders = {s.device.device for s in case().schemes if bored[-1].key in s.can}

    assert [op.verb for op in bored] == ["spot", "drill", "drill", "bore", "bore"]
    assert {op.machine for op in bored} == {"lathe"}
    assert holders == {"four-jaw chuck", "faceplate"}


def test_the_pocket_is_milled_with_a_cutter_no_rounder_than_its_corners() -> None:
    relief = next(op for op in case().operations if op.feature == "relief")

    assert relief.tools[0] == "slot drill 6"


def test_through_holes_may_be_drilled_from_either_side() -> None:
    ring = next(a for a in case().alternatives if a.name.startswith("ring"))

    assert len(ring.bundles) == 2
