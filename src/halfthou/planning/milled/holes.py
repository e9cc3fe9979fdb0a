"""Holes made under an upright spindle: spot, drill, size, counterbore, countersink, tap.

The same chain serves holes in blocks and holes off the axis of turned work. Where a hole can be
made in more than one way (reamed or bored; from either side) each way is a bundle, and one of
them is done.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.geometry import Cone
from halfthou.drawing.model import Hole, HoleStep, Part
from halfthou.handbook.drills import Drill, reaming_allowance
from halfthou.handbook.tapping import tapping_diameter
from halfthou.planning.axes import dot, extents_of_all, moved, opposite
from halfthou.planning.drilling import centre_drill_for, reamer_for
from halfthou.planning.drills_at_hand import (
    drill_before_reamer,
    drill_before_tap,
    drill_for,
    tap_for,
)
from halfthou.planning.milled import minutes
from halfthou.planning.milled.hole_bits import Bit, label_of, operation_of, surfaces_of
from halfthou.planning.model import Operation, Verb
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

_SPOT_SHARE: Final = 0.8
"""A spot is drawn no wider than this share of the drill that follows it."""
PILOT_ABOVE: Final = 8.0
"""Diameter above which a pilot goes first, mm (usual practice)."""
_DRILLED_WIDTH: Final = 0.1
"""Least tolerance that is left to a drill, mm (usual practice)."""
_POINT: Final = 0.3
"""Length of a drill's point, in diameters (118 degrees)."""
_BORE_FROM: Final = 1.0
"""Metal a boring cut is left to true the hole with, on diameter [mm]."""
_SAME: Final = 1e-6
_NEAR: Final = 0.1
_MOUTH: Final = 0.4
"""How much wider than its thread a tapped mouth is made, on diameter, mm (usual practice)."""
_OUT: Final = 1.0
"""How far a cut overshoots the metal it leaves [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to make a hole: its operations in order, and a name for it."""

    name: str
    operations: tuple[Operation, ...]


def ways_to_make(
    hole: Hole, part: Part, workshop: Workshop, *, over: Millimetre = 0.0, also_far: bool = False
) -> tuple[Way, ...]:
    """Give every way to make a hole under an upright spindle.

    Parameters
    ----------
    hole :
        The hole and its copies; all copies are done at one go.
    part :
        The part, for the names of the hole's surfaces.
    workshop :
        For the drills, reamers, taps and cutters in hand.
    over :
        Metal that may still stand on the entry face. [mm]
    also_far :
        Whether a plain through hole may be drilled from its far side as well.
    """
    ways = list(_from_one_side(hole, part, workshop, over=over, suffix=""))
    plain = len(hole.steps) == 1 and hole.steps[0].breaks_out and hole.steps[0].thread is None
    if also_far and plain:
        far = _turned_about(hole)
        ways += _from_one_side(far, part, workshop, over=over, suffix=" from the far side")
    return _with_tools(ways)


def _with_tools(ways: list[Way]) -> tuple[Way, ...]:
    """Keep the ways this workshop has all the tools for; all of them where it has none."""
    able = [way for way in ways if all(op.tools for op in way.operations)]
    return tuple(able or ways)


def _turned_about(hole: Hole) -> Hole:
    deep = hole.steps[0].end
    entries = tuple(moved(entry, hole.into, deep) for entry in hole.entries)
    return replace(hole, entries=entries, into=opposite(hole.into))


def _from_one_side(
    hole: Hole, part: Part, workshop: Workshop, *, over: float, suffix: str
) -> list[Way]:
    depth = max(step.end for step in hole.steps)
    bit = Bit(hole=hole, part=part, workshop=workshop, over=over, depth=depth, suffix=suffix)
    critical = _finest(hole)
    if critical is None:
        return [Way(name=f"drilled{suffix}", operations=_chain(bit, {}))]
    number, step = critical
    return [
        Way(name=f"{how}{suffix}", operations=_chain(bit, {number: how}))
        for how in _processes(step, workshop)
    ]


