"""Planning asked for on a page."""

from __future__ import annotations

from collections.abc import Callable, Hashable

from halfthou.errors import Faults, HalfthouError, InputFault
from halfthou.pages.plan_page import sheets
from halfthou.pages.runs import Work
from halfthou.pages.shelf import Seen, Shelf
from halfthou.present.plan_changes import plan_changes, proof_words


def about(shelf: Shelf, seen: Seen) -> Hashable:
    """Give what a plan would be made from now; how an older run ended is no answer to it."""
    try:
        workshop = shelf.workshop()
    except (Faults, InputFault):
        workshop = None
    return seen.on_disk.text, workshop


def run_work(shelf: Shelf, seen: Seen) -> Work:
    """Give the work that plans a part and keeps the plan."""
    on_disk, before = seen.on_disk, seen.plan.kept

    def work(
        *, on_progress: Callable[[str, float], None], should_stop: Callable[[], bool]
    ) -> tuple[str, ...]:
        from halfthou.store.keeping import plan_and_keep  # noqa: PLC0415  (the solver, on demand)

        if on_disk.part is None:
            raise HalfthouError(f"{on_disk.path.name} cannot be read")
        kept = plan_and_keep(
            on_disk.path,
            part=on_disk.part,
            text=on_disk.text,
            workshop=shelf.workshop(),
            proof=proof_words,
            replace=True,
            on_progress=on_progress,
            should_stop=should_stop,
        )
        on_progress("drawing the set-ups", 1.0)
        sheets(shelf, kept, units="mm")
        if before is None:
            return ()
        return plan_changes(before.plan, kept.plan) or ("nothing: the same plan as before",)

    return work
