"""Small texts of cuts: chamfers, undercuts, saw kerfs."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal

from halfthou.drawing.frame import SIDES
from halfthou.drawing.model import Side
from halfthou.errors import InputFault
from halfthou.quantities import DrawingUnits, Length, Size, parse_angle, parse_length, parse_size
from halfthou.units import DEGREE, Millimetre, Radian

USUAL_CHAMFER: Final = 45 * DEGREE
_STEEPEST: Final = 90 * DEGREE


@dataclass(frozen=True, slots=True, kw_only=True)
class Chamfer:
    """A chamfer as written: its leg along the axis [mm], its angle to the axis [rad]."""

    text: str
    leg: Length
    angle: Radian


def parse_chamfer(text: str, *, units: DrawingUnits) -> Chamfer:
    """Read a chamfer; without an angle it is at 45°.

    >>> parse_chamfer("1 x 45°", units="mm").leg.value
    1.0
    """
    leg, _, turned = (part.strip() for part in re.sub("[×]", "x", text).partition("x"))
    angle = parse_angle(turned).value if turned else USUAL_CHAMFER
    length = parse_length(leg, units=units)
    if not length.value or not 0 < angle < _STEEPEST:
        raise InputFault(
            f"'{text}' takes no edge off",
            why="the leg is more than nothing, the angle between 0 and 90°",
            tries=("write it like 1 x 45°",),
        )
    return Chamfer(text=text, leg=length, angle=angle)


@dataclass(frozen=True, slots=True, kw_only=True)
class Undercut:
    """A groove beside a shoulder: floor diameter, width, and the end of the round it is at."""

    text: str
    diameter: Size
    wide: Size
    at: Side


_UNDERCUT: Final = re.compile(r"(.+?)\s*[x×]\s*(.+?)\s+at\s+(left|right)")


def parse_undercut(text: str, *, units: DrawingUnits) -> Undercut:
    """Read an undercut.

    >>> parse_undercut(".375 x 3/32 at left", units="in").at
    'left'
    """
    found = _UNDERCUT.fullmatch(text.strip())
    if found is None:
        raise InputFault(
            f"'{text}' cannot be read as an undercut",
            why="it gives the diameter of its floor, its width, and the end it is at",
            tries=("write it like .375 x 3/32 at left",),
        )
    return Undercut(
        text=text,
        diameter=parse_size(found[1], units=units),
        wide=parse_size(found[2], units=units),
        at=next(side for side in SIDES if side == found[3]),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Kerf:
    """How a joint comes about, and what the saw takes [mm]."""

    kind: Literal["sawn", "two castings"]
    width: Millimetre


def parse_kerf(text: str, *, units: DrawingUnits) -> Kerf:
    """Read ``saw 1.2`` or ``two castings``.

    >>> parse_kerf("saw 1.2", units="mm").width
    1.2
    """
    body = text.strip()
    if body == "two castings":
        return Kerf(kind="two castings", width=0.0)
    if body.startswith("saw "):
        width = parse_length(body.removeprefix("saw ").strip(), units=units).value
        return Kerf(kind="sawn", width=width)
    raise InputFault(
        f"'{text}' does not say how the joint comes about",
        tries=("write it like saw 1.2", "write two castings"),
    )
