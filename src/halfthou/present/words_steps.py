"""What is done at one step, in the trade's words: passes, tool, feed, dials and cautions."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from halfthou.planning.worked import Move, Pass, Step
from halfthou.present.card_view import MoveView
from halfthou.present.figures import dial_setting
from halfthou.present.numbers import (
    THIN,
    Units,
    counted,
    fixed,
    joined,
    plain,
    seconds,
    sentence,
    trimmed,
)
from halfthou.units import MM_PER_INCH, Millimetre

_RULE: Final = 0.5
"""What a rule or a graduated sleeve is read to. [mm]"""
_PARTS: Final = 64
"""Parts of an inch a rule is divided into."""
_SCALED: Final = frozenset({"tailstock", "quill"})


def how_words(step: Step, units: Units) -> tuple[str, ...]:
    """Say the passes and what is locked."""
    lines = [passes_words(step.passes, step, units)] if step.passes else []
    if step.lock:
        lines.append(f"Lock the {joined(tuple(step.lock))}.")
    return tuple(line for line in lines if line)


def mind_words(step: Step, *, said: frozenset[str] = frozenset()) -> str:
    """Say what else to mind; not again what was ``said`` with this tool."""
    fresh = dict.fromkeys(remark for remark in step.remarks if remark not in said)
    return " ".join(map(sentence, fresh))


def passes_words(passes: tuple[Pass, ...], step: Step, units: Units) -> str:
    """Say the cuts in order: ``Six cuts of 1, to Ø19.6; then two of 0.1.``."""
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
        return f"{counted(one.count)} of {deep}"
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


def feed_words(step: Step, units: Units) -> tuple[str, ...]:
    """Say the feed: ``0.10 a turn``, or by hand as so many seconds for a turn of the handle.

    The slide is named where the dials beside it do not name it already.
    """
    feed = step.feed
    if feed is None:
        return ()
    if feed.kind == "power":
        return (f"{fixed(feed.per_turn, units)} a turn",)
    if feed.seconds_a_handle_turn <= 0:
        return ("by hand",)
    pace = f"1 turn in {seconds(feed.seconds_a_handle_turn)}"
    named = any(move.slide == feed.slide for move in step.moves)
    return (pace,) if named else (f"{feed.slide}:", pace)


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
        slide, setting = move_words(move, units)
        before = slides.setdefault(slide, [])
        before.append(f"then {setting}" if before else setting)
    return tuple(MoveView(slide=slide, settings=tuple(stops)) for slide, stops in slides.items())


def move_words(move: Move, units: Units) -> tuple[str, str]:
    """Say one move: the slide and which way, and its dial; its travel where no dial shows it."""
    if not move.to and not move.turns and not move.divisions:
        return move.slide, "at zero"
    way = f"{move.slide} {_way(move)}"
    if move.by == "dial":
        return way, _unbroken(dial_setting(move.turns, move.divisions))
    if move.by == "readout":
        return way, fixed(move.to, units)
    by = "its scale" if move.slide in _SCALED else "rule"
    return way, f"{_by_eye(move.to, units)} by {by}"


def _unbroken(setting: str) -> str:
    """Keep ``12 div`` on one line."""
    return setting.replace(" div", f"{THIN}div").replace(" turn", f"{THIN}turn")


def _way(move: Move) -> str:
    """Say in and out of a tailstock, whatever is left and right."""
    if move.slide == "tailstock":
        return "in" if move.sense == "left" else "out"
    return move.sense


def _by_eye(travel: Millimetre, units: Units) -> str:
    """Write a length as a rule shows it: half millimetres, or sixty-fourths of an inch."""
    metric = plain(round(travel / _RULE) * _RULE, "mm", places=1)
    if units == "mm":
        return metric
    whole, part = divmod(round(travel / MM_PER_INCH * _PARTS), _PARTS)
    shown = " ".join(filter(None, (str(whole) if whole or not part else "", _fraction(part))))
    return f"{shown} in" if units == "in" else f"{metric} ({shown} in)"


def _fraction(parts: int) -> str:
    return str(Fraction(parts, _PARTS)) if parts else ""


def caution_words(step: Step, *, said: frozenset[str] = frozenset()) -> tuple[str, ...]:
    """Say the cautions of a step, where the danger first comes up."""
    return tuple(sentence(one) for one in step.cautions if one not in said)
