"""Where jaws bear on turned work, and what can be cut while they do.

``fit`` works out for any device what can be cut, what must be there first and what must not be
gone yet; the modules beside this one say where each device can bear.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Link, Machine, Operation, Scheme
from halfthou.planning.turned.shape import NEAR, TOWARD, End, other_end
from halfthou.planning.turned.slender import LIGHT_DIAMETERS, Held, stiff_enough
from halfthou.planning.turned.span import AXIS, on_line, span
from halfthou.planning.turned.stock import Stock, longest
from halfthou.planning.turned.threads import DIE
from halfthou.planning.who_makes import one_reason_each
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Device, HoldingDevice, Workshop

CLEAR: Final = 1.0
"""Space between tool and jaws, mm (usual practice)."""
SHORT_GRIP: Final = 5.0
"""Least length in the jaws for short wide work hard back against a face, mm (usual practice)."""
CENTRE_MINUTES: Final = 2.0
"""Bringing up the tailstock centre takes so long, minutes (usual practice)."""
_INSIDE: Final = frozenset({"spot", "drill", "bore", "ream", "tap", "countersink", "centre"})
_TAKES_AWAY: Final = frozenset({"turn", "face", "part off", "turn taper", "groove", "thread"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """What the generators look at, together."""

    part: Part
    stock: Stock
    workshop: Workshop
    operations: tuple[Operation, ...]

    def device(self, kind: Device, machine: Machine = "lathe") -> HoldingDevice | None:
        """Give the workshop's device of that kind on that machine, if it has one."""
        return next(
            (d for d in self.workshop.holding if d.device == kind and d.machine == machine), None
        )

    @property
    def bore_of_spindle(self) -> Millimetre:
        """Largest bar the spindle passes."""
        return max((m.spindle_bore for m in self.workshop.lathes), default=0.0)

    def makers(self, surface: str) -> tuple[str, ...]:
        """Name the operations that leave a surface finished."""
        return tuple(op.key for op in self.operations if surface in op.makes)

    def centre(self, end: End) -> Operation | None:
        """Give the centring of an end, if its drawing has a centre there."""
        return next((o for o in self.operations if o.key == f"centre {end}"), None)

    def centre_off(self, end: End) -> tuple[tuple[str, str], ...]:
        """Give the facing that takes the centre of an end off, to be left for later."""
        return tuple(
            (o.key, "the work hangs on that centre")
            for o in self.operations
            if o.verb == "face" and o.follows == f"centre {end}"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """Where jaws bear along x, on what, and what must be done or must wait.

    ``behind`` is what must be done so that the rest of the work goes into the chuck.
    """

    low: Millimetre
    high: Millimetre
    size: Millimetre
    surfaces: tuple[str, ...]
    seats: tuple[str, ...] = ()
    need: tuple[tuple[str, str], ...] = ()
    ban: tuple[tuple[str, str], ...] = ()
    behind: tuple[tuple[str, str], ...] = ()

    def edge(self, faces: End) -> Millimetre:
        """Where the jaws end toward the free end, along x."""
        return self.high if faces == "right" else self.low


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A device on a grip: how true it runs, what carries the other end.

    ``throw`` is how far the line that turns true lies from the work's own axis, and which way.
    """

    device: HoldingDevice
    grip: Grip
    faces: End
    name: str
    error: Millimetre
    minutes: float
    centre: bool = False
    in_jaws: bool = True
    steady: HoldingDevice | None = None
    runs_on: str = "near the end"
    true_on: tuple[tuple[str, Millimetre], ...] = ()
    reason: str = ""
    detail: str = ""
    throw: Vec3 = AXIS
    packing: Millimetre = 0.0


def fit(shop: Shop, way: Way) -> Scheme | None:
    """Give the holding with all that it can cut; None if that is nothing."""
    grip, faces = way.grip, way.faces
    held = Held(
        part=shop.part,
        stock=shop.stock,
        jaws=grip.edge(faces) if way.in_jaws else longest(shop.part, shop.stock, other_end(faces)),
        faces=faces,
        centre=way.centre,
        in_jaws=way.in_jaws,
    )
    if held.out(shop.stock.end(faces)) <= 0 or _too_far_out(held, way):
        return None
    first = {key for key, _ in (*grip.need, *grip.behind)}
    can = frozenset(
        op.key
        for op in shop.operations
        if op.machine == "lathe"
        and op.key not in first
        and TOWARD[faces] in op.approach
        and on_line(op, way.throw)
        and _clears(op, grip, faces)
        and _reachable(op, way, held)
    )
    ban = _ban(shop, way)
    can -= {key for key, _ in ban}
    return _scheme(shop, way, can, ban, held) if can else None


def _ban(shop: Shop, way: Way) -> tuple[tuple[str, str], ...]:
    """Give what must wait: cuts into the metal held, facing off centres that carry it."""
    pairs = way.grip.ban
    if way.centre:
        pairs += shop.centre_off(way.faces)
    if not way.in_jaws:
        pairs += shop.centre_off(other_end(way.faces))
    return one_reason_each(pairs)


def _too_far_out(held: Held, way: Way) -> bool:
    """Tell whether the work would whip, whatever is cut on it."""
    if way.centre or way.steady is not None:
        return False
    return held.free > LIGHT_DIAMETERS * way.grip.size + NEAR


def _scheme(
    shop: Shop,
    way: Way,
    can: frozenset[str],
    ban: tuple[tuple[str, str], ...],
    held: Held,
) -> Scheme:
    grip = way.grip
    links: tuple[Link, ...] = (Link(holder=way.device, detail=way.detail),)
    if way.steady is not None:
        links = (Link(holder=way.steady, detail=way.runs_on), *links)
    return Scheme(
        key=way.name,
        machine="lathe",
        links=links,
        faces=TOWARD[way.faces],
        across=(0.0, 1.0, 0.0),
        grips=grip.surfaces,
        seats=grip.seats,
        grip_low=grip.low,
        grip_high=grip.high,
        grip_size=grip.size,
        inside=False,
        centre=way.centre,
        stick_out=held.free,
        true_on=way.true_on,
        error=way.error,
        rock=way.device.face,
        minutes=way.minutes,
        can=can,
        need=one_reason_each((*_sawn(shop), *grip.need, *grip.behind)),
        ban=ban,
        reason=way.reason,
        throw=way.throw,
        packing=way.packing,
    )


def _sawn(shop: Shop) -> tuple[tuple[str, str], ...]:
    return tuple(
        (op.key, "the blank is sawn off first")
        for op in shop.operations
        if op.verb == "saw" and op.feature == "blank"
    )


def _clears(op: Operation, grip: Grip, faces: End) -> bool:
    """Tell whether the tool for ``op`` keeps off the jaws."""
    if op.verb in _INSIDE or op.inside:
        return True
    low, high = span(op)
    # a finished shoulder or an edge may come right to the jaw it backs on
    near = op.verb == "part off" or (op.verb in {"turn", "chamfer"} and op.stage != "rough")
    room = 0.0 if near else CLEAR
    if faces == "right":
        return low >= grip.high + room - NEAR
    return high <= grip.low - room + NEAR


def _reachable(op: Operation, way: Way, held: Held) -> bool:
    """Tell whether tool and tailstock leave each other room, and the work is stiff enough."""
    at_end = op.verb in _INSIDE or op.verb == "face" or op.inside
    if way.steady is not None:
        return at_end
    if not way.centre:
        return stiff_enough(op, held)
    if op.verb == "thread" and op.tools[0].startswith(DIE):
        return False
    if op.verb in {"face", "centre"} and way.in_jaws:
        return stiff_enough(op, replace(held, centre=False)) and not op.follows
    return not at_end and op.verb != "part off" and stiff_enough(op, held)


def touching(shop: Shop, grip: Grip) -> tuple[tuple[str, str], ...]:
    """Give the cuts that would take away the metal gripped, while it is still wanted."""
    return tuple(
        (op.key, "it would cut away what the jaws hold")
        for op in shop.operations
        if op.machine == "lathe" and op.verb in _TAKES_AWAY and not op.inside
        and overlaps(op, grip.low, grip.high)
    )  # fmt: skip


def overlaps(op: Operation, low: Millimetre, high: Millimetre) -> bool:
    """Tell whether an operation works between two places along x."""
    begin, end = span(op)
    return begin < high - NEAR and low + NEAR < end


def on_centre(shop: Shop, way: Way) -> Way | None:
    """Give the same holding on the tailstock centre, if there is a centre to carry it."""
    centre = shop.centre(way.faces)
    if centre is None:
        return None
    held = Held(
        part=shop.part,
        stock=shop.stock,
        jaws=way.grip.edge(way.faces),
        faces=way.faces,
        centre=False,
    )
    here = _clears(centre, way.grip, way.faces) and stiff_enough(centre, held)
    first = () if here else ((centre.key, "the centre in the end carries it"),)
    return replace(
        way,
        grip=replace(way.grip, need=(*way.grip.need, *first)),
        name=f"{way.name}, tailstock centre",
        minutes=way.minutes + CENTRE_MINUTES,
        centre=True,
    )
