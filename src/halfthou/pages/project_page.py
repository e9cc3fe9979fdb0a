"""The parts of a folder, each with a picture and how it stands."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup

from halfthou.errors import InputFault
from halfthou.pages.pictures import part_picture
from halfthou.pages.shelf import Seen, Shelf
from halfthou.present.numbers import counted
from halfthou.store.project_file import Project, SurfaceOf
from halfthou.store.project_order import Waiting, in_order, waitings


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """One part on the project page. ``grave``: something has to be mended first."""

    name: str
    title: str
    metal: str
    picture: Markup | None
    states: tuple[str, ...]
    grave: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ProjectView:
    """The project page."""

    title: str
    folder: str
    parts: tuple[PartLine, ...]
    notes: tuple[tuple[str, str], ...]
    faults: tuple[InputFault, ...]
    version: str


def view(shelf: Shelf) -> ProjectView:
    """Look at every part of the folder."""
    version = shelf.version(None)
    project, faults = shelf.project()
    paths = [path for name in shelf.names() if (path := shelf.path(name)) is not None]
    seen = {path.name: shelf.see(path) for path in paths}
    waiting = _waiting(project, seen) if project is not None else ()
    if project is not None:
        order, rings = _order(project, waiting)
        faults = (*faults, *rings)
        paths.sort(key=lambda path: order.index(path.name) if path.name in order else len(order))
    return ProjectView(
        title=project.name if project is not None else shelf.folder.name,
        folder=shelf.folder.name,
        parts=tuple(
            _line(shelf, seen[path.name], _waits_of(path, project, waiting)) for path in paths
        ),
        notes=_notes(project) if project is not None else (),
        faults=faults,
        version=version,
    )


def _waiting(project: Project, seen: dict[str, Seen]) -> tuple[Waiting, ...]:
    drawn = {
        part.name: one.last_good.mates
        for part in project.parts
        if (one := seen.get(part.file)) is not None and one.last_good is not None
    }
    return waitings(project, drawn)


def _order(
    project: Project, waiting: tuple[Waiting, ...]
) -> tuple[list[str], tuple[InputFault, ...]]:
    """Give the files in the order the parts are made in, or the ring they wait in."""
    try:
        return [part.file for part in in_order(project, waiting)], ()
    except InputFault as ring:
        return [part.file for part in project.parts], (ring,)


def _waits_of(
    path: Path, project: Project | None, waiting: tuple[Waiting, ...]
) -> tuple[str, ...]:
    parts = project.parts if project is not None else ()
    names = {part.name for part in parts if part.file == path.name}
    return tuple(f"waits for {one.mate}: {one.why}" for one in waiting if one.part in names)


def _notes(project: Project) -> tuple[tuple[str, str], ...]:
    fits = tuple(
        (each.name, f"{_said(each.hole)} to {_said(each.shaft)}: {each.how}")
        for each in project.fits
    )
    first = (("made first", ", ".join(project.first)),) if project.first else ()
    together = tuple(("together already", ", ".join(group)) for group in project.assembled)
    waits = tuple((f"left for assembly, {part}", what) for part, what in project.waits)
    return (*first, *fits, *together, *waits)


def _said(one: SurfaceOf) -> str:
    return f"{one.surface} of {one.part}"


def _line(shelf: Shelf, seen: Seen, waits: tuple[str, ...]) -> PartLine:
    part = seen.last_good
    return PartLine(
        name=seen.name,
        title=part.name if part is not None else seen.name,
        metal=f"{part.material}, {part.blank.text}" if part is not None else "",
        picture=part_picture(shelf, part) if part is not None else None,
        states=(*_drawing_states(seen), *_plan_states(seen), *waits),
        grave=bool(seen.on_disk.faults) or seen.on_disk.grave,
    )


def _drawing_states(seen: Seen) -> tuple[str, ...]:
    faults, part = seen.on_disk.faults, seen.on_disk.part
    if faults or part is None:
        return (f"cannot be read: {counted(len(faults))} fault{'s' if len(faults) != 1 else ''}",)
    to_mend = sum(each.grave for each in part.findings)
    to_see = len(part.findings) - to_mend
    said = [f"{counted(to_mend)} to mend"] if to_mend else []
    said += [f"{counted(to_see)} to look at"] if to_see else []
    return tuple(said) or ("drawing in order",)


def _plan_states(seen: Seen) -> tuple[str, ...]:
    if seen.plan.faults:
        return ("its plan file cannot be read",)
    if seen.plan.kept is None:
        return ("not planned yet",)
    set_ups = len(seen.plan.kept.plan.set_ups)
    planned = f"planned in {counted(set_ups)} set-up{'s' if set_ups != 1 else ''}"
    return (f"{planned}, before the last change",) if seen.plan.stale else (planned,)
