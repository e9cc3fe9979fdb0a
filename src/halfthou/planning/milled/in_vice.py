"""A block in the machine vice: which side up, which face to the fixed jaw, how high the jaws.

The fixed jaw and the parallels locate, the moving jaw only pushes: so the better face goes to
the fixed jaw, and a round bar lies at the moving one while the face there is raw. The jaws come
as high as they may without standing where the cutter goes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from halfthou.drawing.model import OUTWARD, Side
from halfthou.planning.axes import (
    Extents,
    axis_of,
    cross,
    other_side,
    side_toward,
)
from halfthou.planning.milled.held_sides import (
    SPOILT,
    THICKEST,
    Job,
    State,
    grips_on_parallels,
    patch_on,
    share_cut,
    thickest_parallel,
    words,
)
from halfthou.planning.milled.lump import SIDES
from halfthou.planning.milled.operations import GRIP_SHARE
from halfthou.planning.milled.slants import slant_of
from halfthou.planning.model import Link, Operation, Scheme
from halfthou.planning.who_makes import one_reason_each
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import HoldingDevice

HEAVY: Final = 1.5
"""A face with more than this to come off wants the work held deep, mm (usual practice)."""
HEAVY_SHARE: Final = 0.5
"""Least share of the standing height between the jaws for a heavy face (usual practice)."""
LEAST_GRIP: Final = 5.0
"""Least height of work between the jaws, mm (usual practice)."""
THIN_SHARE: Final = 0.6
"""Share of a thin plate's height that will do instead of ``LEAST_GRIP`` (usual practice)."""
THINNEST_GRIP: Final = 2.0
"""No plate is held by less between hard jaws. [mm]"""
CLEAR: Final = 1.0
"""Least gap between jaws and cutter, mm (usual practice)."""
END_OUT: Final = 3.0
"""How far an end stands out beside the jaws to be milled with the side of the cutter. [mm]"""
MOST_LENGTHS: Final = 2.5
"""Longest work that jaws hold by its middle, in widths of the jaws (usual practice)."""
LONG_AND_NARROW: Final = 1.3
"""Work longer than wide by more than this goes with its long way along the jaws."""
LARGE_FACE: Final = 0.6
"""A first cut is tried on faces of at least this share of the largest (usual practice)."""
PLATE: Final = 1.1
"""Work is turned over on raw edges only where its height is its least size, or nearly."""
LOW_PARALLEL: Final = 3.0
"""Least room under the work for a drill's point. [mm]"""
_PARALLEL: Final = 3.0
"""Thinnest parallel of a usual set (usual practice). [mm]"""
_NEARLY: Final = 1.0
"""The jaws may come so much less high where a set has no pair lower (usual practice). [mm]"""
RAW_SEAT: Final = 0.2
"""How far work held on raw faces may lie off, mm (usual practice)."""
CLOSE: Final = 1e-6
_ROUND_BAR: Final = 2.0
_DRILLING: Final = (
    "spot", "drill", "bore", "ream", "tap", "countersink", "counterbore", "spot-face",
)  # fmt: skip

