"""Where the dials of a set-up are set to zero, and how it is picked up."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import OUTWARD, Block, Surface
from halfthou.planning.axes import Extents, dot, extents_of_all, moved, same
from halfthou.planning.milled.lump import lump_of
from halfthou.planning.milled.operations import SLIT
from halfthou.planning.milled.slants import slant_of
from halfthou.planning.milled.squared import squared
from halfthou.planning.model import Operation
from halfthou.planning.worked import Touch, Zero
from halfthou.planning.working.task import Task
from halfthou.planning.working.zero_at_jaw import (
    at_fixed_jaw,
    at_the_jaw,
    free_round,
    which_jaw,
)
from halfthou.units import Millimetre, Vec3

_FLAT: Final = 0.99
_FEELER: Final[Millimetre] = 0.05
_A_SKIM: Final[Millimetre] = 1.0
_SAME: Final = 1e-6
HIGHEST_SPOT: Final = "cutter just touching the highest spot"
AS_IT_STANDS: Final = "cutter as the last cut left it"
RAW: Final = " on the raw edge"
BOTH_SIDES: Final = ", both sides"
MILLED_DOWN: Final = frozenset(
    ("mill face", "mill step", "mill slot", "mill pocket", "mill keyway")
)
"""What is milled with the height set by the knee."""
_BY_CUTTER: Final = "cutter and a slip of paper"
AS_CUT: Final = "cutter itself, as it cleans the edge up"


def lathe_zero(task: Task, slides: frozenset[str]) -> Zero:
    """Zero on the finished face toward the tailstock; across, from a trial cut measured.

    No slide has a zero that no step moves it from: ``slides`` are those that are moved.
    """
    face = _face_name(task)
    feeler = task.gauge("feeler")
    means = feeler.name if feeler is not None else "slip of paper"
    thick = feeler.tip if feeler is not None and feeler.tip > 0 else _FEELER
    along = (("x", face, means, thick),) if "saddle" in slides else ()
    across = (("diameter", "", "trial cut, measured", 0.0),) if "cross-slide" in slides else ()
    return Zero(at=_on_the_axis(task), surfaces=(face,) if face else (), pick_up=(*along, *across))


def _on_the_axis(task: Task) -> Vec3:
    """Give the middle of the zero face: on the line that turns true, or over the hole."""
    spots = [op.at[0] for op in task.operations if op.at]
    toward = task.scheme.faces
    start = task.scheme.throw if abs(toward[0]) > _FLAT or not spots else spots[0]
    return moved(start, toward, task.face_reading - dot(start, toward))


def _face_name(task: Task) -> str:
    """Name the plane at the zero face, or the one it is skimmed down to later."""
    toward = task.scheme.faces
    here = [
        (abs(dot(s.point, toward) - task.face_reading), s.name)
        for s in task.part.surfaces
        if s.kind == "plane" and dot(s.direction, toward) > _FLAT
    ]
    off, name = min(here, default=(math.inf, ""))
    return name if off < _A_SKIM else ""


def mill_zero(task: Task) -> Zero:
    """Zero on the axis of a finished round that stands upright, else from edges, where used.

    No direction has a zero that no step is dialled from.
    """
    task = replace(task, part=squared(task.part))
    ways = ways_used(task)
    upright = _upright(task) if ways or not _touched_by_themselves(task) else None
    at: Vec3 = (0.0, 0.0, 0.0)
    picks: tuple[tuple[str, str, str, Millimetre], ...] = ()
    names: tuple[str, ...] = ()
    if upright is not None:
        at, picks, names = _on_axis(task, upright)
    elif ways:
        at, picks, names = _from_edges(task, ways)
    top = top_of(task)
    if top is not None:
        height, touch = _height_zero(task, top)
        at = _with_height(at, task.up, height)
        picks = (*picks, *touch)
        names = (*names, top.name)
    return Zero(at=at, surfaces=tuple(dict.fromkeys(names)), pick_up=picks)


def _height_zero(
    task: Task, top: Surface
) -> tuple[Millimetre, tuple[tuple[str, str, str, Millimetre], ...]]:
    """Where the height's zero lies and how it is first found; nothing where all is by the quill.

    Work that is only faced has it where the cutter touches; the rest on the finished top.
    """
    height = _height(task, top)
    kneed = [op for op in task.operations if op.verb in MILLED_DOWN]
    faced = [op for op in kneed if goes_over_the_top(task, op)]
    if kneed and len(faced) == len(kneed):
        return height + faced[0].starts, (("z", top.name, HIGHEST_SPOT, 0.0),)
    dialled = [op for op in kneed if op not in faced]
    if not dialled:
        return height, ()
    before = task.operations[: task.operations.index(dialled[0])]
    if (
        before
        and before[-1].tools[:1] == dialled[0].tools[:1]
        and _cuts_the_top(task, before[-1], top)
    ):
        return height, (("z", top.name, AS_IT_STANDS, 0.0),)
    touch = touch_on(task, top, dialled[0])
    return height, (("z", top.name, touch.means, touch.above),)


def _cuts_the_top(task: Task, operation: Operation, top: Surface) -> bool:
    return top.name in operation.makes and goes_over_the_top(task, operation)


def touch_on(task: Task, top: Surface, operation: Operation) -> Touch:
    """Tell how a cutter is touched on the top as it then stands, raw or cut: heights count there.

    Above the zero there is then only the feeler.
    """
    feeler = task.gauge("feeler")
    means = feeler.name if feeler is not None else "slip of paper"
    thick = feeler.tip if feeler is not None and feeler.tip > 0 else _FEELER
    raw = left_over(task, top, operation) > 0
    return Touch(surface=f"stock {top.name}" if raw else top.name, means=means, above=thick)


def over_the_zero(task: Task, operation: Operation) -> Millimetre:
    """Give what stands over the finished top at an operation: its heights count from there."""
    top = top_of(task)
    return left_over(task, top, operation) if top is not None else 0.0


def left_over(task: Task, face: Surface, operation: Operation) -> Millimetre:
    """Give the metal that still stands over a face before an operation."""
    if face.name in task.there_before(operation):
        return 0.0
    before = [*task.done_before]
    for op in task.operations:
        if op is operation:
            break
        before.append(op)
    roughed = [
        op.ends for op in before
        if op.verb == "mill face" and op.feature == face.name and op.stage == "rough"
    ]  # fmt: skip
    return roughed[-1] if roughed else raw_over(task, face) or 0.0


def goes_over_the_top(task: Task, operation: Operation) -> bool:
    """Tell whether an operation only goes over the top, so that its place across is all one."""
    if operation.verb != "mill face":
        return False
    made = [s for s in map(task.surface, operation.makes) if s is not None and s.kind == "plane"]
    if made:
        return any(same(s.direction, task.up) for s in made)
    side = operation.feature.rsplit(" ", maxsplit=1)[-1]
    return any(name == side and same(out, task.up) for name, out in OUTWARD.items())


def ways_used(task: Task, *, after: Operation | None = None) -> tuple[str, ...]:
    """Name the directions over the table that some step is dialled in: x along, y away.

    Of all steps, or of those that come after one.
    """
    used: set[str] = set()
    first = task.operations.index(after) + 1 if after is not None else 0
    for op in task.operations[first:]:
        if op.verb == "mill chamfer" or goes_over_the_top(task, op) or _own_touch(task, op):
            continue
        if op.verb == "mill face":
            used |= {_edge_way(task, op)}
            continue
        space = extents_of_all(op.region)
        through = {
            letter
            for letter, way in (("x", task.along), ("y", task.away))
            if op.verb in MILLED_DOWN and space is not None and _right_through(task, space, way)
        }
        used |= {"x", "y"} - (through if len(through) == 1 else set())
    return tuple(sorted(used))


def _own_touch(task: Task, op: Operation) -> bool:
    """Tell whether a cut is touched at the work itself: at its corner, or by a saw's rim."""
    return op.remark == SLIT or (op.verb == "mill face" and slant_of(task.part, op) is not None)


