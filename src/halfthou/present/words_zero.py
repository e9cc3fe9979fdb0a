"""Where the dials are set to zero and how it is picked up; what each dial reads."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.machines import lathe_for, mill_for
from halfthou.planning.model import Machine
from halfthou.planning.worked import Move, Step, WorkedSetUp
from halfthou.planning.working import words
from halfthou.present.numbers import THIN, Units, joined, plain, sentence
from halfthou.present.words_mill_zero import mill_zero_words
from halfthou.present.words_surfaces import surface_words
from halfthou.units import Millimetre
from halfthou.workshop.model import Dial, Workshop

_SLIDES: Final[dict[Machine, dict[str, str]]] = {
    "lathe": {"x": "saddle", "y": "cross-slide", "z": "cross-slide", "diameter": "cross-slide"},
    "mill": {},
    "bench": {},
}
_READ: Final = {"radius": " off the radius", "diameter": " off the diameter", "travel": ""}
_FACING: Final = frozenset({"face"})
_TRIAL: Final = "touch the tool on the work, dial to 0; put right by the first cut, measured"


def zero_words(worked: WorkedSetUp, part: Part, workshop: Workshop, units: Units) -> str:
    """Say the zero of each direction and how to find it, then what the dials read."""
    zero = worked.zero
    if zero is None:
        return ""
    machine = worked.set_up.scheme.machine
    if machine == "mill":
        picked = mill_zero_words(worked, part, workshop, units)
        return " ".join([*picked, dials_words(worked, workshop)]).strip()
    found: dict[tuple[str, str, Millimetre], list[str]] = {}
    for direction, surface, means, allow in zero.pick_up:
        slide = _SLIDES[machine].get(direction, direction)
        on = _picked_up(direction, surface, part, units, worked)
        found.setdefault((on, means, abs(allow)), []).append(slide)
    tools = _Tools.of(worked.steps)
    said = [_pick_up(tuple(slides), *how, units=units, tools=tools)
            for how, slides in found.items()]  # fmt: skip
    return " ".join([*said, dials_words(worked, workshop)]).strip()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tools:
    """The tools whose place along the bed counts: how many are felt for, and if others are not.

    ``more`` are those after the one that faces the work, which stands at zero by itself.
    """

    felt: frozenset[str]
    more: frozenset[str]
    pointed: bool

    @classmethod
    def of(cls, steps: tuple[Step, ...]) -> _Tools:
        pointed = {s.tool for s in steps if words.TIP_AT_THE_FACE in s.remarks}
        faced = {s.tool for s in steps if any(op.verb in _FACING for op in s.operations)}
        felt = {s.tool for s in steps if any(m.slide == "saddle" for m in s.moves)} - pointed
        return cls(
            felt=frozenset(felt), more=frozenset(felt - faced), pointed=bool(pointed - faced)
        )

    def each(self, few: str, several: str) -> str:
        """Say one tool or each of several; pointed ones are told of apart."""
        said = few if len(self.felt) <= 1 and not self.pointed else several
        return f"{said} but a pointed one, set level with it by eye" if self.pointed else said


def _picked_up(direction: str, surface: str, part: Part, units: Units, worked: WorkedSetUp) -> str:
    if direction == "x" and any(op.verb in _FACING for op in worked.set_up.operations):
        return _NEW_FACE
    return surface_words(surface, part, units) if surface else ""


def _pick_up(
    slides: tuple[str, ...],
    on: str,
    means: str,
    allow: Millimetre,
    *,
    units: Units,
    tools: _Tools,
) -> str:
    far = f"{plain(allow, units, places=3)} short of zero"
    felt = f"{means}, spindle stopped, {far}"
    if not on:
        how = _TRIAL
    elif on == _NEW_FACE:
        how = "dial to 0 on the face as it is finished"
        if tools.more:
            how += f"; then {tools.each('the next tool', 'each new tool')} by {felt}"
        elif tools.pointed:
            how += "; a pointed tool is set level with it by eye"
    elif "feeler" in means:
        how = f"{means} on {on}, spindle stopped, {far}{tools.each('', ', with each tool')}"
    else:
        how = (
            f"{means} on {on}; its middle is then {far}"
            if allow
            else f"{means} on {on}, dial to 0"
        )
    return sentence(f"{joined(slides)}: {how}")


_NEW_FACE: Final = "the face, once it is cut"
_EITHER_WAY: Final = frozenset({"left", "right", "toward", "away", "out"})
"""Ways for which no dial is sure to count up: it hangs on the machine."""
_COUNTS_DOWN: Final = (
    "Figures are travel from 0: a dial that counts down on the way shows the turn less the "
    "divisions."
)


def dials_words(worked: WorkedSetUp, workshop: Workshop) -> str:
    """Say what one turn and one division of each dial used is, in the dials' own unit."""
    machine = worked.set_up.scheme.machine
    moves = [move for step in worked.steps for move in step.moves]
    moves += [m for step in worked.steps for place in step.places for m in place.moves]
    used = {move.slide for move in moves}
    lathe, mill = lathe_for(worked.set_up, workshop), mill_for(worked.set_up, workshop)
    if machine == "lathe" and lathe is not None:
        if lathe.readout:
            return "Figures are for the readout."
        lathe_dials = (
            ("cross-slide", lathe.cross_slide),
            ("saddle", lathe.saddle),
            ("top-slide", lathe.top_slide),
        )
        own = [_dial(name, dial) for name, dial in lathe_dials if dial and name in used]
        over = any(step.set_over for step in worked.steps)
        level = "top-slide" in used and not over
        return (
            _turns(own)
            + _backward(moves)
            + (" Top-slide set parallel to the bed." if level else "")
        )
    if machine == "mill" and mill is not None:
        if mill.readout:
            return "Figures are for the readout."
        mill_dials = (("table", mill.x), ("cross-table", mill.y), ("knee", mill.z))
        told = _turns([_dial(name, dial) for name, dial in mill_dials if name in used])
        return told + _backward(moves)
    return ""


def _backward(moves: list[Move]) -> str:
    """Say what a dial shows that is wound the way its figures run down."""
    told = any(m.by == "dial" and m.divisions and m.sense in _EITHER_WAY for m in moves)
    return f" {_COUNTS_DOWN}" if told else ""


def _turns(dials: list[str]) -> str:
    """Say several dials once where they are alike."""
    return f"One turn: {'; '.join(dials)}." if dials else ""


def _dial(slide: str, dial: Dial) -> str:
    own: Units = dial.units
    count = round(dial.lead / dial.division)
    lead = plain(dial.lead, own, places=3)
    return f"{slide} {count} div, {lead}{THIN}{own}{_READ[dial.reads]}"
