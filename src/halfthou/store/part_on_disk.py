"""One part as it lies in its folder: what the file says, whether it can be read, its kept plan."""

from __future__ import annotations

import stat
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.errors import Faults, InputFault
from halfthou.handbook.names import near_names
from halfthou.store.part_file import read_part_text
from halfthou.store.plan_file import Changes, KeptPlan, changes_since, plan_path, read_plan
from halfthou.store.project_order import project_mates
from halfthou.store.toml_reading import read_text
from halfthou.workshop.model import Workshop

NONE: Final = Changes()
_OTHERS: Final = frozenset({"workshop.toml", "project.toml"})


@dataclass(frozen=True, slots=True, kw_only=True)
class PartOnDisk:
    """A part file as it stands. ``part`` is None exactly when there are ``faults``."""

    path: Path
    text: str
    part: Part | None
    faults: tuple[InputFault, ...] = ()

    @property
    def grave(self) -> bool:
        """Whether the drawing check noticed something that must be mended first."""
        return self.part is not None and any(f.grave for f in self.part.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanOnDisk:
    """The kept plan of a part, if there is one, and what has changed since it was made."""

    path: Path
    kept: KeptPlan | None = None
    changes: Changes = NONE
    faults: tuple[InputFault, ...] = ()

    @property
    def stale(self) -> bool:
        """Whether the plan is of an older drawing or another workshop."""
        return bool(self.changes)


def part_files(folder: Path) -> tuple[Path, ...]:
    """Part files of a project's folder, in order of their names."""
    found = (p for p in folder.glob("*.toml") if p.is_file() and p.name not in _OTHERS)
    return tuple(sorted(found, key=lambda path: path.name.lower()))


def look_at_part(path: Path) -> PartOnDisk:
    """Read a part file; faults are told, not raised."""
    try:
        text = read_text(path)
    except Faults as error:
        faults = (_other_than_a_file(path),) if _missing(path) else faults_in(error)
        return PartOnDisk(path=path, text="", part=None, faults=faults)
    return read_as_part(text, path)


def read_as_part(text: str, path: Path) -> PartOnDisk:
    """Read the text of a part file; faults are told, not raised."""
    try:
        part = solve(read_part_text(text, name=path.name))
    except (Faults, InputFault) as error:
        return PartOnDisk(path=path, text=text, part=None, faults=faults_in(error))
    return PartOnDisk(path=path, text=text, part=part)


def look_at_plan(on_disk: PartOnDisk, workshop: Workshop) -> PlanOnDisk:
    """Read the kept plan of a part, and compare what it was made from with what is there now.

    Raises
    ------
    Faults
        If the project file beside it has faults: what the part is made to is not known then.
    """
    path = plan_path(on_disk.path)
    if not path.exists():
        return PlanOnDisk(path=path)
    try:
        kept = read_plan(path)
    except (Faults, InputFault) as error:
        return PlanOnDisk(path=path, faults=faults_in(error))
    part = on_disk.part
    mates = kept.mates if part is None else project_mates(part, on_disk.path)
    changes = changes_since(kept, part_text=on_disk.text, workshop=workshop, mates=mates)
    return PlanOnDisk(path=path, kept=kept, changes=changes)


def faults_in(error: Faults | InputFault) -> tuple[InputFault, ...]:
    """All faults in an error, flat and in order."""
    if isinstance(error, InputFault):
        return (error,)
    found: list[InputFault] = []
    for each in error.exceptions:
        if isinstance(each, Faults | InputFault):
            found += faults_in(each)
    return tuple(found)


def _missing(path: Path) -> bool:
    try:
        return stat.S_ISDIR(path.stat().st_mode)
    except FileNotFoundError:
        return True
    except OSError:
        return False


def _other_than_a_file(path: Path) -> InputFault:
    """Fault of a part file that is missing or is a folder: what part files lie there."""
    folder = path if path.is_dir() else path.parent
    others = part_files(folder) if folder.is_dir() else ()
    names = ", ".join(other.name for other in others)
    why = f"part files there: {names}" if names else "the folder holds no part file"
    if path.is_dir():
        return InputFault(
            f"{path} is a folder",
            where=str(path),
            why=why,
            tries=tuple(f"name one part file: {other}" for other in others[:1])
            or ("name a part file", "halfthou new NAME begins one"),
        )
    near = near_names(path.name, (other.name for other in others), count=1)
    return InputFault(
        f"there is no file {path.name}",
        where=str(path),
        why=why if folder.is_dir() else f"there is no folder {folder}",
        tries=tuple(f"name {path.with_name(name)}" for name in near)
        or ("see that the name and the folder are right", "halfthou new NAME begins a part file"),
    )
