"""The metal before it is the part: the lump before a joint is cut, and the raw casting."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from halfthou.drawing.boss_metal import ArmBody, BossBody
from halfthou.drawing.frame import AXIS_OF, ENDS, SIDES, high_end, side_of
from halfthou.drawing.geometry import Box, Cylinder, Region, RegionSet
from halfthou.drawing.model import (
    Arm,
    Blank,
    Block,
    Boss,
    Hole,
    Joint,
    Lump,
    Part,
    Piece,
    Round,
    Side,
)
from halfthou.drawing.region_space import (
    plus,
    reach_of,
    reach_of_all,
    section,
    shifted,
    unit,
)
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-7
_OVER: Final = 1.0
_BESIDE: Final = 1e-6
"""How far beside a joint's plane the half that stays is looked at [mm]."""


def joints_of(part: Part) -> tuple[Joint, ...]:
    """All joints of a part, in the order of its file."""
    return tuple(feature for feature in part.features if isinstance(feature, Joint))


def before_the_cut(part: Part, joint: Joint) -> tuple[Lump, ...]:
    """Return the finished shape as it stands before the joint is sawn.

    The half that moves stands further out by the kerf and both skims; between the halves the
    half that stays is drawn on. Together the lumps are one workpiece. Where
    nothing is sawn, they are the two halves apart.
    """
    return _opened(Lump(name=part.name, metal=part.metal, removed=part.removed), joint)


def _opened(whole: Lump, joint: Joint) -> tuple[Lump, ...]:
    low, high = reach_of_all(whole.metal)
    up = joint.moves == joint.halves[0]
    away = unit(joint.axis, joint.over if up else -joint.over)
    lumps = []
    for half, above in zip(joint.halves, (True, False), strict=True):
        by = away if half == joint.moves else (0.0, 0.0, 0.0)
        metal = [one for one in whole.metal if _on(one, joint.axis, joint.at, above=above)]
        cuts = [one for one in whole.removed if _on(one, joint.axis, joint.at, above=above)]
        beyond = _far_side(low, high, joint.axis, joint.at, above=above)
        lumps.append(
            Lump(
                name=half,
                metal=tuple(shifted(one, by) for one in metal),
                removed=tuple(shifted(one, by) for one in (*cuts, beyond)),
            )
        )
    return (*lumps, *_kerf(whole, joint, up=up))


def _kerf(whole: Lump, joint: Joint, *, up: bool) -> Iterator[Lump]:
    """Yield the metal the saw goes through."""
    if not joint.over:
        return
    # the half that stays is drawn on: what differs across the joint differs only beyond the saw
    beside = joint.at - _BESIDE if up else joint.at + _BESIDE
    start = joint.at if up else joint.at - joint.over
    drawn = unit(joint.axis, start - beside)

    def filled(regions: RegionSet) -> RegionSet:
        return tuple(
            shifted(strip, drawn)
            for one in regions
            for strip in section(one, axis=joint.axis, at=beside, thick=joint.over)
        )

    yield Lump(name=f"{joint.name} kerf", metal=filled(whole.metal), removed=filled(whole.removed))


def _on(region: Region, axis: int, at: Millimetre, *, above: bool) -> bool:
    low, high = reach_of(region)
    return high[axis] > at + _SAME if above else low[axis] < at - _SAME


def _far_side(low: Vec3, high: Vec3, axis: int, at: Millimetre, *, above: bool) -> Box:
    bottom, top = [n - _OVER for n in low], [n + _OVER for n in high]
    if above:
        top[axis] = at
        bottom[axis] = min(bottom[axis], at - _OVER)
    else:
        bottom[axis] = at
        top[axis] = max(top[axis], at + _OVER)
    return Box(low=(bottom[0], bottom[1], bottom[2]), high=(top[0], top[1], top[2]))


