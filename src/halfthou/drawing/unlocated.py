"""What nothing locates, and what is dimensioned twice: the nearest cause of each, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from halfthou.drawing.built import Solved
from halfthou.drawing.equations import Equation, Solution, Twice, Unknown
from halfthou.drawing.frame import ALONG
from halfthou.drawing.model import Finding
from halfthou.drawing.told import told
from halfthou.units import Vec3

_MOVES: Final = 1e-6
_RANK: Final = 1e-9
_SIZE_WORDS: Final = ("wide", "high", "thick")


def located_findings(solved: Solved, solution: Solution) -> list[Finding]:
    """Return the findings of the drawing as a system of equations."""
    found = list(_unlocated(solved, solution))
    found += [_twice(solved, twice) for twice in solution.twice]
    found += [_impossible(solved, missed) for missed in solution.missed]
    found += list(_reference(solved, solution))
    return found


def loose_features(solution: Solution) -> frozenset[str]:
    """Names of all features that slide with something that nothing locates."""
    return frozenset(
        name
        for direction in solution.free
        for (name, _, _), by in direction.items()
        if abs(by) > _MOVES
    )


def _where(solved: Solved, name: str) -> Vec3 | None:
    places = [solved.places.get((name, axis, "middle")) for axis in range(3)]
    if all(place is None for place in places):
        return None
    x, y, z = (place or 0.0 for place in places)
    return (x, y, z)


def _unlocated(solved: Solved, solution: Solution) -> Iterator[Finding]:
    """Of all that slides together, name what its own dimensions fail to hold."""
    causes: dict[str, set[int]] = {}
    for direction in solution.free:
        moving = [unknown for unknown in direction if abs(direction[unknown]) > _MOVES]
        groups = _groups(moving)
        slack = [key for key in groups if _slack(solved, (key,), solution)]
        slack = slack or _slack_together(solved, groups, solution)
        for name, axis in slack or groups[:1]:
            causes.setdefault(name, set()).add(axis)
    for name, axes in causes.items():
        reaches = [axis for axis in sorted(axes) if _sizeless(solved, name, axis)]
        places = [axis for axis in sorted(axes) if axis not in reaches]
        if reaches:
            yield _nothing_sizes(solved, name, reaches)
        if places:
            yield _nothing_locates(solved, name, places)


def _groups(moving: Sequence[Unknown]) -> list[tuple[str, int]]:
    return list(dict.fromkeys((name, axis) for name, axis, _ in moving))


def _own(solved: Solved, keys: Sequence[tuple[str, int]]) -> tuple[list[Unknown], list[Equation]]:
    unknowns = [one for one in solved.sheet.unknowns if (one[0], one[1]) in keys]
    equations = [
        one
        for one in solved.sheet.equations
        if any(
            unknown in line.terms
            for unknown in unknowns
            for line in (one.across, one.beside)
            if line is not None
        )
    ]
    return unknowns, equations


def _slack(solved: Solved, keys: Sequence[tuple[str, int]], solution: Solution) -> bool:
    """Whether a feature stays loose along some axes even with all others held."""
    unknowns, equations = _own(solved, keys)
    gradients = [one.gradient(solution.values) for one in equations]
    rows = [[terms.get(unknown, 0.0) for unknown in unknowns] for terms in gradients]
    rank = int(np.linalg.matrix_rank(np.array(rows), tol=_RANK)) if rows else 0
    return rank < len(unknowns)


def _slack_together(
    solved: Solved, groups: Sequence[tuple[str, int]], solution: Solution
) -> list[tuple[str, int]]:
    """Return the axes of the first feature that is loose in several directions at once.

    A place in a turned view couples two of them: held along either, it still slides.
    """
    for name in dict.fromkeys(name for name, _ in groups):
        keys = [key for key in groups if key[0] == name]
        if len(keys) > 1 and _slack(solved, keys, solution):
            return keys
    return []


def _sizeless(solved: Solved, name: str, axis: int) -> bool:
    """Whether a feature has two sides along an axis, and nothing says how far apart."""
    if _kind(solved, name) in {"hole", "joint", "feature", "face"}:
        return False
    unknowns, equations = _own(solved, ((name, axis),))
    if unknowns == [(name, axis, "middle")]:
        return False
    return len(unknowns) == 1 or not any(
        len([one for one in unknowns if one in equation.across.terms]) > 1
        and abs(sum(equation.across.terms.get(one, 0.0) for one in unknowns)) < _RANK
        for equation in equations
    )


def _kind(solved: Solved, name: str) -> str:
    table = solved.written.feature(name)
    return table.kind if table else "feature"


def _nothing_sizes(solved: Solved, name: str, axes: Sequence[int]) -> Finding:
    kind = _kind(solved, name)
    long = kind in {"round", "keyway", "boss", "ring"}
    word = "long" if long else "thick" if kind == "arm" else _SIZE_WORDS[axes[0]]
    return Finding(
        what=f"nothing says how far {name} reaches {_directions(axes)}",
        feature=name,
        why=f"{kind} {name} has neither a size nor two placed sides in that direction",
        tries=(f'give it {word} = "10"', "place both sides with at"),
        grave=True,
        at=_where(solved, name),
    )


def _directions(axes: Sequence[int]) -> str:
    return " or ".join(ALONG[axis] for axis in axes)


def _nothing_locates(solved: Solved, name: str, axes: Sequence[int]) -> Finding:
    kind = _kind(solved, name)
    words = ("12 right of left", "12 above bottom", "12 in front of back")[axes[0]]
    centred = f"centred {ALONG[axes[0]]}"
    if kind in {"keyway", "groove"}:
        table = solved.written.feature(name)
        body = table.text("in") if table else ""
        words, centred = f"left: 5 right of {body} left", f"centred on {body} left to right"
    return Finding(
        what=f"nothing locates {name} {_directions(axes)}",
        feature=name,
        why=f"no dimension ties {kind} {name} to another surface in that direction",
        tries=(f'give it at = "{words}"', f'at = "{centred}"'),
        grave=True,
        at=_where(solved, name),
    )


def _told(label: str, feature: str) -> str:
    return f"{feature}: {label.removeprefix(f'{feature} ')}"


def _twice(solved: Solved, twice: Twice) -> Finding:
    one = twice.equation
    gap = told(twice.disagree, solved.written.units)
    others = ", ".join(other.label for other in twice.follows_from)
    at = _where(solved, one.feature)
    if not twice.follows_from:
        return Finding(
            what=f"'{_told(one.label, one.feature)}' measures what is fixed already",
            feature=one.feature,
            why="both of its ends are held by the part itself"
            + (f": they lie {gap} from what it says" if twice.disagree else ""),
            tries=("take it out",),
            grave=bool(twice.disagree),
            at=at,
        )
    if twice.disagree:
        return Finding(
            what=f"'{_told(one.label, one.feature)}' already follows from [{others}]: "
            f"they disagree by {gap}",
            feature=one.feature,
            why="a place that is given twice can only be in one of the two",
            tries=("take one of them out", "correct the one that is wrong"),
            grave=True,
            at=at,
        )
    return Finding(
        what=f"'{_told(one.label, one.feature)}' already follows from [{others}]: they agree",
        feature=one.feature,
        why="with a tolerance on each, a part can keep some and miss the others",
        tries=("put one in brackets, as a reference dimension",),
        grave=False,
        at=at,
    )


def _impossible(solved: Solved, missed: Equation) -> Finding:
    return Finding(
        what=f"'{_told(missed.label, missed.feature)}' cannot be reached",
        feature=missed.feature,
        why="with the other dimensions kept, no place is that far away",
        tries=("check it against the dimension across it",),
        grave=True,
        at=_where(solved, missed.feature),
    )


def _reference(solved: Solved, solution: Solution) -> Iterator[Finding]:
    for one in solved.sheet.reference:
        missed = one.residual(solution.values)
        if abs(missed) > _MOVES:
            by = told(abs(missed), solved.written.units)
            yield Finding(
                what=f"the reference dimension '{_told(one.label, one.feature)}' comes out "
                f"{by} {'larger' if missed > 0 else 'smaller'}",
                feature=one.feature,
                why="a dimension in brackets follows from the others",
                tries=("correct the bracketed figure", "check the others against it"),
                grave=False,
                at=_where(solved, one.feature),
            )
