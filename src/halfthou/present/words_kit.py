"""What to lay out before starting: to hold with, to cut with, to measure with."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Scheme
from halfthou.planning.treatment import HEARTH
from halfthou.planning.worked import Step, Worked, WorkedSetUp
from halfthou.present.card_view import ServesView
from halfthou.present.numbers import Units, joined, plain
from halfthou.present.words_held import jaws_called
from halfthou.present.words_kit_said import (
    DEBURRING,
    FILE,
    Column,
    named_in,
    said_words,
    step_words,
)
from halfthou.present.words_measures import PLUG, plug_limits
from halfthou.present.words_on_mill import parallels_words, under_clamps_words
from halfthou.present.words_same_grip import goes_back

_CHUCK_HELD: Final = ("drill", "centre drill", "countersink")
_MILL_CUTTERS: Final = ("end mill", "slot drill", "face mill", "slitting saw", "side and face")
_ON_AN_ARBOR: Final = ("face mill", "slitting saw", "side and face")
_TELESCOPIC: Final = "telescopic gauge and micrometer"
_SPAN: Final = 25
"""What a micrometer spans, mm."""
_REAMER_SHANK: Final = 13.0
_MATE: Final = "nut or screw"
_HOLDS: Final[dict[str, str]] = {
    "four-jaw chuck": "four-jaw chuck and key",
    "soft jaws": "three-jaw and key, soft jaws",
    "faceplate": "faceplate, straps, balance weight",
    "vice": "machine vice",
    "clamps": "clamps, studs, heel packing",
    "V-blocks": "pair of V-blocks, clamp",
    "rotary table": "rotary table",
    "dividing head": "dividing head",
    "angle plate": "angle plate, clamps",
    "stub mandrel": "bar for a stub mandrel",
    "cross-slide": "boring bar and its cutter, centres, driver, packing, clamps",
    "bench vice": "bench vice, soft jaws",
}

_FINDERS: Final = ("edge finder", "wobbler")
_HUNG_ON: Final = re.compile(r"^hung .* on packing ([\d.]+) high")
"""Work hung between the jaws, what it hangs by on packing on their tops."""
Things = Iterator[str]


def holding_kit(worked: Worked, part: Part, units: Units) -> tuple[ServesView, ...]:
    """List what holds the work, with the set-ups it serves."""
    return _views(_serving(worked, part, "hold", lambda one: _holds(one, part, units)))


def cutting_kit(worked: Worked) -> tuple[ServesView, ...]:
    """List what cuts, and what goes with it."""
    return _views(_serving(worked, None, "cut", _cuts))


def gauge_kit(worked: Worked, part: Part) -> tuple[ServesView, ...]:
    """List what measures; the mate of a thread by its own name."""
    return _views(_serving(worked, part, "measure", lambda one: _measures(one, worked, part)))


def _serving(
    worked: Worked, part: Part | None, column: Column, things: Callable[[WorkedSetUp], Things]
) -> dict[str, list[int]]:
    """Give each thing once with its set-ups: what the plan asks for, then what the words name."""
    found: dict[str, list[int]] = {}
    for at, one in enumerate(worked.set_ups):
        names = tuple(dict.fromkeys(things(one)))
        earlier = worked.set_ups[:at]
        text = step_words(one) if part is None else said_words(one, part, "mm", earlier)
        if goes_back(one, worked.set_ups):
            text += "\nmark the work"
        names += named_in(text, column, names)
        for name in names:
            found.setdefault(name, []).append(one.number)
    return found


def _views(found: dict[str, list[int]]) -> tuple[ServesView, ...]:
    return tuple(
        ServesView(name=name, set_ups=", ".join(map(str, numbers)))
        for name, numbers in found.items()
    )


def _holds(one: WorkedSetUp, part: Part, units: Units) -> Things:
    scheme = one.set_up.scheme
    device = scheme.device.device
    yield from _device(scheme)
    if scheme.centre and device != "centres":
        yield "tailstock centre"
    if any(link.holder.device == "fixed steady" for link in scheme.links[:-1]):
        yield "fixed steady"
    if device == "vice":
        yield from _with_the_vice(one, part, units)
    elif device == "clamps":
        yield _under_clamps(scheme, part, units)
    yield from _holds_the_tool(one)


def _under_clamps(scheme: Scheme, part: Part, units: Units) -> str:
    under = under_clamps_words(scheme, part, units).removesuffix(", clear of the holes")
    return under.removeprefix("clean ").removeprefix("two ").removesuffix(", alike")


def _holds_the_tool(one: WorkedSetUp) -> Things:
    mill = one.set_up.scheme.machine == "mill"
    if _by_drill_chuck(one) or (mill and _finds(one)):
        yield f"drill chuck, {'its drawbar' if mill else 'taper to the tailstock'}"
    if _by_taper(one):
        yield "taper socket for the reamer"
    if mill:
        yield from _collets(one)
    if one.set_up.scheme.machine != "bench":
        yield "soft hammer"


def _collets(one: WorkedSetUp) -> Things:
    """Name what holds each cutter in the mill's spindle: sorts of the same size serve alike."""
    for step in one.steps:
        if step.tool.startswith(_MILL_CUTTERS):
            holder = "arbor" if step.tool.startswith(_ON_AN_ARBOR) else "collet"
            yield f"{holder} and drawbar: {step.tool}"
        if step.tool.startswith("boring head"):
            yield "drawbar for the boring head"


