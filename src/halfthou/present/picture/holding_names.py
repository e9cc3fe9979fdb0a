"""What holds the work is named in the picture, where its look alone does not tell what it is."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import partial
from itertools import pairwise
from typing import Final

from halfthou.planning.model import Scheme
from halfthou.present.figures import Display, length
from halfthou.present.picture.crowding import Candidate, these
from halfthou.present.picture.dimensions import Leader, Linear, ways
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.label import Label
from halfthou.present.picture.lettering import width_of
from halfthou.present.picture.mill_axes import room_of
from halfthou.present.picture.mill_holding import Piece
from halfthou.present.picture.mill_vice import ROUND_BAR
from halfthou.present.picture.mill_view import Held, MillView
from halfthou.present.picture.sheet import SMALL_TEXT, Box, Disc, Path, Words, box_of_words
from halfthou.shapes.flat import Point2, Polyline2, extent_of
from halfthou.shapes.solids import solid_of
from halfthou.units import Millimetre

_LEADS: Final = (4.0, 7.0, 11.0, 16.0, 23.0)
_TURNS: Final = tuple(math.radians(angle) for angle in (-50, -130, 50, 130, -20, -160, 20, 160))
_DOT: Final[Millimetre] = 0.45
_INSET: Final[Millimetre] = 1.5
_PLAIN: Final[dict[Piece, str]] = {
    "round bar": "round bar",
    "soft copper": "soft copper",
    "packing": "packing",
    "stop": "stop",
    "angle plate": "angle plate",
    "jack": "jack",
}
_UNDER: Final[tuple[Piece, ...]] = ("packing", "jack")
"""What the work may hide in plan: then the cut-open view names it."""
_LOWEST: Final[Millimetre] = 3.0
"""Height from which parallels are worth a figure: lower ones are packing."""


def names_in_plan(view: MillView, frame: Frame, *, units: Display) -> list[list[Candidate]]:
    """Name in plan the fixed jaw, and once each whatever is laid between jaws and work."""
    found: list[list[Candidate]] = []
    named: dict[Piece, list[Held]] = {}
    for one in view.plan_held:
        named.setdefault(one.name, []).append(one)
    work = frame.box(extent_of(view.plan_lines))
    over = frame.lines(view.plan_filled)
    if "fixed jaw" in named:
        widest = max(named["fixed jaw"], key=lambda one: extent_of([one.outline]).width)
        inside = _inside(frame.box(extent_of([widest.outline])), "fixed jaw", clear=work)
        spots = _in_sight(named["fixed jaw"], frame, over)
        found.append(inside or note_at("fixed jaw", spots))
    for name, said in _PLAIN.items():
        size = f" {length(ROUND_BAR, units)}" if name == "round bar" else ""
        found.append(note_at(f"{said}{size}", _in_sight(named.get(name, []), frame, over)))
    return [one for one in found if one]


def names_in_front(view: MillView, frame: Frame) -> list[list[Candidate]]:
    """Name in the cut-open view packing and jacks that the work hides in plan."""
    above = frame.lines(view.plan_filled)
    faces = frame.lines(area.outer for area in view.front.cut)
    found: list[list[Candidate]] = []
    for name in _UNDER:
        pieces = [one for one in view.plan_held if one.name == name]
        if not pieces or _in_sight(pieces, frame, above):
            continue
        spots = [
            spot
            for one in view.front_held
            if one.name == name
            for spot in _spots(one, frame)
            if not any(_within(spot, face) for face in faces)
        ]
        found += [note_at(name, spots)] if spots else []
    return found


def _within(spot: Point2, loop: Polyline2) -> bool:
    """Whether a point lies within a closed line: a ray from it crosses the line an odd number."""
    x, y = spot
    inside = False
    for (ax, ay), (bx, by) in pairwise((*loop, loop[0])):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            inside = not inside
    return inside


def _in_sight(pieces: Iterable[Held], frame: Frame, work: Sequence[Polyline2]) -> list[Point2]:
    """List where to point at some pieces, clear of the outlines of the work over them."""
    return [
        spot
        for one in pieces
        for spot in _spots(one, frame)
        if not any(_within(spot, loop) for loop in work)
    ]


def _inside(box: Box, text: str, *, clear: Box) -> list[Candidate]:
    """List places for a few words within a piece, clear of the work that lies over it."""
    long = width_of(text, size=SMALL_TEXT)
    if long + 2 * _INSET > box.width or box.height < SMALL_TEXT + _INSET:
        return []
    feet = (box.top + SMALL_TEXT * 0.7 + _INSET, box.middle[1] + 1.0, box.bottom - _INSET)
    found = []
    for rank, foot in enumerate(feet):
        for share in (0.0, 1.0, 0.5):
            left = box.left + _INSET + share * (box.width - 2 * _INSET - long)
            words = Words(at=(left, foot), text=text, style="quiet words", size=SMALL_TEXT)
            if clear.meets(box_of_words(words)):
                continue
            found.append(
                Candidate(
                    draw=partial(these, words),
                    boxes=(box_of_words(words),),
                    lines=(),
                    witness=(),
                    cost=0.3 * rank + share,
                )
            )
    return found


def _spots(one: Held, frame: Frame) -> list[Point2]:
    """List where a line to a piece may end: within it, toward its ends and at its middle."""
    box = frame.box(extent_of([one.outline]))
    return [
        (box.left + share * box.width, box.top + rise * box.height)
        for rise in (0.5, 0.75)
        for share in (0.93, 0.07, 0.5)
    ]


def note_at(text: str, spots: Sequence[Point2]) -> list[Candidate]:
    """List the ways to write a small note with a thin line to a dot on one of some spots."""
    long = width_of(text, size=SMALL_TEXT)
    found = []
    for number, spot in enumerate(spots):
        for rank, turn in enumerate(_TURNS):
            side = 1.0 if math.cos(turn) > 0 else -1.0
            for lead in _LEADS:
                knee = (spot[0] + lead * math.cos(turn), spot[1] - lead * math.sin(turn))
                foot = knee[0] + 0.7 if side > 0 else knee[0] - 0.7 - long
                words = Words(
                    at=(foot, knee[1] + 1.0), text=text, style="quiet words", size=SMALL_TEXT
                )
                line = Path(lines=((spot, knee),), style="note line")
                dot = Disc(centre=spot, radius=_DOT, style="note dot")
                found.append(
                    Candidate(
                        draw=partial(these, line, dot, words),
                        boxes=(box_of_words(words),),
                        lines=((spot, knee),),
                        witness=(),
                        cost=0.25 * lead + 0.1 * rank + 0.3 * number,
                    )
                )
    return found


def overhang_ways(
    view: MillView, scheme: Scheme, frame: Frame, *, work: Box, units: Display
) -> list[Candidate]:
    """Dimension in plan how far an end stands out past the jaws to be milled."""
    if not scheme.out or scheme.out_by <= 0:
        return []
    rooms = [room_of(solid_of(one.region), view.axes) for one in view.holding if "jaw" in one.name]
    right = scheme.out == "right"
    jaw = max(one.high[0] for one in rooms) if right else min(one.low[0] for one in rooms)
    ends = [one.high[0] if right else one.low[0] for one in (view.stock, view.work)]
    end = min(ends, key=lambda one: abs(abs(one - jaw) - scheme.out_by))
    near = min(one.low[1] for one in rooms)
    linear = Linear(
        a=frame.to((jaw, near)),
        b=frame.to((end, view.stock.low[1])),
        upright=False,
        label=Label(main=f"{length(scheme.out_by, units)} out", passing=True),
        edges=("below", "above"),
    )
    return ways(linear, work=work)


def one_only(view: MillView) -> bool:
    """Whether one parallel lies under the work, as under a level round: not a pair."""
    return sum(one.name == "parallel" for one in view.holding) == 1


def parallel_ways(view: MillView, frame: Frame, *, units: Display) -> list[list[Candidate]]:
    """Say in the cut-open view how high the parallels under the work are."""
    found = [one for one in view.front_held if one.name == "parallel"]
    if not found:
        return []
    extents = [extent_of([one.outline]) for one in found]
    high = extents[0].high[1] - extents[0].low[1]
    if high < _LOWEST:
        return []
    vice = any(one.name == "fixed jaw" for one in view.holding)
    hangs = not vice and view.stock.low[2] < extents[0].high[1] - _LOWEST
    if not hangs:
        tall = f" {length(float(round(high)), units)} high" if vice else ""
        spots = [spot for one in found for spot in _spots(one, frame)]
        return [note_at(f"{'parallel' if one_only(view) else 'parallels'}{tall}", spots)]
    said = f"parallels, {length(high, units)} high or more"
    return [note_at(said, [spot for one in found for spot in _spots(one, frame)])]


def moved_ways(view: MillView, frame: Frame, *, step: int, work: Box) -> list[list[Candidate]]:
    """Say where the clamps stand first and where they go half-way, with the step they go in."""
    said: tuple[tuple[Piece, str], ...] = (
        ("clamp", "clamps first"),
        ("clamp moved", "then, one by one"),
    )
    if not any(one.name == "clamp moved" for one in view.plan_held):
        return []
    found = []
    for name, words in said:
        boxes = [frame.box(extent_of([one.outline])) for one in view.plan_held if one.name == name]
        tips = tuple(
            ((box.left + share * box.width, edge), (sideways, way))
            for box in boxes
            for edge, way in ((box.top, -1.0), (box.bottom, 1.0))
            for share in (0.5, 0.2, 0.8)
            for sideways in (0.4, -0.4)
        )
        label = Label(main=words, step=step, passing=True)
        found.append(ways(Leader(tips=tips, label=label), work=work))
    return found
