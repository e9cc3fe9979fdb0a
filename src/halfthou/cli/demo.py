"""``halfthou demo``: the demo project laid out, checked, planned, and its cards made."""

from __future__ import annotations

import signal
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr
from dataclasses import replace
from importlib.resources import files
from io import StringIO
from multiprocessing import get_context
from multiprocessing.pool import AsyncResult
from pathlib import Path
from typing import Final

from halfthou.cli.answer import DONE, NO, Answer, Told, fault_lines, fault_told
from halfthou.cli.check import check_part
from halfthou.cli.plan import plan_part
from halfthou.cli.plan_folder import waiting_lines
from halfthou.errors import Faults, HalfthouError, InputFault
from halfthou.store.part_on_disk import faults_in
from halfthou.store.project_parts import making
from halfthou.store.writing import write_whole

AT_ONCE: Final = 2
"""How many parts are drawn at the same time: an old laptop has two cores."""


def run_demo(folder: Path, *, tell: Callable[[str], None]) -> Answer:
    """Run the whole job on the demo project, telling what comes of it, and where everything is.

    The cards of one part are drawn while the next is planned, two at a time.
    """
    lay_out(folder)
    told: list[Told] = []
    tell(f"the demo project, the winding gear of a turret clock, lies in {folder}")
    status = DONE
    with get_context("spawn").Pool(AT_ONCE, initializer=_leave_stopping) as pool:
        drawn: list[AsyncResult[Answer]] = []
        for answer in _planned(
            folder, lambda file: drawn.append(pool.apply_async(_cards, (file,)))
        ):
            told.append(answer.told)
            status = max(status, answer.status)
            tell("\n".join(("", *answer.lines)))
        for coming in drawn:
            answer = coming.get()
            told.append(answer.told)
            status = max(status, answer.status)
            tell("\n".join(("", *answer.lines)))
    return Answer(
        lines=("", f"to see everything in the web browser:  halfthou open {folder}"),
        told={"folder": str(folder), "steps": told},
        status=status,
    )


def _planned(folder: Path, to_draw: Callable[[Path], None]) -> Iterator[Answer]:
    """Check and plan every part in the order they are made; what is planned goes to be drawn."""
    made = making(folder)
    for file in made.files:
        checked = check_part(file)
        yield checked
        if checked.status != DONE:
            continue
        planned = plan_part(file)
        yield replace(planned, lines=(*planned.lines, *waiting_lines(made.waits(file))))
        if planned.status == DONE:
            to_draw(file)


def _cards(file: Path) -> Answer:
    """Make the cards of a part in a process of its own; its errors come back as an answer."""
    from halfthou.cli.cards import make_cards  # noqa: PLC0415  (with the typesetter, on demand)

    with redirect_stderr(StringIO()):  # two lines of progress at once would be none
        try:
            return make_cards(file)
        except (HalfthouError, Faults) as error:
            faults = faults_in(error) if not isinstance(error, HalfthouError) else (error,)
            return Answer(
                lines=fault_lines(faults),
                told={"file": str(file), "faults": [fault_told(one) for one in faults]},
                status=NO,
            )


def _leave_stopping() -> None:
    """Leave Ctrl-C to the process that asked for the work."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


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
