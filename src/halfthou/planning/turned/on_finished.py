"""Turned diameters held: true in soft jaws, a collet or four jaws clocked; or as roughed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Round
from halfthou.planning.model import Scheme
from halfthou.planning.turned.finished_grips import finished_grips, is_ring
from halfthou.planning.turned.grips import Grip, Shop, Way, fit, on_centre
from halfthou.planning.turned.shape import ENDS, End
from halfthou.units import Millimetre
from halfthou.workshop.model import Device, HoldingDevice

USUAL_JAWS: Final = 25.0
"""Depth of jaws where the workshop tells none, mm (usual practice)."""
THIN_RING: Final = "the ring is thin: nip it lightly, and cut nothing to size while jaws press it"
PADS: Final = "soft pads under the jaws: hard ones mark the {}"
_TRUED: Final[tuple[tuple[Device, str, Millimetre], ...]] = (
    ("soft jaws", "soft jaws bored to the {}", 0.0),
    ("collet", "collet on the {}", 0.0),
    ("four-jaw chuck", "four-jaw chuck clocked on the {}", 0.02),
)
_LIGHT: Final = frozenset({"face", "chamfer", "countersink"})


def on_finished(shop: Shop) -> Iterator[Scheme | None]:
    """Give the ways to hold a finished diameter so that it runs true."""
    for kind, words, reading in _TRUED:
        device = shop.device(kind)
        if device is None:
            continue
        for end in ENDS:
            for one, grip in finished_grips(shop, end, device.jaw_depth or USUAL_JAWS):
                if device.smallest <= grip.size <= device.largest:
                    way = _way(device, grip, end, name=words.format(one.name), reading=reading)
                    yield from _held(shop, one, way)


def _way(device: HoldingDevice, grip: Grip, end: End, *, name: str, reading: Millimetre) -> Way:
    to = reading or device.trued
    return Way(
        device=device,
        grip=grip,
        faces=end,
        name=f"{name}, {end} end out",
        error=max(device.trued, reading),
        minutes=device.minutes,
        true_on=tuple((surface, to) for surface in (*grip.surfaces, *grip.seats)),
        reason=PADS.format(grip.surfaces[0]) if device.device == "four-jaw chuck" else "",
    )


def _held(shop: Shop, one: Round, way: Way) -> Iterator[Scheme | None]:
    if is_ring(shop, one):
        if way.device.device == "soft jaws":
            yield _lightly(shop, fit(shop, way))
        return
    yield fit(shop, way)
    carried = on_centre(shop, way)
    if carried is not None and way.device.device != "four-jaw chuck":
        yield fit(shop, carried)


def _lightly(shop: Shop, scheme: Scheme | None) -> Scheme | None:
    """Give a thin ring nipped in soft jaws: its ends faced, its edges broken, nothing sized."""
    if scheme is None:
        return None
    keep = scheme.can & {op.key for op in shop.operations if op.verb in _LIGHT}
    return replace(scheme, can=keep, reason=THIN_RING) if keep else None


def on_rough(shop: Shop) -> Iterator[Scheme | None]:
    """Give hard jaws on a diameter that is roughed and still to be finished."""
    jaws = shop.device("three-jaw chuck")
    if jaws is None:
        return
    for end in ENDS:
        for one, grip in finished_grips(shop, end, jaws.jaw_depth):
            rough = [o for o in shop.operations if o.feature == one.name and o.stage == "rough"]
            if not rough or is_ring(shop, one):
                continue
            way = Way(
                device=jaws,
                grip=_as_roughed(shop, one, grip),
                faces=end,
                name=f"three-jaw chuck on the {one.name} as roughed, {end} end out",
                error=jaws.rehold,
                minutes=jaws.minutes,
            )
            yield fit(shop, way)
            carried = on_centre(shop, way)
            if carried is not None:
                yield fit(shop, replace(carried, error=jaws.rehold / 2))


def _as_roughed(shop: Shop, one: Round, grip: Grip) -> Grip:
    """Give the same grip while metal is still on: the finishing waits, the roughing is done."""
    rough = [o for o in shop.operations if o.feature == one.name and o.stage == "rough"]
    finish = shop.makers(one.name)
    return Grip(
        low=grip.low,
        high=grip.high,
        size=rough[0].cut_size,
        surfaces=(f"{one.name} as roughed",),
        need=tuple((o.key, f"the jaws hold the {one.name} as roughed") for o in rough),
        behind=grip.behind,
        ban=tuple((key, "hard jaws mark metal that is finished") for key in finish),
    )
