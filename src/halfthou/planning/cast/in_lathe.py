"""Castings bored in the lathe: on an angle plate, by a bar between centres, on a mandrel."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from typing import Final

from halfthou.drawing.model import OUTWARD, Hole, Side
from halfthou.planning.axes import Extents, axis_of, dot, other_side, side_toward
from halfthou.planning.cast.body import Body, Face
from halfthou.planning.cast.holding import (
    Fit,
    Hold,
    Job,
    along_of,
    refused,
    scheme_of,
    space_of,
    spoils,
    work_of,
)
from halfthou.planning.cast.holes import IN_BAR
from halfthou.planning.cast.on_table import nearest_ledge, seats
from halfthou.planning.cast.pieces import Pieces
from halfthou.planning.model import Operation, Refused, Scheme
from halfthou.units import Millimetre
from halfthou.workshop.model import HoldingDevice

_PLATE: Final = 15.0
"""Thickness of an angle plate's shelf, mm (usual practice)."""
_CLEAR: Final = 3.0
_PROUD: Final = 1e-6


def in_lathes(job: Job, pieces: Pieces, body: Body) -> tuple[list[Scheme], list[Refused]]:
    """Give every way to bore a body in the lathe, and to face it from its bore."""
    schemes: list[Scheme] = []
    left: list[Refused] = []
    for hole in pieces.part.features:
        if not isinstance(hole, Hole) or not _bored(body, hole):
            continue
        for device in job.workshop.holding:
            if device.machine != "lathe":
                continue
            match device.device:
                case "angle plate":
                    schemes += _on_plate(job, body, hole, device, left)
                case "cross-slide":
                    schemes += _by_bar(job, body, hole, device, left)
                case "stub mandrel":
                    schemes += _on_mandrel(job, body, hole, device, left)
                case _:
                    pass
    return schemes, left


def _bored(body: Body, hole: Hole) -> bool:
    return any(op.feature == hole.name and op.verb == "bore" for op in body.operations)


def _ends(hole: Hole) -> tuple[Side, Side]:
    out = side_toward((-hole.into[0], -hole.into[1], -hole.into[2]))
    return out, other_side(out)


def _swing(box: Extents, hole: Hole, under: Face | None = None) -> Millimetre:
    """Give the radius that the farthest corner swings about a hole, the plate with it [mm]."""
    low, high = list(box.low), list(box.high)
    if under is not None:
        axis, out = axis_of(OUTWARD[under.side]), OUTWARD[under.side]
        if dot(out, (1.0, 1.0, 1.0)) > 0:
            high[axis] = under.at + _PLATE
        else:
            low[axis] = -under.at - _PLATE
    place = hole.entries[0]
    flat = [i for i in range(3) if i != axis_of(hole.into)]
    return math.hypot(*(max(high[i] - place[i], place[i] - low[i]) for i in flat))


def _room(job: Job) -> Millimetre:
    return max((one.centre_height for one in job.workshop.lathes), default=0.0) - _CLEAR


def _lathe_work(body: Body, hole: Hole, toward: Side, *, bar: bool) -> list[Operation]:
    """Give the lathe work on a bore and on the faces round it, by turning the work or a bar."""
    return [
        op
        for op in work_of(body, OUTWARD[toward], "lathe")
        if (op.feature == hole.name or op.verb == "face") and (IN_BAR in op.tools) == bar
    ]


def _seats(body: Body, hole: Hole) -> Iterator[tuple[Face, Face]]:
    """Give the machined seats that lie along a bore, each with the ledge its clamps go on."""
    for side in OUTWARD:
        if axis_of(OUTWARD[side]) == axis_of(hole.into):
            continue
        for seat in seats(body, side):
            ledge = nearest_ledge(body, side)
            if ledge is not None:
                yield seat, ledge


def _on_plate(
    job: Job, body: Body, hole: Hole, device: HoldingDevice, left: list[Refused]
) -> Iterator[Scheme]:
    for toward, (seat, ledge) in product(_ends(hole), _seats(body, hole)):
        key = f"{device.name}: {body.name}, {toward} end out, {seat.name} on the plate"
        ops = _swung_clear(body, hole, toward, _lathe_work(body, hole, toward, bar=False), left)
        radius = _swing(body.box, hole, seat)
        if radius > _room(job):
            why = (
                f"with its angle plate it swings {radius:.0f} mm, {_room(job):.0f} clear",
                "bolt it to the cross-slide and bore it with a bar between centres",
            )
            left += refused(key, ops, why)
            continue
        detail = (
            f"{seat.name} on the angle plate, packed until the bore runs true; "
            f"clamps on the {ledge.name}; a balance weight opposite"
        )
        reason = (
            f"the bore comes parallel to the {seat.name}, and a face cut at the same setting "
            "square to the bore"
        )
        yield from _bolted(
            job, _hold(body, device, key, toward, (seat, ledge), (detail, reason)), ops, 2 * radius
        )


def _swung_clear(
    body: Body, hole: Hole, toward: Side, ops: list[Operation], left: list[Refused]
) -> list[Operation]:
    """Leave out a face that no tool can turn: other metal swings by, standing proud of it."""
    kept = []
    for op in ops:
        proud = _proud_of(body, hole, toward, op) if op.verb == "face" else None
        if proud is None:
            kept.append(op)
            continue
        why = (
            f"the {proud.name} stands proud of it and would swing into the tool",
            "mill it up to what stands proud",
        )
        left += refused(f"{body.name}, {toward} end out, turned", (op,), why)
    return kept


