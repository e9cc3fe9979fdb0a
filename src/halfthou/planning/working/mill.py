"""Steps of a set-up on the mill: faces, edges, steps, slots, keyways; the tools' heights."""

from __future__ import annotations

from dataclasses import replace

from halfthou.cutting.fluid import fluid_for
from halfthou.cutting.milling import (
    cutter_width,
    each_setting,
    facing_depth,
    lanes,
    milling,
    to_a_face,
    traverses,
)
from halfthou.cutting.passes import roughing
from halfthou.drawing.model import Block, Cutout, Surface
from halfthou.planning.axes import Extents, dot, extents_of_all
from halfthou.planning.milled.squared import squared
from halfthou.planning.model import Operation
from halfthou.planning.worked import Feed, Measure, Touch
from halfthou.planning.working import mill_words, words
from halfthou.planning.working.aims import cutout_sizes, offsets
from halfthou.planning.working.cuts import Draft, told
from halfthou.planning.working.hollows import cut_down, keyway_leaves
from halfthou.planning.working.measures import measures_for, passing_measure
from halfthou.planning.working.mill_holes import HOLES, mill_hole
from halfthou.planning.working.places import down, line_move, longest, set_at
from halfthou.planning.working.side import (
    last_look,
    side_milling,
    to_the_far_side,
    to_the_raw_side,
)
from halfthou.planning.working.slants import is_slant, slant_milling
from halfthou.planning.working.slitting import is_slit, slit
from halfthou.planning.working.task import Task
from halfthou.planning.working.zero import (
    AS_IT_STANDS,
    HIGHEST_SPOT,
    goes_over_the_top,
    raw_over,
    top_of,
    touch_on,
    ways_used,
)
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Mill, Tool

_PAST: Millimetre = 4.0
"""What the space of a face reaches past the metal, both ends together. [mm]"""
_UPRIGHT = 0.99
_SAME: Millimetre = 1e-6


def mill_drafts(task: Task, mill: Mill, zero: Vec3) -> list[Draft]:
    """Work out every step of a mill set-up."""
    made: list[Draft] = []
    task = replace(task, part=squared(task.part))
    for op in task.operations:
        hole = op.verb in HOLES
        draft = mill_hole(task, mill, op, zero) if hole else _milled(task, mill, op, zero)
        draft.remarks += words.metal_remarks(task.metal, op)
        if op.remark:
            draft.remarks.append(op.remark)
        if any(not m.decides and m.band is not None and not m.tick for m in draft.measures):
            draft.remarks.append(words.NOT_JUDGED)
        plugs = op.verb != "mill keyway"  # its plug is told with the trial slot, before the vice
        if plugs and any(m.to_make and m.kind in {"bore", "width"} for m in draft.measures):
            draft.remarks.append(words.PLUG)
        _touched(task, draft, made[-1] if made else None)
        _tool_in(draft, made[-1] if made else None)
        made.append(draft)
    _one_reach(made)
    return made


def _one_reach(drafts: list[Draft]) -> None:
    """Hold each cutter by one reach through a set-up: gripped anew it loses the knee's zero."""
    for one in drafts:
        if one.operation.verb in HOLES:
            continue
        own = [d.tool_out for d in drafts if d.tool == one.tool and d.tool_out is not None]
        one.tool_out = max(own, default=None)


def _tool_in(draft: Draft, before: Draft | None) -> None:
    """Say in order how the drill chuck goes in for the first hole, and how milling goes on."""
    drilled = before is not None and before.operation.verb in HOLES
    if draft.operation.verb not in HOLES:
        draft.remarks += [mill_words.KNEE_BACK] if drilled else []
    elif not drilled:
        draft.remarks.insert(0, mill_words.CHUCK_IN)
    elif before is not None and before.tool != draft.tool:
        draft.remarks.insert(0, mill_words.ANOTHER_IN)


def _touched(task: Task, draft: Draft, before: Draft | None) -> None:
    """Tell how a fresh cutter's height is found; the dial's zero stays where it was."""
    if not any(m.slide == "knee" for m in draft.moves):
        return
    if draft.operation.verb == "mill chamfer":
        return
    if goes_over_the_top(task, draft.operation):
        surface = draft.operation.makes[0] if draft.operation.makes else draft.operation.feature
        draft.touch = Touch(surface=f"stock {surface}", means=HIGHEST_SPOT, above=0.0)
        draft.remarks.append(mill_words.TOUCHED_HIGHEST)
        return
    top = top_of(task)
    same_tool = before is not None and before.tool == draft.tool
    if top is None or (same_tool and not _just_faced(task, before, top)):
        return
    if same_tool:
        draft.touch = Touch(surface=top.name, means=AS_IT_STANDS, above=0.0)
        return
    draft.touch = touch_on(task, top, draft.operation)
    draft.remarks.append(mill_words.TOUCHED)


def _just_faced(task: Task, before: Draft | None, top: Surface) -> bool:
    """Tell whether the step before cut the top itself, so that the cutter stands at its height."""
    return (
        before is not None
        and top.name in before.operation.makes
        and goes_over_the_top(task, before.operation)
    )


