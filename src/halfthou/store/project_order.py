"""What waits for what in a project: which part is made to which, and so in what order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from halfthou.drawing.model import Mate, Part
from halfthou.errors import Faults, InputFault
from halfthou.store.project_file import (
    PROJECT_FILE,
    Project,
    ProjectFit,
    ProjectPart,
    SurfaceOf,
    read_project,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """``part`` is made to a surface of ``mate`` as it came out, and so waits for it."""

    part: str
    mate: str
    why: str


def mates_in(project: Project, name: str) -> tuple[Mate, ...]:
    """Give the fits of a part to parts that are made before it.

    Only what ``first`` names is made before its mates; of two that it names the one named
    earlier. All other fits are made by their drawings, and nothing waits.
    """
    found = []
    for fit in project.fits:
        own, other = _ends(fit, name)
        if own is None or other is None or not _before(project, other.part, name):
            continue
        how = f", {fit.how}" if fit.how else ""
        found.append(
            Mate(
                surface=own.surface,
                text=f"{other.surface} of {other.part}{how}",
                part=other.part,
                mate_surface=other.surface,
                free_low=None,
                free_high=None,
            )
        )
    return tuple(found)


def _ends(fit: ProjectFit, name: str) -> tuple[SurfaceOf | None, SurfaceOf | None]:
    if fit.hole.part == name:
        return fit.hole, fit.shaft
    return (fit.shaft, fit.hole) if fit.shaft.part == name else (None, None)


def _before(project: Project, one: str, other: str) -> bool:
    if one not in project.first:
        return False
    return other not in project.first or project.first.index(one) < project.first.index(other)


def with_project(part: Part, file: Path) -> Part:
    """Give a part with the fits that the project beside its file adds to its own."""
    path = file.with_name(PROJECT_FILE)
    try:
        project = read_project(path) if path.is_file() else None
    except (Faults, InputFault, OSError):
        return part
    name = next((p.name for p in project.parts if p.file == file.name), "") if project else ""
    if project is None or not name:
        return part
    known = {(mate.surface, mate.part) for mate in part.mates}
    added = tuple(m for m in mates_in(project, name) if (m.surface, m.part) not in known)
    return replace(part, mates=(*part.mates, *added)) if added else part


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
