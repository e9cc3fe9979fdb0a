"""Blocks and plates: their sides.

A side that is also an outermost side of the part is called by the part's side (``top``);
``plate top`` means the same plane. A side buried in other metal is no surface.
"""

from __future__ import annotations

from halfthou.drawing.built import Built, Solved, along, cleans_up, stays_raw
from halfthou.drawing.frame import AXIS_OF, SIDES, high_end
from halfthou.drawing.metal import BlockBody, grid, in_metal
from halfthou.drawing.model import OUTWARD, Block, Side, Surface
from halfthou.quantities import parse_size
from halfthou.units import Vec3

_SAME = 1e-7
_OUTSIDE = 1e-3


def build_blocks(solved: Solved, built: Built) -> None:
    """Enter all blocks with the sides that show."""
    for body in solved.bodies:
        if isinstance(body, BlockBody):
            _build(solved, built, body)


def _build(solved: Solved, built: Built, body: BlockBody) -> None:
    table = solved.written.feature(body.name)
    raw = {side for side in SIDES if table and stays_raw(solved.written, table, side)}
    machined: frozenset[Side] = frozenset(side for side in SIDES if side not in raw)
    skimmed: frozenset[Side] = frozenset(s for s in SIDES if table and cleans_up(table, s))
    fillet = 0.0
    if table is not None and table.has("fillet"):
        fillet = parse_size(table.text("fillet"), units=solved.written.units).nominal.value
    block = Block(
        name=body.name, low=body.low, high=body.high, machined=machined, clean_up=skimmed,
        fillet=fillet,
    )  # fmt: skip
    if solved.only_cast(body.name):
        built.comes_off.append(block)
        return
    built.features.append(block)
    for side in SIDES:
        axis, top = AXIS_OF[side], high_end(side)
        at = (body.high if top else body.low)[axis]
        if _buried(solved, body, side, at):
            continue
        name = side if solved.outermost(body, side) else f"{body.name} {side}"
        corners = (_flattened(body.low, axis, at), _flattened(body.high, axis, at))
        enter_plane(
            built, body=body.name, side=side, name=name, corners=corners, raw=side in raw,
            clean_up=side in skimmed,
        )  # fmt: skip


def _buried(solved: Solved, body: BlockBody, side: Side, at: float) -> bool:
    others = [other for other in solved.bodies if other is not body]
    points = grid(body.low, body.high, AXIS_OF[side], at)
    return bool(others) and all(
        in_metal(others, along(point, OUTWARD[side], _OUTSIDE)) for point in points
    )


def enter_plane(
    built: Built,
    *,
    body: str,
    side: Side,
    name: str,
    corners: tuple[Vec3, Vec3],
    raw: bool,
    clean_up: bool = False,
) -> None:
    """Enter a side of a body; one that lies in a side already there widens it."""
    low, high = corners
    before = built.surfaces.get(name)
    if before is not None:
        low = _corner(before.low, low, low=True)
        high = _corner(before.high, high, low=False)
        raw = raw and before.raw
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)
    built.add(
        Surface(
            name=name,
            feature=before.feature if before else body,
            kind="plane",
            inside=False,
            point=middle,
            direction=OUTWARD[side],
            low=low,
            high=high,
            raw=raw,
            clean_up=clean_up,
        ),
        f"{body} {side}",
    )


def _flattened(corner: Vec3, axis: int, at: float) -> Vec3:
    values = list(corner)
    values[axis] = at
    return (values[0], values[1], values[2])


def _corner(a: Vec3, b: Vec3, *, low: bool) -> Vec3:
    pick = min if low else max
    return (pick(a[0], b[0]), pick(a[1], b[1]), pick(a[2], b[2]))
