"""What waits for what in a project: which part is made to which, and so in what order."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from halfthou.drawing.mates import parse_suits
from halfthou.drawing.model import Mate, Part
from halfthou.errors import InputFault
from halfthou.quantities import DrawingUnits
from halfthou.store.project_file import (
    PROJECT_FILE,
    Project,
    ProjectFit,
    ProjectPart,
    SurfaceOf,
    read_project,
)

_HOW_FREE: Final = re.compile(r"(?P<lead>\D*?)(?P<free>[\d.].* to [\d.].* (?:free|tight))")
"""In the words of a fit, how freely it goes, in figures: ``runs with 0.02 to 0.04 free``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """``part`` is made to a surface of ``mate`` as it came out, and so waits for it."""

    part: str
    mate: str
    why: str


def mates_in(project: Project, name: str, *, units: DrawingUnits = "mm") -> tuple[Mate, ...]:
    """Give the fits of a part to parts that are made before it.

    Only what ``first`` names is made before its mates; of two that it names the one named
    earlier. All other fits are made by their drawings, and nothing waits. Bare figures of a fit
    are in ``units``, those of the part.

    Raises
    ------
    InputFault
        If how freely a fit goes is written in figures that cannot be read.
    """
    found = []
    for fit in project.fits:
        own, other = _ends(fit, name)
        if own is None or other is None or not _before(project, other.part, name):
            continue
        found.append(_mate(fit, own, other, units))
    return tuple(found)


def _mate(fit: ProjectFit, own: SurfaceOf, other: SurfaceOf, units: DrawingUnits) -> Mate:
    """Give a fit as its part is made to it; of one in words alone, how freely is not known."""
    free, rest = _taken_apart(fit.how)
    text = ", ".join(filter(None, (f"{other.surface} of {other.part}", free, *rest)))
    read = None
    if free:
        try:
            read = parse_suits(f"it of mate, {free}", surface=own.surface, units=units)
        except InputFault as error:
            error.where = f"{PROJECT_FILE}, fit.{fit.name} as"
            raise
    return Mate(
        surface=own.surface,
        text=text,
        part=other.part,
        mate_surface=other.surface,
        free_low=read.free_low if read else None,
        free_high=read.free_high if read else None,
    )


def _taken_apart(how: str) -> tuple[str, tuple[str, ...]]:
    """Give the figures for how freely a fit goes, if it has any, and the rest of its words.

    >>> _taken_apart("runs with 0.02 to 0.04 free, oiled")
    ('0.02 to 0.04 free', ('runs', 'oiled'))
    """
    pieces = tuple(piece.strip() for piece in how.split(","))
    for at, piece in enumerate(pieces):
        found = _HOW_FREE.fullmatch(piece)
        if found is not None:
            lead = found["lead"].strip().removesuffix("with").strip()
            return found["free"], (*pieces[:at], lead, *pieces[at + 1 :])
    return "", pieces


def _ends(fit: ProjectFit, name: str) -> tuple[SurfaceOf | None, SurfaceOf | None]:
    if fit.hole.part == name:
        return fit.hole, fit.shaft
    return (fit.shaft, fit.hole) if fit.shaft.part == name else (None, None)


def _before(project: Project, one: str, other: str) -> bool:
    if one not in project.first:
        return False
    return other not in project.first or project.first.index(one) < project.first.index(other)


def project_mates(part: Part, file: Path) -> tuple[Mate, ...]:
    """Give the fits that the project beside a part's file adds to the part's own.

    Raises
    ------
    Faults
        If the project file has faults.
    """
    path = file.with_name(PROJECT_FILE)
    if not path.is_file():
        return ()
    project = read_project(path)
    name = next((p.name for p in project.parts if p.file == file.name), "")
    known = {(mate.surface, mate.part) for mate in part.mates}
    told = mates_in(project, name, units=part.units) if name else ()
    return tuple(mate for mate in told if (mate.surface, mate.part) not in known)


def with_mates(part: Part, mates: tuple[Mate, ...]) -> Part:
    """Give a part with fits added to its own."""
    return replace(part, mates=(*part.mates, *mates)) if mates else part


def waitings(project: Project, drawn: Mapping[str, Iterable[Mate]]) -> tuple[Waiting, ...]:
    """Give everything that waits; ``drawn`` are the mates the part files name, by part."""
    found: dict[tuple[str, str], Waiting] = {}
    names = {part.name for part in project.parts}
    for part in project.parts:
        for mate in (*drawn.get(part.name, ()), *mates_in(project, part.name)):
            if mate.part in names and mate.part != part.name:
                why = f"{mate.surface} is made to its {mate.mate_surface} as it measures"
                one = Waiting(part=part.name, mate=mate.part, why=why)
                found.setdefault((part.name, mate.part), one)
    return tuple(found.values())


def in_order(project: Project, waiting: Iterable[Waiting]) -> tuple[ProjectPart, ...]:
    """Give the parts in the order they are made in; those free to choose as the file has them.

    Raises
    ------
    InputFault
        If parts wait for each other in a ring.
    """
    mates: dict[str, set[str]] = {}
    for one in waiting:
        mates.setdefault(one.part, set()).add(one.mate)
    first = {name: place for place, name in enumerate(project.first)}
    left = sorted(project.parts, key=lambda part: first.get(part.name, len(first)))
    made: list[ProjectPart] = []
    while left:
        done = {part.name for part in made}
        free = next((p for p in left if mates.get(p.name, set()) <= done), None)
        if free is None:
            names = [part.name for part in left]
            raise InputFault(
                f"{' and '.join(names)} wait for each other",
                where=PROJECT_FILE,
                why="each is made to another of them as it came out, so none can be the first",
                tries=('name in first = ["..."] the one that is made by its drawing alone',
                       "take one suits out of its part file"),
            )  # fmt: skip
        made.append(free)
        left.remove(free)
    return tuple(made)