Stopped: TypeAlias = tuple[str, str]
Out: TypeAlias = Literal["", "left", "right"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Vice:
    """A block in a vice: the side up, the side at the fixed jaw, the states of what is held."""

    job: Job
    device: HoldingDevice
    up: Side
    fixed: Side
    seat_state: State
    fixed_state: State
    moving_state: State
    out: Out = ""
    deep: bool = False

    @property
    def seat(self) -> Side:
        """The side on the parallels."""
        return other_side(self.up)

    @property
    def moving(self) -> Side:
        """The side at the moving jaw."""
        return other_side(self.fixed)

    @property
    def across(self) -> Vec3:
        """The part direction that lies along +x of the table."""
        return cross(OUTWARD[self.fixed], OUTWARD[self.up])

    @property
    def bottom(self) -> Millimetre:
        """Reading of the seat along ``up`` [mm]."""
        return -self.job.reading(self.seat, self.seat_state)

    @property
    def height(self) -> Millimetre:
        """Height of the work as it may stand, nothing cut from its top [mm]."""
        raw_top = self.job.lump.raw.most(OUTWARD[self.up])
        return raw_top - self.bottom

    @property
    def width(self) -> Millimetre:
        """Width of the work between the jaws [mm]."""
        fixed = self.job.reading(self.fixed, self.fixed_state)
        return fixed + self.job.reading(self.moving, self.moving_state)

    @property
    def located(self) -> bool:
        """Whether what locates is clean: then anything may be cut, else a first face only."""
        return "raw" not in (self.seat_state, self.fixed_state)

    def jaws_along(self) -> tuple[Millimetre, Millimetre]:
        """From where to where the jaws reach along ``across`` [mm]."""
        raw, part = self.job.lump.raw, self.job.lump.part
        half = self.device.jaw_width / 2
        middle = (raw.least(self.across) + raw.most(self.across)) / 2
        if self.out == "right":
            middle = part.most(self.across) - END_OUT - half
        elif self.out == "left":
            middle = part.least(self.across) + END_OUT + half
        return middle - half, middle + half

    def key(self) -> str:
        """Name the way of holding."""
        name = (
            f"{self.device.name}: {self.up} up, {words(self.fixed, self.fixed_state)} to the "
            f"fixed jaw, {words(self.seat, self.seat_state)} down"
        )
        if self.moving_state == "raw" and self.fixed_state != "raw":
            name += ", round bar at the moving jaw"
        if self.out:
            name += f", {side_toward(self.out_direction())} end out"
        if self.deep:
            name += ", held deep"
        return name

    def out_direction(self) -> Vec3:
        """Give the direction of the end that stands out beside the jaws."""
        x, y, z = self.across
        return self.across if self.out == "right" else (-x, -y, -z)


def vices(job: Job, device: HoldingDevice) -> Iterator[Vice]:
    """Give every way to put the block in the vice that a careful hand would think of."""
    for up in SIDES:
        for fixed in SIDES:
            if axis_of(OUTWARD[fixed]) == axis_of(OUTWARD[up]):
                continue
            for seat_state in job.states(other_side(up)):
                for fixed_state in job.states(fixed):
                    for moving_state in job.states(other_side(fixed)):
                        one = Vice(
                            job=job, device=device, up=up, fixed=fixed, seat_state=seat_state,
                            fixed_state=fixed_state, moving_state=moving_state,
                        )  # fmt: skip
                        if _sensible(one):
                            yield from _with_ends_out(one)


def _sensible(one: Vice) -> bool:
    """Tell whether the better face is at the fixed jaw; two raw faces are tried one way only."""
    if not _long_way_along_jaws(one):
        return False
    if one.fixed_state == "raw":
        first = one.moving_state == "raw" and one.fixed < one.moving
        return first and _worth_on_raw_jaws(one)
    return one.moving_state == "raw" or one.fixed == _better_to_locate(one)


def _long_way_along_jaws(one: Vice) -> bool:
    """Tell whether the longer way lies along the jaws, where the two differ enough to matter."""
    raw = one.job.lump.raw
    return raw.length(OUTWARD[one.fixed]) <= LONG_AND_NARROW * raw.length(one.across)


def _worth_on_raw_jaws(one: Vice) -> bool:
    """Tell whether a first cut is worth it here: a large face, or a plate turned over."""
    raw = one.job.lump.raw
    if one.job.lump.sawn > 0 and axis_of(OUTWARD[one.fixed]) == one.job.lump.long:
        return False  # a sawn end squares nothing
    sizes = sorted(raw.length(OUTWARD[side]) for side in SIDES[::2])
    upright = raw.length(OUTWARD[one.up])
    if one.seat_state == "milled":
        return upright <= sizes[0] * PLATE
    area, largest = sizes[0] * sizes[1] * sizes[2] / upright, sizes[1] * sizes[2]
    return area >= LARGE_FACE * largest


def _better_to_locate(one: Vice) -> Side:
    """Give the one of two clean faces that more of the drawing is measured from."""
    job = one.job

    def measured(side: Side) -> tuple[int, Side]:
        name = job.sides[side].surface
        times = sum(name in (d.a, d.b) for d in job.part.distances)
        times += sum(name in (r.surface, r.to) for r in job.part.requirements)
        return times, side

    return max(one.fixed, one.moving, key=measured)


def is_heavy(op: Operation) -> bool:
    """Tell whether an operation takes a thick layer off a face."""
    return op.verb == "mill face" and op.stage != "finish" and op.cut_size > HEAVY


def _with_ends_out(one: Vice) -> Iterator[Vice]:
    for way in _by_its_ends(one):
        yield way
        heavy = [op for op in one.job.from_above(one.up) if is_heavy(op)]
        if heavy and HEAVY_SHARE * one.height <= one.device.jaw_depth:
            yield replace(way, deep=True)


def _by_its_ends(one: Vice) -> Iterator[Vice]:
    yield one
    job, along = one.job, one.across
    short = job.lump.part.length(along) < one.device.jaw_width + 2 * END_OUT
    if not short or not one.located:
        return
    outs: tuple[Out, Out] = ("left", "right")
    for out in outs:
        way = replace(one, out=out)
        end = side_toward(way.out_direction())
        if any(op.key in job.sides[end].face_cuts for op in job.from_above(one.up)):
            yield way


def _least_grip(one: Vice) -> Millimetre:
    """Give how high the jaws must reach up the work to hold it [mm]."""
    usual = min(LEAST_GRIP, max(THINNEST_GRIP, THIN_SHARE * one.height))
    return max(usual, (HEAVY_SHARE if one.deep else GRIP_SHARE) * one.height)


def cannot_hold(one: Vice) -> Stopped | None:
    """Say why the vice cannot hold the work so, or None."""
    device = one.device
    if one.width > device.largest:
        return (
            f"the vice opens {device.largest:g} mm and the work is {one.width:.0f} across",
            "clamps to the table",
        )
    least = _least_grip(one)
    if least > device.jaw_depth:
        return (
            f"it stands {one.height:.0f} high and the jaws are {device.jaw_depth:g} deep",
            "lay it down and use the side of the cutter, or bolt it to an angle plate",
        )
    long = one.job.lump.raw.length(one.across)
    if long > MOST_LENGTHS * device.jaw_width:
        return (
            f"{long:.0f} long is too much for jaws {device.jaw_width:g} wide",
            "clamps to the table",
        )
    return None


def cannot_cut(one: Vice, op: Operation, grip: Millimetre) -> Stopped | None:
    """Say why an operation cannot be done so, the jaws bearing to ``grip`` mm, or None."""
    held = (one.seat, one.fixed, one.moving)
    if any(op.key in one.job.cuts(side) for side in held):
        return (f"the {one.seat}, {one.fixed} and {one.moving} are what it is held by", "")
    first_face = op.verb == "mill face" and op.stage != "finish"
    if not one.located and not first_face:
        return ("a raw face may locate a first face and no more", "square the block first")
    if is_heavy(op) and grip < HEAVY_SHARE * one.height - CLOSE:
        return (
            f"{op.cut_size:g} off a face wants half of what stands between the jaws",
            "hold it deeper, and again higher up for what is cut further down",
        )
    return _in_the_way(one, op, grip)


def _in_the_way(one: Vice, op: Operation, grip: Millimetre) -> Stopped | None:
    """Say what stands in the cutter's way, or what the cut would take from the hold."""
    space = one.job.space[op.key]
    if space is None:
        return None
    if _hits_jaws(one, space, one.bottom + grip):
        return (
            f"the cutter would run into the jaws, which must reach {grip:.0f} up to hold it",
            "hold it with another face up, or by clamps",
        )
    if op.through and op.verb in _DRILLING and not _drill_clears(one, op, space, grip):
        return ("the drill would come out in a parallel or the vice", "packing clear of the hole")
    flat = axis_of(OUTWARD[one.fixed])
    if any(share_cut(one.job.spaces[op.key], patch, flat) > SPOILT for patch in _held(one, grip)):
        return ("it would cut away what the jaws hold", "leave it for a later holding")
    return None


def _hits_jaws(one: Vice, space: Extents, jaw_top: Millimetre) -> bool:
    """Whether a cut reaches out sideways over the jaws, below their tops."""
    if space.least(OUTWARD[one.up]) >= jaw_top + CLEAR:
        return False
    low, high = one.jaws_along()
    if space.least(one.across) >= high + CLEAR or space.most(one.across) <= low - CLEAR:
        return False
    past_fixed = space.most(OUTWARD[one.fixed]) > one.job.reading(one.fixed, one.fixed_state)
    past_moving = space.most(OUTWARD[one.moving]) > one.job.reading(one.moving, one.moving_state)
    return past_fixed or past_moving


def _drill_clears(one: Vice, op: Operation, space: Extents, grip: Millimetre) -> bool:
    """Whether a drill coming out below misses the parallels, which lie along both jaws."""
    if space.least(OUTWARD[one.up]) > one.bottom:
        return True
    if one.device.jaw_depth - grip < LOW_PARALLEL:
        return False
    return _beside(one, space) >= _PARALLEL or op.verb == "spot"


def _beside(one: Vice, space: Extents) -> Millimetre:
    """Give the room that a cut through the work leaves between it and the nearer jaw [mm]."""
    inside = one.job.reading(one.fixed, one.fixed_state) - space.most(OUTWARD[one.fixed])
    other = one.job.reading(one.moving, one.moving_state) - space.most(OUTWARD[one.moving])
    return min(inside, other)


def _held(one: Vice, grip: Millimetre) -> tuple[Extents, Extents]:
    """Give the strips of the two gripped faces that the jaws bear on."""
    raw = one.job.lump.raw
    low, high = list(raw.low), list(raw.high)
    axis = axis_of(OUTWARD[one.up])
    if OUTWARD[one.up][axis] > 0:
        low[axis], high[axis] = one.bottom, one.bottom + grip
    else:
        low[axis], high[axis] = -one.bottom - grip, -one.bottom
    along = axis_of(one.across)
    start, end = one.jaws_along()
    if one.across[along] < 0:
        start, end = -end, -start
    low[along], high[along] = max(low[along], start), min(high[along], end)
    box = Extents(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))
    fixed = patch_on(one.fixed, one.job.reading(one.fixed, one.fixed_state), box)
    moving = patch_on(one.moving, one.job.reading(one.moving, one.moving_state), box)
    return fixed, moving


