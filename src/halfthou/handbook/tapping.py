"""Holes for screws: the drill before the tap, and the hole that clears the bolt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.errors import OutOfRangeError
from halfthou.handbook.drills import Drill, nearest_drill
from halfthou.handbook.tables import rows
from halfthou.handbook.threads import Thread
from halfthou.units import Millimetre

ClearanceFit: TypeAlias = Literal["close", "medium", "free"]

USUAL_ENGAGEMENT: Final = 0.75
LEAST_ENGAGEMENT: Final = 0.55
MOST_ENGAGEMENT: Final = 0.90

# Usual practice, diameter of hole = share * major + allowance [mm]; agrees with the printed
# lists of clearing drills for BA, BSF, BSW and ME to 0.15 mm.
_CLEARANCE: Final[dict[ClearanceFit, tuple[float, float]]] = {
    "close": (1.03, 0.05),
    "medium": (1.08, 0.10),
    "free": (1.15, 0.20),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class TappingChoice:
    """Drill to go before a tap, and the share of full thread it leaves.

    ``engagement`` is (major - drill) / (2 depth), the trade's measure. ``overlap`` is the share
    of the flanks that really meet; it differs for 60° threads only, where 0.75 is 0.90.
    """

    drill: Drill
    wanted: Millimetre
    engagement: float
    overlap: float
    within_limits: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceChoice:
    """Drill that clears a screw, and the hole it stands for [mm]."""

    drill: Drill
    wanted: Millimetre
    table: str | None


def tapping_diameter(thread: Thread, *, engagement: float = USUAL_ENGAGEMENT) -> Millimetre:
    """Hole that leaves a share of the full thread.

    Parameters
    ----------
    thread :
        The thread to be tapped.
    engagement :
        Share of the full profile, as :class:`TappingChoice` defines it. [-]

    Returns
    -------
    :
        Diameter of the hole. [mm]

    Examples
    --------
    >>> from halfthou.handbook.threads import thread
    >>> from halfthou.quantities import parse_thread
    >>> round(tapping_diameter(thread(parse_thread("2 BA"))), 2)
    3.97

    References
    ----------
    Machinery's Handbook 31, p. 2155, for the measure.
    """
    return thread.major - 2 * engagement * thread.depth


def engagement_of(thread: Thread, hole: Millimetre) -> float:
    """Share of the full thread that a hole [mm] leaves."""
    return (thread.major - hole) / (2 * thread.depth)


def overlap_of(thread: Thread, hole: Millimetre) -> float:
    """Share of the basic overlap of screw and nut that a hole [mm] leaves."""
    return (thread.major - hole) / (thread.major - thread.minor_internal)


def tapping_drill(
    thread: Thread, drills: Sequence[Drill], *, engagement: float = USUAL_ENGAGEMENT
) -> TappingChoice:
    """Drill in hand nearest to the share of thread asked for.

    Raises
    ------
    OutOfRangeError
        If none in hand leaves between 0.55 and 0.90 of the thread without being smaller
        than the nut's bore.
    """
    wanted = tapping_diameter(thread, engagement=engagement)
    least = max(
        tapping_diameter(thread, engagement=MOST_ENGAGEMENT),
        thread.minor_limits[0] if thread.minor_limits else thread.minor_internal,
    )
    most = tapping_diameter(thread, engagement=LEAST_ENGAGEMENT)
    drill = nearest_drill(wanted, drills, least=least, most=most)
    if drill is None:
        raise OutOfRangeError(
            f"no drill in hand suits {thread.designation}: {least:.2f} to {most:.2f} mm needed",
            why="the tap would break in a smaller hole and strip in a larger",
            tries=(f"buy a drill of {wanted:.2f} mm", "bore the hole"),
        )
    limits = thread.minor_limits
    return TappingChoice(
        drill=drill,
        wanted=wanted,
        engagement=engagement_of(thread, drill.diameter),
        overlap=overlap_of(thread, drill.diameter),
        within_limits=None
        if limits is None
        else limits[0] - 1e-9 <= drill.diameter <= limits[1] + 1e-9,
    )


def clearance_diameter(thread: Thread, *, fit: ClearanceFit = "close") -> Millimetre:
    """Hole that clears the screw: ISO 273 for metric, usual practice for the rest [mm]."""
    row = _metric_row(thread)
    if row is not None:
        return float(row[fit])
    share, allowance = _CLEARANCE[fit]
    return share * thread.major + allowance


def clearance_drill(
    thread: Thread, drills: Sequence[Drill], *, fit: ClearanceFit = "close"
) -> ClearanceChoice:
    """Drill in hand nearest to the clearing size, never under 0.05 mm over the thread.

    Raises
    ------
    OutOfRangeError
        If no drill in hand clears it within the next coarser fit.
    """
    wanted = clearance_diameter(thread, fit=fit)
    least, most = thread.major + 0.05, wanted + 0.07 * thread.major + 0.1
    drill = nearest_drill(wanted, drills, least=least, most=most)
    if drill is None:
        raise OutOfRangeError(
            f"no drill in hand clears {thread.designation}: {least:.2f} to {most:.2f} mm needed",
            why="a larger hole would let the parts shift",
            tries=(f"buy a drill of {wanted:.2f} mm", "bore the hole"),
        )
    table = "clearance_metric" if _metric_row(thread) is not None else None
    return ClearanceChoice(drill=drill, wanted=wanted, table=table)


def _metric_row(thread: Thread) -> dict[str, str] | None:
    if thread.series != "M":
        return None
    for row in rows("clearance_metric"):
        if float(row["size"]) == thread.major:
            return dict(row)
    return None
