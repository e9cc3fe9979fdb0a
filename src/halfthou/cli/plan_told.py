"""A plan in words and as JSON values, in short; the whole of it is in the plan file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from halfthou.cli.answer import Told
from halfthou.planning.model import Plan
from halfthou.present.plan_changes import way_lines
from halfthou.present.words_plan import price_words
from halfthou.store.part_on_disk import PlanOnDisk
from halfthou.store.plan_file import Changes, KeptPlan


def plan_lines(kept: KeptPlan) -> Iterator[str]:
    """Plan as it is printed."""
    yield from (f"  {line}" for line in way_lines(kept.plan))
    yield from price_words(kept.plan)
    for one in kept.plan.unjudged:
        yield ""
        yield f"this workshop cannot judge {one.surface}, {one.size.text}"
        yield f"  try: {', or '.join(one.remedies)}"


def stale_lines(changes: Changes) -> Iterator[str]:
    """Write what has changed since a plan was made, as it is printed."""
    if changes.part:
        yield "the part file has changed since:"
        yield from (f"  {line}" for line in changes.part)
    if changes.workshop:
        yield "the workshop has changed since:"
        yield from (f"  {line}" for line in changes.workshop)


def difference_lines(before: PlanOnDisk, difference: tuple[str, ...]) -> Iterator[str]:
    """Say how a plan made anew differs from the one kept before, if there was one."""
    if before.kept is None:
        return
    yield ""
    if difference:
        yield "different from the plan before:"
        yield from (f"  {line}" for line in difference)
    elif before.stale:
        yield "the same set-ups at the same price as before; what was changed is taken in"
    else:
        yield "the same plan as before"


def plan_told(file: Path, path: Path, kept: KeptPlan, changes: Changes | None = None) -> Told:
    """Plan as JSON values, in short; the whole of it is in the plan file."""
    plan = kept.plan
    since = changes or Changes()
    return {
        "file": str(file),
        "plan_file": str(path),
        "made": False,
        "stale": bool(since),
        "changes": {"part": list(since.part), "workshop": list(since.workshop)},
        "difference": [],
        "price_minutes": plan.minutes,
        "bound_minutes": plan.bound,
        "proved": plan.proved,
        "up_to_set_ups": plan.up_to_set_ups,
        "proof": kept.proof,
        "set_ups": _set_ups_told(plan),
        "unjudged": [
            {
                "surface": one.surface,
                "size": one.size.text,
                "best_gauge": one.best_gauge,
                "doubt_mm": one.doubt,
                "try": list(one.remedies),
            }
            for one in plan.unjudged
        ],
        "rules_off": list(plan.rules_off),
    }


def _set_ups_told(plan: Plan) -> list[Told]:
    return [
        {
            "number": number,
            "machine": one.scheme.machine,
            "held": [link.holder.name for link in one.scheme.links],
            "grips": list(one.scheme.grips),
            "seats": list(one.scheme.seats),
            "operations": [
                {"key": op.key, "verb": op.verb, "feature": op.feature, "tools": list(op.tools)}
                for op in one.operations
            ],
        }
        for number, one in enumerate(plan.set_ups, start=1)
    ]
