"""Why the plan is as it is, in the trade's words: one setting, held by what, what had to wait."""

from __future__ import annotations

from collections.abc import Iterator

from halfthou.drawing.model import Requirement
from halfthou.planning.assemble import Case
from halfthou.planning.model import Reason, SetUp
from halfthou.planning.to_get import to_get
from halfthou.workshop.model import Workshop


def _made_in(set_ups: tuple[SetUp, ...]) -> dict[str, int]:
    made: dict[str, int] = {}
    for number, set_up in enumerate(set_ups, start=1):
        for op in set_up.operations:
            for surface in op.makes:
                made[surface] = number
    return made


def _together(case: Case, made: dict[str, int]) -> Iterator[Reason]:
    by_set_up: dict[int, list[str]] = {}
    for r in case.part.requirements:
        a, b = made.get(r.surface), made.get(r.to)
        if a is None or a != b:
            continue
        names = by_set_up.setdefault(a, [])
        names += [n for n in (r.to, r.surface) if n not in names]
    for number, names in by_set_up.items():
        yield Reason(
            set_up=number,
            text=f"{_listed(names)} at one setting, "
            "so they are true to each other without clocking",
        )


def _apart(case: Case, set_ups: tuple[SetUp, ...], made: dict[str, int]) -> Iterator[Reason]:
    seen: set[tuple[int, str]] = set()
    for r in case.part.requirements:
        if r.origin != "drawn":
            continue
        a, b = made.get(r.surface), made.get(r.to)
        if a is None or b is None or a == b:
            continue
        later, first, second = _later(r, a, b)
        if (later, first) in seen:
            continue
        seen.add((later, first))
        yield Reason(
            set_up=later,
            text=f"{second} must be true to the {first}, which is cut already: "
            f"{_how(set_ups[later - 1], first)}",
        )


def _later(r: Requirement, a: int, b: int) -> tuple[int, str, str]:
    return (a, r.to, r.surface) if a > b else (b, r.surface, r.to)


def _how(set_up: SetUp, first: str) -> str:
    scheme = set_up.scheme
    if first in scheme.grips:
        return f"so the work is held by the {first} itself"
    if scheme.device.device == "centres":
        return "so the work turns on the centres it was cut on"
    if any(name == first for name, _ in scheme.true_on):
        return f"so the {first} is clocked true"
    if scheme.true_on:
        return f"so the {scheme.true_on[0][0]} is clocked true, and it follows"
    return "the holding is true enough for that"


def _held(set_ups: tuple[SetUp, ...]) -> Iterator[Reason]:
    for number, set_up in enumerate(set_ups, start=1):
        if set_up.scheme.reason:
            yield Reason(set_up=number, text=set_up.scheme.reason)
        for op in set_up.operations:
            if op.remark:
                yield Reason(set_up=number, text=op.remark)


def _listed(names: list[str]) -> str:
    if len(names) == 1:
        return names[0]
    return f"{', '.join(names[:-1])} and {names[-1]}"


def reasons_for(case: Case, set_ups: tuple[SetUp, ...], workshop: Workshop) -> tuple[Reason, ...]:
    """Give the reasons to show on the cards, those of each set-up together."""
    made = _made_in(set_ups)
    every = (
        *_together(case, made),
        *_apart(case, set_ups, made),
        *_held(set_ups),
        *to_get(set_ups, workshop),
    )
    return tuple(sorted(every, key=lambda r: r.set_up))
