"""Steps, slots, pockets and keyways: down in cuts, along lines or between two corners."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.cutting.milling import down_to_a_floor, each_setting, traverses
from halfthou.drawing.model import Keyway
from halfthou.planning.axes import Extents, dot, extents_of_all, opposite
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Measure, Place
from halfthou.planning.working import keyway_words, mill_words, words
from halfthou.planning.working.aims import aimed
from halfthou.planning.working.cuts import Draft, told
from halfthou.planning.working.measures import band_measure, passing_measure
from halfthou.planning.working.places import (
    against_the_cutter,
    down,
    line_move,
    longest,
    point_at,
    set_at,
    settled,
    table_moves,
    whole_divisions,
)
from halfthou.planning.working.task import Task
from halfthou.planning.working.zero import over_the_zero
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Mill

RUN_OUT: Final[Millimetre] = 2.0
"""How far a cutter runs past an open side (usual practice)."""
RULE_WITHIN: Final[Millimetre] = 0.5
INTERIM: Final[Millimetre] = 0.4
"""What a wall with close limits is first left over, to be measured before its last cut (usual
practice)."""
CLOSE_WALL: Final[Millimetre] = 0.3
"""A wall with less tolerance than this is come to in two cuts (usual practice)."""
_ABOUT: Final[Millimetre] = 0.15
"""How far what is left over at the first setting may be missed: the last still puts it right."""
FREE: Final[Millimetre] = 2.0
"""Room left between a cutter's chuck and the metal beside the cut (usual practice)."""
_SAME: Final = 1e-6


def cut_down(task: Task, mill: Mill, draft: Draft, width: Millimetre, zero: Vec3) -> None:
    """Step, slot, pocket or keyway: down in cuts, between two corners for the cutter's middle."""
    op = draft.operation
    space = extents_of_all(op.region)
    if space is None:
        return
    begins, ends = _heights(task, mill, draft, space, zero)
    cuts = down_to_a_floor(
        deep=ends - begins, width=width, metal=task.metal, division=mill.z.division, verb=op.verb
    )
    draft.passes = told(cuts, size=ends, way=-1.0)
    draft.moves = tuple(down(mill, begins + total, quill=False) for total in each_setting(cuts))
    draft.passes = set_at(draft.passes, draft.moves, division=mill.z.division)
    draft.tool_out = float(math.ceil(ends + _stands_beside(task, zero) + FREE))
    draft.remarks += [] if op.verb == "mill keyway" else [mill_words.KNEE_LOCKED]
    _across(task, mill, draft, zero, space, width)
    if op.size is not None and op.size.middle > width * 1.01 and op.verb != "mill step":
        draft.remarks.append(
            "rough it down the middle first, then each wall to size in two cuts alike"
        )
    if draft.check is None and op.verb != "mill keyway":
        _look_first(draft, width)
    over = traverses(_narrow(task, space), width)
    draft.takes(length=longest(task, space), passes=sum(cut.count for cut in cuts) * over)
    if op.verb == "mill keyway":
        _keyway_words(task, draft, ends, cuts[-1].depth)


def _narrow(task: Task, space: Extents) -> Millimetre:
    """Give the shorter way over a hollow, no further than the metal goes."""
    metal = extents_of_all(task.part.metal)
    found = []
    for way in (task.along, task.away):
        low, high = space.least(way), space.most(way)
        if metal is not None:
            low, high = max(low, metal.least(way)), min(high, metal.most(way))
        found.append(high - low)
    return min(found)


def _heights(
    task: Task, mill: Mill, draft: Draft, space: Extents, zero: Vec3
) -> tuple[Millimetre, Millimetre]:
    """How far below the zero a cut begins and ends: aimed, and whole divisions where they do."""
    op, up = draft.operation, task.up
    leaves = next((m for m in draft.measures if m.surface == _floor_of(op)), None)
    key = _keyway(task, op)
    if key is not None and leaves is not None:
        across = _round_across(task, key)
        depth = settled(mill, across - leaves.aim, across - leaves.high, across - leaves.low)
        return 0.0, depth
    top = aimed(task, None, up, dot(zero, up))
    over = over_the_zero(task, op)
    ends = top - aimed(task, op, up, space.least(up)) + over
    if op.verb == "mill keyway" and op.from_size > 0:
        return ends - op.from_size, ends
    below = top - aimed(task, None, up, space.most(up))
    return (below + over if below > _SAME else 0.0), ends


