"""Planning a part and keeping the plan beside its file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from halfthou.drawing.model import Part
from halfthou.errors import HalfthouError
from halfthou.planning.make_plan import Progress, Stop, make_plan
from halfthou.planning.model import Plan
from halfthou.store.plan_file import KeptPlan, plan_path, write_plan
from halfthou.store.project_order import with_project
from halfthou.workshop.model import Workshop


class Stopped(HalfthouError):  # noqa: N818  (the person's wish; nothing is in error)
    """Planning was stopped before it ended; nothing was kept."""


def plan_and_keep(
    path: Path,
    *,
    part: Part,
    text: str,
    workshop: Workshop,
    proof: Callable[[Plan], str],
    replace: bool = False,
    on_progress: Progress | None = None,
    should_stop: Stop | None = None,
) -> KeptPlan:
    """Plan the part of the file at ``path`` and keep the plan beside it.

    Raises
    ------
    NoPlan
        If it is proved that there is none.
    Stopped
        If it was stopped; what was kept before stands as it was.
    """
    try:
        plan = make_plan(
            with_project(part, path), workshop, on_progress=on_progress, should_stop=should_stop
        )
    except HalfthouError as error:
        _raise_if_stopped(part, should_stop)
        error.where = error.where or path.name
        raise
    _raise_if_stopped(part, should_stop)
    kept = KeptPlan(
        part_file=path.name, part_text=text, workshop=workshop, proof=proof(plan), plan=plan
    )
    write_plan(kept, plan_path(path), replace=replace)
    return kept


def _raise_if_stopped(part: Part, should_stop: Stop | None) -> None:
    if should_stop is not None and should_stop():
        raise Stopped(
            f"the planning of {part.name} was stopped",
            why="a plan cut short may not be the cheapest, so none was kept",
            tries=("plan again when there is time",),
        )
