"""One part as it lies in its folder: what the file says, whether it can be read, its kept plan."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.errors import Faults, InputFault
from halfthou.store.part_file import read_part_text
from halfthou.store.plan_file import Changes, KeptPlan, changes_since, plan_path, read_plan
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
    text = ""
    try:
        text = read_text(path)
        return read_as_part(text, path)
    except (Faults, InputFault) as error:
        return PartOnDisk(path=path, text=text, part=None, faults=faults_in(error))
    except OSError as error:
        return PartOnDisk(path=path, text=text, part=None, faults=(cannot_read(path, error),))


def read_as_part(text: str, path: Path) -> PartOnDisk:
    """Read the text of a part file; faults are told, not raised."""
    try:
        part = solve(read_part_text(text, name=path.name))
    except (Faults, InputFault) as error:
        return PartOnDisk(path=path, text=text, part=None, faults=faults_in(error))
    return PartOnDisk(path=path, text=text, part=part)


def look_at_plan(on_disk: PartOnDisk, workshop: Workshop) -> PlanOnDisk:
    """Read the kept plan of a part, and compare what it was made from with what is there now."""
    path = plan_path(on_disk.path)
    if not path.exists():
        return PlanOnDisk(path=path)
    try:
        kept = read_plan(path)
    except (Faults, InputFault) as error:
        return PlanOnDisk(path=path, faults=faults_in(error))
    changes = changes_since(kept, part_text=on_disk.text, workshop=workshop)
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


def cannot_read(path: Path, error: OSError) -> InputFault:
    """Fault of a file that is missing, or that may not be read."""
    if isinstance(error, FileNotFoundError):
        others = part_files(path.parent) if path.parent.is_dir() else ()
        names = ", ".join(p.name for p in others)
        return InputFault(
            f"{path.name} is not there",
            where=str(path.parent),
            why=f"part files there: {names}" if names else "the folder holds no part file",
            tries=("see that the name is right", f"halfthou new {path.stem}"),
        )
    return InputFault(
        f"{path.name} cannot be read",
        where=str(path),
        why=(error.strerror or str(error)).lower(),
        tries=("name a part file",),
    )
