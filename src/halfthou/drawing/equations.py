"""The drawing as one system of equations: solved, and judged by rank, residual and convergence.

An unknown is one coordinate of one surface. An equation is one written dimension. All
directions stand in one system: a true distance between axes couples two of them.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, TypeAlias

import numpy as np
import numpy.typing as npt

from halfthou.units import Millimetre

Unknown: TypeAlias = tuple[str, int, str]
"""Feature, axis (0, 1, 2), and which of its coordinates: ``low``, ``high`` or ``middle``."""
Vector: TypeAlias = npt.NDArray[np.float64]

AGREE: Final = 1e-6
"""Two ways of saying one dimension agree within this [mm]; figures are read exactly."""
_RANK: Final = 1e-7
_STEPS: Final = 60
_FIGURES: Final = 10
"""Decimals kept [mm]: figures are read exactly, and elimination leaves dust behind them."""


@dataclass(frozen=True, slots=True)
class Linear:
    """A coordinate as a sum of unknowns and a constant."""

    terms: Mapping[Unknown, float]
    constant: float = 0.0

    def plus(self, other: Linear, factor: float = 1.0) -> Linear:
        """Add ``factor`` times another."""
        terms = dict(self.terms)
        for unknown, weight in other.terms.items():
            terms[unknown] = terms.get(unknown, 0.0) + factor * weight
        kept = {unknown: weight for unknown, weight in terms.items() if weight}
        return Linear(kept, self.constant + factor * other.constant)

    def at(self, values: Mapping[Unknown, float]) -> float:
        """Value, once the unknowns are known."""
        total = sum(weight * values[unknown] for unknown, weight in self.terms.items())
        return total + self.constant


def known(value: float) -> Linear:
    """Return a coordinate that is already known."""
    return Linear({}, value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Equation:
    """One dimension: ``across`` comes out at ``size``, or ``hypot(across, beside)`` does."""

    feature: str
    label: str
    across: Linear
    size: Millimetre
    beside: Linear | None = None
    hint: float = 1.0

    def residual(self, values: Mapping[Unknown, float]) -> float:
        """By how much the dimension is missed [mm]."""
        u = self.across.at(values)
        if self.beside is None:
            return u - self.size
        return math.hypot(u, self.beside.at(values)) - self.size

    def gradient(self, values: Mapping[Unknown, float]) -> dict[Unknown, float]:
        """How the residual moves with each unknown."""
        if self.beside is None:
            return dict(self.across.terms)
        u, v = self.across.at(values), self.beside.at(values)
        reach = math.hypot(u, v) or 1.0
        total = Linear({}).plus(self.across, u / reach).plus(self.beside, v / reach)
        return dict(total.terms)


@dataclass(frozen=True, slots=True, kw_only=True)
class Twice:
    """A dimension that already follows from others, and by how much they disagree."""

    equation: Equation
    follows_from: tuple[Equation, ...]
    disagree: Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """What came out: values, the directions left free, the dimensions given twice."""

    values: dict[Unknown, float]
    free: tuple[dict[Unknown, float], ...]
    twice: tuple[Twice, ...]
    missed: tuple[Equation, ...] = field(default=())


def solve_equations(unknowns: Sequence[Unknown], equations: Sequence[Equation]) -> Solution:
    """Solve all dimensions at once and say what is free, given twice, or impossible."""
    place = {unknown: number for number, unknown in enumerate(unknowns)}
    start = _start(place, equations)
    kept, spare = _independent(place, equations, start)
    vector = _newton(place, kept, start)
    values = _named(place, vector)
    missed = tuple(one for one in kept if abs(one.residual(values)) > AGREE)
    return Solution(
        values=values,
        free=_free(place, kept, values),
        twice=tuple(_twice(place, kept, one, values) for one in spare),
        missed=missed,
    )


def _named(place: Mapping[Unknown, int], vector: Vector) -> dict[Unknown, float]:
    return {unknown: round(float(vector[number]), _FIGURES) for unknown, number in place.items()}


def _row(place: Mapping[Unknown, int], terms: Mapping[Unknown, float]) -> Vector:
    row = np.zeros(len(place))
    for unknown, weight in terms.items():
        row[place[unknown]] += weight
    return row


def _start(place: Mapping[Unknown, int], equations: Sequence[Equation]) -> Vector:
    """First guess: the plain dimensions, and true distances as if they lay along their words."""
    rows, sizes = [np.zeros(len(place))], [0.0]
    for one in equations:
        weight = 1.0 if one.beside is None else 1e-3
        rows.append(weight * _row(place, one.across.terms))
        sizes.append(weight * (one.hint * one.size - one.across.constant))
    answer: Vector = np.linalg.lstsq(np.array(rows), np.array(sizes), rcond=1e-9)[0]
    return answer


def _independent(
    place: Mapping[Unknown, int], equations: Sequence[Equation], start: Vector
) -> tuple[list[Equation], list[Equation]]:
    """Take the dimensions in the order written; one that adds no rank is spare."""
    values = _named(place, start)
    kept: list[Equation] = []
    spare: list[Equation] = []
    basis: list[Vector] = []
    for one in equations:
        row = _row(place, one.gradient(values))
        size = float(np.linalg.norm(row))
        for vector in basis:
            row = row - (row @ vector) * vector
        left = float(np.linalg.norm(row))
        if size == 0 or left <= _RANK * size:
            spare.append(one)
        else:
            basis.append(row / left)
            kept.append(one)
    return kept, spare


def _newton(place: Mapping[Unknown, int], kept: Sequence[Equation], start: Vector) -> Vector:
    vector = start.copy()
    if not kept:
        return vector
    for _ in range(_STEPS):
        values = _named(place, vector)
        missed = np.array([one.residual(values) for one in kept])
        if float(np.max(np.abs(missed))) < AGREE / 1e3:
            break
        jacobian = np.array([_row(place, one.gradient(values)) for one in kept])
        vector = vector - np.linalg.lstsq(jacobian, missed, rcond=1e-9)[0]
    return vector


def _free(
    place: Mapping[Unknown, int], kept: Sequence[Equation], values: Mapping[Unknown, float]
) -> tuple[dict[Unknown, float], ...]:
    """Directions in which surfaces may still slide: the null space, one direction a row."""
    if not place:
        return ()
    rows = [_row(place, one.gradient(values)) for one in kept] or [np.zeros(len(place))]
    _, sizes, basis = np.linalg.svd(np.array(rows))
    rank = int(np.sum(sizes > _RANK * max(1.0, float(sizes[0]))))
    return tuple(_named(place, row) for row in basis[rank:])


def _twice(
    place: Mapping[Unknown, int],
    kept: Sequence[Equation],
    spare: Equation,
    values: Mapping[Unknown, float],
) -> Twice:
    follows: tuple[Equation, ...] = ()
    if kept:
        rows = np.array([_row(place, one.gradient(values)) for one in kept])
        row = _row(place, spare.gradient(values))
        weights = np.linalg.lstsq(rows.T, row, rcond=1e-9)[0]
        follows = tuple(
            one for one, weight in zip(kept, weights, strict=True) if abs(weight) > AGREE
        )
    missed = abs(spare.residual(values))
    return Twice(equation=spare, follows_from=follows, disagree=missed if missed > AGREE else 0.0)
