"""What holds the work on the mill, as pieces of space: the same ones serve every view.

Each device is a few blocks and rounds in the part's frame, cut down to what matters about the
work; the views draw them pale, the pictorial shades them.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from halfthou.drawing.geometry import Prism, Region
from halfthou.planning.model import Scheme
from halfthou.present.picture.mill_angle_plate import angle_plate
from halfthou.present.picture.mill_axes import MillAxes, disc_on_mill
from halfthou.present.picture.mill_clamps import clamps
from halfthou.present.picture.mill_holding import Bearing, HoldingPiece, Span, jaw_top
from halfthou.present.picture.mill_vice import vice
from halfthou.workshop.model import Device


def mill_device(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Return the pieces that hold the work; a device with no picture of its own holds by clamps.

    Straps keep clear of the cuts where they can.
    """
    drawn = _DRAWN.get(scheme.device.device)
    return clamps(scheme, axes, bearing) if drawn is None else drawn(scheme, axes, bearing)


def _chuck(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Lay a chuck on the table, jaws up: its body and three jaws; under it a rotary table."""
    work = bearing.work
    size = scheme.grip_size or min(work.high[0] - work.low[0], work.high[1] - work.low[1])
    at = ((work.low[0] + work.high[0]) / 2, (work.low[1] + work.high[1]) / 2)
    top = jaw_top(scheme, work)
    body = max(size + 36.0, work.high[0] - work.low[0] + 10.0)
    found = [
        HoldingPiece(
            name="chuck",
            region=disc_on_mill(
                at=at, bottom=work.low[2] - 16.0, top=work.low[2] - 2.0, diameter=body, axes=axes
            ),
        )
    ]
    if any(link.holder.device == "rotary table" for link in scheme.links):
        base = work.low[2] - 16.0
        table = disc_on_mill(at=at, bottom=base - 12.0, top=base, diameter=body + 24.0, axes=axes)
        found.insert(0, HoldingPiece(name="table", region=table))
    found += [
        HoldingPiece(name="jaw", region=_jaw(at, turn, size / 2, (work.low[2] - 2.0, top), axes))
        for turn in (math.pi / 2, math.pi * 7 / 6, math.pi * 11 / 6)
    ]
    return tuple(found)


def _jaw(
    at: tuple[float, float], turn: float, start: float, levels: Span, axes: MillAxes
) -> Region:
    bottom, top = levels
    out, side = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    corners = tuple(
        axes.in_part((at[0] + r * out[0] + s * side[0], at[1] + r * out[1] + s * side[1], bottom))
        for r, s in (
            (start, -2.0),
            (start + 4, -5.0),
            (start + 17, -5.0),
            (start + 17, 5.0),
            (start + 4, 5.0),
            (start, 2.0),
        )
    )
    rise = top - bottom
    return Prism(outline=corners, along=(rise * axes.z[0], rise * axes.z[1], rise * axes.z[2]))


def _v_blocks(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Round work along the table in two V-blocks."""
    del scheme
    work = bearing.work
    middle = (work.low[1] + work.high[1]) / 2
    radius = (work.high[1] - work.low[1]) / 2
    axis = work.low[2] + radius
    drop = radius * math.sqrt(2)
    half = radius + 8.0
    floor = axis - drop - 8.0
    rim = axis - drop + half - 1.5
    found = []
    long = work.high[0] - work.low[0]
    for share in (0.15, 0.7):
        x = work.low[0] + share * long
        thick = 0.15 * long
        section = (
            (middle - half, floor),
            (middle + half, floor),
            (middle + half, rim),
            (middle + half - 1.5, rim),
            (middle, axis - drop),
            (middle - half + 1.5, rim),
            (middle - half, rim),
        )
        corners = tuple(axes.in_part((x, y, z)) for y, z in section)
        along = (thick * axes.x[0], thick * axes.x[1], thick * axes.x[2])
        found.append(HoldingPiece(name="V-block", region=Prism(outline=corners, along=along)))
    return tuple(found)


_DRAWN: Final[dict[Device, Callable[[Scheme, MillAxes, Bearing], tuple[HoldingPiece, ...]]]] = {
    "angle plate": angle_plate,
    "vice": vice,
    "bench vice": vice,
    "chuck on the mill table": _chuck,
    "three-jaw chuck": _chuck,
    "rotary table": _chuck,
    "dividing head": _chuck,
    "V-blocks": _v_blocks,
}
