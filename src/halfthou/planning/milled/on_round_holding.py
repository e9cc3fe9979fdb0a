"""How turned work is held on the mill: level for keyways and cross holes, upright for its ends.

Level work lies between the vice jaws on a parallel, or in V-blocks. Upright work stands in a
chuck on the table, in the vice by its rim, or on a face under clamps. Every holding is by a
surface that has been turned, and is trued on one that has been finished.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.model import Part, Surface
from halfthou.planning.axes import Extents, dot, extents_of_all, same
from halfthou.planning.milled.held_sides import grips_on_parallels
from halfthou.planning.milled.jaws_on_round import (
    Reach,
    borne,
    closes_square,
    jaws_on,
    larger_beside,
    room_for_a_filler,
)
from halfthou.planning.milled.on_rim import on_rim
from halfthou.planning.milled.upright_rounds import upright_schemes
from halfthou.planning.model import Link, Operation, Refused, Scheme
from halfthou.planning.who_makes import asked_for, one_reason_each, rough_of
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import HoldingDevice, Workshop

LEAST_GRIP: Final = 10.0
"""Least length of a level round between jaws or in a V-block, mm (usual practice)."""
MOST_OVERHANG: Final = 3.0
"""Most stick-out past the jaws, in diameters (usual practice)."""
TIGHT: Final = 0.03
"""A round with less tolerance than this may be keyed before its last cut. [mm]"""
OVER_THE_MIDDLE: Final[Millimetre] = 0.5
"""Least the jaws come over the middle of a round, or they lift it (usual practice)."""
HIGHEST: Final = 1.5
"""How far up a round the jaws come, in radii: the cutter clears them (usual practice)."""
HIGHER: Final = 1.75
"""The most they come up a small round, for which no parallel of the set does otherwise."""
_ALONG: Final = (1.0, 0.0, 0.0)
_SQUARE: Final = 0.01
_CLEAR: Final = 1.0


def schemes_mill_on_round(
    part: Part, workshop: Workshop, operations: tuple[Operation, ...]
) -> tuple[tuple[Scheme, ...], tuple[Refused, ...]]:
    """Give every way to hold turned work on the mill for what has to be milled or drilled there.

    Parameters
    ----------
    part :
        The turned part.
    workshop :
        For the holding devices it has.
    operations :
        All operations of the part, turning too: what a holding needs done before it.

    Returns
    -------
    :
        The schemes, and the ways that were looked at and cannot be.
    """
    schemes: list[Scheme] = []
    refused: list[Refused] = []
    for up in _directions(operations):
        own = tuple(op for op in operations if op.machine == "mill" and _from(op, up))
        if abs(dot(up, _ALONG)) > _SQUARE:
            found = upright_schemes(part, workshop, operations, own, up)
        else:
            found = _level(part, workshop, operations, own, up)
            if not found[0]:
                schemes += on_rim(part, workshop, operations, own, up)
        schemes += found[0]
        refused += found[1]
    return tuple(schemes), tuple(refused)


def _directions(operations: tuple[Operation, ...]) -> list[Vec3]:
    found: list[Vec3] = []
    for op in operations:
        if op.machine == "mill":
            found += [up for up in op.approach if not any(same(up, one) for one in found)]
    return found


def _from(operation: Operation, up: Vec3) -> bool:
    return any(same(up, one) for one in operation.approach)


def outsides(part: Part) -> tuple[Surface, ...]:
    """Give the plain round outsides of a turned part that jaws can hold, left to right."""
    found = [
        s
        for s in part.surfaces
        if s.kind == "cylinder" and not s.inside and s.size is not None
        and abs(dot(s.direction, _ALONG)) > 1 - _SQUARE
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda s: s.low[0]))


def _radius(surface: Surface) -> Millimetre:
    return surface.size.nominal / 2 if surface.size is not None else 0.0


def _level(
    part: Part,
    workshop: Workshop,
    everything: tuple[Operation, ...],
    own: tuple[Operation, ...],
    up: Vec3,
) -> tuple[list[Scheme], list[Refused]]:
    schemes: list[Scheme] = []
    refused: list[Refused] = []
    for device in workshop.holding:
        if device.device not in ("vice", "V-blocks"):
            continue
        for held in outsides(part):
            name = f"{device.name}, level by {held.name}, {_words(up)} up"
            why = _cannot_lie(part, device, held)
            if why is not None:
                refused += [_no(name, op, *why) for op in own]
                continue
            can = []
            for op in own:
                stopped = _cannot_cut(device, held, op)
                if stopped is None:
                    can.append(op)
                else:
                    refused.append(_no(name, op, *stopped))
            if can:
                covered = [s.name for s in outsides(part) if _under_jaws(part, device, held, s)]
                lying = _Lying(
                    everything=everything, device=device, held=held, up=up, name=name,
                    covered=tuple(covered), jaws=jaws_on(part, held, device.jaw_width),
                )  # fmt: skip
                schemes += _lying(part, lying, tuple(can))
    return schemes, refused


def _words(up: Vec3) -> str:
    x, y, z = (round(c, 2) for c in up)
    known = {(0, 1, 0): "top", (0, -1, 0): "bottom", (0, 0, 1): "front", (0, 0, -1): "back"}
    return known.get((int(x), int(y), int(z)), "keyway") if x == int(x) else "keyway"


def _no(name: str, op: Operation, reason: str, remedy: str) -> Refused:
    return Refused(scheme=name, operation=op.key, reason=reason, remedy=remedy)


def _cannot_lie(part: Part, device: HoldingDevice, held: Surface) -> tuple[str, str] | None:
    """Say why a round cannot lie level in the vice or in V-blocks, or None."""
    across = 2 * _radius(held)
    if across > device.largest:
        return (
            f"the {device.name} takes {device.largest:g} mm and {held.name} is {across:g} across",
            "hold a smaller diameter, or clamp it in larger V-blocks",
        )
    if across < device.smallest:
        return (
            f"{held.name} is {across:g} across, too small for the {device.name}",
            "hold a larger diameter",
        )
    if device.device == "vice" and across / 2 + _CLEAR > device.jaw_depth:
        return (
            f"jaws {device.jaw_depth:g} deep do not come up to the middle of {across:g} mm",
            "V-blocks and clamps on the table",
        )
    return _cannot_bear(part, device, held)


def _cannot_bear(part: Part, device: HoldingDevice, held: Surface) -> tuple[str, str] | None:
    """Say why jaws do not lie along a round so that it holds and they close square, or None."""
    jaws = jaws_on(part, held, device.jaw_width)
    if held.high[0] - held.low[0] < LEAST_GRIP or (
        jaws is not None and _length(borne(held, jaws)) < LEAST_GRIP
    ):
        return (
            f"{held.name} gives the {device.name} less than {LEAST_GRIP:g} mm to hold by",
            "hold a longer diameter, or leave a chucking piece on",
        )
    if jaws is None:
        beside = " and ".join(one.name for one in larger_beside(part, held) if one is not None)
        return (
            f"the {device.name} is {device.jaw_width:g} wide and does not go between {beside}",
            "hold a longer diameter, or one at the end of the work",
        )
    if device.device != "vice" or closes_square(held, jaws) or room_for_a_filler(part, held, jaws):
        return None
    return (
        f"jaws {device.jaw_width:g} wide bear on {held.name} at one end only and close askew",
        "V-blocks and clamps on the table, or narrower jaws",
    )


def _length(span: Reach) -> Millimetre:
    return span[1] - span[0]


def _cannot_cut(device: HoldingDevice, held: Surface, op: Operation) -> tuple[str, str] | None:
    if held.name in op.makes:
        return (f"{held.name} is what it is held by", "hold it by another diameter")
    space = extents_of_all(op.region) or Extents(low=held.low, high=held.high)
    across = 2 * _radius(held)
    past = max(space.high[0] - held.high[0], held.low[0] - space.low[0], 0.0)
    if past > MOST_OVERHANG * across:
        return (
            f"it would stick out {past:.0f} mm past {held.name}, over {MOST_OVERHANG:g} diameters",
            "hold it nearer the cut",
        )
    if device.device == "V-blocks" and _free_for_clamp(space, held) < LEAST_GRIP:
        return ("the clamp would stand where the cutter goes", "the vice, held from the sides")
    return None


def _free_for_clamp(space: Extents, held: Surface) -> Millimetre:
    """Give the longest stretch of the round that the cut leaves free for a clamp."""
    return max(
        min(held.high[0], space.low[0]) - held.low[0],
        held.high[0] - max(held.low[0], space.high[0]),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lying:
    """A round lying level in a device, and what can be cut so."""

    everything: tuple[Operation, ...]
    device: HoldingDevice
    held: Surface
    up: Vec3
    name: str
    covered: tuple[str, ...]
    jaws: Reach | None


def _lying(part: Part, lying: _Lying, can: tuple[Operation, ...]) -> list[Scheme]:
    found = [_lying_on(lying, can, finished=True)]
    size = lying.held.size
    rough = rough_of(lying.everything, lying.held.name)
    keyed = tuple(op for op in can if op.verb == "mill keyway")
    if rough and keyed and part.blank.bright and size is not None and size.width < TIGHT:
        early = replace(lying, name=f"{lying.name}, before its last cut")
        found.append(_lying_on(early, keyed, finished=False))
    return found


def _under_jaws(part: Part, device: HoldingDevice, held: Surface, other: Surface) -> bool:
    """Tell whether jaws on one round reach over another: it must be turned down by then."""
    jaws = jaws_on(part, held, device.jaw_width)
    return jaws is not None and (
        other.low[0] < jaws[1] - _CLEAR and other.high[0] > jaws[0] + _CLEAR
    )


def _needs(lying: _Lying, *, finished: bool) -> tuple[list[tuple[str, str]], ...]:
    """Give what must be done before the round is held so, and what must wait."""
    held = lying.held.name
    why = f"the {lying.device.name} holds it by {{}}, which must be turned first"
    others = [c for c in lying.covered if c != held]
    need = [pair for c in others for pair in asked_for(lying.everything, c, why.format(c))]
    if finished:
        return need + asked_for(lying.everything, held, why.format(held)), []
    need += [(op.key, why.format(held)) for op in rough_of(lying.everything, held)]
    return need, asked_for(lying.everything, held, f"{held} is finished after it is keyed")


def _up_the_jaws(device: HoldingDevice, radius: Millimetre) -> Millimetre:
    """Give how far up a round the jaws come on a parallel of the set: over its middle.

    No higher than the cut likes; where no parallel of a set does, what one made up gives.
    """
    least = radius + min(OVER_THE_MIDDLE, radius / 4)
    for most in (HIGHEST * radius, HIGHER * radius):
        for grip in grips_on_parallels(device, least=least, most=most):
            return grip
    return min(device.jaw_depth, HIGHEST * radius)


def _lying_on(lying: _Lying, can: tuple[Operation, ...], *, finished: bool) -> Scheme:
    device, held, up = lying.device, lying.held, lying.up
    radius = _radius(held)
    spaces = [extents_of_all(op.region) or Extents(low=held.low, high=held.high) for op in can]
    past = max(max(s.high[0] - held.high[0], held.low[0] - s.low[0], 0.0) for s in spaces)
    need, ban = _needs(lying, finished=finished)
    in_vice = device.device == "vice"
    detail = (
        "level on a parallel, a soft pad at the moving jaw only, a stop at its end"
        if in_vice
        else "level in the pair, a clamp on top clear of the cut"
    )
    top = _up_the_jaws(device, radius) - radius if in_vice else 0.0
    return Scheme(
        key=lying.name,
        machine="mill",
        links=(Link(holder=device, detail=detail),),
        faces=up,
        across=_ALONG,
        grips=(held.name,),
        seats=(held.name,),
        grip_low=dot(held.point, up) - radius,
        grip_high=dot(held.point, up) + top,
        grip_size=2 * radius,
        inside=False,
        centre=False,
        stick_out=past,
        true_on=((held.name, 0.02),),
        error=device.trued,
        minutes=device.minutes,
        can=frozenset(op.key for op in can),
        need=one_reason_each(need),
        ban=one_reason_each(ban),
        jaws=lying.jaws if in_vice else None,
        reason=f"{held.name} is clocked level along the table, and the cutter set over its middle",
    )
