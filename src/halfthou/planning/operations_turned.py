"""What has to be done on the lathe to the outside and the ends of a turned part.

Each round is cut from one end or the other: a knife tool works toward the chuck, so the shoulder
at the round's far end must be the larger metal. A round that can be cut from either end becomes
an alternative for the solver. Regions reach out to the free end: metal is turned down from
the largest diameter, and what is smaller beyond it is turned down further afterwards.
"""

from __future__ import annotations

import math
from typing import Final, Literal, TypeAlias

from halfthou.drawing.geometry import Cone, Cylinder, Region, TaperTube, Tube
from halfthou.drawing.model import (
    Band,
    Centres,
    ChamferCut,
    Groove,
    Part,
    Round,
    Surface,
)
from halfthou.handbook.threads import Thread
from halfthou.planning.model import Alternative, Operation, Stage
from halfthou.planning.stock import PARTED, Stock, ends
from halfthou.planning.times import minutes_for
from halfthou.planning.work import Work
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Tool, Workshop

End: TypeAlias = Literal["left", "right"]
TOWARD: Final[dict[End, Vec3]] = {"right": (1.0, 0.0, 0.0), "left": (-1.0, 0.0, 0.0)}
ROUGH_LEAVES: Final = 0.25
"""Metal left a side for finishing a fitted diameter, mm (usual practice)."""
BEYOND: Final = 2.0
"""How far a removed region reaches past the metal, mm: it only has to be past it."""
NARROW: Final = 6.0
"""A neck narrower than this is plunged with a grooving tool, mm (usual practice)."""
SCREWCUTTING: Final = 20.0
"""Minutes more for a thread cut with a tool: change wheels and a dozen passes (usual practice)."""
FACE_LEAVES: Final = 0.2
"""Metal left on a face that is faced again where it must be square, mm (usual practice)."""
_FACING_WORDS: Final = {"rough": "first skim", "finish": "to finish"}
FITTED: Final = 0.08
"""A diameter with less tolerance than this is roughed and finished apart, mm (usual practice)."""


def tool_names(workshop: Workshop, *kinds: str) -> tuple[str, ...]:
    """Names of the lathe tools of these kinds in the workshop."""
    return tuple(t.name for t in _lathe_tools(workshop) if t.kind in kinds)


def _lathe_tools(workshop: Workshop) -> tuple[Tool, ...]:
    return tuple(t for t in workshop.tools if t.machine == "lathe")


def planes_at(part: Part, x: Millimetre, toward: Vec3) -> tuple[str, ...]:
    """Names of the plane surfaces at ``x`` that look along ``toward``."""
    return tuple(
        s.name
        for s in part.surfaces
        if s.kind == "plane"
        and abs(s.point[0] - x) < 1e-6
        and s.direction[0] * toward[0] > 0.5
        and not s.inside
    )


def walls_of(part: Part, feature: str, *, inside: bool) -> tuple[Surface, ...]:
    """The turned walls (cylinder, cone or thread) of one feature."""
    return tuple(
        s
        for s in part.surfaces
        if s.feature == feature and s.kind != "plane" and s.inside == inside
    )


def _rounds(part: Part) -> tuple[Round, ...]:
    rounds = [f for f in part.features if isinstance(f, Round)]
    return tuple(sorted(rounds, key=lambda r: r.left))


def _largest(one: Round) -> float:
    right = one.right_diameter.nominal if one.right_diameter else 0.0
    return max(one.diameter.nominal, right)


def turned_from(part: Part) -> dict[str, tuple[End, ...]]:
    """From which exposed end each round can be turned; both ends make it a choice."""
    rounds = _rounds(part)
    answer: dict[str, tuple[End, ...]] = {}
    for i, one in enumerate(rounds):
        size = _largest(one)
        left_larger = i > 0 and _largest(rounds[i - 1]) > size
        right_larger = i + 1 < len(rounds) and _largest(rounds[i + 1]) > size
        if left_larger == right_larger:
            answer[one.name] = ("right", "left")
        else:
            answer[one.name] = ("right",) if left_larger else ("left",)
    return answer


