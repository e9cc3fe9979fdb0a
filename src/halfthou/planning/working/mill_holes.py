"""Holes under an upright spindle: their places, their depths, and what is looked at first."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.cutting.feeds import REAMING, drill_feed
from halfthou.cutting.fluid import fluid_for
from halfthou.cutting.speeds import speed_for
from halfthou.drawing.model import Band, Hole, Surface
from halfthou.handbook.drills import point_allowance
from halfthou.planning.axes import Extents, dot, extents_of_all, opposite, side_toward
from halfthou.planning.model import Operation
from halfthou.planning.treatment import size_now
from halfthou.planning.worked import CoarseCheck, Feed, Measure, Place
from halfthou.planning.working import mill_words, words
from halfthou.planning.working.aims import aimed, aimed_point
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.holes import (
    LEFT_TO_THE_DRILL,
    by_hand,
    full_depth,
    no_room_for_lead,
)
from halfthou.planning.working.measures import band_measure, measures_for, thread_measure
from halfthou.planning.working.places import down, place
from halfthou.planning.working.task import Task
from halfthou.planning.working.zero import raw_over
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Mill

HOLES: Final = frozenset(
    ("spot", "drill", "bore", "ream", "tap", "countersink", "counterbore", "spot-face")
)
PAST: Final[Millimetre] = 1.5
"""How far the full diameter comes out below (usual practice)."""
RULE_WITHIN: Final[Millimetre] = 0.5
CLOSE_PLACE: Final[Millimetre] = 0.2
"""A hole's place with less tolerance than this is measured, not only dialled (usual practice)."""
_OUTSIDE: Final = 0.01
_SAME: Final = 1e-6


def mill_hole(task: Task, mill: Mill, op: Operation, zero: Vec3) -> Draft:
    """Work out one step on a hole and its copies."""
    draft = Draft(
        operation=op,
        tool=op.tools[0] if op.tools else op.verb,
        fluid=fluid_for(task.metal, op.verb),
    )
    several = len(op.at) > 1
    draft.places = tuple(
        _place(task, mill, op, zero, point, str(number) if several else op.feature)
        for number, point in enumerate(op.at, start=1)
    )
    if op.verb != "tap":
        draft.speed = speed_for(
            metal=task.metal,
            verb=op.verb,
            diameter=max(op.cut_size, 1.0),
            workshop=task.workshop,
            speeds=mill.speeds,
        )
        feed = REAMING if op.verb == "ream" else drill_feed(op.cut_size, task.metal)
        draft.feed = Feed(kind="hand", per_turn=feed, slide="quill")
    depth = hole_depth(task, op)
    if not (op.verb == "tap" and op.through):
        draft.moves = (down(mill, depth, quill=True),)
    draft.lock = ("table", "cross-table", "knee")
    draft.remarks += [mill_words.ONE_BY_ONE] if several else []
    if several and not mill.readout:
        draft.remarks.append(words.ONE_WAY)
    _said(task, op, draft)
    if op.verb != "tap":
        draft.takes(length=depth, passes=max(1, len(op.at)))
    return draft


def _place(  # noqa: PLR0917  (one place)
    task: Task, mill: Mill, op: Operation, zero: Vec3, point: Vec3, label: str
) -> Place:
    told = place(task, mill, _aimed_zero(task, zero), aimed_point(task, op.feature, point), label)
    return Place(label=told.label, at=point, x=told.x, y=told.y, moves=told.moves)


def _aimed_zero(task: Task, zero: Vec3) -> Vec3:
    """Give the zero where the faces it is picked up on are aimed at."""
    found = zero
    for way in (task.along, task.away):
        by = aimed(task, None, way, dot(zero, way)) - dot(zero, way)
        found = (found[0] + by * way[0], found[1] + by * way[1], found[2] + by * way[2])
    return found


def hole_depth(task: Task, op: Operation) -> Millimetre:
    """Depth of the tip below the face round the hole, as that face is by then.

    Right through: what stands under the drill, its point, and a little more.
    """
    out = _stands_under(task, op)
    if op.verb == "drill" and out is not None:
        return out + point_allowance(op.cut_size) + PAST
    if op.verb == "drill":
        return full_depth(task, op)
    if op.verb == "ream" and op.through:
        base = out + PAST if out is not None else op.ends
        return base + point_allowance(op.cut_size)
    return op.ends


