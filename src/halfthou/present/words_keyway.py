"""The figures that the lines of a keyway name: where its cutter starts and stops."""

from __future__ import annotations

from halfthou.planning.worked import Move, Place, Step
from halfthou.present.numbers import Units, plain
from halfthou.present.words_dials import move_words


def keyway_figures(step: Step, units: Units) -> dict[str, str]:
    """Give where a keyway's cutter starts and ends along the table, and how far that is.

    Empty for other steps: their places are told in a table.
    """
    if all(op.verb != "mill keyway" for op in step.operations):
        return {}
    told: dict[str, str] = {}
    for place in step.places:
        told |= _along(place, units)
    if step.places:
        told["travel"] = plain(abs(step.places[-1].x - step.places[0].x), units)
    return told if {"starts", "ends"} <= told.keys() else {}


def _along(place: Place, units: Units) -> dict[str, str]:
    """Give where the table stands at one end; nothing where the cross-table is not at zero."""
    named = {"from": "starts", "to": "ends"}.get(place.label)
    moves = [move for move in place.moves if move.slide == "table"]
    if named is None or not moves or abs(place.y) > 0:
        return {}
    coming = {"coming": moves[0].last} if named == "starts" else {}
    return {named: place_setting(moves[0], units)} | coming


def place_setting(move: Move, units: Units) -> str:
    """Say where a slide stands at a place: ``right 4 turns + 42½ div``."""
    _, setting = move_words(move, units)
    if setting == "at zero":
        return setting
    back = f", coming {move.last}" if move.last not in ("", "up", move.sense) else ""
    return f"{move.sense} {setting}{back}"
