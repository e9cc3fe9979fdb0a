"""What is said of the holding of a set-up: how to hold, how to true it, what to beware of."""

from __future__ import annotations

import math
from typing import Final

from halfthou.cutting.metals import metal_of
from halfthou.cutting.overhang import work_too_long
from halfthou.cutting.speeds import speed_for
from halfthou.drawing.model import Surface
from halfthou.planning.axes import dot
from halfthou.planning.model import SetUp
from halfthou.planning.working import words
from halfthou.planning.working.slitting import nut_words
from halfthou.planning.working.task import Task

_CHUCKS: Final = {"three-jaw chuck", "four-jaw chuck", "soft jaws"}
_PARALLEL: Final = 0.99
_BIG: Final = {"faceplate", "angle plate"}
WRAP: Final = "clean, oil and wrap the part; write down the sizes as made"
_OUT_OF_BALANCE: Final = 3.0
"""Work thrown further over than this shakes the lathe, mm (usual practice)."""


SHORT_GRIP: Final = 12.0
"""A grip shorter than this, in mm, does not set work square (usual practice)."""
SHORT_AND_SAWN: Final = (
    "the grip is short and a sawn end sets nothing square: nip it, tap the far end and the rim "
    "true by eye, the spindle turned by hand, then tighten; it is faced before all else"
)
"""Nothing behind it: packing would only copy the saw's slope."""
SHORT_OF: Final = 1.01
"""How near roughing comes to a shoulder at worst, mm."""

_SAYS: Final[dict[str, str]] = {
    "collet": "collet of the work's own size, wiped clean, work full length in it",
    "centres": "centres cleaned and oiled; driver tight, soft metal under its screw",
    "clamps": "clamp stud nearer the work than the heel; nothing clamped over air",
    "rotary table": "clamp stud nearer the work than the heel; nothing clamped over air",
    "faceplate": "three holds and a stop; balance it, then swing it round by hand",
    "angle plate": "three holds and a stop; balance it, then swing it round by hand",
    "V-blocks": "both blocks of the pair, wiped clean; the clamp over a block, not between",
    "stub mandrel": "mandrel turned in place and not taken out again until this is done",
}


def hold_notes(task: Task) -> tuple[str, ...]:
    """Say what the hands do to hold the work."""
    device = task.scheme.device.device
    finished = _grips_finished(task)
    own = task.scheme.links[-1].detail
    notes: list[str] = [*_which_machine(task), *([own] if own else [])]
    if task.scheme.machine == "lathe" and device in _CHUCKS:
        notes += _chuck(task, device, finished=finished)
    if device == "vice":
        notes += _vice(finished=finished)
        notes += nut_words(task)
    if task.scheme.machine == "lathe" and work_too_long(
        stick_out=task.scheme.stick_out,
        diameter=max(task.scheme.grip_size, 1.0),
        centre=task.scheme.centre or len(task.scheme.links) > 1,
    ):
        notes.append(words.STICKS_OUT)
    if device in _SAYS and not (device in _BIG and task.scheme.machine != "lathe"):
        notes.append(_SAYS[device])
    return tuple(dict.fromkeys(notes))


def _which_machine(task: Task) -> list[str]:
    """Name the machine where the workshop has more than one of its kind."""
    match task.scheme.machine:
        case "lathe" if len(task.workshop.lathes) > 1 and task.lathe is not None:
            return [f"on the {task.lathe.name}: the figures are its own"]
        case "mill" if len(task.workshop.mills) > 1 and task.mill is not None:
            return [f"on the {task.mill.name}: the figures are its own"]
        case _:
            return []


def _chuck(task: Task, device: str, *, finished: bool) -> list[str]:
    notes = []
    if finished and device != "soft jaws":
        notes.append("soft metal under the jaws: what they hold is finished")
    if device == "soft jaws":
        notes.append(bored_at(task))
    if task.scheme.seats:
        notes.append("work hard back on its seat; tap it home as the jaws are tightened")
    return [*notes, *_back_and_square(task)]


def bored_at(task: Task) -> str:
    """Say how soft jaws are bored where they stand: the speed of mild steel for their size."""
    lathe = task.lathe
    if lathe is None:
        return "jaws bored in place: light cuts, the last two alike"
    speed = speed_for(
        metal=metal_of("mild steel"),
        verb="bore",
        diameter=max(task.scheme.grip_size, 1.0),
        workshop=task.workshop,
        speeds=lathe.speeds,
        at_most=task.scheme.device.most_rev_min,
    )
    return f"jaws bored in place at {speed:.0f} rev/min: light cuts, the last two alike"


def _back_and_square(task: Task) -> list[str]:
    """Say what sets work square that has no finished seat, and what its length must be first."""
    scheme = task.scheme
    notes = []
    grip = scheme.grip_high - scheme.grip_low
    raw = bool(scheme.grips) and all(one.startswith("stock") for one in scheme.grips)
    sawn = any(op.verb == "saw" for op in task.done_before)
    if _shoulder_at_jaws(task):
        notes.append(words.AGAINST_JAWS)
    elif raw and sawn and 0 < grip < SHORT_GRIP:
        notes.append(SHORT_AND_SAWN)
    return notes


def _shoulder_at_jaws(task: Task) -> bool:
    """Tell whether the shoulder roughing left stands at the jaws' faces."""
    scheme = task.scheme
    if scheme.seats or scheme.inside or not any("as roughed" in one for one in scheme.grips):
        return False
    x = scheme.grip_high if task.sense > 0 else scheme.grip_low
    return any(
        op.verb == "turn" and op.stage == "rough" and f"{op.feature} as roughed" in scheme.grips
        and min(abs(x - op.starts), abs(x - op.ends)) <= SHORT_OF
        for op in task.done_before
    )  # fmt: skip


