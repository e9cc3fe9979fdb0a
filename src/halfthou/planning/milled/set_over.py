"""A block in the vice turned on the table: one end out beside the jaws, its slants milled there.

The work is gripped square and lies on a face square to the slant; only the vice is turned. One
grip does for every slant at that end: the vice is set over anew for each.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import OUTWARD, AngledFace
from halfthou.planning.axes import Extents, axis_of, dot, same, side_toward
from halfthou.planning.milled.held_sides import (
    SPOILT,
    Job,
    grips_on_parallels,
    patch_on,
    share_cut,
    thickest_parallel,
)
from halfthou.planning.milled.in_vice import (
    CLEAR,
    LEAST_GRIP,
    THIN_SHARE,
    Out,
    Vice,
    cannot_hold,
    vices,
)
from halfthou.planning.milled.slants import (
    SQUARED_AGAIN,
    ends_of_slant,
    placed,
    slant_of,
    stands_over,
)
from halfthou.planning.model import Link, Operation, Refused, Scheme
from halfthou.planning.who_makes import one_reason_each
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import HoldingDevice

LEAST_HELD: Final = 0.4
"""Least share of the work's length between the jaws, the rest standing out (usual practice)."""
LEAST_LENGTH: Final = 15.0
"""Least length of work between the jaws. [mm]"""
RUN_OUT: Final = 2.0
"""How far a cutter runs past the end of a slant (usual practice). [mm]"""
_SAME: Final = 1e-6
_DETAIL: Final = (
    "on parallels, packing of the same thickness at the other end of the jaws, knocked down"
)
_REASON: Final = (
    "the work lies square in the vice and the vice is turned on the table: the slant stays square "
    "to the face the work lies on, and clock and dials set its angle closer than a protractor"
)


def schemes_set_over(job: Job, device: HoldingDevice) -> tuple[list[Scheme], list[Refused]]:
    """Give every way to hold a block so that slants at one of its ends can be milled."""
    schemes: list[Scheme] = []
    refused: list[Refused] = []
    every = [
        op for op in job.operations if op.machine == "mill" and slant_of(job.part, op) is not None
    ]
    here = {tool.name for tool in job.workshop.tools}
    own = [op for op in every if set(op.tools) & here]
    refused += [_no_mill(device, op) for op in every if op not in own]
    if not own:
        return schemes, refused
    for one in vices(job, device):
        if not one.located or one.moving_state == "raw" or one.out or one.deep:
            continue
        able = [op for op in own if any(same(way, OUTWARD[one.up]) for way in op.approach)]
        stopped = cannot_hold(one)
        if stopped is not None:
            refused += [_refused(one, op, stopped) for op in able]
            continue
        outs: tuple[Out, Out] = ("left", "right")
        for out in outs:
            found, stops = _one_end_out(job, replace(one, out=out), able)
            schemes += found
            refused += stops
    return schemes, refused


def _no_mill(device: HoldingDevice, op: Operation) -> Refused:
    return Refused(
        scheme=f"{device.name}, set over",
        operation=op.key,
        reason=f"{op.feature} is cut with the side of the cutter, and no {op.tools[0]} is here",
        remedy=f"{op.tools[0]}, or file it to a line",
    )


def _refused(one: Vice, op: Operation, why: tuple[str, str]) -> Refused:
    return Refused(scheme=f"{one.key()}, set over", operation=op.key, reason=why[0], remedy=why[1])


def _one_end_out(job: Job, one: Vice, able: list[Operation]) -> tuple[list[Scheme], list[Refused]]:
    """Give the hold with one end out, as little as the slants there ask for."""
    refused: list[Refused] = []
    fit: dict[str, Millimetre] = {}
    part = job.lump.part
    least = max(LEAST_LENGTH, LEAST_HELD * part.length(one.across))
    for op in able:
        held = math.floor(part.length(one.across) - _out_by(job, one, op) + _SAME)
        if held >= least:
            fit[op.key] = held
        else:
            end = side_toward(one.out_direction())
            why = f"with the {end} end out far enough only {max(0.0, held):.0f} is left to hold"
            refused.append(
                _refused(one, op, (why, "file it to a line, or leave the blank longer"))
            )
    ways = {min(fit.values()): frozenset(fit)} if fit else {}
    return [_scheme(job, one, held, keys) for held, keys in ways.items()], refused


def _out_by(job: Job, one: Vice, op: Operation) -> Millimetre:
    """Give how far the end must stand out for the cutter to pass clear of both jaws [mm]."""
    face = slant_of(job.part, op)
    part = job.lump.part
    if face is None:
        return part.length(one.across)
    swept = _swept(job, face, op)
    out = one.out_direction()
    at_jaws = [
        p
        for side in (one.fixed, one.moving)
        for p in _beyond(swept, OUTWARD[side], part.most(OUTWARD[side]))
    ]
    inmost = min((dot(p, out) for p in at_jaws), default=part.most(out))
    return max(0.0, part.most(out) - inmost) + CLEAR


