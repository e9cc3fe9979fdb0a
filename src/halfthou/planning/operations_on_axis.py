"""Holes on the axis of turned work: centred, drilled, bored, reamed or tapped in the lathe.

The smallest step is drilled to its full depth first; larger ones open it from their own side. A hole
that goes through in one size can be entered from either end: an alternative for the solver.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.geometry import Cone, Cylinder, Region
from halfthou.drawing.model import Hole, HoleStep, Part
from halfthou.handbook.limits_fits import it_grade
from halfthou.planning.drilling import DrillChoice, drill_for_tap, drill_under, reamer_for
from halfthou.planning.model import Alternative, Operation, Stage, Verb
from halfthou.planning.operations_turned import (
    BEYOND,
    TOWARD,
    End,
    tool_names,
)
from halfthou.planning.stock import PARTED, Stock, ends
from halfthou.planning.times import minutes_for
from halfthou.planning.work import Work
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

PILOT_ABOVE: Final = 8.0
"""A larger drill follows a pilot, mm (usual practice)."""
PILOT_SHARE: Final = 0.5
DRILLED_GRADE: Final = 12
"""A drilled hole holds this grade or coarser (published process capability: drilling IT11 to IT13)."""
BORE_LEAVES: Final = 0.5
"""Metal left on the diameter for boring after drilling, mm at the least (usual practice)."""
FINISH_BORE: Final = 0.25
"""Metal left a side for the last cuts with the boring tool, mm (usual practice)."""
FULL_TURN: Final = 118.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bored:
    """One hole seen from the end it is entered from."""

    part: Part
    workshop: Workshop
    stock: Stock
    hole: Hole
    end: End
    tag: str

    @property
    def mouth(self) -> float:
        x0, x1 = ends(self.part)
        if len(self.hole.steps) > 1 or not self.hole.steps[0].breaks_out:
            return self.hole.entries[0][0]
        return x1 if self.end == "right" else x0

    def x(self, depth: Millimetre) -> float:
        return self.mouth - TOWARD[self.end][0] * depth

    def key(self, words: str) -> str:
        return f"{self.hole.name} {words}{self.tag}"


def _depth_past(one: _Bored, step: HoleStep) -> float:
    """Depth of a step from the mouth, through the stock's own extra metal where it breaks out."""
    if not step.breaks_out:
        return step.end
    x0, x1 = ends(one.part)
    if one.end == "right":
        far = (
            x0 - PARTED - one.stock.parting_width
            if one.stock.chucking == "left"
            else one.stock.low
        )
        return one.mouth - far + BEYOND
    far = (
        x1 + PARTED + one.stock.parting_width if one.stock.chucking == "right" else one.stock.high
    )
    return far - one.mouth + BEYOND


def _cylinder(one: _Bored, diameter: float, start: float, end: float) -> Cylinder:
    front = start - BEYOND - abs(one.stock.high - one.stock.low) if start == 0 else start
    return Cylinder(
        start=(one.x(max(front, -_stock_over(one))), 0.0, 0.0),
        end=(one.x(end), 0.0, 0.0),
        diameter=diameter,
    )


def _stock_over(one: _Bored) -> float:
    over = one.stock.high - one.mouth if one.end == "right" else one.mouth - one.stock.low
    return over + BEYOND


def _point(one: _Bored, diameter: float, end: float) -> Cone:
    tip = diameter / 2 / 1.6643  # tan 59°: half the usual 118° point
    return Cone(
        start=(one.x(end), 0.0, 0.0),
        end=(one.x(end + tip), 0.0, 0.0),
        start_diameter=diameter,
        end_diameter=0.0,
    )


def _operation(
    one: _Bored,
    words: str,
    verb: Verb,
    step: HoleStep,
    *,
    stage: Stage,
    cut: float,
    come_from: float,
    depth: float,
    tools: tuple[str, ...],
    region: tuple[Region, ...],
    makes: tuple[str, ...] = (),
) -> Operation:
    return Operation(
        key=one.key(words),
        verb=verb,
        stage=stage,
        feature=one.hole.name,
        machine="lathe",
        makes=makes,
        region=region,
        approach=(TOWARD[one.end],),
        tools=tools,
        minutes=minutes_for(
            verb,
            length=depth - step.start,
            across=max(cut, 5.0),
            depth=max(0.1, (cut - come_from) / 2),
        ),
        at=((one.mouth, 0.0, 0.0),),
        starts=step.start,
        ends=depth,
        size=step.diameter if makes and step.thread is None else None,
        cut_size=cut,
        from_size=come_from,
        thread=step.thread if verb == "tap" else None,
        inside=True,
        through=step.breaks_out,
    )


def _made_by(one: _Bored, step: HoleStep) -> tuple[str, ...]:
    """Wall and floor of this step."""
    number = one.hole.steps.index(step)
    return tuple(
        s.name
        for s in one.part.surfaces
        if (s.feature == one.hole.name and s.size is step.diameter)
        or s.name == _floor_name(one, number)
    )


