"""What every way of holding a casting shares: what it may cut, what must come before and after."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import OUTWARD, Side
from halfthou.planning.axes import Extents, axis_of, cross, extents_of_all, same
from halfthou.planning.cast.body import Body, Face
from halfthou.planning.model import Link, Operation, Refused, Scheme
from halfthou.planning.who_makes import one_reason_each
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import HoldingDevice, Workshop

RAW_SEAT: Final = 0.5
"""Where work seated on a raw face may lie, mm (usual practice)."""
ONCE: Final = "a raw face locates the first cut and no more: it never seats the same way twice"
SMALL_FACE: Final = 400.0
"""A face up to this size is little more than a spot face, mm² (usual practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What the ways of holding castings look at: the workshop, every body, first faces."""

    workshop: Workshop
    bodies: tuple[Body, ...]
    operations: tuple[Operation, ...]
    firsts: dict[str, Face]

    def first(self, body: Body) -> Face | None:
        """Give the face that is cut first on a body, everything else being set from it."""
        return self.firsts.get(body.name)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """One way to hold a body, before it is known what it can cut."""

    body: Body
    device: HoldingDevice
    key: str
    up: Vec3
    across: Vec3
    seat: Face | None
    grips: tuple[Face, ...]
    detail: str
    reason: str


def raw_first(hold: Hold, job: Job) -> bool:
    """Tell whether a hold is seated on a raw face, and so may cut only the first face."""
    return hold.seat is not None and hold.seat.stays_raw and job.first(hold.body) is not None


def work_of(body: Body, up: Vec3, machine: str) -> tuple[Operation, ...]:
    """Give what could be cut on a body with that direction toward the tool."""
    return tuple(
        op
        for op in body.operations
        if op.key in body.able
        and op.machine == machine
        and op.tools
        and any(same(d, up) for d in op.approach)
    )


def space_of(op: Operation) -> Extents | None:
    """Give the box round what an operation takes off."""
    return extents_of_all(op.region)


def spoils(hold: Hold, op: Operation) -> bool:
    """Tell whether an operation cuts a face that the work is held by."""
    return bool({f.name for f in held_by(hold)} & set(op.makes))


def held_by(hold: Hold) -> tuple[Face, ...]:
    """Give every face that the work is held by."""
    return (*((hold.seat,) if hold.seat is not None else ()), *hold.grips)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Where a hold bears: from ``low`` to ``high``, ``size`` across, and how true it is.

    ``error`` is the holding's own where it is not what the device leaves; ``grips`` name what
    the work is set true by, where that is not what touches it.
    """

    low: Millimetre
    high: Millimetre
    size: Millimetre = 0.0
    error: Millimetre | None = None
    true_on: tuple[tuple[str, Millimetre], ...] = ()
    jaws: tuple[Millimetre, Millimetre] | None = None
    parallels: tuple[Millimetre, Millimetre] | None = None
    minutes: float = 0.0
    grips: tuple[str, ...] | None = None


def scheme_of(hold: Hold, job: Job, can: Iterable[Operation], fit: Fit) -> Scheme | None:
    """Put a scheme together; None if it cuts nothing."""
    body, device = hold.body, hold.device
    raw = raw_first(hold, job)
    keys = _may(hold, job, can)
    if not keys:
        return None
    needed = [*body.need, *_needs(hold, body)]
    banned = [*body.ban, *(_after_the_first(body, keys) if raw else ())]
    return Scheme(
        key=hold.key,
        machine=device.machine,
        links=(Link(holder=device, detail=hold.detail),),
        faces=hold.up,
        across=hold.across,
        grips=tuple(f.name for f in hold.grips) if fit.grips is None else fit.grips,
        seats=(hold.seat.name,) if hold.seat is not None else (),
        grip_low=fit.low,
        grip_high=fit.high,
        grip_size=fit.size,
        inside=False,
        centre=False,
        stick_out=0.0,
        true_on=fit.true_on,
        error=fit.error if fit.error is not None else (RAW_SEAT if raw else device.trued),
        rock=0.0 if raw else device.face,
        minutes=device.minutes + fit.minutes,
        can=frozenset(keys),
        need=one_reason_each(p for p in needed if p[0] not in keys),
        ban=one_reason_each(p for p in banned if p[0] not in keys),
        piece_state=body.states,
        reason=hold.reason,
        jaws=fit.jaws,
        parallels=fit.parallels,
    )


def _may(hold: Hold, job: Job, can: Iterable[Operation]) -> set[str]:
    """Give what a hold is used for: on a raw seat only the cut of the first face."""
    keys, first = {op.key for op in can}, job.first(hold.body)
    if raw_first(hold, job) and first is not None:
        keys &= set(hold.body.makers(first))
    return keys


def _needs(hold: Hold, body: Body) -> list[tuple[str, str]]:
    """Give the cuts of every machined face that the work is held by."""
    return [
        (key, f"the {face.name} is held or rested on, so it is cut first")
        for face in held_by(hold)
        if not face.stays_raw
        for key in body.makers(face)
    ]


def _after_the_first(body: Body, keys: set[str]) -> list[tuple[str, str]]:
    return [(op.key, ONCE) for op in body.operations if op.region and op.key not in keys]


def level_from(up: Side) -> tuple[Side, ...]:
    """Give the four sides that lie level with that side up."""
    return tuple(s for s in OUTWARD if axis_of(OUTWARD[s]) != axis_of(OUTWARD[up]))


def along_of(up: Vec3, toward: Vec3) -> Vec3:
    """Give the direction along the jaws or table with the fixed jaw away from the person.

    ``toward`` looks from the work to what is behind it: cross(up, along) looks away.
    """
    return cross(toward, up)


def refused(hold_key: str, ops: Iterable[Operation], why: tuple[str, str]) -> list[Refused]:
    """Give one refusal for each operation."""
    return [Refused(scheme=hold_key, operation=op.key, reason=why[0], remedy=why[1]) for op in ops]
