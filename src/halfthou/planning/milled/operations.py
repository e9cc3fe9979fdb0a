"""What has to be done to a part cut from the solid: faces, steps, slots, pockets, holes, edges."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.geometry import Box, Prism
from halfthou.drawing.model import OUTWARD, Block, ChamferCut, Cutout, Hole, Part, Side
from halfthou.planning.axes import Extents, axis_of, cross, dot, other_side, same
from halfthou.planning.milled import minutes
from halfthou.planning.milled.bored_in_lathe import bored_in_lathe
from halfthou.planning.milled.cutout_space import cutout_space
from halfthou.planning.milled.cutters import (
    for_cutout,
    for_face,
    for_side,
    mill_tools,
    only_sawn,
    slot_width,
)
from halfthou.planning.milled.lump import SIDES, Lump, blocks, hollows, lump_of
from halfthou.planning.milled.on_round import MILLED, hole_work, opens_to
from halfthou.planning.milled.slants import slant_work
from halfthou.planning.model import Alternative, Operation, Stage
from halfthou.planning.work import Work
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Workshop

SLIT: Final = "slit with the rim of the saw, fed in from the open side"
"""Remark on a slot that is sawn and not milled from above."""
FINISH_LEAVES: Final = 0.25
"""Metal left on a face for its finishing cut, mm (usual practice)."""
BELOW: Final = 0.5
"""How far the end of a cutter goes below the edge it cuts, mm (usual practice)."""
_FINE: Final = 0.05
"""A face placed closer than this is roughed and finished apart. [mm]"""
GRIP_SHARE: Final = 1 / 3
"""Least share of the work's height between the jaws (usual practice)."""
_PAST: Final = 2.0
"""How far a removed region reaches past the metal. [mm]"""
_SAME: Final = 1e-6


def operations_milled(part: Part, workshop: Workshop) -> Work:
    """Give every operation on a part cut from a block, and the choices among them."""
    lump = lump_of(part)
    work = _sawing(part, lump)
    for side in SIDES:
        work += _faces(part, workshop, lump, side)
    for cutout in (*hollows(part, lump), *_cutouts(part)):
        work += _cut_out(cutout, part, workshop, lump)
    over = max(lump.stock) + _PAST
    for feature in part.features:
        if isinstance(feature, Hole):
            bored = bored_in_lathe(feature, part, workshop, over=over)
            work += hole_work(feature, part, workshop, over=over, also=bored)
        elif isinstance(feature, ChamferCut):
            work += _chamfer(feature, part, workshop)
    return work + slant_work(part, workshop) + _deburr(part)


def _cutouts(part: Part) -> tuple[Cutout, ...]:
    return tuple(f for f in part.features if isinstance(f, Cutout))


def _sawing(part: Part, lump: Lump) -> Work:
    if lump.cast or lump.sawn <= 0:
        return Work(operations=())
    size = sorted(part.blank.size)
    saw = Operation(
        key="saw the blank",
        verb="saw",
        stage="only",
        feature="blank",
        machine="bench",
        makes=(),
        region=(),
        approach=tuple(OUTWARD.values()),
        tools=("hacksaw",),
        minutes=3.0 + size[0] * size[1] / 100.0,
        cut_size=lump.sawn,
    )
    return Work(operations=(saw,))


def planes_on(part: Part, side: Side, at: Millimetre, over: Extents) -> tuple[str, ...]:
    """Name the plane surfaces that look to a side, lie at that reading and under a box."""
    out = OUTWARD[side]
    return tuple(
        s.name
        for s in part.surfaces
        if s.kind == "plane"
        and same(s.direction, out)
        and abs(dot(s.point, out) - at) < _SAME
        and Extents(low=s.low, high=s.high).grown(_thick(out)).overlaps(over)
    )


def _thick(out: Vec3) -> Vec3:
    return (abs(out[0]), abs(out[1]), abs(out[2]))


