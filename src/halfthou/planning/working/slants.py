"""Faces on the slant: the vice set over by clock and dials, the cut sideways from a corner."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final

from halfthou.cutting.milling import SIDE_SHARE, each_setting, to_a_face
from halfthou.drawing.model import OUTWARD, AngledFace, Side
from halfthou.planning.axes import Extents, axis_of, cross, dot, other_side, side_toward
from halfthou.planning.milled.lump import SIDES, part_extents
from halfthou.planning.milled.set_over import RUN_OUT
from halfthou.planning.milled.slants import (
    ends_of_slant,
    level_axis,
    over_the_slant,
    placed,
    slant_of,
    stands_over,
)
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Measure
from halfthou.planning.working import mill_words, words
from halfthou.planning.working.cuts import Draft, told
from halfthou.planning.working.dials import turns_and_divisions
from halfthou.planning.working.places import (
    against_the_cutter,
    as_touched,
    down,
    line_move,
    set_at,
)
from halfthou.planning.working.task import Task
from halfthou.units import DEGREE, Millimetre, Radian, Vec3
from halfthou.workshop.model import Dial, Mill

BELOW: Final[Millimetre] = 0.5
"""How far the cutter's end goes below the edge it cuts (usual practice)."""
FREE: Final[Millimetre] = 2.0
"""Room left between a cutter's chuck and the metal beside the cut (usual practice)."""
_CLOCKED: Final[Millimetre] = 4.0
"""What of a free edge is no use to the clock: the jaw's end and the corner (usual practice)."""
ONWARD: Final = "every figure going the way of the touch; gone past, back a turn and on again"
STOPS_BY_JAWS: Final = (
    "toward the jaws only until the cutter's middle is 2 past where the slant begins, by rule, or "
    "it comes to the jaw; at the free end clear of the work"
)
SEEN: Final[Millimetre] = 0.3
"""The narrowest strip that a rule tells from none (usual practice)."""
_BY_RULE: Final[Millimetre] = 0.5
_SAME: Final = 1e-4
_EVEN: Final = math.pi / 4


def is_slant(task: Task, operation: Operation) -> bool:
    """Tell whether an operation mills a face on the slant, the vice set over for it."""
    return operation.verb == "mill face" and slant_of(task.part, operation) is not None


def slant_milling(task: Task, mill: Mill, draft: Draft, width: Millimetre) -> None:
    """Set the vice over, touch the highest corner, and cut sideways down to the slant."""
    face = slant_of(task.part, draft.operation)
    if face is None:
        raise AssertionError(draft.operation)
    body = part_extents(task.part)
    corners = stands_over(body, face, _cut_already(task, draft.operation))
    deepest = min(SIDE_SHARE * width, task.metal.rough)
    cuts = to_a_face(
        metal_off=over_the_slant(corners, face), deepest=deepest, division=mill.x.division
    )
    out = OUTWARD[face.facing]
    way = task.along if axis_of(out) == axis_of(task.along) else task.away
    inward = -1.0 if dot(out, way) > 0 else 1.0
    sideways = tuple(
        as_touched(line_move(mill, task, way, inward * done)) for done in each_setting(cuts)
    )
    draft.passes = set_at(told(cuts, size=0.0, way=1.0), sideways, division=mill.x.division)
    deep = body.length(task.up) + BELOW
    draft.moves = (down(mill, deep, quill=False), *sideways)
    draft.tool_out = float(math.ceil(deep + FREE))
    _along(task, draft, face, along=way == task.along)
    ends = ends_of_slant(corners, face)
    near_jaws = ends is not None and _near_the_jaws(task, face, ends, width)
    draft.remarks += [STOPS_BY_JAWS if near_jaws else words.RIGHT_ACROSS, words.CLEAR_OF_JAWS]
    draft.remarks.insert(0, _set_over(task, mill, face))
    draft.remarks += [mill_words.CORNER] + ([] if mill.readout else [ONWARD])
    draft.measures = _where_it_ends(draft, body, face, corners, cuts[-1].depth)
    if draft.operation is [op for op in task.operations if is_slant(task, op)][-1]:
        draft.remarks.append(mill_words.CLOCK_SQUARE)
    long = math.dist(*ends) if ends is not None else width
    draft.takes(length=long + width, passes=sum(cut.count for cut in cuts))
    draft.minutes += SETTING


