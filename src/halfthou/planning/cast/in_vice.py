"""Castings in the machine vice: on parallels, astride a boss, or hung by a ledge on the jaws."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import OUTWARD, Side
from halfthou.planning.axes import axis_of, other_side
from halfthou.planning.cast.body import Body, Face
from halfthou.planning.cast.holding import (
    SMALL_FACE,
    Fit,
    Hold,
    Job,
    along_of,
    level_from,
    raw_first,
    refused,
    scheme_of,
    space_of,
    spoils,
    work_of,
)
from halfthou.planning.model import Operation, Refused, Scheme
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import HoldingDevice

LEAST_GRIP: Final = 10.0
"""Least height of work between the jaws, mm (usual practice)."""
_CLEAR: Final = 1.0
_PAIRS: Final[tuple[Millimetre, ...]] = tuple(float(high) for high in range(8, 42, 2))
"""Heights of the pairs in a usual set of parallels (usual practice). [mm]"""
_ON_THE_BED: Final = 0.5
"""Work raised no more than this lies on the bed of the vice. [mm]"""
_PARALLEL: Final = 6.0
"""How near the jaws a drill may come out before it meets a parallel. [mm]"""
_TALL: Final = 3.0
"""A face to be milled stands no higher than this many grips (usual practice)."""
_LONGEST: Final = 2.5
_ROUND_BAR: Final = 2.0
_LEAST_SEAT: Final = 300.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Vice:
    """A hold in the vice: where seat, bed and jaw tops are, up from the part's zero."""

    hold: Hold
    fixed: Face
    moving: Face
    seat_at: Millimetre
    jaw_top: Millimetre
    grip: Millimetre
    raised: Millimetre
    hung: bool


def in_vices(job: Job, body: Body) -> tuple[list[Scheme], list[Refused]]:
    """Give every way to hold a body in a machine vice, and why not where it cannot."""
    schemes: list[Scheme] = []
    left: list[Refused] = []
    for device in job.workshop.holding:
        if device.device != "vice" or device.machine != "mill":
            continue
        for up in OUTWARD:
            ops = work_of(body, OUTWARD[up], "mill")
            if not ops:
                continue
            for one in _ways(body, device, up, ops, left):
                can = [op for op in ops if _can(one, op, left)]
                scheme = _scheme(job, one, can)
                schemes += [scheme] if scheme is not None else []
    return schemes, left


def _ways(
    body: Body,
    device: HoldingDevice,
    up: Side,
    ops: tuple[Operation, ...],
    left: list[Refused],
) -> Iterator[_Vice]:
    for seat in body.looking(other_side(up)):
        if seat.area < _LEAST_SEAT:
            continue
        for fixed, moving in _pairs(body, up):
            key = f"{device.name}: {body.name}, {up} up on the {seat.name}, {fixed.name} to jaw"
            wide = fixed.at + moving.at
            if wide > device.largest:
                why = (
                    f"the vice opens {device.largest:g} mm and the work is {wide:.0f} across",
                    "clamps to the table, or an angle plate",
                )
                left += refused(key, ops, why)
                continue
            yield from _placed(body, device, up, seat, fixed, moving, key)


def _pairs(body: Body, up: Side) -> Iterator[tuple[Face, Face]]:
    """Give opposite faces for the jaws, a machined one to the fixed jaw."""
    for side in level_from(up):
        for a in body.looking(side):
            for b in body.looking(other_side(side)):
                first = (not a.stays_raw, side in ("back", "left", "bottom"))
                second = (not b.stays_raw, b.side in ("back", "left", "bottom"))
                if first > second and a.at + b.at > LEAST_GRIP:
                    yield a, b


def _placed(  # noqa: PLR0917  (where one way lies)
    body: Body, device: HoldingDevice, up: Side, seat: Face, fixed: Face, moving: Face, key: str
) -> Iterator[_Vice]:
    """Say where jaws and seat come, if the jaws find metal to hold."""
    u, out = OUTWARD[up], OUTWARD[fixed.side]
    along = along_of(u, out)
    wide = _overlap(fixed, moving, along)
    if wide[1] - wide[0] < LEAST_GRIP or body.box.length(along) > _LONGEST * device.jaw_width:
        return
    low, high = _overlap(fixed, moving, u)
    under = -seat.at - body.box.least(u)
    between = seat.own.least(out) < fixed.at - _CLEAR and seat.own.most(out) > -moving.at + _CLEAR
    hung = under > device.jaw_depth or not between or _wider(seat, fixed, moving, out)
    proud = _proud(body, fixed, moving, u)
    top, raised = _tops(device, seat, under, high, None if hung else proud)
    grip = top - max(low, top - device.jaw_depth)
    if grip < LEAST_GRIP or any(p < top - _CLEAR / 2 for p in proud):
        return
    hold = Hold(
        body=body,
        device=device,
        key=key,
        up=u,
        across=along,
        seat=seat,
        grips=(fixed, moving),
        detail=_detail(seat, under, raised, hung=hung),
        reason=_reason(seat, fixed),
    )
    yield _Vice(
        hold=hold,
        fixed=fixed,
        moving=moving,
        seat_at=-seat.at,
        jaw_top=top,
        grip=grip,
        raised=raised,
        hung=hung,
    )


