"""What a new plan does otherwise than the one before, set-up by set-up."""

from __future__ import annotations

from difflib import SequenceMatcher

from halfthou.planning.model import Plan
from halfthou.present.numbers import minutes
from halfthou.present.words_plan import price_words, way_words


def plan_changes(before: Plan, after: Plan) -> tuple[str, ...]:
    """Say which set-ups go and come, and what that does to the price; nothing if none does."""
    old = [way_words(each) for each in before.set_ups]
    new = [way_words(each) for each in after.set_ups]
    lines: list[str] = []
    for tag, i, j, k, m in SequenceMatcher(a=old, b=new, autojunk=False).get_opcodes():
        if tag == "equal":
            continue
        lines += [f"− set-up {number}: {old[number - 1]}" for number in range(i + 1, j + 1)]
        lines += [f"+ set-up {number}: {new[number - 1]}" for number in range(k + 1, m + 1)]
    if minutes(before.minutes) != minutes(after.minutes):
        lines.append(f"price: {minutes(before.minutes)} → {minutes(after.minutes)}")
    return tuple(lines)


def proof_words(plan: Plan) -> str:
    """Say how far it is proved that no other plan is cheaper."""
    return price_words(plan)[1]


def way_lines(plan: Plan) -> tuple[str, ...]:
    """Say the way through, one line a set-up."""
    return tuple(
        f"{number}. {set_up.scheme.machine}: {way_words(set_up)}"
        for number, set_up in enumerate(plan.set_ups, start=1)
    )
