"""The phrases of a part file: where a thing is, what must hold, how often it is repeated."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from halfthou.drawing.frame import AXIS_OF, DIRECTIONS, SIDES, WORDS
from halfthou.drawing.model import Side
from halfthou.errors import InputFault
from halfthou.quantities import DrawingUnits, Size, parse_angle, parse_length, parse_size
from halfthou.units import Millimetre, Radian

AT_FORMS: Final = (
    "12 right of left",
    "bottom: 40 above foot bottom",
    "level with bore",
    "centred on plate left to right",
    "60 centres right of hub",
)
PlaceKind: TypeAlias = Literal["distance", "centres", "level", "centred", "off", "angle", "facing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """A surface by its words: a feature, a side of it, or a side of the part."""

    feature: str
    side: Side | None
    more: str = ""

    @property
    def text(self) -> str:
        """The words as they are written."""
        return " ".join(word for word in (self.feature, self.side or "", self.more) if word)


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One phrase of ``at``."""

    text: str
    kind: PlaceKind
    own: Side | None
    to: Reference
    size: Size | None = None
    axis: int | None = None
    sign: float = 1.0
    angle: Radian | None = None
    view: str = ""


_SIDE: Final = "|".join(SIDES)
_WORD: Final = "|".join(WORDS)
_DIR: Final = "|".join(DIRECTIONS)
_OWN: Final = re.compile(rf"({_SIDE})\s*:\s*(.+)")
_CENTRES: Final = re.compile(rf"(.+?)\s+centres\s+({_WORD})\s+(.+)")
_DISTANCE: Final = re.compile(rf"(.+?)\s+({_WORD})\s+(.+)")
_LEVEL: Final = re.compile(rf"level with\s+(.+?)(?:\s+({_DIR}))?")
_CENTRED: Final = re.compile(rf"cent(?:red|ered)(?:\s+on\s+(.+?))?(?:\s+({_DIR}))?")
_OFF: Final = re.compile(r"(.+?)\s+off\s+(.+)")
_ANGLE: Final = re.compile(r"(.+?)\s+from\s+(.+)")


def parse_reference(text: str) -> Reference:
    """Read ``plate top``, ``bore`` or ``left``."""
    words = text.split()
    more = ""
    if words and (words[-1] == "outside" or (words[-1] == "floor" and len(words) > 1)):
        more = words.pop()
    side = next((name for name in SIDES if words and words[-1] == name), None)
    if side:
        words.pop()
    return Reference(feature=" ".join(words), side=side, more=more)


def parse_place(text: str, *, units: DrawingUnits) -> Place:
    """Read one phrase of ``at``.

    >>> parse_place("bottom: 40 above foot", units="mm").own
    'bottom'
    """
    body = " ".join(text.split())
    own: Side | None = None
    if found := _OWN.fullmatch(body):
        own = next(side for side in SIDES if side == found[1])
        body = found[2]
    body, _, view = body.partition(" in view ")
    place = _relation(body, own, text) or _measured(body, own, text, units)
    if place is None:
        raise _not_a_place(text)
    if view and (place.axis is None or own or place.to.side):
        raise InputFault(
            f"'{text}' does not place an axis from another axis",
            why="in a turned view, distances run between axes, one direction at a time",
            tries=("write it like 42 above hub in view A",
                   "like level with hub left to right in view A"),
        )  # fmt: skip
    return replace(place, view=view.strip())


def _relation(body: str, own: Side | None, text: str) -> Place | None:
    side = next((name for name in SIDES if name == body), None)
    if side:
        return Place(text=text, kind="facing", own=own, to=Reference(feature="", side=side))
    for kind, form in (("level", _LEVEL), ("centred", _CENTRED)):
        if found := form.fullmatch(body):
            axis = DIRECTIONS[found[2]] if found[2] else AXIS_OF[own] if own else None
            return Place(
                text=text,
                kind="level" if kind == "level" else "centred",
                own=own,
                to=parse_reference(found[1] or ""),
                axis=axis,
            )
    return None


def _measured(body: str, own: Side | None, text: str, units: DrawingUnits) -> Place | None:
    for kind, form in (("centres", _CENTRES), ("distance", _DISTANCE)):
        if found := form.fullmatch(body):
            axis, sign = WORDS[found[2]]
            if own and AXIS_OF[own] != axis:
                raise InputFault(
                    f"'{text}' places its {own} {found[2]} something",
                    why=f"{own} moves {_line(AXIS_OF[own])}, '{found[2]}' measures {_line(axis)}",
                    tries=(f"leave out '{own}:'",),
                )
            return Place(
                text=text,
                kind="centres" if kind == "centres" else "distance",
                own=own,
                to=parse_reference(found[3]),
                size=parse_size(found[1], units=units),
                axis=axis,
                sign=sign,
            )
    if found := _OFF.fullmatch(body):
        size = parse_size(found[1], units=units)
        return Place(text=text, kind="off", own=own, to=parse_reference(found[2]), size=size)
    if found := _ANGLE.fullmatch(body):
        angle = parse_angle(found[1]).value
        return Place(text=text, kind="angle", own=own, to=parse_reference(found[2]), angle=angle)
    return None


