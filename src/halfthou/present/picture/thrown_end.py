"""Work thrown over, seen from the tailstock: rod, which way it is moved, where the clock is least.

Not to scale across: a throw of tenths is drawn large enough to be seen which way it goes.
"""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import Hole, Part
from halfthou.planning.turned.shape import rounds
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working.thrown import hour_of_line, outward
from halfthou.present.numbers import plain
from halfthou.present.picture.sheet import (
    SMALL_TEXT,
    Disc,
    Mark,
    Path,
    Words,
    box_of,
    shifted,
)
from halfthou.present.picture.wording import PictureWords
from halfthou.present.words_surfaces import shop_name
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

_RIM: Final[Millimetre] = 9.0
_SHOWN: Final[Millimetre] = 2.4
"""How far a throw is drawn, whatever it is, on paper."""
_ROD: Final[Millimetre] = 12.0
_ROD_HALF: Final[Millimetre] = 1.0
_HEAD: Final[Millimetre] = 2.4
_ACROSS: Final = 0.1
_ASIDE: Final[Millimetre] = 20.0
_LINE: Final[Millimetre] = 4.0
"""From one line of small words to the next, on paper. [mm]"""


def thrown_end(part: Part, worked: WorkedSetUp, words: PictureWords) -> tuple[Mark, ...]:
    """Draw the end of thrown work with a rod in its cross hole level toward the person."""
    scheme = worked.set_up.scheme
    far = math.hypot(*scheme.throw)
    told = any(
        s.check is not None and "rod level toward you" in s.check.what for s in worked.steps
    )
    rod = next(
        (
            f
            for f in part.features
            if isinstance(f, Hole) and not f.on_axis and abs(f.into[0]) < _ACROSS
        ),
        None,
    )
    row = rounds(part)
    if not told or rod is None or not row:
        return ()
    rim = (row[-1] if scheme.faces[0] > 0 else row[0]).diameter.nominal / 2
    bore = max((op.cut_size for op in worked.set_up.operations), default=0.0) / 2
    hour = hour_of_line(out=scheme.faces[0], throw=scheme.throw, rod=outward(rod))
    way = (math.sin(hour * math.pi / 6), -math.cos(hour * math.pi / 6))
    line = (way[0] * _SHOWN, way[1] * _SHOWN)
    small = max(2.0, bore * _RIM / rim)
    return (
        Disc(centre=(0.0, 0.0), radius=_RIM, style="silhouette"),
        Disc(centre=(0.0, 0.0), radius=_RIM, style="outline"),
        Disc(centre=line, radius=small, style="removed edge"),
        Path(lines=_cross((0.0, 0.0), 2.0), style="fine edge"),
        Path(lines=_cross(line, _RIM - 0.5), style="centre"),
        *_rod(shop_name(rod.name)),
        *_moved(way, f"work moved {plain(far, words.units, places=3)}"),
        *_least(way),
        Words(at=(_ASIDE, -_LINE), text="seen from the tailstock, rod", size=SMALL_TEXT),
        Words(at=(_ASIDE, 0.0), text="level toward you; drawn larger", size=SMALL_TEXT),
    )  # fmt: skip


def _cross(at: Point2, reach: Millimetre) -> tuple[tuple[Point2, ...], ...]:
    x, y = at
    return ((x - reach, y), (x + reach, y)), ((x, y - reach), (x, y + reach))


def _rod(name: str) -> tuple[Mark, ...]:
    left, right = -_RIM - _ROD, -0.6 * _RIM
    body = (
        (left, -_ROD_HALF), (right, -_ROD_HALF), (right, _ROD_HALF), (left, _ROD_HALF)
    )  # fmt: skip
    return (
        Path(lines=(body,), style="holding", closed=True),
        Words(
            at=(-_RIM - 2.0, -_ROD_HALF - 2.0),
            text=f"rod in {name}",
            size=SMALL_TEXT,
            anchor="end",
        ),
    )


def _moved(way: Point2, text: str) -> tuple[Mark, ...]:
    """Draw, right of the rim, which way the work goes: away from the side the line lies on."""
    goes = (-way[0], -way[1])
    middle = (_RIM + 7.0, -1.5 * _LINE)
    tail = (middle[0] - 4.0 * goes[0], middle[1] - 4.0 * goes[1])
    tip = (middle[0] + 4.0 * goes[0], middle[1] + 4.0 * goes[1])
    root = (tip[0] - _HEAD * goes[0], tip[1] - _HEAD * goes[1])
    side = (-goes[1] * _HEAD / 3, goes[0] * _HEAD / 3)
    head = (tip, (root[0] + side[0], root[1] + side[1]), (root[0] - side[0], root[1] - side[1]))
    return (
        Path(lines=((tail, root),), style="outline"),
        Path(lines=(head,), style="section arrow", closed=True),
        Words(at=(_ASIDE, -2.0 * _LINE), text=text, size=SMALL_TEXT),
    )


def _least(way: Point2) -> tuple[Mark, ...]:
    """Mark the place on the rim that is uppermost when a clock on top reads least."""
    spot = (way[0] * _RIM, way[1] * _RIM)
    out = (way[0] * (_RIM + 3.0), way[1] * (_RIM + 3.0))
    below = way[1] > _ACROSS
    beside = abs(way[0]) > abs(way[1])
    shift = 2.6 if below or beside else -1.0
    return (
        Disc(centre=spot, radius=0.9, style="leader dot"),
        Path(lines=((spot, out),), style="dimension"),
        Words(
            at=(out[0], out[1] + shift + (2.0 if beside else 0.0)),
            text="clock on top is least with this up", style="dimension words", size=SMALL_TEXT,
            anchor="middle",
        ),
    )  # fmt: skip


def with_end(drawn: tuple[Mark, ...], end: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Lay the end view under everything drawn."""
    room, box = box_of(drawn), box_of(end)
    left = max(room.left, room.middle[0] - box.width / 2)
    return (*drawn, *shifted(end, (left - box.left, room.bottom + 3.0 - box.top)))