def _faces(part: Part, workshop: Workshop, lump: Lump, side: Side) -> Work:
    """Mill the outer faces that look to a side; of a casting each machined block's own."""
    if not lump.cast:
        if lump.over(side) <= 0:
            return Work(operations=())
        return _face(part, workshop, lump, side, name=side, body=lump.part)
    work = Work(operations=())
    several = len(blocks(part)) > 1
    for block in blocks(part):
        if side in block.machined:
            name = f"{block.name} {side}" if several else side
            work += _face(part, workshop, lump, side, name=name, body=_own(block))
    return work


def _own(block: Block) -> Extents:
    return Extents(low=block.low, high=block.high)


def _face(
    part: Part, workshop: Workshop, lump: Lump, side: Side, *, name: str, body: Extents
) -> Work:
    makes = planes_on(part, side, body.most(OUTWARD[side]), body)
    stock = lump.over(side) if not lump.cast else _casting_stock(part, lump)
    space = _Space(
        part=part, workshop=workshop, lump=lump, side=side, body=body, stock=stock, makes=makes,
        name=name,
    )  # fmt: skip
    fine = any(band < _FINE for band in _bands(part, makes))
    from_above = _from_above(space, workshop, fine=fine)
    deep = [d for d in _edges(side) if for_side(workshop, lump.raw.length(d) + BELOW)]
    if not deep or not _is_end(lump, side, workshop):
        return Work(operations=from_above)
    on_edge = _on_edge(space, workshop, tuple(deep), fine=fine)
    choice = Alternative(
        name=f"{name}: how milled",
        bundles=(tuple(op.key for op in from_above), tuple(op.key for op in on_edge)),
    )
    return Work(operations=(*from_above, *on_edge), alternatives=(choice,))


def _is_end(lump: Lump, side: Side, workshop: Workshop) -> bool:
    """Tell whether a side is an end: across the bar, or too far up to stand in a vice."""
    raw = lump.raw
    length = raw.length(OUTWARD[side])
    vices = [d.jaw_depth for d in workshop.holding if d.device == "vice"]
    return axis_of(OUTWARD[side]) == lump.long or length > max(vices, default=0.0) / GRIP_SHARE


def _casting_stock(part: Part, lump: Lump) -> Millimetre:
    return max((part.blank.size[i] - (lump.part.high[i] - lump.part.low[i])) / 2 for i in range(3))


def _bands(part: Part, surfaces: tuple[str, ...]) -> list[float]:
    """Give the tolerances on a face: its distances, and what is drawn between it and others."""
    found = [d.band.width for d in part.distances if d.a in surfaces or d.b in surfaces]
    found += [
        r.within
        for r in part.requirements
        if r.origin == "drawn" and (r.surface in surfaces or r.to in surfaces)
    ]
    return found


def _edges(side: Side) -> list[Vec3]:
    return [d for d in OUTWARD.values() if axis_of(d) != axis_of(OUTWARD[side])]


