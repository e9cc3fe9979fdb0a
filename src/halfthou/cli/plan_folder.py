"""``halfthou plan FOLDER``: every part of a project planned, what is waited for first."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from halfthou.cli.answer import DONE, Answer, Told
from halfthou.cli.plan import plan_part
from halfthou.errors import InputFault
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
        answer = plan_part(file, again=again)
        lines += ["", *answer.lines, *waiting_lines(made.waits(file))]
        told.append(answer.told)
        status = max(status, answer.status)
    waits = [f"{one.part} waits for {one.mate}: {one.why}" for _, one in made.waiting]
    return Answer(
        lines=tuple(lines[1:]),
        told={"folder": str(folder), "parts": told, "waits": waits},
        status=status,
    )


def waiting_lines(waits: tuple[Waiting, ...]) -> Iterator[str]:
    """Say what a part waits for, as it is printed under its plan."""
    for one in waits:
        yield f"Waits for {one.mate}: {one.why}."
