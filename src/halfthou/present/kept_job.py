"""A kept plan worked out: its part, its numbers, its pictures, as they were when it was made."""

from __future__ import annotations

from pathlib import PurePath

from halfthou.drawing.solve import solve
from halfthou.planning.working import work_out
from halfthou.present.card_view import Pictures
from halfthou.present.numbers import Units
from halfthou.present.set_up_card import Job
from halfthou.store.part_file import read_part_text
from halfthou.store.plan_file import KeptPlan


def job_of(kept: KeptPlan, *, units: Units = "mm") -> Job:
    """Work a kept plan out."""
    part = solve(read_part_text(kept.part_text, name=PurePath(kept.part_file).name))
    worked = work_out(kept.plan, part, kept.workshop)
    return Job(part=part, plan=kept.plan, worked=worked, workshop=kept.workshop, units=units)


def pictures_of(job: Job) -> Pictures:
    """Draw every picture of a job."""
    raise NotImplementedError
