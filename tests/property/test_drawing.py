"""What holds for any drawing: order carries no meaning, and no text brings the reader down."""

from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from halfthou.drawing.equations import Equation, Linear, Unknown, solve_equations
from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.errors import Faults, InputFault
from halfthou.store.part_file import read_part_text

PLATE = (Path(__file__).parents[1] / "data" / "parts" / "flange-plate.toml").read_text("utf-8")
ARBOR = files("halfthou.demo").joinpath("arbor.toml").read_text("utf-8")
HEAD, *TABLES = PLATE.split("\n[")
SLOW = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def solved(text: str) -> Part:
    return solve(read_part_text(text, name="trial.toml"))


@SLOW
@given(st.permutations(TABLES))
def test_the_order_of_tables_changes_no_surface(tables: list[str]) -> None:
    first, second = solved(PLATE), solved("\n[".join([HEAD, *tables]))

    assert set(first.surfaces) == set(second.surfaces)
    assert {(d.a, d.b, d.band) for d in first.distances} == {
        (d.a, d.b, d.band) for d in second.distances
    }


def part_or_places(text: str) -> Part | list[str]:
    """Part, or the place of every fault."""
    try:
        return solved(text)
    except Faults as faults:
        return [one.where for one in faults.exceptions if isinstance(one, InputFault)]


def _without_line(text: str, number: int) -> str:
    lines = text.splitlines(keepends=True)
    return "".join(lines[: number % len(lines)] + lines[number % len(lines) + 1 :])


def _with_letter(text: str, number: int) -> str:
    place = number % len(text)
    return text[:place] + '1x =]"/'[number % 6] + text[place + 1 :]


@SLOW
@given(
    st.sampled_from([PLATE, ARBOR]),
    st.sampled_from([_without_line, _with_letter]),
    st.integers(0, 10_000),
)
def test_a_spoilt_file_is_read_or_refused_with_its_faults(
    text: str, spoil: Callable[[str, int], str], number: int
) -> None:
    outcome = part_or_places(spoil(text, number))

    if isinstance(outcome, Part):
        assert outcome.surfaces
    else:
        assert all(place.startswith("trial.toml") for place in outcome)


@given(st.lists(st.floats(1, 100), min_size=1, max_size=8), st.floats(0.001, 5))
def test_a_chain_closed_by_its_own_sum_agrees_and_by_another_disagrees_by_the_gap(
    lengths: list[float], gap: float
) -> None:
    unknowns: list[Unknown] = [(f"f{n}", 0, "high") for n in range(len(lengths))]
    ends = [Linear({}), *(Linear({unknown: 1.0}) for unknown in unknowns)]
    chain = [
        Equation(feature=f"f{n}", label="long", across=ends[n + 1].plus(ends[n], -1.0), size=size)
        for n, size in enumerate(lengths)
    ]
    total = sum(lengths)
    right = Equation(feature="all", label="over all", across=ends[-1], size=total)
    wrong = Equation(feature="all", label="over all", across=ends[-1], size=total + gap)
    agreeing = solve_equations(unknowns, [*chain, right])
    disagreeing = solve_equations(unknowns, [*chain, wrong])

    assert [twice.disagree for twice in agreeing.twice] == [0.0]
    assert len(agreeing.twice[0].follows_from) == len(lengths)
    assert abs(disagreeing.twice[0].disagree - gap) < 1e-6


@given(st.lists(st.floats(1, 100), min_size=2, max_size=8), st.integers(0, 7))
def test_a_chain_with_one_length_left_out_is_free_in_one_direction(
    lengths: list[float], missing: int
) -> None:
    unknowns: list[Unknown] = [(f"f{n}", 0, "high") for n in range(len(lengths))]
    ends = [Linear({}), *(Linear({unknown: 1.0}) for unknown in unknowns)]
    left_out = missing % len(lengths)
    chain = [
        Equation(feature=f"f{n}", label="long", across=ends[n + 1].plus(ends[n], -1.0), size=size)
        for n, size in enumerate(lengths)
        if n != left_out
    ]
    solution = solve_equations(unknowns, chain)

    assert len(solution.free) == 1
    moving = {unknown for unknown, by in solution.free[0].items() if abs(by) > 1e-9}
    assert moving == set(unknowns[left_out:])