def is_neck(part: Part, name: str) -> bool:
    """Whether a round has larger metal on both sides."""
    rounds = _rounds(part)
    i = next(k for k, r in enumerate(rounds) if r.name == name)
    return (
        0 < i < len(rounds) - 1
        and _largest(rounds[i - 1]) > _largest(rounds[i])
        and _largest(rounds[i + 1]) > _largest(rounds[i])
    )


def _reach(part: Part, stock: Stock, one: Round, end: End) -> tuple[float, float]:
    """Where turning this round from that end begins and stops along x."""
    if is_neck(part, one.name):
        return one.left, one.right
    x0, x1 = ends(part)
    past = PARTED + stock.parting_width
    if end == "right":
        low = x0 - past if stock.chucking == "left" and abs(one.left - x0) < 1e-6 else one.left
        return low, stock.high + BEYOND
    high = x1 + past if stock.chucking == "right" and abs(one.right - x1) < 1e-6 else one.right
    return stock.low - BEYOND, high


def _ring(low: float, high: float, inside: float, stock: Stock) -> Region:
    return Tube(
        start=(low, 0.0, 0.0),
        end=(high, 0.0, 0.0),
        inside=inside,
        outside=max(stock.across, inside) + 2 * BEYOND,
    )


def _bar_as_drawn(part: Part, one: Round) -> bool:
    """Whether the bright bar itself makes this round: right size, and nothing tight asked."""
    return (
        part.blank.form == "round bar"
        and one.right_diameter is None
        and one.thread is None
        and abs(part.blank.across - one.diameter.nominal) < 1e-6
        and one.diameter.width >= FITTED
        and not any(r.surface == one.name and r.origin == "drawn" for r in part.requirements)
    )


def _shoulders(part: Part, one: Round, end: End) -> tuple[str, ...]:
    if end == "right":
        return planes_at(part, one.left, TOWARD["right"])
    return planes_at(part, one.right, TOWARD["left"])


def _turning(
    part: Part, workshop: Workshop, stock: Stock, one: Round, end: End
) -> tuple[Operation, ...]:
    low, high = _reach(part, stock, one, end)
    size = one.thread.major - 0.1 * one.thread.pitch if one.thread else one.diameter.middle
    neck = is_neck(part, one.name)
    kinds = ("grooving tool", "parting tool") if neck and high - low < NARROW else ("knife tool",)
    tools = tool_names(workshop, *kinds) or ("knife tool",)
    fitted = one.thread is None and one.diameter.width < FITTED
    walls = tuple(s.name for s in walls_of(part, one.name, inside=False))
    made = walls + _shoulders(part, one, end)

    def turn(stage: Literal["rough", "finish", "only"], to: float) -> Operation:
        drawn = to if stage == "rough" else one.diameter.nominal
        start = stock.across if stage != "finish" else to + 2 * ROUGH_LEAVES
        return Operation(
            key=f"{one.name} {stage} from {end}" if stage != "only" else f"{one.name} from {end}",
            verb="turn",
            stage=stage,
            feature=one.name,
            machine="lathe",
            makes=() if stage == "rough" else made,
            region=(_ring(low, high, drawn, stock),),
            approach=(TOWARD[end],),
            tools=tools[:1],
            minutes=minutes_for(
                "turn", length=one.right - one.left, across=start, depth=(start - to) / 2
            ),
            starts=low,
            ends=high,
            size=None if stage == "rough" or one.thread else one.diameter,
            cut_size=to,
            from_size=start,
        )

    if not fitted:
        return (turn("only", size), *_more(part, workshop, stock, one, end))
    return (
        turn("rough", one.diameter.high + 2 * ROUGH_LEAVES),
        turn("finish", one.diameter.middle),
        *_more(part, workshop, stock, one, end),
    )


