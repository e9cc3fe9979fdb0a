"""The words of one dimension: step number in a ring, the size, its limits one over the other."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from halfthou.present.picture.ink import Style
from halfthou.present.picture.lettering import CAPITAL, Weight, width_of
from halfthou.present.picture.sheet import (
    TEXT,
    Box,
    Disc,
    Mark,
    Words,
    box_of_words,
    shifted,
)
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

RING: Final[Millimetre] = 1.85
"""Radius of the ring round a step's number."""
_RING_TEXT: Final[Millimetre] = 2.6
_LIMIT_TEXT: Final[Millimetre] = 2.3
_GAP: Final[Millimetre] = 0.8
_RISE: Final = CAPITAL * TEXT / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What stands at one dimension. ``step`` 0 shows no ring; ``passing`` is no final size.

    ``note`` follows it in small type: what the surface is called.
    """

    main: str
    upper: str = ""
    lower: str = ""
    step: int = 0
    passing: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lettered:
    """A label set in type: its marks and the paper they cover."""

    marks: tuple[Mark, ...]
    boxes: tuple[Box, ...]


def length_of(label: Label) -> Millimetre:
    """Length of a label along its line of text [mm]."""
    ring = 2 * RING + _GAP if label.step else 0.0
    limits = max(width_of(text, size=_LIMIT_TEXT) for text in (label.upper, label.lower))
    main = width_of(label.main, size=TEXT, weight=_weight(label))
    note = width_of(label.note, size=_LIMIT_TEXT) + _GAP if label.note else 0.0
    return ring + main + (limits + _GAP / 2 if limits else 0.0) + note


def _weight(label: Label) -> Weight:
    return "regular" if label.passing else "medium"


def lettered(label: Label, *, at: Point2, turned: bool = False) -> tuple[Mark, ...]:
    """Set a label whose foot line starts at ``at``; turned, it runs up, read from the right."""
    return shifted(_at_nought(label, turned=turned).marks, at)


def boxes_of(label: Label, *, at: Point2, turned: bool = False) -> tuple[Box, ...]:
    """Return the paper that a label covers where it is set."""
    x, y = at
    return tuple(
        Box(left=b.left + x, right=b.right + x, top=b.top + y, bottom=b.bottom + y)
        for b in _at_nought(label, turned=turned).boxes
    )


@lru_cache(maxsize=512)
def _at_nought(label: Label, *, turned: bool) -> _Lettered:
    texts: list[Words] = []
    marks: list[Mark] = []
    boxes: list[Box] = []
    at, along = (0.0, 0.0), 0.0
    if label.step:
        centre = _moved(at, RING, -_RISE, turned=turned)
        marks += ring_marks(label.step, centre=centre)
        point = Box(left=centre[0], right=centre[0], top=centre[1], bottom=centre[1])
        boxes.append(point.grown(RING))
        along = 2 * RING + _GAP
    texts.append(_words(label.main, TEXT, _moved(at, along, 0.0, turned=turned), turned, label))
    along += width_of(label.main, size=TEXT, weight=_weight(label)) + _GAP / 2
    half = 0.25
    high = CAPITAL * _LIMIT_TEXT
    if label.upper:
        spot = _moved(at, along, -_RISE - half, turned=turned)
        texts.append(_words(label.upper, _LIMIT_TEXT, spot, turned, label))
    if label.lower:
        spot = _moved(at, along, -_RISE + half + high, turned=turned)
        texts.append(_words(label.lower, _LIMIT_TEXT, spot, turned, label))
    if label.note:
        limits = max(width_of(text, size=_LIMIT_TEXT) for text in (label.upper, label.lower))
        spot = _moved(at, along + limits + _GAP / 2, 0.0, turned=turned)
        note = _words(label.note, _LIMIT_TEXT, spot, turned, label)
        texts.append(replace(note, style="quiet words"))
    boxes.append(_round_all([box_of_words(one) for one in texts]))
    return _Lettered(marks=(*marks, *texts), boxes=tuple(boxes))


def _round_all(boxes: list[Box]) -> Box:
    """Return one box round all the texts of a label: no line passes between them."""
    return Box(
        left=min(box.left for box in boxes),
        top=min(box.top for box in boxes),
        right=max(box.right for box in boxes),
        bottom=max(box.bottom for box in boxes),
    )


def ring_marks(
    step: int, *, centre: Point2, style: Style = "balloon", words: Style = "dimension words"
) -> tuple[Mark, ...]:
    """Return the ringed number that ties a dimension to a step of the card; it stays upright."""
    x, y = centre
    number = Words(
        at=(x, y + CAPITAL * _RING_TEXT / 2),
        text=str(step),
        style=words,
        size=_RING_TEXT,
        anchor="middle",
        weight="medium",
    )
    return (Disc(centre=centre, radius=RING, style=style), number)


def _words(text: str, size: Millimetre, at: Point2, turned: bool, label: Label) -> Words:  # noqa: FBT001
    weight = _weight(label) if size == TEXT else "regular"
    return Words(
        at=at, text=text, style="dimension words", size=size, turned=turned, weight=weight
    )


def _moved(at: Point2, along: float, down: float, *, turned: bool) -> Point2:
    if turned:
        return (at[0] + down, at[1] - along)
    return (at[0] + along, at[1] + down)