def _finest(hole: Hole) -> tuple[int, HoleStep] | None:
    """Give the step that a drill alone cannot make, and its number."""
    fine = [
        (n, step)
        for n, step in enumerate(hole.steps)
        if step.kind == "plain" and step.thread is None and _wants_more_than_drill(step)
    ]
    return min(fine, key=lambda pair: pair[1].diameter.width) if fine else None


def _wants_more_than_drill(step: HoleStep) -> bool:
    if step.process is not None:
        return step.process != "drilled"
    return step.clears is None and step.diameter.width < _DRILLED_WIDTH


def _processes(step: HoleStep, workshop: Workshop) -> tuple[str, ...]:
    """Give bored, reamed or both: what the drawing says, else what the workshop has."""
    if step.process is not None:
        return (step.process,)
    reamed = reamer_for(workshop, step.diameter) is not None
    bored = bool(boring_heads(workshop, step.diameter.nominal, step.end))
    found = [how for how, can in (("reamed", reamed), ("bored", bored)) if can]
    return tuple(found) or ("reamed",)


def boring_heads(workshop: Workshop, bore: Millimetre, depth: Millimetre) -> tuple[str, ...]:
    """Name the mill's boring tools that enter a bore and reach its depth."""
    return tuple(
        tool.name
        for tool in workshop.tools
        if tool.kind == "boring tool"
        and tool.machine == "mill"
        and tool.least_bore < bore
        and tool.reach >= depth
    )


def _chain(bit: Bit, how: dict[int, str]) -> tuple[Operation, ...]:
    """Give the operations of one way, in order: smallest deepest first, then what widens it."""
    steps = list(enumerate(bit.hole.steps))
    made: list[Operation] = []
    for number, step in sorted(steps, key=_drill_first):
        process = how.get(number) or _default_process(step)
        if step.kind == "plain":
            made += _plain(bit, number, step, process, first=not made)
        elif step.kind != "countersink":
            made.append(_seat(bit, number, step))
    for number, step in steps:
        if step.kind == "countersink":
            made.append(_countersink(bit, number, step))
    sunk = any(step.kind == "countersink" for _, step in steps)
    for number, step in steps:
        if step.thread is not None:
            made += [] if sunk or step.start > 0 else _mouth(bit, number, step)
            made.append(_tap(bit, number, step))
    return (_spot(bit, made[0]), *made)


def _drill_first(numbered: tuple[int, HoleStep]) -> tuple[int, float]:
    step = numbered[1]
    return (0 if step.kind == "plain" else 1, step.diameter.nominal)


def _default_process(step: HoleStep) -> str:
    if step.process is not None:
        return step.process
    return "bored" if _wants_more_than_drill(step) and step.thread is None else "drilled"


def _spot(bit: Bit, drill: Operation) -> Operation:
    """Start the drill that comes next in a cone, by the pilot and the 60° of a centre drill.

    No deeper than the hole, and as metal no wider: what a pilot leaves the drill takes out.
    """
    centre = centre_drill_for(bit.workshop, drill.cut_size)
    deep, wide = min(centre.deep, bit.depth), min(centre.across, _SPOT_SHARE * drill.cut_size)
    region = tuple(
        Cone(
            start=entry,
            end=moved(entry, bit.hole.into, deep),
            start_diameter=wide,
            end_diameter=0.0,
        )
        for entry in bit.hole.entries
    )
    return operation_of(
        bit,
        words="spot",
        verb="spot",
        tools=(centre.tool,),
        region=region,
        takes=minutes.drilling(depth=2.0, diameter=4.0, count=len(bit.hole.entries)),
        cut_size=centre.across,
        ends=deep,
    )


