"""``halfthou demo``: the demo project laid out, checked, planned, and its cards made."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import replace
from importlib.resources import files
from pathlib import Path
from typing import Final

from halfthou.cli.answer import DONE, NO, Answer, Told, fault_lines, fault_told, remark
from halfthou.cli.check import check_part
from halfthou.cli.plan import plan_part
from halfthou.cli.plan_folder import answer_or_faults, waiting_lines
from halfthou.errors import HalfthouError, InputFault
from halfthou.store.project_parts import making
from halfthou.store.writing import write_whole

AT_ONCE: Final = 2
"""How many parts are drawn at the same time: an old laptop has two cores."""
_NOT_SAID_AGAIN: Final = frozenset({"command", "done", "faults"})


def run_demo(folder: Path, *, tell: Callable[[str], None]) -> Answer:
    """Run the whole job on the demo project, telling what comes of it, and where everything is.

    The cards of one part are drawn while the next is planned, two at a time.
    """
    lay_out(folder)
    told: list[Told] = []
    tell(f"the demo project, the winding gear of a turret clock, lies in {folder}")
    status = DONE
    pool = ThreadPoolExecutor(AT_ONCE)
    try:
        drawn: list[Future[Answer]] = []
        for answer in _planned(folder, lambda file: drawn.append(pool.submit(_cards, file))):
            told.append(answer.told)
            status = max(status, answer.status)
            tell("\n".join(("", *answer.lines)))
        for coming in drawn:
            answer = coming.result()
            told.append(answer.told)
            status = max(status, answer.status)
            tell("\n".join(("", *answer.lines)))
    finally:
        pool.shutdown(cancel_futures=True)
    return Answer(
        lines=("", f"to see everything in the web browser:  halfthou open {folder}"),
        told={"folder": str(folder), "steps": told},
        status=status,
    )


def _planned(folder: Path, to_draw: Callable[[Path], None]) -> Iterator[Answer]:
    """Check and plan every part in the order they are made; what is planned goes to be drawn.

    A part that fails gives its faults as its answer, and the others go on.
    """
    made = making(folder)
    for file in made.files:
        checked = answer_or_faults(file, check_part)
        yield checked
        if checked.status != DONE:
            continue
        planned = answer_or_faults(file, plan_part)
        yield replace(planned, lines=(*planned.lines, *waiting_lines(made.waits(file))))
        if planned.status == DONE:
            to_draw(file)


def _cards(file: Path) -> Answer:
    """Make the cards of a part with the command for that, in a process of its own."""
    command = (sys.executable, "-m", "halfthou", "cards", str(file), "--json")
    done = subprocess.run(command, capture_output=True, check=False)  # noqa: S603  (our own)
    return drawn_answer(file, done.returncode, done.stdout, done.stderr.decode(errors="replace"))


def drawn_answer(file: Path, status: int, out: bytes, beside: str) -> Answer:
    """Give the answer of the command for the cards: its JSON, its status, its error stream.

    Where it broke off, its error stream is passed on whole, and its last line is the reason.
    """
    try:
        told = json.loads(out)
    except ValueError:
        remark(beside.rstrip())
        told = {"faults": [_broke_off(file, status, beside)]}
    faults = [
        HalfthouError(
            one["what"],
            where=one.get("where", ""),
            why=one.get("why", ""),
            tries=tuple(one.get("try", ())),
        )
        for one in told.get("faults", ())
    ]
    if faults or status != DONE:
        return Answer(
            lines=fault_lines(faults),
            told={"file": str(file), "faults": [fault_told(one) for one in faults]},
            status=status if status > DONE else NO,
        )
    return Answer(
        lines=(f"{told['cards_file']}: {told['sheets']} sheets",),
        told={key: value for key, value in told.items() if key not in _NOT_SAID_AGAIN},
    )


def _broke_off(file: Path, status: int, beside: str) -> Told:
    said = [line.strip() for line in beside.splitlines() if line.strip()]
    return {
        "what": f"the cards of {file.stem} were not made",
        "where": str(file),
        "why": said[-1] if said else f"the command broke off with status {status}",
        "try": [f"halfthou cards {file}"],
    }


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
