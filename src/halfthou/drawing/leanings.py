"""Short texts: leanings, turned views, what an arm joins, what a casting is."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.frame import AXIS_OF, DIRECTIONS, SIDES, side_of
from halfthou.drawing.model import OUTWARD, Side
from halfthou.drawing.sheet import turned_from
from halfthou.errors import InputFault
from halfthou.quantities import DrawingUnits, parse_angle, parse_length
from halfthou.units import DEGREE, Millimetre, Radian, Vec3

_SQUARE: Final = 90 * DEGREE
_LEANS: Final = re.compile(rf"(.+?)\s+to\s+({'|'.join(SIDES)})")
_TURNED: Final = re.compile(r"(.+?)\s+(anticlockwise|clockwise)")
_JOINS: Final = re.compile(r"(.+?)\s+and\s+(.+)")
FIXED: Final = ("pressed", "retained", "soldered", "pinned", "screwed", "riveted")
"""How a piece of another metal is held in the rest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leans:
    """So far from square, toward a side."""

    angle: Radian
    toward: Side


def parse_leans(text: str) -> Leans:
    """Read ``20° to back``.

    >>> parse_leans("20° to back").toward
    'back'
    """
    found = _LEANS.fullmatch(text.strip())
    if found is None:
        raise InputFault(
            f"'{text}' does not say how far it leans, and to which side",
            tries=("write it like 20° to back",),
        )
    angle = parse_angle(found[1]).value
    if not 0 < angle < _SQUARE:
        raise InputFault(
            f"'{text}' does not lean", why="an angle from square lies between 0 and 90°"
        )
    return Leans(angle=angle, toward=next(side for side in SIDES if side == found[2]))


def leaning(direction: Vec3, leans: Leans, *, facing: Side) -> Vec3:
    """Turn a direction square to a face so far toward a side of the part.

    Raises
    ------
    InputFault
        If that side lies along the direction itself.
    """
    if AXIS_OF[leans.toward] == AXIS_OF[facing]:
        raise InputFault(
            f"what goes in from the {facing} cannot lean to the {leans.toward}",
            why="it leans toward one of the four sides beside it",
            tries=tuple(f"write '{side}'" for side in SIDES if AXIS_OF[side] != AXIS_OF[facing])[
                :2
            ],
        )
    c, s = math.cos(leans.angle), math.sin(leans.angle)
    out = OUTWARD[leans.toward]
    x, y, z = (c * a + s * b + 0.0 for a, b in zip(direction, out, strict=True))
    return (x, y, z)


def parse_turned(text: str) -> Radian:
    """Read how a view is turned: anticlockwise counts as more than nothing.

    >>> parse_turned("90° clockwise") < 0
    True
    """
    found = _TURNED.fullmatch(text.strip())
    if found is None:
        raise InputFault(
            f"'{text}' does not say how the view is turned",
            tries=("write it like 35° anticlockwise",),
        )
    turn = parse_angle(found[1]).value
    return turn if found[2] == "anticlockwise" else -turn


def in_view(axis: int, *, of: Side, turned: Radian) -> Vec3:
    """Direction that rises along an axis in a view, where the view is turned."""
    along = side_of(axis, 1)
    if AXIS_OF[of] == axis:
        return OUTWARD[along]
    return turned_from(of, along, turned)


def parse_joins(text: str) -> tuple[str, str]:
    """Read the two bosses an arm joins.

    >>> parse_joins("hub and eye")
    ('hub', 'eye')
    """
    found = _JOINS.fullmatch(text.strip())
    if found is None or found[1].strip() == found[2].strip():
        raise InputFault(
            f"'{text}' does not name two bosses", tries=("write it like hub and eye",)
        )
    return found[1].strip(), found[2].strip()


def parse_axis(text: str) -> int:
    """Read the direction a body runs in.

    >>> parse_axis("front to back")
    2
    """
    axis = DIRECTIONS.get(" ".join(text.split()))
    if axis is None:
        raise InputFault(
            f"'{text}' is no direction", tries=tuple(f"write '{words}'" for words in DIRECTIONS)
        )
    return axis


@dataclass(frozen=True, slots=True, kw_only=True)
class Casting:
    """A casting as described: metal left on machined sides, draft, and its size over all."""

    text: str
    stock: Millimetre
    draft: Radian
    over_all: Vec3 | None


_STOCK: Final = re.compile(r"stock\s+(.+)")
_DRAFT: Final = re.compile(r"draft\s+(.+)")
_OVER_ALL: Final = re.compile(r"over all\s+(.+?)\s*[x×]\s*(.+?)\s*[x×]\s*(.+)")


def parse_casting(text: str, *, units: DrawingUnits) -> Casting:
    """Read a casting: ``stock 2, draft 1.5°, over all 100 x 68 x 34``.

    The size over all runs left to right, bottom to top, front to back.

    >>> parse_casting("stock 2, draft 1.5°", units="mm").stock
    2.0
    """
    stock = draft = 0.0
    over_all: Vec3 | None = None
    for part in (piece.strip() for piece in text.split(",")):
        if part == "as supplied":
            continue
        if found := _STOCK.fullmatch(part):
            stock = parse_length(found[1], units=units).value
        elif found := _DRAFT.fullmatch(part):
            draft = parse_angle(found[1]).value
        elif found := _OVER_ALL.fullmatch(part):
            x, y, z = (parse_length(size, units=units).value for size in found.groups())
            over_all = (x, y, z)
        else:
            raise InputFault(
                f"'{part}' says nothing of a casting",
                why="a casting has stock, draft, and a size over all",
                tries=("write it like stock 2, draft 1.5°",),
            )
    return Casting(text=text, stock=stock, draft=draft, over_all=over_all)
