"""Steps on castings: raw metal is nowhere to a tenth, so what comes off is measured, not told."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Distance, Part, Surface
from halfthou.planning.axes import dot
from halfthou.planning.cast.facing import CLEAN_UP
from halfthou.planning.model import Operation, Plan, Scheme
from halfthou.planning.worked import CoarseCheck, Measure, Step, WorkedSetUp
from halfthou.units import Millimetre

WHAT_IS_OVER: Final = (
    "what it is over as cast comes off here: fewer cuts or more than printed, none deeper, the "
    "first right under the skin; measure before the light last one"
)
HALF_OF_IT: Final = (
    "half of what the thickness as cast is over the {drawn} drawn comes off here, the rest from "
    "the other side: so both lie alike about the middle of the casting"
)
UNTIL_CLEAN: Final = "one cut; then as much again, " + CLEAN_UP
SEAT_CLEAN: Final = "no deeper than leaves a bright seat all round"
SHIFTED: Final = (
    "where the wall is out, shift the work by as much, bore a light cut and look again: there is "
    "metal left for that"
)
_LEAST_OFF: Final = 0.5
"""Least share of its stock that gets under the skin of a casting (usual practice)."""
_MOST_OFF: Final = 2.0
"""A casting with more than this share of its stock on a face is not this one (usual practice)."""
_FACED: Final = frozenset(("mill face", "face"))
_FLAT: Final = 0.99
_NEXT: Final[dict[str, str]] = {
    "mark out": (
        "the vice only for popping: to be marked it stands on the surface plate, on three jacks, "
        "set until what stays raw lies level; a piece of wood driven into the core to pop on"
    ),
    "strapped": (
        "the halves the way round they were cast, edge to edge by a square, a pop on the front "
        "of each as their mark; one strap across the middle of the top, back to front, holds "
        "both down"
    ),
    "angle plate": (
        "the plate clocked along the table and bolted down; clamps on the {ledge}, a jack under "
        "what overhangs"
    ),
    "on the faceplate": (
        "clamps on the {ledge}; the shelf set by a bar turned true in the spindle: from shelf to "
        "bar as much as from the {seat} to the bore, less half the bar; sideways until the "
        "popped line of the bore stands still against a scriber"
    ),
}


def on_a_casting(part: Part, plan: Plan, one: WorkedSetUp) -> WorkedSetUp:
    """Give a set-up of a casting with what raw metal asks: measured first, then cut by that."""
    if not plan.lumps:
        return one
    steps: list[Step] = []
    for step in one.steps:
        steps.append(_step(part, one, step, steps[-1] if steps else None))
    notes = tuple(note for note in (_held(one), _backed(part, plan, one)) if note)
    return replace(one, steps=tuple(steps), hold_notes=(*one.hold_notes, *notes))


def _step(part: Part, one: WorkedSetUp, step: Step, before: Step | None) -> Step:
    op = step.operations[0]
    if op.verb in _FACED and step.passes:
        return _faced(part, step, op)
    if op.verb == "bore" and op.stage == "finish" and op.machine == "lathe":
        return _bore_in_its_place(part, one.set_up.scheme, step, before)
    if op.verb == "spot-face" and _clean_up(part, op):
        return replace(step, remarks=(*step.remarks, SEAT_CLEAN))
    if op.verb == "ream":
        return replace(step, measures=tuple(m for m in step.measures if not _hidden(part, m)))
    return step


def _clean_up(part: Part, op: Operation) -> bool:
    return any(s.clean_up for s in part.surfaces if s.feature == op.feature)


def _hidden(part: Part, measure: Measure) -> bool:
    """Tell a depth that counts from a joint closed over it: no depth rod goes there."""
    ends = [
        part.surface(name) for d in part.distances if d.band == measure.band for name in (d.a, d.b)
    ]
    return measure.kind == "depth" and any(_of_a_joint(s) for s in ends)


def _of_a_joint(surface: Surface) -> bool:
    return surface.name != surface.feature and surface.name.endswith(f" {surface.feature}")


# --- faces ---


def _faced(part: Part, step: Step, op: Operation) -> Step:
    if op.remark.startswith(CLEAN_UP):
        return _until_clean(step)
    size = next((m for m in step.measures if m.kind == "length" and m.band is not None), None)
    if size is not None:
        return _by_what_is_over(part, step, size, op)
    far = _drawn_thickness(part, op)
    return step if far is None else _half_of_it(part, step, far)


def _until_clean(step: Step) -> Step:
    """Keep the first cut alone: how many more there are the skin tells."""
    first = step.passes[0]
    down = next((m for m in step.moves if m.slide == "knee"), None)
    moves = tuple(m for m in step.moves if m.slide != "knee" or m is down)
    remarks = tuple(one.replace(CLEAN_UP, UNTIL_CLEAN) for one in step.remarks)
    return replace(
        step,
        passes=(replace(first, count=1, settings=first.settings[:1]),),
        moves=moves,
        remarks=remarks,
    )


def _by_what_is_over(part: Part, step: Step, size: Measure, op: Operation) -> Step:
    """Ask for the size as cast before it is held; the cuts printed are those of its stock."""
    over = op.cut_size
    check = CoarseCheck(
        what="the same size as it is now, before it is held", means="caliper",
        expect=size.aim + over, within=part.blank.stock,
        low=size.aim + _LEAST_OFF * over, high=size.aim + _MOST_OFF * over,
    )  # fmt: skip
    told = () if op.machine == "mill" else (WHAT_IS_OVER,)  # the mill says it of every raw face
    return replace(step, check=check, remarks=(*step.remarks, *told))


def _half_of_it(part: Part, step: Step, far: Distance) -> Step:
    """Share what is over between two faces that lie alike about the casting's middle."""
    thick, stock = far.band.nominal, part.blank.stock
    as_cast = Measure(
        surface=step.operations[0].makes[0], gauge="caliper", aim=thick + 2 * stock,
        low=thick + 2 * stock, high=thick + 2 * stock, doubt=0.0, kind="length", decides=False,
        when="before gripping", where="as cast",
    )  # fmt: skip
    left = replace(
        as_cast, aim=thick + stock, low=thick + stock, high=thick + stock, when="now", where=""
    )
    told = HALF_OF_IT.format(drawn=far.band.text)
    return replace(step, measures=(as_cast, left), remarks=(*step.remarks, told))


