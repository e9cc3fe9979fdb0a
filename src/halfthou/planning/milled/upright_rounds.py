"""Turned work stood on end on the mill, for holes in its faces."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part, Surface
from halfthou.planning.axes import dot, extents_of_all, opposite, same
from halfthou.planning.model import Link, Operation, Refused, Scheme
from halfthou.planning.who_makes import asked_for, one_reason_each
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import HoldingDevice, Workshop

LEAST_RIM: Final = 5.0
"""Least height of a rim to hold work by that stands on a face, mm (usual practice)."""
CHUCK_AND_DRILL: Final = 120.0
"""Room a drill chuck takes with a drill in it, mm (usual practice)."""
TWO_LINES: Final = 15.0
"""What a round between flat jaws costs more than in a chuck: two lines of contact, a risk to the
work, minutes (usual practice)."""
_NEAR: Final = 0.01
_CLOCKED: Final = 0.02
_DEVICES: Final = ("chuck on the mill table", "vice", "clamps", "rotary table")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stood:
    """A turned part stood on end: what looks up and what it rests on."""

    part: Part
    everything: tuple[Operation, ...]
    own: tuple[Operation, ...]
    up: Vec3
    room: Millimetre

    def seat(self, device: HoldingDevice, held: Surface) -> Surface | None:
        """Give the face it rests on: under what is held, or the shoulder that backs on chuck jaws.

        Whatever hangs below that face hangs free, between parallels or in the chuck.
        """
        low, high = self.height(held)
        if device.device == "chuck on the mill table":
            shoulder = self._looking_down(high)
            if shoulder is not None:
                return shoulder
        return self._looking_down(low)

    def _looking_down(self, level: Millimetre) -> Surface | None:
        down = opposite(self.up)
        faces = [
            s for s in self.part.surfaces
            if s.kind == "plane" and not s.inside and same(s.direction, down)
            and abs(dot(s.point, self.up) - level) < _NEAR
        ]  # fmt: skip
        return next(iter(faces), None)

    @property
    def words(self) -> str:
        return f"{'right' if self.up[0] > 0 else 'left'} end up"

    def height(self, surface: Surface) -> tuple[Millimetre, Millimetre]:
        """Where a surface begins and ends along ``up``, part frame."""
        ends = (dot(surface.low, self.up), dot(surface.high, self.up))
        return min(ends), max(ends)


def upright_schemes(
    part: Part,
    workshop: Workshop,
    everything: tuple[Operation, ...],
    own: tuple[Operation, ...],
    up: Vec3,
) -> tuple[list[Scheme], list[Refused]]:
    """Give the ways to stand turned work on end for the operations from ``up``."""
    room = max((mill.nose_to_table for mill in workshop.mills), default=0.0)
    stood = _Stood(part=part, everything=everything, own=own, up=up, room=room)
    schemes: list[Scheme] = []
    refused: list[Refused] = []
    for device in workshop.holding:
        if device.machine != "mill" or device.device not in _DEVICES:
            continue
        by_rim = device.device in ("chuck on the mill table", "vice")
        for held in _rims(part) if by_rim else _widest(part):
            name = f"{device.name}, {stood.words}, by {held.name}"
            why = _cannot_stand(stood, device, held)
            if why is not None:
                refused += [
                    Refused(scheme=name, operation=op.key, reason=why[0], remedy=why[1])
                    for op in own
                ]
                continue
            schemes.append(_standing(stood, device, held, name))
    return [s for s in schemes if s.can], refused


def _rims(part: Part) -> list[Surface]:
    return [
        s
        for s in part.surfaces
        if s.kind == "cylinder" and not s.inside and s.size is not None
        and abs(s.direction[0]) > 1 - _NEAR
    ]  # fmt: skip


def _across(surface: Surface) -> Millimetre:
    return surface.size.nominal if surface.size is not None else 0.0


def _widest(part: Part) -> list[Surface]:
    return sorted(_rims(part), key=lambda s: -_across(s))[:1]


def _cannot_stand(stood: _Stood, device: HoldingDevice, held: Surface) -> tuple[str, str] | None:
    across = _across(held)
    if across > device.largest:
        return (
            f"the {device.name} takes {device.largest:g} mm and {held.name} is {across:g} across",
            "clamps to the table, centred by a clock in the bore",
        )
    tall = _too_tall(stood, device)
    if tall is not None or device.device in ("clamps", "rotary table"):
        return tall
    if across < device.smallest:
        return (f"{held.name} is too small for the {device.name}", "hold a larger diameter")
    low, high = stood.height(held)
    below = [s for s in _rims(stood.part) if stood.height(s)[1] <= low + _NEAR]
    wider = [s.name for s in below if _across(s) > across + _NEAR]
    if wider:
        return (
            f"{wider[0]} is larger and keeps the jaws from {held.name}",
            "turn the work end for end, or hold it by the larger diameter",
        )
    if high - low < LEAST_RIM:
        return (
            f"{held.name} is {high - low:.1f} high: less than {LEAST_RIM:g} mm to hold by",
            "clamps to the table, or a chucking piece left on",
        )
    return None


def _exit_beside(stood: _Stood, held: Surface, op: Operation) -> Millimetre | None:
    """Give how low a cut comes outside of what is held, over the jaws; None if it does not."""
    space = extents_of_all(op.region)
    if space is None or not op.at:
        return None
    farthest = max(math.hypot(p[1], p[2]) for p in op.at) + op.cut_size / 2
    return space.least(stood.up) if farthest > _across(held) / 2 + _NEAR else None


def _comes_clear(stood: _Stood, device: HoldingDevice, held: Surface, op: Operation) -> bool:
    """Tell whether a drill coming out beside the held diameter misses the vice jaws."""
    bottom = _exit_beside(stood, held, op)
    if bottom is None or device.device != "vice":
        return True
    return bottom - stood.height(held)[0] >= LEAST_RIM


def _too_tall(stood: _Stood, device: HoldingDevice) -> tuple[str, str] | None:
    """Say that work stood on end does not go under the spindle with chuck and drill, or None."""
    points = [dot(p, stood.up) for s in stood.part.surfaces for p in (s.low, s.high)]
    height = max(points) - min(points)
    base = device.overall if device.device != "clamps" else 0.0
    room = stood.room - base - CHUCK_AND_DRILL
    if height <= room:
        return None
    return (
        f"{height:.0f} high on the {device.name} leaves no room under the spindle for a drill",
        "drill it in the lathe, or with the work level on an angle plate",
    )


def _needed(stood: _Stood, kept: set[str], clocked: tuple[str, ...]) -> list[tuple[str, str]]:
    """Give what must be turned before: what it is held by, stands on and is set true to."""
    found: list[tuple[str, str]] = []
    for surface in sorted(kept):
        why = f"{surface} is what it is held by or stands on"
        found += asked_for(stood.everything, surface, why)
    for surface in clocked:
        found += asked_for(stood.everything, surface, f"{surface} is what it is set true to")
    return found


def _grip_depth(
    stood: _Stood, device: HoldingDevice, held: Surface, can: list[Operation]
) -> Millimetre:
    """Give how far the jaws reach up, below any drill that comes out over them [mm]."""
    low, high = stood.height(held)
    depth = min(high - low, device.jaw_depth)
    exits = [_exit_beside(stood, held, op) for op in can if device.device == "vice"]
    return min([depth, *(bottom - low for bottom in exits if bottom is not None)])


def _standing(stood: _Stood, device: HoldingDevice, held: Surface, name: str) -> Scheme:
    seat = stood.seat(device, held)
    low, _ = stood.height(held)
    by_rim = device.device in ("chuck on the mill table", "vice")
    clocked = _clocked_on(stood, held)
    seats = (seat.name,) if seat is not None else ()
    keep = {held.name} if by_rim else set()
    kept = {*keep, *seats}
    can = [
        op
        for op in stood.own
        if not kept & set(op.makes) and (not by_rim or _comes_clear(stood, device, held, op))
    ]
    need = _needed(stood, kept, clocked)
    depth = _grip_depth(stood, device, held, can) if by_rim else 0.0
    top = max(dot(p, stood.up) for s in stood.part.surfaces for p in (s.low, s.high))
    return Scheme(
        key=name,
        machine="mill",
        links=(Link(holder=device, detail=_detail(device, seats, clocked)),),
        faces=stood.up,
        across=(0.0, 1.0, 0.0),
        grips=(held.name,) if by_rim else (),
        seats=seats,
        grip_low=low,
        grip_high=low + depth,
        grip_size=_across(held),
        inside=False,
        centre=False,
        stick_out=top - low - depth,
        true_on=tuple((surface, _CLOCKED) for surface in clocked),
        error=device.trued,
        minutes=device.minutes + (TWO_LINES if device.device == "vice" else 0.0),
        can=frozenset(op.key for op in can if op.key not in {key for key, _ in need}),
        need=one_reason_each(need),
        ban=(),
        reason=f"the spindle is brought over the middle with a clock on {clocked[0]}"
        if clocked
        else "",
    )


def _clocked_on(stood: _Stood, held: Surface) -> tuple[str, ...]:
    """Give what is clocked to find the middle: what the holes are tied to, else bore, else rim."""
    features = {op.feature for op in stood.own}
    made = {s.name for s in stood.part.surfaces if s.feature in features}
    tied = [r.to for r in stood.part.requirements if r.surface in made or r.surface in features]
    on_axis = [
        s
        for s in stood.part.surfaces
        if s.kind == "cylinder" and abs(s.direction[0]) > 1 - _NEAR and s.feature not in features
    ]
    asked = [s for s in on_axis if s.name in tied or s.feature in tied]
    bores = [s for s in on_axis if s.inside]
    best = min(asked or bores, key=lambda s: s.size.width if s.size else 1.0, default=held)
    return (best.name,)


def _detail(device: HoldingDevice, seats: tuple[str, ...], clocked: tuple[str, ...]) -> str:
    on = f"{seats[0]} down" if seats else "far end down"
    match device.device:
        case "vice":
            return f"{on} on parallels, the rim between the jaws with soft pads"
        case "clamps":
            return f"{on} on parallels clear of the holes, clamps on the upper face"
        case "rotary table":
            return f"{on} on parallels, clamped, turned about {clocked[0] if clocked else 'it'}"
        case _:
            return f"{on}, backed on the jaws, soft pads on the rim, no hole over a jaw"
