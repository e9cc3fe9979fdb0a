"""How plan, cut-open view and shaded view lie together on one sheet."""

from __future__ import annotations

from typing import Final

from halfthou.present.picture.sheet import Mark, box_of, shifted
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

_BETWEEN: Final[Millimetre] = 5.0


def layouts(
    plan: tuple[Mark, ...], front: tuple[Mark, ...], seated: tuple[Mark, ...]
) -> list[tuple[Mark, ...]]:
    """List the ways to lay out the views: cut-open view under the plan, or beside it."""
    stacked = (*plan, *under(plan, front))
    column = (*front, *under(front, seated, level=True))
    row = beside(front, seated)
    return [
        beside(stacked, seated),
        beside(plan, column),
        beside(beside(plan, front), seated),
        (*plan, *under(plan, row, level=True)),
    ]


def crowding(marks: tuple[Mark, ...], room: Point2) -> float:
    """How full of a picture the room is: 1 where it just goes in."""
    box = box_of(marks)
    return max(box.width / (room[0] - 3.0), box.height / (room[1] - 3.0))


def over(seated: tuple[Mark, ...], across: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Put what is cut across, if anything, under the shaded view."""
    return (*seated, *under(seated, across, level=True)) if across else seated


def under(
    upper: tuple[Mark, ...], lower: tuple[Mark, ...], *, level: bool = False
) -> tuple[Mark, ...]:
    """Move marks below others, in line with them or their middle under theirs."""
    above, own = box_of(upper), box_of(lower)
    aside = above.middle[0] - own.middle[0] if level else 0.0
    return shifted(lower, (aside, above.bottom + _BETWEEN - own.top))


def beside(views: tuple[Mark, ...], other: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Put marks to the right of others, their middles level."""
    box, own = box_of(views), box_of(other)
    return (
        *views,
        *shifted(other, (box.right + _BETWEEN - own.left, box.middle[1] - own.middle[1])),
    )