def _proud_of(body: Body, hole: Hole, toward: Side, op: Operation) -> Face | None:
    """Give a face beside one to be turned that stands past it, within the radius it sweeps."""
    space = space_of(op)
    if space is None:
        return None
    flat = [i for i in range(3) if i != axis_of(hole.into)]
    axis = hole.entries[0]
    swept = math.hypot(*(max(space.high[i] - axis[i], axis[i] - space.low[i]) for i in flat))
    level = min(space.least(OUTWARD[toward]), space.most(OUTWARD[toward]))
    for face in body.looking(toward):
        low, high = face.own.low, face.own.high
        near = math.hypot(*(max(low[i] - axis[i], axis[i] - high[i], 0.0) for i in flat))
        if face.name not in op.makes and face.reading("raw") > level + _PROUD and near < swept:
            return face
    return None


def _hold(  # noqa: PLR0917  (one hold)
    body: Body,
    device: HoldingDevice,
    key: str,
    toward: Side,
    on: tuple[Face, Face],
    words: tuple[str, str],
) -> Hold:
    seat, ledge = on
    return Hold(
        body=body,
        device=device,
        key=key,
        up=OUTWARD[toward],
        across=along_of(OUTWARD[toward], OUTWARD[seat.side]),
        seat=seat,
        grips=(ledge,),
        detail=words[0],
        reason=words[1],
    )


def _bolted(job: Job, hold: Hold, ops: list[Operation], size: Millimetre) -> Iterator[Scheme]:
    """Give the scheme of work bolted down on its seat and clocked along it."""
    if hold.seat is None:
        return
    fit = Fit(
        low=hold.body.box.least(hold.up),
        high=hold.body.box.most(hold.up),
        size=size,
        true_on=((hold.seat.name, hold.device.trued),),
        grips=(hold.seat.name, *(f.name for f in hold.grips)),
    )
    scheme = scheme_of(hold, job, [op for op in ops if not spoils(hold, op)], fit)
    if scheme is not None:
        yield scheme


def _by_bar(
    job: Job, body: Body, hole: Hole, device: HoldingDevice, left: list[Refused]
) -> Iterator[Scheme]:
    toward = _ends(hole)[0]
    ops = _lathe_work(body, hole, toward, bar=True)
    for seat, ledge in _seats(body, hole):
        high = seat.at - dot(hole.entries[0], OUTWARD[seat.side])
        key = f"{device.name}: {body.name}, {seat.name} down"
        if high > device.overall:
            why = (
                f"its bore lies {high:.0f} up and the slide's centres {device.overall:g}",
                "an angle plate on the faceplate",
            )
            left += refused(key, ops, why)
            continue
        detail = (
            f"{seat.name} down on packing {device.overall - high:.1f} high, clamps on the "
            f"{ledge.name}; the bar between centres through the core"
        )
        reason = (
            f"the bar runs on the lathe's own centres, so the bore comes parallel to the "
            f"{seat.name} whatever the chuck does"
        )
        size = body.box.length(OUTWARD[seat.side])
        yield from _bolted(
            job, _hold(body, device, key, toward, (seat, ledge), (detail, reason)), ops, size
        )


def _on_mandrel(
    job: Job, body: Body, hole: Hole, device: HoldingDevice, left: list[Refused]
) -> Iterator[Scheme]:
    """Face the ends true to a finished bore, on a mandrel turned for it."""
    size = hole.steps[0].diameter.nominal
    if not device.inside_smallest <= size <= device.inside_largest:
        return
    for toward in _ends(hole):
        faces = [op for op in _lathe_work(body, hole, toward, bar=False) if op.verb == "face"]
        ops = _swung_clear(body, hole, toward, faces, left)
        key = f"{device.name}: {body.name} on the {hole.name}, {toward} end out"
        radius = _swing(body.box, hole)
        if radius > _room(job):
            why = (f"it swings {radius:.0f} mm and the lathe clears {_room(job):.0f}", "mill it")
            left += refused(key, ops, why)
        elif ops:
            yield from _turned_on(job, body, hole, device, toward, ops)


def _turned_on(  # noqa: PLR0917  (one mandrel)
    job: Job, body: Body, hole: Hole, device: HoldingDevice, toward: Side, ops: list[Operation]
) -> Iterator[Scheme]:
    hold = Hold(
        body=body,
        device=device,
        key=f"{device.name}: {body.name} on the {hole.name}, {toward} end out",
        up=OUTWARD[toward],
        across=next(d for s, d in OUTWARD.items() if s not in _ends(hole)),
        seat=None,
        grips=(),
        detail="on a mandrel turned to the bore as made; light cuts, the work lopsided",
        reason=f"turned from the {hole.name} itself, the end comes square to it",
    )
    fit = Fit(
        low=body.box.least(hold.up),
        high=body.box.most(hold.up),
        size=hole.steps[0].diameter.nominal,
        true_on=((hole.name, device.trued),),
        grips=(hole.name,),
    )
    scheme = scheme_of(hold, job, ops, fit)
    if scheme is None:
        return
    need = {
        op.key: f"the {hole.name} is what it turns on"
        for op in body.operations
        if op.feature == hole.name and op.verb == "bore"
    }
    own = tuple(p for p in scheme.need if p[0] not in need)
    yield replace(scheme, need=(*own, *need.items()))