def _stands_under(task: Task, op: Operation) -> Millimetre | None:
    """How thick the metal is where a drill comes out of a flat face; None where it does not."""
    hole = _hole_of(task, op)
    if not op.through or not op.at or hole is None:
        return None
    into = opposite(op.approach[0])
    deep = max((step.end for step in hole.steps), default=0.0)
    there = task.there_before(op)
    behind = [
        s
        for s in task.part.surfaces
        if s.kind == "plane" and dot(s.direction, into) > 1 - _OUTSIDE
        and abs(dot(s.point, into) - dot(op.at[0], into) - deep) < _SAME
    ]  # fmt: skip
    if not behind:
        return None
    raw = [raw_over(task, s) or 0.0 for s in behind if s.name not in there]
    return deep + max(raw, default=0.0)


def _hole_of(task: Task, op: Operation) -> Hole | None:
    return next(
        (f for f in task.part.features if isinstance(f, Hole) and f.name == op.feature), None
    )


def _said(task: Task, op: Operation, draft: Draft) -> None:
    match op.verb:
        case "spot":
            draft.remarks.append(mill_words.SPOT_TOUCHED)
            draft.check = _first_place(task, draft)
            draft.measures = _by_rule(task, draft)
        case "drill":
            _drill_words(task, op, draft)
        case "tap":
            trial = thread_measure(task, op)
            draft.measures = (trial,) if trial else ()
            draft.remarks += [*(() if op.remark else (words.TAP_IN_SPINDLE,)), words.BACK_OFF]
            draft.remarks.append(words.TAPS_THROUGH if op.through else words.TAPS_BLIND)
            draft.cautions.append(words.TAP_STILL)
            draft.minutes = op.minutes
        case "ream":
            draft.measures = measures_for(task, op)
            draft.measures += close_places(task, op)
            draft.remarks += [words.REAM, mill_words.NOSE_AT_FACE]
            draft.check = CoarseCheck(
                what="hole before reaming", means=by_hand(op.from_size),
                expect=op.from_size, within=0.1,
            )  # fmt: skip
        case "countersink":
            draft.remarks.append(mill_words.MOUTH_TOUCHED)
            draft.measures = (_about(op, "caliper"),)
            if not op.region:
                draft.remarks.append(words.MOUTH)
        case _:
            draft.measures = (*measures_for(task, op), *close_places(task, op))


def close_places(task: Task, op: Operation) -> tuple[Measure, ...]:
    """Measure how far a finished hole lies from a face, drawn closely: over a pin put in it."""
    there, found = task.there_before(op), []
    for distance in task.part.distances:
        for hole, face in ((distance.a, distance.b), (distance.b, distance.a)):
            one, plane = task.surface(hole), task.surface(face)
            close = distance.band.origin == "drawn" and distance.band.width <= CLOSE_PLACE
            if hole not in op.makes or face not in there or not close:
                continue
            if one is None or plane is None or plane.kind != "plane" or one.size is None:
                continue
            if abs(dot(plane.direction, distance.direction)) < 1 - _OUTSIDE:
                continue
            found.append(_over_a_pin(task, one, plane, distance.band))
    return tuple(found)


def _over_a_pin(task: Task, hole: Surface, face: Surface, band: Band) -> Measure:
    now = size_now(task.part, hole, "ream")
    size = now.nominal if now is not None else 0.0
    over = replace(
        band, nominal=band.nominal + size / 2, low=band.low + size / 2, high=band.high + size / 2
    )
    one = band_measure(task, surface=hole.name, band=over, kind="length", inside=False)
    side = side_toward(face.direction)
    return replace(
        one, band=None, kind="position",
        where=f"over a pin that fills the hole, from the {side} face",
    )  # fmt: skip


def _drill_words(task: Task, op: Operation, draft: Draft) -> None:
    draft.remarks += [words.TIP_AT_FACE, words.CLEAR_CHIPS]
    if op.through:
        draft.cautions.append(words.GRABS)
        in_vice = task.scheme.device.device == "vice"
        draft.remarks.append(mill_words.CLEAR_BELOW_VICE if in_vice else mill_words.CLEAR_BELOW)
    if not op.makes and no_room_for_lead(task, op):
        draft.remarks.append(words.BOTTOMING)
    own = measures_for(task, op) if op.makes else ()
    hand = by_hand(op.cut_size)
    draft.measures = tuple(_coarsely(one, hand) for one in own) or (_about(op, hand),)