SETTING: Final = 10.0
"""Time to set the vice over by clock and dials, minutes (usual practice)."""


def _cut_already(task: Task, operation: Operation) -> tuple[AngledFace, ...]:
    before = list(task.done_before)
    for op in task.operations:
        if op is operation:
            break
        before.append(op)
    return tuple(f for op in before if (f := slant_of(task.part, op)) is not None)


def _along(task: Task, draft: Draft, face: AngledFace, *, along: bool) -> None:
    """Lock the slide that sets the depth; the other runs along the slant, against the cutter."""
    draft.lock = ("table" if along else "cross-table", "quill", "knee")
    if draft.feed is not None:
        draft.feed = replace(
            draft.feed,
            slide="cross-table" if along else "table",
            table_goes=against_the_cutter(task, OUTWARD[face.facing]),
        )


def _near_the_jaws(
    task: Task, face: AngledFace, ends: tuple[tuple[float, float], ...], width: Millimetre
) -> bool:
    """Tell whether a cutter run right past a slant's end would come to the jaws."""
    jaws = task.scheme.jaws
    if jaws is None:
        return False
    reached = width + RUN_OUT
    along = [dot(placed(face, end), task.along) for end in ends]
    if task.scheme.out == "left":
        return max(along) + reached > jaws[0]
    return min(along) - reached < jaws[1]


# --- the vice set over ---


@dataclass(frozen=True, slots=True, kw_only=True)
class SetOver:
    """A vice turned by ``angle``, ``left`` about (against the clock, seen from above) or not.

    A clock on an edge that lay along the table reads alike at two places: ``run`` apart to the
    right, and ``rise`` away (toward the person, where negative).
    """

    angle: Radian
    left: bool
    run: Millimetre
    rise: Millimetre


def set_over(task: Task, face: AngledFace, *, lead: Millimetre, room: Millimetre) -> SetOver:
    r"""Give how a vice is set over so that a slant lies along a slide.

    .. math:: y = x \tan\alpha

    Parameters
    ----------
    task :
        The set-up: which way the work lies on the table.
    face :
        The slant; :math:`\alpha` is how far it leans from the side it is cut on.
    lead :
        Of the table's screw: the run is whole turns of it. [mm]
    room :
        How far a clock can run along the edge. [mm]

    Returns
    -------
    :
        Angle and way, and the two travels :math:`x` and :math:`y` for the clock.
    """
    turned = _angle(task, OUTWARD[face.facing]) - _angle(task, face.normal)
    turned = (turned + math.pi) % math.tau - math.pi
    if abs(turned) <= _EVEN:
        run = max(1, math.floor(room / lead)) * lead
    else:
        run = max(1, math.floor(room / math.tan(abs(turned)) / lead)) * lead
    return SetOver(angle=abs(turned), left=turned > 0, run=run, rise=run * math.tan(turned))


def _angle(task: Task, way: Vec3) -> Radian:
    return math.atan2(dot(way, task.away), dot(way, task.along))


def _set_over(task: Task, mill: Mill, face: AngledFace) -> str:
    side, room = _free_edge(task)
    one = set_over(task, face, lead=mill.x.lead, room=room)
    about = "against the clock" if one.left else "with the clock"
    beyond = "away" if one.rise > 0 else "toward you"
    right, back = _told(mill, mill.x, one.run), _told(mill, mill.y, abs(one.rise))
    return (
        f"turn the vice {one.angle / DEGREE:g}° from square, {about} seen from above, by eye, "
        "and nip it; "
        f"clock in the spindle on the {side} face where it stands out of the jaws, at its left "
        f"end, both dials to 0; then {right} right and {back} {beyond}: the clock must read the "
        "same; tap the vice round and try again until it does, then bolt it down"
    )


