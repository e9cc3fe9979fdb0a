"""Holes in plan: crosses at their centres, the circle they lie on, names for a list of places."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import partial
from typing import Final, Literal

from halfthou.planning.model import Operation
from halfthou.planning.worked import Step
from halfthou.present.picture.crowding import Candidate, these
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.mill_axes import MillAxes
from halfthou.present.picture.sheet import Disc, Mark, Path, Words, box_of_words
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

_HARDLY_ASIDE: Final = 0.1
_RING: Final = 3
"""Fewest holes that make a circle of holes."""
_LONGEST_LABEL: Final = 2
"""Longer names of places say where a cutter goes, not which hole it is."""
_WAY: Final = ("from", "to")
_LETTER: Final[Millimetre] = 3.1
_LOOSE: Final[Millimetre] = 4.0
"""Distance from which a letter is tied to its hole by a thin line."""
_TURNS: Final = tuple(math.radians(30 * number) for number in range(12))
_LEADER_TURNS: Final = tuple(
    math.radians(angle) for angle in (58, 122, -58, -122, 35, 145, -35, -145)
)


def hole_marks(
    operations: Iterable[Operation], *, axes: MillAxes, frame: Frame
) -> tuple[Mark, ...]:
    """Draw centre lines for every hole of a set-up, once each."""
    places: dict[Point2, float] = {}
    marks: list[Mark] = []
    for one in operations:
        spots = [axes.plan(at) for at in one.at]
        for spot in spots:
            key = (round(spot[0], 4), round(spot[1], 4))
            places[key] = max(places.get(key, 0.0), one.cut_size)
        circle = _circle(spots)
        if circle is not None and circle not in marks:
            centre, radius = circle.centre, circle.radius
            marks.append(
                Disc(centre=frame.to(centre), radius=radius * frame.scale, style="centre")
            )
    crosses = [_cross(frame.to(spot), size * frame.scale / 2) for spot, size in places.items()]
    lines = tuple(line for cross in crosses for line in cross)
    unique = list(dict.fromkeys(marks))
    return (*unique, Path(lines=lines, style="centre")) if lines else tuple(unique)


def _cross(at: Point2, radius: float) -> tuple[tuple[Point2, Point2], tuple[Point2, Point2]]:
    reach = radius + 1.6
    x, y = at
    return (((x - reach, y), (x + reach, y)), ((x, y - reach), (x, y + reach)))


def _circle(spots: list[Point2]) -> Disc | None:
    if len(spots) < _RING:
        return None
    centre = (sum(x for x, _ in spots) / len(spots), sum(y for _, y in spots) / len(spots))
    radii = [math.dist(centre, spot) for spot in spots]
    if max(radii) - min(radii) > 1e-3 * max(radii) or _square_on(spots):
        return None
    return Disc(centre=centre, radius=sum(radii) / len(radii), style="centre")


def _square_on(spots: list[Point2]) -> bool:
    """Whether four holes lie in two rows and two columns: placed by them, not on a circle."""
    rows, columns = (sorted(round(spot[axis], 3) for spot in spots) for axis in (1, 0))
    return [len(spots), len(set(rows)), len(set(columns))] == [4, 2, 2]


def circle_tips(centre: Point2, radius: Millimetre) -> tuple[tuple[Point2, Point2], ...]:
    """Return where a leader may touch a hole, and which way it then leads off."""
    found = []
    for turn in _LEADER_TURNS:
        way = (math.cos(turn), -math.sin(turn))
        found.append(((centre[0] + radius * way[0], centre[1] + radius * way[1]), way))
    return tuple(found)


def between_holes(
    centre: Point2, radius: Millimetre, holes: Iterable[Point2]
) -> tuple[tuple[Point2, Point2], ...]:
    """Return where a leader may touch the circle that holes lie on, half-way between two."""
    turns = sorted(math.atan2(centre[1] - y, x - centre[0]) for x, y in holes)
    found = []
    for one, two in zip(turns, (*turns[1:], turns[0] + 2 * math.pi), strict=True):
        turn = (one + two) / 2
        way = (math.cos(turn), -math.sin(turn))
        found.append(((centre[0] + radius * way[0], centre[1] + radius * way[1]), way))
    return tuple(found)


def place_ways(steps: Iterable[Step], *, axes: MillAxes, frame: Frame) -> list[list[Candidate]]:
    """Return the ways to letter each place of a card's list of places, beside its hole."""
    found: dict[str, list[Candidate]] = {}
    steps = tuple(steps)
    spots = [axes.plan(spot.at) for step in steps for spot in step.places] or [(0.0, 0.0)]
    middle = frame.to(
        (sum(x for x, _ in spots) / len(spots), sum(y for _, y in spots) / len(spots))
    )
    for step in steps:
        size = max((one.cut_size for one in step.operations), default=0.0)
        for spot in step.places:
            if len(spot.label) > _LONGEST_LABEL or spot.label in _WAY:
                continue
            at = frame.to(axes.plan(spot.at))
            found.setdefault(
                spot.label, _letter_ways(spot.label, at, size * frame.scale / 2, middle)
            )
    return list(found.values())


def _anchor(aside: float) -> Literal["start", "middle", "end"]:
    if abs(aside) < _HARDLY_ASIDE:
        return "middle"
    return "start" if aside > 0 else "end"


def _letter_ways(text: str, at: Point2, radius: float, middle: Point2) -> list[Candidate]:
    """List places round a hole for its letter, those away from the others' middle first."""
    out = math.atan2(middle[1] - at[1], at[0] - middle[0])
    ways: list[Candidate] = []
    for away in (1.6, 2.4, 3.4, 5.0, 7.0, 10.0):
        for rank, turn in enumerate(_TURNS):
            reach = radius + away
            spot = (
                at[0] + reach * math.cos(turn),
                at[1] - reach * math.sin(turn) + 0.35 * _LETTER,
            )
            words = Words(
                at=spot,
                text=text,
                style="dimension words",
                size=_LETTER,
                anchor=_anchor(math.cos(turn)),
                weight="medium",
            )
            edge = radius + 0.4
            line = (
                (at[0] + edge * math.cos(turn), at[1] - edge * math.sin(turn)),
                (
                    at[0] + (reach - 0.6) * math.cos(turn),
                    at[1] - (reach - 0.6) * math.sin(turn),
                ),
            )
            far = away > _LOOSE
            marks: list[Mark] = [Path(lines=(line,), style="note line")] if far else []
            ways.append(
                Candidate(
                    draw=partial(these, *marks, words),
                    boxes=(box_of_words(words),),
                    lines=(line,) if far else (),
                    witness=(),
                    cost=away + 0.05 * rank + 1.5 * (1 - math.cos(turn - out)),
                )
            )
    return ways
