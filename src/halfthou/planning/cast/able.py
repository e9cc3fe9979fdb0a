"""What of a casting is not planned yet: told by name before anything is tried."""

from __future__ import annotations

from collections.abc import Iterator

from halfthou.drawing.model import AngledFace, Arm, Block, Boss, Cutout, Hole, Part
from halfthou.errors import NoPlan


def check_able(part: Part) -> None:
    """See that every feature of a casting is of a kind that is planned.

    Raises
    ------
    NoPlan
        Naming those that are not.
    """
    lost = list(_lost(part))
    if lost:
        raise NoPlan(
            f"the {part.name} has work that is not planned on a casting: {'; '.join(lost)}",
            why="flat faces square to each other, and holes square to them, are",
            tries=("plan it by hand, or leave that work out of the file and do it afterwards",),
        )


def _lost(part: Part) -> Iterator[str]:
    for feature in part.features:
        match feature:
            case Boss() if {"outside", "inside"} & feature.machined:
                yield f"{feature.name}, which is turned"
            case Cutout() | AngledFace():
                yield feature.name
            case Hole() if feature.leans:
                yield f"{feature.name}, which leans"
            case _:
                pass


def check_held(part: Part) -> None:
    """See that a part cut from the solid has a body with flat sides to hold it by.

    Raises
    ------
    NoPlan
        Naming the bodies it has instead.
    """
    if any(isinstance(f, Block) for f in part.features):
        return
    bodies = [f.name for f in part.features if isinstance(f, Boss | Arm)]
    raise NoPlan(
        f"the {part.name} has no flat sides to hold it by: {', '.join(bodies)}",
        why="bosses and arms cut from the solid are not planned",
        tries=("plan it by hand",),
    )
