"""Small pictures: sawing, marking out, the way through."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from halfthou.drawing.geometry import Box
from halfthou.planning.model import SetUp
from halfthou.present.picture.bench import Line, Pop, Sawing, marking_sheet, sawing_sheet
from halfthou.present.picture.bench_set_up import bench_picture
from halfthou.present.picture.label import Label
from halfthou.present.picture.placing import clashes
from halfthou.present.picture.sheet import Words
from halfthou.present.picture.strip import Stage, strip_sheet
from halfthou.present.picture.wording import PictureWords
from halfthou.shapes.solids import solid_of, together

WORDS = PictureWords(title="bush, set-up 1", description="sawn")


def test_the_saw_stands_at_the_length_to_saw() -> None:
    sawing = Sawing(
        length=46.0,
        across=28.0,
        length_label=Label(main="saw 46", step=1),
        across_label=Label(main="Ø28"),
    )
    sheet = sawing_sheet(sawing, title="bush", description="sawn from bar")
    words = [mark.text for mark in sheet.marks if isinstance(mark, Words)]

    assert set(words) == {"1", "saw 46", "Ø28"}
    assert clashes(sheet) == ()


def test_a_face_is_marked_out_from_its_zero(t_slot_nut: Any) -> None:
    sheet = marking_sheet(
        t_slot_nut.after,
        side="front",
        lines=[Line(upright=False, at=11.0, zero=0.0, label=Label(main="11", step=1))],
        pops=[Pop(at=(12.5, 11.0), diameter=8.5, label=Label(main="centre-pop, Ø8.5", step=2))],
        zero=(0.0, 0.0),
        words=("T-slot nut", "marked out", "zero: corner"),
    )

    assert "scribed" in {mark.style for mark in sheet.marks}
    assert clashes(sheet) == ()


def test_the_way_through_frames_the_present_set_up_alone(turned_job: Any) -> None:
    stage = Stage(
        scheme=turned_job.worked.set_up.scheme, before=turned_job.before, after=turned_job.after
    )
    sheet = strip_sheet([stage, stage, stage], current=2, title="bush", description="three")
    framed = [mark.style for mark in sheet.marks if mark.style.startswith("frame")]

    assert framed == ["frame", "frame now", "frame"]
    assert clashes(sheet) == ()


def test_sawing_in_a_plan_shows_the_bar_and_the_length_to_saw(turned_job: Any) -> None:
    scheme = replace(turned_job.worked.set_up.scheme, machine="bench")
    saw = replace(
        turned_job.worked.set_up.operations[0], verb="saw", machine="bench", cut_size=46.5
    )
    worked = replace(
        turned_job.worked, set_up=SetUp(scheme=scheme, operations=(saw,)), wanted=(), zero=None
    )
    text = bench_picture(
        turned_job.part, worked, before=turned_job.before, after=turned_job.after, words=WORDS
    )

    assert ">saw 46.5<" in text
    assert ">Ø25<" in text


def test_other_bench_work_is_shown_shaded(turned_job: Any) -> None:
    worked = replace(
        turned_job.worked, set_up=SetUp(scheme=turned_job.worked.set_up.scheme, operations=())
    )
    text = bench_picture(
        turned_job.part, worked, before=turned_job.before, after=turned_job.after, words=WORDS
    )

    assert "data:image/png" in text


def test_a_saw_stands_only_beside_work_that_is_sawn(turned_job: Any) -> None:
    scheme = replace(turned_job.worked.set_up.scheme, machine="bench")
    stage = Stage(scheme=scheme, before=turned_job.after, after=turned_job.after)

    def styles(one: Stage) -> set[str]:
        sheet = strip_sheet([one], current=0, title="casting", description="marked out")
        return {mark.style for mark in sheet.marks}

    assert "tool" not in styles(stage)
    assert "tool" in styles(replace(stage, sawn=True))


def test_castings_that_still_overlap_are_filled_each_by_itself(turned_job: Any) -> None:
    scheme = replace(turned_job.worked.set_up.scheme, machine="bench")
    halves = together(
        [
            solid_of(Box(low=(0.0, 0.0, 0.0), high=(40.0, 22.0, 20.0))),
            solid_of(Box(low=(5.0, 18.0, 0.0), high=(35.0, 50.0, 20.0))),
        ]
    )
    stage = Stage(scheme=scheme, before=halves, after=halves)
    sheet = strip_sheet([stage], current=0, title="casting", description="marked out")

    assert "small metal" in {mark.style for mark in sheet.marks}
