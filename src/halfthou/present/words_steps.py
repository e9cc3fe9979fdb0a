"""What is done at one step, in the trade's words: the cut, its passes, feed, dial and cautions."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from halfthou.drawing.model import ChamferCut, Part
from halfthou.planning.model import Operation
from halfthou.planning.worked import Feed, Move, Pass, Step
from halfthou.present.card_view import MoveView
from halfthou.present.figures import dial_setting
from halfthou.present.numbers import (
    Units,
    counted,
    fixed,
    joined,
    plain,
    seconds,
    sentence,
    trimmed,
)
from halfthou.units import DEGREE, Millimetre

_SQUARE_ON: Final = 45.0
_RULE: Final = 0.5
"""What a rule or a graduated sleeve is read to. [mm]"""
_SCALED: Final = frozenset({"tailstock", "quill"})
_SIDES: Final = ("left", "right", "top", "bottom", "front", "back")


def doing_words(step: Step, part: Part, units: Units) -> str:
    """Say what the step does; several cuts with one tool are joined."""
    if _one_hole_drilled(step.operations):
        return sentence(_drills(step.operations, units))
    said = [_SAID[op.verb](op, step, part, units) for op in step.operations]
    first, *rest = [words for n, words in enumerate(said) if words not in said[:n]]
    return sentence("; ".join([first, *(words[0].lower() + words[1:] for words in rest)]))


def how_words(step: Step, units: Units, *, said: frozenset[str] = frozenset()) -> tuple[str, ...]:
    """Say the passes, what is locked and what else to mind; not what was ``said`` of this tool."""
    lines = [passes_words(step.passes, step, units)] if step.passes else []
    lines += [sentence(remark) for remark in step.remarks if remark not in said]
    if step.lock:
        lines.append(f"Lock the {joined(tuple(step.lock))}.")
    return tuple(dict.fromkeys(line for line in lines if line))


def passes_words(passes: tuple[Pass, ...], step: Step, units: Units) -> str:
    """Say the cuts in order: ``Six cuts of 1, to Ø19.6; then two alike of 0.1, measuring after each.``."""
    said = [_pass(one, first=n == 0, step=step, units=units) for n, one in enumerate(passes)]
    return sentence("; then ".join(said))


def _pass(one: Pass, *, first: bool, step: Step, units: Units) -> str:
    deep = plain(one.depth, units)
    cuts = f"{counted(one.count)} cut{'' if one.count == 1 else 's'}"
    if one.purpose == "spring":
        return "run through again at the same dial (spring)"
    if one.purpose == "skin":
        return f"{'one' if one.count == 1 else cuts} under the skin, {deep} deep"
    if one.purpose == "finish" and one.count > 1:
        return f"{counted(one.count)} alike of {deep}"
    to = _leaves(one, step, units)
    return f"{cuts} of {deep}{to}" if one.count > 1 or first else f"one of {deep}{to}"


def _leaves(one: Pass, step: Step, units: Units) -> str:
    """Say what a roughing pass leaves, where it measures a diameter."""
    turned = {"turn", "bore", "turn taper"}
    if one.purpose != "rough" or one.leaves <= 0:
        return ""
    return (
        f", to Ø{plain(one.leaves, units)}"
        if any(op.verb in turned for op in step.operations)
        else ""
    )


def feed_words(feed: Feed | None, units: Units) -> tuple[str, ...]:
    """Say the feed: ``0.10 a turn``, or by hand as so many seconds for a turn of the handle."""
    if feed is None:
        return ()
    if feed.kind == "hand":
        if feed.seconds_a_handle_turn <= 0:
            return ("by hand",)
        return (f"{feed.slide}:", f"one turn in {seconds(feed.seconds_a_handle_turn)}")
    return (f"{fixed(feed.per_turn, units)} a turn",)


def speed_words(step: Step) -> str:
    """Say rev/min as the machine has it."""
    return "" if step.speed is None else trimmed(step.speed, 0)


def tool_words(step: Step, units: Units) -> tuple[str, tuple[str, ...]]:
    """Say the tool, and below it how far out and what to cut with."""
    more = []
    if step.tool_out:
        more.append(f"{plain(step.tool_out, units, places=1)} out")
    if step.speed is not None:
        more.append(step.fluid)
    return step.tool, tuple(more)


def dial_words(step: Step, units: Units) -> tuple[MoveView, ...]:
    """Say every slide moved, from its zero; one that stops more than once says each stop."""
    slides: dict[str, list[str]] = {}
    for move in step.moves:
        view = move_words(move, units)
        slides.setdefault(view.slide, []).append(view.setting)
    return tuple(
        MoveView(slide=slide, setting=", then ".join(stops)) for slide, stops in slides.items()
    )


def move_words(move: Move, units: Units) -> MoveView:
    """Say one move: the slide and which way, then its dial; by its travel where no dial shows it."""
    if not move.to and not move.turns and not move.divisions:
        return MoveView(slide=move.slide, setting="at zero")
    way = f"{move.slide} {_way(move)}"
    if move.by == "dial":
        return MoveView(slide=way, setting=dial_setting(move.turns, move.divisions))
    if move.by == "readout":
        return MoveView(slide=way, setting=fixed(move.to, units))
    by = "its scale" if move.slide in _SCALED else "rule"
    return MoveView(slide=way, setting=f"{plain(_by_eye(move.to), units, places=1)} by {by}")


def _way(move: Move) -> str:
    """A tailstock goes in and out, whatever is left and right."""
    if move.slide == "tailstock":
        return "in" if move.sense == "left" else "out"
    return move.sense


def _by_eye(travel: Millimetre) -> Millimetre:
    """Round to what a rule shows."""
    return round(travel / _RULE) * _RULE


def caution_words(step: Step, *, said: frozenset[str] = frozenset()) -> tuple[str, ...]:
    """Say the cautions of a step, where the danger first comes up."""
    return tuple(sentence(one) for one in step.cautions if one not in said)


# --- each verb --------------------------------------------------------------------------------


def _to(op: Operation, units: Units) -> str:
    return f"Ø{plain(op.cut_size, units)}"


def _named(op: Operation) -> str:
    return f"the {op.feature}"


def _long(step: Step, units: Units) -> str:
    """Say how far along, by where the saddle stops."""
    stops = [m.to for m in step.moves if m.slide == "saddle" and m.to]
    return f", {plain(abs(stops[-1]), units)} from the face" if stops else ""


def _deep(op: Operation, units: Units) -> str:
    if op.through:
        return " right through"
    depth = abs(op.ends - op.starts)
    from_step = f", {plain(abs(op.ends), units)} below the face" if op.starts else ""
    return from_step or (f", {plain(depth, units)} deep" if depth else "")


def _count(op: Operation) -> str:
    return f"{counted(len(op.at))} " if len(op.at) > 1 else ""


def _holes(op: Operation) -> str:
    return f"the {_count(op)}{op.feature} holes" if len(op.at) > 1 else _named(op)


def _face(op: Operation, step: Step, part: Part, units: Units) -> str:
    if op.feature in _SIDES:
        to = " to length" if step.band is not None or step.measures else ""
        return f"Face the {op.feature} end{to}"
    return f"Face the {op.feature}"


def _centre(op: Operation, step: Step, part: Part, units: Units) -> str:
    return f"Centre the end, Ø{plain(op.cut_size, units)} at the mouth"


def _turn(op: Operation, step: Step, part: Part, units: Units) -> str:
    along = _long(step, units)
    if op.stage == "rough":
        return f"Rough {_named(op)} to {_to(op, units)}{along}"
    if op.stage == "finish":
        return f"Finish {_named(op)} to size{along}"
    return f"Turn {_named(op)} to {_to(op, units)}{along}"


def _taper(op: Operation, step: Step, part: Part, units: Units) -> str:
    over = f": top-slide set over {degrees(step.set_over / DEGREE)}" if step.set_over else ""
    ends = f"Ø{plain(op.from_size, units)} to Ø{plain(op.cut_size, units)}"
    return f"Turn the taper of {_named(op)}, {ends}{over}"


def degrees(value: float) -> str:
    """Write an angle in degrees and minutes.

    >>> degrees(2.3859), degrees(45.0)
    ("2° 23'", '45°')
    """
    whole, rest = divmod(round(value * 60), 60)
    return f"{whole}° {rest}'" if rest else f"{whole}°"


def _groove(op: Operation, step: Step, part: Part, units: Units) -> str:
    wide = plain(abs(op.ends - op.starts), units)
    return f"Cut {_named(op)}, {wide} wide to {_to(op, units)}"


def _chamfer(op: Operation, step: Step, part: Part, units: Units) -> str:
    angle = op.angle / DEGREE or _SQUARE_ON
    leg = _leg(op, part)
    size = f" {plain(leg, units)} x {degrees(angle)}" if leg else ""
    return f"Chamfer {_edge(op, part)}{size}"


def _edge(op: Operation, part: Part) -> str:
    """Name the edge a chamfer takes off, by what the drawing calls it."""
    edge = next((f.edge for f in part.features if isinstance(f, ChamferCut) and f.name == op.feature), op.feature)
    words = edge.split()
    if op.inside:
        return f"the mouth of the {edge}"
    if edge in _SIDES:
        return f"the {edge} end"
    return f"the {words[-1]} edge of the {' '.join(words[:-1])}" if words[-1] in _SIDES else f"the {edge}"


def _leg(op: Operation, part: Part) -> Millimetre:
    legs = (f.leg for f in part.features if isinstance(f, ChamferCut) and f.name == op.feature)
    return next(legs, 0.0)


def _thread(op: Operation, step: Step, part: Part, units: Units) -> str:
    name = op.thread.designation if op.thread else op.feature
    if "die" in step.tool:
        return f"Cut the {name} thread with the die held square by the tailstock"
    pitch = ""
    if op.thread and op.thread.tpi:
        pitch = f", {trimmed(op.thread.tpi, 1)} to the inch"
    elif op.thread:
        pitch = f", pitch {trimmed(op.thread.pitch, 3)} mm"
    wheels = ""
    if step.wheels:
        driver, driven = step.wheels
        wheels = f"; change wheels {driver} driving {driven}"
    return f"Screwcut the {name} thread{pitch}{wheels}"


def _spot(op: Operation, step: Step, part: Part, units: Units) -> str:
    return (
        f"Spot {_holes(op)}"
        if op.at and len(op.at) > 1
        else f"Start {_named(op)} with a centre drill"
    )


def _drill(op: Operation, step: Step, part: Part, units: Units) -> str:
    return f"Drill {_holes(op)} {_to(op, units)}{_deep(op, units)}"


def _one_hole_drilled(operations: tuple[Operation, ...]) -> bool:
    return len(operations) > 1 and {(op.verb, op.feature) for op in operations} == {
        ("drill", operations[0].feature)
    }


def _drills(operations: tuple[Operation, ...], units: Units) -> str:
    sizes = joined(tuple(_to(op, units) for op in operations), "then")
    return f"Drill {_holes(operations[0])} {sizes}{_deep(operations[-1], units)}"


def _bore(op: Operation, step: Step, part: Part, units: Units) -> str:
    if op.stage == "finish":
        return f"Finish {_holes(op)} to size{_deep(op, units)}"
    return f"Open {_holes(op)} to {_to(op, units)}{_deep(op, units)}"


def _ream(op: Operation, step: Step, part: Part, units: Units) -> str:
    return f"Ream {_holes(op)} {_to(op, units)}{_deep(op, units)}"


def _tap(op: Operation, step: Step, part: Part, units: Units) -> str:
    name = op.thread.designation if op.thread else ""
    return f"Tap {_holes(op)} {name}{_deep(op, units)}"


def _countersink(op: Operation, step: Step, part: Part, units: Units) -> str:
    return f"Countersink {_holes(op)} to {_to(op, units)}"


def _counterbore(op: Operation, step: Step, part: Part, units: Units) -> str:
    return f"Counterbore {_holes(op)} {_to(op, units)}{_deep(op, units)}"


def _spot_face(op: Operation, step: Step, part: Part, units: Units) -> str:
    return f"Spot-face {_holes(op)} {_to(op, units)}"


def _mill_face(op: Operation, step: Step, part: Part, units: Units) -> str:
    name = f"the {op.feature} face" if op.feature in _SIDES else _named(op)
    return f"{'Rough' if op.stage == 'rough' else 'Mill'} {name}"


def _mill_out(op: Operation, step: Step, part: Part, units: Units) -> str:
    verb = "Rough out" if op.stage == "rough" else "Mill"
    return f"{verb} {_named(op)}"


def _keyway(op: Operation, step: Step, part: Part, units: Units) -> str:
    return f"Mill the keyway {op.feature}" if op.feature not in ("keyway",) else "Mill the keyway"


def _mill_chamfer(op: Operation, step: Step, part: Part, units: Units) -> str:
    leg = _leg(op, part)
    return f"Chamfer {_named(op)}{' ' + plain(leg, units) if leg else ''}"


def _saw(op: Operation, step: Step, part: Part, units: Units) -> str:
    return "Saw the blank to length"


def _part_off(op: Operation, step: Step, part: Part, units: Units) -> str:
    return "Part off"


def _deburr(op: Operation, step: Step, part: Part, units: Units) -> str:
    return f"Break every edge {plain(0.2, units)}"


def _mark_out(op: Operation, step: Step, part: Part, units: Units) -> str:
    return f"Mark out {_named(op)}"


_SAID: Final[dict[str, Callable[[Operation, Step, Part, Units], str]]] = {
    "saw": _saw,
    "face": _face,
    "centre": _centre,
    "turn": _turn,
    "turn taper": _taper,
    "groove": _groove,
    "chamfer": _chamfer,
    "thread": _thread,
    "spot": _spot,
    "drill": _drill,
    "bore": _bore,
    "ream": _ream,
    "tap": _tap,
    "countersink": _countersink,
    "counterbore": _counterbore,
    "spot-face": _spot_face,
    "mill face": _mill_face,
    "mill step": _mill_out,
    "mill slot": _mill_out,
    "mill pocket": _mill_out,
    "mill keyway": _keyway,
    "mill chamfer": _mill_chamfer,
    "deburr": _deburr,
    "part off": _part_off,
    "mark out": _mark_out,
}
