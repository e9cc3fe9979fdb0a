"""Which of several machines of a kind a set-up is worked on: the first that takes its work."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.drawing.geometry import Region
from halfthou.planning.axes import cross, dot, extents_of_all
from halfthou.planning.model import Operation, SetUp
from halfthou.units import Millimetre
from halfthou.workshop.model import Lathe, Mill, Workshop

_TRAVEL_SPARE: Final[Millimetre] = 1e-6


def lathe_for(set_up: SetUp, workshop: Workshop) -> Lathe | None:
    """Give the first lathe that takes a set-up's work; the largest where none does.

    Parameters
    ----------
    set_up :
        How the work is held and what is done.
    workshop :
        Its lathes, in the order the person named them.

    Returns
    -------
    :
        The lathe whose speeds, feeds and dials the card is for; None without any.
    """
    if not workshop.lathes:
        return None
    takes = [one for one in workshop.lathes if _swings(one, set_up) and _does(one, set_up)]
    return takes[0] if takes else max(workshop.lathes, key=lambda one: one.centre_height)


def _swings(lathe: Lathe, set_up: SetUp) -> bool:
    scheme = set_up.scheme
    return (
        radius_turned(set_up) <= lathe.centre_height and scheme.stick_out <= lathe.between_centres
    )


def _does(lathe: Lathe, set_up: SetUp) -> bool:
    """Tell whether a lathe cuts the threads and holds the drills of a set-up."""
    cuts_threads = any(op.verb == "thread" and not _by_die(op) for op in set_up.operations)
    return lathe.screwcutting or not cuts_threads


def _by_die(op: Operation) -> bool:
    return bool(op.tools) and op.tools[0].startswith("die")


def radius_turned(set_up: SetUp) -> Millimetre:
    """Reckon how far work reaches from the line it turns about, by what is cut and gripped.

    Parameters
    ----------
    set_up :
        A set-up in the lathe.

    Returns
    -------
    :
        Radius swung. [mm]
    """
    scheme = set_up.scheme
    cut = extents_of_all(_regions(set_up))
    sides = [cross(scheme.faces, scheme.across)] if cut is not None else []
    sides += [cross(sides[0], scheme.faces)] if sides else []
    square = [side for side in sides if math.hypot(*side) > 0.5]  # noqa: PLR2004  (a direction)
    across = max((cut.length(side) for side in square), default=0.0) if cut is not None else 0.0
    turned = [op.from_size for op in set_up.operations if op.verb in {"turn", "turn taper"}]
    largest = max([across, scheme.grip_size, *(s for s in turned if math.isfinite(s))])
    return largest / 2 + math.hypot(*scheme.throw)


def _regions(set_up: SetUp) -> tuple[Region, ...]:
    return tuple(region for op in set_up.operations for region in op.region)


def mill_for(set_up: SetUp, workshop: Workshop) -> Mill | None:
    """Give the first mill whose travels reach over a set-up's work; the largest where none does.

    Parameters
    ----------
    set_up :
        How the work is held and what is done.
    workshop :
        Its mills, in the order the person named them.

    Returns
    -------
    :
        The mill whose speeds and dials the card is for; None without any.
    """
    if not workshop.mills:
        return None
    return mill_over(workshop, *_reached(set_up))


def mill_over(workshop: Workshop, wide: Millimetre, deep: Millimetre) -> Mill | None:
    """Give the first mill that reaches so far along its table and across; else the largest.

    Parameters
    ----------
    workshop :
        Its mills, in the order the person named them.
    wide, deep :
        How far the cut reaches along the table and across it. [mm]
    """
    takes = [
        one
        for one in workshop.mills
        if wide <= one.travels[0] + _TRAVEL_SPARE and deep <= one.travels[1] + _TRAVEL_SPARE
    ]
    return takes[0] if takes else max(workshop.mills, key=lambda one: one.travels, default=None)


def _reached(set_up: SetUp) -> tuple[Millimetre, Millimetre]:
    """Give how far cuts reach along the table and across it [mm]."""
    cut = extents_of_all(_regions(set_up))
    if cut is None:
        return 0.0, 0.0
    scheme = set_up.scheme
    away = cross(scheme.faces, scheme.across)
    if abs(dot(scheme.faces, scheme.across)) > 0.5:  # noqa: PLR2004  (not a frame)
        return 0.0, 0.0
    return cut.length(scheme.across), cut.length(away)


def at_the_machine(set_up: SetUp, workshop: Workshop) -> Workshop:
    """Give the workshop with only those machines in it that a set-up is worked on."""
    lathe, mill = lathe_for(set_up, workshop), mill_for(set_up, workshop)
    return replace(
        workshop, lathes=() if lathe is None else (lathe,), mills=() if mill is None else (mill,)
    )