def _more(
    part: Part, workshop: Workshop, stock: Stock, one: Round, end: End
) -> tuple[Operation, ...]:
    """The taper of a round, after it is turned."""
    more = []
    if one.right_diameter is not None:
        a, b = one.diameter.middle, one.right_diameter.middle
        more.append(
            Operation(
                key=f"{one.name} taper from {end}",
                verb="turn taper",
                stage="finish",
                feature=one.name,
                machine="lathe",
                makes=tuple(s.name for s in walls_of(part, one.name, inside=False)),
                region=(
                    TaperTube(
                        start=(one.left, 0.0, 0.0),
                        end=(one.right, 0.0, 0.0),
                        start_inside=one.diameter.nominal,
                        end_inside=one.right_diameter.nominal,
                        outside=max(a, b) + 2 * BEYOND,
                    ),
                ),
                approach=(TOWARD[end],),
                tools=tool_names(workshop, "knife tool")[:1] or ("knife tool",),
                minutes=minutes_for(
                    "turn taper", length=one.right - one.left, across=a, depth=abs(a - b) / 2
                ),
                starts=one.left,
                ends=one.right,
                size=one.diameter,
                cut_size=min(a, b),
                from_size=max(a, b),
            )
        )
    return tuple(more)


def _threads(part: Part, workshop: Workshop) -> Work:
    """Outside threads: by die with the end free, or screwcut; both are tried where both are had."""
    work = Work(operations=())
    for one in _rounds(part):
        if one.thread is None:
            continue
        ways = []
        for end in turned_from(part)[one.name]:
            ways += [
                _thread(part, one, one.thread, end, tool)
                for tool in _thread_tools(workshop, one.thread)
            ]
        bundles = tuple((op.key,) for op in ways)
        choice = Alternative(name=f"{one.name}: how the thread is cut", bundles=bundles)
        work += Work(operations=tuple(ways), alternatives=(choice,) if len(ways) > 1 else ())
    return work


def _thread_tools(workshop: Workshop, thread: Thread) -> tuple[str, ...]:
    die = (f"die {thread.designation}",)
    form = f"{math.degrees(thread.angle):g}°"
    cutting = tuple(n for n in tool_names(workshop, "screwcutting tool") if form in n)[:1]
    screwcuts = cutting if any(m.screwcutting for m in workshop.lathes) else ()
    return (die if thread.designation in workshop.drills.dies else ()) + screwcuts or die


def _thread(part: Part, one: Round, thread: Thread, end: End, tool: str) -> Operation:
    """A die takes minutes; screwcutting takes a dozen passes and the change wheels."""
    how = "die" if tool.startswith("die") else "screwcut"
    minutes = minutes_for(
        "thread", length=one.right - one.left, across=thread.major, depth=thread.pitch
    )
    return Operation(
        key=f"{one.name} thread, {how} from {end}",
        verb="thread",
        stage="only",
        feature=one.name,
        machine="lathe",
        makes=tuple(s.name for s in part.surfaces if s.feature == one.name and s.kind == "thread"),
        region=(),
        approach=(TOWARD[end],),
        tools=(tool,),
        minutes=minutes if how == "die" else minutes + SCREWCUTTING,
        starts=one.left,
        ends=one.right,
        cut_size=thread.major,
        thread=thread,
    )


def _outside(part: Part, workshop: Workshop, stock: Stock) -> Work:
    operations: list[Operation] = []
    choices: list[Alternative] = []
    for one in _rounds(part):
        if _bar_as_drawn(part, one):
            continue
        bundles = []
        for end in turned_from(part)[one.name]:
            made = _turning(part, workshop, stock, one, end)
            operations += made
            bundles.append(tuple(op.key for op in made))
        if len(bundles) > 1:
            choices.append(Alternative(name=f"{one.name}: from which end", bundles=tuple(bundles)))
    return Work(operations=tuple(operations), alternatives=tuple(choices))


def _faces(part: Part, workshop: Workshop, stock: Stock) -> Work:
    x0, x1 = ends(part)
    work = Work(operations=())
    for end, x, far in (("right", x1, stock.high + BEYOND), ("left", x0, stock.low - BEYOND)):
        side: End = "right" if end == "right" else "left"
        work += _face(part, workshop, stock, side, x, far)
    return work


