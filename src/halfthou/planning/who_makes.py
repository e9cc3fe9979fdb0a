"""Which operations make a surface: what has to be done before it can be held by or trued on."""

from __future__ import annotations

from collections.abc import Iterable

from halfthou.planning.model import Operation


def makers(operations: tuple[Operation, ...], surface: str) -> tuple[Operation, ...]:
    """Give the operations that leave a surface finished, whichever alternative is taken."""
    return tuple(op for op in operations if surface in op.makes)


def asked_for(
    operations: tuple[Operation, ...], surface: str, reason: str
) -> list[tuple[str, str]]:
    """Give (operation, reason) for all that must be done before a surface is there."""
    return [(op.key, reason) for op in makers(operations, surface)]


def rough_of(operations: tuple[Operation, ...], surface: str) -> tuple[Operation, ...]:
    """Give the roughing operations of the feature a surface belongs to."""
    features = {op.feature for op in makers(operations, surface)}
    finish = {op.feature for op in makers(operations, surface) if op.stage == "finish"}
    return tuple(
        op for op in operations if op.stage == "rough" and op.feature in features & finish
    )


def one_reason_each(pairs: Iterable[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    """Keep the first reason given for each operation."""
    kept: dict[str, str] = {}
    for key, reason in pairs:
        kept.setdefault(key, reason)
    return tuple(kept.items())
