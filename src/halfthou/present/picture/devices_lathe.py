"""What holds the work on a lathe, as drawn in half view: chuck at the left, tailstock right.

Sizes along the work and the gripped diameter are the real ones to scale; bodies that would fill
the sheet are broken off. All functions take and give paper millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from halfthou.present.picture.sheet import Mark, Path
from halfthou.shapes.flat import Point2, Polyline2
from halfthou.units import Millimetre
from halfthou.workshop.model import Device

_WAVE: Final = 0.9
_COPPER: Final[Millimetre] = 0.7
"""Thickness of soft copper as it is drawn, on paper. [mm]"""
_PACKING: Final[Millimetre] = 4.0
"""Thickness of packing behind the work as it is drawn, on paper. [mm]"""
_RELIEF: Final[Millimetre] = 2.0
_BEHIND: Final[Millimetre] = 7.0
"""How far jaws reach behind the gripped length at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """Where a device holds, on paper: from ``left`` to ``right`` at ``radius`` about ``axis``.

    ``backed`` work lies against a step of the jaws, or packing, with its left end.
    ``work`` is the farthest the work reaches from the axis, ``work_left`` its left end;
    ``room_left`` is where the sheet ends. Jaws that throw the work over close about a line
    ``thrown`` below the axis. ``copper`` lies between them and a finished surface; ``packed`` work
    has equal packing behind it while it is gripped.
    """

    left: Millimetre
    right: Millimetre
    radius: Millimetre
    axis: Millimetre
    work: Millimetre
    work_left: Millimetre
    room_left: Millimetre
    inside: bool
    soft: bool = False
    backed: bool = False
    copper: bool = False
    packed: bool = False
    scale: float = 1.0
    thrown: Millimetre = 0.0
    drop: Millimetre = 0.0
    """How far down from the axis work lies on an angle plate."""
    work_right: Millimetre = 0.0
    soft_screw: bool = False
    """Whether soft metal lies under the screw of a driver."""
    parallels: bool = False
    """Whether parallels lie between the work and the faceplate."""


def _both(grip: Grip, figure: Polyline2) -> tuple[Polyline2, Polyline2]:
    """Return a figure given by distance from the axis, above and below it."""
    return (
        tuple((x, grip.axis + grip.thrown - r) for x, r in figure),
        tuple((x, grip.axis + grip.thrown + r) for x, r in figure),
    )


def _across(grip: Grip, figure: Polyline2) -> tuple[Polyline2]:
    """Return a figure that begins and ends on the axis as one whole outline about it."""
    above, below = _both(grip, figure)
    return ((*above, *below[::-1]),)


def broken(start: Point2, end: Point2) -> Polyline2:
    """Return a break line: a shallow wave between two points."""
    count = max(4, round(math.dist(start, end) / 2.2))
    dx, dy = (end[0] - start[0]) / count, (end[1] - start[1]) / count
    long = math.hypot(dx, dy) or 1.0
    steps = 4 * count
    return tuple(
        (
            start[0] + dx * n / 4 - dy / long * _WAVE * 0.5 * math.sin(math.pi * n / 4),
            start[1] + dy * n / 4 + dx / long * _WAVE * 0.5 * math.sin(math.pi * n / 4),
        )
        for n in range(steps + 1)
    )


def jaw_height(grip: Grip) -> Millimetre:
    """How far a jaw stands out beyond the grip, on paper [mm]."""
    return min(15.0, max(8.0, 14.0 * grip.scale))


def _chuck_body(grip: Grip, face: Millimetre, radius: Millimetre) -> tuple[Mark, ...]:
    left = max(grip.room_left, face - 9.0) if grip.work_left > face - 12.0 else face - 9.0
    top, bottom = grip.axis - radius, grip.axis + radius
    wave = broken((left, bottom), (left, top))
    body = (*wave, (face, top), (face, bottom))
    return (Path(lines=(body,), style="holding", closed=True),)


