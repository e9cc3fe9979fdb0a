"""Work on the mill to turned parts: keyways, holes off the axis, cross holes, flats and slots."""

from __future__ import annotations

from dataclasses import replace
from typing import Final, Literal

from halfthou.drawing.geometry import Box, Obround, Region
from halfthou.drawing.model import OUTWARD, Cutout, Hole, Keyway, Part, Round
from halfthou.planning.axes import Extents, cross, moved, opposite
from halfthou.planning.milled import minutes
from halfthou.planning.milled.cutout_space import cutout_space
from halfthou.planning.milled.cutters import for_cutout, for_keyway
from halfthou.planning.milled.holes import Way, ways_to_make
from halfthou.planning.model import Alternative, Operation, Verb
from halfthou.planning.work import Work
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Workshop

MILLED: Final[dict[Literal["step", "slot", "pocket"], Verb]] = {
    "step": "mill step",
    "slot": "mill slot",
    "pocket": "mill pocket",
}
_OVER: Final = 2.0
"""How far a cut reaches out of the metal. [mm]"""


def operations_mill_on_round(
    part: Part, workshop: Workshop, *, leave: frozenset[str] = frozenset()
) -> Work:
    """Give all milling and drilling that a turned part needs under an upright spindle.

    ``leave`` names holes that are seen to elsewhere: set over in the lathe.
    """
    work = Work(operations=())
    for feature in part.features:
        if isinstance(feature, Keyway):
            work += Work(operations=(_keyway(feature, part, workshop),))
        elif isinstance(feature, Cutout):
            work += Work(operations=(_cutout(feature, part, workshop),))
        elif isinstance(feature, Hole) and not feature.on_axis and feature.name not in leave:
            work += hole_work(feature, part, workshop, over=_OVER)
    return work


def hole_work(
    hole: Hole,
    part: Part,
    workshop: Workshop,
    *,
    over: Millimetre,
    also: tuple[Operation, ...] = (),
) -> Work:
    """Give a hole's operations, and the choice where there is more than one way.

    ``also`` is one more way; where the mill has not the tools it is the only one.
    """
    ways = list(ways_to_make(hole, part, workshop, over=over, also_far=True))
    if also:
        ways = [way for way in ways if all(op.tools for op in way.operations)]
        ways.append(Way(name="bored in the lathe", operations=also))
    operations: dict[str, Operation] = {}
    bundles = []
    for number, way in enumerate(ways):
        same_keys = {op.key for op in way.operations} & operations.keys()
        named = tuple(
            _renamed(op, way.name) if number and op.key in same_keys else op
            for op in way.operations
        )
        operations |= {op.key: op for op in named}
        bundles.append(tuple(op.key for op in named))
    choices = (Alternative(name=f"{hole.name}: which way", bundles=tuple(bundles)),)
    return Work(
        operations=tuple(operations.values()), alternatives=choices if len(bundles) > 1 else ()
    )


def _renamed(operation: Operation, way: str) -> Operation:
    return replace(operation, key=f"{operation.key}, {way}")


def round_of(part: Part, name: str) -> Round:
    """Give the round of that name (a keyway's ``on``)."""
    for feature in part.features:
        if isinstance(feature, Round) and feature.name == name:
            return feature
    raise KeyError(name)


def _made_by(part: Part, feature: str) -> tuple[str, ...]:
    return tuple(s.name for s in part.surfaces if s.feature == feature)


def _keyway(keyway: Keyway, part: Part, workshop: Workshop) -> Operation:
    radius = round_of(part, keyway.on).diameter.middle / 2
    depth = radius - keyway.floor
    length = keyway.right - keyway.left
    width = keyway.width.nominal
    tools = for_keyway(keyway, depth, workshop)
    return Operation(
        key=f"{keyway.name} mill",
        verb="mill keyway",
        stage="only",
        feature=keyway.name,
        machine="mill",
        makes=_made_by(part, keyway.name),
        region=(_keyway_space(keyway, radius + _OVER),),
        approach=(keyway.out,),
        tools=tools,
        minutes=minutes.hollowing(
            workshop=workshop,
            material=part.material,
            tools=tools,
            verb="mill keyway",
            size=(length, width),
            deep=depth,
        ),
        at=(_on_axis(keyway.left, keyway), _on_axis(keyway.right, keyway)),
        starts=keyway.left,
        ends=keyway.right,
        size=keyway.width,
        cut_size=keyway.width.middle,
        from_size=depth,
    )


def _on_axis(x: Millimetre, keyway: Keyway) -> Vec3:
    return moved((x, 0.0, 0.0), keyway.out, keyway.floor)


def _keyway_space(keyway: Keyway, top: Millimetre) -> Region:
    width = keyway.width.nominal
    if keyway.ends == "round":
        return Obround(
            start=moved((keyway.left + width / 2, 0.0, 0.0), keyway.out, top),
            end=moved((keyway.right - width / 2, 0.0, 0.0), keyway.out, top),
            width=width,
            direction=opposite(keyway.out),
            depth=top - keyway.floor,
        )
    side = cross((1.0, 0.0, 0.0), keyway.out)
    corners = [
        moved(moved((x, 0.0, 0.0), keyway.out, height), side, across)
        for x, across, height in (
            (keyway.left, -width / 2, keyway.floor),
            (keyway.right, width / 2, top),
        )
    ]
    low = tuple(min(a, b) for a, b in zip(*corners, strict=True))
    high = tuple(max(a, b) for a, b in zip(*corners, strict=True))
    return Box(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def _cutout(cutout: Cutout, part: Part, workshop: Workshop) -> Operation:
    """Mill a flat, slot or step in a round, from where it opens."""
    up = opens_to(cutout)
    size = tuple(b - a for a, b in zip(cutout.low, cutout.high, strict=True))
    flat = tuple(s for s, d in zip(size, up, strict=True) if not d)
    tools = for_cutout(cutout, up, workshop)
    depth = abs(sum(s * d for s, d in zip(size, up, strict=True)))
    return Operation(
        key=f"{cutout.name} mill",
        verb=MILLED[cutout.kind],
        stage="only",
        feature=cutout.name,
        machine="mill",
        makes=_made_by(part, cutout.name),
        region=cutout_space(cutout, Extents(low=cutout.low, high=cutout.high), past=_OVER),
        approach=(up,),
        tools=tools,
        minutes=minutes.hollowing(
            workshop=workshop,
            material=part.material,
            tools=tools,
            verb=MILLED[cutout.kind],
            size=(flat[0], flat[1]),
            deep=depth,
        ),
        size=cutout.wide,
        cut_size=depth,
    )


def opens_to(cutout: Cutout) -> Vec3:
    """Give the direction from the floor of a cutout out of the metal."""
    away = opposite(OUTWARD[cutout.floor])
    named = {OUTWARD[side] for side in cutout.open_sides}
    return away if away in named or OUTWARD[cutout.floor] not in named else OUTWARD[cutout.floor]
