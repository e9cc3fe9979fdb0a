"""The cover's kit names everything the cards use: the hand never reaches for what is not there."""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from typing import Final

import pytest

from halfthou.planning.make_plan import make_plan
from halfthou.planning.working.whole import work_out
from halfthou.present.card_view import Pictures
from halfthou.present.set_up_card import Job, set_up_view
from halfthou.present.words_kit import cutting_kit, gauge_kit, holding_kit
from halfthou.present.words_kit_said import named_in
from halfthou.store.part_file import read_part
from halfthou.workshop.default import default_workshop

PARTS: Final = sorted(
    [
        *(Path(__file__).parents[2] / "data" / "parts").glob("*.toml"),
        *(
            path
            for path in (Path(__file__).parents[3] / "src" / "halfthou" / "demo").glob("*.toml")
            if path.stem not in ("project", "workshop")
        ),
    ]
)
NO_PICTURES: Final = Pictures(part="", way=(), set_ups=())
NOUNS: Final = {
    r"(?<!nothing to )\bclock\b(?! it true)": "clock",
    r"\bfeeler\b": "feeler",
    r"soft copper": "soft copper",
    r"\bround bar about": "round bar",
    r"\bon (?:two |one |clean |short )*parallels?\b": "parallel",
    r"\bpacking\b": "packing",
    r"\btap(?:ped)? (?:it|back|the bar)|\bknock the work": "soft hammer",
    r"\brule\b": "rule",
    r"\bcaliper\b": "caliper",
    r"\bmicrometer\b": "micrometer",
    r"\btelescopic": "telescopic",
    r"\bedge finder\b": "edge finder",
    r"\bscrib": "scriber",
    r"centre-pop|\bpops?\b": "centre punch",
    r"mark the (?:work|halves)|\bfelt pen\b": "felt pen",
    r"\bmandrel handle\b": "mandrel handle",
    r"\bbed covered\b|bed, which is covered": "cover for the bed",
    r"\ba piece of the same diameter\b": "own diameter",
    r"\bpaper\b": "paper",
    r"\bdulled with a stone": "oilstone",
    r"abrasive strip|strip of fine abrasive": "abrasive strip",
    r"\bgreased\b": "grease",
    r"\boil (?:them|and wrap)": "oil",
    r"\bcutting oil\b": "cutting oil",
    r"\bparaffin\b": "paraffin",
    r"\bbrush swarf\b": "brush",
    r"\ba stop against\b": "stop",
    r"\bfixed steady near\b": "fixed steady",
    r"\bdriver on\b": "driver",
    r"\bfour-jaw,|in the four-jaw": "four-jaw",
    r"\bin the three-jaw": "three-jaw",
    r"\bend mill|\bslot drill \d|\bface mill": "drawbar",
    r"\bbreak (?:its|the|every) edge": "deburring tool|file",
    r"\bglasses\b": "glasses",
    r"\bboard on the bed\b": "board",
    r"\bcentre drill\b": "centre drill",
    r"\bangle plate\b": "angle plate",
    r"\bjacks?\b": "jack",
    r"into oil\b": "quenching oil",
    r"\btray of sand\b": "sand",
    r"\bmagnet\b": "magnet",
    r"\btongs, gloves\b": "gloves",
    r"\bon the hearth\b": "hearth",
    r"\bin the drill chuck\b": "drill chuck",
    r"\bthe second cutter\b": "slot drill 5, two",
    r"\bscrap of the metal\b": "trial slot",
}
"""What a reader finds on a card, and what of it must then be on the list."""


@cache
def _job(path: Path) -> Job:
    part, shop = read_part(path), default_workshop()
    plan = make_plan(part, shop)
    return Job(part=part, plan=plan, worked=work_out(plan, part, shop), workshop=shop)


def _texts(view: object) -> list[str]:
    if isinstance(view, str):
        return [view]
    if isinstance(view, tuple):
        return [text for one in view for text in _texts(one)]
    if is_dataclass(view):
        skip = ("strip", "picture", "foot", "title", "part")
        return [
            t for f in fields(view) if f.name not in skip for t in _texts(getattr(view, f.name))
        ]
    return []


@pytest.mark.parametrize("path", PARTS, ids=lambda path: path.stem)
def test_every_thing_a_card_names_is_on_the_covers_list_for_its_set_up(path: Path) -> None:
    job = _job(path)
    lists = (
        *holding_kit(job.worked, job.part, "mm"),
        *cutting_kit(job.worked),
        *gauge_kit(job.worked, job.part),
    )
    missing = []
    for one in job.worked.set_ups:
        laid = [each.name.lower() for each in lists if str(one.number) in each.set_ups.split(", ")]
        view = set_up_view(job, one, NO_PICTURES)
        next_card = {p.body for p in view.closing if p.head == "Next"}
        text = " \n ".join(t for t in _texts(view) if t not in next_card).lower()
        missing += [
            f"set-up {one.number}: {thing}"
            for asks, thing in NOUNS.items()
            if re.search(asks, text) and not any(re.search(thing, name) for name in laid)
        ]

    assert missing == []


def test_a_thing_on_the_list_by_a_fuller_name_is_not_laid_out_twice() -> None:
    assert named_in("square packing behind", "hold", ("packing, as thick as the work",)) == ()
    assert named_in("read it by the rule", "measure", ()) == ("rule",)


def test_where_nothing_is_clocked_no_clock_is_laid_out() -> None:
    assert named_in("nothing to clock: the jaws hold raw metal", "measure", ()) == ()


def test_what_a_thread_soft_jaws_and_a_telescopic_gauge_want_is_laid_out() -> None:
    arbor, bush = (next(path for path in PARTS if path.stem == name) for name in ("arbor", "bush"))
    tools = [view.name for view in cutting_kit(_job(arbor).worked)]
    for_bush = _job(bush)
    gauges = [view.name for view in gauge_kit(for_bush.worked, for_bush.part)]

    assert "change wheels 40, 100, 120 and 127, their key" in tools
    assert "boring tool for the jaws" in [view.name for view in cutting_kit(for_bush.worked)]
    assert "parting tool 2 wide" in [view.name for view in cutting_kit(for_bush.worked)]
    assert "telescopic gauge and micrometer 0-25" in gauges
