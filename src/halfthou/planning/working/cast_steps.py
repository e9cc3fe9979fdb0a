"""Steps on castings: raw metal is nowhere to a tenth, so what comes off is measured, not told."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import OUTWARD, Distance, Part, Side, Surface
from halfthou.planning.axes import dot, extents_of
from halfthou.planning.cast.facing import CLEAN_UP
from halfthou.planning.cast.reach import CENTRE_DRILL, needed_out, off_the_wall, past_reach
from halfthou.planning.model import Operation, Plan, Scheme
from halfthou.planning.worked import CoarseCheck, Measure, Step, WorkedSetUp
from halfthou.planning.working.cast_zero import on_its_boss, over_raw_faces
from halfthou.planning.working.words import BED_STOP, CHUCK_CLEAR, LANES, LANES_FROM_MIDDLE
from halfthou.units import Millimetre

WHAT_IS_OVER: Final = (
    "what it is over as cast comes off here: fewer cuts or more than printed, none deeper, the "
    "first right under the skin; measure before the light last one"
)
HALF_OF_IT: Final = (
    "half of what the thickness as cast is over the {drawn} drawn comes off here, the rest from "
    "the other side: so both lie alike about the middle of the casting"
)
UNTIL_CLEAN: Final = "one cut; a second as deep only if skin shows: height free"
ALONE: Final = "the {only} alone: what lies lower stays as cast"
SEAT_CLEAN: Final = "no deeper than leaves a bright seat all round"
SHIFTED: Final = (
    "where that wall is out by more than 0.03, shift the work, with what it lies on, by as much "
    "by the clock, bore a light cut and look again: there is metal left for that"
)
OVER_THE_WALL: Final = (
    "wall by micrometer over the shank of a drill of about 5, laid along the bore, its "
    "diameter taken off: a flat anvil bridges the curve"
)
COMES_OUT_CLEAR: Final = (
    "saddle's stop clamped on the bed, tried with the spindle still, turned by hand: the tool "
    "comes out between the parallels, short of the faceplate, its holder clear of the work"
)
SLIM: Final = (
    "no chuck comes down beside the wall: the centre drill in a holder made of bar not over "
    "Ø{across}, a grub screw in its side, {out} out of the chuck at the least"
)
LONG_DRILL: Final = (
    "tool {out} out of its chuck at the least, a long one: the chuck stays over what stands "
    "beside the hole"
)
_LEAST_OFF: Final = 0.5
"""Least share of its stock that gets under the skin of a casting (usual practice)."""
_MOST_OFF: Final = 2.0
"""A casting with more than this share of its stock on a face is not this one (usual practice)."""
_FACED: Final = frozenset(("mill face", "face"))
_FLAT: Final = 0.99
MIDDLE_OF_THE_FACE: Final = (
    "lanes from the middle of the face to be cut, {far} from the plate: cutter over it by rule, "
    "that dial to 0"
)
IN_THE_CHUCK: Final = (
    "tap marked {deep} from its end, by felt pen; started square in the drill chuck three or four "
    "threads, spindle in neutral, turned by hand; then let go of, and on by the wrench to the mark"
)
_STRAP_OVER: Final = 20
"""Most a strap with its nuts stands over the face drilled beside it, mm (usual practice)."""
_CLEAR_OF_IT: Final = 2
_SHANK: Final[Millimetre] = 5.0
_SPAN: Final = 25
_SHELF_FREE: Final = 8
"""What a shelf leaves free of the work for a micrometer's anvil, mm (usual practice)."""
LEAST_BEHIND: Final = 6
"""Least thickness of parallels behind work that is bored right through, mm (usual practice)."""
_NEXT: Final[dict[str, str]] = {
    "mark out": (
        "the vice only for popping: to be marked it stands on the surface plate, on three jacks, "
        "set until what stays raw lies level, for the lines the other way turned on its side "
        "against an angle plate; two castings are marked apart, each by itself; a piece of wood "
        "driven into the core to pop on"
    ),
    "strapped": (
        "the halves the way round they were cast, edge to edge by a square, a pop on the front "
        "of each as their mark; a clamp on what stands out low at either end holds the "
        "lower; then one strap, not over 20 wide, across the middle of the top, back to front, a "
        "short stud at each of its ends so that the chuck clears it, holds the upper down on it; "
        "strap, nuts and studs together not over {over} above the face drilled, every tool out "
        "of its chuck by its depth and {out} more: centre drills in a long slim holder"
    ),
    "angle plate": (
        "the plate clocked along the table and bolted down, its top lower than the cut; clamps on "
        "the {ledge} draw the work against it; before they are tight its long edge level with the "
        "table by a scribing block, end to end within 0.2; a jack under what overhangs; "
        "clamps, nuts and studs all below the {foot}'s upper edge; the cutter wound round its "
        "whole way by hand first, spindle stopped"
    ),
    "on the faceplate": (
        "a bar turned true with its own taper shank in the spindle, thin enough to go through the "
        "core, is left in under the faceplate; the shelf set from it by telescopic gauge and "
        "micrometer, within 0.02: from shelf to bar {high} less half the bar; clamps on the "
        "{ledge}; sideways until both sides of the work stand alike from the bar, by caliper, "
        "within 0.2; then the bar knocked out from behind; the shelf ends {free} short of "
        "the work's outer face: there a micrometer goes over the wall"
    ),
}