def _wanted_drill(step: HoleStep, process: str, bit: Bit) -> tuple[float, Drill | None]:
    """Give the diameter to drill, and the drill in hand for it."""
    band, shop = step.diameter, bit.workshop
    if step.thread is not None:
        found = drill_before_tap(step.thread, shop)
        wanted = tapping_diameter(step.thread)
    elif process == "bored":
        wanted = band.low - _BORE_FROM
        found = drill_for(wanted, shop, least=0.6 * band.low, most=band.low - _BORE_FROM / 2)
    elif process == "reamed":
        wanted = band.nominal - reaming_allowance(band.nominal)
        found = drill_before_reamer(band.nominal, shop)
    else:
        wanted = band.nominal
        found = drill_for(wanted, shop, least=band.low - 1e-6, most=band.high)
    return (found.diameter if found is not None else wanted), found


def _plain(bit: Bit, number: int, step: HoleStep, process: str, *, first: bool) -> list[Operation]:
    """Pilot, drill, then bore or ream one plain diameter."""
    drill, in_hand = _wanted_drill(step, process, bit)
    label = label_of(bit, number)
    made: list[Operation] = []
    if first and drill > PILOT_ABOVE:
        pilot = drill_for(drill / 2, bit.workshop)
        size = pilot.diameter if pilot is not None else drill / 2
        made.append(_drill(bit, step, f"pilot{label}", size, pilot, makes=()))
    surfaces = surfaces_of(bit, step)
    last = process == "drilled" and step.thread is None
    made.append(_drill(bit, step, f"drill{label}", drill, in_hand, makes=surfaces if last else ()))
    if not last and step.thread is None:
        made.append(_sized(bit, step, label, process, from_size=drill, makes=surfaces))
    return made


def _leaves_the_part(bit: Bit, step: HoleStep) -> bool:
    """Tell whether the far end of a step comes out at the outside, not into another hole."""
    metal = extents_of_all(bit.part.metal)
    far = moved(bit.hole.entries[0], bit.hole.into, step.end)
    into = bit.hole.into
    return step.breaks_out and metal is not None and dot(far, into) > metal.most(into) - _NEAR


def _full_depth(bit: Bit, step: HoleStep) -> float:
    """Give how deep the full diameter goes: past the far side of the lump, or to the depth."""
    if _leaves_the_part(bit, step):
        return step.end + bit.over + _OUT
    into_a_bore = step.breaks_out and step.end >= bit.depth
    return step.end + (step.diameter.nominal / 2 if into_a_bore else 0.0)


def _drill(
    bit: Bit,
    step: HoleStep,
    words: str,
    drill: float,
    in_hand: Drill | None,
    *,
    makes: tuple[str, ...],
) -> Operation:
    end = _full_depth(bit, step)
    # the metal is drawn to nominal sizes; a drill a shade larger leaves what is drawn
    drawn = step.diameter.nominal if makes else min(drill, step.diameter.nominal)
    region = bit.cylinder(diameter=drawn, start=0.0, end=end)
    if step.point or _leaves_the_part(bit, step):
        region += tuple(
            Cone(
                start=moved(entry, bit.hole.into, end),
                end=moved(entry, bit.hole.into, end + _POINT * drawn),
                start_diameter=drawn,
                end_diameter=0.0,
            )
            for entry in bit.hole.entries
        )
    return operation_of(
        bit,
        words=words,
        verb="drill",
        tools=(f"drill {in_hand.name}",) if in_hand is not None else (),
        region=region,
        takes=minutes.drilling(depth=end, diameter=drill, count=len(bit.hole.entries)),
        makes=makes,
        step=step,
        cut_size=drill,
        ends=end,
    )


def _sized(
    bit: Bit,
    step: HoleStep,
    label: str,
    process: str,
    *,
    from_size: float,
    makes: tuple[str, ...],
) -> Operation:
    count = len(bit.hole.entries)
    end = _full_depth(bit, step)
    bored = process == "bored"
    reamer = reamer_for(bit.workshop, step.diameter)
    tools = boring_heads(bit.workshop, step.diameter.nominal, step.end)
    if not bored:
        tools = (reamer.tool,) if reamer is not None else ()
    spend = minutes.boring if bored else minutes.sizing
    return operation_of(
        bit,
        words=f"{'bore' if bored else 'ream'}{label}",
        verb="bore" if bored else "ream",
        tools=tools,
        region=bit.cylinder(diameter=step.diameter.nominal, start=step.start, end=end),
        takes=spend(depth=end, count=count),
        makes=makes,
        step=step,
        cut_size=step.diameter.middle,
        from_size=from_size,
        ends=end,
    )


