"""One diameter of a hole, from its entry: ``9 through``, ``4 BA x 14 beyond split``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal, TypeAlias

from halfthou.errors import InputFault
from halfthou.quantities.angle import ANGLE, parse_angle
from halfthou.quantities.figure import FIGURE, UNIT, DrawingUnits, not_understood, refuse_long
from halfthou.quantities.length import Length, parse_length
from halfthou.quantities.size import Size, parse_size
from halfthou.quantities.thread import ThreadName, parse_thread

if TYPE_CHECKING:
    from halfthou.units import Radian

HOLE_FORMS: Final = (
    "9 through",
    "4 H7 x 6",
    "2 to bore",
    "3/8 reamed through",
    "6 csk 90°",
    "14 counterbore x 8",
    "20 spotface clean up",
    "10 x 20 flat",
    "12 taper 1 in 20 x 30",
    "M10 through",
    "1/4 BSF x 18",
    "4 BA clear to split",
    "4 BA x 14 beyond split",
)
HoleKind: TypeAlias = Literal["plain", "countersink", "counterbore", "spotface"]
HoleProcess: TypeAlias = Literal["bored", "reamed", "drilled"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleStep:
    """One step of a hole: a diameter or a thread, how it is made, and how far it goes."""

    text: str
    diameter: Size | None = None
    thread: ThreadName | None = None
    clear: bool = False
    kind: HoleKind = "plain"
    angle: Radian | None = None
    depth: Length | None = None
    to: str | None = None
    beyond: str | None = None
    through: bool = False
    process: HoleProcess | None = None
    clean_up: bool = False
    flat: bool = False
    taper: str | None = None

    def write(self) -> str:
        """Give the author's own text back."""
        return self.text


_NAME: Final = r"[A-Za-z][\w-]*(?: [\w-]+)?"
_STEP: Final = re.compile(
    rf"(?P<head>.+?)(?:\s*[x×]\s*(?P<depth>{FIGURE}\s*{UNIT}?)(?: deep)?)?"
    rf"(?P<flat> flat)?(?P<clean> clean up)?(?P<through> (?:through|thro|thru))?"
    rf"(?: to (?P<to>{_NAME}))?(?: beyond (?P<beyond>{_NAME}))?",
    re.IGNORECASE,
)
_HEAD: Final = re.compile(
    rf"(?P<what>.+?)(?: (?P<kind>csk|countersink|countersunk|cbore|counterbore|spotface))?"
    rf"(?: (?P<angle>{ANGLE}))?(?P<clear> clear(?:ance)?)?"
    rf"(?: (?P<process>bored|reamed|drilled))?"
    rf"(?: taper (?P<taper>{FIGURE} (?:in {FIGURE}|per (?:foot|ft))))?",
    re.IGNORECASE,
)
_METRIC_TAIL: Final = re.compile(r"\s*[Mm]\s*(?P<size>\d+(?:[.,]\d+)?)\s*")
_KINDS: Final[dict[str | None, HoleKind]] = {
    None: "plain",
    "csk": "countersink",
    "countersink": "countersink",
    "countersunk": "countersink",
    "cbore": "counterbore",
    "counterbore": "counterbore",
    "spotface": "spotface",
}
_PROCESSES: Final[dict[str | None, HoleProcess | None]] = {
    None: None,
    "bored": "bored",
    "reamed": "reamed",
    "drilled": "drilled",
}
# Coarse pitches are under a fifth of the diameter from M2 up; a longer figure is a depth.
_PITCH_SHARE: Final = 0.2
_SMALL_THREAD: Final = 2.0


