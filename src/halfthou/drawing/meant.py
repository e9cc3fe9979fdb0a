"""What old drawings leave unsaid and everybody reads into them: taken as meant.

Struck out in the file with ``meant = "not concentric: tail"`` under ``[part]``. A diameter with
no fit of its own is meant to run true within 0.1, even beside one that has a fit: nobody asks a
clearance to run true to a hundredth.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.drawing.built import Built, Solved
from halfthou.drawing.meant_castings import true_in_castings
from halfthou.drawing.metal import BlockBody
from halfthou.drawing.model import Band, Hole, Requirement, Round, Side, Surface
from halfthou.drawing.sheet import belongs
from halfthou.errors import InputFault
from halfthou.handbook.general_tolerance import general_geometry
from halfthou.handbook.limits_fits import grade_held
from halfthou.units import Millimetre

MeantKind: TypeAlias = Literal["concentric", "square", "broken edges"]
FIT_GRADE: Final = 9
"""A drawn tolerance of this grade or finer counts as a fit."""
TRUE_WITHIN: Final = 0.1
"""Over the turn, where one of two diameters has no fit [mm]. Usual practice."""
SQUARE_WITHIN: Final = 0.02
SQUARE_OVER: Final = 50.0
"""A face that meets a fitted diameter is square 0.02 in 50. Usual practice."""
EDGES: Final = "edges broken 0.2 x 45°, taken as meant"
SHARE_OF_FACE: Final = 0.25
"""A fitted diameter under this share of a face says nothing about how the face lies."""
_TRUE: Final = frozenset({"run-out", "concentric"})
_SAME: Final = 1e-6
_MEANT: Final = re.compile(r"not (concentric|square|broken edges)(?:\s*:\s*(.+))?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Struck:
    """Something not taken as meant: of one feature, or of the whole part."""

    kind: MeantKind
    features: tuple[str, ...]

    def covers(self, kind: MeantKind, *names: str) -> bool:
        """Whether this strikes out a requirement between these features."""
        return self.kind == kind and (
            not self.features or any(name in self.features for name in names)
        )


def parse_meant(text: str) -> Struck:
    """Read ``not concentric`` or ``not concentric: tail, end``.

    >>> parse_meant("not square: collar").features
    ('collar',)
    """
    found = _MEANT.fullmatch(text.strip())
    if found is None:
        raise InputFault(
            f"'{text}' does not say what is not meant",
            why="concentric, square and broken edges are taken as meant unless struck out",
            tries=(
                "write it like not concentric: tail",
                "like not square",
                "like not broken edges",
            ),
        )
    kinds: dict[str, MeantKind] = {
        "concentric": "concentric",
        "square": "square",
        "broken edges": "broken edges",
    }
    names = tuple(name.strip() for name in (found[2] or "").split(",") if name.strip())
    return Struck(kind=kinds[found[1]], features=names)


def taken_as_meant(
    solved: Solved, built: Built, stated: Sequence[Requirement]
) -> tuple[Requirement, ...]:
    """Return the requirements that stand although nobody wrote them."""
    struck = _struck(solved)
    found = [
        *_concentric(built, stated),
        *true_in_castings(solved, built, stated, _true_within),
        *_square(solved, built),
        *_blocks_square(solved, built),
    ]
    kinds: dict[str, MeantKind] = {"concentric": "concentric", "square": "square"}
    return tuple(
        one
        for one in found
        if not any(
            each.covers(kinds[one.kind], built.surfaces[one.surface].feature,
                        built.surfaces[one.to].feature, one.surface)
            for each in struck
        )
    )  # fmt: skip


def edges_note(solved: Solved) -> tuple[str, ...]:
    """Return the note on edges, unless it is struck out."""
    if any(one.kind == "broken edges" for one in _struck(solved)):
        return ()
    return (EDGES,)


def _struck(solved: Solved) -> tuple[Struck, ...]:
    return tuple(parse_meant(text) for text in solved.written.part.texts("meant"))


def is_fit(band: Band | None) -> bool:
    """Whether a size has a drawn tolerance fine enough to be a fit."""
    if band is None or band.origin != "drawn":
        return False
    return grade_held(band.nominal, band.width) <= FIT_GRADE


def on_axis(built: Built) -> list[Surface]:
    """Diameters on the turning axis, inside and outside, in the order drawn."""
    found = []
    for feature in built.features:
        if isinstance(feature, Round):
            found.append(built.surfaces[feature.name])
        elif isinstance(feature, Hole) and feature.on_axis:
            found += [
                one
                for one in built.surfaces.values()
                if one.feature == feature.name and one.kind in {"cylinder", "thread"}
            ]
    return found


def datum(surfaces: Sequence[Surface], stated: Sequence[Requirement]) -> Surface | None:
    """Return the diameter the others are judged from.

    It is the one the drawing itself names most often, else the finest fit, else the longest.
    """
    if not surfaces:
        return None
    named = Counter(one.to for one in stated if one.kind in _TRUE)
    most = max(surfaces, key=lambda one: named[one.name])
    if named[most.name]:
        return most
    fitted = [one for one in surfaces if is_fit(one.size)]
    if fitted:
        return min(fitted, key=lambda one: one.size.width if one.size else 0.0)
    return max(surfaces, key=lambda one: one.high[0] - one.low[0])


def _tied_to(name: str, stated: Sequence[Requirement]) -> set[str]:
    """Surfaces that stated requirements tie to one, directly or through others."""
    tied = {name}
    for _ in stated:
        tied |= {
            other
            for one in stated
            if one.kind in _TRUE and tied & {one.surface, one.to}
            for other in (one.surface, one.to)
        }
    return tied


def _concentric(built: Built, stated: Sequence[Requirement]) -> Iterator[Requirement]:
    surfaces = on_axis(built)
    main = datum(surfaces, stated)
    if main is None:
        return
    tied = _tied_to(main.name, stated)
    for one in surfaces:
        if one.name in tied:
            continue
        within = _true_within(one, main)
        yield Requirement(
            kind="concentric",
            surface=one.name,
            to=main.name,
            within=within,
            text=f"{one.name} concentric with {main.name}",
            origin="taken as meant",
            place=one.feature,
        )


def _true_within(one: Surface, other: Surface) -> Millimetre:
    """How true two diameters on one axis are meant to run."""
    if is_fit(one.size) and is_fit(other.size) and one.size and other.size:
        return min(one.size.width, other.size.width) / 2
    return TRUE_WITHIN


def _square(solved: Solved, built: Built) -> Iterator[Requirement]:
    for axis_surface in built.surfaces.values():
        if axis_surface.kind != "cylinder" or not is_fit(axis_surface.size):
            continue
        axis = max(range(3), key=lambda number: abs(axis_surface.direction[number]))
        for plane in built.surfaces.values():
            if plane.kind != "plane" or _pointed(built, plane):
                continue
            together = belongs(solved.written, plane.feature) & belongs(
                solved.written, axis_surface.feature
            )
            if together and _meets(plane, axis_surface, axis):
                yield _square_to(plane, axis_surface, axis)


def _meets(plane: Surface, cylinder: Surface, axis: int) -> bool:
    """Whether a plane square to an axis lies at an end of the cylinder and around it."""
    if abs(plane.direction[axis]) < 1 - _SAME or plane.raw:
        return False
    at_end = min(
        abs(plane.point[axis] - cylinder.low[axis]), abs(plane.point[axis] - cylinder.high[axis])
    )
    others = [number for number in range(3) if number != axis]
    around = all(
        plane.low[n] - _SAME <= cylinder.point[n] <= plane.high[n] + _SAME for n in others
    )
    wide = max(plane.high[n] - plane.low[n] for n in others)
    size = cylinder.size.nominal if cylinder.size else 0.0
    return at_end < _SAME and around and size >= SHARE_OF_FACE * wide


def _pointed(built: Built, plane: Surface) -> bool:
    """Whether a floor is only the full depth of a drilled hole, with the drill's point below."""
    return any(
        isinstance(feature, Hole) and feature.name == plane.feature and feature.steps[-1].point
        for feature in built.features
    )


