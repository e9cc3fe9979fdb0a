"""How work is set true: what to clock, to what reading, and by what where no clock reaches."""

from __future__ import annotations

import math
import re
from typing import Final

from halfthou.drawing.model import OUTWARD, Part, Side, Surface
from halfthou.planning.axes import dot
from halfthou.planning.model import Operation, Scheme
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working import words
from halfthou.present.numbers import Units, joined, plain
from halfthou.present.words_surfaces import surface_words
from halfthou.present.words_throw import throw_words, thrown
from halfthou.units import Millimetre, Vec3

_TRUE_BY_THEMSELVES: Final = frozenset({"stub mandrel", "collet"})
_LONG: Final[Millimetre] = 20.0
"""A round that stands out further than this is clocked at both ends."""
_TRIED: Final = (words.ALIGNED, "toward you by")
"""What a step says where it tries the tailstock itself."""
_REACHED: Final[Millimetre] = 1.0
"""Less than this of a round outside the jaws takes no clock."""
_POPPED: Final = re.compile(r"centre[- ]popped")
"""What a reason says of a place that is marked out, and runs true by its pop."""
_PINCH: Final = (
    "Pinch up, tap back on the seat, clock again; the seat governs, the clock checks the face."
)
_POP: Final[Millimetre] = 0.05
"""How true a popped centre is brought: nearer than it was scribed (usual practice)."""
_TRAM: Final[Millimetre] = 0.05
"""How square the head is to the table, swept about 150 across (usual practice)."""
_JAW: Final[Millimetre] = 0.02
_SEATED: Final[Millimetre] = 0.02
"""How alike a length is all round whose other face is home on the step (usual practice)."""


def truing_words(
    worked: WorkedSetUp, part: Part, units: Units, earlier: tuple[WorkedSetUp, ...] = ()
) -> str:
    """Say what to clock and the reading to reach; empty where nothing wants it."""
    scheme = worked.set_up.scheme
    if scheme.machine == "bench" or scheme.device.device in _TRUE_BY_THEMSELVES:
        return ""
    remarks = [remark for step in worked.steps for remark in step.remarks]
    tried = any(mark in remark for remark in remarks for mark in _TRIED)
    if scheme.device.device == "centres":
        return "" if tried else _tailstock(units)
    if scheme.machine == "mill":
        return _at_the_mill(worked, part, units, earlier)
    clocked = scheme.true_on or thrown(scheme)
    said = [_clocked(worked, part, units, earlier)] if clocked else []
    finishes = any(op.stage == "finish" for op in worked.set_up.operations)
    if scheme.centre and finishes and not tried:
        said.append(_tailstock(units))
    steady = any(link.holder.device == "fixed steady" for link in scheme.links[:-1])
    if not said and not steady and all(one.startswith("stock") for one in scheme.grips):
        return "Nothing to clock: the jaws hold raw metal."
    return " ".join(said)


def _tailstock(units: Units) -> str:
    alike = plain(0.005, units, places=3)
    return (
        f"Tailstock: at the first light cut, micrometer at both ends: alike within {alike}. "
        "Bigger at the tailstock end: clock on its barrel, set over toward you by half the "
        "difference; smaller: away. The same cut again, until alike; the dial set anew from that."
    )


def _reading(scheme: Scheme, units: Units) -> str:
    return plain(max((reading for _, reading in scheme.true_on), default=0.0), units, places=3)


def _clocked(
    worked: WorkedSetUp, part: Part, units: Units, earlier: tuple[WorkedSetUp, ...]
) -> str:
    """Clock what can be reached; a face against the jaws is felt for instead."""
    scheme = worked.set_up.scheme
    hidden = [name for name, _ in scheme.true_on if name in scheme.seats]
    wanted = [name for name, _ in scheme.true_on if name not in scheme.seats]
    open_to = [name for name in wanted if _stands_out(scheme, part, name) > _REACHED]
    instead = "" if open_to or not wanted else _turned_with(wanted[0], scheme, part, earlier)
    reading = _reading(scheme, units)
    said = []
    if hidden:
        against = joined(tuple(surface_words(name, part, units) for name in hidden))
        said.append(_seated(worked, against, units))
    if thrown(scheme):
        rounds = [name for name in wanted if _round(name, part)]
        shown = [name for name in rounds if name in open_to]
        on = (
            shown[0] if shown else _turned_with(rounds[0], scheme, part, earlier) if rounds else ""
        )
        said.append(throw_words(worked, part, units, earlier, on))
        open_to = [name for name in open_to if not _round(name, part)]
        wanted, instead = [], ""
    said += _clock(scheme, part, units, (open_to, wanted, instead))
    if scheme.device.device == "four-jaw chuck":
        said.append(_PINCH if scheme.seats else "Pinch up, clock again.")
    if any(_POPPED.search(reason.text) for reason in worked.reasons):
        said.append(_pop_words(units))
    front = _cut_face(worked, earlier)
    if hidden and front:
        rim = f"{surface_words(front, part, units)} near its rim"
        said.append(f"Then {rim}: {reading} or less.")
    if scheme.device.device == "soft jaws" and (open_to or instead):
        said.append("More than that: bore the jaws again.")
    return " ".join(said)


