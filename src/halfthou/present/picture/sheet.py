"""A drawing sheet in millimetres of paper, and its writing as SVG.

Paper x runs right and y runs **down**, from the top left corner. Marks are drawn in the order
they are given, so later ones lie on top. Colours stand in attributes, not in a style sheet, so a
picture keeps them under the strictest content policy; the class names let a page change them.
"""

from __future__ import annotations

import base64
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from html import escape
from itertools import chain, groupby
from typing import Final, Literal, TypeAlias

from halfthou.present.picture.ink import INKS, Style
from halfthou.present.picture.lettering import CAPITAL, DESCENT, FAMILY, Weight, width_of
from halfthou.shapes.flat import Point2, Polyline2
from halfthou.units import Millimetre

PREFERRED_SCALES: Final = (
    10.0,
    5.0,
    4.0,
    3.0,
    2.5,
    2.0,
    1.5,
    1.25,
    1.0,
    0.8,
    0.5,
    0.4,
    0.25,
    0.2,
    0.1,
)

TEXT: Final[Millimetre] = 3.5
SMALL_TEXT: Final[Millimetre] = 2.9
_HANGING: Final = frozenset("gjpqy(),;Q[]{}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An upright rectangle of paper."""

    left: Millimetre
    top: Millimetre
    right: Millimetre
    bottom: Millimetre

    @property
    def width(self) -> Millimetre:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> Millimetre:
        """From top to bottom."""
        return self.bottom - self.top

    @property
    def middle(self) -> Point2:
        """The centre."""
        return ((self.left + self.right) / 2, (self.top + self.bottom) / 2)

    def grown(self, by: Millimetre) -> Box:
        """Return the box with ``by`` more all round."""
        return Box(
            left=self.left - by, top=self.top - by, right=self.right + by, bottom=self.bottom + by
        )

    def meets(self, other: Box) -> bool:
        """Tell whether two boxes share any paper."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, other: Box) -> bool:
        """Tell whether the other box lies wholly in this one."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.top <= other.top
            and other.bottom <= self.bottom
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """One or more lines of one style; closed ones may be filled, an inner loop is a hole."""

    lines: tuple[Polyline2, ...]
    style: Style
    closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A circle."""

    centre: Point2
    radius: Millimetre
    style: Style


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A line of text. ``at`` lies on its foot line; ``turned`` text reads from the right."""

    at: Point2
    text: str
    style: Style = "words"
    size: Millimetre = TEXT
    anchor: Literal["start", "middle", "end"] = "start"
    turned: bool = False
    weight: Weight = "regular"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shade:
    """A painted picture laid on the sheet, as PNG."""

    png: bytes
    box: Box
    style: Style = "paper"


Mark: TypeAlias = Path | Disc | Words | Shade


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A picture: its size on paper, what it is called, what it shows in words, its marks.

    ``printed`` is how much of that size it is printed at, where it would not go in otherwise.
    """

    width: Millimetre
    height: Millimetre
    title: str
    description: str
    marks: tuple[Mark, ...]
    printed: float = 1.0


def box_of_words(words: Words) -> Box:
    """Return the paper a line of text covers."""
    along = width_of(words.text, size=words.size, weight=words.weight)
    back = {"start": 0.0, "middle": along / 2, "end": along}[words.anchor]
    up = CAPITAL * words.size
    down = DESCENT * words.size if _HANGING & set(words.text) else 0.02 * words.size
    x, y = words.at
    if words.turned:
        return Box(left=x - up, right=x + down, top=y + back - along, bottom=y + back)
    return Box(left=x - back, right=x - back + along, top=y - up, bottom=y + down)


def box_of(marks: Iterable[Mark]) -> Box:
    """Return the smallest rectangle around some marks; empty at the origin if there are none."""
    boxes = [_box_of_mark(mark) for mark in marks]
    if not boxes:
        return Box(left=0.0, top=0.0, right=0.0, bottom=0.0)
    return Box(
        left=min(b.left for b in boxes),
        top=min(b.top for b in boxes),
        right=max(b.right for b in boxes),
        bottom=max(b.bottom for b in boxes),
    )


def _box_of_mark(mark: Mark) -> Box:
    if isinstance(mark, Words):
        return box_of_words(mark)
    if isinstance(mark, Disc):
        (x, y), r = mark.centre, mark.radius
        return Box(left=x - r, top=y - r, right=x + r, bottom=y + r)
    if isinstance(mark, Shade):
        return mark.box
    xs, ys = zip(*chain.from_iterable(mark.lines), strict=True)
    return Box(left=min(xs), top=min(ys), right=max(xs), bottom=max(ys))


def shifted(marks: Iterable[Mark], by: Point2) -> tuple[Mark, ...]:
    """Return marks moved over the paper."""
    return tuple(_shifted(mark, by) for mark in marks)


def _shifted(mark: Mark, by: Point2) -> Mark:
    dx, dy = by
    if isinstance(mark, Path):
        moved = tuple(tuple((x + dx, y + dy) for x, y in line) for line in mark.lines)
        return replace(mark, lines=moved)
    if isinstance(mark, Disc):
        return replace(mark, centre=(mark.centre[0] + dx, mark.centre[1] + dy))
    if isinstance(mark, Shade):
        box = mark.box
        moved_box = Box(
            left=box.left + dx, top=box.top + dy, right=box.right + dx, bottom=box.bottom + dy
        )
        return replace(mark, box=moved_box)
    return replace(mark, at=(mark.at[0] + dx, mark.at[1] + dy))


def preferred_scale(*, size: Point2, room: Point2) -> float:
    """Choose the largest preferred scale at which ``size`` goes into ``room``.

    >>> preferred_scale(size=(24.0, 24.0), room=(80.0, 60.0))
    2.5
    """
    most = min(r / s if s > 0 else math.inf for r, s in zip(room, size, strict=True))
    for scale in PREFERRED_SCALES:
        if scale <= most:
            return scale
    return most


def scale_words(scale: float) -> str:
    """Write a scale as drawings do.

    >>> scale_words(2.5), scale_words(0.5)
    ('2.5:1', '1:2')
    """
    return f"{scale:g}:1" if scale >= 1 else f"1:{1 / scale:.3g}"


def svg(sheet: Sheet) -> str:
    """Write a sheet as one self-contained SVG picture at its real size."""
    width, height = _figure(sheet.width), _figure(sheet.height)
    across, down = (_figure(one * sheet.printed) for one in (sheet.width, sheet.height))
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}mm" height="{down}mm" '
            f'viewBox="0 0 {width} {height}" role="img" aria-label="{escape(sheet.title)}">'
        ),
        f"<title>{escape(sheet.title)}</title>",
        f"<desc>{escape(sheet.description)}</desc>",
    ]
    for style, group in groupby(sheet.marks, key=lambda mark: mark.style):
        parts.append(_opening(style) + "".join(map(_element, group)) + "</g>")
    parts.append("</svg>")
    return "\n".join(parts) + "\n"


def _figure(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"", "-0"} else text


def _opening(style: Style) -> str:
    ink = INKS[style]
    name = style.replace(" ", "-")
    attributes = [f'class="{name}"', f'fill="{ink.fill}"']
    if ink.width:
        attributes += [f'stroke="{ink.stroke}"', f'stroke-width="{_figure(ink.width)}"']
    if ink.dash:
        dash = " ".join(map(_figure, ink.dash))
        attributes.append(f'stroke-dasharray="{dash}"')
    if ink.round_ends:
        attributes.append('stroke-linecap="round" stroke-linejoin="round"')
    if ink.fill != "none" and ink.width == 0:
        attributes.append('stroke="none"')
    return f"<g {' '.join(attributes)}>"


def _element(mark: Mark) -> str:
    if isinstance(mark, Path):
        path = "".join(_path(line, closed=mark.closed) for line in mark.lines)
        return f'<path fill-rule="evenodd" d="{path}"/>'
    if isinstance(mark, Disc):
        x, y = map(_figure, mark.centre)
        return f'<circle cx="{x}" cy="{y}" r="{_figure(mark.radius)}"/>'
    if isinstance(mark, Shade):
        return _image(mark)
    return _text(mark)


def _image(shade: Shade) -> str:
    box = shade.box
    x, y, width, height = map(_figure, (box.left, box.top, box.width, box.height))
    data = base64.b64encode(shade.png).decode("ascii")
    return (
        f'<image x="{x}" y="{y}" width="{width}" height="{height}" '
        f'preserveAspectRatio="none" href="data:image/png;base64,{data}"/>'
    )


def _path(line: Sequence[Point2], *, closed: bool) -> str:
    first, *rest = [f"{_figure(x)} {_figure(y)}" for x, y in line]
    return f"M{first}" + "".join(f"L{point}" for point in rest) + ("Z" if closed else "")


def _text(words: Words) -> str:
    x, y = map(_figure, words.at)
    weight = ' font-weight="500"' if words.weight == "medium" else ""
    anchor = "" if words.anchor == "start" else f' text-anchor="{words.anchor}"'
    turn = f' transform="rotate(-90 {x} {y})"' if words.turned else ""
    return (
        f'<text x="{x}" y="{y}" font-family="{FAMILY}" font-size="{_figure(words.size)}"'
        f"{weight}{anchor}{turn}>{escape(words.text)}</text>"
    )
