"""What stands in the way of a chuck or a drill: walls beside a hole, heads of the bolts."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import Hole
from halfthou.handbook.tables import band, rows
from halfthou.planning.axes import Extents, axis_of, dot
from halfthou.planning.cast.pieces import Pieces
from halfthou.planning.model import Operation
from halfthou.units import Millimetre, Vec3

CHUCK: Final[Millimetre] = 22.0
"""Radius of a drill chuck to 13 mm (usual practice)."""
HELD: Final[Millimetre] = 20.0
"""How much of a drill is in its chuck (usual practice)."""
CENTRE_DRILL: Final[Millimetre] = 18.0
"""How far a centre drill stands out, the smallest 38 long (usual practice)."""
SLIM_HOLDER: Final[Millimetre] = 40.0
"""How far a centre drill reaches in a holder of bar with a grub screw (usual practice)."""
COUNTERSINK: Final[Millimetre] = 25.0
"""How far a countersink stands out (usual practice)."""
COUNTERBORE: Final[Millimetre] = 60.0
"""How far a counterbore with a pilot stands out (usual practice)."""
_FREE: Final[Millimetre] = 1.0
_HEAD_CLEAR: Final[Millimetre] = 0.5
_CORNERS: Final = 2 / math.sqrt(3)
_HEAD_TO_THREAD: Final = 1.78
"""Across flats of a hexagon to its thread, where no table tells (usual practice)."""
_DOWN: Final = frozenset(("spot", "drill", "ream", "countersink", "counterbore", "spot-face"))
_SAME: Final = 1e-6


def past_reach(metal: tuple[Extents, ...], op: Operation) -> bool:
    """Tell whether a wall beside a hole stops the chuck before the tool is down.

    The chuck's nose stays over every wall within its own radius of the hole:
    wall over the entry + depth + 1 mm is no more than the tool stands out.
    """
    if op.verb not in _DOWN or not op.at:
        return False
    return needed_out(metal, op) > stands_out(op)


def needed_out(metal: tuple[Extents, ...], op: Operation) -> Millimetre:
    """Give how far a tool must stand out of its chuck beside what stands by its holes [mm]."""
    return max(_wall(metal, p, op.approach[0]) + op.ends + _FREE for p in op.at)


def stands_out(op: Operation) -> Millimetre:
    """Give how far a tool that goes down a hole stands out of its chuck [mm]."""
    if op.verb == "spot":
        return SLIM_HOLDER
    if op.verb == "countersink":
        return COUNTERSINK
    if op.verb in {"counterbore", "spot-face"}:
        return COUNTERBORE
    row = band(rows("drill_lengths"), op.cut_size, over="over_mm", upto="upto_mm")
    return math.inf if row is None else float(row["overall_mm"]) - HELD


def off_the_wall(metal: tuple[Extents, ...], op: Operation) -> Millimetre:
    """Give how far the nearest wall within a chuck's radius is from a hole's axis [mm]."""
    up = op.approach[0]
    flat = [i for i in range(3) if i != axis_of(up)]
    found = [
        math.hypot(*(max(box.low[i] - p[i], p[i] - box.high[i], 0.0) for i in flat))
        for p in op.at
        for box in metal
        if box.most(up) > dot(p, up) + _SAME
    ]
    return min((off for off in found if _SAME < off < CHUCK), default=math.inf)


def _wall(metal: tuple[Extents, ...], entry: Vec3, up: Vec3) -> Millimetre:
    """Give how far metal beside a hole stands over its entry; minus all where none does [mm]."""
    flat = [i for i in range(3) if i != axis_of(up)]
    found = [-math.inf]
    for box in metal:
        off = math.hypot(*(max(box.low[i] - entry[i], entry[i] - box.high[i], 0.0) for i in flat))
        if _SAME < off < CHUCK:
            found.append(box.most(up) - dot(entry, up))
    over = max(found)
    return over if over > _SAME else -math.inf


# --- the heads of the bolts ---


def under_a_head(pieces: Pieces, op: Operation) -> bool:
    """Tell whether a hole along the bolts comes under a bolt's hexagon while that is in."""
    joint = pieces.joint
    bolts = next((f for f in pieces.part.features if _are_bolts(pieces, f)), None)
    if joint is None or not isinstance(bolts, Hole) or op.feature == bolts.name:
        return False
    if op.machine == "bench" or not any(abs(a[joint.axis]) > 1 - _SAME for a in op.approach):
        return False
    near = head_radius(bolts) + op.cut_size / 2 + _HEAD_CLEAR
    flat = [i for i in range(3) if i != joint.axis]
    return any(
        math.hypot(*(p[i] - b[i] for i in flat)) < near for p in op.at for b in bolts.entries
    )


def _are_bolts(pieces: Pieces, feature: object) -> bool:
    joint = pieces.joint
    return joint is not None and isinstance(feature, Hole) and feature.name == joint.bolts


def head_radius(bolts: Hole) -> Millimetre:
    """Give the radius over the corners of the hexagon on a bolt [mm]."""
    thread = next((s.thread for s in bolts.steps if s.thread is not None), None)
    if thread is None:
        return 0.0
    flats = thread.across_flats or _HEAD_TO_THREAD * thread.major
    return flats * _CORNERS / 2
