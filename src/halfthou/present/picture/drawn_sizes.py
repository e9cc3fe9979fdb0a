"""Every size of a part's drawing, ready to be put on a view: diameters gathered, distances plain."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Hole, Part, Surface
from halfthou.present.figures import length
from halfthou.present.picture.label import Label
from halfthou.present.picture.wording import size_label
from halfthou.units import Millimetre, Vec3

_NOT_DRAWN: Final = ("centred", "level", "as ")


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
    if len(group) > 1:
        main = f"{len(group)} × {main}"
        circle = _ring_of(part, first.feature)
        if circle:
            main += f" on Ø{circle}"
    return Label(main=main, upper=label.upper, lower=label.lower)


def _ring_of(part: Part, feature: str) -> str:
    for one in part.features:
        if isinstance(one, Hole) and one.name == feature and one.ring is not None:
            return length(one.ring.diameter, part.units)
    return ""


def drawn_distances(part: Part) -> tuple[DrawnDistance, ...]:
    """List the distances that stand on the drawing: those along x, y or z that carry a figure."""
    found: list[DrawnDistance] = []
    for distance in part.distances:
        axis = _axis_of(distance.direction)
        if axis is None or distance.band.text.startswith(_NOT_DRAWN):
            continue
        a, b = _named(part.surfaces, distance.a), _named(part.surfaces, distance.b)
        if a is not None and b is not None:
            label = size_label(distance.band.text)
            found.append(DrawnDistance(a=a, b=b, axis=axis, label=label))
    return tuple(found)


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