def _stands_beside(task: Task, zero: Vec3) -> Millimetre:
    """Give how far the part stands up beside a cut, over the height's zero: a collar, a boss."""
    metal = extents_of_all(task.part.metal)
    return max(0.0, metal.most(task.up) - dot(zero, task.up)) if metal is not None else 0.0


# --- keyways ---


def _floor_of(op: Operation) -> str:
    return f"{op.feature} floor"


def _keyway(task: Task, op: Operation) -> Keyway | None:
    return next(
        (f for f in task.part.features if isinstance(f, Keyway) and f.name == op.feature), None
    )


def _round_across(task: Task, key: Keyway) -> Millimetre:
    """Give the diameter a keyway's round is aimed at: its depth counts from there."""
    surface = task.surface(key.on)
    if surface is None or surface.size is None:
        return 0.0
    one = band_measure(task, surface=key.on, band=surface.size, kind="diameter", inside=False)
    return one.aim


def _keyway_words(task: Task, draft: Draft, deep: Millimetre, last: Millimetre) -> None:
    """Say how a keyway is sunk, and how its depth is come to before it is let go.

    In the jaws the far side of the bar is hidden: the depth is felt down from the two lips of the
    slot, which lie lower than the top of the round by the arc over its width.
    """
    op = draft.operation
    draft.lock = ()
    draft.remarks += [words.SLOT_DRILL, keyway_words.AT_THE_START, keyway_words.SUNK]
    draft.remarks += [keyway_words.TRY_THE_KEY, keyway_words.OVER_THE_BAR]
    key = _keyway(task, op)
    wide = op.size.middle if op.size is not None else 0.0
    if key is None or wide <= 0:
        return
    radius = _round_across(task, key) / 2
    if radius <= wide / 2:
        return
    lips = radius - math.sqrt(radius**2 - (wide / 2) ** 2)
    down_in = passing_measure(task, surface=_floor_of(op), size=deep - lips, kind="depth")
    if down_in is not None:
        draft.measures = tuple(
            replace(m, when="out of the holding") if m.surface == _floor_of(op) else m
            for m in draft.measures
        )
        draft.measures += (replace(down_in, where="from the two lips of the slot"),)
    expect = deep - lips - last
    draft.remarks.append(keyway_words.BY_THE_TOUCH)
    draft.check = CoarseCheck(
        what="depth from the two lips of the slot before the last cut", means="caliper, depth rod",
        expect=expect, within=last / 2, low=expect - last / 2, high=expect + last / 2,
    )  # fmt: skip


def keyway_leaves(task: Task, op: Operation) -> tuple[Measure, ...]:
    """Measure a keyway's real depth: what is left from its floor to the far side of the round."""
    key = _keyway(task, op)
    if key is None:
        return ()
    return (
        band_measure(task, surface=_floor_of(op), band=key.leaves, kind="length", inside=False),
    )


# --- where across ---


def _look_first(draft: Draft, width: Millimetre) -> None:
    """Look at the cutter's place by rule before it goes down."""
    if not draft.places:
        return
    near = abs(draft.places[0].x) - width / 2
    if near < RULE_WITHIN:
        return
    draft.check = CoarseCheck(
        what="cutter's near side from the edge, as a touch mark before going down",
        means="rule", expect=near, within=RULE_WITHIN,
    )  # fmt: skip