def _face(
    part: Part, workshop: Workshop, stock: Stock, end: End, x: Millimetre, far: Millimetre
) -> Work:
    """Face an end once; or, where it must be square to something, skim it first and finish later."""
    tools = tool_names(workshop, "facing tool", "knife tool")[:1] or ("knife tool",)
    left_on = PARTED if stock.chucking == end else abs(far - x) - BEYOND
    made = planes_at(part, x, TOWARD[end])

    def face(stage: Stage, to: float, come_from: float) -> Operation:
        at = x + TOWARD[end][0] * to
        return Operation(
            key=f"face {end}" if stage == "only" else f"face {end} {_FACING_WORDS[stage]}",
            verb="face",
            stage=stage,
            feature=end,
            machine="lathe",
            makes=() if stage == "rough" else made,
            region=(
                Cylinder(
                    start=(at, 0.0, 0.0), end=(far, 0.0, 0.0), diameter=stock.across + 2 * BEYOND
                ),
            ),
            approach=(TOWARD[end],),
            tools=tools,
            minutes=minutes_for(
                "face", length=stock.across / 2, across=stock.across, depth=come_from
            ),
            starts=at,
            ends=far,
            from_size=come_from,
        )

    once = face("only", 0.0, left_on)
    if left_on <= FACE_LEAVES or not _squared(part, made):
        return Work(operations=(once,))
    twice = (face("rough", FACE_LEAVES, left_on - FACE_LEAVES), face("finish", 0.0, FACE_LEAVES))
    choice = Alternative(
        name=f"{end} end: faced once or twice",
        bundles=((once.key,), tuple(op.key for op in twice)),
    )
    return Work(operations=(once, *twice), alternatives=(choice,))


def _squared(part: Part, made: tuple[str, ...]) -> bool:
    return any(r.surface in made or r.to in made for r in part.requirements)


def _parting(part: Part, workshop: Workshop, stock: Stock) -> Work:
    if stock.chucking is None:
        return Work(operations=())
    x0, x1 = ends(part)
    at, far = (
        (x0 - PARTED, stock.low - BEYOND)
        if stock.chucking == "left"
        else (x1 + PARTED, stock.high + BEYOND)
    )
    free: End = "right" if stock.chucking == "left" else "left"
    return Work(
        operations=(
            Operation(
                key="part off",
                verb="part off",
                stage="only",
                feature=stock.chucking,
                machine="lathe",
                makes=(),
                region=(
                    Cylinder(
                        start=(at, 0.0, 0.0),
                        end=(far, 0.0, 0.0),
                        diameter=stock.across + 2 * BEYOND,
                    ),
                ),
                approach=(TOWARD[free],),
                tools=tool_names(workshop, "parting tool")[:1],
                minutes=minutes_for(
                    "part off",
                    length=stock.across / 2,
                    across=stock.across,
                    depth=stock.parting_width,
                ),
                starts=at,
                ends=at - stock.parting_width
                if stock.chucking == "left"
                else at + stock.parting_width,
            ),
        )
    )


def _centres(part: Part) -> Work:
    made = []
    x0, x1 = ends(part)
    for one in part.features:
        if isinstance(one, Centres) and one.left_in:
            made += [
                _centre(part, one, end, x) for end, x in _both_ends(x0, x1) if end in one.ends
            ]
    return Work(operations=tuple(made))


def _both_ends(x0: Millimetre, x1: Millimetre) -> tuple[tuple[End, Millimetre], ...]:
    return (("left", x0), ("right", x1))


def _centre(part: Part, one: Centres, end: End, x: Millimetre) -> Operation:
    hole = part.surface(f"centre {end}")
    region = tuple(r for r in part.removed if _lies_in(r, hole))
    return Operation(
        key=f"centre {end}",
        verb="centre",
        stage="only",
        feature="centres",
        machine="lathe",
        makes=(hole.name,),
        region=region,
        approach=(TOWARD[end],),
        tools=(f"centre drill {one.size}",),
        minutes=minutes_for(
            "centre", length=hole.high[0] - hole.low[0], across=one.body, depth=1.0
        ),
        at=((x, 0.0, 0.0),),
        ends=hole.high[0] - hole.low[0],
        cut_size=2 * hole.high[1],
        inside=True,
    )