# --- milling ---


def _milled(task: Task, mill: Mill, op: Operation, zero: Vec3) -> Draft:
    name = op.tools[0] if op.tools else op.verb
    tool = task.tool(name)
    draft = Draft(operation=op, tool=name, fluid=fluid_for(task.metal, op.verb))
    width = cutter_width(tool)
    set_to = milling(
        metal=task.metal,
        verb=op.verb,
        tool=tool,
        workshop=task.workshop,
        mill=mill,
        deep=_at_its_side(task, op),
    )
    draft.speed = set_to.speed
    draft.feed = Feed(
        kind="hand", per_turn=set_to.per_turn, seconds_a_handle_turn=set_to.seconds, slide="table"
    )
    draft.measures = _measures(task, op)
    draft.lock = ("cross-table", "quill", "knee")
    if op.verb == "mill chamfer":
        draft.moves = (down(mill, op.cut_size, quill=False),)
        draft.remarks.append("touch the edge, then on by the leg of the chamfer")
        draft.takes(length=longest(task, extents_of_all(op.region)), passes=2)
    elif is_slant(task, op):
        slant_milling(task, mill, draft, width)
        draft.remarks.append(mill_words.KNEE_ONCE)
    elif is_slit(op):
        slit(task, mill, draft, tool, zero)
    elif goes_over_the_top(task, op):
        _facing(task, mill, draft, tool, zero)
    elif op.verb == "mill face":
        side_milling(task, mill, draft, width, zero)
    else:
        cut_down(task, mill, draft, width, zero)
    if set(mill_words.WOUND_UP) & set(draft.remarks):
        draft.lock = tuple(slide for slide in draft.lock if slide != "knee")
    _in_the_vice(task, draft)
    if draft.feed.table_goes:
        draft.remarks.append(words.FEED_AGAINST)
    return draft


def _in_the_vice(task: Task, draft: Draft) -> None:
    """Say how what lies in a vice is measured: squareness, and heights whose foot is hidden."""
    if task.scheme.device.device != "vice" or draft.operation.stage == "rough":
        return
    made = draft.operation.makes
    if any(r.kind == "square" and {r.surface, r.to} & set(made) for r in task.part.requirements):
        draft.remarks.append(words.SQUARED)
    for distance in task.part.distances:
        pair = {distance.a, distance.b}
        hidden = pair & set(task.scheme.seats)
        other = [s for n in pair - hidden if (s := task.surface(n)) is not None]
        top = top_of(task)
        if hidden and other and other[0].name in made and other[0] != top:
            below = top is not None and dot(other[0].point, task.up) < dot(top.point, task.up)
            if top is not None and below:
                _down_from_the_top(task, draft, top, other[0])


def _down_from_the_top(task: Task, draft: Draft, top: Surface, face: Surface) -> None:
    """Measure a height whose foot the jaws hide by what it lies below the top."""
    far = dot(top.point, task.up) - dot(face.point, task.up)
    down_in = passing_measure(task, surface=face.name, size=far, kind="depth")
    if down_in is None:
        return
    draft.measures = (
        replace(down_in, where="down from the top"),
        *(
            replace(m, when="out of the holding")
            if m.surface == face.name and m.kind == "length" else m
            for m in draft.measures
        ),
    )  # fmt: skip
    before = task.operations[: task.operations.index(draft.operation)]
    own = any(m.when == "out of the holding" for m in draft.measures)
    again = not own and any(one.verb == draft.operation.verb for one in before[-1:])
    draft.remarks.append(mill_words.AS_DEEP if again else mill_words.HEIGHT_LESS)


def _at_its_side(task: Task, op: Operation) -> Millimetre:
    """How far up its flutes a cutter cuts at once: the whole height of an edge."""
    if op.verb != "mill face" or goes_over_the_top(task, op):
        return 0.0
    metal = extents_of_all(task.part.metal)
    return metal.length(task.up) if metal is not None else 0.0


def _measures(task: Task, op: Operation) -> tuple[Measure, ...]:
    """Every drawn size an operation leaves: depths up and down, the rest as they lie."""
    found = measures_for(task, op)
    if op.verb == "mill keyway":
        found = (*found[:1], *keyway_leaves(task, op), *found[1:])
    cutout = next(
        (f for f in task.part.features if isinstance(f, Cutout) and f.name == op.feature), None
    )
    own = cutout_sizes(task, cutout) if cutout is not None else ()
    return (*(_centred(task, _level(task, one)) for one in found), *own)


def _level(task: Task, measure: Measure) -> Measure:
    """Call a depth that lies level on the table a position: no depth rod goes down it."""
    for distance in task.part.distances:
        if (
            distance.band is measure.band
            and measure.kind == "depth"
            and abs(dot(distance.direction, task.up)) < 1 - _UPRIGHT
        ):
            return replace(measure, kind="position")
    return measure


