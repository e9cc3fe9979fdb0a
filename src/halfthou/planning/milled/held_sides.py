"""The six sides of a block as something to hold by: raw, milled, or as bought."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.drawing.model import OUTWARD, Part, Side
from halfthou.planning.axes import Extents, extents_of, extents_of_all, same
from halfthou.planning.milled.lump import SIDES, Lump, lump_of
from halfthou.planning.milled.operations import planes_on
from halfthou.planning.model import Operation
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import HoldingDevice, Workshop

State: TypeAlias = Literal["raw", "milled", "bought"]
SPOILT: Final = 0.5
"""Share of what is held by that may be cut away before the hold is no hold (usual practice)."""
PARALLELS: Final[tuple[Millimetre, ...]] = tuple(float(high) for high in range(8, 42, 2))
"""Heights of the pairs in a usual set of parallels (usual practice). [mm]"""
THICKEST: Final[Millimetre] = 6.0
"""A parallel of a usual set is no thicker. [mm]"""
_ON_THE_BED: Final[Millimetre] = 0.0
_BESIDE_A_DRILL: Final[Millimetre] = 0.4
"""Least room between a parallel and what comes through beside it (usual practice). [mm]"""
_HALF: Final[Millimetre] = 0.5
_CLOSE: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class SideWork:
    """What the operations do to one side: its name, what cleans it, all that cuts it."""

    surface: str
    first_cuts: tuple[str, ...]
    face_cuts: tuple[str, ...]
    cuts: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What the ways of holding a block look at, together.

    ``spaces`` are the boxes round each operation's regions, ``space`` the box round them all.
    """

    part: Part
    workshop: Workshop
    lump: Lump
    operations: tuple[Operation, ...]
    sides: dict[Side, SideWork]
    spaces: dict[str, tuple[Extents, ...]]
    space: dict[str, Extents | None]

    def states(self, side: Side) -> tuple[State, ...]:
        """Give the states in which a side can be held."""
        if self.sides[side].first_cuts:
            return ("raw", "milled")
        return ("raw",) if self.lump.cast else ("bought",)

    def from_above(self, up: Side) -> tuple[Operation, ...]:
        """Give the work that can be done on the mill with that side up."""
        out = OUTWARD[up]
        return tuple(
            op
            for op in self.operations
            if op.machine == "mill" and op.tools and any(same(d, out) for d in op.approach)
        )

    def reading(self, side: Side, state: State) -> Millimetre:
        """Give where a side in that state lies along its own outward direction [mm]."""
        over = self.lump.over(side) if state == "raw" else 0.0
        return self.lump.part.most(OUTWARD[side]) + over

    def surface(self, side: Side, state: State) -> str:
        """Name the surface a side is held by."""
        named = self.sides[side].surface
        return named if named and state != "raw" else f"stock {side}"

    def need(self, side: Side, state: State) -> list[tuple[str, str]]:
        """Give what must be done before a side is held in that state."""
        why = f"the {side} is held or rested on, so it is cut first"
        return [(key, why) for key in self.sides[side].first_cuts] if state == "milled" else []

    def ban(self, side: Side, state: State) -> list[tuple[str, str]]:
        """Give what must wait while a side is still wanted raw."""
        why = f"the {side} is held raw, before it is cut"
        return [(key, why) for key in self.sides[side].face_cuts] if state == "raw" else []

    def cuts(self, side: Side) -> frozenset[str]:
        """Give the keys of all operations that cut the outer face of a side."""
        return self.sides[side].cuts


def job_of(part: Part, workshop: Workshop, operations: tuple[Operation, ...]) -> Job:
    """Gather what the ways of holding a block look at."""
    lump = lump_of(part)
    return Job(
        part=part,
        workshop=workshop,
        lump=lump,
        operations=operations,
        sides={side: _side_work(part, lump, operations, side) for side in SIDES},
        spaces={op.key: tuple(extents_of(r) for r in op.region) for op in operations},
        space={op.key: extents_of_all(op.region) for op in operations},
    )


def _side_work(part: Part, lump: Lump, operations: tuple[Operation, ...], side: Side) -> SideWork:
    own = planes_on(part, side, lump.part.most(OUTWARD[side]), lump.part)
    faces = [
        op for op in operations if op.verb == "mill face" and op.feature.split(" ")[-1] == side
    ]
    made = {op.key for op in operations if set(own) & set(op.makes)}
    return SideWork(
        surface=own[0] if own else "",
        first_cuts=tuple(op.key for op in faces if op.stage != "finish"),
        face_cuts=tuple(op.key for op in faces),
        cuts=frozenset(made | {op.key for op in faces}),
    )


def share_cut(spaces: tuple[Extents, ...], patch: Extents, flat: int) -> float:
    """Give the share of a flat patch (its thin axis ``flat``) that some boxes take away."""
    axes = [i for i in range(3) if i != flat]
    whole, gone = 1.0, 0.0
    for i in axes:
        whole *= max(patch.high[i] - patch.low[i], 1e-9)
    for box in spaces:
        if not box.overlaps(patch):
            continue
        shared = 1.0
        for i in axes:
            shared *= min(box.high[i], patch.high[i]) - max(box.low[i], patch.low[i])
        gone += shared
    return gone / whole


def words(side: Side, state: State) -> str:
    """Say a side with its state: ``raw left``."""
    return f"raw {side}" if state == "raw" else side


def patch_on(side: Side, reading: Millimetre, box: Extents, *, thick: Millimetre = 0.5) -> Extents:
    """Give a thin layer of the metal just under a side, over the width of a box."""
    out: Vec3 = OUTWARD[side]
    low, high = list(box.low), list(box.high)
    axis = next(i for i in range(3) if out[i])
    if out[axis] > 0:
        low[axis], high[axis] = reading - thick, reading
    else:
        low[axis], high[axis] = -reading, -reading + thick
    return Extents(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def grips_on_parallels(
    device: HoldingDevice, *, least: Millimetre, most: Millimetre
) -> Iterator[Millimetre]:
    """Give how high the jaws come on each pair of a set, or on the bed; the deepest hold first.

    Examples
    --------
    >>> from halfthou.workshop.default import default_workshop
    >>> vice = next(d for d in default_workshop().holding if d.device == "vice")
    >>> vice.jaw_depth, list(grips_on_parallels(vice, least=5, most=9))
    (25.0, [9.0, 7.0, 5.0])
    """
    for high in (_ON_THE_BED, *PARALLELS):
        grip = device.jaw_depth - high
        if least - _CLOSE <= grip <= most + _CLOSE:
            yield grip


def in_the_set(high: Millimetre) -> bool:
    """Tell whether a usual set of parallels has a pair so high."""
    return any(abs(high - one) < _CLOSE for one in PARALLELS)


def thickest_parallel(beside: Millimetre) -> Millimetre:
    """Give the thickest parallel that clears what comes through so far from the jaw.

    Examples
    --------
    >>> thickest_parallel(4.0), thickest_parallel(30.0)
    (3.5, 6.0)
    """
    room = (beside - _BESIDE_A_DRILL) // _HALF * _HALF
    return max(0.0, min(THICKEST, room))
