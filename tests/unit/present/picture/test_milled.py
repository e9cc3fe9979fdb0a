"""Pictures of set-ups on the mill."""

from __future__ import annotations

from typing import Any

from halfthou.present.picture.milled import milled_picture, milled_sheet
from halfthou.present.picture.placing import clashes
from halfthou.present.picture.sheet import Path, Shade, Sheet, Words
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
