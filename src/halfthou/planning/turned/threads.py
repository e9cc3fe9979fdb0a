"""Outside threads: by a die with the end free, or with a tool, the change wheels set."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import Part, Round
from halfthou.handbook.threads import Thread
from halfthou.planning.model import Alternative, Operation
from halfthou.planning.turned.minutes import minutes_for
from halfthou.planning.turned.shape import TOWARD, End, rounds, turned_from
from halfthou.planning.turned.tools import lathe_tools
from halfthou.planning.work import Work
from halfthou.workshop.model import Workshop

SCREWCUTTING: Final = 20.0
"""Minutes more for a thread cut with a tool: change wheels and a dozen passes (usual practice)."""
DIE: Final = "die"


def threading(part: Part, workshop: Workshop) -> Work:
    """Give the cutting of every outside thread, by every way that this workshop has."""
    work = Work()
    for one in rounds(part):
        if one.thread is None:
            continue
        ways = tuple(
            _thread(part, one, one.thread, end, tool)
            for end in turned_from(part)[one.name]
            for tool in _tools(workshop, one.thread)
        )
        choice = Alternative(
            name=f"{one.name}: how the thread is cut", bundles=tuple((op.key,) for op in ways)
        )
        work += Work(operations=ways, alternatives=(choice,) if len(ways) > 1 else ())
    return work


def _tools(workshop: Workshop, thread: Thread) -> tuple[str, ...]:
    die = (f"{DIE} {thread.designation}",)
    form = f"{math.degrees(thread.angle):g}°".replace(".5°", "½°")
    named = [t.name for t in lathe_tools(workshop, "screwcutting tool") if form in t.name]
    screwcuts = named[:1] if any(m.screwcutting for m in workshop.lathes) else []
    in_hand = die if thread.designation in workshop.drills.dies else ()
    return (*in_hand, *screwcuts) or die


def _thread(part: Part, one: Round, thread: Thread, end: End, tool: str) -> Operation:
    """Give a die takes minutes; screwcutting takes a dozen passes and the change wheels."""
    how = DIE if tool.startswith(DIE) else "screwcut"
    minutes = minutes_for(
        "thread", length=one.right - one.left, across=thread.major, depth=thread.pitch
    )
    return Operation(
        key=f"{one.name} thread, {how} from {end}",
        verb="thread",
        stage="only",
        feature=one.name,
        machine="lathe",
        makes=tuple(s.name for s in part.surfaces if s.feature == one.name and s.kind == "thread"),
        region=(),
        approach=(TOWARD[end],),
        tools=(tool,),
        minutes=minutes if how == DIE else minutes + SCREWCUTTING,
        starts=one.left,
        ends=one.right,
        cut_size=thread.major,
        thread=thread,
    )