def as_cast(part: Part) -> tuple[Lump, ...]:
    """Return the raw casting, or castings: machined faces stand out by the stock, no others do.

    Two castings that are joined stand where they will be, each with its own stock on the
    joint's face. A part sawn apart comes as one casting, its moving half further out. Draft
    and fillets are left out. A part that is no casting gives none.
    """
    if part.blank.form != "casting":
        return ()
    whole = Lump(name=part.name, metal=tuple(_raw_metal(part)), removed=tuple(_cores(part)))
    joints = joints_of(part)
    sawn = next((one for one in joints if one.over), None)
    if sawn is not None:
        return _opened(whole, sawn)
    apart = next((one for one in joints if one.kind == "two castings"), None)
    if apart is None:
        return (whole,)
    sides = zip(apart.halves, (True, False), strict=True)
    return tuple(
        _own_casting(part, whole, apart, half, above=above)
        for half, above in sides
        if _bodies_of(part, apart, above=above)
    )


def _own_casting(part: Part, whole: Lump, joint: Joint, half: str, *, above: bool) -> Lump:
    bodies = _bodies_of(part, joint, above=above)
    metal = tuple(region for one in bodies for region in _grown(part, one))
    low, high = reach_of_all(metal)
    left_on = part.blank.stock if _joint_is_cut(bodies, joint, above=above) else 0.0
    edge = joint.at - left_on if above else joint.at + left_on
    beyond = _far_side(low, high, joint.axis, edge, above=above)
    cores = tuple(one for one in whole.removed if _on(one, joint.axis, joint.at, above=above))
    reaches = low[joint.axis] < edge - _SAME if above else high[joint.axis] > edge + _SAME
    return Lump(name=half, metal=metal, removed=(*cores, *((beyond,) if reaches else ())))


def _bodies_of(part: Part, joint: Joint, *, above: bool) -> list[Block | Boss | Arm | Round]:
    found = []
    for feature in _own_bodies(part):
        low, high = reach_of_all(_plain(feature))
        if above and high[joint.axis] > joint.at + _SAME:
            found.append(feature)
        if not above and low[joint.axis] < joint.at - _SAME:
            found.append(feature)
    return found


def _joint_is_cut(
    bodies: Sequence[Block | Boss | Arm | Round], joint: Joint, *, above: bool
) -> bool:
    """Whether a half's joint face is machined: its body says so, or runs through the joint."""
    side = side_of(joint.axis, 0 if above else 1)
    for one in bodies:
        low, high = reach_of_all(_plain(one))
        if low[joint.axis] < joint.at - _SAME and high[joint.axis] > joint.at + _SAME:
            return True
        if not isinstance(one, Round) and side in one.machined:
            return True
    return False


def _own_bodies(part: Part) -> Iterator[Block | Boss | Arm | Round]:
    foreign = {name for piece in part.pieces if piece.fixed for name in _alone(part, piece)}
    for feature in (*part.features, *part.comes_off):
        if isinstance(feature, Block | Boss | Arm | Round) and feature.name not in foreign:
            yield feature


def _alone(part: Part, piece: Piece) -> Iterator[str]:
    shared = {name for one in part.pieces if not one.fixed for name in one.features}
    yield from (name for name in piece.features if name not in shared)


def _raw_metal(part: Part) -> Iterator[Region]:
    for feature in _own_bodies(part):
        yield from _grown(part, feature)


def _plain(feature: Block | Boss | Arm | Round) -> RegionSet:
    match feature:
        case Block():
            return (Box(low=feature.low, high=feature.high),)
        case Boss():
            return _boss(feature, {}, 0.0)
        case Arm():
            return _arm(feature, {}, 0.0)
        case Round():
            return _round(feature, {}, 0.0)


def _grown(part: Part, feature: Block | Boss | Arm | Round) -> RegionSet:
    """Return a body with stock on each side that is machined."""
    stock = part.blank.stock
    match feature:
        case Block():
            return (_block(feature, stock),)
        case Boss():
            over = {side: stock for side in SIDES if side in feature.machined}
            return _boss(feature, over, stock)
        case Arm():
            over = {side: stock for side in SIDES if side in feature.machined}
            return _arm(feature, over, 0.0)
        case Round():
            return _round(
                feature, _round_ends(part, feature, stock), stock * _turned(part, feature)
            )