def _spindle(grip: Grip, face: Millimetre) -> tuple[Mark, ...]:
    """Draw what stands round long work that goes through the chuck into the spindle."""
    if grip.work_left > face - 8.0:
        return ()
    radius = grip.work + 4.0
    left = grip.work_left - 5.0
    top, bottom = grip.axis - radius, grip.axis + radius
    wave = broken((left, bottom), (left, top))
    return (Path(lines=((*wave, (face, top), (face, bottom)),), style="holding", closed=True),)


def _jaws_outside(grip: Grip) -> tuple[Mark, ...]:
    """Three-jaw, four-jaw and soft jaws closing on the outside."""
    high = jaw_height(grip)
    face = max(min(grip.left, grip.work_left) - 1.2, grip.left - _BEHIND)
    if grip.packed:
        face = grip.work_left - _PACKING
    step = (
        grip.right - 0.38 * (grip.right - grip.left)
        if grip.soft
        else grip.right - 0.5 * (grip.right - grip.left)
    )
    top = grip.radius + high
    low = grip.radius + 0.5 * high
    jaw: Polyline2 = (
        (face, grip.radius),
        (grip.right, grip.radius),
        (grip.right, low),
        (step, low),
        (step, top),
        (face, top),
    )
    if grip.backed:
        back = grip.work_left
        seat = grip.radius - min(4.5, 0.3 * grip.radius)
        face = back - 3.5
        step = min(step, grip.right - 1.5)
        jaw = (
            (face, seat),
            (back, seat),
            (back, grip.radius),
            (grip.right, grip.radius),
            (grip.right, low),
            (step, low),
            (step, top),
            (face, top),
        )
    elif grip.left - face > _RELIEF:
        relief = grip.radius + 0.18 * high
        jaw = ((face, relief), (grip.left, relief), (grip.left, grip.radius), *jaw[1:])
    radius = max(top - 0.25 * high, 0.6 * high)
    return (
        *_chuck_body(grip, face, radius),
        Path(lines=_both(grip, jaw), style="holding", closed=True),
        *laid_between(grip),
    )


def laid_between(grip: Grip) -> tuple[Mark, ...]:
    """Draw soft copper under the jaws, and packing behind the work."""
    marks: list[Mark] = []
    if grip.copper:
        sheet = _both(grip, copper_figure(grip))
        marks.append(Path(lines=sheet, style="soft copper", closed=True))
    if grip.packed:
        left, right = grip.work_left - _PACKING, grip.work_left
        inner, outer = 0.3 * grip.radius, 0.75 * grip.radius
        block = ((left, inner), (right, inner), (right, outer), (left, outer))
        marks.append(Path(lines=_both(grip, block), style="holding", closed=True))
    return tuple(marks)


def copper_figure(grip: Grip) -> Polyline2:
    """Return soft copper between jaw and work, by distance from the axis."""
    low, high = grip.radius, grip.radius + _COPPER
    return ((grip.left, low), (grip.right + 1.2, low), (grip.right + 1.2, high), (grip.left, high))


def spots_between(grip: Grip) -> dict[str, tuple[Point2, ...]]:
    """Where to point at what is laid between work and chuck, by what it is called."""
    found: dict[str, tuple[Point2, ...]] = {}
    if grip.copper:
        above, below = _both(grip, ((grip.right + 0.6, grip.radius + _COPPER / 2),))
        found["soft copper"] = (*above, *below)
    if grip.packed:
        middle = (grip.work_left - _PACKING / 2, 0.52 * grip.radius)
        above, below = _both(grip, (middle,))
        found["packing"] = (*above, *below)
    if grip.soft_screw:
        left = max(grip.work_left + 0.8, grip.right - 6.0)
        found["soft metal"] = (((left + grip.right) / 2 + 1.5, grip.axis - grip.radius - 0.5),)
    return {**found, **_plate_spots(grip)}


