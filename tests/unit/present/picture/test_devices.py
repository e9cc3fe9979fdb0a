"""What holds the work and what cuts it, as pictures."""

from __future__ import annotations

from dataclasses import replace
from typing import Final, get_args

import pytest

from halfthou.planning.model import Link, Scheme
from halfthou.present.picture.cutters import CutterGlyph, cutter_at
from halfthou.present.picture.devices_lathe import Grip, lathe_device, tail_centre
from halfthou.present.picture.devices_mill import mill_device
from halfthou.present.picture.mill_axes import Room, mill_axes, room_of
from halfthou.present.picture.mill_clamps import stop_against
from halfthou.present.picture.mill_holding import Bearing
from halfthou.present.picture.sheet import box_of
from halfthou.present.picture.tools import Glyph, ToolPlace, lathe_tool
from halfthou.shapes.solids import solid_of, volume
from halfthou.workshop.model import Device, HoldingDevice

GRIP = Grip(
    left=20.0,
    right=40.0,
    radius=12.0,
    axis=50.0,
    work=15.0,
    work_left=18.0,
    room_left=0.0,
    inside=False,
)
WORK = Room(low=(0.0, 0.0, 0.0), high=(60.0, 30.0, 20.0))
LYING: Final = Bearing(work=WORK, foot=WORK)


def held(device: str, *, detail: str = "", grip_high: float = 12.0, across: bool = True) -> Scheme:
    holder = HoldingDevice(
        device=device,  # type: ignore[arg-type]
        name=device,
        machine="mill",
        smallest=0.0,
        largest=75.0,
        inside_smallest=0.0,
        inside_largest=0.0,
        jaw_depth=25.0,
        jaw_width=80.0,
        overall=0.0,
        rehold=0.0,
        trued=0.0,
        face=0.0,
        minutes=8.0,
        most_rev_min=0.0,
    )
    return Scheme(
        key="k",
        machine="mill",
        links=(Link(holder=holder, detail=detail),),
        faces=(0.0, 0.0, 1.0),
        across=(1.0, 0.0, 0.0) if across else (0.0, 1.0, 0.0),
        grips=(),
        seats=("bottom", "left"),
        grip_low=0.0,
        grip_high=grip_high,
        grip_size=30.0,
        inside=False,
        centre=False,
        stick_out=0.0,
        true_on=(),
        error=0.02,
        minutes=8.0,
        can=frozenset(),
        need=(),
        ban=(),
    )


def test_work_on_the_cross_slide_stands_still_under_the_bar() -> None:
    box = box_of(lathe_device("cross-slide", GRIP))

    assert box.bottom > GRIP.axis


@pytest.mark.parametrize("device", [one for one in get_args(Device) if one != "cross-slide"])
def test_every_device_is_drawn_about_the_axis(device: Device) -> None:
    box = box_of(lathe_device(device, GRIP))

    assert box.top < GRIP.axis - GRIP.radius
    assert box.bottom > GRIP.axis + GRIP.radius
    assert box.left < GRIP.left


@pytest.mark.parametrize("device", ["three-jaw chuck", "soft jaws", "four-jaw chuck"])
def test_jaws_reach_to_the_end_of_the_grip_and_no_farther(device: Device) -> None:
    assert box_of(lathe_device(device, GRIP)).right == pytest.approx(GRIP.right)


def test_a_centre_enters_the_work_by_its_depth() -> None:
    assert box_of(tail_centre(at=(80.0, 50.0), depth=2.5, radius=8.0)).left == pytest.approx(77.5)


@pytest.mark.parametrize("glyph", get_args(Glyph))
def test_every_lathe_tool_stands_at_its_point_with_a_feed_arrow(glyph: Glyph) -> None:
    marks = lathe_tool(glyph, ToolPlace(at=(50.0, 60.0), feed=(-1.0, 0.0), wide=6.0))
    box = box_of([mark for mark in marks if mark.style == "tool"])

    assert [mark.style for mark in marks].count("feed") == 1
    assert box.left <= 50.0 <= box.right
    assert box.top <= 60.0 + 1e-9 <= box.bottom + 1e-9


@pytest.mark.parametrize("glyph", get_args(CutterGlyph))
def test_every_cutter_stands_on_its_end(glyph: CutterGlyph) -> None:
    box = box_of([m for m in cutter_at(glyph, at=(50.0, 60.0), wide=8.0) if m.style == "tool"])

    assert box.bottom == pytest.approx(60.0)
    assert box.top < 50.0


@pytest.mark.parametrize("device", ["vice", "clamps", "chuck on the mill table", "V-blocks"])
def test_what_holds_on_the_mill_does_not_cut_into_the_work(device: str) -> None:
    pieces = mill_device(held(device), mill_axes(held(device)), LYING)

    assert pieces
    assert all(volume(solid_of(one.region)) > 0 for one in pieces)


def test_the_vice_grips_both_sides_and_seats_the_work_on_parallels() -> None:
    scheme = held("vice")
    axes = mill_axes(scheme)
    rooms = {
        one.name: room_of(solid_of(one.region), axes) for one in mill_device(scheme, axes, LYING)
    }

    assert rooms["moving jaw"].high[1] == pytest.approx(WORK.low[1])
    assert rooms["fixed jaw"].low[1] == pytest.approx(WORK.high[1])
    assert rooms["fixed jaw"].high[2] == pytest.approx(12.0)
    assert rooms["parallel"].high[2] == pytest.approx(WORK.low[2])
    assert "stop" not in rooms


def test_a_stop_stands_in_the_vice_only_where_the_words_put_one() -> None:
    scheme = held("vice", detail="level on a parallel, a stop at its end")
    axes = mill_axes(scheme)
    rooms = {
        one.name: room_of(solid_of(one.region), axes) for one in mill_device(scheme, axes, LYING)
    }

    assert rooms["stop"].high[0] == pytest.approx(WORK.low[0])


