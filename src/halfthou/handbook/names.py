"""Near names, for a fault that says what was probably meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def near_names(name: str, known: Iterable[str], *, count: int = 3) -> tuple[str, ...]:
    """Known names that look like ``name``, nearest first, whatever their capitals."""
    by_folded = {each.casefold(): each for each in known}
    close = get_close_matches(name.casefold(), by_folded, n=count, cutoff=0.6)
    return tuple(by_folded[each] for each in close)
