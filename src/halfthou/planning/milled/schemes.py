"""Every way to hold a part cut from the solid: vice, clamps to the table, bench vice."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from halfthou.drawing.model import OUTWARD, Part, Side
from halfthou.planning.axes import axis_of, cross, other_side
from halfthou.planning.milled.block_in_lathe import schemes_block_in_lathe
from halfthou.planning.milled.held_sides import (
    SPOILT,
    Job,
    State,
    job_of,
    patch_on,
    share_cut,
    words,
)
from halfthou.planning.milled.in_vice import RAW_SEAT, cannot_cut, cannot_hold, scheme_of, vices
from halfthou.planning.milled.lump import SIDES
from halfthou.planning.milled.set_over import schemes_set_over
from halfthou.planning.milled.slants import out_of_reach, slant_of
from halfthou.planning.milled.upright_rounds import CHUCK_AND_DRILL
from halfthou.planning.model import Link, Operation, Refused, Scheme
from halfthou.planning.who_makes import one_reason_each
from halfthou.units import Millimetre
from halfthou.workshop.model import HoldingDevice, Workshop

CLAMP_WIDTH: Final = 15.0
"""How far a clamp reaches over the work, mm (usual practice)."""

CLAMPS_MOVED: Final = 8.0
"""Time to move the clamps without letting the work shift, minutes (usual practice)."""
LEAST_CLAMPED: Final = 3 * CLAMP_WIDTH
"""Least length between two clamps that leaves room to work, mm (usual practice)."""


def schemes_milled(
    part: Part, workshop: Workshop, operations: tuple[Operation, ...]
) -> tuple[tuple[Scheme, ...], tuple[Refused, ...]]:
    """Give every way to hold a block for its operations, and for what none can do: why not.

    Parameters
    ----------
    part :
        The part, its bodies blocks.
    workshop :
        For the vices and clamps it has.
    operations :
        All operations of the part.
    """
    job = job_of(part, workshop, out_of_reach(part, operations))
    slanted = job_of(part, workshop, operations)
    schemes: list[Scheme] = []
    refused: list[Refused] = []
    for device in workshop.holding:
        if device.device == "vice":
            for found, stopped in (_in_vice(job, device), schemes_set_over(slanted, device)):
                schemes += found
                refused += stopped
        elif device.device == "clamps" and device.machine == "mill":
            schemes += [s for s in _clamped(job, device) if s.can]
            schemes += _clamps_moved(job, device)
            refused += _not_on_the_mill(job, device)
    turned = schemes_block_in_lathe(job)
    schemes += [*turned[0], *bench_schemes(workshop, operations)]
    refused += turned[1]
    done = {key for scheme in schemes for key in scheme.can}
    left = [r for r in refused if r.operation not in done and r.reason]
    left += _without_tools(operations)
    return tuple(schemes), _one_of_a_kind(left)


def _one_of_a_kind(refused: list[Refused]) -> tuple[Refused, ...]:
    """Keep one refusal of each kind for an operation: the last, with the least metal on."""
    kinds = {(r.operation, re.sub(r"\d+", "", r.reason)): r for r in refused}
    return tuple(kinds.values())


def _in_vice(job: Job, device: HoldingDevice) -> tuple[list[Scheme], list[Refused]]:
    schemes: list[Scheme] = []
    refused: list[Refused] = []
    for one in vices(job, device):
        stopped = cannot_hold(one)
        above = job.from_above(one.up)
        if stopped is None:
            scheme = scheme_of(one)
            schemes += [scheme] if scheme is not None else []
            reasons = [(op, cannot_cut(one, op, _grip_of(scheme))) for op in above]
        else:
            reasons = [(op, stopped) for op in above]
        refused += [
            Refused(scheme=one.key(), operation=op.key, reason=why[0], remedy=why[1])
            for op, why in reasons
            if why is not None
        ]
    return schemes, refused


def _grip_of(scheme: Scheme | None) -> float:
    return scheme.grip_high - scheme.grip_low if scheme is not None else 0.0


def bench_schemes(workshop: Workshop, operations: tuple[Operation, ...]) -> list[Scheme]:
    """Give the bench vice, for sawing, filing and whatever else the hands do there."""
    own = frozenset(op.key for op in operations if op.machine == "bench")
    benches = [d for d in workshop.holding if d.machine == "bench"]
    if not own or not benches:
        return []
    device = benches[0]
    return [
        Scheme(
            key=device.name,
            machine="bench",
            links=(Link(holder=device, detail="soft jaws on finished faces"),),
            faces=(0.0, 1.0, 0.0),
            across=(1.0, 0.0, 0.0),
            grips=(),
            seats=(),
            grip_low=0.0,
            grip_high=0.0,
            grip_size=0.0,
            inside=False,
            centre=False,
            stick_out=0.0,
            true_on=(),
            error=device.trued,
            minutes=device.minutes,
            can=own,
            need=(),
            ban=(),
        )
    ]


def _clamped(job: Job, device: HoldingDevice) -> Iterator[Scheme]:
    """Give the ways to clamp the block down, the clamps on two opposite ends of its top."""
    for up in SIDES:
        for state in job.states(other_side(up)):
            for end in SIDES:
                level = axis_of(OUTWARD[end]) != axis_of(OUTWARD[up])
                roomy = job.lump.raw.length(OUTWARD[end]) >= LEAST_CLAMPED
                if level and roomy and end < other_side(end) and not _too_big(job, device, up):
                    yield _clamped_so(job, device, up, state, end)


def _too_big(job: Job, device: HoldingDevice, up: Side) -> bool:
    return bool(_why_too_big(job, device, up))


def _why_too_big(job: Job, device: HoldingDevice, up: Side) -> str:
    """Say why work does not go on the mill with that side up; nothing if it does."""
    raw = job.lump.raw
    flat = sorted(raw.length(d) for d in OUTWARD.values() if axis_of(d) != axis_of(OUTWARD[up]))
    room = [(max(m.travels), min(m.travels), m.nose_to_table) for m in job.workshop.mills]
    along, across, under = max(room, default=(device.largest, device.largest, device.largest))
    high = raw.length(OUTWARD[up])
    if flat[-1] > min(device.largest, along):
        return f"it is {flat[-1]:.0f} long and the mill's table travels {along:g}"
    if flat[0] > across:
        return f"it is {flat[0]:.0f} wide and the mill's cross-slide travels {across:g}"
    if high > under - CHUCK_AND_DRILL:
        return f"it is {high:.0f} high and {under:g} lie between spindle and table"
    return ""


def _not_on_the_mill(job: Job, device: HoldingDevice) -> list[Refused]:
    """Give the refusals of work that is too big for the machine."""
    return [
        Refused(
            scheme=f"{device.name}, {up} up",
            operation=op.key,
            reason=_why_too_big(job, device, up),
            remedy="a larger mill, or have it done outside",
        )
        for up in SIDES
        if _too_big(job, device, up)
        for op in job.from_above(up)
    ]


def _free_of_clamps(job: Job, up: Side, state: State, end: Side) -> frozenset[str]:
    """Give what can be cut with clamps on two ends of the top."""
    held = (up, other_side(up), end, other_side(end))
    kept = {key for side in held for key in job.cuts(side)}
    return frozenset(
        op.key
        for op in job.from_above(up)
        if op.key not in kept
        and (state != "raw" or (op.verb == "mill face" and op.stage != "finish"))
        and not _under_clamps(job, op, up, end)
    )


def _spoilt_seat(
    job: Job, up: Side, reading: Millimetre, can: frozenset[str]
) -> Iterator[tuple[str, str]]:
    """Give what would cut away the seat, and so must wait."""
    patch = patch_on(other_side(up), reading, job.lump.raw)
    flat = axis_of(OUTWARD[up])
    for op in job.operations:
        faced = op.verb == "mill face" and slant_of(job.part, op) is None
        if op.key in can or faced:
            continue
        if share_cut(job.spaces[op.key], patch, flat) > SPOILT:
            yield op.key, "it would cut away what the work rests on"


def _clamped_so(job: Job, device: HoldingDevice, up: Side, state: State, end: Side) -> Scheme:
    seat = other_side(up)
    can = _free_of_clamps(job, up, state, end)
    bottom = -job.reading(seat, state)
    need = [pair for pair in job.need(seat, state) if pair[0] not in can]
    ends = f"{end} and {other_side(end)} ends"
    return Scheme(
        key=f"{device.name}: {up} up, {words(seat, state)} down, clamps on the {ends}",
        machine="mill",
        links=(
            Link(holder=device, detail=f"on parallels clear of the holes, clamps on the {ends}"),
        ),
        faces=OUTWARD[up],
        across=cross(OUTWARD[end], OUTWARD[up]),
        grips=(job.surface(up, "milled" if "raw" not in job.states(up) else "raw"),),
        seats=(job.surface(seat, state),),
        grip_low=bottom,
        grip_high=job.lump.raw.most(OUTWARD[up]),
        grip_size=job.lump.raw.length(OUTWARD[up]),
        inside=False,
        centre=False,
        stick_out=0.0,
        true_on=(),
        error=RAW_SEAT if state == "raw" else device.trued,
        minutes=device.minutes,
        can=can,
        need=one_reason_each(need),
        ban=one_reason_each(
            [
                *[p for p in job.ban(seat, state) if p[0] not in can],
                *_spoilt_seat(job, up, -bottom, can),
            ]
        ),
        reason="too wide for the vice, or wanted flat on its whole underside",
    )


def _under_clamps(job: Job, op: Operation, up: Side, end: Side) -> bool:
    """Whether a cut from above comes where the clamps stand, on the whole width of both ends."""
    space = job.space[op.key]
    raw = job.lump.raw
    if space is None or op.verb == "mill face":
        return False
    out = OUTWARD[end]
    near = min(raw.most(out) - space.most(out), space.least(out) - raw.least(out))
    wide = space.length(cross(out, OUTWARD[up]))
    covers = wide > SPOILT * raw.length(cross(out, OUTWARD[up]))
    return covers and near < CLAMP_WIDTH


def _clamps_moved(job: Job, device: HoldingDevice) -> Iterator[Scheme]:
    """Give the ways to face a plate too wide for any vice: clamps on one end, then the other."""
    opening = max((d.largest for d in job.workshop.holding if d.device == "vice"), default=0.0)
    for up in SIDES:
        flat = [OUTWARD[s] for s in SIDES if axis_of(OUTWARD[s]) != axis_of(OUTWARD[up])]
        wide = min(job.lump.raw.length(d) for d in flat)
        keys = frozenset(op.key for op in job.from_above(up) if op.key in job.sides[up].face_cuts)
        if wide <= opening or not keys or _too_big(job, device, up):
            continue
        seat = other_side(up)
        for state in job.states(seat):
            first = frozenset(k for k in keys if k in job.sides[up].first_cuts)
            yield Scheme(
                key=f"{device.name}: {up} up, {words(seat, state)} down, clamps moved half-way",
                machine="mill",
                links=(
                    Link(holder=device, detail="clamps on one end, then one by one on the other"),
                ),
                faces=OUTWARD[up],
                across=flat[0],
                grips=(job.surface(up, "raw"),),
                seats=(job.surface(seat, state),),
                grip_low=-job.reading(seat, state),
                grip_high=job.lump.raw.most(OUTWARD[up]),
                grip_size=job.lump.raw.length(OUTWARD[up]),
                inside=False,
                centre=False,
                stick_out=0.0,
                true_on=(),
                error=RAW_SEAT if state == "raw" else device.trued,
                minutes=device.minutes + CLAMPS_MOVED,
                can=first if state == "raw" else keys,
                need=one_reason_each(job.need(seat, state)),
                ban=one_reason_each(job.ban(seat, state)),
                reason="the clamps are moved from one end to the other rather than bridge the cut",
            )


def _without_tools(operations: tuple[Operation, ...]) -> list[Refused]:
    return [
        Refused(
            scheme="",
            operation=op.key,
            reason=f"nothing in the workshop can {op.verb} this: size {op.cut_size:g} mm",
            remedy="put the tool in the workshop file once it is to hand",
        )
        for op in operations
        if not op.tools
    ]