def test_soft_copper_lies_between_the_work_and_the_moving_jaw() -> None:
    scheme = held("vice")
    axes = mill_axes(scheme)
    pieces = mill_device(scheme, axes, replace(LYING, soft="moving jaw"))
    rooms = {one.name: room_of(solid_of(one.region), axes) for one in pieces}

    assert rooms["soft copper"].high[1] == pytest.approx(WORK.low[1])
    assert rooms["soft copper"].low[1] == pytest.approx(rooms["moving jaw"].high[1])
    assert rooms["fixed jaw"].low[1] == pytest.approx(WORK.high[1])


def test_clamps_that_move_half_way_stand_on_both_ends_the_second_time_apart() -> None:
    scheme = held("clamps", detail="clamps on one end, then one by one on the other")
    axes = mill_axes(scheme)
    pieces = mill_device(scheme, axes, LYING)
    rooms = [(one.name, room_of(solid_of(one.region), axes)) for one in pieces]
    middle = (WORK.low[0] + WORK.high[0]) / 2

    assert all(room.high[0] < middle for name, room in rooms if name == "clamp")
    assert all(room.low[0] > middle for name, room in rooms if name == "clamp moved")
    assert sum(name == "clamp moved" for name, _ in rooms) == 2 * 3


def test_work_that_hangs_between_its_parallels_stays_clear_of_the_table() -> None:
    scheme = replace(held("clamps"), seats=("right",), grip_low=0.0)
    work = Room(low=(0.0, 0.0, -13.5), high=(64.0, 64.0, 8.0))
    spigot = Room(low=(16.0, 16.0, -13.5), high=(48.0, 48.0, 0.0))
    axes = mill_axes(scheme)
    pieces = mill_device(scheme, axes, Bearing(work=work, foot=work, below=spigot))
    parallels = [room_of(solid_of(p.region), axes) for p in pieces if p.name == "parallel"]

    assert parallels
    assert all(room.high[2] - room.low[2] == pytest.approx(15.0) for room in parallels)


@pytest.mark.parametrize(
    ("push", "way", "at"),
    [((-1.0, 0.0), 0, 0.0), ((1.0, 0.0), 0, 60.0), ((0.0, 1.0), 1, 30.0), ((0.0, -1.0), 1, 0.0)],
)
def test_the_stop_touches_the_end_that_the_cut_pushes_toward(
    push: tuple[float, float], way: int, at: float
) -> None:
    axes = mill_axes(held("clamps"))
    stop = room_of(
        solid_of(stop_against(push, WORK, (), levels=(-8.0, 20.0), axes=axes).region), axes
    )

    assert at in (pytest.approx(stop.low[way]), pytest.approx(stop.high[way]))
    assert stop.high[way] <= at or stop.low[way] >= at
    assert stop.high[2] < WORK.high[2]


def test_the_stop_stands_beside_a_clamp_on_the_same_end() -> None:
    clamp = Room(low=(-20.0, 8.0, 0.0), high=(7.0, 22.0, 26.0))
    axes = mill_axes(held("clamps"))
    made = stop_against((-1.0, 0.0), WORK, (clamp,), levels=(-8.0, 20.0), axes=axes)
    stop = room_of(solid_of(made.region), axes)

    assert stop.high[1] <= clamp.low[1] or stop.low[1] >= clamp.high[1]


def test_straps_lie_on_the_ends_the_plan_names_and_clear_of_what_is_cut() -> None:
    scheme = held("clamps", detail="on parallels, clamps on the bottom and top ends")
    cut = Room(low=(26.0, -5.0, 0.0), high=(34.0, 35.0, 20.0))
    pieces = mill_device(scheme, mill_axes(scheme), replace(LYING, cuts=(cut,)))
    straps = [
        room_of(solid_of(one.region), mill_axes(scheme)) for one in pieces if one.name == "clamp"
    ]

    assert any(room.low[1] < WORK.low[1] for room in straps)
    assert all(room.high[0] <= cut.low[0] or room.low[0] >= cut.high[0] for room in straps)


def test_parallels_leave_room_for_what_hangs_below_the_seat() -> None:
    scheme = replace(held("vice"), grip_low=0.0, grip_high=9.0, grip_size=64.0)
    axes = mill_axes(scheme)
    work = Room(low=(0.0, 0.0, -14.0), high=(64.0, 64.0, 12.0))
    spigot = Room(low=(16.0, 16.0, -14.0), high=(48.0, 48.0, 0.0))
    lying = Bearing(work=work, foot=work, below=spigot)
    rooms = [
        room_of(solid_of(one.region), axes)
        for one in mill_device(scheme, axes, lying)
        if one.name == "parallel"
    ]

    assert len(rooms) == 2
    assert all(room.high[2] == pytest.approx(0.0) for room in rooms)
    assert all(room.high[1] < 16.0 or room.low[1] > 48.0 for room in rooms)


def test_an_end_standing_out_of_the_vice_has_packing_at_the_other_end_of_the_jaws() -> None:
    scheme = replace(held("vice"), jaws=(-23.0, 57.0), out="right", out_by=3.0)
    axes = mill_axes(scheme)
    pieces = mill_device(scheme, axes, LYING)
    rooms = {one.name: room_of(solid_of(one.region), axes) for one in pieces}
    jaws = [room_of(solid_of(one.region), axes) for one in pieces if "jaw" in one.name]

    assert max(room.high[0] for room in jaws) == pytest.approx(57.0)
    assert rooms["packing"].high[0] < WORK.low[0]
    assert rooms["packing"].high[1] - rooms["packing"].low[1] == pytest.approx(30.0)
