"""The case of a casting, split or whole: pieces, bodies, operations, holdings and orders."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Hole, Joint, Part
from halfthou.errors import NoPlan
from halfthou.planning.assemble import Case
from halfthou.planning.axes import extents_of_all
from halfthou.planning.cast.able import check_able
from halfthou.planning.cast.body import Body, State, faces_of, metal_of
from halfthou.planning.cast.facing import facing
from halfthou.planning.cast.firsts import first_face
from halfthou.planning.cast.handwork import APART, BOLT, SAW, dowels_of, handwork
from halfthou.planning.cast.holding import Job
from halfthou.planning.cast.holes import crosses, drilling
from halfthou.planning.cast.in_lathe import in_lathes
from halfthou.planning.cast.in_vice import in_vices
from halfthou.planning.cast.joint_holes import BEFORE
from halfthou.planning.cast.lump import LUMP, lump_body, stays_put, uncut
from halfthou.planning.cast.on_table import on_tables
from halfthou.planning.cast.orders import at_once, orders_cast
from halfthou.planning.cast.pieces import TOGETHER, WHOLE, Pieces, pieces_of
from halfthou.planning.cast.reach import past_reach, under_a_head
from halfthou.planning.milled.schemes import bench_schemes
from halfthou.planning.model import Operation, Refused, Scheme
from halfthou.workshop.model import Workshop

_SPLIT: Final = "it is one of two halves, and they come together only later"
_JOINED: Final = "it is bolted up for this"


def case_cast(part: Part, workshop: Workshop) -> Case:
    """Gather everything known about machining a casting, or two that make one part.

    Raises
    ------
    NoPlan
        If nothing places one half on the other.
    """
    check_able(part)
    pieces = pieces_of(part)
    _check_placed(pieces)
    work = facing(pieces, workshop) + drilling(pieces, workshop)
    operations = (*work.operations, *handwork(pieces))
    bodies = _bodies(pieces, operations)
    firsts = {name: first for name in pieces.names if (first := first_face(pieces, name))}
    own = stays_put(pieces)
    whole = {LUMP: firsts[own]} if own in firsts else {}
    job = Job(workshop=workshop, bodies=bodies, operations=operations, firsts=firsts | whole)
    schemes, left = _schemes(job, pieces)
    schemes += bench_schemes(workshop, operations)
    done = {key for scheme in schemes for key in scheme.can}
    box = extents_of_all(tuple(r for lump in pieces.starts for r in lump.metal))
    if box is None:
        raise NoPlan(f"the {part.name} has no metal")
    return Case(
        part=part,
        blank=(box.high[0] - box.low[0], box.high[1] - box.low[1], box.high[2] - box.low[2]),
        metal=tuple(r for lump in pieces.starts for r in lump.metal),
        lumps=pieces.starts,
        at_once=at_once(work.operations),
        uncut=uncut(pieces),
        stock=None,
        operations=operations,
        alternatives=work.alternatives,
        schemes=tuple(schemes),
        refused=tuple(r for r in left if r.operation not in done),
        orders=orders_cast(pieces, operations, firsts),
    )


def _check_placed(pieces: Pieces) -> None:
    joint = pieces.joint
    holes = [f for f in pieces.part.features if isinstance(f, Hole)]
    if joint is None or dowels_of(pieces) or not any(crosses(pieces, h) for h in holes):
        return
    if joint.located_by and "dowel" not in joint.located_by:
        return
    raise NoPlan(
        f"nothing places the {joint.halves[0]} on the {joint.halves[1]}",
        where=f"[joint.{joint.name}]",
        why="bolts in clearing holes hold it but do not place it, and the bore is cut across it",
        tries=('draw a hole for dowels through both and write located_by = "2 dowels"',
               "draw a register, or fitted bolts"),
    )  # fmt: skip


def _bodies(pieces: Pieces, operations: tuple[Operation, ...]) -> tuple[Body, ...]:
    """Give every body that is ever held: each half, both clamped, both bolted up, the whole."""
    joint = pieces.joint
    if joint is None:
        return (_body(pieces, operations, WHOLE, "whole", (WHOLE,)),)
    faced = _faced(joint, operations)
    apart = ((BOLT, _SPLIT),)
    sawn = ((f"{SAW} {joint.name}", "it is sawn off first"),) if joint.kind == "sawn" else ()
    found = [
        _body(pieces, operations, name, "apart", (name,), need=sawn, ban=apart)
        for name in pieces.names
    ]
    if joint.kind == "sawn":
        found.append(lump_body(pieces, joint, operations))
    found.append(
        _body(
            pieces,
            operations,
            TOGETHER,
            "clamped",
            pieces.names,
            need=(*sawn, *faced),
            ban=apart,
        )
    )
    found.append(
        _body(
            pieces,
            operations,
            TOGETHER,
            "together",
            pieces.names,
            need=((BOLT, _JOINED),),
            ban=((APART, _JOINED),),
        )
    )
    return tuple(found)


def _faced(joint: Joint, operations: tuple[Operation, ...]) -> list[tuple[str, str]]:
    faces = {f"{half} {joint.name}" for half in joint.halves}
    why = "the halves lie on each other with their joint faces"
    return [(op.key, why) for op in operations if faces & set(op.makes)]


def _body(
    pieces: Pieces,
    operations: tuple[Operation, ...],
    name: str,
    state: State,
    names: tuple[str, ...],
    *,
    need: tuple[tuple[str, str], ...] = (),
    ban: tuple[tuple[str, str], ...] = (),
) -> Body:
    faces = faces_of(pieces, name)
    shown = {f.name for f in faces if not f.stays_raw}
    mine = {name, *names} if state in {"together", "whole"} else {name}
    own = tuple(op for op in operations if op.piece in mine or set(op.makes) & shown)
    return Body(
        name=name,
        state=state,
        pieces=names,
        faces=faces,
        metal=metal_of(pieces, names),
        operations=own,
        able=frozenset(
            op.key
            for op in own
            if op.piece in mine
            and _able(op, own, state, shown)
            and not (state == "together" and _in_the_way(pieces, op))
        ),
        need=need,
        ban=ban,
    )


def _in_the_way(pieces: Pieces, op: Operation) -> bool:
    """Tell whether a bolt's head, or a wall the chuck would meet, is there only when joined.

    A half of one casting is sawn and bolted in so many set-ups that it is drilled then all the
    same, by drills long enough.
    """
    joint = pieces.joint
    apart = joint is not None and joint.kind == "two castings" and op.piece != TOGETHER
    walled = apart and past_reach(metal_of(pieces, pieces.names), op)
    return walled or under_a_head(pieces, op)


def _able(op: Operation, own: tuple[Operation, ...], state: str, shown: set[str]) -> bool:
    """Tell whether an operation belongs to a state: what runs across a joint is cut as one."""
    if op.key.endswith(BEFORE) and state != "whole":
        return False
    if state == "clamped":
        return op.piece == TOGETHER and op.verb != "mill face" and op.machine == "mill"
    if state != "together" or op.piece == TOGETHER or op.verb != "mill face":
        return True
    across = {name for one in own if one.piece == TOGETHER for name in one.makes}
    return set(op.makes) <= shown - across


def _schemes(job: Job, pieces: Pieces) -> tuple[list[Scheme], list[Refused]]:
    schemes: list[Scheme] = []
    left: list[Refused] = []
    for body in job.bodies:
        if body.state != "clamped":
            found, why = in_vices(job, body)
            schemes += found
            left += why
        schemes += on_tables(job, body)
        if body.state in {"together", "whole"}:
            found, why = in_lathes(job, pieces, body)
            schemes += found
            left += why
    return schemes, left
