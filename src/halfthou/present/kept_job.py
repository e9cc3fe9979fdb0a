"""A kept plan worked out: its part, its numbers, its pictures, as they were when it was made."""

from __future__ import annotations

from pathlib import PurePath
from typing import Final

from halfthou.drawing.solve import solve
from halfthou.planning.fixed_pieces import seen_in
from halfthou.planning.metal import held_stages
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working.whole import work_out
from halfthou.present.card_view import Pictures
from halfthou.present.numbers import Units, one_of
from halfthou.present.picture.bench_set_up import bench_picture
from halfthou.present.picture.drawing import part_drawing
from halfthou.present.picture.milled import milled_picture
from halfthou.present.picture.strip import Stage, small_pictures
from halfthou.present.picture.turned import CARD_ROOM, turned_picture
from halfthou.present.picture.wording import PictureWords
from halfthou.present.set_up_card import Job
from halfthou.present.words_plan import way_words
from halfthou.shapes.finished import finished
from halfthou.shapes.flat import Point2
from halfthou.shapes.solids import Solid, bounding_box
from halfthou.store.part_file import read_part_text
from halfthou.store.plan_file import KeptPlan
from halfthou.store.project_order import with_mates

_ACROSS: Final[Point2] = (180.0, 84.0)
"""Room for a picture across an A4 card. [mm]"""
_AT_THE_BENCH: Final[Point2] = (70.0, 38.0)
"""Room for a picture beside the steps of bench work. [mm]"""
_LONG: Final = 2.5
"""Length over width from which work is drawn across the card."""
_PICTURE: Final = {"lathe": turned_picture, "mill": milled_picture, "bench": bench_picture}


def job_of(kept: KeptPlan, *, units: Units = "mm") -> Job:
    """Work a kept plan out."""
    drawn = solve(read_part_text(kept.part_text, name=PurePath(kept.part_file).name))
    part = with_mates(drawn, kept.mates)
    worked = work_out(kept.plan, part, kept.workshop)
    return Job(part=part, plan=kept.plan, worked=worked, workshop=kept.workshop, units=units)


def pictures_of(job: Job) -> Pictures:
    """Draw every picture of a job."""
    way: list[Stage] = []
    set_ups: list[str] = []
    for one, metal in zip(job.worked.set_ups, held_stages(job.part, job.plan), strict=True):
        before, after = metal.before, metal.after
        sawn = any(op.verb == "saw" for op in one.set_up.operations)
        way.append(Stage(scheme=one.set_up.scheme, before=before, after=after, sawn=sawn))
        set_ups.append(_set_up(job, one, before, after))
    drawing = part_drawing(job.part, finished(job.part))
    titles = [f"set-up {one.number}: {way_words(one.set_up)}" for one in job.worked.set_ups]
    small = small_pictures(way, titles=titles)
    return Pictures(part=drawing, way=small, set_ups=tuple(set_ups))


def _set_up(job: Job, one: WorkedSetUp, before: Solid, after: Solid) -> str:
    draw = _PICTURE[one.set_up.scheme.machine]
    words = PictureWords(
        title=f"{job.part.name}: set-up {one.number} of {one.of}",
        description=way_words(one.set_up),
        zero=_zero_words(one),
        units=one_of(job.units),
    )
    room = _ACROSS if _is_long(before) else CARD_ROOM
    if one.set_up.scheme.machine == "bench":
        room = _AT_THE_BENCH
    seen = seen_in(job.part, one.set_up.scheme)
    return draw(seen, one, before=before, after=after, words=words, room=room)


def _is_long(work: Solid) -> bool:
    """Tell whether work is so long that its picture goes across the whole sheet."""
    size = bounding_box(work).size
    return max(size) > _LONG * sorted(size)[1]


def _zero_words(one: WorkedSetUp) -> str:
    """Say what the zero is set on, as far as the picture shows it: the face, or the corner."""
    if one.zero is None:
        return "zero"
    along = "x" if one.set_up.scheme.machine == "lathe" else "xy"
    names = [found[1] for found in one.zero.pick_up if found[0] in along and found[1]]
    said = " and ".join(dict.fromkeys(name.replace("-", " ") for name in names))
    return f"zero: {said}" if said else "zero"
