"""Holes on the axis: centred, drilled, then each step to its size, from which end.

The smallest step is drilled to its full depth first; larger ones open it from their own side.
A hole through in one size can be entered from either end: an alternative for the solver.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.drawing.geometry import Region
from halfthou.drawing.model import Hole, HoleStep, Part
from halfthou.planning.drilling import (
    DrillChoice,
    centre_drill_for,
    drill_for_tap,
    drill_under,
    reamer_for,
)
from halfthou.planning.model import Alternative, Operation
from halfthou.planning.turned.entered import Entered, coarse
from halfthou.planning.turned.on_axis_sizes import FINISH_BORE, sized
from halfthou.planning.turned.shape import ENDS, End, holes_on_axis
from halfthou.planning.turned.stock import Stock
from halfthou.planning.work import Work
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

PILOT_ABOVE: Final = 8.0
"""A larger drill follows a pilot, mm (usual practice)."""
PILOT_SHARE: Final = 0.5
"""Size of the pilot, as a share of the drill that follows."""
BORE_LEAVES: Final = 0.5
"""Metal left on the diameter for boring after drilling, mm at the least (usual practice)."""


def holing(part: Part, workshop: Workshop, stock: Stock) -> Work:
    """Give everything done in the lathe to holes on the axis, and from which end."""
    work = Work()
    for hole in holes_on_axis(part):
        own: End = "right" if hole.into[0] < 0 else "left"
        step = hole.steps[0]
        either = len(hole.steps) == 1 and step.breaks_out and step.thread is None
        bundles = []
        for end in ENDS if either else (own,):
            one = Entered(
                part=part,
                workshop=workshop,
                stock=stock,
                hole=hole,
                end=end,
                tag=f" from {end}" if either else "",
            )
            made = tuple(made_for(one))
            work += Work(operations=made)
            bundles.append(tuple(op.key for op in made))
        if either:
            choice = Alternative(name=f"{hole.name}: from which end", bundles=tuple(bundles))
            work += Work(alternatives=(choice,))
    return work


def made_for(one: Entered) -> list[Operation]:
    """Give the operations of one hole, in order, from centring to its last size."""
    through = _through_hole(one)
    if through is not None:
        return _opened(one, through)
    steps = sorted(_plain(one.hole), key=lambda s: s.diameter.nominal)
    deepest = steps[0]
    made, have = _first_drill(one, deepest, _drill_to(one, deepest))
    for step in steps:
        made += sized(one, step, have)
        have = max(have, step.diameter.middle if step.thread is None else have)
    sinks = [s for s in one.hole.steps if s.kind == "countersink"]
    mouth = min((s.diameter.nominal for s in steps if s.start <= _sink_depth(sinks)), default=have)
    return made + [op for s in sinks for op in sized(one, s, mouth)]


def _plain(hole: Hole) -> list[HoleStep]:
    return [s for s in hole.steps if s.kind != "countersink"]


def _sink_depth(sinks: list[HoleStep]) -> Millimetre:
    return max((s.end for s in sinks), default=0.0)


def _through_hole(one: Entered) -> Hole | None:
    """Give a smaller hole through on the same axis: made first, this one opened from it."""
    smallest = min(s.diameter.nominal for s in one.hole.steps)
    fits = [
        f
        for f in holes_on_axis(one.part)
        if f is not one.hole
        and f.steps[-1].breaks_out
        and min(s.diameter.nominal for s in f.steps) < smallest
    ]
    return min(fits, key=lambda f: f.steps[-1].diameter.nominal, default=None)


def _opened(one: Entered, through: Hole) -> list[Operation]:
    """Every step bored out from the through hole."""
    other = replace(one, hole=through, tag="")
    step = min(_plain(through), key=lambda s: s.diameter.nominal)
    have = _first_drill(other, step, _drill_to(other, step))[1]
    made: list[Operation] = []
    for own in sorted(one.hole.steps, key=lambda s: (s.kind == "countersink", s.diameter.nominal)):
        made += sized(one, own, have)
        have = own.diameter.middle
    return [replace(op, follows=through.name) for op in made]


def _drill_to(one: Entered, step: HoleStep) -> Millimetre:
    """Largest diameter to drill a step to, leaving metal for what sizes it."""
    if step.thread is not None:
        return drill_for_tap(one.workshop, step.thread).diameter
    if coarse(step) and step.process != "bored":
        return step.diameter.high
    reamer = reamer_for(one.workshop, step.diameter)
    spare = reamer.allowance if reamer else 2 * FINISH_BORE
    return step.diameter.low - spare - (BORE_LEAVES if one.tied or not reamer else 0.0)


def _first_drill(
    one: Entered, step: HoleStep, to: Millimetre
) -> tuple[list[Operation], Millimetre]:
    """Centre, pilot and drill from solid up to at most ``to``; what the hole then measures."""
    depth = max(one.depth_of(s) for s in _plain(one.hole))
    drill = _drill(one, step, to)
    pilot = None
    if drill.diameter > PILOT_ABOVE:
        pilot = drill_under(one.workshop, PILOT_SHARE * drill.diameter)
    made = [_centred(one, step, pilot or drill)]
    if pilot is not None:
        made.append(_drilled(one, "pilot", step, pilot, come_from=0.0, depth=depth))
    before = pilot.diameter if pilot is not None else 0.0
    made.append(_drilled(one, "drill", step, drill, come_from=before, depth=depth))
    return made, drill.diameter


def _drill(one: Entered, step: HoleStep, to: Millimetre) -> DrillChoice:
    if step.thread is not None:
        return drill_for_tap(one.workshop, step.thread)
    chuck = max((m.drill_chuck for m in one.workshop.lathes), default=to)
    return drill_under(one.workshop, min(to, chuck))


def _centred(one: Entered, step: HoleStep, drill: DrillChoice) -> Operation:
    centre = centre_drill_for(one.workshop, drill.diameter)
    return one.operation(
        "centre",
        "spot",
        step,
        stage="only",
        cut=centre.across,
        come_from=0.0,
        depth=centre.deep,
        tools=(centre.tool,),
        region=(),
        start=0.0,
    )


def _drilled(
    one: Entered,
    words: str,
    step: HoleStep,
    drill: DrillChoice,
    *,
    come_from: Millimetre,
    depth: Millimetre,
) -> Operation:
    fits = step.diameter.low <= drill.diameter <= step.diameter.high
    made = fits and step.thread is None and coarse(step) and step.process != "bored"
    # the metal is drawn to nominal sizes; a drill a shade larger leaves what is drawn
    drawn = step.diameter.nominal if made else min(drill.diameter, step.diameter.nominal)
    region: tuple[Region, ...] = (one.cylinder(drawn, 0.0, depth),)
    last_step = _plain(one.hole)[-1]
    if not last_step.breaks_out and last_step.point:
        region += (one.point(drawn, depth),)
    return one.operation(
        words,
        "drill",
        step,
        stage="rough",
        cut=drill.diameter,
        come_from=come_from,
        depth=depth,
        tools=(drill.tool,),
        region=region,
        makes=one.makes(step) if made else (),
        start=0.0,
    )