def _across(  # noqa: PLR0917  (where one cut lies)
    task: Task, mill: Mill, draft: Draft, zero: Vec3, space: Extents, width: Millimetre
) -> None:
    """Tell the lines of a cut that runs right across, else the corners of a closed one."""
    opens = {way: open_ends(task, space, way) for way in (task.along, task.away)}
    through = [way for way, ends in opens.items() if all(ends)]
    if not through:
        draft.places = _corners(task, mill, draft.operation, zero, space, width)
        if draft.operation.verb == "mill pocket":
            draft.lock = ("quill", "knee")
        return
    way = task.away if through[0] == task.along else task.along
    draft.lock = ("table", "quill", "knee") if way == task.along else draft.lock
    draft.remarks.append(words.RIGHT_ACROSS)
    open_low, open_high = opens[way]
    if draft.feed is not None:
        draft.feed = replace(draft.feed, slide="cross-table" if way == task.along else "table")
    if open_low != open_high:
        _one_wall(task, mill, draft, zero, space, way, width)
        return
    draft.remarks += [] if mill.readout else [words.ONE_WAY]
    lines = [
        _line(task, draft.operation, zero, way, space.least(way)) + width / 2,
        _line(task, draft.operation, zero, way, space.most(way)) - width / 2,
    ]
    if abs(lines[1] - lines[0]) < _SAME:
        lines = lines[:1]
    draft.moves += tuple(line_move(mill, task, way, at) for at in lines)


def _line(task: Task, op: Operation, zero: Vec3, way: Vec3, wall: Millimetre) -> Millimetre:
    """Where a wall is aimed at, from the zero."""
    return aimed(task, op, way, wall) - aimed(task, None, way, dot(zero, way))


def _one_wall(  # noqa: PLR0917  (where one cut lies)
    task: Task,
    mill: Mill,
    draft: Draft,
    zero: Vec3,
    space: Extents,
    way: Vec3,
    width: Millimetre,
) -> None:
    """Tell a step's one wall: left over first where its limits are close, then measured in."""
    op = draft.operation
    _as_dialled(task, mill, draft, zero, way, width)
    open_low = open_ends(task, space, way)[0]
    outward = -1.0 if open_low else 1.0
    wall = space.most(way) if open_low else space.least(way)
    line = _line(task, op, zero, way, wall) + outward * width / 2
    close = _close_size(draft)
    open_edge = _open_edge(task, space, way, outward)
    wide = abs(open_edge - wall)
    step = wide / traverses(wide, width)
    outer = [line + outward * (wide - step * n) for n in range(1, traverses(wide, width))]
    stops = [line + outward * INTERIM, line] if close is not None else [line]
    draft.moves += tuple(line_move(mill, task, way, at) for at in (*outer, *stops))
    draft.remarks += [] if mill.readout else [words.ONE_WAY]
    draft.remarks += [mill_words.LANES_INWARD] if outer else [words.OUTSIDE_IN]
    if draft.feed is not None:
        facing = way if outward > 0 else opposite(way)
        draft.feed = replace(draft.feed, table_goes=against_the_cutter(task, facing))
    if close is None:
        _look_at_the_width(
            draft, abs(aimed(task, op, way, wall) - aimed(task, None, way, open_edge))
        )
    else:
        draft.remarks += [mill_words.SIDE_AFTER_DEPTHS, words.IN_BY_WHAT_IS_OVER]
        expect = close.aim + (INTERIM if close.kind in {"length", "width"} else 0.0)
        draft.check = CoarseCheck(
            what="size across the walls before the last cut sideways", means="caliper",
            expect=expect, within=_ABOUT, low=expect - _ABOUT, high=expect + _ABOUT,
        )  # fmt: skip


def _as_dialled(  # noqa: PLR0917  (one way of one cut)
    task: Task, mill: Mill, draft: Draft, zero: Vec3, way: Vec3, width: Millimetre
) -> None:
    """Aim at the sizes the dials come to: each wall lies where a whole division sets it."""
    if mill.readout:
        return
    for distance in task.part.distances:
        lie = dot(distance.direction, way)
        if abs(lie) < 1 - _SAME:
            continue
        low, high = (
            _off_the_aim(task, mill, zero, way, name, width) for name in (distance.a, distance.b)
        )
        draft.measures = tuple(
            _shifted(one, lie * (high - low)) if one.band is distance.band else one
            for one in draft.measures
        )