def _seated(worked: WorkedSetUp, against: str, units: Units) -> str:
    """Say how a face the jaws hide is seen to be home: by a feeler, or by the length it gives."""
    if worked.set_up.scheme.device.device != "soft jaws":
        feeler = plain(0.05, units)
        return f"Seat {against}: no {feeler} feeler to enter anywhere, spindle stopped."
    home = f"Tap {against} home on the step until it sounds solid: no feeler gets there."
    if not any(op.verb == "face" for op in worked.set_up.operations):
        return home
    alike = plain(_SEATED, units)
    return (
        f"{home} When faced, caliper the length at three places round: alike within {alike}, "
        "or the step was not clean."
    )


def _clock(
    scheme: Scheme, part: Part, units: Units, found: tuple[list[str], list[str], str]
) -> list[str]:
    """Say what to put the clock on: what stands out, else what was turned with it."""
    open_to, wanted, instead = found
    reading = _reading(scheme, units)
    over = f"{reading} or less over the turn, spindle turned by hand"
    if open_to:
        said = (
            f"{surface_words(name, part, units)}{_clock_at(scheme, part, name)}"
            for name in open_to
        )
        return [f"Clock {joined(tuple(said), 'then')}: {over}."]
    if instead:
        return [f"Clock {surface_words(instead, part, units)}, turned with it: {over}."]
    if wanted and scheme.device.device == "soft jaws":
        return ["The jaws are bored in place and hide the rest: nothing else to clock."]
    names = joined(tuple(surface_words(name, part, units) for name in wanted), "then")
    return [f"Clock what shows of {names}: {over}."] if wanted else []


def _pop_words(units: Units) -> str:
    """Say how a centre pop is brought to run true."""
    return (
        "Then the pop: the point of a centre finder in it, its tail on the tailstock centre, "
        f"clock on it close to the work: {plain(_POP, units)} or less over the turn, two jaws at "
        "a time."
    )


def scribe_words(worked: WorkedSetUp, part: Part, units: Units) -> str:
    """Say where a hole is scribed and popped before the work is held; empty where none is."""
    spots = [op.at[0] for op in worked.set_up.operations if op.at]
    if not spots or not any(_POPPED.search(reason.text) for reason in worked.reasons):
        return ""
    faces = worked.set_up.scheme.faces
    sides: tuple[Side, ...] = ("left", "bottom", "back")
    lines = tuple(
        f"{plain(_from_side(side, spots[0], part), units)} from the {side} face"
        for side in sides
        if abs(dot(OUTWARD[side], faces)) < _LEVEL
    )
    return (
        f"First, before it is gripped, scribe the hole's place, {joined(lines)}, with square, "
        "scriber and rule, and centre-pop it."
    )


def _from_side(side: Side, point: Vec3, part: Part) -> Millimetre:
    """Give how far a point lies inside the outermost face of a side [mm]."""
    out = OUTWARD[side]
    ends = [dot(corner, out) for one in part.surfaces for corner in (one.low, one.high)]
    return max(ends) - dot(point, out)


def _clock_at(scheme: Scheme, part: Part, name: str) -> str:
    """Say where on a surface the clock stands: a long round at two places, a face at its rim."""
    surface = _surface(name, part)
    if surface is None:
        return ""
    if surface.kind == "plane":
        return " near its rim"
    far = _stands_out(scheme, part, name)
    if far == math.inf:
        return ""
    return (
        " close to the jaws and at its far end" if far > _LONG else " at the middle of what shows"
    )


def _round(name: str, part: Part) -> bool:
    surface = _surface(name, part)
    return surface is not None and surface.kind == "cylinder"


def _surface(name: str, part: Part) -> Surface | None:
    return next((one for one in part.surfaces if one.name == name), None)


def _stands_out(scheme: Scheme, part: Part, name: str) -> Millimetre:
    """Tell how much of a round stands out of the jaws toward the tool; a face is all there."""
    surface = _surface(name, part)
    if surface is None or surface.kind == "plane" or name not in scheme.grips:
        return math.inf
    if not part.turned:
        return math.inf
    if scheme.faces[0] > 0:
        return surface.high[0] - scheme.grip_high
    return scheme.grip_low - surface.low[0]


def _turned_with(name: str, scheme: Scheme, part: Part, earlier: tuple[WorkedSetUp, ...]) -> str:
    """Find a round turned at the same setting as one the jaws hide, and standing out of them."""
    for one in earlier:
        made = [made for op in one.set_up.operations for made in op.makes]
        if name not in made:
            continue
        for other in made:
            surface = _surface(other, part)
            if surface is None or surface.kind != "cylinder" or surface.inside or other == name:
                continue
            middle = (surface.low[0] + surface.high[0]) / 2
            beyond = middle - scheme.grip_high if scheme.faces[0] > 0 else scheme.grip_low - middle
            if beyond > 0:
                return other
    return ""


