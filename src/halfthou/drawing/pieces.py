"""Pieces: the halves beside a joint, and what is of another metal and put in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.blank import blank_of
from halfthou.drawing.built import Built, Solved
from halfthou.drawing.geometry import Box, Region, RegionSet
from halfthou.drawing.metal import reach, regions_of
from halfthou.drawing.model import Blank, Joint, Piece
from halfthou.drawing.region_space import reach_of, reach_of_all
from halfthou.drawing.sheet import belongs, names_in
from halfthou.drawing.written import WrittenTable
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-7
_OVER: Final = 1.0
WHOLE: Final = "whole"


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """Which side of which joint: ``above`` is right of it, above it or in front of it."""

    axis: int
    at: Millimetre
    above: bool

    def holds(self, low: Vec3, high: Vec3) -> bool:
        """Whether some of a box lies on this side."""
        if self.above:
            return high[self.axis] > self.at + _SAME
        return low[self.axis] < self.at - _SAME

    def beyond(self, low: Vec3, high: Vec3) -> Box:
        """Return all that lies on the other side, within a box and a little over it."""
        bottom, top = [n - _OVER for n in low], [n + _OVER for n in high]
        if self.above:
            top[self.axis] = self.at
            bottom[self.axis] = min(bottom[self.axis], self.at - _OVER)
        else:
            bottom[self.axis] = self.at
            top[self.axis] = max(top[self.axis], self.at + _OVER)
        return Box(low=(bottom[0], bottom[1], bottom[2]), high=(top[0], top[1], top[2]))


def own_metal(solved: Solved) -> RegionSet:
    """Return the metal of the part's own material."""
    return tuple(region for body in solved.own for region in regions_of(body))


def own_removed(solved: Solved, built: Built) -> RegionSet:
    """Return what is cut from the part's own material."""
    return _cuts(solved, built, "")


def _cuts(solved: Solved, built: Built, piece: str) -> RegionSet:
    return tuple(
        region
        for region, owner in zip(built.removed, built.owners, strict=True)
        if piece in belongs(solved.written, owner)
    )


def build_pieces(solved: Solved, built: Built) -> tuple[Piece, ...]:
    """Return all pieces of a part: one, ``whole``, if nothing divides it."""
    joints = [feature for feature in built.features if isinstance(feature, Joint)]
    written = [table for table in solved.written.features if table.kind == "piece"]
    names = [name for name in _names(built) if "" in belongs(solved.written, name)]
    whole = Piece(
        name=WHOLE,
        material=solved.written.part.text("material"),
        features=tuple(names),
        metal=own_metal(solved),
        removed=own_removed(solved, built),
    )
    halves = _halves(joints)
    main = [_half(solved, built, whole, name, sides) for name, sides in halves.items()] or [whole]
    return (*main, *(_put_in(solved, built, table) for table in written))


def _names(built: Built) -> Iterator[str]:
    for feature in built.features:
        yield getattr(feature, "name", "centres")


def _halves(joints: Sequence[Joint]) -> dict[str, tuple[Half, ...]]:
    """Which sides of which joints each piece lies on; a half named again is halved again."""
    found: dict[str, tuple[Half, ...]] = {}
    for joint in joints:
        again = next((name for name in joint.halves if name in found), "")
        before = found.pop(again, ())
        for name, above in zip(joint.halves, (True, False), strict=True):
            found[name] = (*before, Half(axis=joint.axis, at=joint.at, above=above))
    return found


def _half(solved: Solved, built: Built, whole: Piece, name: str, sides: tuple[Half, ...]) -> Piece:
    low, high = reach(solved.own)
    return replace(
        whole,
        name=name,
        features=tuple(one for one in whole.features if _shows(solved, built, one, sides)),
        metal=tuple(region for region in whole.metal if _on(region, sides)),
        removed=(
            *(region for region in whole.removed if _on(region, sides)),
            *(side.beyond(low, high) for side in sides),
        ),
    )


def _on(region: Region, sides: Sequence[Half]) -> bool:
    low, high = reach_of(region)
    return all(side.holds(low, high) for side in sides)


def _shows(solved: Solved, built: Built, name: str, sides: Sequence[Half]) -> bool:
    """Whether a feature shows on one side of the joints: its body, or any of its surfaces."""
    if any(isinstance(one, Joint) and one.name == name for one in built.features):
        return True
    body = solved.body(name)
    boxes = [(body.low, body.high)] if body else []
    boxes += [(one.low, one.high) for one in built.surfaces.values() if one.feature == name]
    boxes += [
        reach_of(region)
        for region, owner in zip(built.removed, built.owners, strict=True)
        if name == owner or name.startswith(f"{owner} ")
    ]
    return any(all(side.holds(low, high) for side in sides) for low, high in boxes)


def _put_in(solved: Solved, built: Built, table: WrittenTable) -> Piece:
    written = solved.written
    features = (*names_in(table, "features"), *names_in(table, "shares"))
    metal = tuple(
        region
        for body in solved.bodies
        if table.name in belongs(written, body.name)
        for region in regions_of(body)
    )
    return Piece(
        name=table.name,
        material=table.text("material"),
        features=features,
        metal=metal,
        removed=_cuts(solved, built, table.name),
        fixed=table.text("fixed"),
        into=table.text("into"),
        blank=_blank(solved, table, metal),
    )


def _blank(solved: Solved, table: WrittenTable, metal: RegionSet) -> Blank | None:
    if not metal or not (table.has("bar") or table.has("plate")):
        return None
    low, high = reach_of_all(metal)
    extent = (high[0] - low[0], high[1] - low[1], high[2] - low[2])
    return blank_of(table, units=solved.written.units, extent=extent, turned=False)