def best_grip(one: Vice) -> tuple[Millimetre, tuple[Operation, ...]]:
    """Give how high the jaws come, as high as a set of parallels lets them, and what is cut so."""
    least = _least_grip(one)
    most = min(one.device.jaw_depth, one.height - CLEAR)
    fit = tuple(op for op in one.job.from_above(one.up) if cannot_cut(one, op, least) is None)
    if not fit:
        return least, ()
    short = max(LEAST_GRIP, least - _NEARLY) if one.height > LEAST_GRIP + CLEAR else least
    for grip in grips_on_parallels(one.device, least=min(least, short), most=most):
        if all(cannot_cut(one, op, grip) is None for op in fit):
            return grip, fit
    return least, fit


def scheme_of(one: Vice) -> Scheme | None:
    """Give the scheme of a way to hold the work, or None if it cuts nothing so."""
    job, device = one.job, one.device
    grip, can = best_grip(one)
    if not can or (one.deep and not any(is_heavy(op) for op in can)):
        return None
    keys = frozenset(op.key for op in can)
    held = (
        (one.seat, one.seat_state), (one.fixed, one.fixed_state), (one.moving, one.moving_state)
    )  # fmt: skip
    need = [pair for side, state in held for pair in job.need(side, state)]
    ban = [pair for side, state in held for pair in job.ban(side, state)]
    ban += _raw_hold_comes_first(one)
    ban += _spoilers(one, grip, keys, {key for key, _ in need})
    along = job.lump.raw.length(one.across)
    return Scheme(
        key=one.key(),
        machine="mill",
        links=(Link(holder=device, detail=_detail(one, grip)),),
        faces=OUTWARD[one.up],
        across=one.across,
        grips=(job.surface(one.fixed, one.fixed_state), job.surface(one.moving, one.moving_state)),
        seats=(job.surface(one.seat, one.seat_state),),
        grip_low=one.bottom,
        grip_high=one.bottom + grip,
        grip_size=one.width,
        inside=False,
        centre=False,
        stick_out=max(0.0, along - device.jaw_width) / 2,
        true_on=(),
        error=_error(one),
        minutes=device.minutes + (_ROUND_BAR if one.moving_state == "raw" or one.out else 0.0),
        can=keys,
        need=one_reason_each(p for p in need if p[0] not in keys),
        ban=one_reason_each(p for p in ban if p[0] not in keys),
        reason=_reason(one),
        jaws=one.jaws_along(),
        out=one.out,
        out_by=_out_by(one) if one.out else 0.0,
        parallels=_parallels(one, grip, can),
    )