def _told(mill: Mill, dial: Dial, travel: Millimetre) -> str:
    if mill.readout:
        return f"{travel:.2f}"
    turns, divisions = turns_and_divisions(travel, dial)
    said = f"{turns} turn{'s' if turns != 1 else ''}"
    return f"{said} + {divisions:g} div" if divisions else said


def _free_edge(task: Task) -> tuple[Side, Millimetre]:
    """Give the gripped side that stands out of the jaws furthest, and how far a clock runs."""
    fixed = cross(task.up, task.along)
    found: list[tuple[Millimetre, Side]] = []
    jaws = task.scheme.jaws or (0.0, 0.0)
    for out in (fixed, (-fixed[0], -fixed[1], -fixed[2])):
        side = side_toward(out)
        surface = task.surface(side)
        if surface is None:
            continue
        box = Extents(low=surface.low, high=surface.high)
        if task.scheme.out == "left":
            free = jaws[0] - box.least(task.along)
        else:
            free = box.most(task.along) - jaws[1]
        found.append((free - _CLOCKED, side))
    room, side = max(found, key=lambda one: one[0])
    return side, room


# --- where it ends ---


def _where_it_ends(
    draft: Draft, body: Extents, face: AngledFace, corners: tuple[tuple[float, float], ...],
    last: Millimetre,
) -> tuple[Measure, ...]:  # fmt: skip
    """Look before the last cut, and measure after it, where the drawn edge of the slant lies."""
    ends = ends_of_slant(corners, face)
    if ends is None:
        return ()
    sides = (face.facing, face.toward)
    a, b = (axis_of(OUTWARD[side]) for side in sides)
    near = min(ends, key=lambda e: math.dist(e, (face.point[a], face.point[b])))
    at = placed(face, near)
    on = [s for s in SIDES if axis_of(OUTWARD[s]) != level_axis(face)
          and abs(dot(at, OUTWARD[s]) - body.most(OUTWARD[s])) < _SAME]  # fmt: skip
    if len(on) > 1:
        return _at_the_corner(draft, face, on, last)
    if not on:
        return ()
    return _along_a_side(draft, body, face, on[0], at, last)


def _at_the_corner(
    draft: Draft, face: AngledFace, on: list[Side], last: Millimetre
) -> tuple[Measure, ...]:
    """Stop as the slant comes to a corner: what stands of the old face tells how far it is."""
    other = next((s for s in on if s != face.facing), on[0])
    # a rule tells half a millimetre: the look comes before the last cut, what it takes still on
    strip = last / math.sin(face.leans)
    draft.remarks.append(mill_words.RUNS_OUT)
    if strip < SEEN:
        return ()
    draft.check = CoarseCheck(
        what=f"strip of the {face.facing} face still standing at the {other} edge "
        "before the last cut",
        means="rule", expect=strip, within=SEEN,
    )  # fmt: skip
    return ()


def _along_a_side(  # noqa: PLR0917  (one edge)
    draft: Draft, body: Extents, face: AngledFace, on: Side, at: Vec3, last: Millimetre
) -> tuple[Measure, ...]:
    """Measure the edge of the slant along the side it starts on, from that side's far end."""
    beyond, steep = (
        (face.toward, math.sin(face.leans))
        if on == face.facing
        else (face.facing, math.cos(face.leans))
    )
    far = other_side(beyond)
    size = dot(at, OUTWARD[beyond]) + body.most(OUTWARD[far])
    draft.check = CoarseCheck(
        what=f"edge of the slant on the {on} face before the last cut, from the {far} face",
        means="rule", expect=size + last / steep, within=_BY_RULE,
    )  # fmt: skip
    draft.passes = tuple(replace(one, leaves=size + one.leaves / steep) for one in draft.passes)
    return (
        Measure(
            surface=draft.operation.feature, gauge="caliper", aim=size, low=size, high=size,
            doubt=0.0, kind="position", decides=False,
            where=f"edge on the {on} face, from the {far} face",
        ),
    )  # fmt: skip
