"""``halfthou cards``: the job cards of a planned part as PDF."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from halfthou.cli.answer import Answer
from halfthou.cli.keep import plan_for

if TYPE_CHECKING:
    from halfthou.cards.cards import Paper
    from halfthou.present.numbers import Units

PAPERS: Final[dict[str, Paper]] = {"a4": "A4", "a5": "A5", "letter": "Letter"}


def make_cards(file: Path, *, units: Units = "mm", paper: str = "a4") -> Answer:
    """Make the cards of a part from its kept plan; plan it first if there is none."""
    from halfthou.cards.of_plan import cards_of, cards_path, write_cards  # noqa: PLC0415
    from halfthou.cli.patience import with_progress  # noqa: PLC0415

    kept, found = plan_for(file)
    made = with_progress(
        f"drawing the cards of {file.stem}",
        lambda **_: cards_of(kept, units=units, paper=PAPERS[paper]),
    )
    path = cards_path(file)
    write_cards(made, path)
    sheets = "sheet" if made.sheets == 1 else "sheets"
    return Answer(
        lines=(f"{path}: {made.sheets} {sheets}",),
        told={
            "file": str(file),
            "cards_file": str(path),
            "sheets": made.sheets,
            "units": units,
            "paper": paper,
            "stale": found.stale,
            "changes": {
                "part": list(found.changes.part),
                "workshop": list(found.changes.workshop),
            },
        },
    )
