"""What holds work on the mill stands where the hold's words put it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

import pytest

from halfthou.planning.model import Link, Scheme
from halfthou.present.picture.cutters_at_work import cutter_turns
from halfthou.present.picture.devices_mill import mill_device
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.holding_names import names_in_plan, overhang_ways
from halfthou.present.picture.mill_axes import Room, mill_axes, room_of
from halfthou.present.picture.mill_holding import Bearing, Piece
from halfthou.present.picture.mill_view import Held, mill_view
from halfthou.present.picture.pushed import with_stop
from halfthou.present.picture.section_line import section_line
from halfthou.present.picture.sheet import Box, Path, Words
from halfthou.shapes.solids import solid_of

WORK: Final = Room(low=(0.0, 0.0, 0.0), high=(60.0, 30.0, 20.0))
UP: Final = (0.0, 0.0, 1.0)


def scheme(job: Any, device: str, *, detail: str = "", **changes: Any) -> Scheme:
    """Hold a job of the mill otherwise than it is held."""
    old: Scheme = job.worked.set_up.scheme
    holder = replace(old.device, device=device, name=device)  # type: ignore[arg-type]
    return replace(old, links=(Link(holder=holder, detail=detail),), **changes)


def rooms(held: Scheme, bearing: Bearing) -> list[tuple[Piece, Room]]:
    axes = mill_axes(held)
    return [
        (one.name, room_of(solid_of(one.region), axes)) for one in mill_device(held, axes, bearing)
    ]


def called(name: Piece, found: list[tuple[Piece, Room]]) -> list[Room]:
    return [room for other, room in found if other == name]


@pytest.fixture
def block(t_slot_nut: Any) -> Any:
    return t_slot_nut


def lying(job: Any, device: str, **changes: Any) -> Scheme:
    return scheme(job, device, faces=UP, across=(1.0, 0.0, 0.0), **changes)


def test_work_lies_against_the_angle_plate_with_the_face_it_is_seated_on(block: Any) -> None:
    held = lying(block, "angle plate", seats=("back",))
    found = rooms(held, Bearing(work=WORK, foot=WORK))
    plates = called("angle plate", found)

    assert len(plates) == 2
    assert min(abs(room.low[1] - WORK.high[1]) for room in plates) == pytest.approx(0.0)
    assert all(room.high[2] < WORK.high[2] for room in plates)


def test_a_jack_stands_under_the_end_away_from_the_angle_plate(block: Any) -> None:
    held = lying(block, "angle plate", seats=("back",))
    jacks = called("jack", rooms(held, Bearing(work=WORK, foot=WORK)))

    assert max(room.high[2] for room in jacks) == pytest.approx(WORK.low[2])
    assert all(room.high[1] < (WORK.low[1] + WORK.high[1]) / 2 for room in jacks)


@pytest.mark.derived(by="a foot 12 thick against the plate: straps bear 12 out from it")
def test_straps_bear_on_the_ledge_that_lies_against_the_angle_plate(block: Any) -> None:
    def metal(room: Room) -> Room:
        inner = WORK.high[1] - 12.0
        return Room(low=(room.low[0], inner, room.low[2]), high=room.high)

    held = lying(block, "angle plate", seats=("back",))
    straps = called("clamp", rooms(held, Bearing(work=WORK, foot=WORK, metal_in=metal)))

    assert any(room.high[1] == pytest.approx(WORK.high[1] - 12.0) for room in straps)


def test_one_strap_across_holds_by_the_middle_of_the_top_and_no_other_is_drawn(
    block: Any,
) -> None:
    held = lying(block, "clamps", detail="one strap across the middle of the top holds both down")
    straps = called("clamp", rooms(held, Bearing(work=WORK, foot=WORK)))
    middle = (WORK.low[0] + WORK.high[0]) / 2

    assert len(straps) == 1 + 2
    assert all((room.low[0] + room.high[0]) / 2 == pytest.approx(middle) for room in straps)
    assert straps[0].low[1] < WORK.low[1] < WORK.high[1] < straps[0].high[1]
    assert straps[0].low[2] == pytest.approx(WORK.high[2])


def test_a_foot_that_stands_out_low_has_a_clamp_at_either_end_beside_the_one_strap(
    block: Any,
) -> None:
    held = lying(block, "clamps", detail="one strap across the middle of the top holds both down")

    def top_at(room: Room) -> float:
        return 20.0 if room.low[0] < 40.0 and room.high[0] > 20.0 else 6.0

    straps = called("clamp", rooms(held, Bearing(work=WORK, foot=WORK, top_at=top_at)))
    ends = [room for room in straps if room.low[2] == pytest.approx(6.0)]

    assert len(straps) == (1 + 2) + 2 * 3
    assert sorted(room.low[0] < 30.0 for room in ends) == [False, True]


def test_a_strap_lies_on_the_ledge_that_it_meets_not_at_the_height_of_the_middle(
    block: Any,
) -> None:
    held = lying(block, "clamps", detail="clamps straight over the seat, on both ends")
    bearing = Bearing(work=WORK, foot=WORK, top_at=lambda room: 12.0 if room.low[0] < 1 else 14.0)
    levels = {room.low[2] for room in called("clamp", rooms(held, bearing)) if room.low[2] > 0.0}

    assert levels == {12.0, 14.0}


def test_packing_slips_let_raw_work_lie_on_three_places(block: Any) -> None:
    held = lying(
        block, "vice", detail="on parallels, three slips of packing, so that it cannot rock",
        grip_low=0.0, grip_high=12.0, grip_size=0.0, seats=("bottom",), jaws=None,
    )  # fmt: skip
    slips = called("packing", rooms(held, Bearing(work=WORK, foot=WORK)))
    middle = (WORK.low[1] + WORK.high[1]) / 2

    assert [room.high[2] for room in slips] == [pytest.approx(WORK.low[2])] * 3
    assert sum(room.low[1] > middle for room in slips) == 2


def test_an_end_out_of_the_vice_is_dimensioned_by_what_the_words_say(block: Any) -> None:
    held = scheme(block, "vice", detail="packing of the same", out="right", out_by=3.0,
                  jaws=(-60.0, 17.0))  # fmt: skip
    axes = mill_axes(held)
    view = mill_view(before=block.before, after=block.after, scheme=held, axes=axes, main=None)
    frame = Frame(at=(0.0, 0.0), scale=1.0)
    work = Box(left=-10.0, right=40.0, top=-30.0, bottom=10.0)
    texts = {
        mark.text
        for way in overhang_ways(view, held, frame, work=work, units="mm")
        for mark in way.marks
        if isinstance(mark, Words)
    }

    assert texts == {"3 out"}


def test_no_stop_is_drawn_where_nothing_pushes(block: Any) -> None:
    held = lying(block, "clamps", detail="clamps straight over the seat, on both ends")
    view = mill_view(
        before=block.before, after=block.after, scheme=held, axes=mill_axes(held), main=None
    )
    pushing = cutter_turns(block.worked, None)

    assert with_stop(view, held, ()) is view
    assert any(turn.mills for turn in pushing)
    assert "stop" in {one.name for one in with_stop(view, held, pushing).holding}


def test_a_cutting_line_with_a_corner_comes_in_from_below_and_goes_out_to_the_right(
    block: Any,
) -> None:
    held = lying(block, "clamps", detail="clamps straight over the seat, on both ends")
    view = mill_view(
        before=block.before, after=block.after, scheme=held, axes=mill_axes(held), main=None
    )
    frame = Frame(at=(0.0, 0.0), scale=1.0)
    beyond = Box(left=-20.0, right=30.0, top=-25.0, bottom=15.0)
    marks = section_line(replace(view, corner=(4.0, 5.0)), frame, beyond=beyond)
    thin = next(mark for mark in marks if isinstance(mark, Path) and mark.style == "centre")
    letters = [mark for mark in marks if isinstance(mark, Words)]

    assert thin.lines == (((4.0, 16.5), (4.0, -5.0), (31.5, -5.0)),)
    assert [mark.text for mark in letters] == ["A", "A"]
    assert letters[0].at[1] > beyond.bottom
    assert letters[1].at[0] > beyond.right


ROUND: Final = Room(low=(0.0, -14.0, -14.0), high=(120.0, 14.0, 14.0))


def level_round(job: Any, *, jaws: tuple[float, float], gripped: tuple[float, float]) -> Any:
    held = lying(
        job, "vice", grips=("seat",), seats=("seat",), jaws=jaws, grip_size=16.0, grip_low=-8.0,
        grip_high=3.0,
    )  # fmt: skip
    bearing = Bearing(work=ROUND, foot=ROUND, gripped=gripped, soft="moving jaw")
    return rooms(held, bearing)


@pytest.mark.derived(
    by="jaws from 22 on a seat that ends at 70: 22 to 70, 4 each way of the middle"
)
def test_a_level_round_lies_on_one_parallel_no_longer_than_it_is_borne(block: Any) -> None:
    found = level_round(block, jaws=(22.0, 102.0), gripped=(20.0, 70.0))
    (parallel,) = called("parallel", found)

    assert (parallel.low[0], parallel.high[0]) == pytest.approx((22.0, 70.0))
    assert (parallel.low[1], parallel.high[1]) == pytest.approx((-4.0, 4.0))
    assert not called("packing", found)


@pytest.mark.derived(by="16 across: bare on the far jaw at 8, copper of 0.5 before the near one")
def test_soft_copper_for_a_level_round_lies_at_the_near_jaw_only(block: Any) -> None:
    found = level_round(block, jaws=(22.0, 102.0), gripped=(20.0, 70.0))
    (copper,) = called("soft copper", found)
    (fixed,) = called("fixed jaw", found)

    assert (copper.low[1], copper.high[1]) == pytest.approx((-8.5, -8.0))
    assert fixed.low[1] == pytest.approx(8.0)


@pytest.mark.derived(by="borne from 80 to 100 of jaws 80 to 160, whose middle is 120; work to 120")
def test_a_piece_past_the_end_of_the_work_closes_jaws_that_a_short_round_half_fills(
    block: Any,
) -> None:
    (piece,) = called("packing", level_round(block, jaws=(80.0, 160.0), gripped=(78.0, 100.0)))

    assert piece.low[0] == pytest.approx(121.0)
    assert (piece.low[1], piece.high[1]) == pytest.approx((-8.5, 8.0))


def _box(left: float, right: float, low: float, high: float) -> tuple[tuple[float, float], ...]:
    return ((left, low), (right, low), (right, high), (left, high), (left, low))


def test_the_fixed_jaw_is_named_beside_a_collar_that_stands_out_further(block: Any) -> None:
    held = block.worked.set_up.scheme
    view = mill_view(
        before=block.before, after=block.after, scheme=held, axes=mill_axes(held), main=None
    )
    outline = (_box(0.0, 10.0, -14.0, 14.0), _box(10.0, 60.0, -8.0, 8.0))
    jaw = Held(name="fixed jaw", outline=_box(12.0, 60.0, 8.0, 12.0), lines=())
    view = replace(view, plan_lines=outline, plan_filled=outline, plan_held=(jaw,))

    assert names_in_plan(view, Frame(at=(0.0, 0.0), scale=0.5), units="mm")
