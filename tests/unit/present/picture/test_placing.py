"""Placing dimensions: what counts as a clash, and that none is left."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from halfthou.present.picture.crowding import (
    Candidate,
    box_hits,
    cost_between,
    ground_of,
    lines_on_ground,
    segments_of,
    shape_of,
    texts_on_ground,
    these,
)
from halfthou.present.picture.dimensions import Leader, Linear, outward, ways
from halfthou.present.picture.fitting import trimmed
from halfthou.present.picture.label import Label
from halfthou.present.picture.placing import clashes, place
from halfthou.present.picture.sheet import Box, Disc, Mark, Path, Sheet, Words
from halfthou.shapes.flat import Segment2

PAPER = Box(left=-500, top=-500, right=500, bottom=500)
BLOCK = Box(left=0.0, top=0.0, right=60.0, bottom=40.0)
CORNERS = ((0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0))
OUTLINE = Path(lines=(CORNERS,), style="outline", closed=True)


def on_paper(*marks: Mark) -> Sheet:
    return Sheet(width=100, height=100, title="", description="", marks=marks)


def dimensioned(wishes: list[Linear | Leader]) -> Sheet:
    ground = ground_of((OUTLINE,), paper=PAPER)
    placed = place([ways(wish, work=BLOCK) for wish in outward(wishes)], ground)
    return trimmed((OUTLINE, *placed), title="", description="")


def test_words_over_a_line_are_a_clash() -> None:
    line = Path(lines=(((0.0, 50.0), (100.0, 50.0)),), style="dimension")

    assert clashes(on_paper(line, Words(at=(20.0, 51.0), text="46"))) == (
        "'46' stands over a line",
    )
    assert clashes(on_paper(line, Words(at=(20.0, 49.0), text="46"))) == ()


def test_words_over_words_are_a_clash() -> None:
    first, second = Words(at=(20.0, 51.0), text="46"), Words(at=(22.0, 52.0), text="Ø9")

    assert clashes(on_paper(first, second)) == ("'46' meets 'Ø9'",)


def test_words_off_the_sheet_are_a_clash() -> None:
    assert clashes(on_paper(Words(at=(98.0, 50.0), text="46"))) == ("'46' runs off the sheet",)


def test_a_number_may_stand_in_its_own_ring_but_not_across_another() -> None:
    ring = Disc(centre=(50.0, 50.0), radius=2.0, style="balloon")
    inside = Words(at=(50.0, 50.9), text="3", size=2.6, anchor="middle")
    across = Words(at=(51.0, 50.9), text="Ø24", size=2.6)

    assert clashes(on_paper(ring, inside)) == ()
    assert clashes(on_paper(ring, across)) == ("'Ø24' stands over a ring",)


def test_a_slanting_line_past_a_corner_of_a_box_does_not_enter_it() -> None:
    past = segments_of([Path(lines=(((0.0, 9.0), (9.0, 0.0)),), style="outline")])
    through = segments_of([Path(lines=(((0.0, 19.0), (19.0, 0.0)),), style="outline")])
    box = Box(left=5.0, top=5.0, right=15.0, bottom=15.0)

    assert box_hits(box, past) == 0
    assert box_hits(box, through) == 1


def test_a_chain_of_short_lengths_is_staggered_without_a_clash() -> None:
    places = [0.0, 4.0, 7.0, 12.0, 15.0, 60.0]
    wishes: list[Linear | Leader] = [
        Linear(
            a=(left, 0.0),
            b=(right, 0.0),
            upright=False,
            label=Label(main=f"{right - left:g}", upper="+0.05", lower="0", step=number),
            edges=("above",),
        )
        for number, (left, right) in enumerate(pairwise(places), start=1)
    ]

    assert clashes(dimensioned(wishes)) == ()


def test_the_smaller_of_two_dimensions_lies_nearer_the_work() -> None:
    wishes: list[Linear | Leader] = [
        Linear(a=(0.0, 0.0), b=(x, 0.0), upright=False, label=Label(main=name), edges=("above",))
        for x, name in ((60.0, "long"), (30.0, "short"))
    ]
    foot = {mark.text: mark.at[1] for mark in dimensioned(wishes).marks if isinstance(mark, Words)}

    assert foot["short"] > foot["long"]


def test_witness_lines_stop_short_of_the_outline() -> None:
    wish = Linear(
        a=(0.0, 0.0), b=(60.0, 0.0), upright=False, label=Label(main="60"), edges=("above",)
    )
    way = ways(wish, work=BLOCK)[0]

    assert all(0.5 < abs(start[1]) < 1.5 for start, _ in way.witness)


def test_upright_dimensions_read_from_the_right() -> None:
    wish = Linear(
        a=(60.0, 0.0), b=(60.0, 40.0), upright=True, label=Label(main="Ø40"), edges=("right",)
    )
    words = [mark for mark in ways(wish, work=BLOCK)[0].marks if isinstance(mark, Words)]

    assert [one.turned for one in words] == [True]


lengths = st.lists(st.tuples(st.floats(0.0, 55.0), st.floats(2.0, 60.0)), min_size=1, max_size=5)


@settings(max_examples=40, deadline=None)
@given(lengths, st.lists(st.floats(3.0, 57.0), max_size=3))
def test_whatever_the_lengths_no_text_meets_a_line_or_another_text(
    spans: list[tuple[float, float]], touched: list[float]
) -> None:
    wishes: list[Linear | Leader] = [
        Linear(
            a=(start, 0.0),
            b=(min(60.0, start + long), 0.0),
            upright=False,
            label=Label(main=f"{long:.2f}", step=number),
            edges=("above", "below"),
        )
        for number, (start, long) in enumerate(spans, start=1)
    ]
    wishes += [
        Leader(
            tips=tuple(((x, 40.0), (aside, 1.0)) for aside in (0.5, -0.5)),
            label=Label(main=f"Ø{x:.1f}"),
        )
        for x in touched
    ]

    assert clashes(dimensioned(wishes)) == ()


def _only_lines(*lines: Segment2) -> Candidate:
    return Candidate(draw=these, boxes=(), lines=lines, witness=(), cost=0.0)


def test_a_leader_across_another_line_costs_more_than_two_dimension_lines_that_cross() -> None:
    level = shape_of(_only_lines(((0.0, 0.0), (20.0, 0.0))))
    upright = shape_of(_only_lines(((10.0, -10.0), (10.0, 10.0))))
    leader = shape_of(_only_lines(((2.0, -8.0), (18.0, 8.0))))

    assert 0.0 < cost_between(level, upright) < cost_between(level, leader)
    assert cost_between(leader, upright) == cost_between(level, leader)


def test_leaders_to_two_holes_do_not_cross_where_they_need_not() -> None:
    work = Box(left=0.0, right=40.0, top=0.0, bottom=20.0)
    ways_off = ((0.6, -1.0), (-0.6, -1.0))
    wishes = [
        ways(
            Leader(tips=tuple(((x, 10.0), way) for way in ways_off), label=Label(main=text)),
            work=work,
        )
        for x, text in ((12.0, "2 × Ø4 H7"), (28.0, "2 × Ø9"))
    ]
    ground = ground_of((), paper=Box(left=-90, top=-90, right=90, bottom=90))
    lines = [mark.lines[0] for mark in place(wishes, ground) if mark.style == "dimension"]  # type: ignore[union-attr]
    pair = [shape_of(_only_lines(*pairwise(line))) for line in lines]

    assert len(pair) == 2
    assert cost_between(pair[0], pair[1]) == 0.0


def test_a_choice_is_the_same_whether_or_not_costs_are_cut_short() -> None:
    line = Path(lines=(((-50.0, -9.0), (50.0, -9.0)),), style="outline")
    ground = ground_of((line,), paper=Box(left=-90, top=-90, right=90, bottom=90))
    work = Box(left=0.0, right=40.0, top=0.0, bottom=20.0)
    leader = Leader(tips=(((20.0, 0.0), (0.5, -1.0)),), label=Label(main="Ø6"))
    choices = ways(leader, work=work)
    full = [
        one.cost + texts_on_ground(one, ground) + lines_on_ground(one, ground) for one in choices
    ]

    assert place([choices], ground) == choices[full.index(min(full))].marks