def _seat(bit: Bit, number: int, step: HoleStep) -> Operation:
    """Counterbore or spot-face: with a cutter of that size, in a hole already drilled."""
    size = step.diameter.nominal
    verb: Verb = "counterbore" if step.kind == "counterbore" else "spot-face"
    tools = tuple(
        t.name
        for t in bit.workshop.tools
        if t.kind in ("slot drill", "end mill")
        and abs(t.width - size) <= max(0.05, step.diameter.width)
        and t.reach >= step.end
    )
    return operation_of(
        bit,
        words=f"{verb}{label_of(bit, number)}",
        verb=verb,
        tools=tools or (f"counterbore {size:g} mm",),
        region=bit.cylinder(diameter=size, start=step.start, end=step.end),
        takes=minutes.sizing(depth=step.end, count=len(bit.hole.entries)),
        makes=surfaces_of(bit, step),
        step=step,
        cut_size=size,
        ends=step.end,
    )


def _countersink(bit: Bit, number: int, step: HoleStep) -> Operation:
    after = bit.hole.steps[number + 1 :]
    through = after[0].diameter.nominal if after else 0.0
    region = tuple(
        Cone(
            start=moved(entry, bit.hole.into, step.start),
            end=moved(entry, bit.hole.into, step.end),
            start_diameter=step.diameter.nominal,
            end_diameter=through,
        )
        for entry in bit.hole.entries
    )
    return operation_of(
        bit,
        words=f"countersink{label_of(bit, number)}",
        verb="countersink",
        tools=tuple(t.name for t in bit.workshop.tools if t.kind == "countersink"),
        region=region if step.end > step.start else (),
        takes=minutes.sizing(depth=2.0, count=len(bit.hole.entries)),
        makes=surfaces_of(bit, step),
        step=step,
        cut_size=step.diameter.middle,
        ends=step.end,
    )


def _mouth(bit: Bit, number: int, step: HoleStep) -> list[Operation]:
    """Open the mouth of a tapped hole a little wider than the thread, where a tool is to hand."""
    tools = tuple(
        t.name for t in bit.workshop.tools if t.kind == "countersink" and t.machine == "mill"
    )
    if not tools or step.thread is None:
        return []
    drilled = _wanted_drill(step, "drilled", bit)[0]
    wide = step.thread.major + _MOUTH
    return [
        operation_of(
            bit,
            words=f"mouth{label_of(bit, number)}",
            verb="countersink",
            tools=tools,
            region=(),
            takes=minutes.sizing(depth=1.0, count=len(bit.hole.entries)),
            cut_size=wide,
            from_size=drilled,
            ends=(wide - drilled) / 2,
        )
    ]


def _tap(bit: Bit, number: int, step: HoleStep) -> Operation:
    if step.thread is None:
        raise AssertionError(step)
    tap = tap_for(step.thread, bit.workshop)
    return operation_of(
        bit,
        words=f"tap{label_of(bit, number)}",
        verb="tap",
        tools=(tap,) if tap is not None else (),
        region=bit.cylinder(
            diameter=step.diameter.nominal, start=step.start, end=_full_depth(bit, step)
        ),
        takes=minutes.tapping(depth=step.end - step.start, count=len(bit.hole.entries)),
        makes=surfaces_of(bit, step),
        step=step,
        cut_size=step.diameter.nominal,
        from_size=_wanted_drill(step, "drilled", bit)[0],
        ends=step.end,
        remark="started square with the tap held in the spindle, turned by hand",
    )
