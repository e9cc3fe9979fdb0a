"""The end view of thrown work: the rod toward the person, where it is least, the way over."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.planning.make_plan import make_plan
from halfthou.planning.worked import Worked
from halfthou.planning.working.whole import work_out
from halfthou.present.picture.sheet import Disc, Words
from halfthou.present.picture.thrown_end import thrown_end
from halfthou.present.picture.wording import PictureWords
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop

DATA = Path(__file__).parents[3] / "data" / "drawings" / "depthing-bush.toml"
WORDS = PictureWords(title="set-up 5", description="", units="mm")


@cache
def bush() -> tuple[Part, Worked]:
    part, shop = solve(read_part_text(DATA.read_text("utf-8"), name=DATA.name)), default_workshop()
    return part, work_out(make_plan(part, shop), part, shop)


@pytest.mark.derived(by="left end out, the rod toward the person: the bore lies under the middle")
def test_the_bore_is_drawn_below_the_middle_and_least_is_marked_at_the_bottom() -> None:
    part, worked = bush()
    marks = thrown_end(part, worked.set_ups[-1], WORDS)
    bore = next(m for m in marks if isinstance(m, Disc) and m.style == "removed edge")
    least = next(m for m in marks if isinstance(m, Disc) and m.style == "leader dot")
    said = [m.text for m in marks if isinstance(m, Words)]

    assert bore.centre[0] == pytest.approx(0.0, abs=1e-6)
    assert bore.centre[1] > 0 < least.centre[1]
    assert {"rod in grub", "work moved 0.8", "clock on top is least with this up"} <= set(said)


def test_work_that_is_not_thrown_has_no_such_view() -> None:
    part, worked = bush()

    assert not thrown_end(part, worked.set_ups[1], WORDS)
