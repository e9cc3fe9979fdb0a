"""Where the dials of a set-up are set to zero, and how it is picked up."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import Block, Surface
from halfthou.planning.axes import dot, moved, same
from halfthou.planning.milled.lump import lump_of
from halfthou.planning.model import Operation
from halfthou.planning.worked import Zero
from halfthou.planning.working_task import Task
from halfthou.units import Millimetre, Vec3

_FLAT: Final = 0.99
_FEELER: Final[Millimetre] = 0.05
_A_SKIM: Final[Millimetre] = 1.0
_SAME: Final = 1e-6
HIGHEST_SPOT: Final = "cutter just touching the highest spot"
RAW: Final = " on the raw edge"
AS_CUT: Final = "cutter itself, as it cleans the edge up"


def lathe_zero(task: Task) -> Zero:
    """Zero on the finished face toward the tailstock; across, from a trial cut measured."""
    face = _face_name(task)
    feeler = task.gauge("feeler")
    means = feeler.name if feeler is not None else "slip of paper"
    thick = feeler.tip if feeler is not None and feeler.tip > 0 else _FEELER
    return Zero(
        at=_on_the_axis(task),
        surfaces=(face,) if face else (),
        pick_up=(
            ("x", face, means, thick),
            ("diameter", "", "trial cut, measured", 0.0),
        ),
    )


def _on_the_axis(task: Task) -> Vec3:
    """Give the middle of the zero face: on the part's x, or over the hole worked on."""
    spots = [op.at[0] for op in task.operations if op.at]
    toward = task.scheme.faces
    start: Vec3 = (0.0, 0.0, 0.0) if abs(toward[0]) > _FLAT or not spots else spots[0]
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
    """Zero on the axis of a finished round that stands upright, else from two edges."""
    top = _top(task)
    upright = _upright(task)
    at: Vec3 = (0.0, 0.0, 0.0)
    picks: tuple[tuple[str, str, str, Millimetre], ...] = ()
    names: tuple[str, ...] = ()
    if upright is not None:
        at, picks, names = _on_axis(task, upright)
    elif not all(only_faces_the_top(task, op) for op in task.operations):
        at, picks, names = _from_edges(task)
    height = task.gauge("feeler")
    means = height.name if height is not None else "slip of paper"
    thick = height.tip if height is not None and height.tip > 0 else _FEELER
    if all(only_faces_the_top(task, op) for op in task.operations):
        means, thick = HIGHEST_SPOT, 0.0
    if top is not None:
        at = _with_height(at, task.up, _height(task, top))
        picks = (*picks, ("z", top.name, means, thick))
        names = (*names, top.name)
    return Zero(at=at, surfaces=tuple(dict.fromkeys(names)), pick_up=picks)


def only_faces_the_top(task: Task, operation: Operation) -> bool:
    """Tell whether an operation only goes over the top, so that its place across is all one."""
    tool = task.tool(operation.tools[0]) if operation.tools else None
    return operation.verb == "mill face" and (tool is None or tool.kind == "face mill")


def _height(task: Task, surface: Surface) -> Millimetre:
    return max(dot(surface.low, task.up), dot(surface.high, task.up))


def _with_height(at: Vec3, up: Vec3, height: Millimetre) -> Vec3:
    return moved(at, up, height - dot(at, up))


def _there(task: Task) -> frozenset[str]:
    made = {name for op in task.operations if op.verb == "mill face" for name in op.makes}
    return task.there_before() | made


def _top(task: Task) -> Surface | None:
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


_Found = tuple[Vec3, tuple[tuple[str, str, str, Millimetre], ...], tuple[str, ...]]


def _on_axis(task: Task, upright: Surface) -> _Found:
    clock = task.gauge("clock")
    means = f"{clock.name} swept round it" if clock is not None else "edge finder, four sides"
    return (
        upright.point,
        (("x", upright.name, means, 0.0), ("y", upright.name, means, 0.0)),
        (upright.name,),
    )


def _from_edges(task: Task) -> _Found:
    finder = task.gauge("edge finder", "wobbler")
    means = finder.name if finder is not None else "cutter and a slip of paper"
    half = finder.tip / 2 if finder is not None else 0.0
    at: Vec3 = (0.0, 0.0, 0.0)
    picks: list[tuple[str, str, str, Millimetre]] = []
    names: list[str] = []
    for letter, way in (("x", task.along), ("y", task.away)):
        edge = _edge(task, way, prefer=-1.0 if letter == "x" else 1.0)
        if edge is None:
            own = first_edge_cut(task, way)
            if own is not None:
                at, how, allowance = _not_yet_cut(task, at, own, way, half)
                picks.append((letter, own.name, f"{means}{RAW}" if how == RAW else how, allowance))
                names.append(own.name)
            continue
        at, allowance = _placed(at, edge, way, half)
        picks.append((letter, edge.name, means, allowance))
        names.append(edge.name)
    return at, tuple(picks), tuple(names)


def first_edge_cut(task: Task, way: Vec3) -> Surface | None:
    """Give the first edge cut in this set-up along a way: where nothing finished is to be had."""
    made = [task.surface(name) for op in task.operations for name in op.makes]
    along = (
        s for s in made
        if s is not None and s.kind == "plane" and not s.inside
        and abs(dot(s.direction, way)) > _FLAT
    )  # fmt: skip
    return next(along, None)


def _not_yet_cut(
    task: Task, at: Vec3, own: Surface, way: Vec3, half: Millimetre
) -> tuple[Vec3, str, Millimetre]:
    """Zero on an edge still to be cut: from the raw one outside it, where the lump is known."""
    over = raw_over(task, own)
    if over is None:
        here, allowance = _placed(at, own, way, _half_cutter(task, own))
        return here, AS_CUT, allowance
    here, allowance = _placed(at, own, way, half)
    return here, RAW, allowance - dot(own.direction, way) * over


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
    """Where zero lies along one way, and what to go on from where the finder kicks."""
    sits = dot(edge.point, way)
    here = (
        at[0] + (sits - dot(at, way)) * way[0],
        at[1] + (sits - dot(at, way)) * way[1],
        at[2] + (sits - dot(at, way)) * way[2],
    )
    if edge.kind == "cylinder":
        radius = edge.size.middle / 2 if edge.size is not None else 0.0
        return here, radius + half
    outward = dot(edge.direction, way)
    return here, -outward * half


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
    if not finished and first_edge_cut(task, way) is None:
        finished = planes
    return max(
        finished,
        key=lambda s: (
            _ties(task, s.name),
            s.name in task.scheme.grips,
            prefer * dot(s.point, way),
        ),
        default=None,
    )
