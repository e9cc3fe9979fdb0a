"""What a part waits for: the mates that it is made to as they came out."""

from __future__ import annotations

from collections.abc import Iterator

from halfthou.drawing.model import Part
from halfthou.planning.model import Reason

WAITS: int = 0
"""The set-up of a reason that is for the whole plan, and so for the cover."""


def waits_of(part: Part) -> Iterator[Reason]:
    """Give each mate a part waits for, with what is made to it."""
    for mate in part.mates:
        how = mate.text.partition(",")[2].strip()
        yield Reason(
            set_up=WAITS,
            text=f"the {mate.part}, made first: the {mate.surface} is made to its "
            f"{mate.mate_surface} as it measures{f' ({how})' if how else ''}",
        )
