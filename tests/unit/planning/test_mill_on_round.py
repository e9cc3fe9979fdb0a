"""Keyways, cross holes and rings of holes in turned work, milled and drilled."""

from __future__ import annotations

from functools import cache

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.planning.milled.on_round import operations_mill_on_round
from halfthou.planning.milled.on_round_holding import schemes_mill_on_round
from halfthou.planning.milled.on_round_orders import orders_mill_on_round
from halfthou.planning.model import Operation, Scheme
from halfthou.planning.turned.case import operations_outside
from halfthou.planning.turned.stock import turned_stocks
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop

ARBOR = """
[part]
name = "winding arbor"
material = "EN8"
units = "mm"
otherwise = "ISO 2768-mK"
[blank]
bar = "round 30 x 200"
[round.journal]
diameter = "20 f7"
long = "40"
[round.collar]
diameter = "28"
long = "6"
[round.seat]
diameter = "22 k6"
long = "60"
[round.end]
diameter = "16"
long = "50"
[keyway.key]
in = "seat"
wide = "6 P9"
leaves = "18.5"
long = "25"
ends = "round"
at = ["left: 6 right of seat left", "top"]
[hole.pin]
in = "end top"
size = "4 through"
at = ["10 left of right", "centred front to back"]
"""
BARREL_END = """
[part]
name = "barrel end"
material = "gunmetal"
units = "mm"
otherwise = "ISO 2768-mK"
[blank]
bar = "round 75 x 40"
[round.hub]
diameter = "30"
long = "12"
[round.rim]
diameter = "72"
long = "8"
[hole.bore]
in = "right"
size = "12 H7 through"
[hole.ring]
in = "rim right"
size = "4 BA through"
at = "level with bore"
copies = "6 on 56 circle, first at top"
must = "in position to bore within 0.2"
"""


@cache
def part_of(text: str) -> Part:
    return solve(read_part_text(text, name="part.toml"))


@cache
def operations(text: str) -> tuple[Operation, ...]:
    part, workshop = part_of(text), default_workshop()
    turned = operations_outside(part, workshop, turned_stocks(part, workshop)[0])
    return turned.operations + operations_mill_on_round(part, workshop).operations


@cache
def schemes(text: str) -> tuple[Scheme, ...]:
    return schemes_mill_on_round(part_of(text), default_workshop(), operations(text))[0]


def test_a_keyway_is_cut_from_above_with_a_slot_drill_of_its_width() -> None:
    key = next(op for op in operations(ARBOR) if op.verb == "mill keyway")

    assert key.approach == ((0.0, 1.0, 0.0),)
    assert key.tools == ("slot drill 6",)
    assert "key floor" in key.makes


def test_the_keyed_round_is_held_level_in_vice_or_v_blocks_once_it_is_turned() -> None:
    held = [s for s in schemes(ARBOR) if "key mill" in s.can and s.grips == ("seat",)]
    plain = [s for s in held if "before its last cut" not in s.key]

    assert {s.device.device for s in plain} == {"vice", "V-blocks"}
    assert all("seat finish from right" in dict(s.need) for s in plain)


def test_a_tight_seat_of_bright_bar_may_be_keyed_before_its_last_cut() -> None:
    early = [s for s in schemes(ARBOR) if s.key.endswith("seat, top up, before its last cut")]
    orders = {
        (o.before, o.after): o for o in orders_mill_on_round(part_of(ARBOR), operations(ARBOR))
    }

    assert all("seat finish from right" in dict(s.ban) for s in early)
    assert len(early) == 2
    assert not orders["seat finish from right", "key mill"].hard
    assert orders["seat rough from right", "key mill"].hard


def test_a_collar_too_short_to_hold_by_is_refused_with_the_reason() -> None:
    _, refused = schemes_mill_on_round(part_of(ARBOR), default_workshop(), operations(ARBOR))
    reasons = {r.reason for r in refused if r.operation == "key mill"}

    assert "collar gives the machine vice less than 10 mm to hold by" in reasons


def test_a_cross_hole_waits_until_its_round_is_turned() -> None:
    orders = orders_mill_on_round(part_of(ARBOR), operations(ARBOR))

    assert ("end from right", "pin spot") in {(o.before, o.after) for o in orders if o.hard}


def test_ring_holes_are_trued_on_the_bore_they_are_placed_from() -> None:
    upright = [s for s in schemes(BARREL_END) if "ring drill" in s.can]

    assert {s.device.device for s in upright} == {
        "vice",
        "clamps",
        "rotary table",
        "chuck on the mill table",
    }
    assert all(s.true_on[0][0] == "bore" for s in upright)


def test_jaws_on_the_hub_stay_clear_of_drills_that_come_out_beside_it() -> None:
    by_hub = next(
        s for s in schemes(BARREL_END) if s.key.startswith("machine vice") and "hub" in s.key
    )
    drill = next(op for op in operations(BARREL_END) if op.verb == "drill")
    lowest = drill.at[0][0] - drill.ends

    assert by_hub.grip_high <= lowest
