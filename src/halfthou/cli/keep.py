"""Plans on demand: the one that is kept, or one made now beside a line of progress."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from halfthou.cli.answer import remark
from halfthou.cli.patience import with_progress
from halfthou.cli.plan_told import stale_lines
from halfthou.drawing.model import Part
from halfthou.errors import Faults, HalfthouError, InputFault
from halfthou.present.plan_changes import proof_words
from halfthou.store.part_on_disk import PartOnDisk, PlanOnDisk, look_at_part, look_at_plan
from halfthou.store.plan_file import Changes, KeptPlan, plan_path, write_plan
from halfthou.store.workshop_file import workshop_for
from halfthou.workshop.model import Workshop


def make(part: Part, on_disk: PartOnDisk, workshop: Workshop, *, replace: bool) -> KeptPlan:
    """Plan a part with a line of progress, and keep the plan."""

    def work(
        *, on_progress: Callable[[str, float], None], should_stop: Callable[[], bool]
    ) -> KeptPlan:
        # the solver is loaded here, in the working thread: Ctrl-C must not break off its loading
        from halfthou.store.keeping import plan_to_keep  # noqa: PLC0415

        return plan_to_keep(
            on_disk.path,
            part=part,
            text=on_disk.text,
            workshop=workshop,
            proof=proof_words,
            on_progress=on_progress,
            should_stop=should_stop,
        )

    kept = with_progress(f"planning {part.name}", work)
    write_plan(kept, plan_path(on_disk.path), replace=replace)
    return kept


def since_lines(changes: Changes) -> Iterator[str]:
    """Write what has changed since a plan was made: part, workshop, and project."""
    yield from stale_lines(changes)
    if changes.project:
        yield "the project has changed since:"
        yield from (f"  {line}" for line in changes.project)


def plan_for(file: Path, *, again: bool = False) -> tuple[KeptPlan, PlanOnDisk]:
    """Kept plan of a part, and what was found on disk before.

    It is made now if there is none or ``again`` asks for it; if it is old that is said.

    Raises
    ------
    HalfthouError
        If the part file, or its plan file, has faults, or there is no plan.
    """
    on_disk = look_at_part(file)
    if on_disk.faults or on_disk.part is None:
        raise _all_of(on_disk.faults, file)
    workshop = workshop_for(file.parent)
    found = look_at_plan(on_disk, workshop)
    if found.faults and not again:
        raise _all_of(found.faults, file)
    if found.kept is not None and not again:
        if found.stale:
            remark(f"{file}: the plan kept in {found.path.name} is from before the last change")
            remark("\n".join(since_lines(found.changes)))
            remark(f"  try: halfthou cards {file} --again")
        return found.kept, found
    if on_disk.grave:
        raise _to_mend(on_disk.part, file)
    return make(on_disk.part, on_disk, workshop, replace=again), found


def _to_mend(part: Part, file: Path) -> HalfthouError:
    grave = [finding for finding in part.findings if finding.grave]
    if len(grave) == 1:
        return HalfthouError(
            grave[0].what, where=str(file), why=grave[0].why, tries=grave[0].tries
        )
    return HalfthouError(
        f"{file.name} cannot be planned: the drawing has {len(grave)} things to mend",
        where=str(file),
        why="; ".join(finding.what for finding in grave),
        tries=(f"halfthou check {file} says of each what to try",),
    )


def _all_of(faults: tuple[InputFault, ...], file: Path) -> Faults:
    return Faults(f"{file.name} cannot be read", list(faults))