def _coarsely(one: Measure, hand: str) -> Measure:
    """Look at a size with wide limits by hand: a drill's shank, the caliper."""
    wide = one.kind == "bore" and one.high - one.low >= LEFT_TO_THE_DRILL
    return replace(one, gauge=hand, doubt=0.0, decides=True, good=None) if wide else one


def _about(op: Operation, gauge: str) -> Measure:
    """Expect a hole or mouth of the cutter's own size: not drawn, looked at coarsely."""
    return Measure(
        surface=op.feature, gauge=gauge, aim=op.cut_size, low=op.cut_size, high=op.cut_size,
        doubt=0.0, kind="bore", decides=False,
    )  # fmt: skip


def _by_rule(task: Task, draft: Draft) -> tuple[Measure, ...]:
    """Expect the first spot so far from two edges of the part, by rule: one along, one across.

    A single spot has one of the two looked at already, as the gate before anything deep.
    """
    metal = extents_of_all(task.part.metal)
    if metal is None or not draft.places or task.part.turned:
        return ()
    one = draft.places[0]
    which = f"spot {one.label} " if len(draft.places) > 1 else ""
    gate = draft.check.what if draft.check is not None else ""
    found = []
    for way, value in ((task.along, one.x), (task.away, one.y)):
        side, far = _opposite_edge(metal, one, way, value)
        far += still_over(task, draft.operation, side)
        if gate.endswith(f"from the {side} face"):
            continue
        found.append(
            Measure(
                surface=draft.operation.feature, gauge="rule", aim=far, low=far - RULE_WITHIN,
                high=far + RULE_WITHIN, doubt=0.0, kind="position", decides=False,
                where=f"{which}from the {side} face",
            )
        )  # fmt: skip
    return tuple(found)


def _opposite_edge(
    metal: Extents, one: Place, way: Vec3, value: Millimetre
) -> tuple[str, Millimetre]:
    """Name the edge on the far side of a place from its zero, and how far off it lies."""
    out = way if value > 0 else opposite(way)
    return side_toward(out), metal.most(out) - dot(one.at, out)


def still_over(task: Task, op: Operation, side: str) -> Millimetre:
    """Give the metal still to come off an end in the lathe: a rule laid to it reads so much more.

    Examples
    --------
    A face 3 from a hole's line, half a millimetre still to be faced off it: the rule reads 3.5.
    """
    if side in task.there_before(op):
        return 0.0
    later = (one for set_up in task.plan.set_ups for one in set_up.operations)
    facing = next((one for one in later if one.verb == "face" and side in one.makes), None)
    return facing.from_size if facing is not None else 0.0


def _first_place(task: Task, draft: Draft) -> CoarseCheck | None:
    """Look at the spots by rule before anything deep, by other sizes than those dialled.

    On a circle right across it; of several the two farthest apart; a single one from the edge
    opposite the one that the zero was taken from.
    """
    if len(draft.places) > 1:
        pairs = [(a, b) for a in draft.places for b in draft.places if a.label < b.label]
        a, b = max(pairs, key=lambda p: math.dist(p[0].at, p[1].at))
        hole = _hole_of(task, draft.operation)
        ring = hole.ring if hole is not None else None
        whole = ring is not None and abs(math.dist(a.at, b.at) - ring.diameter) < _SAME
        which = "right across the circle" if whole else f"spots {a.label} and {b.label} apart"
        return CoarseCheck(
            what=f"{which}, all spotted before any is drilled",
            means="rule", expect=math.dist(a.at, b.at), within=RULE_WITHIN,
        )  # fmt: skip
    metal = extents_of_all(task.part.metal)
    if not draft.places or metal is None:
        return None
    one = draft.places[0]
    way, value = (task.along, one.x) if abs(one.x) >= abs(one.y) else (task.away, one.y)
    if value == 0:
        return None
    side, far = _opposite_edge(metal, one, way, value)
    far += still_over(task, draft.operation, side)
    if far < RULE_WITHIN:
        return None
    return CoarseCheck(
        what=f"spot from the {side} face", means="rule", expect=far, within=RULE_WITHIN,
    )  # fmt: skip