def _touched_by_themselves(task: Task) -> bool:
    return all(_own_touch(task, op) for op in task.operations)


def _edge_way(task: Task, op: Operation) -> str:
    made = [task.surface(name) for name in (*op.makes, op.feature)]
    edge = next(
        (s for s in made if s is not None and abs(dot(s.direction, task.up)) < 1 - _FLAT), None
    )
    return "y" if edge is not None and abs(dot(edge.direction, task.away)) > _FLAT else "x"


def _right_through(task: Task, space: Extents, way: Vec3) -> bool:
    metal = extents_of_all(task.part.metal)
    if metal is None:
        return False
    return space.least(way) < metal.least(way) - _SAME and (
        space.most(way) > metal.most(way) + _SAME
    )


def _height(task: Task, surface: Surface) -> Millimetre:
    return max(dot(surface.low, task.up), dot(surface.high, task.up))


def _with_height(at: Vec3, up: Vec3, height: Millimetre) -> Vec3:
    return moved(at, up, height - dot(at, up))


def _there(task: Task) -> frozenset[str]:
    made = {name for op in task.operations if op.verb == "mill face" for name in op.makes}
    return task.there_before() | made


def top_of(task: Task) -> Surface | None:
    """Give what the cutter is touched off on: the highest finished surface, a round's top too."""
    there = _there(task)
    found = [
        s
        for s in task.part.surfaces
        if s.name in there
        and not s.inside
        and (
            (s.kind == "plane" and same(s.direction, task.up))
            or (s.kind == "cylinder" and abs(dot(s.direction, task.up)) < 1 - _FLAT)
        )
    ]
    over = _over_the_work(task, found)
    return max(over or found, key=lambda s: _height(task, s), default=None)


