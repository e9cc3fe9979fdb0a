"""A barrel end worked out by hand: what a planner hands over, to try words and sheets on."""

from __future__ import annotations

import math
from pathlib import Path

from halfthou.drawing.geometry import Cylinder, Region
from halfthou.drawing.model import Band, Part
from halfthou.planning.model import (
    Link,
    Operation,
    Plan,
    Reason,
    Scheme,
    SetUp,
    Unjudged,
)
from halfthou.planning.worked import (
    CoarseCheck,
    Feed,
    Measure,
    Move,
    Pass,
    Place,
    Step,
    Wanted,
    Worked,
    WorkedSetUp,
    Zero,
)
from halfthou.present.card_view import Pictures
from halfthou.present.set_up_card import Job
from halfthou.store.part_file import read_part
from halfthou.units import DEGREE
from halfthou.workshop.default import default_workshop
from halfthou.workshop.model import HoldingDevice

SHOP = default_workshop()
PART_TEXT = """
[part]
name = "barrel end"
material = "gunmetal"
units = "mm"
otherwise = "ISO 2768-mK"

[blank]
bar = "round 70 x 32"

[round.flange]
diameter = "64"
long = "8"

[round.spigot]
diameter = "32 h8"
long = "14"
must = "run-out to bore within 0.03"

[hole.recess]
in = "left"
size = "40 bored x 4"

[hole.bore]
in = "left"
size = "16 H7 through"

[hole.ring]
in = "left"
size = "4.5 through"
copies = "6 on 52 circle, first at top"
must = "in position to bore within 0.2"
"""


def barrel_end(folder: Path) -> Part:
    """Read the part as the program would."""
    file = folder / "barrel-end.toml"
    file.write_text(PART_TEXT, encoding="utf-8")
    return read_part(file)


def device(name: str) -> HoldingDevice:
    return next(d for d in SHOP.holding if d.device == name)


def scheme(key: str, machine: str, holder: str, **more: object) -> Scheme:
    told: dict[str, object] = {
        "key": key,
        "machine": machine,
        "links": (Link(holder=device(holder)),),
        "faces": (1.0, 0.0, 0.0),
        "across": (0.0, 1.0, 0.0),
        "grips": ("stock outside",),
        "seats": (),
        "grip_low": 22.0,
        "grip_high": 31.0,
        "grip_size": 70.0,
        "inside": False,
        "centre": False,
        "stick_out": 22.0,
        "true_on": (),
        "error": 0.1,
        "minutes": 5.0,
        "can": frozenset[str](),
        "need": (),
        "ban": (),
    }
    return Scheme(**(told | more))  # type: ignore[arg-type]


def operation(key: str, verb: str, feature: str, **more: object) -> Operation:
    told: dict[str, object] = {
        "key": key,
        "verb": verb,
        "stage": "only",
        "feature": feature,
        "machine": "lathe",
        "makes": (),
        "region": (),
        "approach": ((1.0, 0.0, 0.0),),
        "tools": (),
        "minutes": 3.0,
    }
    return Operation(**(told | more))  # type: ignore[arg-type]


def step(number: int, *operations: Operation, tool: str, **more: object) -> Step:
    told: dict[str, object] = {
        "number": number,
        "operations": operations,
        "tool": tool,
        "tool_out": None,
        "speed": None,
        "feed": None,
        "passes": (),
        "moves": (),
        "places": (),
        "aim": None,
        "band": None,
        "measures": (),
        "fluid": "dry",
        "lock": (),
        "check": None,
        "remarks": (),
        "cautions": (),
        "minutes": 3.0,
    }
    return Step(**(told | more))  # type: ignore[arg-type]


def power(per_turn: float) -> Feed:
    return Feed(kind="power", per_turn=per_turn)


def hand(per_turn: float, seconds: float) -> Feed:
    return Feed(kind="hand", per_turn=per_turn, seconds_a_handle_turn=seconds)


def cross(to: float, turns: int, divisions: float, sense: str = "in") -> Move:
    return Move(
        slide="cross-slide",
        to=to,
        turns=turns,
        divisions=divisions,
        reads="radius",
        sense=sense,  # type: ignore[arg-type]
    )


def saddle(to: float, turns: int, divisions: float) -> Move:
    return Move(
        slide="saddle", to=to, turns=turns, divisions=divisions, reads="travel", sense="left"
    )


def band(text: str, nominal: float, low: float, high: float, origin: str = "drawn") -> Band:
    return Band(
        nominal=nominal,
        low=low,
        high=high,
        text=text,
        origin=origin,  # type: ignore[arg-type]
        place="barrel-end.toml",
    )


