"""Pictures of set-ups on the mill."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from halfthou.planning.worked import Measure, Step
from halfthou.present.picture.faces_cut import heights_cut, widths_cut
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.mill_axes import box_on_mill, mill_axes
from halfthou.present.picture.mill_view import mill_view
from halfthou.present.picture.milled import milled_picture, milled_sheet
from halfthou.present.picture.placing import clashes
from halfthou.present.picture.sheet import Box, Path, Shade, Sheet, Words, svg
from halfthou.present.picture.wording import PictureWords

WORDS = PictureWords(title="T-slot nut, set-up 1", description="milled", zero="zero: corner")
ROOM = (165.0, 115.0)


def drawn(job: Any) -> Sheet:
    return milled_sheet(
        job.part, job.worked, before=job.before, after=job.after, words=WORDS, room=ROOM
    )


def test_a_milling_set_up_is_drawn_without_a_clash_and_in_its_room(milled_job: Any) -> None:
    sheet = drawn(milled_job)

    assert clashes(sheet) == ()
    assert sheet.width <= ROOM[0]
    assert sheet.height <= ROOM[1]


def test_it_shows_plan_cut_open_view_and_a_shaded_one(milled_job: Any) -> None:
    sheet = drawn(milled_job)
    texts = [mark.text for mark in sheet.marks if isinstance(mark, Words)]

    assert texts.count("A") == 2 + (milled_job.part.name == "barrel end")
    assert "A–A" in texts
    assert len([mark for mark in sheet.marks if isinstance(mark, Shade)]) == 1


def test_holes_on_a_circle_are_lettered_and_their_number_given(hole_circle: Any) -> None:
    texts = [mark.text for mark in drawn(hole_circle).marks if isinstance(mark, Words)]

    assert "6 × Ø5.5" in texts
    assert set("ABCDEF") <= set(texts)


def test_jaws_and_parallels_are_shown_and_named(t_slot_nut: Any) -> None:
    sheet = drawn(t_slot_nut)
    pale = [m for m in sheet.marks if isinstance(m, Path) and m.style == "holding"]
    texts = [mark.text for mark in sheet.marks if isinstance(mark, Words)]

    assert len(pale) >= 4 + 2
    assert any(text.startswith("parallels ") and text.endswith(" high") for text in texts)


def test_the_same_set_up_is_drawn_to_the_same_bytes(t_slot_nut: Any) -> None:
    job = t_slot_nut
    once, again = (
        milled_picture(job.part, job.worked, before=job.before, after=job.after, words=WORDS)
        for _ in range(2)
    )

    assert once == again


def test_a_crowded_picture_is_reduced_a_little_at_most_and_goes_into_its_room(
    milled_job: Any,
) -> None:
    job = milled_job
    sheet = milled_sheet(job.part, job.worked, before=job.before, after=job.after, words=WORDS)
    wide, high = sheet.width * sheet.printed, sheet.height * sheet.printed

    assert 0.8 < sheet.printed <= 1.0
    assert wide <= 118.0 + 0.1 or (wide <= 178.0 + 0.1 and high <= 98.0 + 0.1)


def test_a_reduced_picture_says_its_printed_size_and_keeps_its_own_figures(
    t_slot_nut: Any,
) -> None:
    sheet = replace(drawn(t_slot_nut), width=100.0, height=80.0, printed=0.9)
    opening = svg(sheet).partition(">")[0]

    assert 'width="90mm" height="72mm"' in opening
    assert 'viewBox="0 0 100 80"' in opening


def test_an_edge_cut_to_a_size_of_the_plan_shows_it_in_plan(t_slot_nut: Any) -> None:
    job = t_slot_nut
    view = mill_view(
        before=job.before,
        after=job.after,
        scheme=job.worked.set_up.scheme,
        axes=mill_axes(job.worked.set_up.scheme),
        main=None,
    )
    frame = Frame(at=(0.0, 0.0), scale=1.0)
    low, high = view.work.low, view.work.high
    room = box_on_mill(
        (high[0], low[1] - 1.0, low[2] - 1.0), (high[0] + 5.0, high[1] + 1.0, high[2]), view.axes
    )
    face = replace(job.worked.set_up.operations[0], verb="mill face", region=(room,))
    measure = Measure(
        surface="right", gauge="caliper", aim=17.0, low=17.0, high=17.0, doubt=0.0, kind="length",
        decides=False, band=None, to_make=False, good=None, when="now", where="", tick=False,
    )  # fmt: skip
    plain: dict[str, Any] = {
        **dict.fromkeys(("tool_out", "speed", "feed", "aim", "band", "check")),
        **dict.fromkeys(("passes", "moves", "places", "lock", "remarks", "cautions"), ()),
    }
    step = Step(
        number=1,
        operations=(face,),
        tool="end mill 16 mm",
        measures=(measure,),
        fluid="dry",
        minutes=3.0,
        **plain,
    )
    worked = replace(job.worked, steps=(step,), wanted=())
    work = Box(left=-40.0, right=40.0, top=-40.0, bottom=40.0)
    wide = widths_cut(worked, view, frame, work=work, units="mm")

    assert len(wide) == 1
    assert "17" in {mark.text for mark in wide[0][0].marks if isinstance(mark, Words)}
    assert heights_cut(worked, view, frame, work=work, units="mm") == []