def _device(scheme: Scheme) -> Things:
    device = scheme.device.device
    if device == "three-jaw chuck":
        yield f"three-jaw chuck and key, {jaws_called(scheme).partition(',')[0]}"
    elif device == "centres":
        yield "driving plate, driver, two centres"
        yield "soft copper under the driver's screw"
    elif scheme.key == HEARTH:
        yield "hearth and firebricks"
    else:
        yield _HOLDS.get(device, scheme.device.name)


def _with_the_vice(one: WorkedSetUp, part: Part, units: Units) -> Things:
    scheme = one.set_up.scheme
    detail = scheme.links[-1].detail
    hung = _HUNG_ON.search(detail)
    under = parallels_words(scheme, units, of_turned=part.turned)
    if hung is not None:
        yield f"packing {hung[1]} high, two pieces alike"
    elif under.startswith(("one ", "two ")):
        yield under.removeprefix("two ")
    if "round bar" in detail:
        yield f"round bar about {plain(10.0, units)}"
    if "packing of the same" in detail or any("packing as thick" in n for n in one.hold_notes):
        bar = " and round bar together" if "round bar" in detail else ""
        yield f"packing, as thick as the work{bar}"


def _by_drill_chuck(one: WorkedSetUp) -> bool:
    return any(
        step.tool.startswith(_CHUCK_HELD)
        or (step.tool.startswith("reamer") and not _large_reamer(one, step.number))
        for step in one.steps
        if one.set_up.scheme.machine != "bench"
    )


def _finds(one: WorkedSetUp) -> bool:
    """Tell whether a finder goes in the spindle's drill chuck to pick the work up."""
    picks = one.zero.pick_up if one.zero is not None else ()
    return any(finder in means for _, _, means, _ in picks for finder in _FINDERS)


def _by_taper(one: WorkedSetUp) -> bool:
    return any(
        step.tool.startswith("reamer") and _large_reamer(one, step.number) for step in one.steps
    )


def _large_reamer(one: WorkedSetUp, number: int) -> bool:
    step = next(each for each in one.steps if each.number == number)
    return any(op.verb == "ream" and op.cut_size > _REAMER_SHANK for op in step.operations)


def _cuts(one: WorkedSetUp) -> Things:
    for step in one.steps:
        yield _tool_called(step)
        if step.train is not None:
            wheels = sorted(wheel for side in step.train for wheel in side)
            yield f"change wheels {joined(tuple(map(str, wheels)))}, their key"
        if any(op.verb == "tap" for op in step.operations):
            yield "tap wrench"
        tapped = any(op.verb == "tap" for op in step.operations)
        if step.fluid != "dry" and (step.speed is not None or tapped):
            yield f"{step.fluid}, a brush for it"
    if one.set_up.scheme.device.device == "soft jaws":
        yield "boring tool for the jaws"
    if one.set_up.scheme.machine != "bench":
        yield DEBURRING


def _tool_called(step: Step) -> str:
    """Name a tool as it is laid out: a centre drill with the centre it makes."""
    if step.tool == "file":
        return FILE
    across = max((op.cut_size for op in step.operations if op.verb == "centre"), default=0.0)
    if step.tool.startswith("die "):
        return f"{step.tool}, its holder"
    if any(op.verb == "mill keyway" for op in step.operations) and any(
        one.to_make for one in step.measures
    ):
        return f"{step.tool}, two: one may cut large"
    return f"{step.tool}, centres Ø{plain(across, 'mm')}" if across > 0 else step.tool


def _measures(one: WorkedSetUp, worked: Worked, part: Part) -> Things:
    """Name what measures at a set-up, a clock with its stand, a thread's mate by its size."""
    for name, numbers in worked.gauges:
        if one.number in numbers and not name.startswith("shank"):
            yield _gauge_called(name, one, worked, part)
    verbs = {op.verb for op in one.set_up.operations}
    bench = one.set_up.scheme.machine == "bench"
    if verbs & {"saw", "mark out"} or (bench and "chamfer" in verbs):
        yield "scriber and square"
    if one.set_up.scheme.device.device == "vice":
        yield "square"
    if "thread" in verbs:
        yield "threading gauge for the tool"


def _micrometers(name: str, one: WorkedSetUp) -> str:
    """Name the micrometer a telescopic gauge is read with, by the sizes it is set to."""
    sizes = [m.aim for step in one.steps for m in step.measures if m.gauge == name]
    lows = sorted({int(size // _SPAN) * _SPAN for size in sizes})
    return joined(tuple(f"{low}-{low + _SPAN}" for low in lows))


def _gauge_called(name: str, one: WorkedSetUp, worked: Worked, part: Part) -> str:
    if name == _TELESCOPIC:
        return f"{name} {_micrometers(name, one)}"
    if name.endswith("clock"):
        return f"{name} and its stand"
    if _MATE in name:
        threads = tuple(
            dict.fromkeys(
                op.thread.designation
                for each in worked.set_ups
                for op in each.set_up.operations
                if op.thread is not None
            )
        )
        inside = any(each.kind == "thread" and each.inside for each in part.surfaces)
        mate = "screw" if inside else "nut"
        return f"{joined(threads)} {mate}" if threads else name
    made = next(
        (m for step in one.steps for m in step.measures if m.to_make and m.gauge == name), None
    )
    return f"{PLUG}: {plug_limits(made, 'mm')}" if made is not None else name
