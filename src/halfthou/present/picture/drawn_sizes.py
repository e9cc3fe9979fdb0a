"""Every size of a part's drawing, ready to be put on a view."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.geometry import Cone, Prism, TaperTube
from halfthou.drawing.model import (
    OUTWARD,
    AngledFace,
    ChamferCut,
    Cutout,
    Groove,
    Hole,
    Keyway,
    Part,
    Round,
    Surface,
)
from halfthou.planning.axes import cross, other_side
from halfthou.present.figures import as_drawn
from halfthou.present.picture.label import Label
from halfthou.present.picture.wording import is_figure, size_label
from halfthou.units import DEGREE, Millimetre, Vec3

_SAME: Final[Millimetre] = 1e-3
_ALONG = 0.99
_PLAIN_NAMES = frozenset(("hole", "thread", "round"))
"""Names that say nothing the size does not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnRound:
    """A diameter or thread, on one surface or on several alike."""

    surfaces: tuple[Surface, ...]
    label: Label

    @property
    def first(self) -> Surface:
        """The surface the size is written at."""
        return self.surfaces[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnDistance:
    """A distance along one of the part's own directions."""

    a: Surface
    b: Surface
    axis: int
    label: Label


def drawn_rounds(part: Part) -> tuple[DrawnRound, ...]:
    """Gather the diameters and threads of a part, equal ones of one feature together."""
    alike: dict[tuple[str, str, str], list[Surface]] = {}
    for surface in part.surfaces:
        if surface.kind == "plane" or surface.size is None:
            continue
        step = surface.name.partition(" step ")[2]
        alike.setdefault((surface.feature, surface.size.text, step), []).append(surface)
    return tuple(
        DrawnRound(surfaces=tuple(group), label=_round_label(part, group))
        for group in alike.values()
    )


def _round_label(part: Part, group: list[Surface]) -> Label:
    first = group[0]
    text = first.size.text if first.size else ""
    label = size_label(text, sign="" if first.kind == "thread" else "Ø")
    main = label.main
    if first.kind == "cone":
        main = _taper_of(part, first.feature) or main
    wide = _groove_width(part, first.feature)
    if wide:
        main = f"{main} × {wide}"
    if len(group) > 1:
        main = f"{len(group)} × {main}"
        circle = _ring_of(part, first.feature)
        if circle:
            main += f" on Ø{circle}"
    name = first.feature.replace("-", " ") if first.feature not in _PLAIN_NAMES else ""
    return Label(main=main, upper=label.upper, lower=label.lower, note=name)


def _groove_width(part: Part, feature: str) -> str:
    """How wide an undercut is, which stands with its diameter."""
    for one in part.features:
        if isinstance(one, Groove) and one.name == feature:
            return as_drawn(one.right - one.left, part.units)
    return ""


def _taper_of(part: Part, feature: str) -> str:
    for one in part.features:
        if isinstance(one, Round) and one.name == feature and one.right_diameter is not None:
            ends = (one.diameter.text, one.right_diameter.text)
            return " to ".join(size_label(end, sign="Ø").main for end in ends)
    return ""


def _ring_of(part: Part, feature: str) -> str:
    for one in part.features:
        if isinstance(one, Hole) and one.name == feature and one.ring is not None:
            return as_drawn(one.ring.diameter, part.units)
    return ""


def drawn_distances(part: Part) -> tuple[DrawnDistance, ...]:
    """List the distances that stand on the drawing, in brackets too: along x, y or z, a figure."""
    found: list[DrawnDistance] = []
    for distance in (*part.distances, *part.reference):
        axis = _axis_of(distance.direction)
        if axis is None or not is_figure(distance.band.text):
            continue
        a, b = _named(part.surfaces, distance.a), _named(part.surfaces, distance.b)
        if a is not None and b is not None:
            label = replace(size_label(distance.band.text), passing=distance in part.reference)
            found.append(DrawnDistance(a=a, b=b, axis=axis, label=label))
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnNote:
    """Words with a leader to one of some places: chamfers."""

    places: tuple[Vec3, ...]
    label: Label
    along: Vec3 = (0.0, 0.0, 0.0)
    """Which way a straight edge runs; nothing for turned work."""


def drawn_notes(part: Part) -> tuple[DrawnNote, ...]:
    """Return the chamfers of a part: each of a turned one, equal ones of a block together."""
    alike: dict[tuple[float, float, str], list[ChamferCut]] = {}
    for one in part.features:
        if isinstance(one, ChamferCut):
            which = f"{one.name} {one.edge}" if part.turned else ""
            alike.setdefault((round(one.leg, 6), round(one.angle, 6), which), []).append(one)
    notes: list[DrawnNote] = []
    for (leg, angle, _), cuts in alike.items():
        count = f"{len(cuts)} × " if len(cuts) > 1 else ""
        text = f"{count}{as_drawn(leg, part.units)} × {angle / DEGREE:.3g}°"
        places = tuple(place for cut in cuts for place in _corner(cut))
        if places:
            label = Label(main=text, passing=True)
            notes.append(DrawnNote(places=places, label=label, along=_runs(cuts[0])))
    return (*notes, *_slants(part))


def _slants(part: Part) -> Iterator[DrawnNote]:
    """Note how far each slanted face leans, and its name, at its middle."""
    for face in part.features:
        if not isinstance(face, AngledFace):
            continue
        surface = _named(part.surfaces, face.name)
        if surface is None:
            continue
        x, y, z = ((a + b) / 2 for a, b in zip(surface.low, surface.high, strict=True))
        level = cross(OUTWARD[face.facing], OUTWARD[face.toward])
        label = Label(main=f"{face.leans / DEGREE:.4g}°", note=face.name.replace("-", " "))
        yield DrawnNote(places=((x, y, z),), label=label, along=level)


def cutout_sizes(part: Part) -> tuple[DrawnDistance, ...]:
    """Return how deep slots are, and in brackets where their middle lies from what most do."""
    found: list[DrawnDistance] = []
    for one in part.features:
        if not isinstance(one, Cutout) or one.kind != "slot" or part.turned:
            continue
        walls = [
            s for s in part.surfaces if s.feature == one.name and not s.name.endswith("floor")
        ]
        floor = _named(part.surfaces, f"{one.name} floor")
        if floor is None or len(walls) != 2:  # noqa: PLR2004
            continue
        found += _depth(part, one, floor)
        found += _middle(part, walls)
    return tuple(found)


def _depth(part: Part, cutout: Cutout, floor: Surface) -> list[DrawnDistance]:
    axis = _axis_of(floor.direction)
    top = _named(part.surfaces, other_side(cutout.floor))
    if axis is None or top is None or cutout.deep is None or not is_figure(cutout.deep.text):
        return []
    if any({d.a, d.b} == {top.name, floor.name} for d in part.distances):
        return []
    return [DrawnDistance(a=top, b=floor, axis=axis, label=size_label(cutout.deep.text))]


def _middle(part: Part, walls: list[Surface]) -> list[DrawnDistance]:
    """Place the middle between two walls, where no figure places either."""
    axis = _axis_of(walls[0].direction)
    own = {wall.name for wall in walls}
    along = [d for d in part.distances if axis is not None and _axis_of(d.direction) == axis]
    if axis is None or any(len(own & {d.a, d.b}) == 1 and is_figure(d.band.text) for d in along):
        return []
    named = Counter(name for d in along for name in (d.a, d.b) if name not in own)
    first = _named(part.surfaces, named.most_common(1)[0][0]) if named else None
    if first is None:
        return []
    at = sum(wall.point[axis] for wall in walls) / 2
    point = [*walls[0].point]
    point[axis] = at
    middle = replace(walls[0], point=(point[0], point[1], point[2]))
    gap = abs(at - place_of(first, axis))
    label = Label(main=f"({as_drawn(gap, part.units)})", passing=True)
    return [DrawnDistance(a=first, b=middle, axis=axis, label=label)]


def hole_places(part: Part) -> tuple[DrawnDistance, ...]:
    """Return, as figures in brackets, where holes lie that the drawing places by words."""
    if part.turned:
        return ()
    found: list[DrawnDistance] = []
    for one in drawn_rounds(part):
        if len(one.surfaces) > 1 or not one.first.inside:
            continue
        for axis in (0, 1, 2):
            if abs(one.first.direction[axis]) < _ALONG:
                found += _placed(part, one.first, axis)
    unique = {(one.axis, one.label.main): one for one in found}
    return tuple(unique.values())


def overall(part: Part, drawn: Iterable[DrawnDistance]) -> tuple[DrawnDistance, ...]:
    """Return the length over all of turned work in brackets, where it follows from the others."""
    ends = [one for one in part.surfaces if one.kind == "plane" and abs(one.direction[0]) > _ALONG]
    if not ends:
        return ()
    left, right = (choose(ends, key=lambda one: one.point[0]) for choose in (min, max))
    whole = right.point[0] - left.point[0]
    lengths = [abs(place_of(one.b, 0) - place_of(one.a, 0)) for one in drawn]
    if len(lengths) < 2 or any(abs(long - whole) < _SAME for long in lengths):  # noqa: PLR2004
        return ()
    label = Label(main=f"({as_drawn(whole, part.units)})", passing=True)
    return (DrawnDistance(a=left, b=right, axis=0, label=label),)


def _placed(part: Part, hole: Surface, axis: int) -> list[DrawnDistance]:
    named = {hole.name, hole.feature}
    for one in part.distances:
        if _axis_of(one.direction) == axis and named & {one.a, one.b} and is_figure(one.band.text):
            return []
    planes = [s for s in part.surfaces if s.kind == "plane" and abs(s.direction[axis]) > _ALONG]
    if not planes:
        return []
    edge = min(planes, key=lambda plane: plane.point[axis])
    gap = hole.point[axis] - edge.point[axis]
    label = Label(main=f"({as_drawn(gap, part.units)})", passing=True)
    return [DrawnDistance(a=edge, b=hole, axis=axis, label=label)]


def keyways(part: Part) -> tuple[Keyway, ...]:
    """Return the keyways of a turned part."""
    return tuple(one for one in part.features if isinstance(one, Keyway)) if part.turned else ()


def _runs(cut: ChamferCut) -> Vec3:
    return cut.region.along if isinstance(cut.region, Prism) else (0.0, 0.0, 0.0)


def _corner(cut: ChamferCut) -> tuple[Vec3, ...]:
    """Where a turned chamfer meets the outline, above and below the axis; inside ones below."""
    region = cut.region
    if isinstance(region, Prism):
        return (_middle_of(region),)
    if isinstance(region, Cone):
        x = (region.start[0] + region.end[0]) / 2
        return ((x, -(region.start_diameter + region.end_diameter) / 4, 0.0),)
    if not isinstance(region, TaperTube):
        return ()
    x = (region.start[0] + region.end[0]) / 2
    radius = (region.start_inside + region.end_inside) / 4
    return ((x, radius, 0.0), (x, -radius, 0.0))


def _middle_of(prism: Prism) -> Vec3:
    corners = len(prism.outline)
    x, y, z = (
        sum(corner[way] for corner in prism.outline) / corners + prism.along[way] / 2
        for way in (0, 1, 2)
    )
    return (x, y, z)


def _named(surfaces: Iterable[Surface], name: str) -> Surface | None:
    return next((surface for surface in surfaces if surface.name == name), None)


def _axis_of(direction: Vec3) -> int | None:
    for axis, part in enumerate(direction):
        if abs(abs(part) - 1.0) < 1e-6:  # noqa: PLR2004
            return axis
    return None


def place_of(surface: Surface, axis: int) -> Millimetre:
    """Where a surface lies along one direction: its axis, or the plane itself [mm]."""
    return surface.point[axis]


def unit_words(part: Part) -> str:
    """Say what figures without a unit mean on this drawing."""
    return "sizes in inches" if part.units == "in" else "sizes in mm"
