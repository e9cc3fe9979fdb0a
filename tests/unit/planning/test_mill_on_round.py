"""Keyways, cross holes and rings of holes in turned work, milled and drilled."""

from __future__ import annotations

from functools import cache

import pytest

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


FLANGED = """
[part]
name = "barrel pin"
material = "EN8"
units = "mm"
otherwise = "ISO 2768-mK"
[blank]
bar = "round 30 x 170"
[round.head]
diameter = "28"
long = "6"
[round.seat]
diameter = "20"
long = "{seat}"
[round.tail]
diameter = "{tail}"
long = "{long}"
[keyway.key]
in = "seat"
wide = "6 P9"
leaves = "16.5"
long = "12"
ends = "round"
at = ["left: 4 right of seat left", "top"]
"""


def flanged(*, seat: int, tail: int, long: int) -> str:
    return FLANGED.format(seat=seat, tail=tail, long=long)


def level_in_vice(text: str) -> list[Scheme]:
    part = part_of(text)
    own = operations_mill_on_round(part, default_workshop()).operations
    found = schemes_mill_on_round(part, default_workshop(), own)[0]
    return [s for s in found if s.device.device == "vice" and s.grips == ("seat",)]


@pytest.mark.derived(by="the collar ends at 46; jaws 80 wide begin 2 past it")
def test_the_jaws_on_a_seat_lie_clear_of_the_larger_collar_beside_it() -> None:
    held = [s for s in schemes(ARBOR) if s.device.device == "vice" and s.grips == ("seat",)]

    assert held
    assert all(s.jaws == pytest.approx((48.0, 128.0)) for s in held)


@pytest.mark.derived(by="the seat's middle is 6 + 20; half of jaws 80 wide each way")
def test_the_jaws_have_their_middle_on_a_round_where_nothing_larger_stands_beside_it() -> None:
    shaft = flanged(seat=40, tail=14, long=60).replace('"28"', '"18"')

    assert [s.jaws for s in level_in_vice(shaft)] == [pytest.approx((-14.0, 66.0))]


@pytest.mark.derived(by="38 borne on from 8: its end at 46 is short of the jaws' middle at 48")
def test_a_seat_short_of_the_middle_of_the_jaws_with_no_room_for_a_filler_goes_in_v_blocks() -> (
    None
):
    part = part_of(flanged(seat=40, tail=14, long=60))
    own = operations_mill_on_round(part, default_workshop()).operations
    found, refused = schemes_mill_on_round(part, default_workshop(), own)

    assert level_in_vice(flanged(seat=40, tail=14, long=60)) == []
    assert any(s.device.device == "V-blocks" and s.grips == ("seat",) for s in found)
    assert "jaws 80 wide bear on seat at one end only and close askew" in {
        r.reason for r in refused
    }


@pytest.mark.derived(by="jaws from 8 to 88, the work ends at 66: 22 are free for a filler of 14")
def test_a_short_seat_is_held_in_the_vice_where_a_filler_goes_past_the_end_of_the_work() -> None:
    (held,) = level_in_vice(flanged(seat=40, tail=14, long=20))

    assert held.jaws == pytest.approx((8.0, 88.0))


@pytest.mark.derived(by="28 by 6 and 24 by 20 leave 60 between: jaws 80 wide do not go in")
def test_jaws_wider_than_the_room_between_two_larger_rounds_are_refused() -> None:
    text = flanged(seat=60, tail=24, long=20)
    _, refused = schemes_mill_on_round(
        part_of(text),
        default_workshop(),
        operations_mill_on_round(part_of(text), default_workshop()).operations,
    )

    assert level_in_vice(text) == []
    assert "the machine vice is 80 wide and does not go between head and tail" in {
        r.reason for r in refused
    }
