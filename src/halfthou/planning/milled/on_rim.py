"""Short turned work stood on its rim, its two faces between the vice jaws, for holes across it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.drawing.model import Part, Round
from halfthou.planning.axes import cross, dot, extents_of_all
from halfthou.planning.model import Link, Operation, Scheme
from halfthou.planning.turned.shape import TOWARD, largest, planes_at, rounds
from halfthou.planning.who_makes import asked_for, one_reason_each
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import HoldingDevice, Workshop

LEAST_DEEP: Final = 8.0
"""Least height of rim between the jaws, mm (usual practice)."""
_CLEAR: Final = 1.0
_STANDS: Final = "on its rim on a parallel, its faces between the jaws"
_AWAY: Final[Vec3] = (-1.0, 0.0, 0.0)
"""The left face is the one against the fixed jaw."""


def on_rim(
    part: Part,
    workshop: Workshop,
    everything: tuple[Operation, ...],
    own: tuple[Operation, ...],
    up: Vec3,
) -> Iterator[Scheme]:
    """Give the ways to stand turned work on its rim for the operations from ``up``."""
    for device in workshop.holding:
        if device.device != "vice" or device.machine != "mill":
            continue
        for one in rounds(part):
            deep = _deep(part, one, device)
            wide = one.right - one.left
            if deep >= LEAST_DEEP and device.smallest <= wide <= device.largest:
                scheme = _standing(part, device, everything, own, (one, up, deep))
                if scheme is not None:
                    yield scheme


def _deep(part: Part, one: Round, device: HoldingDevice) -> Millimetre:
    """Give how far up from the rim both faces are clear for the jaws; [mm]."""
    beside = [
        largest(r)
        for r in rounds(part)
        if r is not one and (r.right <= one.left + _CLEAR / 2 or r.left >= one.right - _CLEAR / 2)
    ]
    radius = one.diameter.nominal / 2
    room = radius - max(beside, default=0.0) / 2 - _CLEAR if beside else radius
    return min(room, device.jaw_depth)


def _standing(
    part: Part,
    device: HoldingDevice,
    everything: tuple[Operation, ...],
    own: tuple[Operation, ...],
    held: tuple[Round, Vec3, Millimetre],
) -> Scheme | None:
    one, up, deep = held
    left = planes_at(part, one.left, TOWARD["left"])
    right = planes_at(part, one.right, TOWARD["right"])
    if not left or not right:
        return None
    kept, foot = (left[0], right[0]), -one.diameter.nominal / 2
    can = [op for op in own if not {*kept, one.name} & set(op.makes)
           and _over_the_jaws(op, up, foot + deep)]  # fmt: skip
    if not can:
        return None
    need = _needed(everything, (*kept, one.name))
    return Scheme(
        key=f"{device.name}, {one.name} on its rim",
        machine="mill",
        links=(Link(holder=device, detail=_STANDS),),
        faces=up,
        across=cross(_AWAY, up),
        grips=kept,
        seats=(one.name,),
        grip_low=foot,
        grip_high=foot + deep,
        grip_size=one.right - one.left,
        inside=False,
        centre=False,
        stick_out=one.diameter.nominal - deep,
        true_on=(),
        error=device.trued,
        minutes=device.minutes,
        can=frozenset(op.key for op in can if op.key not in {key for key, _ in need}),
        need=one_reason_each(need),
        ban=(),
        reason=f"too short to lie between the jaws, so it stands on the {one.name}'s rim",
    )


def _needed(everything: tuple[Operation, ...], names: tuple[str, ...]) -> list[tuple[str, str]]:
    why = "{} is what it is held by or stands on"
    return [pair for name in names for pair in asked_for(everything, name, why.format(name))]


def _over_the_jaws(op: Operation, up: Vec3, jaws: Millimetre) -> bool:
    """Tell whether a cut stays above the jaws."""
    space = extents_of_all(op.region)
    lowest = min((dot(point, up) for point in op.at), default=jaws)
    return (space.least(up) if space is not None else lowest) >= jaws - _CLEAR
