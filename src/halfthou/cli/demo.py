"""``halfthou demo``: the demo project laid out, checked, planned, and its cards made."""

from __future__ import annotations

from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

from halfthou.cli.answer import DONE, Answer, Told
from halfthou.cli.check import check_part
from halfthou.cli.plan import plan_part
from halfthou.cli.plan_folder import waiting_lines
from halfthou.errors import InputFault
from halfthou.store.project_parts import making
from halfthou.store.writing import write_whole


def run_demo(folder: Path, *, tell: Callable[[str], None]) -> Answer:
    """Run the whole job on the demo project, telling what comes of it, and where everything is."""
    from halfthou.cli.cards import make_cards  # noqa: PLC0415  (with the typesetter, on demand)

    lay_out(folder)
    told: list[Told] = []
    tell(f"the demo project, the winding gear of a turret clock, lies in {folder}")
    status = DONE
    made = making(folder)
    for file in made.files:
        for work in (check_part, plan_part, make_cards):
            answer = work(file)
            told.append(answer.told)
            status = max(status, answer.status)
            waits = waiting_lines(made.waits(file)) if work is plan_part else ()
            tell("\n".join(("", *answer.lines, *waits)))
            if answer.status != DONE:
                break
    return Answer(
        lines=("", f"to see everything in the web browser:  halfthou open {folder}"),
        told={"folder": str(folder), "steps": told},
        status=status,
    )


def lay_out(folder: Path) -> None:
    """Copy the demo project's part files; those that lie there unchanged stay.

    Raises
    ------
    InputFault
        If a file of that name is there and says something else.
    """
    for source in sorted(files("halfthou.demo").iterdir(), key=lambda each: each.name):
        if not source.name.endswith(".toml"):
            continue
        text = source.read_text("utf-8")
        target = folder / source.name
        if not target.exists():
            write_whole(target, text)
        elif target.read_bytes() != text.encode():
            raise InputFault(
                f"{target.name} is there already and has been changed",
                where=str(target),
                why="nothing is written over unasked",
                tries=("halfthou demo --folder another-folder", f"halfthou open {folder}"),
            )
