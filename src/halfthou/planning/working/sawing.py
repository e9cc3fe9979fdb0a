"""Sawing a bar to length by hand: how long it takes, and whether what is left can be held."""

from __future__ import annotations

import math
from typing import Final

from halfthou.cutting.times import minutes_sawing
from halfthou.drawing.model import Blank
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.lengths import SAWN_OVER
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre

PIECE_HELD: Final = (
    "what is left over is too short to hold: the piece itself in the vice, the end falls off"
)
STUB: Final[Millimetre] = 25.0
"""Least a bar left over must be for a vice to hold it while it is sawn (usual practice)."""


def section(blank: Blank) -> float:
    """Give what the saw goes through, by the form of the bar.

    Parameters
    ----------
    blank :
        A bar; a flat one is sawn across its two smaller sizes.

    Returns
    -------
    :
        Area of the section. [mm²]
    """
    match blank.form:
        case "round bar":
            return math.pi / 4 * blank.across**2
        case "hexagon bar":
            return math.sqrt(3) / 2 * blank.across**2
        case "square bar":
            return blank.across**2
        case _:
            small, middle, _ = sorted(blank.size)
            return small * middle


def time_and_stub(task: Task, draft: Draft, length: Millimetre) -> None:
    """Reckon a bar's sawing by its section; say if the piece is held instead of what is left."""
    blank = task.part.blank
    if not blank.form.endswith("bar"):
        return
    draft.minutes = max(draft.minutes, minutes_sawing(section(blank)))
    if 0 < max(blank.size) - length - SAWN_OVER < STUB:
        draft.remarks.append(PIECE_HELD)
