"""How far out: tools, boring bars and the work itself."""

from __future__ import annotations

from typing import Final

from halfthou.units import Millimetre

TOOL_SHANKS: Final = 1.5
"""A lathe tool sticks out so many times its shank (usual practice)."""
BAR_DIAMETERS: Final = 4.0
"""A steel boring bar goes out so many diameters at most; makers' catalogues say the same."""
WORK_DIAMETERS: Final = 3.0
"""Work in a chuck sticks out so many diameters at most (usual practice)."""
CENTRED_DIAMETERS: Final = 10.0
"""With a centre in its end; beyond it, a steady (usual practice)."""
BAR_CLEAR: Final[Millimetre] = 3.0
"""How much further out than the bore is deep a bar is set (usual practice)."""


def tool_out(shank: Millimetre) -> Millimetre:
    """How far a lathe tool sticks out of its holder."""
    return TOOL_SHANKS * shank


def bar_out(*, depth: Millimetre, bar: Millimetre) -> Millimetre:
    """How far a boring bar is set out for a depth: no further than it need."""
    return max(depth + BAR_CLEAR, 1.5 * bar)


def bar_too_long(*, depth: Millimetre, bar: Millimetre) -> bool:
    """Whether a bar has to go out further than it can be trusted to."""
    return bar_out(depth=depth, bar=bar) > BAR_DIAMETERS * bar


def work_too_long(*, stick_out: Millimetre, diameter: Millimetre, centre: bool) -> bool:
    """Whether work sticks out of its holding further than it should."""
    return stick_out > (CENTRED_DIAMETERS if centre else WORK_DIAMETERS) * diameter
