"""What is done at one step, in the trade's words and in the order of the hands."""

from __future__ import annotations

import string
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.worked import Move, Step
from halfthou.planning.working import mill_words, words
from halfthou.planning.working.dials import division_travel
from halfthou.planning.working.zero import AS_IT_STANDS
from halfthou.present.card_view import LadderView, LineView
from halfthou.present.figures import divisions
from halfthou.present.numbers import (
    THIN,
    Units,
    fixed,
    joined,
    plain,
    seconds,
    sentence,
    trimmed,
)
from halfthou.present.words_dials import move_words
from halfthou.present.words_keyway import keyway_figures
from halfthou.present.words_ladder import dial_of, leaves_what, started_from
from halfthou.present.words_marks import marks_words
from halfthou.present.words_mill_figures import mill_figures
from halfthou.present.words_moments import MOMENTS, Moment, lines_of, place_of
from halfthou.present.words_surfaces import surface_words
from halfthou.units import Second
from halfthou.workshop.model import Workshop

_SLOW: Final[Second] = 12.0
"""A turn slower than this is hard to keep even, and is told by its quarter."""


_TOUCHES: Final = (words.HIGHEST, mill_words.TOUCHED, mill_words.TOUCHED_HIGHEST)
"""How a height is touched, where that is said with what it is touched on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """The lines of a step, those before the cuts and those from the first cut on."""

    before: tuple[str, ...]
    after: tuple[str, ...]


def locked(step: Step) -> tuple[str, ...]:
    """Say what is locked, if anything is."""
    return (f"lock the {joined(tuple(step.lock))}",) if step.lock else ()


def order_words(
    step: Step,
    part: Part,
    units: Units,
    workshop: Workshop,
    *,
    said: frozenset[str] = frozenset(),
) -> Said:
    """Say what is done and minded at a step, in order; what is ``said`` already is left out."""
    figures = _figures(step, units, workshop)
    by_moment: dict[Moment, list[str]] = {moment: [] for moment in MOMENTS}
    fresh = (remark for remark in dict.fromkeys(step.remarks) if remark not in said)
    for remark in sorted(fresh, key=place_of):
        if step.touch is not None and remark in _TOUCHES:
            continue
        for moment, line in _with_figures(remark, figures):
            by_moment[moment].append(line)
    told = mill_words.CHUCK_IN in step.remarks
    lock = [one for one in locked(step) if one not in said and not told]
    touch = [*_height(step, part, units), *by_moment["touch"]]
    milled = any(op.verb.startswith("mill ") for op in step.operations)
    ready = [*touch, *lock] if milled else [*lock, *touch]
    before = [*by_moment["before"], *ready]
    after = [*marks_words(step, part, units), *by_moment["while"], *by_moment["end"]]
    after += by_moment["after"]
    return Said(before=tuple(map(sentence, before)), after=tuple(map(sentence, after)))


def lettered(said: Said, ladder: LadderView | None) -> tuple[LineView, ...]:
    """Give the lines and the ladder of a step their letters; a single line has none.

    The ladder's letter is that of the line without words.
    """
    found = [*said.before, *(() if ladder is None else ("",)), *said.after]
    if len(found) == 1:
        return (LineView(letter="", words=found[0]),)
    return tuple(
        LineView(letter=letter, words=line)
        for letter, line in zip(string.ascii_lowercase, found, strict=False)
    )


def _with_figures(remark: str, figures: dict[str, str]) -> tuple[tuple[Moment, str], ...]:
    """Put the step's figures into the lines of a remark; without them it says its own words."""
    lines = lines_of(remark)
    try:
        return tuple((moment, line.format_map(figures)) for moment, line in lines)
    except KeyError:
        return ((lines[0][0], remark),)


def _figures(step: Step, units: Units, workshop: Workshop) -> dict[str, str]:
    """Figures of a step that its lines may name; only those it has."""
    saddle = [move_words(move, units)[1] for move in step.moves if move.slide == "saddle"]
    told = {} if not saddle else {"out": saddle[0]}
    if len(saddle) > 1:
        told["stop"] = saddle[-1]
    top = [move for move in step.moves if move.slide == "top-slide"]
    if top and not step.passes:
        told["leg"] = move_words(top[-1], units)[1]
    lengths = [one.aim for one in step.measures if one.kind == "length"]
    if lengths:
        told["aim"] = plain(lengths[0], units, places=3)
    if step.faster is not None:
        below, speed = step.faster
        told |= {"below": f"Ø{plain(below, units, places=0)}", "faster": trimmed(speed, 0)}
    return (
        told
        | keyway_figures(step, units)
        | mill_figures(step, units, workshop)
        | _last_cut(step, units)
        | _touched(step, units, workshop)
    )


def _last_cut(step: Step, units: Units) -> dict[str, str]:
    """Give what the last cut goes on by, as its dial shows it."""
    if not step.passes:
        return {}
    last = step.passes[-1]
    on = f"{divisions(last.divisions)}{THIN}div" if last.divisions else plain(last.depth, units)
    return {"last_cut": on}


def _touched(step: Step, units: Units, workshop: Workshop) -> dict[str, str]:
    """Give what is touched before the cuts, and what a division of the slide takes off it."""
    if not step.passes or not step.operations:
        return {}
    what = leaves_what(step)
    if step.operations[-1].verb == "thread":
        return {} if step.check is None else {"start": f"Ø{plain(step.check.expect, units)}"}
    start = started_from(step)
    if not start > 0:
        return {}
    hole = " hole" if what == "bore" else ""
    told = {"start": f"Ø{plain(start, units, places=3)}{hole}"}
    moves = [move for lot in step.passes for move in lot.settings]
    more, less = ("less", "more") if what == "bore" else ("more", "less")
    return told | {"more": more, "less": less} | _worth(moves, units, workshop)


def _worth(moves: list[Move], units: Units, workshop: Workshop) -> dict[str, str]:
    dial = dial_of(moves[0], workshop) if moves else None
    if dial is None or moves[0].by != "dial":
        return {}
    travel = division_travel(dial)
    return {"a_division": f"1{THIN}div", "worth": plain(2 * travel, units, places=3)}


def _height(step: Step, part: Part, units: Units) -> tuple[str, ...]:
    """Say where a milling cutter is touched for its height, and how."""
    if step.touch is None:
        return ()
    on = f"{step.touch.means} on {surface_words(step.touch.surface, part, units)}"
    ways: tuple[str, ...] = (mill_words.TOUCHED, mill_words.TOUCHED_HIGHEST)
    how = [one for one in ways if one in step.remarks]
    if step.touch.means == AS_IT_STANDS:
        how = ["knee dial to 0 before it is moved"]
    return (f"height by {on}{': ' if how else ''}{''.join(how)}",)


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
