"""The pieces of what holds work on the mill, and the work as a holding device meets it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.drawing.geometry import Region
from halfthou.planning.model import Scheme
from halfthou.present.picture.mill_axes import MillAxes, Room, box_on_mill
from halfthou.units import Millimetre, Vec3

THINNEST: Final[Millimetre] = 0.5
Span: TypeAlias = tuple[Millimetre, Millimetre]

Piece: TypeAlias = Literal[
    "fixed jaw",
    "moving jaw",
    "round bar",
    "soft copper",
    "packing",
    "parallel",
    "stop",
    "clamp",
    "clamp moved",
    "table",
    "chuck",
    "V-block",
    "angle plate",
    "jack",
    "jaw",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldingPiece:
    """One piece of a holding device and what it is called.

    ``broken`` tells whether its left and its right end are broken off on the sheet.
    """

    name: Piece
    region: Region
    broken: tuple[bool, bool] = (False, False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """The work as a holding device meets it, as the mill counts.

    ``foot`` is what of it lies at the seat, ``below`` what hangs under the seat, if anything;
    ``gripped`` from where to where along the table the jaws may bear, if not everywhere; ``soft``
    tells at which jaws soft copper saves a finished face.
    """

    work: Room
    foot: Room
    below: Room | None = None
    gripped: Span | None = None
    cuts: tuple[Room, ...] = ()
    soft: Literal["", "moving jaw", "both jaws"] = ""
    top_at: Callable[[Room], Millimetre] | None = None
    """How high the work stands within a column of space: a strap may lie on a ledge."""
    metal_in: Callable[[Room], Room | None] | None = None
    """What the work takes up within a block of space; None where there is no metal."""


def seat_level(scheme: Scheme, work: Room) -> Millimetre:
    """Where the work lies on what is under it, as the mill counts [mm]."""
    if scheme.device.device in {"vice", "bench vice"} and work.low[2] < scheme.grip_low:
        return min(scheme.grip_low, jaw_top(scheme, work) - 1.0)
    if scheme.device.device == "clamps" and not scheme.grips:
        return max(work.low[2], min(scheme.grip_low, work.high[2] - 1.0))
    return work.low[2]


def jaw_top(scheme: Scheme, work: Room) -> Millimetre:
    """How high the jaws reach, as the mill counts [mm]."""
    low, high = work.low[2], work.high[2]
    if low < scheme.grip_high < high:
        return scheme.grip_high
    return low + 0.6 * (high - low)


def piece_on_mill(name: Piece, low: Vec3, high: Vec3, axes: MillAxes) -> HoldingPiece:
    """Return a block given as the mill counts."""
    return HoldingPiece(name=name, region=box_on_mill(low, high, axes))