def _cut_face(worked: WorkedSetUp, earlier: tuple[WorkedSetUp, ...]) -> str:
    """Name the face that looks at the tool, if it was cut before and is not cut again here."""
    side = "right" if worked.set_up.scheme.faces[0] > 0 else "left"
    now = {name for op in worked.set_up.operations for name in op.makes}
    made = {name for one in earlier for op in one.set_up.operations for name in op.makes}
    return side if side in made and side not in now else ""


def _at_the_mill(
    worked: WorkedSetUp, part: Part, units: Units, earlier: tuple[WorkedSetUp, ...]
) -> str:
    scheme = worked.set_up.scheme
    said: list[str] = []
    if scheme.device.device == "angle plate":
        said.append(
            f"Clock the plate's face end to end, table moving: {plain(_JAW, units)} or less."
        )
    if scheme.device.device == "clamps" and not part.turned and not scheme.true_on:
        said.append(_straight_words(worked, part, units, earlier))
    for name, reading in scheme.true_on:
        surface = _surface(name, part)
        called, most = surface_words(name, part, units), plain(reading, units, places=3)
        if surface is not None and surface.inside:
            said.append(
                f"Clock in the spindle, turned by hand, round {called}: {most} or less all round."
            )
        elif surface is not None and surface.kind != "plane" and not upright(scheme):
            said.append(
                f"Clock along the top of {called}, table moving, end to end: {most} or less."
            )
        else:
            said.append(f"Clock {called}: {most} or less.")
    return " ".join(said)


def mill_first_words(
    worked: WorkedSetUp, units: Units, earlier: tuple[WorkedSetUp, ...] = ()
) -> str:
    """Say what is tried of the mill itself before the work goes in; empty where nothing is.

    Its head the first time it is used, the vice's jaw wherever it comes on to the table; a vice
    that stays as it stands is clocked again only if it was moved.
    """
    scheme = worked.set_up.scheme
    if scheme.machine != "mill":
        return ""
    before = [one.set_up.scheme for one in earlier if one.set_up.scheme.machine == "mill"]
    said = []
    if not before:
        said.append(
            "Clock in the spindle swept round the bare table, turned by hand: "
            f"{plain(_TRAM, units)} or less all round."
        )
    if scheme.device.device != "vice":
        return " ".join(said)
    if before and before[-1].device.device == "vice":
        return "The vice as it stands; its fixed jaw clocked again only if it was moved."
    said.append(
        "Vice on; clock its fixed jaw end to end, table moving: "
        f"{plain(_JAW, units)} or less, bolts tight."
    )
    return " ".join(said)


def _straight_words(
    worked: WorkedSetUp, part: Part, units: Units, earlier: tuple[WorkedSetUp, ...]
) -> str:
    """Say how work on the table is set straight along it: by an edge that is cut, else by eye."""
    operations = worked.set_up.operations
    if all(op.verb == "mill face" and _is_top(op, worked, part) for op in operations):
        return ""
    made = {name for one in earlier for op in one.set_up.operations for name in op.makes}
    sides = [
        one
        for one in part.surfaces
        if one.name in made
        and one.kind == "plane"
        and not one.inside
        and abs(dot(one.direction, worked.set_up.scheme.faces)) < _LEVEL
    ]
    if not sides:
        return "Its long edge along the table by eye, a rule against a slot of the table."
    across = worked.set_up.scheme.across
    edge = min(sides, key=lambda one: (abs(dot(one.direction, across)), -_area(one)))
    way = "table" if abs(dot(edge.direction, across)) < _LEVEL else "cross-table"
    return (
        f"Clock along {surface_words(edge.name, part, units)}, {way} moving, end to end: "
        f"{plain(_JAW, units)} or less; then tighten and look again."
    )


_LEVEL: Final = 0.1
"""Share of a direction up to which it is square to another."""


def _is_top(op: Operation, worked: WorkedSetUp, part: Part) -> bool:
    """Tell whether what is milled is the face that looks up: it may lie askew on the table."""
    made = [s.direction for s in part.surfaces if s.name in op.makes and s.kind == "plane"]
    side = op.feature.rsplit(" ", maxsplit=1)[-1]
    ways = made or [out for name, out in OUTWARD.items() if name == side]
    return any(dot(way, worked.set_up.scheme.faces) > 1 - _LEVEL for way in ways)


def _area(surface: Surface) -> float:
    sides = sorted(high - low for low, high in zip(surface.low, surface.high, strict=True))
    return sides[-1] * sides[-2]


def upright(scheme: Scheme) -> bool:
    """Tell whether turned work stands on its end."""
    return abs(scheme.faces[0]) > 0.9  # noqa: PLR2004  (a direction along the axis)
