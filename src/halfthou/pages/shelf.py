"""What the pages show of one folder, read afresh and drawn once for each state of a file."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

from halfthou.drawing.model import Part
from halfthou.errors import Faults, InputFault
from halfthou.pages.drawn_once import DrawnOnce
from halfthou.pages.runs import Runs
from halfthou.store.part_on_disk import (
    PartOnDisk,
    PlanOnDisk,
    faults_in,
    look_at_part,
    look_at_plan,
    part_files,
)
from halfthou.store.plan_file import plan_path
from halfthou.store.project_file import PROJECT_FILE, Project, read_project
from halfthou.store.workshop_file import own_workshop_path, workshop_for
from halfthou.workshop.model import Workshop


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """One part as it lies there now; ``last_good`` is what it was when it could last be read."""

    name: str
    on_disk: PartOnDisk
    plan: PlanOnDisk
    last_good: Part | None


class Shelf:
    """The parts of one folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.runs = Runs()
        self.drawn = DrawnOnce()
        self._good: dict[str, Part] = {}
        self.shaded: dict[str, bytes] = {}

    def names(self) -> tuple[str, ...]:
        """Names of the parts: their files, less the ending."""
        return tuple(path.stem for path in part_files(self.folder))

    def path(self, name: str) -> Path | None:
        """Part file of that name, if it is one of this folder's."""
        return next((p for p in part_files(self.folder) if p.stem == name), None)

    def workshop(self) -> Workshop:
        """Workshop as its files tell it now."""
        return self.drawn.now(self._workshop_key(), lambda: workshop_for(self.folder))

    def _workshop_key(self) -> tuple[str, ...]:
        files = (own_workshop_path(), self.folder / "workshop.toml")
        return ("workshop", *(_stamp(path) for path in files))

    def project(self) -> tuple[Project | None, tuple[InputFault, ...]]:
        """Project as its file tells it, if there is one, and all that is wrong in it."""
        path = self.folder / PROJECT_FILE
        if not path.is_file():
            return None, ()
        try:
            return self.drawn.now(("project", _stamp(path)), lambda: read_project(path)), ()
        except (Faults, InputFault) as error:
            return None, faults_in(error)

    def see(self, path: Path) -> Seen:
        """Look at a part and its plan."""
        on_disk = self.drawn.now(("part", str(path), _stamp(path)), lambda: look_at_part(path))
        if on_disk.part is not None:
            self._good[path.stem] = on_disk.part
        return Seen(
            name=path.stem,
            on_disk=on_disk,
            plan=self._plan(path, on_disk),
            last_good=self._good.get(path.stem),
        )

    def _plan(self, path: Path, on_disk: PartOnDisk) -> PlanOnDisk:
        file = plan_path(path)
        project = _stamp(self.folder / PROJECT_FILE)
        key = ("plan", str(path), _stamp(path), _stamp(file), project, self._workshop_key())
        try:
            return self.drawn.now(key, lambda: look_at_plan(on_disk, self.workshop()))
        except (Faults, InputFault) as error:
            return PlanOnDisk(path=file, faults=faults_in(error))

    def version(self, name: str | None) -> str:
        """Give a word that changes whenever a page of this part, or of all, would change."""
        paths = part_files(self.folder) if name is None else (self.folder / f"{name}.toml",)
        stamps = [self.folder / "workshop.toml", own_workshop_path(), *paths]
        stamps.append(self.folder / PROJECT_FILE)
        stamps += [plan_path(path) for path in paths]
        said = [f"{path.name} {_stamp(path)}" for path in stamps]
        run = self.runs.of(name) if name is not None else None
        said += [run.stamp if run is not None else "", str(self.drawn.late)]
        return hashlib.sha256("\n".join(said).encode()).hexdigest()[:16]


def _stamp(path: Path) -> str:
    """Hash of what a file holds: times alone miss two savings within one tick of the clock."""
    try:
        if path.stat().st_size > 20_000_000:  # noqa: PLR2004  (far over what is read at all)
            return "too large"
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""
