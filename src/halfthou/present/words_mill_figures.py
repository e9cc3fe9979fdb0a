"""The figures that lines of milling name: what is left to the last cut, how far the knee goes."""

from __future__ import annotations

from halfthou.planning.worked import Move, Step
from halfthou.planning.working import mill_words
from halfthou.planning.working.side import BELOW
from halfthou.present.numbers import Units, plain
from halfthou.present.words_dials import move_words
from halfthou.present.words_ladder import dial_of
from halfthou.workshop.model import Workshop


def mill_figures(step: Step, units: Units, workshop: Workshop) -> dict[str, str]:
    """Give what the lines of a milling step name; only what it has."""
    knee = [move for move in step.moves if move.slide == "knee"]
    if not knee:
        return {}
    last = knee[-1]
    told = {"knee_up": move_words(last, units)[1]} | _a_division(last, units, workshop)
    if mill_words.ROUGHING_TO_TAKE in step.remarks and step.passes:
        end = step.passes[-1]
        told["left_over"] = plain(end.leaves + end.depth, units)
    if mill_words.ONE_HEIGHT in step.remarks:
        told |= {"below": plain(BELOW, units), "high": plain(last.to - BELOW, units)}
    return told | _what_stays(step, last, units)


def _a_division(move: Move, units: Units, workshop: Workshop) -> dict[str, str]:
    """Give what a division of the knee lifts; nothing where it has a readout."""
    dial = dial_of(move, workshop)
    if dial is None or move.by != "dial":
        return {}
    return {"a_knee": plain(dial.division, units, places=3)}


def _what_stays(step: Step, last: Move, units: Units) -> dict[str, str]:
    """Give the height left under a cut whose foot is hidden, and the whole it comes from."""
    stays = [one.aim for one in step.measures if one.when == "out of the holding"]
    if mill_words.HEIGHT_LESS not in step.remarks or not stays:
        return {}
    return {"stays": plain(stays[0], units), "whole": plain(stays[0] + last.to, units)}
