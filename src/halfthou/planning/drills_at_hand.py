"""Which drill, reamer and tap of this workshop make a hole."""

from __future__ import annotations

from functools import cache

from halfthou.errors import OutOfRangeError
from halfthou.handbook.drills import Drill, find_drill, nearest_drill, reaming_drill
from halfthou.handbook.tapping import tapping_drill
from halfthou.handbook.threads import Thread
from halfthou.quantities import parse_drill
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop


@cache
def drills_in_hand(names: tuple[str, ...]) -> tuple[Drill, ...]:
    """Give the drills of a drawer, by the names written on them."""
    return tuple(find_drill(parse_drill(name, units="mm")) for name in names)


def drill_for(
    diameter: Millimetre, workshop: Workshop, *, least: Millimetre = 0.0, most: Millimetre = 1e9
) -> Drill | None:
    """Give the drill nearest to a diameter within limits; none if the drawer has none [mm]."""
    drills = drills_in_hand(workshop.drills.drills)
    return nearest_drill(diameter, drills, least=least, most=most)


def drill_before_reamer(diameter: Millimetre, workshop: Workshop) -> Drill | None:
    """Give the drill that leaves a fair amount for a reamer [mm]."""
    return reaming_drill(diameter, drills_in_hand(workshop.drills.drills))


def tap_for(thread: Thread, workshop: Workshop) -> str | None:
    """Name the taps for a thread, if they are in hand."""
    named = thread.designation in workshop.drills.taps
    return f"taps {thread.designation}" if named else None


def drill_before_tap(thread: Thread, workshop: Workshop) -> Drill | None:
    """Give the drill in hand for tapping a thread; none if none is near enough."""
    try:
        return tapping_drill(thread, drills_in_hand(workshop.drills.drills)).drill
    except OutOfRangeError:
        return None