def _plate_spots(grip: Grip) -> dict[str, tuple[Point2, ...]]:
    """Where to point at the pieces that hold work on an angle plate."""
    if not grip.drop:
        return {}
    face = grip.work_left - (_PARALLEL if grip.parallels else 0.0)
    shelf = grip.axis + grip.drop + _SHELF / 2
    found = {
        "angle plate": tuple(
            (face + share * (grip.work_right - face), shelf) for share in (0.8, 0.5, 0.3)
        ),
        "balance weight": ((face + _WEIGHT / 2, grip.axis - grip.work - _WEIGHT / 2),),
    }
    if grip.parallels:
        spots = (grip.axis - 0.6 * grip.work, grip.axis + 0.6 * grip.drop)
        found["parallels"] = tuple((face + _PARALLEL / 2, y) for y in spots)
    return found


def _jaws_inside(grip: Grip) -> tuple[Mark, ...]:
    """Jaws opening in a bore."""
    face = min(grip.left, grip.work_left) - 3.0
    thick = min(0.8 * grip.radius, 9.0)
    root = grip.radius + max(4.0, 0.3 * jaw_height(grip))
    jaw: Polyline2 = (
        (face, grip.radius - thick),
        (grip.right, grip.radius - thick),
        (grip.right, grip.radius),
        (min(grip.left, grip.work_left) - 0.9, grip.radius),
        (min(grip.left, grip.work_left) - 0.9, root),
        (face, root),
    )
    return (
        *_chuck_body(grip, face, root + 4.0),
        Path(lines=_both(grip, jaw), style="holding", closed=True),
    )


def _jaws(grip: Grip) -> tuple[Mark, ...]:
    return _jaws_inside(grip) if grip.inside else _jaws_outside(grip)


def _collet(grip: Grip) -> tuple[Mark, ...]:
    """Draw a collet in the spindle nose: a split taper closing on the full length."""
    thick = min(6.0, max(3.5, 0.5 * grip.radius))
    nose = grip.right - 2.0
    left = max(grip.room_left, grip.left - 4.0)
    collet: Polyline2 = (
        (left, grip.radius),
        (grip.right, grip.radius),
        (grip.right, grip.radius + thick),
        (nose, grip.radius + thick),
        (left, grip.radius + 0.45 * thick),
    )
    closer = grip.radius + thick + 6.0
    spindle: Polyline2 = (
        (left, grip.radius + 0.45 * thick),
        (nose, grip.radius + thick),
        (nose, closer),
        (left, closer),
    )
    slit = _both(
        grip, ((left, grip.radius + 0.2 * thick), (grip.right - 3.0, grip.radius + 0.2 * thick))
    )
    return (
        Path(lines=_both(grip, spindle), style="holding", closed=True),
        Path(lines=_both(grip, collet), style="holding", closed=True),
        Path(lines=slit, style="holding line"),
    )


def _mandrel(grip: Grip) -> tuple[Mark, ...]:
    """Draw a stub mandrel turned in place: a spigot through the bore, its shoulder, a nut."""
    face = grip.left
    left = max(grip.room_left, face - 14.0)
    shoulder = grip.radius + min(0.5 * (grip.work - grip.radius), 5.0)
    out = grip.right + 6.0
    stub: Polyline2 = (
        (left, 0.0),
        (left, shoulder),
        (face, shoulder),
        (face, grip.radius),
        (grip.right - 0.6, grip.radius),
        (grip.right - 0.6, 0.6 * grip.radius),
        (out, 0.6 * grip.radius),
        (out, 0.0),
    )
    nut: Polyline2 = (
        (grip.right, 0.6 * grip.radius),
        (grip.right, shoulder),
        (grip.right + 3.5, shoulder),
        (grip.right + 3.5, 0.6 * grip.radius),
    )
    return (
        Path(lines=_across(grip, stub), style="holding", closed=True),
        Path(lines=_both(grip, nut), style="holding", closed=True),
    )


