"""Ways of holding turned work in the lathe, and what each lets one cut.

Each device has its own small generator below. All say where the jaws bear along x, which end looks
at the tailstock, and how true the work runs; ``_fit`` then works out what can be cut, what
must be there first and what must not be gone yet.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.model import Hole, Part, Round
from halfthou.planning.model import Link, Machine, Operation, Refused, Scheme
from halfthou.planning.operations_turned import TOWARD, End
from halfthou.planning.orders_turned import span
from halfthou.planning.stock import LEAST_GRIP, Stock, ends, grip_wanted
from halfthou.units import Millimetre
from halfthou.workshop.model import Device, HoldingDevice, Workshop

STICK_OUT: Final = 3.0
"""Free length over diameter without a centre (usual practice)."""
WITH_CENTRE: Final = 10.0
"""Free length over diameter with a centre (usual practice)."""
CLEAR: Final = 1.0
"""Space between tool and jaws, mm (usual practice)."""
DRIVER: Final = 15.0
"""Length the driver takes up, mm (usual practice)."""
SHORT_GRIP: Final = 5.0
"""Least length in the jaws for short wide work hard back against a face, mm (usual practice)."""
BEHIND: Final = 20.0
"""Room behind the jaws inside the chuck for work that does not pass the spindle, mm."""
STEADY_ROOM: Final = 25.0
"""Bare bar the fixed steady takes up behind the end, mm."""
_INSIDE: Final = {"spot", "drill", "bore", "ream", "tap", "countersink", "centre"}
_AT_THE_END: Final = _INSIDE | {"face"}
_NOT_WITH_CENTRE: Final = {"face", "part off"} | _INSIDE
STANDS_OUT: Final = 3.0
"""How far an end is left standing out of the jaws so that it can be faced, mm (usual practice)."""
THIN: Final = 0.75
"""A bore over this share of the outside makes a ring too thin for jaws (usual practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """What the generators look at, together."""

    part: Part
    stock: Stock
    workshop: Workshop
    operations: tuple[Operation, ...]

    def device(self, kind: Device, machine: Machine = "lathe") -> HoldingDevice | None:
        """The workshop's device of that kind on that machine, if it has one."""
        return next(
            (d for d in self.workshop.holding if d.device == kind and d.machine == machine), None
        )

    @property
    def bore_of_spindle(self) -> Millimetre:
        """Largest bar the spindle passes."""
        return max((m.spindle_bore for m in self.workshop.lathes), default=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """Where jaws bear along x, on what, and what must be done or must wait."""

    low: Millimetre
    high: Millimetre
    size: Millimetre
    surfaces: tuple[str, ...]
    seats: tuple[str, ...] = ()
    need: tuple[tuple[str, str], ...] = ()
    ban: tuple[tuple[str, str], ...] = ()
    raw: bool = True


def _free(shop: Shop, grip: Grip, faces: End) -> Millimetre:
    x0, x1 = ends(shop.part)
    return x1 - grip.high if faces == "right" else grip.low - x0


def _clears(op: Operation, grip: Grip, faces: End) -> bool:
    """Whether the tool for ``op`` keeps off the jaws."""
    if op.verb in _INSIDE or op.inside:
        return True
    low, high = span(op)
    if faces == "right":
        return low >= grip.high + (
            CLEAR if op.verb != "part off" else 0.0
        ) - 1e-6 - _shoulder_back(op)
    return high <= grip.low - (CLEAR if op.verb != "part off" else 0.0) + 1e-6 + _shoulder_back(op)


def _shoulder_back(op: Operation) -> float:
    """A chamfer or the face of a shoulder may come right to the jaw it backs on."""
    return CLEAR if op.verb in {"turn", "chamfer"} and op.stage != "rough" else 0.0


def _pieces_on(shop: Shop, faces: End, grip: Grip) -> tuple[tuple[str, str], ...]:
    """Chucking piece: after it is parted off, nothing can be held by it."""
    if shop.stock.chucking is None or not grip.raw:
        return ()
    return ()


def _touching(shop: Shop, grip: Grip) -> tuple[tuple[str, str], ...]:
    """Cuts that would take away the metal gripped, while it is still wanted."""
    return tuple(
        (op.key, "it would cut away what the jaws hold")
        for op in shop.operations
        if op.machine == "lathe"
        and op.verb in {"turn", "face", "part off", "turn taper", "groove", "thread"}
        and _overlaps(op, grip)
    )


def _overlaps(op: Operation, grip: Grip) -> bool:
    low, high = span(op)
    return low < grip.high - 1e-6 and grip.low + 1e-6 < high


def _sawn(shop: Shop) -> tuple[tuple[str, str], ...]:
    return tuple(
        (op.key, "the blank is sawn off first") for op in shop.operations if op.verb == "saw"
    )


def _fit(
    shop: Shop,
    device: HoldingDevice,
    grip: Grip,
    faces: End,
    *,
    name: str,
    error: Millimetre,
    minutes: float,
    centre: bool = False,
    steady: bool = False,
    links: tuple[Link, ...] = (),
    true_on: tuple[tuple[str, Millimetre], ...] = (),
    rock: Millimetre = 0.0,
    reason: str = "",
) -> Scheme | None:
    stick = _free(shop, grip, faces)
    held_by = {key for key, _ in grip.need}
    long_way = WITH_CENTRE if centre else STICK_OUT
    can = frozenset(
        op.key
        for op in shop.operations
        if op.machine == "lathe"
        and op.key not in held_by
        and TOWARD[faces] in op.approach
        and _clears(op, grip, faces)
        and _reachable(shop, op, grip, faces, centre=centre, steady=steady)
    )
    if not can or stick <= 0 or (stick > long_way * grip.size and not steady):
        return None
    return Scheme(
        key=name,
        machine="lathe",
        links=(*links, Link(holder=device)),
        faces=TOWARD[faces],
        across=(0.0, 1.0, 0.0),
        grips=grip.surfaces,
        seats=grip.seats,
        grip_low=grip.low,
        grip_high=grip.high,
        grip_size=grip.size,
        inside=False,
        centre=centre,
        stick_out=stick,
        true_on=true_on,
        error=error,
        rock=rock or device.face,
        minutes=minutes,
        can=can,
        need=_sawn(shop) + grip.need,
        ban=grip.ban,
        reason=reason,
    )


def _reachable(
    shop: Shop, op: Operation, grip: Grip, faces: End, *, centre: bool, steady: bool
) -> bool:
    if steady:
        return op.verb in _AT_THE_END
    if centre:
        if op.verb == "thread" and op.tools[0].startswith("die"):
            return False
        if op.verb in {"face", "centre"}:
            return _free(shop, grip, faces) <= STICK_OUT * grip.size
        return op.verb not in _NOT_WITH_CENTRE
    return True


# --- raw stock in hard jaws ------------------------------------------------------------------


def _raw_grips(shop: Shop, jaws: HoldingDevice, faces: End) -> Iterator[Grip]:
    stock = shop.stock
    if stock.chucking is not None and stock.chucking == faces:
        return
    across = stock.across
    want = grip_wanted(across, jaws.jaw_depth)
    wide = stock.high - stock.low < across
    x0, x1 = ends(shop.part)
    lengths = {want}
    if wide:
        lengths |= {g for g in _to_shoulders(shop, faces) if SHORT_GRIP <= g < want}
    for length in sorted(lengths):
        low, high = (
            (stock.low, stock.low + length)
            if faces == "right"
            else (stock.high - length, stock.high)
        )
        yield _raw(shop, low, high)
    if across <= shop.bore_of_spindle:
        for x in _shoulders(shop):
            low, high = (
                (x - CLEAR - want, x - CLEAR)
                if faces == "right"
                else (x + CLEAR, x + CLEAR + want)
            )
            if stock.low < low and high < stock.high and x0 - want < low and high < x1 + want:
                yield _raw(shop, low, high)


def _raw(shop: Shop, low: float, high: float) -> Grip:
    grip = Grip(low=low, high=high, size=shop.stock.across, surfaces=("stock outside",))
    return Grip(
        low=low,
        high=high,
        size=shop.stock.across,
        surfaces=("stock outside",),
        ban=_touching_unless_part_off(shop, grip),
    )


def _touching_unless_part_off(shop: Shop, grip: Grip) -> tuple[tuple[str, str], ...]:
    return tuple((key, why) for key, why in _touching(shop, grip) if key != "part off")


def _shoulders(shop: Shop) -> tuple[float, ...]:
    rounds = [f for f in shop.part.features if isinstance(f, Round)]
    return tuple(sorted({r.left for r in rounds} | {r.right for r in rounds}))


def _to_shoulders(shop: Shop, faces: End) -> set[float]:
    if faces == "right":
        return {x - shop.stock.low - CLEAR for x in _shoulders(shop)}
    return {shop.stock.high - x - CLEAR for x in _shoulders(shop)}


def _in_three_jaw(shop: Shop) -> Iterator[Scheme | None]:
    jaws = shop.device("three-jaw chuck")
    if jaws is None:
        return
    steady = shop.device("fixed steady")
    for faces in ("right", "left"):
        end: End = "right" if faces == "right" else "left"
        for grip in _raw_grips(shop, jaws, end):
            if not jaws.smallest <= grip.size <= jaws.largest:
                continue
            name = f"three-jaw chuck on the bar, {end} end out, {grip.high - grip.low:.1f} in the jaws at {grip.low:.1f}"
            yield _fit(shop, jaws, grip, end, name=name, error=jaws.rehold, minutes=jaws.minutes)
            yield from _with_support(shop, jaws, grip, end, name, steady)


def _with_support(
    shop: Shop, jaws: HoldingDevice, grip: Grip, end: End, name: str, steady: HoldingDevice | None
) -> Iterator[Scheme | None]:
    centre = next((o for o in shop.operations if o.key == f"centre {end}"), None)
    if centre is not None:
        near = _free(shop, grip, end) <= STICK_OUT * grip.size
        first = () if near else ((centre.key, "the centre in the end carries it"),)
        held = Grip(
            low=grip.low,
            high=grip.high,
            size=grip.size,
            surfaces=grip.surfaces,
            need=first,
            ban=grip.ban,
        )
        yield _fit(
            shop,
            jaws,
            held,
            end,
            name=f"{name}, tailstock centre",
            error=jaws.rehold / 2,
            minutes=jaws.minutes + 2,
            centre=True,
        )
    if steady is not None and steady.smallest <= grip.size <= steady.largest:
        if _free(shop, grip, end) <= STICK_OUT * grip.size:
            return
        x0, x1 = ends(shop.part)
        at = (x1 - STEADY_ROOM, x1) if end == "right" else (x0, x0 + STEADY_ROOM)
        zone = Grip(low=at[0], high=at[1], size=grip.size, surfaces=())
        ban = tuple(
            (o.key, "the fixed steady runs on the bar there")
            for o in shop.operations
            if o.verb in {"turn", "thread", "groove"} and _overlaps(o, zone)
        )
        held = Grip(
            low=grip.low,
            high=grip.high,
            size=grip.size,
            surfaces=grip.surfaces,
            ban=tuple(dict((*grip.ban, *ban)).items()),
        )
        yield _fit(
            shop,
            jaws,
            held,
            end,
            name=f"{name}, fixed steady",
            error=steady.rehold,
            minutes=jaws.minutes + steady.minutes,
            steady=True,
            links=(Link(holder=steady, detail="near the end"),),
        )


# --- finished diameters: soft jaws, collet, four-jaw ----------------------------------------------


def _finished_grips(shop: Shop, faces: End, deep: Millimetre) -> Iterator[tuple[Round, Grip]]:
    rounds = sorted((f for f in shop.part.features if isinstance(f, Round)), key=lambda r: r.left)
    for i, one in enumerate(rounds):
        if one.thread is not None or one.right_diameter is not None:
            continue
        inner = rounds[:i] if faces == "right" else rounds[i + 1 :]
        outer = rounds[i + 1] if faces == "right" and i + 1 < len(rounds) else None
        outer = rounds[i - 1] if faces == "left" and i > 0 else outer
        if not _passes(shop, one, inner):
            continue
        length = min(one.right - one.left, deep)
        backs = outer is not None and outer.diameter.nominal > one.diameter.nominal
        out = (
            0.0 if backs else min(STANDS_OUT, one.right - one.left - _least(one, backs=not inner))
        )
        length = min(length, one.right - one.left - max(out, 0.0))
        low, high = (
            (one.right - out - length, one.right - out)
            if faces == "right"
            else (one.left + out, one.left + out + length)
        )
        if length < _least(one, backs=backs or not inner):
            continue
        makers = _makers(shop, one.name)
        seat = _seat(shop, one, faces) if backs else () if inner else _far_face(shop, one, faces)
        need = tuple(
            (k, f"the jaws hold the {one.name}, so it is turned first") for k in makers
        ) + tuple(
            (k, "that face goes back hard against the jaws")
            for s in seat
            for k in _makers(shop, s)
            if k not in makers
        )
        yield (
            one,
            Grip(
                low=low,
                high=high,
                size=one.diameter.nominal,
                surfaces=(one.name,),
                seats=seat,
                need=need,
                raw=False,
            ),
        )


def _on_rough(shop: Shop) -> Iterator[Scheme | None]:
    """Hard jaws on a diameter that is roughed and still to be finished."""
    jaws = shop.device("three-jaw chuck")
    if jaws is None:
        return
    for end in ("right", "left"):
        faces: End = "right" if end == "right" else "left"
        for one, grip in _finished_grips(shop, faces, jaws.jaw_depth):
            rough = tuple(
                o for o in shop.operations if o.feature == one.name and o.stage == "rough"
            )
            finish = _makers(shop, one.name)
            if not rough or _is_ring(shop, one):
                continue
            size = rough[0].cut_size
            held = Grip(
                low=grip.low,
                high=grip.high,
                size=size,
                surfaces=(f"{one.name} as roughed",),
                need=tuple((o.key, f"the jaws hold the {one.name} as roughed") for o in rough),
                ban=tuple((k, "hard jaws mark metal that is finished") for k in finish),
            )
            yield from _rough_held(shop, jaws, held, faces, one.name)


def _rough_held(
    shop: Shop, jaws: HoldingDevice, held: Grip, faces: End, name: str
) -> Iterator[Scheme | None]:
    key = f"three-jaw chuck on the {name} as roughed, {faces} end out"
    yield _fit(shop, jaws, held, faces, name=key, error=jaws.rehold, minutes=jaws.minutes)
    centre = next((o for o in shop.operations if o.key == f"centre {faces}"), None)
    if centre is None:
        return
    carried = Grip(
        low=held.low,
        high=held.high,
        size=held.size,
        surfaces=held.surfaces,
        need=(*held.need, (centre.key, "the centre in the end carries it")),
        ban=held.ban,
    )
    yield _fit(
        shop,
        jaws,
        carried,
        faces,
        name=f"{key}, tailstock centre",
        error=jaws.rehold / 2,
        minutes=jaws.minutes + 2,
        centre=True,
    )


def _least(one: Round, *, backs: bool) -> float:
    return SHORT_GRIP if backs else min(LEAST_GRIP, max(SHORT_GRIP, one.diameter.nominal))


def _is_ring(shop: Shop, one: Round) -> bool:
    bores = [
        s.diameter.nominal
        for f in shop.part.features
        if isinstance(f, Hole) and f.on_axis
        for s in f.steps
        if _step_within(f, s.start, s.end, one)
    ]
    return max(bores, default=0.0) > THIN * one.diameter.nominal


def _step_within(hole: Hole, start: float, end: float, one: Round) -> bool:
    mouth, into = hole.entries[0][0], hole.into[0]
    a, b = sorted((mouth + into * start, mouth + into * end))
    return a < one.right and one.left < b


def _passes(shop: Shop, one: Round, inner: list[Round]) -> bool:
    """Whether what lies behind the jaws goes into the chuck."""
    if not inner:
        return True
    largest = max(r.diameter.nominal for r in inner)
    depth = sum(r.right - r.left for r in inner)
    return largest <= one.diameter.nominal + 1e-6 and (
        largest <= shop.bore_of_spindle or depth <= BEHIND
    )


def _makers(shop: Shop, surface: str) -> tuple[str, ...]:
    return tuple(op.key for op in shop.operations if surface in op.makes)


def _seat(shop: Shop, one: Round, faces: End) -> tuple[str, ...]:
    x = one.right if faces == "right" else one.left
    toward = -1.0 if faces == "right" else 1.0
    return tuple(
        s.name
        for s in shop.part.surfaces
        if s.kind == "plane" and abs(s.point[0] - x) < 1e-6 and s.direction[0] * toward > 0.5
    )


def _lightly(shop: Shop, scheme: Scheme | None) -> Scheme | None:
    """A thin ring nipped in soft jaws: its ends may be faced and its edges broken, nothing sized."""
    if scheme is None:
        return None
    light = {op.key for op in shop.operations if op.verb in {"face", "chamfer", "countersink"}}
    keep = scheme.can & light
    why = "the ring is thin: nip it lightly, and cut nothing to size while jaws press it"
    return replace(scheme, can=keep, reason=why) if keep else None


def _far_face(shop: Shop, one: Round, faces: End) -> tuple[str, ...]:
    """The end inside the chuck, set back on a step in the jaws when the grip is short."""
    if one.right - one.left >= one.diameter.nominal:
        return ()
    x = one.left if faces == "right" else one.right
    toward = -1.0 if faces == "right" else 1.0
    return tuple(
        s.name
        for s in shop.part.surfaces
        if s.kind == "plane" and abs(s.point[0] - x) < 1e-6 and s.direction[0] * toward > 0.5
    )


_TRUED: Final[tuple[tuple[Device, str, float], ...]] = (
    ("soft jaws", "soft jaws bored to the {}", 0.0),
    ("collet", "collet on the {}", 0.0),
    ("four-jaw chuck", "four-jaw chuck clocked on the {}", 0.02),
)


def _on_finished(shop: Shop) -> Iterator[Scheme | None]:
    for kind, words, reading in _TRUED:
        device = shop.device(kind)
        if device is None:
            continue
        for end in ("right", "left"):
            faces: End = "right" if end == "right" else "left"
            for one, grip in _finished_grips(shop, faces, device.jaw_depth or 25.0):
                thin = _is_ring(shop, one)
                if not device.smallest <= grip.size <= device.largest or (
                    thin and kind != "soft jaws"
                ):
                    continue
                true_on = (
                    (one.name, reading or device.trued),
                    *((s, reading or device.trued) for s in grip.seats),
                )
                name = f"{words.format(one.name)}, {faces} end out"
                scheme = _fit(
                    shop,
                    device,
                    grip,
                    faces,
                    name=name,
                    error=max(device.trued, reading),
                    minutes=device.minutes,
                    true_on=true_on,
                )
                yield _lightly(shop, scheme) if thin else scheme
                if thin:
                    continue
                centre = next((o for o in shop.operations if o.key == f"centre {faces}"), None)
                if centre is not None and kind != "four-jaw chuck":
                    held = Grip(
                        low=grip.low,
                        high=grip.high,
                        size=grip.size,
                        surfaces=grip.surfaces,
                        seats=grip.seats,
                        need=(*grip.need, (centre.key, "the centre in the end carries it")),
                        raw=False,
                    )
                    yield _fit(
                        shop,
                        device,
                        held,
                        faces,
                        name=f"{name}, tailstock centre",
                        error=max(device.trued, reading),
                        minutes=device.minutes + 2,
                        centre=True,
                        true_on=true_on,
                    )


# --- mandrel and centres ------------------------------------------------------------------------


def _on_mandrel(shop: Shop) -> Iterator[Scheme | None]:
    mandrel = shop.device("stub mandrel")
    if mandrel is None:
        return
    for hole in shop.part.features:
        if not isinstance(hole, Hole) or not hole.on_axis or len(hole.steps) == 0:
            continue
        step = min(hole.steps, key=lambda s: s.diameter.nominal)
        x0, x1 = ends(shop.part)
        if not step.breaks_out or step.thread is not None:
            continue
        if not mandrel.inside_smallest <= step.diameter.nominal <= mandrel.inside_largest:
            continue
        for faces in ("right", "left"):
            end: End = "right" if faces == "right" else "left"
            back = x0 if end == "right" else x1
            seats = tuple(
                s.name
                for s in shop.part.surfaces
                if s.kind == "plane"
                and abs(s.point[0] - back) < 1e-6
                and s.direction[0] * TOWARD[end][0] < -0.5
            )
            need = tuple(
                (k, "the mandrel is turned to the finished bore")
                for k in _makers(shop, _wall(shop, hole))
            ) + tuple(
                (k, "the faced end goes back against the mandrel's shoulder")
                for s in seats
                for k in _makers(shop, s)
            )
            low, high = (
                (back - DRIVER, back - CLEAR) if end == "right" else (back + CLEAR, back + DRIVER)
            )
            grip = Grip(
                low=low,
                high=high,
                size=max(step.diameter.nominal, (x1 - x0) / STICK_OUT),
                surfaces=(_wall(shop, hole),),
                seats=seats,
                need=need,
                raw=False,
            )
            scheme = _fit(
                shop,
                mandrel,
                grip,
                end,
                name=f"mandrel in the {hole.name}, {end} end out",
                error=mandrel.trued,
                minutes=mandrel.minutes,
                reason="turned in place, so it runs dead true with the spindle",
            )
            yield _outside_only(scheme)


def _wall(shop: Shop, hole: Hole) -> str:
    step = min(hole.steps, key=lambda s: s.diameter.nominal)
    return next(
        (s.name for s in shop.part.surfaces if s.feature == hole.name and s.size is step.diameter),
        hole.name,
    )


def _outside_only(scheme: Scheme | None) -> Scheme | None:
    if scheme is None:
        return None
    keep = frozenset(
        k for k in scheme.can if not any(w in k for w in ("centre", "drill", "bore", "ream"))
    )
    return replace(scheme, can=keep, inside=True) if keep else None


def _between_centres(shop: Shop) -> Iterator[Scheme | None]:
    centres = shop.device("centres")
    have = [o.key for o in shop.operations if o.verb == "centre"]
    if centres is None or len(have) < 2:
        return
    x0, x1 = ends(shop.part)
    need = tuple((k, "both ends are centred first") for k in have)
    for faces in ("right", "left"):
        end: End = "right" if faces == "right" else "left"
        low, high = (x0, x0 + DRIVER) if end == "right" else (x1 - DRIVER, x1)
        grip = Grip(
            low=low,
            high=high,
            size=max(shop.stock.across, (x1 - x0) / WITH_CENTRE),
            surfaces=("centre left", "centre right"),
            need=need,
            raw=False,
        )
        scheme = _fit(
            shop,
            centres,
            grip,
            end,
            name=f"between centres, {end} end at the tailstock",
            error=centres.trued,
            minutes=centres.minutes,
            centre=True,
            reason="every diameter is turned about the one line between the centres",
        )
        yield scheme


def schemes_turned(
    part: Part, workshop: Workshop, stock: Stock, operations: tuple[Operation, ...]
) -> tuple[tuple[Scheme, ...], tuple[Refused, ...]]:
    """Every way this workshop can hold a turned part in the lathe, and those refused."""
    shop = Shop(part=part, stock=stock, workshop=workshop, operations=operations)
    found: list[Scheme] = []
    for generate in (_in_three_jaw, _on_rough, _on_finished, _on_mandrel, _between_centres):
        found += [s for s in generate(shop) if s is not None]
    return tuple(found), _refusals(shop, tuple(found))


def _refusals(shop: Shop, found: tuple[Scheme, ...]) -> tuple[Refused, ...]:
    answer = []
    held = {key for s in found for key in s.can}
    x0, x1 = ends(shop.part)
    for op in shop.operations:
        if op.machine != "lathe" or op.key in held:
            continue
        answer.append(_refusal(shop, op, x1 - x0))
    return tuple(answer)


def _refusal(shop: Shop, op: Operation, length: float) -> Refused:
    jaws = shop.device("three-jaw chuck")
    across = shop.stock.across
    if jaws is None:
        return Refused(
            scheme="three-jaw chuck",
            operation=op.key,
            reason="the workshop has no lathe chuck",
            remedy="put a chuck in the workshop file",
        )
    if across > jaws.largest:
        return Refused(
            scheme=jaws.name,
            operation=op.key,
            reason=f"the chuck takes {jaws.largest:.0f} mm and the work is {across:.1f} across",
            remedy="a faceplate, a larger chuck, or a larger lathe",
        )
    if length > STICK_OUT * across:
        return Refused(
            scheme=jaws.name,
            operation=op.key,
            reason=f"the work stands out {length / across:.1f} times its diameter and nothing holds up its end",
            remedy="centres in both ends ([centres] in the part file), or a fixed steady",
        )
    return Refused(
        scheme=jaws.name,
        operation=op.key,
        reason="no way of holding leaves room for the tool there",
        remedy="a longer blank, so that there is metal to hold by",
    )
