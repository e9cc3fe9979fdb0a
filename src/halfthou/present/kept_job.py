"""A kept plan worked out: its part, its numbers, its pictures, as they were when it was made."""

from __future__ import annotations

from pathlib import PurePath
from typing import Final

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working import work_out
from halfthou.present.card_view import Pictures
from halfthou.present.numbers import Units
from halfthou.present.picture.drawing import part_drawing
from halfthou.present.picture.milled import milled_picture
from halfthou.present.picture.strip import Stage, strip_picture
from halfthou.present.picture.turned import turned_picture
from halfthou.present.picture.wording import PictureWords
from halfthou.present.set_up_card import Job
from halfthou.present.words_plan import way_words
from halfthou.shapes.solids import Solid, cut, solid_of
from halfthou.store.part_file import read_part_text
from halfthou.store.plan_file import KeptPlan

_PICTURE: Final = {"lathe": turned_picture, "mill": milled_picture}


def job_of(kept: KeptPlan, *, units: Units = "mm") -> Job:
    """Work a kept plan out."""
    part = solve(read_part_text(kept.part_text, name=PurePath(kept.part_file).name))
    worked = work_out(kept.plan, part, kept.workshop)
    return Job(part=part, plan=kept.plan, worked=worked, workshop=kept.workshop, units=units)


def finished(part: Part) -> Solid:
    """Make the part as drawn."""
    return cut(solid_of(part.metal), [solid_of(one) for one in part.removed])


def pictures_of(job: Job) -> Pictures:
    """Draw every picture of a job."""
    stock = solid_of(job.plan.blank)
    way: list[str] = []
    set_ups: list[str] = []
    for one in job.worked.set_ups:
        before = cut(stock, [solid_of(region) for region in one.before])
        after = cut(before, [solid_of(region) for region in one.off])
        way.append(_small(one, before, after))
        set_ups.append(_set_up(job.part, one, before, after))
    drawing = part_drawing(job.part, finished(job.part))
    return Pictures(part=drawing, way=tuple(way), set_ups=tuple(set_ups))


def _small(one: WorkedSetUp, before: Solid, after: Solid) -> str:
    stage = Stage(scheme=one.set_up.scheme, before=before, after=after)
    words = way_words(one.set_up)
    return strip_picture([stage], current=0, title=f"set-up {one.number}", description=words)


def _set_up(part: Part, one: WorkedSetUp, before: Solid, after: Solid) -> str:
    draw = _PICTURE.get(one.set_up.scheme.machine)
    if draw is None:
        return ""
    words = PictureWords(
        title=f"{part.name}: set-up {one.number} of {one.of}",
        description=way_words(one.set_up),
    )
    return draw(part, one, before=before, after=after, words=words)
