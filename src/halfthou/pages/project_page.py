"""The parts of a folder, each with a picture and how it stands."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from halfthou.pages.pictures import part_picture
from halfthou.pages.shelf import Seen, Shelf
from halfthou.present.numbers import counted


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
    parts: tuple[PartLine, ...]
    version: str


def view(shelf: Shelf) -> ProjectView:
    """Look at every part of the folder."""
    version = shelf.version(None)
    lines = []
    for name in shelf.names():
        path = shelf.path(name)
        if path is not None:
            lines.append(_line(shelf, shelf.see(path)))
    return ProjectView(title=shelf.folder.name, parts=tuple(lines), version=version)


def _line(shelf: Shelf, seen: Seen) -> PartLine:
    part = seen.last_good
    return PartLine(
        name=seen.name,
        title=part.name if part is not None else seen.name,
        metal=f"{part.material}, {part.blank.text}" if part is not None else "",
        picture=part_picture(shelf, part) if part is not None else None,
        states=(*_drawing_states(seen), *_plan_states(seen)),
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
