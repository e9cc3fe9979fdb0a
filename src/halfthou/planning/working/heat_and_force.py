"""Steps at the bench that put pieces together or change the metal, by force or by heat."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.planning.model import Operation, Verb
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.measures import measures_for
from halfthou.planning.working.task import Task

BY_HEAT_OR_FORCE: Final[frozenset[Verb]] = frozenset(
    ("press", "retain", "solder", "pin", "screw in", "harden", "temper", "lap")
)
"""Verbs of the bench that take off no metal, or next to none."""
MAY_BE_LOOSE: Final = (
    "within their limits the two may come out without grip: measure as made, and where they slip "
    "together use retaining compound instead"
)
"""Where the least interference is none."""
_CAUTIONS: Final[dict[Verb, tuple[str, ...]]] = {
    "press": ("stand beside the line of the press, not behind it: what slips flies; glasses on",),
    "retain": (
        "compound off the skin; it comes apart only by heat, outdoors or under a fan: bad fumes",
    ),
    "solder": ("fumes of flux: a window open; hot work looks like cold work",),
    "harden": (
        "hot work: tongs, gloves, glasses, nothing that burns near; oil in a metal tin with a lid",
        "go in straight and move it in the oil; do not let it lie",
    ),
    "temper": ("hot work: tongs, gloves, glasses",),
}


_INTO_WATER: Final = (
    "hot work: tongs, gloves, glasses, nothing that burns near; it spits as it goes in",
    "go in straight and move it in the water; do not let it lie",
)


def by_heat_or_force(task: Task, op: Operation) -> Draft:
    """Say what to beware of, and what to measure where something is brought to size."""
    draft = Draft(operation=op, tool=op.tools[0], fluid="dry", minutes=op.minutes)
    draft.cautions += _CAUTIONS.get(op.verb, ())
    if op.verb == "press" and op.from_size <= 0:
        draft.remarks.append(MAY_BE_LOOSE)
    if op.verb == "harden" and "water" in op.remark:
        draft.cautions = list(_INTO_WATER)
    if op.verb == "lap":
        lapped = (op.key.removeprefix("lap "),)
        draft.measures = measures_for(task, replace(op, makes=op.makes or lapped))
    if op.remark:
        draft.remarks.append(op.remark)
    return draft