def _faceplate(grip: Grip) -> tuple[Mark, ...]:
    """Draw the plate behind, a strap and a bolt above and below."""
    face = grip.work_left
    left = max(grip.room_left, face - 5.0)
    radius = grip.work + 13.0
    plate = ((left, 0.0), (left, radius), (face, radius), (face, 0.0))
    top = grip.right
    strap: Polyline2 = (
        (top, grip.work - 4.0),
        (top, grip.work + 11.0),
        (top + 3.0, grip.work + 11.0),
        (top + 3.0, grip.work - 4.0),
    )
    heel: Polyline2 = (
        (face, grip.work + 7.5),
        (top, grip.work + 7.5),
        (top, grip.work + 11.0),
        (face, grip.work + 11.0),
    )
    bolt: Polyline2 = (
        (left - 1.5, grip.work + 2.2),
        (top + 5.5, grip.work + 2.2),
        (top + 5.5, grip.work + 4.8),
        (left - 1.5, grip.work + 4.8),
    )
    return tuple(
        Path(lines=_both(grip, figure), style="holding", closed=True)
        for figure in (plate, heel, strap, bolt)
    )


def _angle_plate(grip: Grip) -> tuple[Mark, ...]:
    """Draw the faceplate, the angle plate bolted to it under the work, a weight opposite."""
    face = grip.work_left - (_PARALLEL if grip.parallels else 0.0)
    left = max(grip.room_left, face - 5.0)
    under, high = grip.axis + grip.drop, grip.work
    foot = under + _SHELF + _LEG
    top = grip.axis - high - _WEIGHT - 3.0
    plate = ((left, top), (face, top), (face, foot + 3.0), (left, foot + 3.0))
    shelf = (
        (face, under),
        (grip.work_right - 1.0, under),
        (grip.work_right - 1.0, under + _SHELF),
        (face + _SHELF, under + _SHELF),
        (face + _SHELF, foot),
        (face, foot),
    )
    weight = _block(face, grip.axis - high - _WEIGHT, face + _WEIGHT, grip.axis - high - 1.0)
    middle = under + _SHELF + 0.6 * _LEG
    bolt = _block(left - 1.5, middle - 1.3, face + _SHELF + 3.0, middle + 1.3)
    blocks = [plate, shelf, weight, bolt]
    if grip.parallels:
        blocks += [
            _block(
                face,
                grip.axis + share * reach - 2.5,
                grip.work_left,
                grip.axis + share * reach + 2.5,
            )
            for share, reach in ((-0.6, high), (0.6, grip.drop))
        ]
    return tuple(Path(lines=(one,), style="holding", closed=True) for one in blocks)


def _block(left: float, top: float, right: float, bottom: float) -> Polyline2:
    return ((left, top), (right, top), (right, bottom), (left, bottom))


_SOFT: Final[Millimetre] = 1.0
_SHELF: Final[Millimetre] = 5.0
_LEG: Final[Millimetre] = 15.0
_WEIGHT: Final[Millimetre] = 9.0
_PARALLEL: Final[Millimetre] = 4.0
"""Sizes on paper of the angle plate, the weight and parallels behind the work. [mm]"""


def _centres(grip: Grip) -> tuple[Mark, ...]:
    """Draw a dead centre in the spindle and a driver with its pin."""
    tip = grip.work_left + min(2.6, 0.35 * grip.radius)
    back = max(grip.room_left, grip.work_left - 13.0)
    wide = min(6.5, max(3.5, 0.9 * grip.radius))
    cone = ((tip, 0.0), (tip - wide * math.sqrt(3), wide), (back, wide), (back, 0.0))
    carrier_right = grip.right
    carrier_left = max(grip.work_left + 0.8, carrier_right - 6.0)
    top = grip.radius + 6.5
    carrier: Polyline2 = (
        (carrier_left, grip.radius),
        (carrier_right, grip.radius),
        (carrier_right, top),
        (carrier_left, top),
    )
    middle = (carrier_left + carrier_right) / 2
    soft = _block(
        middle - 1.9, grip.axis - grip.radius - _SOFT, middle + 1.9, grip.axis - grip.radius
    )
    screw: Polyline2 = (
        ((carrier_left + carrier_right) / 2 - 1.3, grip.axis - top),
        ((carrier_left + carrier_right) / 2 + 1.3, grip.axis - top),
        ((carrier_left + carrier_right) / 2 + 1.3, grip.axis - top - 4.0),
        ((carrier_left + carrier_right) / 2 - 1.3, grip.axis - top - 4.0),
    )
    pin: Polyline2 = (
        (back, grip.axis + top - 3.4),
        (carrier_left, grip.axis + top - 3.4),
        (carrier_left, grip.axis + top - 0.6),
        (back, grip.axis + top - 0.6),
    )
    plate_left = max(grip.room_left, back - 4.0)
    plate = ((plate_left, 0.0), (plate_left, top + 4.0), (back, top + 4.0), (back, 0.0))
    return (
        Path(lines=_across(grip, plate), style="holding", closed=True),
        Path(lines=_across(grip, cone), style="holding", closed=True),
        Path(lines=(pin, screw), style="holding", closed=True),
        Path(lines=_both(grip, carrier), style="holding", closed=True),
        *([Path(lines=(soft,), style="soft copper", closed=True)] if grip.soft_screw else []),
    )


