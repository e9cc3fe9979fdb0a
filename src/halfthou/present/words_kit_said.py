"""Things to lay out that the words of a card name: what is said in the hold is in the list.

The lists of a cover would forget what only a sentence asks for: the copper under a jaw, the oil
for a steady, the pen for a mark. So the sentences themselves are read, and each thing they name
is laid out once, unless the list has it by a fuller name already.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.drawing.model import Part
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import Units
from halfthou.present.words_cautions import caution_box
from halfthou.present.words_holding import holding_words
from halfthou.present.words_level_round import SAME_ROUND
from halfthou.present.words_truing import mill_first_words, truing_words

Column: TypeAlias = Literal["hold", "cut", "measure"]


@dataclass(frozen=True, slots=True)
class Named:
    """A thing by the name of the list, and the words that ask for it; ``stem`` finds it there."""

    column: Column
    name: str
    stem: str
    asks: re.Pattern[str]


def _named(column: Column, name: str, stem: str, asks: str) -> Named:
    return Named(column, name, stem, re.compile(asks))


DEBURRING: Final = "deburring tool"
FILE: Final = "file, second-cut, 200 flat"
NAMED: Final[tuple[Named, ...]] = (
    _named("hold", "soft copper sheet 0.5", "soft copper", r"soft (?:copper|metal|pads?)"),
    _named("hold", "thin paper", "paper", r"\bpaper\b"),
    _named("hold", "round bar", "round bar", r"round bar between|round bar about"),
    _named("hold", "slips of thin packing", "slips", r"slips of packing|\bshim"),
    _named("hold", "equal packing, or parallels", "packing", r"\bpacking\b"),
    _named("hold", "a stop: block and clamp", "stop: block", r"\ba stop\b"),
    _named("hold", "jacks", "jack", r"\bjacks?\b"),
    _named("hold", "soft hammer", "soft hammer",
           r"\btap(?:ped)? (?:it|back|home|the bar)|\bknock|soft hammer|light taps"),
    _named("hold", "bed stop", "bed stop", r"\bbed stop\b"),
    _named("hold", "board for the bed", "board", r"\bboard on the bed\b"),
    _named("hold", "rod to fit the cross hole", "rod", r"\b[Rr]od in the\b"),
    _named("hold", "ring to grip behind", "ring to", r"\ba ring gripped\b"),
    _named("hold", "mandrel handle", "mandrel handle", r"\bmandrel handle\b"),
    _named("hold", "half centre", "half centre", r"\bhalf centre\b"),
    _named("hold", "wooden rod for the tailstock chuck", "wooden rod", r"\bwooden rod\b"),
    _named("hold", "paraffin, a tray", "paraffin", r"\bparaffin\b"),
    _named("hold", "cover for the bed", "cover for", r"\bbed covered\b|\bbed, which is covered\b"),
    _named("hold", "piece of the round's own diameter", "own diameter", SAME_ROUND),
    _named("hold", "metal tin of quenching oil, with a lid", "quenching oil",
           r"\bat once into oil\b"),
    _named("hold", "pail of clean water", "pail", r"into (?:clean |salt )?(?:water|brine)\b"),
    _named("hold", "steel plate, or a tray of sand", "tray of sand", r"\btray of sand\b"),
    _named("hold", "gloves for hot work", "gloves", r"\btongs, gloves\b"),
    _named("hold", "iron wire, where tongs would hide it", "iron wire", r"\bby wire through\b"),
    _named("hold", "coat against scale", "coat against", r"\bcoated against scale\b"),
    _named("hold", "hardening compound", "hardening compound", r"\bhardening compound\b"),
    _named("measure", "old file, to try the hardness", "old file", r"\bfile must skid\b"),
    _named("measure", "magnet", "magnet", r"\bno magnet\b"),
    _named("cut", "emery cloth to brighten it", "emery cloth", r"\bbrighten it\b"),
    _named("hold", "scrap of the same metal, for a trial slot", "trial slot",
           r"\bscrap of the metal\b"),
    _named("hold", "grease for the centre", "grease", r"\bgreas"),
    _named("hold", "machine oil", "machine oil",
           r"\boil (?:them|it|the|and)\b|\boiled\b|\bfilm of oil\b|\band oil\b"),
    _named("hold", "swarf brush", "brush", r"\bbrush\b"),
    _named("hold", "clean rag", "rag", r"\bwiped?\b|\bclean(?:ed)?,? (?:and )?oil"),
    _named("hold", "glasses", "glasses", r"\bglasses\b|\beyes\b"),
    _named("hold", "balance weight", "balance weight", r"\bbalance (?:it|the)\b"),
    _named("hold", "short bar, to be turned true", "short bar", r"\ba bar turned true\b"),
    _named("hold", "two equal parallels", "parallels", r"\btwo equal parallels\b"),
    _named("hold", "faceplate", "faceplate", r"\bfaceplate\b"),
    _named("hold", "angle plate", "angle plate", r"\bangle plate\b"),
    _named("hold", "surface plate", "surface plate", r"\bsurface plate\b"),
    _named("hold", "piece of wood for the core", "wood", r"\bwood\b"),
    _named("hold", "bolts of the joint", "bolts", r"\bbolts drawn\b|\bdraw the bolts\b"),
    _named("hold", "toolmaker's clamp", "toolmaker", r"toolmaker's clamp"),
    _named("cut", "oilstone", "stone", r"\bstone\b|\bdulled\b"),
    _named("cut", "abrasive strip, fine", "abrasive", r"abrasive strip|strip of fine abrasive"),
    _named("cut", "split lap", "lap and", r"\bsplit lap\b"),
    _named("cut", "fine lapping paste", "paste", r"\bpaste\b"),
    _named("cut", DEBURRING, "deburring",
           r"\bbreak (?:its|the|every) edges?|\bedge left sharp|\bholes too\b|\bburr\b"),
    _named("cut", FILE, "file", r"\bfile to\b|\bdraw-file"),
    _named("cut", "scrap of the same metal", "scrap", r"\bscrap\b"),
    _named("measure", "centre punch, light hammer", "punch", r"\bpop(?:ped|s)?\b|\bcentre punch"),
    _named("measure", "felt pen", "felt pen",
           r"\bfelt pen\b|\bmark the (?:work|halves)|\bby (?:their|the) marks?\b|\bwitness mark"),
    _named("measure", "scribing block, or height gauge", "scribing block",
           r"\bscribing block\b|\bheight gauge\b|\bon the surface plate\b"),
    _named("measure", "drill whose shank lies in the bore", "drill whose",
           r"\bshank of a drill of\b"),
    _named("measure", "scriber", "scriber", r"\bscrib"),
    _named("measure", "0.01 clock and its stand", "clock", r"(?<!nothing to )\bclock\b"),
    _named("measure", "0.05 feeler", "feeler", r"\bfeeler\b"),
    _named("measure", "rule", "rule", r"\brule\b"),
    _named("measure", "square", "square",
           r"\b(?:a|with|the) square\b(?! (?:bar|edge))|\bsquare it off\b|\bby square\b"),
    _named("measure", "caliper", "caliper", r"\bcaliper\b"),
    _named("measure", "micrometer", "micrometer", r"\bmicrometer\b"),
    _named("measure", "gauge block", "gauge block", r"\bgauge blocks?\b"),
    _named("measure", "parallel test bar", "test bar", r"\bparallel bar\b|\btest bar\b"),
    _named("measure", "the mate, made first", "the mate", r"\btry the mate\b|\bmate just goes\b"),
    _named("measure", "pointed centre finder", "centre finder", r"\bcentre finder\b"),
)  # fmt: skip


def step_words(one: WorkedSetUp) -> str:
    """Give what the steps of a set-up say, and what is said of it when they are done."""
    steps = [
        text
        for step in one.steps
        for text in (
            step.tool,
            *step.remarks,
            *step.cautions,
            *(m.gauge for m in step.measures),
            step.check.means if step.check is not None else "",
            step.touch.means if step.touch is not None else "",
            "by rule" if any(move.by == "rule" for move in step.moves) else "",
        )
    ]
    picked = [means for _, _, means, _ in one.zero.pick_up] if one.zero is not None else []
    said = (*steps, *picked, *one.next_notes, *caution_box(one))
    return " \n ".join(filter(None, said)).lower()


def said_words(
    one: WorkedSetUp, part: Part, units: Units, earlier: tuple[WorkedSetUp, ...]
) -> str:
    """Give all that a card says of a set-up, for the things it names, in small letters."""
    held = holding_words(one, part, units, earlier[-1] if earlier else None)
    tried = mill_first_words(one, units, earlier)
    true = f"{tried} {truing_words(one, part, units, earlier)}"
    return f"{held} \n {true} \n {step_words(one)}".lower()


def named_in(text: str, column: Column, have: tuple[str, ...]) -> tuple[str, ...]:
    """Name what a text asks for and a list has not yet.

    >>> named_in("grip it, soft copper under the jaws", "hold", ("machine vice",))
    ('soft copper sheet 0.5',)
    >>> named_in("grip it, soft copper under the jaws", "hold", ("soft copper 0.5",))
    ()
    """
    return tuple(
        one.name
        for one in NAMED
        if one.column == column
        and one.asks.search(text)
        and not any(one.stem in name.lower() for name in have)
    )
