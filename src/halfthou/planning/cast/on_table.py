"""Castings clamped down: on the mill's table by a ledge, by a strap across, on an angle plate."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.drawing.model import OUTWARD, Side
from halfthou.planning.axes import Extents, axis_of, other_side
from halfthou.planning.cast.body import Body, Face
from halfthou.planning.cast.holding import (
    Fit,
    Hold,
    Job,
    along_of,
    level_from,
    scheme_of,
    space_of,
    spoils,
    work_of,
)
from halfthou.planning.model import Operation, Scheme
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import HoldingDevice

CLAMP: Final = 15.0
"""How far a clamp reaches over the work, mm (usual practice)."""
_LEDGE: Final = 10.0
"""Least width of a ledge for a clamp, mm (usual practice)."""
_STRAP: Final = 20.0
"""Width of a strap across the work, mm (usual practice)."""
_LEAST_SEAT: Final = 400.0
_NEAR: Final = 1e-6


def on_tables(job: Job, body: Body) -> list[Scheme]:
    """Give every way to hold a body down on the mill, on the table or against an angle plate."""
    found: list[Scheme] = []
    for device in job.workshop.holding:
        if device.machine != "mill":
            continue
        if device.device == "clamps":
            found += _clamped(job, body, device)
        elif device.device == "angle plate":
            found += _against_plate(job, body, device)
    return found


def seats(body: Body, down: Side) -> Iterator[Face]:
    """Give the machined faces a body can stand on that way: outermost, and large enough."""
    for face in body.looking(down)[:1]:
        lowest = body.box.most(OUTWARD[down])
        if (
            not face.stays_raw
            and face.area >= _LEAST_SEAT
            and face.reading("raw") >= lowest - _NEAR
        ):
            yield face


def ledges(body: Body, up: Side) -> Iterator[tuple[Face, Side]]:
    """Give faces with room for a clamp at two opposite ends, and the side of one end."""
    u = OUTWARD[up]
    for face in body.looking(up):
        above = [
            b for b in body.metal if b.most(u) > face.reading("raw") + _NEAR and _over(b, face, u)
        ]
        for end in level_from(up):
            out = OUTWARD[end]
            if end > other_side(end):
                continue
            room = [
                min([face.own.most(d) - b.most(d) for b in above] or [face.own.length(d) / 3])
                for d in (out, OUTWARD[other_side(end)])
            ]
            if min(room) >= _LEDGE and (above or face.own.length(out) >= 3 * CLAMP):
                yield face, end


def nearest_ledge(body: Body, seat: Side) -> Face | None:
    """Give the ledge that looks away from a seat and lies nearest to it: clamps straight over."""
    found = [face for face, _ in ledges(body, other_side(seat))]
    return min(found, key=lambda face: face.at, default=None)


def _over(box: Extents, face: Face, up: Vec3) -> bool:
    """Tell whether metal stands over a face."""
    return all(
        min(box.high[i], face.own.high[i]) - max(box.low[i], face.own.low[i]) > _NEAR
        for i in range(3)
        if i != axis_of(up)
    )


def _clamped(job: Job, body: Body, device: HoldingDevice) -> Iterator[Scheme]:
    for up in OUTWARD:
        ops = work_of(body, OUTWARD[up], "mill")
        for seat in seats(body, other_side(up)) if ops else ():
            if body.state == "clamped":
                yield from _strapped(job, body, device, up, seat, ops)
                continue
            for ledge, end in ledges(body, up):
                if not _over_the_seat(ledge, seat, end):
                    continue
                hold = Hold(
                    body=body,
                    device=device,
                    key=f"{device.name}: {body.name}, {up} up on the {seat.name}, "
                    f"clamps on the {ledge.name} {end} and {other_side(end)}",
                    up=OUTWARD[up],
                    across=along_of(OUTWARD[up], OUTWARD[_back(up, end)]),
                    seat=seat,
                    grips=(ledge,),
                    detail=f"clamps straight over the seat, on both ends of the {ledge.name}",
                    reason=f"everything else is set from the {seat.name}, which is cut",
                )
                can = [op for op in ops if not spoils(hold, op) and not _under(op, ledge, end)]
                scheme = scheme_of(
                    hold,
                    job,
                    can,
                    Fit(low=-seat.at, high=ledge.at, size=ledge.at + seat.at),
                )
                if scheme is not None:
                    yield scheme


def _over_the_seat(ledge: Face, seat: Face, end: Side) -> bool:
    """Tell whether the clamps at both ends of a ledge press on what stands on the table."""
    return all(
        ledge.own.most(d) - CLAMP <= seat.own.most(d) - _LEDGE / 2
        for d in (OUTWARD[end], OUTWARD[other_side(end)])
    )


def _back(up: Side, end: Side) -> Side:
    """Give the side that lies away from the person with the two clamps left and right."""
    level = [s for s in level_from(up) if axis_of(OUTWARD[s]) != axis_of(OUTWARD[end])]
    return level[0]


def _under(op: Operation, ledge: Face, end: Side) -> bool:
    """Tell whether an operation comes where the clamps stand."""
    space = space_of(op)
    if space is None:
        return False
    at_ends = any(
        space.most(d) > ledge.own.most(d) - CLAMP for d in (OUTWARD[end], OUTWARD[other_side(end)])
    )
    low = min(space.least(OUTWARD[ledge.side]), space.most(OUTWARD[ledge.side]))
    return at_ends and low <= ledge.at + CLAMP / 2


def _strapped(  # noqa: PLR0917  (one strap)
    job: Job, body: Body, device: HoldingDevice, up: Side, seat: Face, ops: tuple[Operation, ...]
) -> Iterator[Scheme]:
    """Hold faced halves on each other by one strap across the top of both."""
    top = body.looking(up)[0]
    for end in level_from(up):
        if end > other_side(end):
            continue
        out = OUTWARD[end]
        middle = top.own.middle[axis_of(out)]
        hold = Hold(
            body=body,
            device=device,
            key=f"{device.name}: {body.name} faced and clamped on each other, {up} up, "
            f"strap across from {' to '.join(sorted(_others(up, end)))}",
            up=OUTWARD[up],
            across=along_of(OUTWARD[up], OUTWARD[_back(up, end)]),
            seat=seat,
            grips=(top,),
            detail="the halves set edge to edge by a square, one strap across the middle of the "
            "top holds both down",
            reason="the holes go through both halves at once, so they must meet",
        )
        can = [op for op in ops if not spoils(hold, op) and not _by_strap(op, out, middle)]
        high, size = top.reading("raw"), top.at + seat.at
        fit = Fit(low=-seat.at, high=high, size=size, minutes=5.0, grips=(seat.name,))
        scheme = scheme_of(hold, job, can, fit)
        if scheme is not None:
            yield scheme


def _others(up: Side, end: Side) -> tuple[Side, ...]:
    return tuple(s for s in level_from(up) if axis_of(OUTWARD[s]) != axis_of(OUTWARD[end]))


def _by_strap(op: Operation, out: Vec3, middle: Millimetre) -> bool:
    """Tell whether any place of an operation comes under the strap."""
    axis = axis_of(out)
    return (
        any(abs(p[axis] - middle) < (_STRAP + max(op.cut_size, 6.0)) / 2 for p in op.at)
        or not op.at
    )


def _against_plate(job: Job, body: Body, device: HoldingDevice) -> Iterator[Scheme]:
    """Stand work with its machined seat against an angle plate, clamped on the face opposite."""
    for side in OUTWARD:
        for seat in seats(body, side):
            for up in level_from(side):
                ops = [op for op in work_of(body, OUTWARD[up], "mill") if op.verb != "spot"]
                ledge = nearest_ledge(body, side)
                if not ops or ledge is None or body.box.length(OUTWARD[up]) > device.largest:
                    continue
                hold = Hold(
                    body=body,
                    device=device,
                    key=f"{device.name}: {body.name}, {up} up, {seat.name} to the plate",
                    up=OUTWARD[up],
                    across=along_of(OUTWARD[up], OUTWARD[side]),
                    seat=seat,
                    grips=(ledge,),
                    detail=f"{seat.name} against the plate, clamps on the {ledge.name}, a jack "
                    "under the end that overhangs",
                    reason=f"a face cut so is square to the {seat.name}",
                )
                can = [op for op in ops if not spoils(hold, op)]
                scheme = scheme_of(
                    hold,
                    job,
                    can,
                    Fit(
                        low=body.box.least(hold.up),
                        high=body.box.most(hold.up),
                        size=body.box.length(OUTWARD[side]),
                        grips=(seat.name, ledge.name),
                    ),
                )
                if scheme is not None:
                    yield scheme