def _tops(
    device: HoldingDevice,
    seat: Face,
    under: Millimetre,
    high: Millimetre,
    proud: list[Millimetre] | None,
) -> tuple[Millimetre, Millimetre]:
    """Give how high the jaws reach, and how far the seat is raised; nothing proud: it hangs."""
    if proud is None:
        raised = max(0.0, under - device.jaw_depth + _CLEAR)
        return min(-seat.at - raised, high), raised
    above = [p - _CLEAR for p in proud if p > -seat.at]
    hangs = under + _CLEAR if under > 0 else 0.0
    top = min([device.jaw_depth - seat.at - hangs, high - _CLEAR, *above])
    raised = device.jaw_depth - seat.at - top
    if raised < _ON_THE_BED:
        return top, raised
    usual = next((pair for pair in _PAIRS if pair >= raised), raised)
    return device.jaw_depth - seat.at - usual, usual


def _proud(body: Body, fixed: Face, moving: Face, up: Vec3) -> list[Millimetre]:
    """Give where metal begins, going up, that stands out past a face to be gripped."""
    return [
        box.least(up)
        for box in body.metal
        if any(box.most(OUTWARD[f.side]) > f.at + _CLEAR / 2 for f in (fixed, moving))
    ]


def _overlap(a: Face, b: Face, way: Vec3) -> tuple[Millimetre, Millimetre]:
    """Give from where to where two faces stand opposite each other along a way."""
    return max(a.own.least(way), b.own.least(way)), min(a.own.most(way), b.own.most(way))


def _wider(seat: Face, fixed: Face, moving: Face, out: Vec3) -> bool:
    """Tell whether a seat reaches out over the jaws on both sides."""
    return seat.own.most(out) > fixed.at + LEAST_GRIP and seat.own.least(out) < -(
        moving.at + LEAST_GRIP
    )


def _detail(seat: Face, under: Millimetre, raised: Millimetre, *, hung: bool) -> str:
    raw = ", three slips of packing, so that it cannot rock" if seat.stays_raw else ""
    if hung:
        packed = f" on packing {raised:.0f} high" if raised > 0 else ""
        return f"hung between the jaws, the {seat.name} on the jaw tops{packed}{raw}"
    astride = ", the parallels either side of what stands below" if under > 0 else ""
    return f"the {seat.name} on parallels{astride}{raw}"


def _reason(seat: Face, fixed: Face) -> str:
    if seat.stays_raw:
        return (
            f"the first cut is set by the {seat.name}, which stays as cast: "
            "machined and cast then meet evenly"
        )
    if fixed.stays_raw:
        return f"it stands on the {seat.name}, which is cut; the jaws only hold it"
    return f"the {fixed.name} is cut and goes to the fixed jaw"


def _can(one: _Vice, op: Operation, left: list[Refused]) -> bool:
    why = _cannot(one, op)
    if why is not None and why[0]:
        left += refused(one.hold.key, (op,), why)
    return why is None


def _cannot(one: _Vice, op: Operation) -> tuple[str, str] | None:
    """Say why an operation cannot be done so; None where it can."""
    hold, space = one.hold, space_of(op)
    u = hold.up
    if spoils(hold, op):
        return ("it is one of the faces that the work is held by", "")
    if space is None:
        return None
    if space.least(u) < one.jaw_top + _CLEAR and _over_jaws(one, op):
        return ("the cutter would run into the jaws", "hold it another way up, or by clamps")
    stands_on = one.seat_at if one.hung else one.jaw_top - one.grip
    height = space.least(u) - stands_on
    big = (
        op.verb == "mill face"
        and space.length(hold.across) * space.length(OUTWARD[one.fixed.side]) > 4 * SMALL_FACE
    )
    if big and height > _TALL * one.grip:
        return (
            f"the face stands {height:.0f} up and the jaws hold {one.grip:.0f} of it",
            "clamps on the table",
        )
    if (
        op.through
        and op.verb != "spot"
        and space.least(u) < one.seat_at
        and _meets_parallel(one, op)
    ):
        return ("the drill would come out in a parallel", "packing clear of the hole")
    return None


def _over_jaws(one: _Vice, op: Operation) -> bool:
    space = space_of(op)
    if space is None:
        return False
    return (
        space.most(OUTWARD[one.fixed.side]) > one.fixed.at
        or space.most(OUTWARD[one.moving.side]) > one.moving.at
    )


def _meets_parallel(one: _Vice, op: Operation) -> bool:
    space = space_of(op)
    if space is None or one.hung:
        return False
    return (
        one.fixed.at - space.most(OUTWARD[one.fixed.side]) < _PARALLEL
        or one.moving.at - space.most(OUTWARD[one.moving.side]) < _PARALLEL
    )


def _scheme(job: Job, one: _Vice, can: list[Operation]) -> Scheme | None:
    out = OUTWARD[one.fixed.side]
    middle = (one.fixed.own.least(one.hold.across) + one.fixed.own.most(one.hold.across)) / 2
    half = one.hold.device.jaw_width / 2
    raw = raw_first(one.hold, job)
    return scheme_of(
        one.hold,
        job,
        can,
        Fit(
            low=one.jaw_top - one.grip,
            high=one.jaw_top,
            size=one.fixed.at + one.moving.at,
            error=None if raw else _error(one),
            jaws=(middle - half, middle + half),
            parallels=None if one.hung else (max(0.0, one.raised), _PARALLEL),
            minutes=_ROUND_BAR if raw or axis_of(out) < 0 else 0.0,
        ),
    )


def _error(one: _Vice) -> Millimetre:
    device = one.hold.device
    return device.rehold if one.fixed.stays_raw else device.trued
