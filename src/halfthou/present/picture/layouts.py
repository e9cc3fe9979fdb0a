"""How plan, cut-open view and shaded view lie together on one sheet."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from halfthou.present.picture.sheet import Box, Mark, box_of, shifted
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

_BETWEEN: Final[Millimetre] = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Views that lie together: each with how far it is moved, and the paper they all cover.

    Only the group that is taken moves its marks.
    """

    views: tuple[tuple[tuple[Mark, ...], Point2], ...]
    box: Box

    @property
    def marks(self) -> tuple[Mark, ...]:
        """All that is drawn, where it lies."""
        return tuple(mark for view, by in self.views for mark in shifted(view, by))

    def moved(self, by: Point2) -> Group:
        """Return the group moved over the paper."""
        box = self.box
        return replace(
            self,
            views=tuple((view, (x + by[0], y + by[1])) for view, (x, y) in self.views),
            box=Box(
                left=box.left + by[0],
                right=box.right + by[0],
                top=box.top + by[1],
                bottom=box.bottom + by[1],
            ),
        )

    def with_(self, other: Group) -> Group:
        """Return both groups as one, each where it lies."""
        one, two = self.box, other.box
        box = Box(
            left=min(one.left, two.left),
            right=max(one.right, two.right),
            top=min(one.top, two.top),
            bottom=max(one.bottom, two.bottom),
        )
        return Group(views=(*self.views, *other.views), box=box)


def group(marks: tuple[Mark, ...]) -> Group:
    """Return one view where it lies."""
    return Group(views=((marks, (0.0, 0.0)),), box=box_of(marks))


def layouts(plan: Group, front: Group, seated: Group) -> list[Group]:
    """List the ways to lay out the views: cut-open view under the plan, or beside it."""
    stacked = plan.with_(under(plan, front))
    column = front.with_(under(front, seated, level=True))
    row = beside(front, seated)
    return [
        beside(stacked, seated),
        beside(plan, column),
        beside(beside(plan, front), seated),
        plan.with_(under(plan, row, level=True)),
    ]


def crowding(laid: Group, room: Point2) -> float:
    """How full of a picture the room is: 1 where it just goes in."""
    return max(laid.box.width / (room[0] - 3.0), laid.box.height / (room[1] - 3.0))


def over(seated: Group, across: Group | None) -> Group:
    """Put what is cut across, if anything, under the shaded view."""
    return seated if across is None else seated.with_(under(seated, across, level=True))


def under(upper: Group, lower: Group, *, level: bool = False) -> Group:
    """Move views below others, in line with them or their middle under theirs."""
    above, own = upper.box, lower.box
    aside = above.middle[0] - own.middle[0] if level else 0.0
    return lower.moved((aside, above.bottom + _BETWEEN - own.top))


def beside(views: Group, other: Group) -> Group:
    """Put views to the right of others, their middles level."""
    box, own = views.box, other.box
    return views.with_(
        other.moved((box.right + _BETWEEN - own.left, box.middle[1] - own.middle[1]))
    )
