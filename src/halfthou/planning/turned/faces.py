"""The two ends: faced once or twice, parted off the chucking piece, centres in them."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.drawing.geometry import Cone, Cylinder, Region
from halfthou.drawing.model import Centres, Part, Surface
from halfthou.planning.model import Alternative, Operation, Stage
from halfthou.planning.turned.minutes import minutes_for
from halfthou.planning.turned.shape import (
    BEYOND,
    ENDS,
    NEAR,
    TOWARD,
    End,
    end_at,
    other_end,
    planes_at,
)
from halfthou.planning.turned.stock import Stock
from halfthou.planning.turned.tools import tool_for
from halfthou.planning.turned.turned_off import (
    centre_hole,
    centres_turned_off,
    region_turned_off,
    spare_for_centre,
)
from halfthou.planning.work import Work
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

HACKSAW: Final = "hacksaw"
FACE_LEAVES: Final = 0.2
"""Metal left on a face that is faced again where it must be square, mm (usual practice)."""
_WORDS: Final[dict[Stage, str]] = {
    "rough": "face {} first skim",
    "finish": "face {} to finish",
    "only": "face {}",
}


def facing(part: Part, workshop: Workshop, stock: Stock) -> Work:
    """Give the facing of both ends."""
    work = Work()
    for end in ENDS:
        if centres_turned_off(part, end) is None:
            work += _faced(part, workshop, stock, end)
        else:
            work += _centre_faced_off(part, workshop, stock, end)
    return work


def _face(
    part: Part,
    workshop: Workshop,
    stock: Stock,
    end: End,
    *,
    stage: Stage,
    leaves: Millimetre,
    metal: Millimetre,
) -> Operation:
    """One facing of an end: ``metal`` comes off, ``leaves`` stays on for later."""
    out = TOWARD[end][0]
    at = end_at(part, end) + out * leaves
    far = stock.end(end) + out * BEYOND
    return Operation(
        key=_WORDS[stage].format(end),
        verb="face",
        stage=stage,
        feature=end,
        machine="lathe",
        makes=() if stage == "rough" else planes_at(part, end_at(part, end), TOWARD[end]),
        region=(
            Cylinder(
                start=(at, 0.0, 0.0), end=(far, 0.0, 0.0), diameter=stock.across + 2 * BEYOND
            ),
        ),
        approach=(TOWARD[end],),
        tools=tool_for(workshop, "knife tool", "facing tool"),
        minutes=minutes_for("face", length=stock.across / 2, across=stock.across, depth=metal),
        starts=at,
        ends=far,
        from_size=metal,
    )


def _faced(part: Part, workshop: Workshop, stock: Stock, end: End) -> Work:
    """Face an end once; or, where it must be square to something, skim it and finish later."""
    metal = _metal_at(part, stock, end)
    once = _face(part, workshop, stock, end, stage="only", leaves=0.0, metal=metal)
    if metal <= FACE_LEAVES or not _squared(part, once.makes):
        return Work(operations=(once,))
    twice = (
        _face(
            part,
            workshop,
            stock,
            end,
            stage="rough",
            leaves=FACE_LEAVES,
            metal=metal - FACE_LEAVES,
        ),
        _face(part, workshop, stock, end, stage="finish", leaves=0.0, metal=FACE_LEAVES),
    )
    choice = Alternative(
        name=f"{end} end: faced once or twice",
        bundles=((once.key,), tuple(op.key for op in twice)),
    )
    return Work(operations=(once, *twice), alternatives=(choice,))


def _metal_at(part: Part, stock: Stock, end: End) -> Millimetre:
    """Metal to face off an end: what the parting tool leaves there, or the saw; [mm]."""
    if stock.chucking == end:
        return stock.to_face(end)
    return abs(stock.end(end) - end_at(part, end))


def _squared(part: Part, made: tuple[str, ...]) -> bool:
    return any(r.surface in made or r.to in made for r in part.requirements)


def _centre_faced_off(part: Part, workshop: Workshop, stock: Stock, end: End) -> Work:
    """Skim the end for its centre; face centre and all off when nothing hangs on it any more."""
    spare = stock.spare_at(end)
    metal = _metal_at(part, stock, end) - spare
    skim = _face(part, workshop, stock, end, stage="rough", leaves=spare, metal=metal)
    off = _face(part, workshop, stock, end, stage="finish", leaves=0.0, metal=spare)
    return Work(operations=(skim, replace(off, follows=f"centre {end}")))


def taken_off(stock: Stock) -> str:
    """Name the operation that takes the chucking piece off."""
    return "saw off the chucking piece" if stock.sawn_off else "part off"


def parting(part: Part, workshop: Workshop, stock: Stock) -> Work:
    """Give the parting off of the chucking piece, if there is one."""
    if stock.chucking is None:
        return Work()
    out = TOWARD[stock.chucking][0]
    at = end_at(part, stock.chucking) + out * stock.to_face(stock.chucking)
    far = stock.end(stock.chucking) + out * BEYOND
    across = stock.across
    lathe = not stock.sawn_off
    return Work(
        operations=(
            Operation(
                key=taken_off(stock),
                verb="part off" if lathe else "saw",
                stage="only",
                feature=stock.chucking,
                machine="lathe" if lathe else "bench",
                makes=(),
                region=(
                    Cylinder(
                        start=(at, 0.0, 0.0), end=(far, 0.0, 0.0), diameter=across + 2 * BEYOND
                    ),
                ),
                approach=(TOWARD[other_end(stock.chucking)],),
                tools=tool_for(workshop, "parting tool") if lathe else (HACKSAW,),
                minutes=minutes_for(
                    "part off" if lathe else "saw",
                    length=across / 2 if lathe else across,
                    across=across,
                    depth=stock.parting_width,
                ),
                starts=at,
                ends=at + out * stock.parting_width,
                cut_size=0.0 if lathe else abs(at - stock.end(other_end(stock.chucking))),
            ),
        )
    )


def centring(part: Part) -> Work:
    """Give the centre holes: those that stay in the part, and those faced off at last."""
    made = [
        _centre(part, one, end)
        for one in part.features
        if isinstance(one, Centres)
        for end in ENDS
        if end in one.ends
    ]
    return Work(operations=tuple(made))


def _centre(part: Part, one: Centres, end: End) -> Operation:
    hole = centre_hole(one)
    region = _left_in(part, end) if one.left_in else region_turned_off(part, one, end)
    out = TOWARD[end][0]
    mouth = end_at(part, end) + out * spare_for_centre(part, end)
    return Operation(
        key=f"centre {end}",
        verb="centre",
        stage="only",
        feature="centres",
        machine="lathe",
        makes=(f"centre {end}",) if one.left_in else (),
        region=region,
        approach=(TOWARD[end],),
        tools=(f"centre drill {one.size}",),
        minutes=minutes_for("centre", length=hole.deep, across=one.body, depth=1.0),
        at=((mouth, 0.0, 0.0),),
        ends=hole.deep,
        cut_size=hole.across,
        inside=True,
    )


def _left_in(part: Part, end: End) -> tuple[Region, ...]:
    hole = part.surface(f"centre {end}")
    return tuple(r for r in part.removed if _lies_in(r, hole))


def _lies_in(region: Region, hole: Surface) -> bool:
    if not isinstance(region, Cone | Cylinder):
        return False
    low, high = hole.low[0] - NEAR, hole.high[0] + NEAR
    along = all(
        low <= p[0] <= high and abs(p[1]) + abs(p[2]) < NEAR for p in (region.start, region.end)
    )
    width = region.start_diameter if isinstance(region, Cone) else region.diameter
    return along and width <= 2 * hole.high[1] + NEAR
