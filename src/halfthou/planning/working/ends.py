"""Where a turned length ends: at a shoulder, past its end, short of the jaws; what is hidden."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import Distance, Surface
from halfthou.planning.axes import dot
from halfthou.planning.model import Operation
from halfthou.planning.worked import Measure
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre

SHORT: Final[Millimetre] = 0.5
"""What roughing leaves on a shoulder at least (usual practice)."""
PAST: Final[Millimetre] = 2.0
"""How far a diameter is turned past its end, where nothing larger stands (usual practice)."""
CLEAR_OF_JAWS: Final[Millimetre] = 1.0
"""How near the jaws a tool is let come under power (usual practice)."""
JUST_CLEAR: Final[Millimetre] = 0.05
"""How near the jaws it is wound by hand (usual practice)."""
LIP: Final[Millimetre] = 0.3
"""The same where the lip left there is cut from the other side later (usual practice)."""
RULED: Final[Millimetre] = 0.5
"""A rule shows half millimetres."""
_SAME: Final = 1e-3
_FLAT: Final = 0.99
_CHUCKS: Final = frozenset(("three-jaw chuck", "four-jaw chuck", "soft jaws", "collet"))


def far_end(task: Task, op: Operation) -> float:
    """Give the end of a turned length that lies toward the chuck."""
    return op.starts if task.sense > 0 else op.ends


def jaws_at(task: Task) -> Millimetre:
    """How far the jaws' faces stand from the zero face; endless where no jaws hold.

    Jaws that open in a bore stand behind the work.
    """
    scheme = task.scheme
    if scheme.device.device not in _CHUCKS or scheme.grip_high <= scheme.grip_low:
        return math.inf
    if scheme.inside:
        return max(task.from_face(x) for s in task.part.surfaces for x in (s.low[0], s.high[0]))
    return task.from_face(scheme.grip_high if task.sense > 0 else scheme.grip_low)


def parted_at(task: Task) -> Millimetre | None:
    """Give how far from the zero face the piece is parted off here; None where it is not."""
    off = next((one for one in task.operations if one.verb == "part off"), None)
    return task.from_face(off.ends) if off is not None else None


def at_shoulder(task: Task, op: Operation) -> bool:
    """Tell whether a turned length ends at a face that looks at the tool."""
    x = far_end(task, op)
    return any(
        s.kind == "plane"
        and dot(s.direction, task.scheme.faces) > _FLAT
        and abs(s.point[0] - x) < _SAME
        and s.high[1] > op.cut_size / 2
        for s in task.part.surfaces
    )


def short_of(length: Millimetre, *, by_rule: bool) -> Millimetre:
    """Give where roughing, or a rule, stops before a shoulder: never past it.

    >>> short_of(133.35, by_rule=True), short_of(14.0, by_rule=False)
    (132.5, 13.5)
    """
    if by_rule:
        return math.floor((length - SHORT) / RULED + _SAME) * RULED
    return max(0.0, length - SHORT)


def past_the_end(task: Task, length: Millimetre) -> Millimetre:
    """Give where a length stops that ends at nothing larger: past it, clear of the jaws."""
    jaws = jaws_at(task)
    if length < jaws - CLEAR_OF_JAWS:
        return min(length + PAST, jaws - CLEAR_OF_JAWS)
    return length


def hidden(task: Task, surface: Surface) -> bool:
    """Tell whether a face is in the chuck or turned to it, where no gauge reaches."""
    jaws = jaws_at(task)
    if surface.kind != "plane" or math.isinf(jaws):
        return False
    return surface.name in task.scheme.seats or task.from_face(surface.point[0]) > jaws - _SAME


def pair_of(task: Task, measure: Measure) -> Distance | None:
    """Give the drawn distance a measuring is of."""
    return next(
        (
            d
            for d in task.part.distances
            if d.band == measure.band and measure.surface in {d.a, d.b}
        ),
        None,
    )


def out_of_reach(task: Task, measure: Measure) -> bool:
    """Tell whether a length has an end that the chuck hides."""
    if measure.kind not in {"length", "depth", "width"} or measure.band is None:
        return False
    pair = pair_of(task, measure)
    if pair is None:
        return False
    ends = (task.surface(pair.a), task.surface(pair.b))
    return any(end is not None and hidden(task, end) for end in ends)


def tightest(task: Task, *names: str) -> Millimetre:
    """Give the least tolerance of the drawn lengths that end at one of these faces."""
    widths = [d.band.width for d in task.part.distances if {d.a, d.b} & set(names)]
    return min(widths, default=0.4)


def from_an_end(task: Task, measure: Measure) -> bool:
    """Tell whether a length is measured from an end that a centre or the driver stands at."""
    scheme = task.scheme
    if scheme.device.device != "centres" and not scheme.centre:
        return False
    pair = pair_of(task, measure)
    if pair is None:
        return measure.band is None
    ends = (0.0, _other_end(task)) if scheme.device.device == "centres" else (0.0,)
    return any(_lies_at(task, name, ends) for name in (pair.a, pair.b))


def follows(task: Task, measure: Measure) -> bool:
    """Tell whether a length is drawn from the end toward the headstock, not from the zero face."""
    pair = pair_of(task, measure)
    if pair is None or not task.part.turned:
        return False
    behind = _lies_at(task, pair.a, (_other_end(task),)) or _lies_at(
        task, pair.b, (_other_end(task),)
    )
    here = _lies_at(task, pair.a, (0.0,)) or _lies_at(task, pair.b, (0.0,))
    return behind and not here


def _other_end(task: Task) -> Millimetre:
    planes = (s for s in task.part.surfaces if s.kind == "plane")
    return max((task.from_face(s.point[0]) for s in planes), default=math.inf)


def _lies_at(task: Task, name: str, places: tuple[Millimetre, ...]) -> bool:
    surface = task.surface(name)
    if surface is None or surface.kind != "plane":
        return False
    return any(abs(task.from_face(surface.point[0]) - place) < _SAME for place in places)
