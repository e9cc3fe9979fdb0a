"""The picture of bench work in a plan: the saw at its length, or the work as it is now, shaded."""

from __future__ import annotations

from halfthou.drawing.model import Part
from halfthou.planning.model import Operation
from halfthou.planning.worked import Step, WorkedSetUp
from halfthou.present.figures import length
from halfthou.present.picture.bench import Sawing, sawing_picture
from halfthou.present.picture.came_off import came_off
from halfthou.present.picture.fitting import trimmed
from halfthou.present.picture.label import Label
from halfthou.present.picture.seated import METAL, REMOVED, seated_marks
from halfthou.present.picture.sheet import svg
from halfthou.present.picture.turned import CARD_ROOM
from halfthou.present.picture.wording import PictureWords, ruled
from halfthou.shapes.flat import Point2
from halfthou.shapes.pictorial import Shown, pictorial
from halfthou.shapes.solids import Solid, is_empty
from halfthou.units import Millimetre

_HIGHEST: Millimetre = 50.0
_SHADED: Millimetre = 70.0
_ROUND = frozenset(("round bar", "hexagon bar"))


def bench_picture(
    part: Part,
    worked: WorkedSetUp,
    *,
    before: Solid,
    after: Solid,
    words: PictureWords,
    room: Point2 = CARD_ROOM,
) -> str:
    """Draw bench work as SVG: sawing with its length, anything else as a shaded view."""
    saw = next((one for one in worked.set_up.operations if one.verb == "saw"), None)
    if saw is None or saw.cut_size <= 0:
        return _shaded(before, after, words, room)
    sawing = _sawing(part, saw, worked, words)
    return sawing_picture(
        sawing,
        title=words.title,
        description=words.description,
        room=(room[0], min(room[1], _HIGHEST)),
    )


def _sawing(part: Part, saw: Operation, worked: WorkedSetUp, words: PictureWords) -> Sawing:
    step = next((one for one in worked.steps if saw in one.operations), None)
    blank = part.blank
    across = blank.across or blank.size[1]
    sign = "Ø" if blank.form == "round bar" else ""
    return Sawing(
        length=saw.cut_size,
        across=across,
        length_label=Label(
            main=f"saw {_sawn(step, saw.cut_size, words)}", step=step.number if step else 0
        ),
        across_label=Label(main=sign + length(across, words.units), passing=True),
        round_bar=blank.form in _ROUND,
    )


def _sawn(step: Step | None, size: Millimetre, words: PictureWords) -> str:
    """Say what to saw: from the least to the most, where the step tells them."""
    measures = step.measures if step is not None else ()
    own = next((m for m in measures if m.kind == "length" and m.high > m.low), None)
    if own is None:
        return ruled(size, words.units)
    return f"{ruled(own.low, words.units)} to {ruled(own.high, words.units)}"


def _shaded(before: Solid, after: Solid, words: PictureWords, room: Point2) -> str:
    off = came_off(before, after)
    shown = [Shown(solid=after, colour=METAL)]
    if not is_empty(off):
        shown.append(Shown(solid=off, colour=REMOVED, removed=True))
    made = pictorial(shown, width=460, height=340)
    marks = seated_marks(made, wide=min(_SHADED, room[0] - 4.0))
    return svg(trimmed(marks, title=words.title, description=words.description))
