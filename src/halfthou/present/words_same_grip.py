"""What a set-up owes to those before it: the same grip kept, a mark for the way back."""

from __future__ import annotations

from typing import Final

from halfthou.planning.model import Scheme
from halfthou.planning.worked import WorkedSetUp

_CHUCKS: Final = frozenset({"three-jaw chuck", "four-jaw chuck"})
_NEAR: Final = 1e-3


def same_grip(scheme: Scheme, before: Scheme) -> bool:
    """Tell whether the work stays in the jaws from one set-up to the next."""
    return (
        scheme.machine == before.machine == "lathe"
        and scheme.device.device == before.device.device
        and scheme.grips == before.grips
        and scheme.faces == before.faces
        and scheme.inside == before.inside
        and abs(scheme.grip_low - before.grip_low) < _NEAR
        and abs(scheme.grip_high - before.grip_high) < _NEAR
    )


def goes_back(worked: WorkedSetUp, set_ups: tuple[WorkedSetUp, ...]) -> bool:
    """Tell whether work taken out here comes back to the same jaws by the same surface."""
    scheme = worked.set_up.scheme
    later = [one.set_up.scheme for one in set_ups if one.number > worked.number]
    if scheme.device.device not in _CHUCKS or not later or same_grip(later[0], scheme):
        return False
    return any(
        one.device.device == scheme.device.device
        and one.grips == scheme.grips
        and one.faces == scheme.faces
        for one in later[1:]
    )


def stays_in(worked: WorkedSetUp, set_ups: tuple[WorkedSetUp, ...]) -> bool:
    """Tell whether the next set-up leaves the work where it is."""
    following = next((one for one in set_ups if one.number == worked.number + 1), None)
    return following is not None and same_grip(following.set_up.scheme, worked.set_up.scheme)
