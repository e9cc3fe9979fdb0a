"""Planning a part and keeping the plan beside its file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from halfthou.drawing.model import Part
from halfthou.errors import HalfthouError
from halfthou.planning.make_plan import Progress, Stop, make_plan
from halfthou.planning.model import Plan
from halfthou.store.plan_file import KeptPlan, plan_path, write_plan
from halfthou.store.project_order import project_mates, with_mates
from halfthou.workshop.model import Workshop


class Stopped(HalfthouError):  # noqa: N818  (the person's wish; nothing is in error)
    """Planning was stopped before it ended; nothing was kept."""


def plan_to_keep(
    path: Path,
    *,
    part: Part,
    text: str,
    workshop: Workshop,
    proof: Callable[[Plan], str],
    on_progress: Progress | None = None,
    should_stop: Stop | None = None,
) -> KeptPlan:
    """Plan the part of the file at ``path``, with what it was made from; write nothing.

    Raises
    ------
    NoPlan
        If it is proved that there is none.
    Faults
        If the project file beside it has faults.
    Stopped
        If it was stopped.
    """
    mates = project_mates(part, path)
    try:
        plan = make_plan(
            with_mates(part, mates), workshop, on_progress=on_progress, should_stop=should_stop
        )
    except HalfthouError as error:
        _raise_if_stopped(part, should_stop)
        error.where = error.where or path.name
        raise
    _raise_if_stopped(part, should_stop)
    return KeptPlan(
        part_file=path.name,
        part_text=text,
        mates=mates,
        workshop=workshop,
        proof=proof(plan),
        plan=plan,
    )


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

    It raises what ``plan_to_keep`` does; what was kept before then stands as it was.
    """
    kept = plan_to_keep(
        path,
        part=part,
        text=text,
        workshop=workshop,
        proof=proof,
        on_progress=on_progress,
        should_stop=should_stop,
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
