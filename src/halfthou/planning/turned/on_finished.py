"""Turned diameters held: true in soft jaws, a collet or four jaws clocked; or as roughed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Round
from halfthou.planning.model import Scheme
from halfthou.planning.turned.finished_grips import finished_grips, is_ring
from halfthou.planning.turned.grips import Grip, Shop, Way, fit, on_centre
from halfthou.planning.turned.shape import ENDS, NEAR, End, end_at, rounds
from halfthou.planning.turned.slender import LIGHT_DIAMETERS
from halfthou.planning.turned.stock import LEAST_GRIP
from halfthou.units import Millimetre
from halfthou.workshop.model import Device, HoldingDevice

USUAL_JAWS: Final = 25.0
"""Depth of jaws where the workshop tells none, mm (usual practice)."""
BEARS: Final = 12.0
"""Length of turned metal that the fixed steady runs on, mm (usual practice)."""
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
                if device.smallest <= grip.size <= device.largest and _long_enough(kind, grip):
                    way = _way(device, grip, end, name=words.format(one.name), reading=reading)
                    yield from _held(shop, one, way)


def _long_enough(kind: Device, grip: Grip) -> bool:
    """Tell whether a collet closes on enough: it has no face to set short work back on."""
    return kind != "collet" or grip.high - grip.low >= LEAST_GRIP - NEAR


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
    if way.device.device == "four-jaw chuck":
        return
    carried = on_centre(shop, way)
    if carried is not None:
        yield fit(shop, carried)
    yield _in_steady(shop, one, way)


def _in_steady(shop: Shop, one: Round, way: Way) -> Scheme | None:
    """Run the far end in the fixed steady on a turned diameter, to work on the end itself."""
    steady, run = shop.device("fixed steady"), _run_on(shop, one, way.faces)
    if steady is None or run is None:
        return None
    size = run.diameter.nominal
    out = abs(end_at(shop.part, way.faces) - (run.right if way.faces == "right" else run.left))
    fits = steady.smallest <= size <= steady.largest and run.right - run.left >= BEARS
    if not fits or out > LIGHT_DIAMETERS * size:
        return None
    need = [(key, f"the fixed steady runs on the {run.name}") for key in shop.makers(run.name)]
    return fit(
        shop,
        replace(
            way,
            grip=replace(way.grip, need=(*way.grip.need, *need)),
            name=f"{way.name}, fixed steady on the {run.name}",
            error=max(way.error, steady.trued),
            minutes=way.minutes + steady.minutes,
            steady=steady,
            runs_on=f"on the {run.name}",
        ),
    )


def _run_on(shop: Shop, held: Round, faces: End) -> Round | None:
    """Find the outermost plain round beyond the one held."""
    plain = [r for r in rounds(shop.part) if r.thread is None and r.right_diameter is None]
    if faces == "right":
        right = [r for r in plain if r.left >= held.right]
        return right[-1] if right else None
    left = [r for r in plain if r.right <= held.left]
    return left[0] if left else None


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