def measure(kind: str, gauge: str, aim: float, low: float, high: float, **more: object) -> Measure:
    told: dict[str, object] = {
        "surface": "",
        "gauge": gauge,
        "aim": aim,
        "low": low,
        "high": high,
        "doubt": 0.03,
        "kind": kind,
    }
    return Measure(**(told | more))  # type: ignore[arg-type]


H7 = band("16 H7", 16.0, 16.0, 16.018)
h8 = band("32 h8", 32.0, 31.961, 32.0)
RECESS = band("40", 40.0, 39.7, 40.3, "general")
DEEP = band("4", 4.0, 3.9, 4.1, "general")


def _second() -> WorkedSetUp:
    ops = (
        operation("face left", "face", "left", from_size=1.5),
        operation("bore spot", "spot", "bore", at=((0.0, 0.0, 0.0),)),
        operation(
            "bore pilot", "drill", "bore", cut_size=7.0, through=True, at=((0.0, 0.0, 0.0),)
        ),
        operation(
            "bore drill", "drill", "bore", cut_size=13.0, through=True, at=((0.0, 0.0, 0.0),)
        ),
        operation(
            "recess", "bore", "recess", stage="only", cut_size=40.0, ends=4.0, makes=("recess",)
        ),
        operation("bore bore", "bore", "bore", stage="rough", cut_size=15.8, through=True),
        operation(
            "bore ream", "ream", "bore", stage="finish", cut_size=16.0, through=True, size=H7
        ),
    )
    steps = (
        step(
            1,
            ops[0],
            tool="facing tool",
            tool_out=15.0,
            speed=165.0,
            feed=hand(0.1, 3.6),
            passes=(Pass(count=2, depth=0.75, leaves=0.0),),
            moves=(saddle(0.0, 0, 0.0),),
            lock=("saddle",),
            aim=22.0,
            band=band("22", 22.0, 21.8, 22.2),
            measures=(measure("length", "caliper", 22.0, 21.8, 22.2, doubt=0.04),),
        ),
        step(
            2,
            ops[1],
            tool="centre drill BS 1/8",
            speed=980.0,
            feed=hand(0.05, 4.0),
            moves=(
                Move(
                    slide="tailstock",
                    to=3.0,
                    turns=0,
                    divisions=0.0,
                    reads="travel",
                    sense="in",
                    by="rule",
                ),
            ),
        ),
        step(
            3,
            ops[2],
            ops[3],
            tool="drill 7 mm, drill 13 mm",
            speed=590.0,
            feed=hand(0.12, 5.0),
            remarks=(
                "draw back and clear the chips at every diameter of depth",
                "lips of the drill dulled with a stone, or it grabs",
            ),
            moves=(
                Move(
                    slide="tailstock",
                    to=28.0,
                    turns=0,
                    divisions=0.0,
                    reads="travel",
                    sense="in",
                    by="rule",
                ),
            ),
            cautions=("the drill grabs as it breaks through: ease the feed",),
        ),
        step(
            4,
            ops[4],
            tool="boring tool, 10 bar",
            tool_out=25.0,
            speed=210.0,
            feed=power(0.1),
            passes=(
                Pass(count=12, depth=1.0, leaves=37.0),
                Pass(count=2, depth=0.75, leaves=40.0, purpose="finish"),
            ),
            moves=(saddle(4.0, 1, 20.0), cross(13.5, 6, 75.0, "out")),
            lock=("saddle",),
            aim=40.0,
            band=RECESS,
            measures=(
                measure(
                    "bore", "caliper, inside jaws", 40.0, 39.7, 40.3, doubt=0.065, band=RECESS
                ),
                measure("depth", "caliper, depth rod", 4.0, 3.9, 4.1, doubt=0.06, band=DEEP),
            ),
        ),
        step(
            5,
            ops[5],
            tool="boring tool, 10 bar",
            tool_out=30.0,
            speed=350.0,
            feed=power(0.05),
            passes=(
                Pass(count=2, depth=0.6, leaves=15.4),
                Pass(count=2, depth=0.1, leaves=15.8, purpose="finish"),
                Pass(count=1, depth=0.0, leaves=15.8, purpose="spring"),
            ),
            moves=(cross(1.4, 0, 70.0, "out"),),
            measures=(
                measure(
                    "bore",
                    "telescopic gauge and micrometer",
                    15.8,
                    15.8,
                    15.8,
                    doubt=0.026,
                    decides=False,
                ),
            ),
        ),
        step(
            6,
            ops[6],
            tool="reamer 16 mm",
            speed=60.0,
            feed=hand(0.3, 7.0),
            fluid="cutting oil",
            aim=16.009,
            band=H7,
            remarks=("wipe the bore, then the plug",),
            check=CoarseCheck(
                what="the bore", means="caliper, inside jaws", expect=15.8, within=0.1
            ),
            measures=(
                measure(
                    "bore",
                    "plug gauge, shop made",
                    16.009,
                    16.0,
                    16.018,
                    doubt=0.006,
                    band=H7,
                    to_make=True,
                ),
            ),
        ),
    )
    off: tuple[Region, ...] = (
        Cylinder(start=(-2.0, 0.0, 0.0), end=(0.0, 0.0, 0.0), diameter=74.0),
        Cylinder(start=(-2.0, 0.0, 0.0), end=(24.0, 0.0, 0.0), diameter=16.009),
        Cylinder(start=(-2.0, 0.0, 0.0), end=(4.0, 0.0, 0.0), diameter=40.0),
    )
    return WorkedSetUp(
        number=1,
        of=2,
        set_up=SetUp(
            scheme=scheme(
                "soft jaws",
                "lathe",
                "soft jaws",
                grips=("spigot",),
                seats=("flange right",),
                faces=(-1.0, 0.0, 0.0),
                grip_low=8.0,
                grip_high=21.0,
                grip_size=32.0,
                stick_out=8.0,
                true_on=(("spigot", 0.015), ("flange right", 0.02)),
            ),
            operations=ops,
        ),
        zero=Zero(
            at=(0.0, 0.0, 0.0),
            surfaces=("left",),
            pick_up=(
                ("x", "left", "0.05 feeler", 0.05),
                ("y", "bore", "boring tool just touching", 0.0),
            ),
        ),
        steps=steps,
        before=(),
        off=off,
        wanted=(
            Wanted(
                step=4,
                kind="diameter",
                surfaces=("recess",),
                a=(2.0, 20.0, 0.0),
                b=(2.0, -20.0, 0.0),
                band=RECESS,
                value=40.0,
            ),
            Wanted(
                step=6,
                kind="diameter",
                surfaces=("bore",),
                a=(12.0, 8.0, 0.0),
                b=(12.0, -8.0, 0.0),
                band=H7,
                value=16.009,
            ),
            Wanted(
                step=4,
                kind="depth",
                surfaces=("left", "recess floor"),
                a=(0.0, 20.0, 0.0),
                b=(4.0, 20.0, 0.0),
                band=DEEP,
                value=4.0,
            ),
            Wanted(
                step=1,
                kind="length",
                surfaces=("left", "right"),
                a=(0.0, 32.0, 0.0),
                b=(22.0, 16.0, 0.0),
                band=band("22", 22.0, 21.8, 22.2),
                value=22.0,
            ),
        ),
        hold_notes=(),
        true_notes=(),
        cautions=(
            "turn the work once by hand before switching on: jaws clear of bed, saddle and tool",
            "key out of the chuck",
            "no finger, rag or emery in the bore while it turns",
        ),
        reasons=(
            Reason(
                set_up=1,
                text="recess and bore at one setting, so they are true to each other",
            ),
        ),
        mark="",
        next_notes=("the bore is what the ring of holes is picked up from",),
        rest_here=False,
        minutes=64.0,
    )