def on_a_casting(part: Part, plan: Plan, one: WorkedSetUp) -> WorkedSetUp:
    """Give a set-up of a casting with what raw metal asks: measured first, then cut by that."""
    if not plan.lumps:
        return one
    steps: list[Step] = []
    for step in one.steps:
        told = _far_out(plan, one, _step(part, plan, one, step, steps[-1] if steps else None))
        steps.append(on_its_boss(part, _from_cut_edges(part, _made_before(plan, one), told)))
    middle = _lanes_from(part, one)
    steps = [_lanes_told(step, middle) for step in steps] if middle else steps
    one = over_raw_faces(part, _made_before(plan, one), one)
    notes = tuple(note for note in (_held(part, one), _backed(part, plan, one)) if note)
    return replace(one, steps=tuple(steps), hold_notes=(*one.hold_notes, *notes))


def _step(part: Part, plan: Plan, one: WorkedSetUp, step: Step, before: Step | None) -> Step:
    op = step.operations[0]
    if op.verb in _FACED and step.passes:
        return _faced(part, step, op)
    if op.verb == "bore" and op.machine == "lathe":
        step = _swung(one.set_up.scheme, _burrs_where_they_meet(plan, step))
        return _wall_of_the_bore(part, one.set_up.scheme, step, before)
    if op.verb == "spot-face" and _clean_up(part, op):
        return replace(step, remarks=(*step.remarks, SEAT_CLEAN))
    if op.verb == "tap" and op.machine == "mill":
        return _by_the_mark(step)
    if op.verb == "ream":
        return replace(step, measures=tuple(m for m in step.measures if not _hidden(part, m)))
    return step


def _by_the_mark(step: Step) -> Step:
    """Tap by a mark on the tap: only its start is in the chuck, no quill tells its depth."""
    op = step.operations[0]
    kept = tuple(one for one in step.remarks if one != op.remark)
    moves = tuple(one for one in step.moves if one.slide != "quill")
    return replace(step, moves=moves, remarks=(IN_THE_CHUCK.format(deep=f"{op.ends:g}"), *kept))


def _far_out(plan: Plan, one: WorkedSetUp, step: Step) -> Step:
    """Say how far a tool must stand out where a wall beside the hole would meet the chuck."""
    op = step.operations[0]
    held = {name for name, _ in one.set_up.scheme.piece_state}
    lumps = [lump for lump in plan.lumps if lump.name in held]
    metal = tuple(extents_of(r) for lump in lumps for r in lump.metal)
    if op.machine != "mill" or not op.at:
        return step
    out = needed_out(metal, op)
    if op.verb == "spot" and CENTRE_DRILL < out < math.inf:
        across = math.floor(2 * (off_the_wall(metal, op) - 1.0))
        told = SLIM.format(across=across, out=math.ceil(out))
        return replace(step, remarks=(*step.remarks, told))
    if not past_reach(metal, op):
        return step
    out = math.ceil(out)
    return replace(step, remarks=(*step.remarks, LONG_DRILL.format(out=out)))


