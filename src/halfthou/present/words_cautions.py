"""The cautions of a card: short, and only those its own set-up has."""

from __future__ import annotations

from typing import Final

from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working import words
from halfthou.present.numbers import sentence

_SHORT: Final[dict[str, str]] = {
    words.TURN_BY_HAND: "turn by hand once before switching on: all clear of bed and saddle",
    words.KEY_OUT: "key out of the chuck",
    words.SCREWED: "screwed nose: never reverse under power, brake gently",
    words.BOARD: "board on the bed when the chuck is changed",
    words.BELTS: "isolate before changing belts",
    words.WHIPS: "support the bar out of the spindle's back: it whips",
    words.BALANCE: "balance the plate, start slow, stand clear of its line",
    words.DRIVER: "driver clear of the saddle, its tail guarded",
    words.IN_THE_BORE: "nothing in the bore while it turns: no finger, rag or emery",
    words.MILL_HELD: "nothing loose on the table; brush swarf with the spindle stopped",
    words.GRABS: "a drill grabs as it breaks through: ease the feed",
    words.PARTING: "fingers from under the piece as it comes off",
    words.EYES: "glasses; no gloves, no loose sleeve",
}
"""What planning says of a danger, as a card says it: the eye is not to tire of the red box."""
_ON_CENTRES: Final = "turn by hand once before switching on: driver and work clear of the saddle"
_GREASE: Final = "dead centre greased, or a running one; ease it as the work warms"


def caution_words(text: str) -> str:
    """Say one caution as short as it can be said.

    >>> caution_words("key out of the chuck")
    'Key out of the chuck.'
    """
    return sentence(_SHORT.get(text, text))


def all_through(worked: WorkedSetUp) -> tuple[str, ...]:
    """Give the cautions of the set-up and of its steps, each once, as planning has them."""
    steps = (one for step in worked.steps for one in step.cautions)
    return tuple(dict.fromkeys((*worked.cautions, *steps)))


def caution_box(worked: WorkedSetUp) -> tuple[str, ...]:
    """Say the cautions of a card, those of its steps among them: the box stands above them all.

    Bench work has its cautions beside its steps.
    """
    scheme = worked.set_up.scheme
    if scheme.machine == "bench":
        return ()
    on_centres = scheme.device.device == "centres"
    own = {words.TURN_BY_HAND: _ON_CENTRES} if on_centres else {}
    own |= {words.CENTRE: _GREASE}
    told = (own.get(one, _SHORT.get(one, one)) for one in all_through(worked))
    return tuple(dict.fromkeys(sentence(one) for one in told))