def _vice(*, finished: bool) -> list[str]:
    notes = ["wipe jaws and parallels; knock the work down, and see that no parallel moves"]
    if not finished:
        notes.append("best face to the fixed jaw, a round bar between work and moving jaw")
    return notes


def _grips_finished(task: Task) -> bool:
    there = task.there_before() - task.never_cut
    return any(name in there for name in task.scheme.grips)


def _first_in_vice(task: Task) -> bool:
    """Tell whether the machine vice is used here for the first time."""

    def in_vice(set_up: SetUp) -> bool:
        return set_up.scheme.machine == "mill" and set_up.scheme.device.device == "vice"

    return in_vice(task.set_up) and not any(map(in_vice, task.plan.set_ups[: task.number - 1]))


def true_notes(task: Task) -> tuple[str, ...]:
    """Say what to clock, and where."""
    scheme = task.scheme
    if not scheme.true_on:
        return (words.JAW_FIRST,) if _first_in_vice(task) else ()
    if scheme.machine == "lathe":
        notes = ["turn by hand; clock near the jaws and far from them"]
        if any(
            (s := task.surface(n)) is not None and s.kind == "plane" for n, _ in scheme.true_on
        ):
            notes.append("clock the face near its rim, and the round again afterwards")
        return tuple(notes)
    if scheme.machine == "mill":
        return _true_on_the_mill(task)
    return ()


def _true_on_the_mill(task: Task) -> tuple[str, ...]:
    """Say how a round is clocked under the spindle: upright ones swept, level ones run along."""
    rounds = [task.surface(name) for name, _ in task.scheme.true_on]
    if any(s is not None and s.kind == "cylinder" and _upright(task, s) for s in rounds):
        return (words.SWEPT,)
    level = [words.ALONG_THE_TOP] if any(rounds) else []
    jaw = [words.JAW_FIRST] if task.scheme.device.device == "vice" else []
    return (*jaw, *level)


def _upright(task: Task, surface: Surface) -> bool:
    return abs(dot(surface.direction, task.up)) > _PARALLEL


def cautions(task: Task, speeds: frozenset[float] = frozenset()) -> tuple[str, ...]:
    """Say what to beware of, worst first, on the card where the danger is.

    ``speeds`` are those the set-up runs at: more than one, and belts are changed in it.
    """
    belts = (words.BELTS,) if len(speeds) > 1 else ()
    match task.scheme.machine:
        case "lathe":
            return (*_at_the_lathe(task), *belts, words.EYES)
        case "mill":
            saws = any("slitting" in tool for op in task.operations for tool in op.tools)
            climbs = (words.SAW_CLIMBS,) if saws else ()
            return (words.MILL_HELD, *climbs, *belts, words.EYES)
        case "bench":
            return ()


def _at_the_lathe(task: Task) -> list[str]:
    device = task.scheme.device.device
    nose = task.lathe is not None and task.lathe.screwed_nose
    said = (
        (words.TURN_BY_HAND, True),
        (words.KEY_OUT, device in _CHUCKS),
        (words.BALANCE, device in _BIG or math.hypot(*task.scheme.throw) > _OUT_OF_BALANCE),
        (words.DRIVER, device == "centres"),
        (words.SCREWED, nose and device in _CHUCKS | _BIG),
        (words.BOARD, _chuck_changed(task)),
        (words.CENTRE, task.scheme.centre or device == "centres"),
        (words.WHIPS, _bar_behind(task)),
    )
    return [text for text, holds in said if holds]


def _chuck_changed(task: Task) -> bool:
    """Tell whether a chuck or plate goes on in place of what the lathe last held work in."""
    device = task.scheme.device.device
    before = [
        s.scheme for s in task.plan.set_ups[: task.number - 1] if s.scheme.machine == "lathe"
    ]
    return device in _CHUCKS | _BIG and bool(before) and before[-1].device.device != device


def _bar_behind(task: Task) -> bool:
    """Tell whether the lump reaches well out of the back of the spindle."""
    length = task.plan.blank_size[0]
    inside = length - task.scheme.stick_out
    return task.lathe is not None and inside > 400  # noqa: PLR2004  (a headstock is about so long)


def witness(task: Task) -> str:
    """Give the mark to make before the work leaves a chuck it may have to come back to."""
    chucked = task.scheme.machine == "lathe" and task.scheme.device.device in _CHUCKS
    back = any(later.scheme.machine == "lathe" for later in task.plan.set_ups[task.number :])
    return words.WITNESS if chucked and back else ""


def next_notes(task: Task) -> tuple[str, ...]:
    """Say what to do before going on to the next set-up."""
    notes = []
    cut = [op for op in task.operations if op.verb not in {"saw", "deburr", "mark out"}]
    if cut:
        mill = task.scheme.machine == "mill"
        notes.append(words.BREAK_EDGES_OUT if mill else words.BREAK_EDGES)
    shut = [op for op in task.operations if op.verb in {"part off", "saw"}]
    if shut and cut:
        notes.append("before it is cut off, measure everything made at this setting once more")
    ends = [i for i, s in enumerate(task.plan.set_ups, start=1) if i > task.number]
    if not ends:
        notes.append(WRAP)
    return tuple(notes)


def can_rest(task: Task) -> bool:
    """Tell whether the work comes out of its holding here anyway: a good place to stop."""
    if task.number == len(task.plan.set_ups):
        return False
    after = task.plan.set_ups[task.number].scheme
    if task.scheme.machine == "bench":
        return False
    return after.machine != task.scheme.machine or after.device != task.scheme.device