def _swept(job: Job, face: AngledFace, op: Operation) -> list[Vec3]:
    """Give the corners of the strip the cutter passes over beside a slant."""
    width = max((t.width for t in job.workshop.tools if t.name == op.tools[0]), default=0.0)
    ends = ends_of_slant(stands_over(job.lump.part, face, ()), face)
    if ends is None:
        return []
    start, end = (placed(face, one) for one in ends)
    along = _vec([b - a for a, b in zip(start, end, strict=True)])
    long = dot(along, along) ** 0.5
    past = width / 2 + RUN_OUT
    found: list[Vec3] = []
    for point, way, out in ((start, -past, 0.0), (end, past, 0.0), (end, past, width),
                            (start, -past, width)):  # fmt: skip
        found.append(_vec([
            p + way * a / long + out * n
            for p, a, n in zip(point, along, face.normal, strict=True)
        ]))  # fmt: skip
    return found


def _beyond(outline: list[Vec3], way: Vec3, level: Millimetre) -> list[Vec3]:
    """Give the corners of the part of an outline that lies beyond a level."""
    found: list[Vec3] = []
    for number, here in enumerate(outline):
        there = outline[(number + 1) % len(outline)]
        up, on = dot(here, way) - level, dot(there, way) - level
        if up > 0:
            found.append(here)
        if (up > 0) != (on > 0):
            share = up / (up - on)
            found.append(_vec([a + share * (b - a) for a, b in zip(here, there, strict=True)]))
    return found


def _vec(values: list[float]) -> Vec3:
    return (values[0], values[1], values[2])


def _jaws(job: Job, one: Vice, held: Millimetre) -> tuple[Millimetre, Millimetre]:
    """From where to where the jaws reach along ``across``, so much of the work between them."""
    part, wide = job.lump.part, one.device.jaw_width
    if one.out == "right":
        end = part.least(one.across) + held
        return end - wide, end
    end = part.most(one.across) - held
    return end, end + wide


def _scheme(job: Job, one: Vice, held: Millimetre, can: frozenset[str]) -> Scheme:
    part = job.lump.part
    usual = min(LEAST_GRIP, THIN_SHARE * one.height)
    most = max(usual, min(one.device.jaw_depth, one.height - CLEAR))
    grip = next(grips_on_parallels(one.device, least=usual, most=most), most)
    raised = max(0.0, one.device.jaw_depth - grip)
    sides = (
        (one.seat, one.seat_state), (one.fixed, one.fixed_state), (one.moving, one.moving_state)
    )  # fmt: skip
    jaws = _jaws(job, one, held)
    thick = thickest_parallel(one.width / 2)
    return Scheme(
        key=f"{one.key()}, set over for the slant",
        machine="mill",
        links=(Link(holder=one.device, detail=_DETAIL),),
        faces=OUTWARD[one.up],
        across=one.across,
        grips=(job.surface(one.fixed, one.fixed_state), job.surface(one.moving, one.moving_state)),
        seats=(job.surface(one.seat, one.seat_state),),
        grip_low=one.bottom,
        grip_high=one.bottom + grip,
        grip_size=one.width,
        inside=False,
        centre=False,
        stick_out=part.length(one.across) - held,
        true_on=(),
        error=one.device.trued,
        minutes=one.device.minutes + SQUARED_AGAIN,
        can=can,
        need=one_reason_each(pair for side, state in sides for pair in job.need(side, state)),
        ban=one_reason_each(_spoilers(job, one, jaws, can)),
        reason=_REASON,
        jaws=jaws,
        out=one.out,
        out_by=part.length(one.across) - held,
        parallels=(raised, thick) if raised > CLEAR else (0.0, 0.0),
    )


def _spoilers(
    job: Job, one: Vice, jaws: tuple[Millimetre, Millimetre], can: frozenset[str]
) -> Iterator[tuple[str, str]]:
    """Give what would cut away the grip, and so must wait."""
    box = job.lump.part
    low, high = list(box.low), list(box.high)
    along = axis_of(one.across)
    start, end = jaws if one.across[along] > 0 else (-jaws[1], -jaws[0])
    low[along], high[along] = max(low[along], start), min(high[along], end)
    held = Extents(low=_vec(low), high=_vec(high))
    flat = axis_of(OUTWARD[one.fixed])
    patches = [patch_on(s, box.most(OUTWARD[s]), held) for s in (one.fixed, one.moving)]
    for op in job.operations:
        if op.key in can or op.verb == "mill face" or op.machine != "mill":
            continue
        if any(share_cut(job.spaces[op.key], patch, flat) > SPOILT for patch in patches):
            yield op.key, "it would cut away what the work is held by"