class _Space:
    """A face to be milled, and the metal over it."""

    def __init__(
        self, *, part: Part, workshop: Workshop, lump: Lump, side: Side, body: Extents,
        stock: float, makes: tuple[str, ...], name: str,
    ) -> None:  # fmt: skip
        self.part, self.side, self.name, self.makes = part, side, name, makes
        self.workshop = workshop
        self.stock, self.body = stock, body
        self._round = lump.raw if not lump.cast else body.grown((stock, stock, stock))

    @property
    def size(self) -> tuple[Millimetre, Millimetre]:
        """Both ways across the face as the cutter goes over it [mm]."""
        a, b = (self._round.length(d) for d in _edges(self.side)[::2])
        return a, b

    @property
    def narrow(self) -> Millimetre:
        """Its narrower way across [mm]."""
        return min(self._round.length(d) for d in _edges(self.side))

    def deep(self, up: Vec3) -> Millimetre:
        """How far down a cutter reaches along its edge, the metal not yet cut above included."""
        return self._round.length(up) + BELOW

    def region(self, leaves: Millimetre) -> Box:
        """Everything past the face, but for what is left on it."""
        box = self._round.grown((_PAST, _PAST, _PAST))
        low, high = list(box.low), list(box.high)
        out = OUTWARD[self.side]
        axis = axis_of(out)
        if out[axis] > 0:
            low[axis] = self.body.high[axis] + leaves
            high[axis] = self.body.high[axis] + self.stock + _PAST
        else:
            high[axis] = self.body.low[axis] - leaves
            low[axis] = self.body.low[axis] - self.stock - _PAST
        return Box(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def _from_above(space: _Space, workshop: Workshop, *, fine: bool) -> tuple[Operation, ...]:
    tools = for_face(workshop, space.narrow)
    approach = (OUTWARD[space.side],)
    return _staged(space, f"mill {space.name}", approach, tools, fine=fine)


def _on_edge(
    space: _Space, workshop: Workshop, approach: tuple[Vec3, ...], *, fine: bool
) -> tuple[Operation, ...]:
    tools = for_side(workshop, max(space.deep(d) for d in approach))
    words = f"mill {space.name} with the side of the cutter"
    return _staged(space, words, approach, tools, fine=fine)


def _staged(
    space: _Space, words: str, approach: tuple[Vec3, ...], tools: tuple[str, ...], *, fine: bool
) -> tuple[Operation, ...]:
    """Give one operation, or roughing and finishing where the face is placed closely."""
    if not fine or space.stock <= 2 * FINISH_LEAVES:
        return (_milling(space, words, approach, tools, "only", 0.0),)
    return (
        _milling(space, f"{words}, rough", approach, tools, "rough", FINISH_LEAVES),
        _milling(space, f"{words}, finish", approach, tools, "finish", 0.0),
    )


def _milling(  # noqa: PLR0917  (all of one face)
    space: _Space,
    key: str,
    approach: tuple[Vec3, ...],
    tools: tuple[str, ...],
    stage: Stage,
    leaves: Millimetre,
) -> Operation:
    depth = FINISH_LEAVES if stage == "finish" else space.stock - leaves
    return Operation(
        key=key,
        verb="mill face",
        stage=stage,
        feature=space.name,
        machine="mill",
        makes=() if stage == "rough" else space.makes,
        region=(space.region(leaves),),
        approach=approach,
        tools=tools,
        minutes=_takes(space, approach[0], tools, depth),
        starts=space.stock if stage != "finish" else FINISH_LEAVES,
        ends=leaves,
        cut_size=depth,
    )


def _takes(space: _Space, up: Vec3, tools: tuple[str, ...], depth: Millimetre) -> float:
    """Give the minutes of a face cut from above, or from its edge."""
    if same(up, OUTWARD[space.side]):
        return minutes.facing(
            workshop=space.workshop, material=space.part.material, tools=tools,
            size=space.size, off=depth,
        )  # fmt: skip
    level = cross(up, OUTWARD[space.side])
    return minutes.edging(
        workshop=space.workshop, material=space.part.material, tools=tools,
        length=space.body.length(level), deep=space.body.length(up), off=depth,
    )  # fmt: skip


def _cut_out(cutout: Cutout, part: Part, workshop: Workshop, lump: Lump) -> Work:
    """Mill a step, slot or pocket from every side that opens on its floor."""
    ways = [up for up in _openings(cutout) if for_cutout(cutout, up, workshop)]
    first = ways[0] if ways else opens_to(cutout)
    tools = for_cutout(cutout, first, workshop)
    usable = tuple(
        up for up in ways or [first] if set(tools) <= set(for_cutout(cutout, up, workshop))
    )
    own = Extents(low=cutout.low, high=cutout.high)
    sawn = only_sawn(cutout, first, workshop)
    if sawn:
        # the saw turns level: the slot's width lies along the spindle
        usable = tuple(d for d in OUTWARD.values() if own.length(d) == _narrowest(own))
    operation = Operation(
        key=f"mill {cutout.name}",
        verb=MILLED[cutout.kind],
        stage="only",
        feature=cutout.name,
        machine="mill",
        makes=_walls(cutout, part),
        region=cutout_space(cutout, lump.raw, past=_PAST),
        approach=usable or (first,),
        tools=tools,
        minutes=minutes.hollowing(
            workshop=workshop,
            material=part.material,
            tools=tools,
            verb=MILLED[cutout.kind],
            size=_flat_size(own, first),
            deep=own.length(first),
        ),
        size=slot_width(cutout, _narrowest(own)),
        cut_size=own.length(first),
        remark=SLIT if sawn else "",
    )
    return Work(operations=(operation,))


def _flat_size(box: Extents, up: Vec3) -> tuple[Millimetre, Millimetre]:
    """Give a box's two sizes as seen along a direction."""
    a, b = (box.high[i] - box.low[i] for i in range(3) if i != axis_of(up))
    return a, b


def _narrowest(box: Extents) -> Millimetre:
    return min(box.length(d) for d in OUTWARD.values())


def _openings(cutout: Cutout) -> list[Vec3]:
    """Give the directions that open on a floor: the drawn one first."""
    first = opens_to(cutout)
    others = [
        OUTWARD[s]
        for s in sorted(cutout.open_sides)
        if other_side(s) not in cutout.open_sides and not same(OUTWARD[s], first)
    ]
    return [first, *others] if cutout.kind == "step" else [first]


def _walls(cutout: Cutout, part: Part) -> tuple[str, ...]:
    """Name the surfaces a cutout leaves: its own, or the blocks' faces it uncovers."""
    own = tuple(s.name for s in part.surfaces if s.feature == cutout.name)
    if own:
        return own
    box = Extents(low=cutout.low, high=cutout.high)
    found: list[str] = []
    for side in SIDES:
        if side not in cutout.open_sides:
            looks = other_side(side)
            at = -box.most(OUTWARD[side])
            found += planes_on(part, looks, at, box)
    return tuple(dict.fromkeys(found))


def _chamfer(cut: ChamferCut, part: Part, workshop: Workshop) -> Work:
    """Mill a chamfer, or file it at the bench."""
    cutters = tuple(t.name for t in mill_tools(workshop, "countersink"))
    length = max(part.blank.size)
    filed = Operation(
        key=f"file {cut.name}",
        verb="chamfer",
        stage="only",
        feature=cut.name,
        machine="bench",
        makes=tuple(s.name for s in part.surfaces if s.feature == cut.name),
        region=(cut.region,),
        approach=tuple(OUTWARD.values()),
        tools=("file",),
        minutes=minutes.filing(length=length) * max(1.0, cut.leg),
        cut_size=cut.leg,
        angle=cut.angle,
    )
    if not cutters:
        return Work(operations=(filed,))
    looks = _looks(cut)
    milled = Operation(
        key=f"mill {cut.name}",
        verb="mill chamfer",
        stage="only",
        feature=cut.name,
        machine="mill",
        makes=filed.makes,
        region=(cut.region,),
        approach=tuple(looks),
        tools=cutters,
        minutes=minutes.chamfering(length=length),
        cut_size=cut.leg,
        angle=cut.angle,
    )
    choice = Alternative(name=f"{cut.name}: how cut", bundles=((milled.key,), (filed.key,)))
    return Work(operations=(milled, filed), alternatives=(choice,))


def _looks(cut: ChamferCut) -> list[Vec3]:
    """Give the sides that a chamfer can be seen from: both that meet in a straight edge."""
    found = [d for d in OUTWARD.values() if dot(d, cut.facing) > _FINE]
    if isinstance(cut.region, Prism):
        corner, *others = cut.region.outline
        away = [tuple(c - p for c, p in zip(corner, other, strict=True)) for other in others]
        outs = [(a[0] / cut.leg, a[1] / cut.leg, a[2] / cut.leg) for a in away]
        found += [d for d in OUTWARD.values() if any(dot(d, out) > 1 - _FINE for out in outs)]
    return list(dict.fromkeys(found))


def _deburr(part: Part) -> Work:
    edges = sum(part.blank.size)
    last = Operation(
        key="deburr",
        verb="deburr",
        stage="only",
        feature=part.name,
        machine="bench",
        makes=(),
        region=(),
        approach=tuple(OUTWARD.values()),
        tools=("file",),
        minutes=minutes.filing(length=edges),
    )
    return Work(operations=(last,))