def _floor_name(one: _Bored, number: int) -> str:
    return f"{one.hole.name} floor" if number == 0 else f"{one.hole.name} step {number + 1} floor"


def _tied(one: _Bored) -> bool:
    """Whether the drawing ties this hole's place to something (a drill and reamer will not do)."""
    names = {s.name for s in one.part.surfaces if s.feature == one.hole.name}
    return any(
        (r.surface in names or r.to in names) and r.origin == "drawn"
        for r in one.part.requirements
    )


def _coarse(step: HoleStep) -> bool:
    nominal = step.diameter.nominal
    return step.diameter.width >= it_grade(max(nominal, 0.5), DRILLED_GRADE) * 0.99


def _first_drill(one: _Bored, step: HoleStep, to: float) -> tuple[list[Operation], float]:
    """Centre, pilot and drill from solid up to at most ``to``; what the hole then measures."""
    depth = _depth_past(one, step)
    chuck = one.workshop.lathes[0].drill_chuck
    drill = drill_under(one.workshop, min(to, chuck))
    made = [
        _operation(
            one,
            "centre",
            "spot",
            step,
            stage="only",
            cut=min(3.15, drill.diameter),
            come_from=0.0,
            depth=3.0,
            tools=("centre drill",),
            region=(),
        )
    ]
    if drill.diameter > PILOT_ABOVE:
        pilot = drill_under(one.workshop, PILOT_SHARE * drill.diameter)
        made.append(_drilled(one, "pilot", step, pilot, come_from=0.0, depth=depth))
    made.append(
        _drilled(
            one,
            "drill",
            step,
            drill,
            come_from=made[-1].cut_size if len(made) > 1 else 0.0,
            depth=depth,
        )
    )
    return made, drill.diameter


def _drilled(
    one: _Bored, words: str, step: HoleStep, drill: DrillChoice, *, come_from: float, depth: float
) -> Operation:
    region: tuple[Region, ...] = (_cylinder(one, drill.diameter, 0.0, depth),)
    if not step.breaks_out and step.point:
        region += (_point(one, drill.diameter, depth),)
    last = abs(drill.diameter - step.diameter.nominal) < 0.5 * step.diameter.width + 1e-9
    return _operation(
        one,
        words,
        "drill",
        step,
        stage="rough",
        cut=drill.diameter,
        come_from=come_from,
        depth=depth,
        tools=(drill.tool,),
        region=region,
        makes=_made_by(one, step) if last and step.thread is None and _coarse(step) else (),
    )


def _sized(one: _Bored, step: HoleStep, have: float) -> list[Operation]:
    """From a drilled hole of diameter ``have`` to the step's own size."""
    number = one.hole.steps.index(step)
    suffix = "" if number == 0 else f" step {number + 1}"
    depth = _depth_past(one, step)
    start = step.start
    final = step.diameter.middle
    wall = _made_by(one, step)
    if step.kind == "countersink":
        return [_countersink(one, step, have)]
    if step.thread is not None:
        return _tapped(one, step, suffix, depth)
    if abs(have - final) < 1e-9 or (
        _coarse(step) and step.diameter.low <= have <= step.diameter.high
    ):
        return []
    bar = _boring_tool(one.workshop, have)
    reamer = reamer_for(one.workshop, step.diameter)
    made: list[Operation] = []

    def bore(
        words: str, to: float, stage: Stage, source: float, makes: tuple[str, ...]
    ) -> Operation:
        return _operation(
            one,
            words + suffix,
            "bore",
            step,
            stage=stage,
            cut=to,
            come_from=source,
            depth=depth,
            tools=bar,
            region=(_cylinder(one, step.diameter.nominal if makes else to, start, depth),),
            makes=makes,
        )

    if reamer is not None and step.process != "bored":
        ream_from = final - reamer.allowance
        if _tied(one) or have < ream_from - 0.2:
            made.append(bore("bore", ream_from, "rough", have, ()))
        made.append(
            _operation(
                one,
                "ream" + suffix,
                "ream",
                step,
                stage="finish",
                cut=final,
                come_from=ream_from,
                depth=depth,
                tools=(reamer.tool,),
                region=(_cylinder(one, step.diameter.nominal, start, depth),),
                makes=wall,
            )
        )
        return made
    if _coarse(step):
        return [bore("bore", final, "only", have, wall)]
    rough_to = final - 2 * FINISH_BORE
    if rough_to > have + 0.2:
        made.append(bore("rough bore", rough_to, "rough", have, ()))
    made.append(bore("bore", final, "finish", max(have, rough_to), wall))
    return made


def _tapped(one: _Bored, step: HoleStep, suffix: str, depth: float) -> list[Operation]:
    thread = step.thread
    if thread is None:
        return []
    return [
        _operation(
            one,
            "tap" + suffix,
            "tap",
            step,
            stage="only",
            cut=thread.major,
            come_from=thread.minor,
            depth=depth,
            tools=(f"taps {thread.designation}",),
            region=(),
            makes=_made_by(one, step),
        )
    ]


