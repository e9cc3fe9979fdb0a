"""Pictures of lathe set-ups."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from xml.etree import ElementTree as ET

import pytest

from halfthou.present.picture.placing import clashes
from halfthou.present.picture.sheet import Disc, Path, Sheet, Words, box_of
from halfthou.present.picture.turned import turned_picture, turned_sheet
from halfthou.present.picture.wording import PictureWords

WORDS = PictureWords(title="bush, set-up 1", description="bored", zero="zero: finished face")
ROOM = (180.0, 110.0)


def drawn(job: Any) -> Sheet:
    return turned_sheet(
        job.part, job.worked, before=job.before, after=job.after, words=WORDS, room=ROOM
    )


def texts(sheet: Sheet) -> list[str]:
    return [mark.text for mark in sheet.marks if isinstance(mark, Words)]


def test_no_text_meets_a_line_or_another_text(turned_job: Any) -> None:
    assert clashes(drawn(turned_job)) == ()


def test_the_picture_stays_in_its_room(turned_job: Any) -> None:
    sheet = drawn(turned_job)

    assert sheet.width <= ROOM[0]
    assert sheet.height <= ROOM[1]


def test_every_final_size_is_tied_to_its_step(turned_job: Any) -> None:
    sheet = drawn(turned_job)
    final = [want for want in turned_job.worked.wanted if want.band is not None]
    rings = [mark for mark in sheet.marks if isinstance(mark, Disc) and mark.style == "balloon"]

    assert {str(want.step) for want in final} <= set(texts(sheet))
    assert len(rings) >= len(final)


def test_metal_that_comes_off_is_hatched_and_lies_under_what_stays(turned_job: Any) -> None:
    styles = [mark.style for mark in drawn(turned_job).marks]

    assert "removed hatch" in styles
    assert styles.index("removed hatch") < styles.index("outline")


def test_the_zero_is_named(turned_job: Any) -> None:
    assert "zero: finished face" in texts(drawn(turned_job))


def test_the_picture_is_well_formed_svg(turned_job: Any) -> None:
    job = turned_job
    text = turned_picture(
        job.part, job.worked, before=job.before, after=job.after, words=WORDS, room=ROOM
    )

    assert ET.fromstring(text).tag.endswith("svg")  # noqa: S314


def test_the_chuck_stands_left_whichever_end_of_the_part_looks_at_the_tailstock(
    turned_job: Any,
) -> None:
    worked = turned_job.worked
    scheme = replace(
        worked.set_up.scheme,
        faces=(-1.0, 0.0, 0.0),
        grip_low=14.0,
        grip_high=20.0,
        centre=False,
    )
    worked = replace(worked, set_up=replace(worked.set_up, scheme=scheme, operations=()))
    sheet = drawn(replace(turned_job, worked=worked))
    holding = box_of([mark for mark in sheet.marks if mark.style == "holding"])
    work = box_of([mark for mark in sheet.marks if mark.style == "outline"])

    assert holding.left < work.left
    assert holding.middle[0] < work.middle[0]


@pytest.mark.parametrize("style", ["tool", "holding", "zero", "centre"])
def test_tool_holding_zero_and_axis_are_shown(turned_job: Any, style: str) -> None:
    marks = [mark for mark in drawn(turned_job).marks if mark.style == style]

    assert any(isinstance(mark, Path) for mark in marks)
