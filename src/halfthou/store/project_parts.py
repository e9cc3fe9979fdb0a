"""The parts of a folder in the order they are made, and what each of them waits for."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from halfthou.store.part_on_disk import look_at_part, part_files
from halfthou.store.project_file import PROJECT_FILE, read_project
from halfthou.store.project_order import Waiting, in_order, waitings


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """Part files in the order they are made; ``waiting`` by the name of the file that waits."""

    files: tuple[Path, ...]
    waiting: tuple[tuple[str, Waiting], ...] = ()

    def waits(self, file: Path) -> tuple[Waiting, ...]:
        """Give what one part waits for."""
        return tuple(one for name, one in self.waiting if name == file.name)


def making(folder: Path) -> Making:
    """Look at a folder's part files; those the project does not name come last, by name.

    Raises
    ------
    Faults
        If the project file has faults.
    InputFault
        If parts wait for each other in a ring.
    """
    files = part_files(folder)
    path = folder / PROJECT_FILE
    if not path.is_file():
        return Making(files=files)
    project = read_project(path)
    own = {part.name: folder / part.file for part in project.parts}
    seen = {name: look_at_part(file).part for name, file in own.items() if file in files}
    drawn = {name: part.mates for name, part in seen.items() if part is not None}
    waiting = waitings(project, drawn)
    order = [folder / part.file for part in in_order(project, waiting)]
    named = [file for file in order if file in files]
    return Making(
        files=(*named, *(file for file in files if file not in named)),
        waiting=tuple((own[one.part].name, one) for one in waiting),
    )
