"""The stop that clamped work lies against, set where the cut pushes."""

from __future__ import annotations

from collections.abc import Sequence

from halfthou.planning.model import Scheme
from halfthou.present.picture.cutters_at_work import CutterTurn, way_over
from halfthou.present.picture.mill_axes import Room, room_of
from halfthou.present.picture.mill_clamps import stop_against
from halfthou.present.picture.mill_view import MillView, with_piece
from halfthou.shapes.flat import Point2
from halfthou.shapes.solids import solid_of


def with_stop(view: MillView, scheme: Scheme, turns: Sequence[CutterTurn]) -> MillView:
    """Return the view with a stop against the push of the main cut, where work is clamped down.

    A mill pushes the way it goes over the work; what is only drilled has none.
    """
    mills = [turn for turn in turns if turn.mills]
    if scheme.device.device != "clamps" or not mills:
        return view
    rooms = [(one.name, room_of(solid_of(one.region), view.axes)) for one in view.holding]
    tables = [room.low[2] for name, room in rooms if name == "parallel"]
    if not tables:
        return view
    keep = [room for name, room in rooms if name != "parallel"]
    ways = [way_over(turn, view) for turn in mills]
    keep += [
        _run(start, end, turn.size / 2, view)
        for turn, (start, end) in zip(mills, ways, strict=True)
    ]
    start, end = ways[0]
    push = (end[0] - start[0], end[1] - start[1])
    table = min(tables)
    straps = [room.low[2] for name, room in rooms if name == "clamp" and room.low[2] > table + 1.0]
    edge = min([view.stock.high[2], *straps])
    stop = stop_against(push, view.stock, keep, levels=(table, edge), axes=view.axes)
    return with_piece(view, stop)


def _run(start: Point2, end: Point2, beside: float, view: MillView) -> Room:
    """Return the room a cutter takes on its way, and on past the work."""
    low = [min(a, b) - beside for a, b in zip(start, end, strict=True)]
    high = [max(a, b) + beside for a, b in zip(start, end, strict=True)]
    return Room(
        low=(low[0], low[1], view.stock.low[2]), high=(high[0], high[1], view.stock.high[2])
    )