def _countersink(one: _Bored, step: HoleStep, have: float) -> Operation:
    wide = step.diameter.nominal
    half = (step.angle or 1.5708) / 2
    from math import tan

    deep = (wide - have) / 2 / tan(half)
    over = _stock_over(one)
    region: tuple[Region, ...] = (
        Cone(
            start=(one.x(0.0), 0.0, 0.0),
            end=(one.x(deep), 0.0, 0.0),
            start_diameter=wide,
            end_diameter=have,
        ),
    )
    if over > BEYOND:
        region += (_cylinder(one, wide, 0.0, 1e-3),)
    return _operation(
        one,
        "countersink",
        "countersink",
        step,
        stage="only",
        cut=wide,
        come_from=have,
        depth=deep,
        tools=("countersink 90°",),
        region=region,
        makes=_made_by(one, step),
    )


def _boring_tool(workshop: Workshop, have: float) -> tuple[str, ...]:
    fits = [
        t
        for t in workshop.tools
        if t.kind == "boring tool" and t.machine == "lathe" and t.least_bore <= have
    ]
    best = max(fits, key=lambda t: t.width or t.shank, default=None)
    return (best.name,) if best else tool_names(workshop, "boring tool")[:1] or ("boring tool",)


def _through_hole(one: _Bored) -> Hole | None:
    """A smaller hole right through on the same axis: it is made first and this one opened from it."""
    smallest = min(s.diameter.nominal for s in one.hole.steps)
    others = [
        f
        for f in one.part.features
        if isinstance(f, Hole) and f.on_axis and f is not one.hole and f.steps[-1].breaks_out
    ]
    fits = [f for f in others if min(s.diameter.nominal for s in f.steps) < smallest]
    return min(fits, key=lambda f: f.steps[-1].diameter.nominal, default=None)


def _opened(one: _Bored, through: Hole) -> list[Operation]:
    """Every step bored out from the through hole."""
    other = _Bored(
        part=one.part, workshop=one.workshop, stock=one.stock, hole=through, end=one.end, tag=""
    )
    have = _first_drill(other, through.steps[-1], _drill_to(other, through.steps[-1]))[1]
    made: list[Operation] = []
    for step in sorted(
        one.hole.steps, key=lambda s: (s.kind == "countersink", s.diameter.nominal)
    ):
        made += _sized(one, step, have)
        have = step.diameter.middle
    return [replace(op, follows=through.name) for op in made]


def _drill_to(one: _Bored, step: HoleStep) -> float:
    """Largest diameter to drill a step to, leaving metal for what sizes it."""
    if step.thread is not None:
        return drill_for_tap(one.workshop, step.thread).diameter
    if _coarse(step) and step.process != "bored":
        return step.diameter.high
    reamer = reamer_for(one.workshop, step.diameter)
    spare = reamer.allowance if reamer else 2 * FINISH_BORE
    return step.diameter.low - spare - (BORE_LEAVES if _tied(one) or not reamer else 0.0)


def _chain(one: _Bored) -> list[Operation]:
    through = _through_hole(one)
    if through is not None:
        return _opened(one, through)
    steps = [s for s in one.hole.steps if s.kind != "countersink"]
    deepest = min(steps, key=lambda s: s.diameter.nominal)
    target = _drill_to(one, deepest)
    made, have = _first_drill(one, deepest, target)
    for step in sorted(steps, key=lambda s: s.diameter.nominal):
        made += _sized(one, step, have)
        have = max(have, step.diameter.middle if step.thread is None else have)
        have = min(have, deepest.diameter.middle) if step is deepest else have
    made += [op for s in one.hole.steps if s.kind == "countersink" for op in _sized(one, s, have)]
    return made


def operations_on_axis(part: Part, workshop: Workshop, stock: Stock) -> Work:
    """Everything done in the lathe to holes on the axis, and from which end."""
    work = Work(operations=())
    for hole in part.features:
        if not isinstance(hole, Hole) or not hole.on_axis:
            continue
        own: End = "right" if hole.into[0] < 0 else "left"
        either = len(hole.steps) == 1 and hole.steps[0].breaks_out and hole.steps[0].thread is None
        sides: tuple[End, ...] = ("right", "left") if either else (own,)
        bundles = []
        for end in sides:
            tag = f" from {end}" if either else ""
            one = _Bored(part=part, workshop=workshop, stock=stock, hole=hole, end=end, tag=tag)
            made = _chain(one)
            work += Work(operations=tuple(made))
            bundles.append(tuple(op.key for op in made))
        if either:
            work += Work(
                operations=(),
                alternatives=(
                    Alternative(name=f"{hole.name}: from which end", bundles=tuple(bundles)),
                ),
            )
    return work