def _out_by(one: Vice) -> Millimetre:
    """Give how far an end stands out past the jaws as it is put in, raw metal still on [mm]."""
    way = one.out_direction()
    return END_OUT + one.job.lump.raw.most(way) - one.job.lump.part.most(way)


def _parallels(
    one: Vice, grip: Millimetre, can: tuple[Operation, ...]
) -> tuple[Millimetre, Millimetre]:
    """Give height and greatest thickness of what the work lies on, hard to the jaws."""
    raised = one.device.jaw_depth - grip
    if raised <= CLEAR:
        return 0.0, 0.0
    through = [op for op in can if op.through and op.verb in _DRILLING]
    room = [
        _beside(one, space) - _thread_over(op, space.length(OUTWARD[one.fixed]))
        for op in through
        if (space := one.job.space[op.key]) is not None
        and space.least(OUTWARD[one.up]) <= one.bottom
    ]
    beside = min(room, default=one.width / 2)
    return raised, max(_PARALLEL, min(THICKEST, thickest_parallel(beside)))


def _thread_over(op: Operation, wide: Millimetre) -> Millimetre:
    """Give how far a tap's thread stands out of the hole it is cut in, on one side [mm]."""
    return max(0.0, op.thread.major - wide) / 2 if op.thread is not None else 0.0


