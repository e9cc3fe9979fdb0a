"""What can go wrong, said in one way: the thing, the place, the reason, what to try.

HalfthouError
├── InputFault        a fault in something the person wrote (always has a place)
├── OutOfRangeError   a number outside what a formula or device can take (also a ValueError)
├── NoPlan            proved: this part cannot be made so with this workshop
└── RecordConflict    two accounts of the same event at the bench
"""

from __future__ import annotations

from collections.abc import Sequence


class HalfthouError(Exception):
    """Base of every error this package raises on purpose.

    Parameters
    ----------
    what :
        The thing, by the person's own name, and what is wrong with it.
    where :
        File and path in it, or the place on the part.
    why :
        One physical or logical reason.
    tries :
        What to do, cheapest first.
    """

    def __init__(
        self, what: str, *, where: str = "", why: str = "", tries: Sequence[str] = ()
    ) -> None:
        super().__init__(what)
        self.what = what
        self.where = where
        self.why = why
        self.tries = tuple(tries)

    def __str__(self) -> str:
        lines = [self.what]
        if self.where:
            lines.append(f"  where: {self.where}")
        if self.why:
            lines.append(f"  why: {self.why}")
        if self.tries:
            lines.append(f"  try: {', or '.join(self.tries)}")
        return "\n".join(lines)


class InputFault(HalfthouError):  # noqa: N818  (the trade's word, not an exception's)
    """A fault in what the person wrote: part, project, workshop or plan file."""


class OutOfRangeError(HalfthouError, ValueError):
    """A number outside the range in which the answer would be true."""


class NoPlan(HalfthouError):  # noqa: N818  (the answer is no; nothing is in error)
    """Proved that no plan exists; carries the demands that conflict."""


class RecordConflict(HalfthouError):  # noqa: N818  (the trade's word, not an exception's)
    """Two accounts of one event at the bench that cannot both be true."""


class Faults(ExceptionGroup[InputFault]):
    """All faults of one file, reported together."""

    def derive(self, excs: Sequence[InputFault]) -> Faults:  # type: ignore[override]
        """Keep the class when the group is split."""
        return Faults(self.message, excs)

    def __str__(self) -> str:
        return "\n\n".join(str(fault) for fault in self.exceptions)