def _off_the_aim(  # noqa: PLR0917  (one wall)
    task: Task, mill: Mill, zero: Vec3, way: Vec3, name: str, width: Millimetre
) -> Millimetre:
    """Give how far whole divisions set a wall of this set-up from where it is aimed at."""
    wall = task.surface(name)
    op = next((o for o in task.operations if name in o.makes and o.verb == "mill step"), None)
    if wall is None or op is None or abs(dot(wall.direction, way)) < 1 - _SAME:
        return 0.0
    line = _line(task, op, zero, way, dot(wall.point, way))
    line += math.copysign(width / 2, dot(wall.direction, way))
    return whole_divisions(line, mill.x if way == task.along else mill.y) - line


def _shifted(one: Measure, by: Millimetre) -> Measure:
    """Aim a size off by so much, where that is still surely good."""
    least, most = one.good or (one.low, one.high)
    aim = one.aim + by
    return replace(one, aim=aim) if least - _SAME <= aim <= most + _SAME else one


def _open_edge(task: Task, space: Extents, way: Vec3, outward: float) -> Millimetre:
    """Give where the metal ends on the side a step is open at."""
    metal = extents_of_all(task.part.metal)
    ends = metal if metal is not None else space
    return ends.most(way) if outward > 0 else ends.least(way)


def _look_at_the_width(draft: Draft, wide: Millimetre) -> None:
    """Look by rule how wide the step will be: from the side it is open at, not from the zero."""
    if wide >= RULE_WITHIN:
        draft.check = CoarseCheck(
            what="touch mark of the cutter's side from the open edge, before going down",
            means="rule", expect=wide, within=RULE_WITHIN,
        )  # fmt: skip


def _close_size(draft: Draft) -> Measure | None:
    """Give the close size across that a step's wall makes, if it makes one."""
    return next(
        (
            m for m in draft.measures
            if m.kind == "length" and m.band is not None and m.band.width < CLOSE_WALL
            and m.band.origin == "drawn"
        ),
        None,
    )  # fmt: skip


def open_ends(task: Task, space: Extents, way: Vec3) -> tuple[bool, bool]:
    """Tell whether a cut runs out of the metal at its low and high end along a way."""
    metal = extents_of_all(task.part.metal)
    if metal is None:
        return False, False
    return (
        space.least(way) < metal.least(way) - _SAME,
        space.most(way) > metal.most(way) + _SAME,
    )


def _corners(  # noqa: PLR0917  (where one cut lies)
    task: Task, mill: Mill, op: Operation, zero: Vec3, space: Extents, width: Millimetre
) -> tuple[Place, ...]:
    """Where the cutter's middle starts and ends, along and across."""
    half = width / 2
    metal = extents_of_all(task.part.metal)
    low: dict[str, float] = {}
    high: dict[str, float] = {}
    for letter, way in (("x", task.along), ("y", task.away)):
        a = aimed(task, op, way, space.least(way)) + half
        b = aimed(task, op, way, space.most(way)) - half
        opens = open_ends(task, space, way)
        if metal is not None and opens[0]:
            a = metal.least(way) - half - RUN_OUT
        if metal is not None and opens[1]:
            b = metal.most(way) + half + RUN_OUT
        middle = (a + b) / 2
        low[letter], high[letter] = (a, b) if a <= b else (middle, middle)
    ends = []
    for label, spot in (("from", low), ("to", high)):
        x = spot["x"] - aimed(task, None, task.along, dot(zero, task.along))
        y = spot["y"] - aimed(task, None, task.away, dot(zero, task.away))
        point = point_at(task, zero, x, y)
        ends.append(Place(label=label, at=point, x=x, y=y, moves=table_moves(mill, x, y)))
    return tuple(ends)
