"""What to lay out before starting: to hold with, to cut with, to measure with."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Scheme
from halfthou.planning.worked import Worked, WorkedSetUp
from halfthou.present.card_view import ServesView
from halfthou.present.numbers import Units, plain
from halfthou.present.words_in_lathe import jaws_words
from halfthou.present.words_on_mill import parallels_words, under_clamps_words

_CHUCK_HELD: Final = ("drill", "centre drill", "countersink")
_REAMER_SHANK: Final = 13.0
_FILE: Final = "file, second-cut, 200 flat"
_MATE: Final = "nut or screw"
_HOLDS: Final[dict[str, str]] = {
    "four-jaw chuck": "four-jaw chuck",
    "soft jaws": "three-jaw, soft jaws",
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

Things = Iterator[str]


def holding_kit(worked: Worked, part: Part, units: Units) -> tuple[ServesView, ...]:
    """List what holds the work, with the set-ups it serves."""
    return _serving(worked, lambda one: _holds(one, part, units))


def cutting_kit(worked: Worked) -> tuple[ServesView, ...]:
    """List what cuts, and what goes with it."""
    return _serving(worked, _cuts)


def gauge_kit(worked: Worked, part: Part) -> tuple[ServesView, ...]:
    """List what measures; the mate of a thread by its own name."""
    threads = tuple(
        dict.fromkeys(
            op.thread.designation
            for one in worked.set_ups
            for op in one.set_up.operations
            if op.thread is not None
        )
    )
    inside = any(one.kind == "thread" and one.inside for one in part.surfaces)
    mate = "screw" if inside else "nut"
    own = {name: list(numbers) for name, numbers in worked.gauges}
    found: dict[str, list[int]] = {}
    for name, numbers in own.items():
        said = f"{' and '.join(threads)} {mate}" if _MATE in name and threads else name
        found.setdefault(said, []).extend(n for n in numbers if n not in found.get(said, []))
    for one in worked.set_ups:
        for name in _measures(one):
            numbers = found.setdefault(name, [])
            if one.number not in numbers:
                numbers.append(one.number)
    return _views({name: sorted(numbers) for name, numbers in found.items()})


def _serving(worked: Worked, things: Callable[[WorkedSetUp], Things]) -> tuple[ServesView, ...]:
    found: dict[str, list[int]] = {}
    for one in worked.set_ups:
        for name in dict.fromkeys(things(one)):
            found.setdefault(name, []).append(one.number)
    return _views(found)


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
        yield from _with_the_vice(one, units)
    elif device == "clamps":
        yield _under_clamps(scheme, part, units)
    yield from _holds_the_tool(one)
    finished = [name for name in scheme.grips if "stock" not in name and "roughed" not in name]
    if finished and device in ("three-jaw chuck", "four-jaw chuck", "vice"):
        yield f"soft copper {plain(0.5, units)}"


def _under_clamps(scheme: Scheme, part: Part, units: Units) -> str:
    under = under_clamps_words(scheme, part, units).removesuffix(", clear of the holes")
    return under.removeprefix("clean ").removeprefix("two ").removesuffix(", alike")


def _holds_the_tool(one: WorkedSetUp) -> Things:
    if _by_drill_chuck(one):
        yield "drill chuck"
    if _by_taper(one):
        yield "taper socket for the reamer"
    if one.set_up.scheme.machine != "bench":
        yield "soft hammer"
    if any("bed stop" in remark for step in one.steps for remark in step.remarks):
        yield "bed stop"


def _device(scheme: Scheme) -> Things:
    device = scheme.device.device
    if device == "three-jaw chuck":
        yield f"three-jaw chuck, {jaws_words(scheme).partition(',')[0]}"
    elif device == "centres":
        yield "driving plate, driver, two centres"
        yield "soft copper under the driver's screw"
    else:
        yield _HOLDS.get(device, scheme.device.name)


def _with_the_vice(one: WorkedSetUp, units: Units) -> Things:
    scheme = one.set_up.scheme
    parallels = parallels_words(scheme, units)
    if "parallel" in parallels:
        yield parallels.removeprefix("two ")
    detail = scheme.links[-1].detail
    if "round bar" in detail:
        yield f"round bar about {plain(10.0, units)}"
    if "packing" in detail:
        bar = " and round bar together" if "round bar" in detail else ""
        yield f"packing, as thick as the work{bar}"


def _by_drill_chuck(one: WorkedSetUp) -> bool:
    return any(
        step.tool.startswith(_CHUCK_HELD)
        or (step.tool.startswith("reamer") and not _large_reamer(one, step.number))
        for step in one.steps
        if one.set_up.scheme.machine != "bench"
    )


def _by_taper(one: WorkedSetUp) -> bool:
    return any(
        step.tool.startswith("reamer") and _large_reamer(one, step.number) for step in one.steps
    )


def _large_reamer(one: WorkedSetUp, number: int) -> bool:
    step = next(each for each in one.steps if each.number == number)
    return any(op.verb == "ream" and op.cut_size > _REAMER_SHANK for op in step.operations)


def _cuts(one: WorkedSetUp) -> Things:
    for step in one.steps:
        yield _FILE if step.tool == "file" else step.tool
        if any(op.verb == "tap" for op in step.operations):
            yield "tap wrench"
        tapped = any(op.verb == "tap" for op in step.operations)
        if step.fluid != "dry" and (step.speed is not None or tapped):
            yield step.fluid
    if one.set_up.scheme.machine != "bench":
        yield "deburring tool"
        if any("dulled" in remark for step in one.steps for remark in step.remarks):
            yield "oilstone"


def _measures(one: WorkedSetUp) -> Things:
    verbs = {op.verb for op in one.set_up.operations}
    bench = one.set_up.scheme.machine == "bench"
    if verbs & {"saw", "mark out"} or (bench and "chamfer" in verbs):
        yield "scriber and square"
    if any(move.by == "rule" for step in one.steps for move in step.moves):
        yield "rule"
    device = one.set_up.scheme.device.device
    if device == "vice":
        yield "square"
    if "thread" in verbs:
        yield "threading gauge for the tool"