def _centred(task: Task, measure: Measure) -> Measure:
    """Shift what is drawn in the middle by its share of what the sizes round it are aimed off."""
    for distance in task.part.distances:
        if distance.band is measure.band and distance.band.text.startswith("centred"):
            moved = offsets(task)
            a = moved.get(distance.a, (0.0, 0.0, 0.0))
            b = moved.get(distance.b, (0.0, 0.0, 0.0))
            by = dot(b, distance.direction) - dot(a, distance.direction)
            good = measure.good
            return replace(
                measure,
                aim=measure.aim + by,
                low=measure.low + by,
                high=measure.high + by,
                good=(good[0] + by, good[1] + by) if good is not None else None,
            )
    return measure


def _facing(task: Task, mill: Mill, draft: Draft, tool: Tool | None, zero: Vec3) -> None:
    op = draft.operation
    width = cutter_width(tool)
    space = extents_of_all(op.region)
    deepest = facing_depth(tool, task.metal)
    step = mill.z.division
    if op.stage == "rough":
        cuts = roughing(metal_off=op.cut_size, deepest=deepest, leave=0.0, step=2 * step)
    else:
        cuts = to_a_face(metal_off=op.cut_size, deepest=deepest, division=step)
    lengths = [m for m in draft.measures if m.kind == "length"]
    if not lengths:
        lengths = _no_size_drawn(task, draft)
        draft.measures = (*draft.measures, *(lengths or _first_face(task, mill, draft)))
    known = lengths or op.stage == "rough"
    size = next((m.aim for m in draft.measures if known and m.kind == "length"), 0.0)
    draft.moves = tuple(down(mill, total, quill=False) for total in each_setting(cuts))
    draft.passes = set_at(told(cuts, size=size, way=1.0), draft.moves, division=step)
    draft.remarks.append(mill_words.KNEE_LOCKED)
    if lengths and op.stage != "rough":
        draft.check = last_look("thickness before the last cut", lengths[0], cuts[-1].depth)
        roughed = mill_words.ROUGHING_TO_TAKE if len(cuts) > 1 else mill_words.WHAT_IS_OVER
        draft.remarks += [roughed, mill_words.LEFT_TO_THE_LAST]
    elif op.stage != "rough":
        draft.remarks.append(mill_words.NOT_CLEAN)
    face = _face_cut(task, op)
    draft.remarks += mill_words.named(face, op) if face is not None and _of_a_block(task) else ()
    draft.remarks.append(words.HIGHEST)
    count = sum(cut.count for cut in cuts) * traverses(_narrow(task, space), width)
    draft.takes(length=longest(task, space) - _PAST + width, passes=count)
    _in_lanes(task, mill, draft, width, zero)
    if "one by one" in task.scheme.links[-1].detail:
        draft.remarks.append(mill_words.HALF_BY_HALF)


def _in_lanes(task: Task, mill: Mill, draft: Draft, width: Millimetre, zero: Vec3) -> None:
    """Run along the longer way; where the cutter does not span the other, set every lane of it."""
    space = extents_of_all(draft.operation.region)
    if space is None:
        return
    over_table = space.length(task.along) >= space.length(task.away) - _SAME
    way = task.away if over_table else task.along
    if not over_table:
        draft.lock = ("table", "quill", "knee")
        if draft.feed is not None:
            draft.feed = replace(draft.feed, slide="cross-table")
    offsets_of_lanes = lanes(space.length(way) - _PAST, width)
    if len(offsets_of_lanes) == 1:
        return
    middle = (space.least(way) + space.most(way)) / 2
    from_zero = middle - dot(zero, way) if ("y" if over_table else "x") in ways_used(task) else 0.0
    draft.moves += tuple(
        line_move(mill, task, way, from_zero + offset) for offset in offsets_of_lanes
    )
    draft.remarks.append(words.LANES if from_zero else words.LANES_FROM_MIDDLE)


def _face_cut(task: Task, op: Operation) -> Surface | None:
    """Give the face an operation leaves looking up."""
    made = [task.surface(name) for name in op.makes]
    return next((s for s in made if s is not None and dot(s.direction, task.up) > _UPRIGHT), None)


def _of_a_block(task: Task) -> bool:
    return any(isinstance(feature, Block) for feature in task.part.features)


def _no_size_drawn(task: Task, draft: Draft) -> list[Measure]:
    """Give the length to the finished face opposite, where the drawing only gives it in parts."""
    face = _face_cut(task, draft.operation)
    if face is None or not _of_a_block(task):
        return []
    return list(to_the_far_side(task, draft, face))


def _first_face(task: Task, mill: Mill, draft: Draft) -> tuple[Measure, ...]:
    face = _face_cut(task, draft.operation)
    if face is None or raw_over(task, face) is None:
        return ()
    return to_the_raw_side(task, draft, face, mill.z.division)


def _narrow(task: Task, space: Extents | None) -> Millimetre:
    if space is None:
        return 20.0
    return min(space.length(task.along), space.length(task.away)) - _PAST
