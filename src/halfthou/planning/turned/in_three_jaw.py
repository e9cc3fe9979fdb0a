"""The bar as sawn in hard jaws, free, on the tailstock centre, or run in the fixed steady."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.cutting.overhang import WORK_DIAMETERS
from halfthou.planning.model import Scheme
from halfthou.planning.turned.faces import taken_off
from halfthou.planning.turned.grips import (
    CLEAR,
    SHORT_GRIP,
    Grip,
    Shop,
    Way,
    fit,
    on_centre,
    overlaps,
    touching,
)
from halfthou.planning.turned.rounds import bar_as_drawn
from halfthou.planning.turned.shape import ENDS, NEAR, End, end_at, ends, rounds, shoulders
from halfthou.planning.turned.stock import LEAST_GRIP, grip_wanted, longest
from halfthou.units import Millimetre
from halfthou.workshop.model import HoldingDevice

STEADY_ROOM: Final = 25.0
"""Bare bar the fixed steady takes up behind the end, mm (usual practice)."""
PADS: Final = "soft pads between the jaws and the bright bar, which stays as it is"
FOUR_JAW_MINUTES: Final = -5.0
"""Raw work is set in a four-jaw chuck by eye, quicker than clocked, minutes (usual practice)."""


def on_the_bar(shop: Shop) -> Iterator[Scheme | None]:
    """Give the ways to hold the bar as sawn."""
    jaws = _chuck(shop)
    if jaws is None:
        return
    for end in ENDS:
        for grip in raw_grips(shop, jaws, end):
            way = Way(
                device=jaws,
                grip=grip,
                faces=end,
                name=f"{jaws.device} on the bar, {end} end out, "
                f"{grip.high - grip.low:.1f} in the jaws at {grip.low:.1f}",
                error=min(jaws.rehold, 0.2),
                minutes=jaws.minutes
                + (FOUR_JAW_MINUTES if jaws.device == "four-jaw chuck" else 0.0),
                reason=_pads(shop, grip),
            )
            if _long_enough(shop, way):
                yield fit(shop, way)
                yield _in_steady(shop, way)
            carried = on_centre(shop, way)
            if carried is not None and grip.high - grip.low >= LEAST_GRIP - NEAR:
                yield fit(shop, replace(carried, error=way.error / 2))


def _long_enough(shop: Shop, way: Way) -> bool:
    """Tell whether the jaws hold enough with nothing else to carry the work.

    Work that stands out no more than its diameter is held short, hard back against a step.
    """
    across, grip = shop.stock.across, way.grip
    whole = grip.high - grip.low >= grip_wanted(across, way.device.jaw_depth) - NEAR
    return whole or _free(shop, way) <= across


def _free(shop: Shop, way: Way) -> Millimetre:
    return abs(longest(shop.part, shop.stock, way.faces) - way.grip.edge(way.faces))


def _chuck(shop: Shop) -> HoldingDevice | None:
    """Three jaws for round and hexagon bar of a size they take; four for square and large."""
    three, four = shop.device("three-jaw chuck"), shop.device("four-jaw chuck")
    across = shop.stock.across
    square = shop.part.blank.form == "square bar"
    if three is not None and not square and three.smallest <= across <= three.largest:
        return three
    return four if four is not None and four.smallest <= across <= four.largest else None


def raw_grips(shop: Shop, jaws: HoldingDevice, faces: End) -> Iterator[Grip]:
    """Give where jaws can bear on the bar as sawn, with an end out."""
    stock = shop.stock
    if stock.chucking == faces:
        return
    want = grip_wanted(stock.across, jaws.jaw_depth)
    shorter = {g for g in _to_shoulders(shop, faces) if SHORT_GRIP <= g < want}
    for length in sorted({want} | shorter):
        yield (
            _raw(shop, stock.low, stock.low + length)
            if faces == "right"
            else _raw(shop, stock.high - length, stock.high)
        )
    if stock.across <= shop.bore_of_spindle:
        yield from _through_spindle(shop, want, faces)


def _through_spindle(shop: Shop, want: Millimetre, faces: End) -> Iterator[Grip]:
    """Grips along a bar that goes through the spindle, each just clear of a shoulder."""
    stock = shop.stock
    x0, x1 = ends(shop.part)
    for x in shoulders(shop.part):
        low = x - CLEAR - want if faces == "right" else x + CLEAR
        high = low + want
        if stock.low < low and high < stock.high and x0 - want < low and high < x1 + want:
            yield _raw(shop, low, high)


def _raw(shop: Shop, low: Millimetre, high: Millimetre) -> Grip:
    grip = Grip(low=low, high=high, size=shop.stock.across, surfaces=("stock outside",))
    cuts = [(key, why) for key, why in touching(shop, grip) if key != "part off"]
    cuts += [
        (op.key, "the chucking piece holds it")
        for op in shop.operations
        if op.verb == "saw" and op.key == taken_off(shop.stock)
    ]
    return replace(grip, ban=tuple(cuts))


def _to_shoulders(shop: Shop, faces: End) -> set[float]:
    if faces == "right":
        return {x - shop.stock.low - CLEAR for x in shoulders(shop.part)}
    return {shop.stock.high - x - CLEAR for x in shoulders(shop.part)}


def _pads(shop: Shop, grip: Grip) -> str:
    """Say that jaws bear on bright bar that is never turned."""
    kept = [
        one
        for one in rounds(shop.part)
        if bar_as_drawn(shop.part, one) and one.left < grip.high and grip.low < one.right
    ]
    return PADS if kept else ""


def _in_steady(shop: Shop, way: Way) -> Scheme | None:
    """Give the far end run in the fixed steady, so that it can be faced, centred and drilled."""
    steady = shop.device("fixed steady")
    if steady is None or not steady.smallest <= way.grip.size <= steady.largest:
        return None
    if shop.part.blank.form != "round bar":
        return None
    if _free(shop, way) <= WORK_DIAMETERS * way.grip.size:
        return None
    end = end_at(shop.part, way.faces)
    low, high = (end - STEADY_ROOM, end) if way.faces == "right" else (end, end + STEADY_ROOM)
    runs = tuple(
        (o.key, "the fixed steady runs on the bar there")
        for o in shop.operations
        if o.machine == "lathe"
        and o.verb in {"turn", "thread", "groove", "turn taper"}
        and not o.inside
        and overlaps(o, low, high)
    )
    held = replace(way.grip, ban=(*way.grip.ban, *runs))
    return fit(
        shop,
        replace(
            way,
            grip=held,
            name=f"{way.name}, fixed steady",
            error=steady.rehold,
            minutes=way.minutes + steady.minutes,
            steady=steady,
        ),
    )