def _lies_in(region: Region, hole: Surface) -> bool:
    if not isinstance(region, Cone | Cylinder):
        return False
    low, high = hole.low[0] - 1e-6, hole.high[0] + 1e-6
    along = all(
        low <= p[0] <= high and abs(p[1]) + abs(p[2]) < 1e-6 for p in (region.start, region.end)
    )
    width = region.start_diameter if isinstance(region, Cone) else region.diameter
    return along and width <= 2 * hole.high[1] + 1e-6


def _small_cuts(part: Part, workshop: Workshop) -> Work:
    made = []
    for one in part.features:
        if isinstance(one, Groove) and not one.inside:
            made.append(_groove(part, workshop, one))
        elif isinstance(one, ChamferCut):
            made.append(_chamfer(workshop, one))
    return Work(operations=tuple(made))


def _groove(part: Part, workshop: Workshop, one: Groove) -> Operation:
    on = next(r for r in _rounds(part) if r.name == one.on)
    outside = _largest(on)
    widths = [t for t in _lathe_tools(workshop) if t.kind in {"grooving tool", "parting tool"}]
    fits = [t.name for t in widths if t.width <= one.right - one.left + 1e-6]
    return Operation(
        key=one.name,
        verb="groove",
        stage="only",
        feature=one.name,
        machine="lathe",
        makes=tuple(s.name for s in part.surfaces if s.feature == one.name),
        region=(
            Tube(
                start=(one.left, 0.0, 0.0),
                end=(one.right, 0.0, 0.0),
                inside=one.diameter.nominal,
                outside=outside,
            ),
        ),
        approach=tuple(TOWARD[end] for end in turned_from(part)[on.name]),
        tools=tuple(fits[-1:]) or ("grooving tool",),
        minutes=minutes_for(
            "groove",
            length=one.right - one.left,
            across=outside,
            depth=(outside - one.diameter.middle) / 2,
        ),
        starts=one.left,
        ends=one.right,
        size=one.diameter,
        cut_size=one.diameter.middle,
        from_size=outside,
    )


def _chamfer(workshop: Workshop, one: ChamferCut) -> Operation:
    kinds = ("chamfer tool",)
    return Operation(
        key=one.name,
        verb="chamfer",
        stage="only",
        feature=one.name,
        machine="lathe",
        makes=(),
        region=(one.region,),
        approach=(one.facing,),
        tools=tool_names(workshop, *kinds)[:1] or ("chamfer tool",),
        minutes=minutes_for("chamfer", length=one.leg, across=2 * one.leg, depth=one.leg),
        cut_size=one.leg,
        angle=one.angle,
        inside=one.inside,
        follows=one.edge if one.inside else "",
    )


def operations_outside(part: Part, workshop: Workshop, stock: Stock) -> Work:
    """All turning of the outside and ends: faces, rounds, tapers, threads, grooves, chamfers."""
    return (
        _faces(part, workshop, stock)
        + _centres(part)
        + _outside(part, workshop, stock)
        + _threads(part, workshop)
        + _small_cuts(part, workshop)
        + _parting(part, workshop, stock)
    )


def sawing(stock: Stock) -> Operation:
    """The blank sawn off the bar: always the first thing done."""
    return Operation(
        key="saw the blank",
        verb="saw",
        stage="only",
        feature="blank",
        machine="bench",
        makes=(),
        region=(),
        approach=((1.0, 0.0, 0.0),),
        tools=("hacksaw",),
        minutes=minutes_for("saw", length=stock.across, across=stock.across, depth=stock.across),
        starts=stock.low,
        ends=stock.high,
        cut_size=stock.saw,
    )


def band_of(part: Part, surface: str) -> Band | None:
    """The size of a surface, if it has one."""
    return next((s.size for s in part.surfaces if s.name == surface), None)
