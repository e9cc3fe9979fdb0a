"""``halfthou plan FOLDER``: every part of a project planned, what is waited for first."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

from halfthou.cli.answer import DONE, FAULT, NO, Answer, Told, fault_lines, fault_told
from halfthou.cli.plan import plan_part
from halfthou.errors import Faults, HalfthouError, InputFault
from halfthou.store.part_on_disk import faults_in
from halfthou.store.project_order import Waiting
from halfthou.store.project_parts import making


def plan_folder(folder: Path, *, again: bool = False) -> Answer:
    """Plan every part of a folder in the order they are made; one that fails stops none.

    Raises
    ------
    InputFault
        If there is nothing to plan, or parts wait for each other in a ring.
    """
    made = making(folder)
    if not made.files:
        raise InputFault(
            f"{folder.name or folder} holds no part file",
            where=str(folder),
            tries=("halfthou new NAME", "name another folder"),
        )
    lines: list[str] = []
    told: list[Told] = []
    status = DONE
    for file in made.files:
        answer = answer_or_faults(file, partial(plan_part, again=again))
        lines += ["", *answer.lines, *waiting_lines(made.waits(file))]
        told.append(answer.told)
        status = max(status, answer.status)
    waits = [f"{one.part} waits for {one.mate}: {one.why}" for _, one in made.waiting]
    return Answer(
        lines=tuple(lines[1:]),
        told={"folder": str(folder), "parts": told, "waits": waits},
        status=status,
    )


def answer_or_faults(file: Path, work: Callable[[Path], Answer]) -> Answer:
    """Give the answer for one part of several; the faults that are raised become its answer."""
    try:
        return work(file)
    except (HalfthouError, Faults) as error:
        return refused(file, error)


def refused(file: Path, error: HalfthouError | Faults) -> Answer:
    """Give an error of one part of several as its answer, so that the others go on."""
    faults = faults_in(error) if isinstance(error, Faults | InputFault) else (error,)
    return Answer(
        lines=fault_lines(faults),
        told={"file": str(file), "done": False, "faults": [fault_told(one) for one in faults]},
        status=FAULT if all(isinstance(one, InputFault) for one in faults) else NO,
    )


def waiting_lines(waits: tuple[Waiting, ...]) -> Iterator[str]:
    """Say what a part waits for, as it is printed under its plan."""
    for one in waits:
        yield f"Waits for {one.mate}: {one.why}."