def _square_to(plane: Surface, cylinder: Surface, axis: int) -> Requirement:
    others = [number for number in range(3) if number != axis]
    across: Millimetre = max(plane.high[n] - plane.low[n] for n in others)
    return Requirement(
        kind="square",
        surface=plane.name,
        to=cylinder.name,
        within=SQUARE_WITHIN * across / SQUARE_OVER,
        text=f"{plane.name} square to {cylinder.name}, 0.02 in 50",
        origin="taken as meant",
        place=plane.feature,
    )


def _blocks_square(solved: Solved, built: Built) -> Iterator[Requirement]:
    for body in solved.bodies:
        if not isinstance(body, BlockBody):
            continue
        sides: tuple[Side, ...] = ("left", "right", "bottom", "top", "back", "front")
        planes = [
            plane
            for side in sides
            if (plane := built.named(f"{body.name} {side}")) is not None
            and max(map(abs, plane.direction)) > 1 - _SAME
        ]
        cut = [plane for plane in planes if not plane.raw]
        base = max(cut, key=_area, default=None)
        for plane in planes:
            if base is None or plane is base or plane.raw or _parallel(plane, base):
                continue
            long = max(b - a for a, b in zip(plane.low, plane.high, strict=True))
            within = general_geometry(solved.rule, "squareness", long)
            if within is not None:
                yield Requirement(
                    kind="square",
                    surface=plane.name,
                    to=base.name,
                    within=within,
                    text=f"{plane.name} square to {base.name}, by the general class",
                    origin="taken as meant",
                    place=plane.feature,
                )


def _area(plane: Surface) -> float:
    sides = sorted((b - a for a, b in zip(plane.low, plane.high, strict=True)), reverse=True)
    return sides[0] * sides[1]


def _parallel(a: Surface, b: Surface) -> bool:
    return abs(sum(p * q for p, q in zip(a.direction, b.direction, strict=True))) > 1 - _SAME
