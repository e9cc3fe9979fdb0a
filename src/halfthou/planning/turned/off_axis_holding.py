"""Work thrown over in the chuck: four jaws clocked to the throw, or packing under one of three."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Hole, Part
from halfthou.handbook.off_axis import packing
from halfthou.planning.model import Operation, Refused, Scheme
from halfthou.planning.turned.finished_grips import finished_grips, is_ring
from halfthou.planning.turned.grips import Grip, Shop, Way, fit
from halfthou.planning.turned.in_three_jaw import raw_grips
from halfthou.planning.turned.off_axis import place_band, set_over, throw_of
from halfthou.planning.turned.shape import ENDS, TOWARD, End, other_end, planes_at, rounds
from halfthou.units import Millimetre
from halfthou.workshop.model import HoldingDevice

CLEAR_OF_BED: Final = 3.0
"""Least gap between the work swinging round and the bed, mm (usual practice)."""
CLOCKED: Final = 0.02
"""How near twice the throw the clock's reading is brought, mm over the turn (usual practice)."""
PACKING_MADE: Final = 0.02
"""How near its thickness packing is filed or shimmed, mm (usual practice)."""
PACKING_MINUTES: Final = 10.0
"""Making a piece of packing to a thickness, minutes (usual practice)."""


def thrown_over(shop: Shop) -> Iterator[Scheme | None]:
    """Give the ways to hold the work so that a line off its axis turns true."""
    for hole in set_over(shop.part, shop.workshop):
        if swings_clear(shop, hole) is not None:
            continue
        for end in ENDS:
            for grip, clocked in _grips(shop, hole, end):
                yield _four_jaw(shop, hole, end, grip, clocked)
                yield _packed(shop, hole, end, grip)


def _grips(shop: Shop, hole: Hole, end: End) -> Iterator[tuple[Grip, tuple[str, ...]]]:
    """Give where jaws can bear, and the turned rounds and faces that are then clocked."""
    four = shop.device("four-jaw chuck")
    deep = four.jaw_depth if four is not None and four.jaw_depth else 25.0
    outside = _clocked_on(shop.part, hole)
    for one, grip in finished_grips(shop, end, deep):
        if is_ring(shop, one):
            continue
        clocked = outside or one.name
        also = _made_first(shop, (clocked,) if clocked not in grip.surfaces else ())
        yield replace(grip, need=(*grip.need, *also)), (clocked, *grip.seats)
    raw = raw_grips(shop, four, end) if four is not None and outside else ()
    for grip in raw:
        free = planes_at(shop.part, _free_end(shop, end), TOWARD[end])
        first = _made_first(shop, (outside, *free))
        yield replace(grip, need=(*grip.need, *first)), (outside, *free)


def _made_first(shop: Shop, names: tuple[str, ...]) -> list[tuple[str, str]]:
    return [
        (key, f"the {name} is what the throw is clocked on")
        for name in names
        for key in shop.makers(name)
    ]


def _free_end(shop: Shop, end: End) -> Millimetre:
    row = rounds(shop.part)
    return row[-1].right if end == "right" else row[0].left


def _clocked_on(part: Part, hole: Hole) -> str:
    """Name the round the drawing ties a hole to; else the one with the closest size."""
    own = {s.name for s in part.surfaces if s.feature == hole.name}
    plain = [r for r in rounds(part) if r.thread is None and r.right_diameter is None]
    names = {r.name for r in plain}
    tied = [r.to if r.surface in own else r.surface for r in part.requirements
            if r.origin == "drawn" and own & {r.surface, r.to}]  # fmt: skip
    asked = [name for name in tied if name in names]
    best = min(plain, key=lambda r: r.diameter.width, default=None)
    return asked[0] if asked else best.name if best is not None else ""


