"""Orders of work by the rule that asks for them, in the rule's own words."""

from __future__ import annotations

from halfthou.planning.model import Operation, Order
from halfthou.planning.rules import rule


def by_rule(
    before: Operation,
    after: Operation,
    name: str,
    *,
    cost: float | None = None,
    other_set_up: bool = False,
) -> Order:
    """Give the order of two operations under a rule of the registry; with a cost it is soft."""
    return Order(
        before=before.key,
        after=after.key,
        rule=name,
        reason=rule(name).reason,
        hard=cost is None,
        cost=cost or 0.0,
        other_set_up=other_set_up,
    )