def _drawn_thickness(part: Part, op: Operation) -> Distance | None:
    """Give the distance from a face that is made here to the one opposite, still to be cut."""
    for distance in part.distances:
        a, b = part.surface(distance.a), part.surface(distance.b)
        if {a.kind, b.kind} != {"plane"} or a.raw or b.raw or a.inside or b.inside:
            continue
        opposite = dot(a.direction, b.direction) < -_FLAT
        if opposite and len({a.name, b.name} & set(op.makes)) == 1:
            return distance
    return None


# --- the bore ---


def _bore_in_its_place(part: Part, scheme: Scheme, step: Step, before: Step | None) -> Step:
    """Look, before a bore's last cut, at its wall from what the seat lies on."""
    op = step.operations[0]
    names = {op.feature, *scheme.seats}
    drawn = next((d for d in part.distances if {d.a, d.b} == names), None)
    if drawn is None or not scheme.seats:
        return step
    wall = drawn.band.nominal - _across(op, before) / 2
    check = CoarseCheck(
        what=f"what the {scheme.seats[0]} lies on to the near wall before the last cut",
        means="caliper", expect=wall, within=drawn.band.width / 2,
    )  # fmt: skip
    return replace(step, check=check, remarks=(*step.remarks, SHIFTED))


def _across(op: Operation, before: Step | None) -> Millimetre:
    """Give how wide a bore is before its last cut."""
    if before is not None and before.operations[0].feature == op.feature and before.measures:
        return before.measures[0].aim
    return op.from_size


# --- how it is held ---


def _backed(part: Part, plan: Plan, one: WorkedSetUp) -> str:
    """Say that a face cut already, turned to the faceplate, sets the work square to the axis."""
    scheme = one.set_up.scheme
    if scheme.machine != "lathe" or scheme.device.device != "angle plate":
        return ""
    done = {n for s in plan.set_ups[: one.number - 1] for op in s.operations for n in op.makes}
    back = [
        s
        for s in part.surfaces
        if s.name in done and s.kind == "plane" and dot(s.direction, scheme.faces) < -_FLAT
    ]
    if not back:
        return ""
    return f"the {back[0].name} back on two equal parallels against the faceplate, so it is square"


def _held(one: WorkedSetUp) -> str:
    """Say what the holding's own words leave out."""
    scheme = one.set_up.scheme
    states = {state for _, state in scheme.piece_state}
    ledge = next((n for n in scheme.grips if n not in scheme.seats), "")
    seat = next(iter(scheme.seats), "")
    key = ""
    if any(op.verb == "mark out" for op in one.set_up.operations):
        key = "mark out"
    elif scheme.device.device == "clamps" and states == {"clamped"}:
        key = "strapped"
    elif scheme.device.device == "angle plate":
        key = "on the faceplate" if scheme.machine == "lathe" else "angle plate"
    return _NEXT[key].format(ledge=ledge, seat=seat) if key else ""