def parse_hole_step(text: str, *, units: DrawingUnits) -> HoleStep:
    """Read one step of a hole; bare figures take the drawing's ``units``.

    >>> parse_hole_step("4 BA x 14 beyond split", units="mm").beyond
    'split'
    """
    refuse_long(text, "a step of a hole")
    step = _STEP.fullmatch(text.strip())
    head = step and _HEAD.fullmatch(step["head"].strip())
    if step is None or head is None:
        raise not_understood(text, "a step of a hole", HOLE_FORMS)
    what, depth_text = _pitch_or_depth(head["what"].strip(), step, head)
    thread = _thread_or_none(what)
    found = HoleStep(
        text=text,
        thread=thread,
        diameter=None if thread else _diameter(what, text, units),
        clear=bool(head["clear"]),
        kind=_KINDS[_lower(head["kind"])],
        angle=parse_angle(head["angle"]).value if head["angle"] else None,
        depth=parse_length(depth_text, units=units) if depth_text else None,
        to=step["to"],
        beyond=step["beyond"],
        through=bool(step["through"]),
        process=_PROCESSES[_lower(head["process"])],
        clean_up=bool(step["clean"]),
        flat=bool(step["flat"]),
        taper=head["taper"],
    )
    _check(found)
    return found


def _lower(word: str | None) -> str | None:
    return word and word.lower()


def _pitch_or_depth(what: str, step: re.Match[str], head: re.Match[str]) -> tuple[str, str | None]:
    """Give ``M10 x 1 through`` its pitch back, which reads like a depth."""
    depth: str | None = step["depth"]
    metric = _METRIC_TAIL.fullmatch(what)
    bare = depth and re.fullmatch(r"[\d.,]+", depth)
    only_end = step["beyond"] and not (step["through"] or step["to"])
    if not (metric and bare and depth) or head["clear"] or head["kind"] or only_end:
        return what, depth
    size = float(metric["size"].replace(",", "."))
    pitch = float(depth.replace(",", "."))
    if pitch <= _PITCH_SHARE * size or (size < _SMALL_THREAD and pitch < size / 2):
        return f"{what} x {depth}", None
    return what, depth


def _thread_or_none(what: str) -> ThreadName | None:
    if not re.search(r"[MB]|ME|UN|brass|whit", what, re.IGNORECASE) or re.search(r"mm$", what):
        return None
    try:
        return parse_thread(what)
    except InputFault:
        if re.search(r"B\.?[AS]|ME$|UN|brass|whit|^[Mm]\s*\d", what):
            raise
        return None


def _diameter(what: str, text: str, units: DrawingUnits) -> Size:
    try:
        return parse_size(what, units=units)
    except InputFault as fault:
        if fault.what.startswith(f"'{what}' cannot be read"):
            raise not_understood(text, "a step of a hole", HOLE_FORMS, why=fault.why) from fault
        raise


def _check(step: HoleStep) -> None:
    ends = [
        name
        for name, given in (
            ("through", step.through),
            (f"to {step.to}", step.to is not None),
            (f"x {step.depth.text}" if step.depth else "", step.depth is not None),
            ("clean up", step.clean_up),
        )
        if given
    ]
    if len(ends) > 1:
        raise InputFault(
            f"'{step.text}' says twice how deep it goes: {' and '.join(ends)}",
            why="a step of a hole has one end",
            tries=(f"keep '{ends[0]}' only",),
        )
    if step.clear and step.thread is None:
        raise InputFault(
            f"'{step.text}' asks for clearance without naming a thread",
            why="the clearing size follows from the thread that passes",
            tries=("write 4 BA clear through", "write the diameter, such as 9 through"),
        )
    if step.taper is not None and (step.thread is not None or step.kind != "plain"):
        raise InputFault(
            f"'{step.text}' tapers what cannot taper",
            why="only a plain hole tapers",
            tries=("write it like 12 taper 1 in 20 x 30",),
        )
    if not ends and step.kind != "countersink":
        raise InputFault(
            f"'{step.text}' does not say how deep it goes",
            why="only a countersink ends by its own angle",
            tries=(f"write '{step.text.strip()} through'", f"write '{step.text.strip()} x 20'"),
        )
