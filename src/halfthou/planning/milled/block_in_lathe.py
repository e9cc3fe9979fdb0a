"""A block turning in the lathe, in four-jaw or on faceplate, the place of a hole running true."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from halfthou.drawing.model import OUTWARD, Side
from halfthou.planning.axes import axis_of, side_toward
from halfthou.planning.milled.held_sides import Job
from halfthou.planning.milled.lump import SIDES
from halfthou.planning.model import Link, Operation, Refused, Scheme
from halfthou.planning.who_makes import one_reason_each
from halfthou.units import Millimetre
from halfthou.workshop.model import HoldingDevice

LEAST_GRIP: Final = 5.0
"""Least thickness of a block in the four-jaw, backed on the chuck's face (usual practice)."""
_CLEAR: Final = 3.0
"""Least gap between the corner swinging round and the bed. [mm]"""
_CLOCKED: Final = 0.02
_IN_CHUCK: Final = "backed on parallels against the chuck, packing under each jaw"
_ON_PLATE: Final = "on parallels clear of the hole, three clamps and a stop, balanced"


def schemes_block_in_lathe(job: Job) -> tuple[list[Scheme], list[Refused]]:
    """Give the ways to turn a block about each hole that is bored in the lathe."""
    schemes: list[Scheme] = []
    refused: list[Refused] = []
    for device in job.workshop.holding:
        if device.machine != "lathe" or device.device not in ("four-jaw chuck", "faceplate"):
            continue
        for work in _bored(job):
            name = f"{device.name}: {work[0].feature} running true"
            why = _cannot_turn(job, device, work[0])
            if why is None:
                schemes.append(_turning(job, device, work, name))
            else:
                refused += [
                    Refused(scheme=name, operation=op.key, reason=why[0], remedy=why[1])
                    for op in work
                ]
    return schemes, refused


def _bored(job: Job) -> Iterator[tuple[Operation, ...]]:
    """Give the lathe work of each hole together."""
    features = dict.fromkeys(op.feature for op in job.operations if op.machine == "lathe")
    for feature in features:
        yield tuple(op for op in job.operations if op.machine == "lathe" and op.feature == feature)


def _swing(job: Job, op: Operation) -> Millimetre:
    """Give the radius in which the farthest corner swings about the hole [mm]."""
    raw, place = job.lump.raw, op.at[0]
    flat = [i for i in range(3) if i != axis_of(op.approach[0])]
    return math.hypot(*(max(raw.high[i] - place[i], place[i] - raw.low[i]) for i in flat))


def _cannot_turn(job: Job, device: HoldingDevice, op: Operation) -> tuple[str, str] | None:
    radius = _swing(job, op)
    room = max((lathe.centre_height for lathe in job.workshop.lathes), default=0.0) - _CLEAR
    if radius > room:
        return (
            f"its corner swings {radius:.0f} mm from the hole and the lathe clears {room:.0f}",
            "bolt it to the cross-slide and bore it with a bar between centres",
        )
    raw = job.lump.raw
    flat = [d for d in OUTWARD.values() if axis_of(d) != axis_of(op.approach[0])]
    across = max(raw.length(d) for d in flat)
    if across > device.largest:
        return (
            f"the {device.name} takes {device.largest:g} mm and the work is {across:.0f} across",
            "bolt it to the cross-slide and bore it with a bar between centres",
        )
    return None


def _need(job: Job, side: Side) -> list[tuple[str, str]]:
    """Give the cuts that clean a side, where it has metal to come off."""
    return job.need(side, "milled") if "milled" in job.states(side) else []


def _turning(job: Job, device: HoldingDevice, work: tuple[Operation, ...], name: str) -> Scheme:
    faces = work[0].approach[0]
    up = side_toward(faces)
    seat = next(s for s in SIDES if s != up and axis_of(OUTWARD[s]) == axis_of(faces))
    around: tuple[Side, ...] = tuple(s for s in SIDES if axis_of(OUTWARD[s]) != axis_of(faces))
    chuck = device.device == "four-jaw chuck"
    need = [pair for side in (seat, *around) for pair in _need(job, side)]
    part = job.lump.part
    thick = part.length(faces)
    grip = max(LEAST_GRIP, min(device.jaw_depth or thick, thick * 2 / 3))
    return Scheme(
        key=name,
        machine="lathe",
        links=(Link(holder=device, detail=_IN_CHUCK if chuck else _ON_PLATE),),
        faces=faces,
        across=OUTWARD[around[0]],
        grips=tuple(job.surface(s, "bought") for s in around) if chuck else (),
        seats=(job.surface(seat, "bought"),),
        grip_low=part.least(faces),
        grip_high=part.least(faces) + (grip if chuck else 0.0),
        grip_size=max(part.length(OUTWARD[s]) for s in around),
        inside=False,
        centre=False,
        stick_out=thick - (grip if chuck else 0.0),
        true_on=((job.surface(seat, "bought"), _CLOCKED),),
        error=device.trued,
        minutes=device.minutes,
        can=frozenset(op.key for op in work),
        need=one_reason_each(need),
        ban=(),
        reason="the place of the hole, marked out and centre-popped, is brought to run true",
    )
