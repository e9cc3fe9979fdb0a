"""What the dials say: each slide's stops from its zero, and every cut's own setting."""

from __future__ import annotations

from itertools import groupby
from typing import Final

from halfthou.planning.worked import Move, Step
from halfthou.present.card_view import MoveView
from halfthou.present.figures import dial_setting, divisions
from halfthou.present.numbers import THIN, Units, by_eye, fixed
from halfthou.workshop.model import Workshop

_SCALED: Final = frozenset({"tailstock", "quill"})
_SUMMED: Final = 4
"""Like cuts from which not every setting is listed."""
_NEAR: Final = 0.05
_MANY: Final = 2
"""Settings from which they are listed short."""


def dial_words(step: Step, units: Units, workshop: Workshop) -> tuple[MoveView, ...]:
    """Say every slide moved, from its zero; one that stops more than once says each stop."""
    views = []
    for slide, group in groupby(step.moves, key=_slide):
        moves = list(group)
        shared = _shared(step, moves, workshop)
        if shared:
            views.append(MoveView(slide=slide, settings=shared))
            continue
        settings = [move_words(move, units)[1] for move in moves]
        listed = tuple(dict.fromkeys(settings))
        if len(listed) > 1 and all(move.by == "dial" and not move.turns for move in moves):
            listed = (_divisions(moves),)
        elif len(listed) > _MANY and all(move.by == "dial" for move in moves):
            listed = (_listed(moves),)
        elif len(listed) > 1:
            listed = (listed[0], *(f"then {one}" for one in listed[1:]))
        last = moves[-1].last
        if last and last != "up" and any(move.turns or move.divisions for move in moves):
            listed = (*listed, f"coming {last}")
        views.append(MoveView(slide=slide, settings=listed))
    return tuple(views)


def _shared(step: Step, moves: list[Move], workshop: Workshop) -> tuple[str, ...]:
    """Say how far each of many like cuts goes on, and the last setting of each lot."""
    few = max((one.count for one in step.passes), default=0) < _SUMMED
    if few or len(moves) != len(step.passes) or not workshop.lathes:
        return ()
    if moves[0].slide != "cross-slide" or moves[0].by != "dial":
        return ()
    dial = workshop.lathes[0].cross_slide
    said: list[str] = []
    for move, lot in zip(moves, step.passes, strict=True):
        a_cut = lot.depth * (2 if dial.reads == "diameter" else 1) / dial.division
        to = _unbroken(dial_setting(move.turns, move.divisions))
        whole = abs(a_cut * 2 - round(a_cut * 2)) < _NEAR
        each = f"{divisions(a_cut)}{THIN}div a cut to " if lot.count > 1 and whole else ""
        said.append(f"{'then ' if said else ''}{each}{to}")
    return tuple(said)


def _slide(move: Move) -> str:
    if not move.to and not move.turns and not move.divisions:
        return move.slide
    return f"{move.slide} {_way(move)}"


def _divisions(moves: list[Move]) -> str:
    """List settings within one turn: ``23, 45, 50 div``."""
    said = dict.fromkeys(divisions(move.divisions) for move in moves)
    return f"{', '.join(said)}{THIN}div"


def _listed(moves: list[Move]) -> str:
    """List many settings short, each as turns and divisions: ``0+50, 1+0, 1+50``."""
    said = [f"{move.turns}+{divisions(move.divisions)}" for move in moves]
    return f"turns+div: {', '.join(dict.fromkeys(said))}"


def move_words(move: Move, units: Units) -> tuple[str, str]:
    """Say one move: the slide and which way, and its dial; its travel where no dial shows it."""
    if not move.to and not move.turns and not move.divisions:
        return move.slide, "at zero"
    way = _slide(move)
    if move.by == "dial":
        return way, _unbroken(dial_setting(move.turns, move.divisions))
    if move.by == "readout":
        return way, fixed(move.to, units)
    by = "its scale" if move.slide in _SCALED else "rule"
    inch = " in" if units == "in" else ""
    return way, f"{by_eye(move.to, units)}{inch} by {by}"


def _unbroken(setting: str) -> str:
    """Keep ``12 div`` on one line."""
    return setting.replace(" div", f"{THIN}div").replace(" turn", f"{THIN}turn")


def _way(move: Move) -> str:
    """Say what the hand does: a tailstock goes in or out; the knee comes up for every cut."""
    if move.slide == "tailstock":
        return "in" if move.sense == "left" else "out"
    if move.slide == "knee":
        return "up"
    return move.sense