def _block(block: Block, stock: Millimetre) -> Box:
    low, high = list(block.low), list(block.high)
    for side in block.machined:
        if high_end(side):
            high[AXIS_OF[side]] += stock
        else:
            low[AXIS_OF[side]] -= stock
    return Box(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def _boss(boss: Boss, over: dict[Side, Millimetre], stock: Millimetre) -> RegionSet:
    near, far = ENDS[boss.axis]
    round_over = 2 * stock if "outside" in boss.machined else 0.0
    bore_under = 2 * stock if "inside" in boss.machined else 0.0
    free, root = boss.diameter.nominal + round_over, boss.root_diameter + round_over
    first, last = (root, free) if boss.rises else (free, root)
    slope = (last - first) / (boss.end - boss.start)
    below, above = over.get(near, 0.0), over.get(far, 0.0)
    body = BossBody(
        name=boss.name,
        axis=boss.axis,
        start=boss.start - below,
        end=boss.end + above,
        centre=boss.centre,
        start_diameter=first - slope * below,
        end_diameter=last + slope * above,
        inside=max(0.0, boss.inside.nominal - bore_under) if boss.inside else 0.0,
    )
    return body.regions()


def _arm(arm: Arm, over: dict[Side, Millimetre], stock: Millimetre) -> RegionSet:
    near, far = ENDS[arm.axis]
    body = ArmBody(
        name=arm.name,
        axis=arm.axis,
        start=arm.start - over.get(near, 0.0),
        end=arm.end + over.get(far, 0.0),
        centres=arm.centres,
        diameters=(arm.diameters[0] + 2 * stock, arm.diameters[1] + 2 * stock),
        covered=arm.covered,
    )
    return body.regions()


def _turned(part: Part, feature: Round) -> float:
    return 0.0 if part.surface(feature.name).raw else 1.0


def _round_ends(part: Part, feature: Round, stock: Millimetre) -> dict[Side, Millimetre]:
    """Return the stock on the two ends of a round, where its own metal makes the shoulder."""
    found: dict[Side, Millimetre] = {}
    for side in ENDS[0]:
        try:
            surface = part.surface(f"{feature.name} {side}")
        except KeyError:
            continue
        if surface.feature == feature.name and not surface.raw:
            found[side] = stock
    return found


def _round(feature: Round, over: dict[Side, Millimetre], stock: Millimetre) -> RegionSet:
    right = feature.right_diameter or feature.diameter
    body = BossBody(
        name=feature.name,
        axis=0,
        start=feature.left - over.get("left", 0.0),
        end=feature.right + over.get("right", 0.0),
        centre=(0.0, 0.0, 0.0),
        start_diameter=feature.diameter.nominal + 2 * stock,
        end_diameter=right.nominal + 2 * stock,
    )
    return body.regions()


def _cores(part: Part) -> Iterator[Region]:
    """Yield the holes the casting has already, through the stock on its faces."""
    over = part.blank.stock
    for hole in part.features:
        if not isinstance(hole, Hole) or hole.cored is None:
            continue
        last = hole.steps[-1]
        for entry in hole.entries:
            end = last.end + over if last.breaks_out else last.end - over
            start = plus(entry, _times(hole.into, -over))
            bottom = plus(entry, _times(hole.into, end))
            yield Cylinder(start=start, end=bottom, diameter=hole.cored.nominal)


def _times(direction: Vec3, by: float) -> Vec3:
    return (by * direction[0], by * direction[1], by * direction[2])


def with_raw_size(part: Part) -> Part:
    """Return the part with the sizes over all of its casting, or of each of its castings."""
    if part.blank.form != "casting":
        return part
    lumps = as_cast(part)
    apart = {lump.name: _cast_blank(part, lump.metal) for lump in lumps if len(lumps) > 1}
    pieces = tuple(
        replace(piece, blank=apart[piece.name]) if piece.name in apart else piece
        for piece in part.pieces
    )
    if any(joint.over for joint in joints_of(part)):
        pieces = part.pieces  # they come as one lump
    given = "over all" in part.blank.text
    whole = _cast_blank(part, tuple(region for lump in lumps for region in lump.metal))
    return replace(part, pieces=pieces, blank=part.blank if given else whole)


def _cast_blank(part: Part, metal: RegionSet) -> Blank:
    low, high = reach_of_all(metal)
    size = (high[0] - low[0], high[1] - low[1], high[2] - low[2])
    return replace(part.blank, size=size, across=max(size))
