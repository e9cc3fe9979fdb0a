"""Looking twice: a check by another instrument, coarse enough to pass good work.

It is there to catch a dial a whole turn out, not to judge the size: a turn is millimetres, and
a caliper may be doubted by nearly a tenth. So what is expected may be missed by two tenths, and
what the caliper will measure at the end is looked at by the rule.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.planning.worked import CoarseCheck, Measure, Step
from halfthou.units import Millimetre

BY_CALIPER: Final[Millimetre] = 0.2
"""How far a caliper check may miss what is expected (usual practice)."""
BY_RULE: Final[Millimetre] = 0.5
"""How far a check by rule may miss it (usual practice)."""
_LEAST_BY_RULE: Final[Millimetre] = 2.0
"""Less than this is not read on a rule."""


def looked_twice(step: Step) -> Step:
    """Give the step with its check by other means than its measuring, and wide enough.

    Parameters
    ----------
    step :
        A step as worked out; one without a check, or with a gate of its own, is given back.
    """
    check = step.check
    if check is None or check.low is not None or check.high is not None:
        return step
    if _same(check.means, step.measures) and check.expect >= _LEAST_BY_RULE:
        check = replace(check, means="rule", within=BY_RULE)
    return replace(step, check=_wide_enough(check))


def _same(means: str, measures: tuple[Measure, ...]) -> bool:
    """Tell whether the size itself will be measured by that instrument."""
    own = measures[0].gauge if measures else ""
    return means.startswith("caliper") and own.startswith("caliper")


def _wide_enough(check: CoarseCheck) -> CoarseCheck:
    least = BY_CALIPER if check.means.startswith("caliper") else 0.0
    return replace(check, within=max(check.within, least))
