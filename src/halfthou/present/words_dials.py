"""What the dials say: each slide's stops from its zero."""

from __future__ import annotations

from itertools import groupby
from typing import Final

from halfthou.planning.worked import Move, Step
from halfthou.present.card_view import MoveView
from halfthou.present.figures import dial_setting, divisions
from halfthou.present.numbers import THIN, Units, by_eye, fixed

_SCALED: Final = frozenset({"tailstock", "quill"})
_MANY: Final = 2
"""Settings from which they are listed short."""


def dial_words(step: Step, units: Units, *, told: str = "") -> tuple[MoveView, ...]:
    """Say every slide moved, from its zero; one that stops more than once says each stop.

    The slide that is ``told`` cut by cut in the ladder is left out.
    """
    views = []
    for slide, group in groupby(step.moves, key=along_words):
        moves = list(group)
        if moves[0].slide == told:
            continue
        settings = [move_words(move, units)[1] for move in moves]
        listed = tuple(dict.fromkeys(settings))
        if len(listed) > 1 and all(move.by == "dial" and not move.turns for move in moves):
            listed = (_divisions(moves),)
        elif len(listed) > _MANY and all(move.by == "dial" for move in moves):
            listed = (_listed(moves),)
        elif len(listed) > 1:
            listed = (listed[0], *(f"then {one}" for one in listed[1:]))
        views.append(MoveView(slide=slide, settings=listed))
    return tuple(views)


def along_words(move: Move) -> str:
    """Say which slide, which way, and from where it is come to: ``table right, coming left``."""
    way, moved = _slide(move), bool(move.turns or move.divisions)
    return f"{way}, coming {move.last}" if moved and move.last not in ("", "up") else way


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