def _over_the_work(task: Task, found: list[Surface]) -> list[Surface]:
    """Keep a keyway's own round: its depth is measured from there."""
    spots = [point for op in task.operations for point in op.at]
    if not spots:
        return []
    return [
        s
        for s in found
        if s.kind == "cylinder"
        and all(s.low[0] - _SAME <= p[0] <= s.high[0] + _SAME for p in spots)
    ]


def _upright(task: Task) -> Surface | None:
    """Give the finished round on whose axis the holes are set out."""
    there = task.there_before()
    wanted = [name for name, _ in task.scheme.true_on]
    rounds = [
        s
        for s in task.part.surfaces
        if s.name in there and s.kind == "cylinder" and abs(dot(s.direction, task.up)) > _FLAT
    ]
    named = [s for s in rounds if s.name in wanted]
    tied = [s for s in rounds if _ties(task, s.name) > 0]
    for choice in (named, sorted(tied, key=lambda s: -_ties(task, s.name))):
        if choice:
            return choice[0]
    on_x = [s for s in rounds if task.part.turned]
    return on_x[0] if on_x else None


def _ties(task: Task, name: str) -> int:
    """Count what the drawing ties to a surface among the things made here."""
    made = {surface for op in task.operations for surface in op.makes}
    pairs = [(d.a, d.b) for d in task.part.distances]
    pairs += [(r.surface, r.to) for r in task.part.requirements]
    return sum(1 for a, b in pairs if (a == name and b in made) or (b == name and a in made))


def _closest(task: Task, name: str) -> float:
    """Rank an edge by the closest size drawn from it to what is made here: its zero counts."""
    made = {surface for op in task.operations for surface in op.makes}
    drawn = [
        d.band.width
        for d in task.part.distances
        if d.band.origin == "drawn"
        and ((d.a == name and d.b in made) or (d.b == name and d.a in made))
    ]
    return -min(drawn, default=math.inf)


_Found = tuple[Vec3, tuple[tuple[str, str, str, Millimetre], ...], tuple[str, ...]]


def _on_axis(task: Task, upright: Surface) -> _Found:
    clock = task.gauge("clock")
    means = f"{clock.name} swept round it" if clock is not None else "edge finder, four sides"
    return (
        upright.point,
        (("x", upright.name, means, 0.0), ("y", upright.name, means, 0.0)),
        (upright.name,),
    )


def _from_edges(task: Task, ways: tuple[str, ...]) -> _Found:
    finder = task.gauge("edge finder", "wobbler")
    means = finder.name if finder is not None else _BY_CUTTER
    half = finder.tip / 2 if finder is not None else 0.0
    at: Vec3 = (0.0, 0.0, 0.0)
    picks: list[tuple[str, str, str, Millimetre]] = []
    names: list[str] = []
    for letter, way in (("x", task.along), ("y", task.away)):
        if letter not in ways:
            continue
        edge = _edge(task, way, prefer=-1.0 if letter == "x" else 1.0)
        if edge is not None:
            at, stands = _placed(at, edge, way, half)
            how = means
            free = free_round(task, edge, way, 2 * half)
            if free is not None:
                edge, how, stands = free, f"{means}{BOTH_SIDES}", 0.0
            elif at_fixed_jaw(task, edge, way):
                stands = at_the_jaw(edge, half)
                how = f"{means}{which_jaw(task, edge, 2 * half)}"
            picks.append((letter, edge.name, how, stands))
            names.append(edge.name)
            continue
        rim = _rim(task, way)
        own = first_edge_cut(task, way)
        if rim is not None:
            picks.append((letter, rim.name, f"{means}{BOTH_SIDES}", 0.0))
            names.append(rim.name)
        elif own is not None:
            at, how, stands = _not_yet_cut(task, at, own, way)
            picks.append((letter, own.name, how, stands))
            names.append(own.name)
    return at, tuple(picks), tuple(names)


