"""``halfthou plan``: plan a part and keep the plan; say when a kept one is of an older drawing."""

from __future__ import annotations

from pathlib import Path

from halfthou.cli.answer import FAULT, NO, Answer, fault_lines, fault_told
from halfthou.cli.check import finding_lines, finding_told, unreadable
from halfthou.cli.keep import make, since_lines
from halfthou.cli.plan_told import difference_lines, plan_lines, plan_told
from halfthou.drawing.model import Part
from halfthou.present.plan_changes import plan_changes
from halfthou.store.part_on_disk import PartOnDisk, PlanOnDisk, look_at_part, look_at_plan
from halfthou.store.plan_file import KeptPlan
from halfthou.store.workshop_file import workshop_for


def plan_part(file: Path, *, again: bool = False) -> Answer:
    """Plan a part, unless a plan is kept; with ``again`` in any case."""
    on_disk = look_at_part(file)
    if on_disk.part is None:
        return unreadable(on_disk)
    if on_disk.grave:
        return _to_mend(on_disk, on_disk.part)
    workshop = workshop_for(file.parent)
    before = look_at_plan(on_disk, workshop)
    if before.kept is not None and not again:
        return _kept(file, before, before.kept)
    if before.faults and not again:
        return Answer(
            lines=fault_lines(before.faults),
            told={"file": str(file), "faults": [fault_told(each) for each in before.faults]},
            status=FAULT,
        )
    kept = make(on_disk.part, on_disk, workshop, replace=again)
    difference = plan_changes(before.kept.plan, kept.plan) if before.kept is not None else ()
    lines = (
        f"{file}: planned; kept in {before.path.name}",
        *plan_lines(kept),
        *difference_lines(before, difference),
    )
    told = plan_told(file, before.path, kept)
    return Answer(lines=lines, told={**told, "made": True, "difference": [*difference]})


def _kept(file: Path, on_disk: PlanOnDisk, kept: KeptPlan) -> Answer:
    told = plan_told(file, on_disk.path, kept, on_disk.changes)
    told["changes"]["project"] = [*on_disk.changes.project]
    if not on_disk.stale:
        head = f"{file}: the plan kept in {on_disk.path.name} stands"
        return Answer(lines=(head, *plan_lines(kept)), told=told)
    lines = (
        f"{file}: the plan kept in {on_disk.path.name} is from before the last change",
        *since_lines(on_disk.changes),
        f"  try: halfthou plan {file} --again, or take the change back",
    )
    return Answer(lines=lines, told=told, status=NO)


def _to_mend(on_disk: PartOnDisk, part: Part) -> Answer:
    grave = [each for each in part.findings if each.grave]
    lines = [line for each in grave for line in finding_lines(each)]
    return Answer(
        lines=(f"{on_disk.path}: not planned; the drawing has to be mended first", *lines),
        told={"file": str(on_disk.path), "findings": [finding_told(each) for each in grave]},
        status=NO,
    )