def _holes() -> tuple[Place, ...]:
    places = []
    for n in range(6):
        angle = math.pi / 2 - n * 60 * DEGREE
        x, y = 26 * math.cos(angle), 26 * math.sin(angle)

        def move(slide: str, value: float, senses: tuple[str, str]) -> Move:
            turns, rest = divmod(abs(value), 2.0)
            return Move(
                slide=slide,  # type: ignore[arg-type]
                to=abs(value),
                turns=int(turns),
                divisions=round(rest / 0.02),
                reads="travel",
                sense=senses[0] if value >= 0 else senses[1],  # type: ignore[arg-type]
            )

        moves = (move("table", x, ("right", "left")), move("cross-table", y, ("away", "toward")))
        places.append(Place(label=str(n + 1), at=(0.0, y, x), x=x, y=y, moves=moves))
    return tuple(places)


def _third() -> WorkedSetUp:
    at = tuple((0.0, place.y, place.x) for place in _holes())
    ops = (
        operation("ring spot", "spot", "ring", machine="mill", at=at),
        operation(
            "ring drill", "drill", "ring", machine="mill", at=at, cut_size=4.5, through=True
        ),
        operation("ring edges", "deburr", "ring", machine="bench", at=at),
    )
    steps = (
        step(
            1,
            ops[0],
            tool="centre drill BS 1/8",
            speed=1900.0,
            feed=hand(0.05, 2.0),
            places=_holes(),
            remarks=("come up to every place from the same side",),
        ),
        step(
            2,
            ops[1],
            tool="drill 4.5 mm",
            speed=1900.0,
            feed=hand(0.08, 2.0),
            places=_holes(),
            measures=(measure("bore", "caliper, inside jaws", 4.5, 4.4, 4.6, decides=False),),
            cautions=("the drill grabs as it breaks through: ease the feed",),
        ),
        step(3, ops[2], tool="countersink 90°", feed=hand(0.0, 0.0)),
    )
    return WorkedSetUp(
        number=2,
        of=2,
        set_up=SetUp(
            scheme=scheme(
                "chuck on the table",
                "mill",
                "chuck on the mill table",
                grips=("spigot",),
                seats=("flange right",),
                faces=(-1.0, 0.0, 0.0),
                across=(0.0, 0.0, 1.0),
                grip_low=8.0,
                grip_high=21.0,
                grip_size=32.0,
                true_on=(("bore", 0.02),),
            ),
            operations=ops,
        ),
        zero=Zero(
            at=(0.0, 0.0, 0.0),
            surfaces=("bore",),
            pick_up=(
                ("table and cross-table", "bore", "clock", 0.0),
                ("quill", "left", "feeler paper", 0.0),
            ),
        ),
        steps=steps,
        before=(),
        off=(),
        wanted=(),
        hold_notes=(),
        true_notes=(),
        cautions=("nothing loose on the table; brush the swarf away with the spindle stopped",),
        reasons=(),
        mark="",
        next_notes=(),
        rest_here=False,
        minutes=31.0,
    )


