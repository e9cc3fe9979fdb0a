"""What is cut at one setting or is worth nothing."""

from __future__ import annotations

from itertools import permutations

from halfthou.planning.model import Operation
from halfthou.planning.rules import rule
from halfthou.planning.solving.problem import Together

NEVER_MOVES = "bore and ream at one setting"


def kept_together(operations: tuple[Operation, ...]) -> tuple[Together, ...]:
    """Give the pairs of operations that stay in one set-up: the boring that places a reamed hole.

    A reamer follows the hole it finds. What bores it true does so at the setting that reams it, or
    the hole is true to something that is no longer held.
    """
    reason = rule(NEVER_MOVES).reason
    return tuple(
        Together(a=i, b=j, rule=NEVER_MOVES, reason=reason)
        for (i, a), (j, b) in permutations(enumerate(operations), 2)
        if a.verb == "bore"
        and b.verb == "ream"
        and a.feature == b.feature
        and a.machine == b.machine
        and set(a.approach) & set(b.approach)
    )