def _way(hole: Hole, device: HoldingDevice, grip: Grip, end: End) -> Way:
    on = grip.surfaces[0]
    held = "the bar" if on.startswith("stock") else f"the {on}"
    return Way(
        device=device,
        grip=grip,
        faces=end,
        name=f"{device.device} on {held}, set over for the {hole.name}, {end} end out, "
        f"{grip.high - grip.low:.1f} in the jaws at {grip.low:.1f}",
        error=device.trued,
        minutes=device.minutes,
        throw=throw_of(hole),
    )


def _four_jaw(
    shop: Shop, hole: Hole, end: End, grip: Grip, clocked: tuple[str, ...]
) -> Scheme | None:
    device = shop.device("four-jaw chuck")
    if device is None or not device.smallest <= grip.size <= device.largest:
        return None
    way = _way(hole, device, grip, end)
    return fit(
        shop,
        replace(
            way,
            error=max(device.trued, CLOCKED),
            true_on=tuple((name, CLOCKED) for name in clocked),
            reason=f"the {hole.name} is off the axis: the work is set over "
            "until its own line turns true",
        ),
    )


def packing_holds(shop: Shop, hole: Hole) -> tuple[bool, Millimetre]:
    """Tell whether a self-centring chuck keeps the place asked for, and to what it does; [mm]."""
    device = shop.device("three-jaw chuck")
    if device is None:
        return False, math.inf
    keeps = math.hypot(device.rehold / 2, PACKING_MADE)
    band = place_band(shop.part, hole)
    return band is None or band.width / 2 >= keeps, keeps


def _packed(shop: Shop, hole: Hole, end: End, grip: Grip) -> Scheme | None:
    device = shop.device("three-jaw chuck")
    if device is None or not device.smallest <= grip.size <= device.largest:
        return None
    far = math.hypot(*throw_of(hole))
    if not packing_holds(shop, hole)[0] or far >= grip.size / 2:
        return None
    way = _way(hole, device, grip, end)
    return fit(
        shop,
        replace(
            way,
            error=device.rehold,
            minutes=device.minutes + PACKING_MINUTES,
            packing=packing(throw=far, diameter=grip.size),
            reason=f"the {hole.name} is off the axis: packing under the one jaw "
            "throws the work over",
        ),
    )


def swings_clear(shop: Shop, hole: Hole) -> tuple[str, str] | None:
    """Say why the work cannot be swung about a hole's line, or None."""
    far = math.hypot(*throw_of(hole))
    radius = shop.stock.across / 2
    room = max((lathe.centre_height for lathe in shop.workshop.lathes), default=0.0)
    if far + radius <= room - CLEAR_OF_BED:
        return None
    return (
        (
            f"set over by {far:.1f} the work swings {far + radius:.0f} mm and the lathe clears "
            f"{room - CLEAR_OF_BED:.0f}"
        ),
        "a boring head on the mill, by coordinates",
    )


def cannot_throw(shop: Shop, op: Operation) -> Refused | None:
    """Say why nothing throws the work over for an operation; None if it is on the axis."""
    hole = next((h for h in set_over(shop.part, shop.workshop) if h.name == op.feature), None)
    if hole is None:
        return None
    swing = swings_clear(shop, hole)
    if swing is not None:
        return Refused(scheme="chuck", operation=op.key, reason=swing[0], remedy=swing[1])
    if shop.device("four-jaw chuck") is None:
        holds, keeps = packing_holds(shop, hole)
        band = place_band(shop.part, hole)
        asked = band.text if band is not None else ""
        reason = "no four-jaw chuck to clock the throw in"
        if not holds and math.isfinite(keeps):
            reason += f"; packing in three jaws keeps the place to {keeps:.2f}, asked is {asked}"
        return Refused(
            scheme="four-jaw chuck", operation=op.key, reason=reason,
            remedy="a four-jaw chuck, or a boring head for the mill",
        )  # fmt: skip
    return Refused(
        scheme="four-jaw chuck",
        operation=op.key,
        reason=f"the jaws find nothing to hold with the {other_end(_end(op))} end in the chuck",
        remedy="a longer blank, so that there is metal to hold by",
    )


def _end(op: Operation) -> End:
    return "right" if op.approach[0][0] > 0 else "left"