def worked() -> Worked:
    return Worked(
        set_ups=(_second(), _third()),
        saw=26.0,
        tools=(
            ("facing tool", (1, 2)),
            ("knife tool", (1,)),
            ("centre drill BS 1/8", (2, 3)),
            ("drill 7 mm", (2,)),
            ("drill 13 mm", (2,)),
            ("boring tool, 10 bar", (2,)),
            ("reamer 16 mm", (2,)),
            ("drill 4.5 mm", (3,)),
            ("countersink 90°", (3,)),
        ),
        gauges=(
            ("micrometer 25-50", (1,)),
            ("caliper", (1, 2)),
            ("caliper, inside jaws", (2,)),
            ("caliper, depth rod", (1, 2)),
            ("telescopic gauge and micrometer", (2,)),
            ("plug gauge, shop made", (2,)),
            ("0.01 clock", (2, 3)),
            ("0.05 feeler", (1, 2)),
        ),
        sources=(
            "Limits of 16 H7, 32 h8: ISO 286-1.",
            "Sizes without limits: ISO 2768-1 medium.",
            "Speeds, cuts, allowances: usual practice.",
        ),
    )


def plan() -> Plan:
    return Plan(
        set_ups=tuple(one.set_up for one in worked().set_ups),
        blank_size=(26.0, 70.0, 70.0),
        minutes=133.0,
        bound=133.0,
        proved=True,
        up_to_set_ups=5,
        unjudged=(
            Unjudged(
                surface="bore",
                size=H7,
                best_gauge="telescopic gauge and micrometer",
                doubt=0.026,
                remedies=(
                    "a go and no-go plug",
                    "a borrowed bore gauge",
                    "finishing to the mate",
                ),
            ),
        ),
    )


def job(folder: Path, **more: object) -> Job:
    told: dict[str, object] = {
        "part": barrel_end(folder),
        "plan": plan(),
        "worked": worked(),
        "workshop": SHOP,
    }
    return Job(**(told | more))  # type: ignore[arg-type]


def plain_picture(words: str = "", width: int = 100, height: int = 80) -> str:
    """Give a picture as plain as can be: a frame with a word in it."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}"><rect x="1" y="1" width="{width - 2}" '
        f'height="{height - 2}" fill="none" stroke="#16181c" stroke-width="0.5"/>'
        f'<text x="5" y="10" font-family="Fira Sans" font-size="3.5">{words}</text></svg>'
    )


def plain_pictures() -> Pictures:
    return Pictures(
        part=plain_picture("the part"),
        way=tuple(plain_picture(f"{n}", 40, 40) for n in (1, 2, 3)),
        set_ups=tuple(plain_picture(f"set-up {n}") for n in (1, 2, 3)),
    )
