"""What is done at one step, in the trade's words: passes, tool, feed, dials and cautions."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.worked import Pass, Step
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
from halfthou.present.words_marks import marks_words
from halfthou.present.words_surfaces import surface_words
from halfthou.units import Second

_SLOW: Final[Second] = 12.0
"""A turn slower than this is hard to keep even, and is told by its quarter."""


def locked(step: Step) -> tuple[str, ...]:
    """Say what is locked, if anything is."""
    return (f"lock the {joined(tuple(step.lock))}",) if step.lock else ()


def how_words(
    step: Step, part: Part, units: Units, *, said: frozenset[str] = frozenset()
) -> tuple[str, ...]:
    """Say where the cutter is touched for its height, the passes, and what is locked."""
    lines = [touch_words(step, part, units)] if step.touch is not None else []
    lines += [*marks_words(step, part, units)]
    lines += [passes_words(step.passes, step, units)] if step.passes else []
    lines += [sentence(one) for one in locked(step) if one not in said]
    return tuple(line for line in lines if line)


def touch_words(step: Step, part: Part, units: Units) -> str:
    """Say where a milling cutter is touched and what its height then is."""
    touch = step.touch
    if touch is None:
        return ""
    on = surface_words(touch.surface, part, units)
    if touch.above <= 0:
        return f"Height: {touch.means} on {on}: 0."
    above = plain(touch.above, units, places=3)
    return f"Height: {touch.means} on {on}, spindle stopped: {above} above zero."


def mind_words(
    step: Step, *, said: frozenset[str] = frozenset(), as_at: tuple[int, ...] = ()
) -> str:
    """Say what else to mind; of what is ``said`` already only the steps to look at again."""
    fresh = dict.fromkeys(remark for remark in step.remarks if remark not in said)
    words = [sentence(one) for one in fresh]
    if as_at:
        word = "step" if len(as_at) == 1 else "steps"
        words.append(f"Mind the notes of {word} {joined(tuple(map(str, as_at)))}.")
    return " ".join(words)


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

    The handle is named; one to be turned very slowly is told by the quarter turn.
    """
    feed = step.feed
    if feed is None:
        return ()
    toward = f"table goes {feed.table_goes}" if feed.table_goes else ""
    if feed.kind == "power":
        return tuple(filter(None, (f"{fixed(feed.per_turn, units)} a turn", toward)))
    if feed.seconds_a_handle_turn <= 0:
        return ("by hand",)
    turned = feed.seconds_a_handle_turn
    part, pace = ("¼ turn", turned / 4) if turned > _SLOW else ("1 turn", turned)
    lines = (f"{feed.slide}:", f"{part} in {seconds(pace)}", toward)
    return tuple(line for line in lines if line)


def speed_words(step: Step, units: Units) -> str:
    """Say rev/min as the machine has it, and the faster one for when the work is smaller."""
    if step.speed is None:
        return ""
    if step.faster is None:
        return trimmed(step.speed, 0)
    below, speed = step.faster
    return f"{trimmed(step.speed, 0)}; {trimmed(speed, 0)} below Ø{plain(below, units, places=0)}"


def tool_words(step: Step, units: Units) -> tuple[str, tuple[str, ...]]:
    """Say the tool, and below it how far out and what to cut with."""
    more = []
    if step.tool_out:
        more.append(f"tool {plain(step.tool_out, units, places=1)} out")
    tapped = any(op.verb == "tap" for op in step.operations)
    if step.speed is not None or (tapped and step.fluid != "dry"):
        more.append(step.fluid)
    return step.tool, tuple(more)