def _made_before(plan: Plan, one: WorkedSetUp) -> set[str]:
    return {n for s in plan.set_ups[: one.number - 1] for op in s.operations for n in op.makes}


def _from_cut_edges(part: Part, made: set[str], step: Step) -> Step:
    """Leave out a place told from an edge that is still to be cut: it is nowhere to a tenth."""
    uncut = {f"from the {side} face" for side in OUTWARD if _still_raw(part, made, side)}
    kept = tuple(
        m for m in step.measures if m.kind != "position" or not m.where.endswith(tuple(uncut))
    )
    check = step.check
    if check is not None and uncut and check.what.endswith(tuple(uncut)):
        check = None
    return replace(step, measures=kept, check=check)


def _still_raw(part: Part, made: set[str], side: Side) -> bool:
    """Tell whether the outermost face of a side is to be cut, and is not yet."""
    out = OUTWARD[side]
    faces = [s for s in part.surfaces if s.kind == "plane" and dot(s.direction, out) > _FLAT]
    last = max(faces, key=lambda s: dot(s.point, out), default=None)
    return last is not None and not last.raw and last.name not in made


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
        return _until_clean(part, step)
    size = next((m for m in step.measures if m.kind == "length" and m.band is not None), None)
    if size is not None:
        return _by_what_is_over(part, step, size, op)
    far = _drawn_thickness(part, op)
    return step if far is None else _half_of_it(part, step, far)