def _raw_hold_comes_first(one: Vice) -> list[tuple[str, str]]:
    """Give all facing, where everything held is raw: later there is a clean face to locate by."""
    if "raw" not in (one.seat_state, one.fixed_state) or "milled" in (
        one.seat_state, one.fixed_state, one.moving_state
    ):  # fmt: skip
        return []
    why = "a raw face locates the first cut; after it there is a clean one to locate by"
    return [(key, why) for side in SIDES for key in one.job.sides[side].face_cuts]


def _spoilers(
    one: Vice, grip: Millimetre, can: frozenset[str], needed: set[str]
) -> Iterator[tuple[str, str]]:
    """Give what would cut away the grip or the seat, and so must wait."""
    patches = [(p, axis_of(OUTWARD[one.fixed])) for p in _held(one, grip)]
    seat = patch_on(one.seat, -one.bottom, one.job.lump.raw)
    patches.append((seat, axis_of(OUTWARD[one.up])))
    for op in one.job.operations:
        if op.key in can or op.key in needed or op.machine != "mill":
            continue
        if op.verb == "mill face" and slant_of(one.job.part, op) is None:
            continue
        if any(share_cut(one.job.spaces[op.key], patch, flat) > SPOILT for patch, flat in patches):
            yield op.key, "it would cut away what the work is held by"


def _error(one: Vice) -> Millimetre:
    if not one.located:
        return RAW_SEAT
    return one.device.rehold if one.moving_state == "raw" else one.device.trued


def _reason(one: Vice) -> str:
    if one.fixed_state == "raw":
        return "the best raw face goes to the fixed jaw, a round bar to the moving one"
    if one.moving_state == "raw":
        return (
            f"the {one.fixed} is true and goes to the fixed jaw; a round bar at the moving jaw "
            "keeps the raw face there from tilting the work"
        )
    return f"the {one.fixed} goes to the fixed jaw, which is the one that is true"


def _detail(one: Vice, grip: Millimetre) -> str:
    raised = one.device.jaw_depth - grip
    text = "on parallels" if raised > CLEAR else "on the bed of the vice"
    if one.moving_state == "raw":
        text += ", round bar at the moving jaw"
    if one.out:
        text += ", packing of the same thickness at the other end of the jaws"
    return text + ", knocked down"