def _rim(task: Task, way: Vec3) -> Surface | None:
    """Give the round that work stands on, its two sides along ``way`` to be had."""
    rounds = [s for s in map(task.surface, task.scheme.seats) if s is not None]
    return next(
        (
            s
            for s in rounds
            if s.kind == "cylinder" and not s.inside and abs(dot(s.direction, way)) < 1 - _FLAT
        ),
        None,
    )


def first_edge_cut(task: Task, way: Vec3) -> Surface | None:
    """Give the first edge cut in this set-up along a way: where nothing finished is to be had."""
    made = [task.surface(name) for op in task.operations for name in op.makes]
    along = (
        s for s in made
        if s is not None and s.kind == "plane" and not s.inside
        and abs(dot(s.direction, way)) > _FLAT
    )  # fmt: skip
    return next(along, None)


def _not_yet_cut(task: Task, at: Vec3, own: Surface, way: Vec3) -> tuple[Vec3, str, Millimetre]:
    """Zero on an edge still to be cut: from the raw one outside it, where the lump is known.

    A sawn edge is too rough for a finder: the cutter itself comes up to it, a paper between.
    """
    half = _half_cutter(task, own)
    here, stands = _placed(at, own, way, half)
    over = raw_over(task, own)
    if over is None:
        return here, AS_CUT, stands
    return here, f"{_BY_CUTTER}{RAW}", stands + dot(own.direction, way) * over


def raw_over(task: Task, edge: Surface) -> Millimetre | None:
    """Give how far the raw lump stands outside an edge; None for castings and turned work."""
    if not any(isinstance(f, Block) for f in task.part.features):
        return None
    lump = lump_of(task.part)
    if lump.cast:
        return None
    return lump.raw.most(edge.direction) - dot(edge.point, edge.direction)


def _half_cutter(task: Task, edge: Surface) -> Millimetre:
    """Give half the width of the cutter that makes an edge."""
    for op in task.operations:
        tool = task.tool(op.tools[0]) if op.tools else None
        if edge.name in op.makes and tool is not None:
            return tool.width / 2
    return 0.0


def _placed(at: Vec3, edge: Surface, way: Vec3, half: Millimetre) -> tuple[Vec3, Millimetre]:
    """Where zero lies along one way, and where the finder's middle is as it touches, from it."""
    sits = dot(edge.point, way)
    here = (
        at[0] + (sits - dot(at, way)) * way[0],
        at[1] + (sits - dot(at, way)) * way[1],
        at[2] + (sits - dot(at, way)) * way[2],
    )
    if edge.kind == "cylinder":
        radius = edge.size.middle / 2 if edge.size is not None else 0.0
        return here, -(radius + half)
    return here, dot(edge.direction, way) * half


def _edge(task: Task, way: Vec3, *, prefer: float) -> Surface | None:
    """Give the edge to pick up along one way: the drawing's own, else the outermost."""
    there = task.there_before()
    planes = [
        s
        for s in task.part.surfaces
        if s.kind == "plane"
        and abs(dot(s.direction, way)) > _FLAT
        and not s.inside
        and s.name not in {name for op in task.operations for name in op.makes}
    ]
    lying = [
        s
        for s in task.part.surfaces
        if s.kind == "cylinder" and not s.inside and s.name in task.scheme.grips
        and abs(dot(s.direction, way)) < 1 - _FLAT and abs(dot(s.direction, task.up)) < 1 - _FLAT
    ]  # fmt: skip
    if lying:
        return lying[0]
    finished = [s for s in planes if s.name in there]
    jaw = [s for s in finished if at_fixed_jaw(task, s, way)]
    if jaw:
        return jaw[0]
    if not finished and first_edge_cut(task, way) is None:
        finished = planes
    return max(
        finished,
        key=lambda s: (
            _closest(task, s.name),
            _ties(task, s.name),
            s.name in task.scheme.grips,
            prefer * dot(s.point, way),
        ),
        default=None,
    )