def fixed_steady(at: Point2, *, radius: Millimetre) -> tuple[Mark, ...]:
    """Draw a fixed steady about the work at a place: fingers touching it, its ring broken off."""
    x, y = at
    marks: list[Mark] = []
    for side in (-1.0, 1.0):
        touch, root, end = (y + side * (radius + out) for out in (0.0, 8.0, 15.0))
        wave = broken((x - 4.0, end), (x + 4.0, end))
        body = ((x - 4.0, root), *wave, (x + 4.0, root))
        tip = touch + side * 2.5
        finger = (
            (x - 0.9, touch),
            (x + 0.9, touch),
            (x + 2.2, tip),
            (x + 2.2, root + side * 3.0),
            (x - 2.2, root + side * 3.0),
            (x - 2.2, tip),
        )
        marks += [
            Path(lines=(body,), style="holding", closed=True),
            Path(lines=(finger,), style="holding", closed=True),
        ]
    return tuple(marks)


def tail_centre(*, at: Point2, depth: Millimetre, radius: Millimetre) -> tuple[Mark, ...]:
    """Draw a centre from the tailstock in the work's right end, which lies at ``at``."""
    x, y = at
    tip = x - depth
    wide = min(6.5, max(3.5, 0.9 * radius))
    shoulder = tip + wide * math.sqrt(3)
    end = shoulder + 5.0
    quill = wide + 2.5
    upper: Polyline2 = (
        (tip, y),
        (shoulder, y - wide),
        (end, y - wide),
        (end, y + wide),
        (shoulder, y + wide),
    )
    wave = broken((end + 6.0, y - quill), (end + 6.0, y + quill))
    barrel = ((end, y - quill), *wave, (end, y + quill))
    return (
        Path(lines=(upper,), style="holding", closed=True),
        Path(lines=(barrel,), style="holding", closed=True),
    )


def _boring_bar(grip: Grip) -> tuple[Mark, ...]:
    """Draw the bar between centres that goes through the work."""
    left, right = max(grip.room_left, grip.work_left - 13.0), grip.right + 13.0
    bar = ((left, 0.0), (left, _BAR), (right, _BAR), (right, 0.0))
    return (Path(lines=_both(grip, bar), style="holding", closed=True),)


_BAR: Final = 6.0
"""Half the thickness of the boring bar drawn. [mm]"""
_DRAWN: Final[dict[Device, Callable[[Grip], tuple[Mark, ...]]]] = {
    "three-jaw chuck": _jaws,
    "soft jaws": _jaws,
    "four-jaw chuck": _jaws,
    "chuck on the mill table": _jaws,
    "collet": _collet,
    "stub mandrel": _mandrel,
    "faceplate": _faceplate,
    "angle plate": _angle_plate,
    "centres": _centres,
    "cross-slide": _boring_bar,
}


def lathe_device(device: Device, grip: Grip) -> tuple[Mark, ...]:
    """Draw what holds the work; a device with no picture of its own is drawn as jaws."""
    return _DRAWN.get(device, _jaws)(grip)