def _line(axis: int) -> str:
    return next(name for name, number in DIRECTIONS.items() if number == axis)


def _not_a_place(text: str) -> InputFault:
    why = ""
    if re.fullmatch(r"[\d./ ]+(mm|in|\")?", text.strip()):
        why = "it does not say from which surface, or to which side"
    return InputFault(
        f"'{text}' cannot be read as a place", why=why, tries=(f"write it like {AT_FORMS[0]}",
        f"like {AT_FORMS[1]}", f"like {AT_FORMS[3]}"),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Copies:
    """A feature repeated: in a row along an axis, or on a circle."""

    text: str
    count: int
    pitch: Size | None = None
    axis: int | None = None
    circle: Size | None = None
    first: Side | None = None
    turned: Radian = 0.0


_ROW: Final = re.compile(rf"(\d+)\s+at\s+(.+?)\s+({_DIR})")
_CIRCLE: Final = re.compile(
    rf"(\d+)\s+on\s+(?:a\s+)?(.+?)\s+(?:circle|PCD)"
    rf"(?:\s*,?\s*first\s+at\s+(?:(.+?)\s+from\s+)?({_SIDE}))?"
)
COPIES_FORMS: Final = ("2 at 40 bottom to top", "6 on 56 circle, first at top")


def parse_copies(text: str, *, units: DrawingUnits) -> Copies:
    """Read a pattern.

    >>> parse_copies("6 on 56 circle, first at top", units="mm").count
    6
    """
    body = " ".join(text.split())
    if found := _ROW.fullmatch(body):
        pitch = parse_size(found[2], units=units)
        return _several(
            Copies(text=text, count=int(found[1]), pitch=pitch, axis=DIRECTIONS[found[3]])
        )
    if found := _CIRCLE.fullmatch(body):
        return _several(
            Copies(
                text=text,
                count=int(found[1]),
                circle=parse_size(found[2], units=units),
                first=next((side for side in SIDES if side == found[4]), None),
                turned=parse_angle(found[3]).value if found[3] else 0.0,
            )
        )
    raise InputFault(
        f"'{text}' cannot be read as a pattern",
        tries=tuple(f"write it like {form}" for form in COPIES_FORMS),
    )


def _several(copies: Copies) -> Copies:
    if copies.count < 2:  # noqa: PLR2004
        raise InputFault(
            f"'{copies.text}' repeats nothing",
            why="a pattern counts all its members, the first one too",
            tries=("leave copies out",),
        )
    return copies


MustKind: TypeAlias = Literal[
    "run-out", "parallel", "square", "position", "concentric", "symmetrical", "wall", "distance"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Must:
    """One stated requirement."""

    text: str
    kind: MustKind
    own: str
    to: Reference
    within: Millimetre
    axis: int | None = None


_MUSTS: Final[tuple[tuple[str, MustKind], ...]] = (
    ("parallel to", "parallel"),
    ("square to", "square"),
    ("run-out to", "run-out"),
    ("runout to", "run-out"),
    ("in position to", "position"),
    ("concentric to", "concentric"),
    ("concentric with", "concentric"),
    ("centred on", "symmetrical"),
    ("symmetrical to", "symmetrical"),
    ("wall to", "wall"),
    ("level with", "distance"),
)
_MUST: Final = re.compile(
    rf"(?:(.+?)\s*:\s*)?({'|'.join(words for words, _ in _MUSTS)})\s+(.+?)"
    rf"(?:\s+({_DIR}))?\s+within\s+(.+)"
)


def parse_must(text: str, *, units: DrawingUnits) -> Must:
    """Read one requirement.

    >>> parse_must("front: square to bore within 0.05", units="mm").kind
    'square'
    """
    found = _MUST.fullmatch(" ".join(text.split()))
    if found is None:
        why = "" if " within " in text else "it does not say within how much"
        raise InputFault(
            f"'{text}' cannot be read as a requirement",
            why=why,
            tries=(
                "write it like run-out to journal within 0.02",
                "like front: square to bore within 0.05",
            ),
        )
    return Must(
        text=text,
        kind=dict(_MUSTS)[found[2]],
        own=found[1] or "",
        to=parse_reference(found[3]),
        within=parse_length(found[5], units=units).value,
        axis=DIRECTIONS[found[4]] if found[4] else None,
    )