def _until_clean(part: Part, step: Step) -> Step:
    """Keep the first cut alone: how many more there are the skin tells."""
    first = step.passes[0]
    down = next((m for m in step.moves if m.slide == "knee"), None)
    moves = tuple(m for m in step.moves if m.slide != "knee" or m is down)
    remarks = [one.replace(CLEAN_UP, UNTIL_CLEAN) for one in step.remarks]
    only = {part.surface(n).feature.replace("-", " ") for n in step.operations[0].makes}
    remarks.append(ALONE.format(only=" and ".join(sorted(only))))
    return replace(
        step,
        passes=(replace(first, count=1, settings=first.settings[:1]),),
        moves=moves,
        remarks=tuple(remarks),
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
    last = step.passes[-1].leaves
    passes = tuple(replace(p, leaves=p.leaves - last + thick + stock) for p in step.passes)
    left = replace(
        as_cast, aim=thick + stock, low=thick + stock, high=thick + stock, when="now", where=""
    )
    told = HALF_OF_IT.format(drawn=far.band.text)
    return replace(step, passes=passes, measures=(as_cast, left), remarks=(*step.remarks, told))


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


def _burrs_where_they_meet(plan: Plan, step: Step) -> Step:
    """Leave out the clearing of holes that lie either side of a bore and do not come into it."""
    own = [extents_of(r) for r in step.operations[0].region]
    holes: dict[str, bool] = {}
    for op in (op for s in plan.set_ups for op in s.operations if op.at):
        meets = any(extents_of(r).overlaps(bore) for r in op.region for bore in own)
        holes[op.feature] = holes.get(op.feature, False) or meets
    clear = tuple(f"through the {name} hole" for name, meets in holes.items() if not meets)
    kept = tuple(r for r in step.remarks if not any(words in r for words in clear))
    return replace(step, remarks=kept)


def _swung(scheme: Scheme, step: Step) -> Step:
    """Say what a boring tool comes out into where no chuck is on the nose."""
    if scheme.device.device != "angle plate":
        return step
    told = [one for one in step.remarks if one not in {CHUCK_CLEAR, BED_STOP}]
    return replace(step, remarks=(*told, COMES_OUT_CLEAR))


def _wall_of_the_bore(part: Part, scheme: Scheme, step: Step, before: Step | None) -> Step:
    """Look, while there is metal left, at a bore's wall from what the seat lies on.

    With a rough step before it that is where it is looked at; a bore that has no look at its
    size before the last cut has it there.
    """
    op = step.operations[0]
    names = {op.feature, *scheme.seats}
    drawn = next((d for d in part.distances if {d.a, d.b} == names), None)
    if drawn is None or not scheme.seats:
        return step
    if op.stage == "rough":
        size = next((m.aim for m in step.measures if m.kind == "bore"), op.cut_size)
        wall = drawn.band.nominal - size / 2
        look = Measure(
            surface=op.feature, gauge=_over_a_shank(wall), aim=wall, low=wall, high=wall,
            doubt=0.0, kind="length", decides=False,
            where=f"from the {scheme.seats[0]} face to the near wall",
        )  # fmt: skip
        told = (*step.remarks, OVER_THE_WALL, SHIFTED)
        return replace(step, measures=(*step.measures, look), remarks=told)
    if before is not None and before.operations[0].feature == op.feature:
        return replace(step, measures=(*step.measures, _as_it_came(scheme, drawn, op)))
    check = CoarseCheck(
        what=f"what the {scheme.seats[0]} lies on to the near wall before the last cut",
        means="caliper", expect=drawn.band.nominal - op.from_size / 2,
        within=drawn.band.width / 2,
    )  # fmt: skip
    return replace(step, check=check, remarks=(*step.remarks, SHIFTED))


def _over_a_shank(wall: Millimetre) -> str:
    """Name the micrometer that goes over a wall and a drill's shank laid on it."""
    least = int((wall + _SHANK) // _SPAN) * _SPAN
    return f"micrometer {least}-{least + _SPAN}"


def _as_it_came(scheme: Scheme, drawn: Distance, op: Operation) -> Measure:
    """Ask for the drawn distance itself once the bore is finished, as it is written down."""
    band = drawn.band
    wall = band.middle - op.cut_size / 2
    return Measure(
        surface=op.feature, gauge=_over_a_shank(wall), aim=band.middle, low=band.low,
        high=band.high, doubt=0.0, kind="length", band=band,
        where=f"wall from the {scheme.seats[0]} face, and half the bore",
    )  # fmt: skip


# --- how it is held ---


def _backed(part: Part, plan: Plan, one: WorkedSetUp) -> str:
    """Say that a face cut already, turned to the faceplate, sets the work square to the axis."""
    scheme = one.set_up.scheme
    if scheme.machine != "lathe" or scheme.device.device != "angle plate":
        return ""
    done = _made_before(plan, one)
    back = [
        s
        for s in part.surfaces
        if s.name in done and s.kind == "plane" and dot(s.direction, scheme.faces) < -_FLAT
    ]
    if not back:
        return ""
    return (
        f"the {back[0].name} face on two equal parallels against the faceplate, so it is square: "
        f"they are {LEAST_BEHIND} thick or more, and stand clear of the bore on both sides"
    )


def _held(part: Part, one: WorkedSetUp) -> str:
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
    bores = {op.feature for op in one.set_up.operations if op.verb == "bore"}
    drawn = next((d for d in part.distances if seat in {d.a, d.b} and bores & {d.a, d.b}), None)
    high = f"{drawn.band.nominal:g}" if drawn is not None else f"as from the {seat} to the bore"
    return (
        _NEXT[key].format(
            ledge=ledge, seat=seat, high=high, over=_STRAP_OVER, out=_STRAP_OVER + _CLEAR_OF_IT,
            foot=_feature_of(part, ledge), free=_SHELF_FREE,
        )
        if key
        else ""
    )  # fmt: skip


def _feature_of(part: Part, name: str) -> str:
    return next((s.feature for s in part.surfaces if s.name == name), "work")


def _lanes_told(step: Step, middle: str) -> Step:
    """Count lanes from the middle of the face itself: that of the work lies elsewhere."""
    if LANES_FROM_MIDDLE not in step.remarks:
        return step
    rest = tuple(one for one in step.remarks if one != LANES_FROM_MIDDLE)
    return replace(step, remarks=(*rest, middle, LANES))


def _lanes_from(part: Part, one: WorkedSetUp) -> str:
    """Say how far the middle of a face cut on an angle plate is from that plate."""
    scheme = one.set_up.scheme
    seat = next((s for s in part.surfaces if s.name in scheme.seats), None)
    cut = [n for op in one.set_up.operations if op.verb == "mill face" for n in op.makes]
    face = next((s for s in part.surfaces if s.name in cut), None)
    if seat is None or face is None or scheme.device.device != "angle plate":
        return ""
    low, high = (dot(corner, seat.direction) for corner in (face.low, face.high))
    far = abs((low + high) / 2 - dot(seat.point, seat.direction))
    return MIDDLE_OF_THE_FACE.format(far=f"{far:g}")
