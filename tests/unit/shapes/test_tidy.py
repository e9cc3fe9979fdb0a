import math

import pytest

from halfthou.shapes.tidy import tidy

TOLERANCE = 0.02


def test_a_line_drawn_twice_a_hair_apart_is_drawn_once() -> None:
    seen, _ = tidy(
        [((0.0, 0.0), (10.0, 0.0)), ((0.0, 0.012), (10.0, 0.012))], [], tolerance=TOLERANCE
    )

    assert len(seen) == 1


def test_lines_farther_apart_than_the_tolerance_both_stay() -> None:
    seen, _ = tidy([((0.0, 0.0), (10.0, 0.0)), ((0.0, 0.2), (10.0, 0.2))], [], tolerance=TOLERANCE)

    assert len(seen) == 2


@pytest.mark.derived(by="hand arithmetic")
def test_a_hidden_line_under_a_visible_one_shows_only_beyond_its_ends() -> None:
    _, hidden = tidy(
        [((3.0, 0.0), (6.0, 0.0))], [((0.0, 0.005), (10.0, 0.005))], tolerance=TOLERANCE
    )

    ends = sorted(sorted(x for x, _ in line) for line in hidden)
    assert ends == [pytest.approx([0, 3], abs=0.03), pytest.approx([6, 10], abs=0.03)]


def test_a_line_that_crosses_another_is_not_cut_by_it() -> None:
    seen, hidden = tidy(
        [((0.0, 0.0), (10.0, 0.0))], [((5.0, -5.0), (5.0, 5.0))], tolerance=TOLERANCE
    )

    assert len(seen) == 1
    assert [set(line) for line in hidden] == [{(5.0, -5.0), (5.0, 5.0)}]


def test_pieces_of_one_straight_line_are_joined_and_a_corner_is_not() -> None:
    seen, _ = tidy(
        [((0.0, 0.0), (4.0, 0.0)), ((10.0, 0.0), (4.0, 0.0)), ((10.0, 0.0), (10.0, 5.0))],
        [],
        tolerance=TOLERANCE,
    )

    assert sorted(len(line) for line in seen) == [2, 2]
    assert max(math.dist(line[0], line[-1]) for line in seen) == pytest.approx(10)


def test_four_quarters_of_a_circle_become_one_closed_loop() -> None:
    quarters = [
        tuple(
            (math.cos(math.radians(90 * q + 5 * n)), math.sin(math.radians(90 * q + 5 * n)))
            for n in range(19)
        )
        for q in (2, 0, 3, 1)
    ]

    (loop,), _ = tidy(quarters, [], tolerance=0.005)

    assert loop[0] == loop[-1]
    assert len(loop) == 73


def test_a_circle_seen_edge_on_is_one_straight_line() -> None:
    flat = tuple((0.002 * math.cos(n / 10), 5 * math.sin(n / 10)) for n in range(63))

    (line,), _ = tidy([flat], [], tolerance=TOLERANCE)

    assert len(line) == 2
    assert math.dist(*line) == pytest.approx(10, abs=0.01)


def test_nothing_tidied_is_nothing() -> None:
    assert tidy([], [], tolerance=TOLERANCE) == ((), ())
