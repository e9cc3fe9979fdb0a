"""What a figure is, and the register of functions that measure them."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One measured number; ``limit`` is the most it may be, None where nothing is promised."""

    name: str
    value: float
    unit: str
    limit: float | None = None

    @property
    def holds(self) -> bool:
        """Whether the promise is kept; a figure that could not be measured keeps none."""
        if not math.isfinite(self.value):
            return False
        return self.limit is None or self.value <= self.limit

    def as_entry(self) -> dict[str, object]:
        """Entry of the figure in ``build/bench.json``."""
        value = round(self.value, 3) if math.isfinite(self.value) else None
        return {"value": value, "unit": self.unit, "limit": self.limit, "holds": self.holds}


Measure = Callable[[], Iterator[Figure]]
MEASURES: list[Measure] = []


def figure(measure: Measure) -> Measure:
    """Register a function that yields figures."""
    MEASURES.append(measure)
    return measure
