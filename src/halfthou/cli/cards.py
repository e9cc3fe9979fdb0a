"""``halfthou cards``: the job cards of a planned part as PDF."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

from halfthou.cli.answer import Answer
from halfthou.cli.keep import plan_for
from halfthou.cli.patience import with_progress
from halfthou.cli.plan_told import difference_lines
from halfthou.present.plan_changes import plan_changes
from halfthou.store.part_on_disk import PlanOnDisk
from halfthou.store.plan_file import Changes, KeptPlan
from halfthou.store.writing import write_whole

if TYPE_CHECKING:
    from halfthou.cards.cards import Paper
    from halfthou.cards.typeset import Typeset
    from halfthou.present.numbers import Units

PAPERS: Final[dict[str, Paper]] = {"a4": "A4", "a5": "A5", "letter": "Letter"}


def make_cards(
    file: Path, *, units: Units = "mm", paper: str = "a4", again: bool = False
) -> Answer:
    """Make the cards of a part from its kept plan; plan first if there is none, or ``again``."""
    kept, found = plan_for(file, again=again)
    lines = tuple(_anew(file, kept, found)) if again else ()
    since = Changes() if again else found.changes

    def work(**_: object) -> Typeset:
        # loaded in the working thread: Ctrl-C must not break off the loading of OpenCascade
        from halfthou.cards.of_plan import cards_of  # noqa: PLC0415

        return cards_of(kept, units=units, paper=PAPERS[paper])

    made = with_progress(f"drawing the cards of {file.stem}", work)
    path = file.parent / "cards" / f"{file.stem}.pdf"
    write_whole(path, made.pdf, replace=True)
    sheets = "sheet" if made.sheets == 1 else "sheets"
    return Answer(
        lines=(*lines, f"{path}: {made.sheets} {sheets}"),
        told={
            "file": str(file),
            "cards_file": str(path),
            "sheets": made.sheets,
            "units": units,
            "paper": paper,
            "stale": bool(since),
            "changes": {
                "part": list(since.part),
                "workshop": list(since.workshop),
                "project": list(since.project),
            },
        },
    )


def _anew(file: Path, kept: KeptPlan, found: PlanOnDisk) -> Iterator[str]:
    """Say that a plan was made, and how it differs from the one before."""
    difference = plan_changes(found.kept.plan, kept.plan) if found.kept is not None else ()
    yield f"{file}: planned; kept in {found.path.name}"
    yield from (line for line in difference_lines(found, difference) if line)
