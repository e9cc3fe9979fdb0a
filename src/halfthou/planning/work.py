"""What has to be done to a part, and the choices among ways of doing it."""

from __future__ import annotations

from dataclasses import dataclass

from halfthou.planning.model import Alternative, Operation


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """Operations, and the choices among them."""

    operations: tuple[Operation, ...] = ()
    alternatives: tuple[Alternative, ...] = ()

    def __add__(self, other: Work) -> Work:
        return Work(
            operations=self.operations + other.operations,
            alternatives=self.alternatives + other.alternatives,
        )
