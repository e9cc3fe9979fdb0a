"""What lies under work in the vice: a pair of the set, shim on it, or strips below the lowest."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.unit.planning.working.handmade import COLLAR, SHAFT, SHOP, on_the_mill, wall

from halfthou.planning.at_bench import bench_scheme
from halfthou.planning.milled.held_sides import in_the_set
from halfthou.planning.milled.on_round_holding import schemes_mill_on_round
from halfthou.planning.model import Link, Operation, Scheme
from halfthou.planning.treatment import HEARTH
from halfthou.planning.working import words
from halfthou.present.words_held import Held
from halfthou.present.words_holding import holding_in_short
from halfthou.present.words_kit_said import named_in
from halfthou.present.words_on_mill import (
    bench_vice_words,
    clamps_words,
    parallels_words,
    vice_words,
)

UP = (0.0, 0.0, 1.0)
VICE = next(d for d in SHOP.holding if d.device == "vice")


def gripped(grip: float, **rest: object) -> Scheme:
    """Give a block held in the vice, so much of the jaws' depth on it."""
    base: dict[str, object] = {
        "faces": UP, "across": (1.0, 0.0, 0.0), "grips": ("front", "back"), "seats": ("bottom",),
        "grip_low": 0.0, "grip_high": grip, "true_on": (), "parallels": (25.0 - grip, 6.0),
    }  # fmt: skip
    return on_the_mill(**(base | rest)).scheme  # type: ignore[arg-type]


@pytest.mark.derived(by="jaws 25 deep less the grip; the set goes from 8 by twos")
@pytest.mark.parametrize(
    ("grip", "says"),
    [
        (13.0, "two parallels 12 high"),
        (13.7, "two parallels 10 high and 1.3 of shim"),
        (18.7, "two strips of flat stock 6 high, alike"),
        (22.0, "two strips of flat stock 3 high, alike"),
        (24.5, "the bed of the vice"),
    ],
)
def test_what_lies_under_is_what_there_is(grip: float, says: str) -> None:
    assert VICE.jaw_depth == 25.0
    assert parallels_words(gripped(grip), "mm") == says


@pytest.mark.derived(by="jaws closed on 4 leave room for 3 between them, and 25 - 11 = 14 high")
def test_a_disc_on_its_rim_is_told_how_high_and_how_thick_its_parallel_is() -> None:
    disc = gripped(11.0, across=(0.0, 1.0, 0.0), grip_size=4.0, parallels=None)

    assert parallels_words(disc, "mm", of_turned=True) == "one parallel 14 high, no thicker than 3"


def _keyway(across: float) -> tuple[Scheme, ...]:
    size = replace(COLLAR, nominal=across, low=across - 0.2, high=across + 0.2)
    seat = wall("seat", 0.0, 60.0, size)
    part = replace(SHAFT, surfaces=(*SHAFT.surfaces[:2], seat))
    keyway = Operation(
        key="key", verb="mill keyway", stage="only", feature="key", machine="mill", makes=(),
        region=(), approach=(UP,), tools=("slot drill 5",), minutes=5.0,
    )  # fmt: skip
    found, _ = schemes_mill_on_round(part, SHOP, (keyway,))
    return tuple(one for one in found if one.device.device == "vice")


@pytest.mark.derived(by="over the middle, no higher than half the radius above it, on 8, 10 .. 40")
@pytest.mark.parametrize("across", [8.0, 12.7, 16.0, 20.0, 30.0])
def test_a_round_lies_on_a_parallel_of_the_set_with_the_jaws_over_its_middle(
    across: float,
) -> None:
    (held,) = _keyway(across)
    grip = held.grip_high - held.grip_low
    high = VICE.jaw_depth - grip

    assert in_the_set(high) or high == 0
    assert across / 2 < grip <= across / 2 * 1.75


def test_a_round_lies_bare_on_the_fixed_jaw_its_zero_is_taken_from() -> None:
    level = gripped(9.0, faces=UP, across=(1.0, 0.0, 0.0), grips=("journal",), seats=("journal",))
    upright = replace(level, faces=(1.0, 0.0, 0.0), across=(0.0, 1.0, 0.0))
    said = [
        vice_words(Held(scheme=one, part=SHAFT, units="mm", standing=(0.0, 0.0)))
        for one in (level, upright)
    ]

    assert "The far jaw is fixed, the work bare on it; soft copper 0.5 at the near" in said[0]
    assert "Soft copper 0.5 under the jaws." in said[1]


@pytest.mark.parametrize(
    ("remark", "thing"),
    [
        (words.BY_MANDREL_HANDLE, "mandrel handle"),
        (words.STRIP_HELD, "cover for the bed"),
        (words.LAP_HELD, "cover for the bed"),
        ("down on one parallel, a piece of the same diameter at the other end of the jaws",
         "piece of the round's own diameter"),
    ],
)  # fmt: skip
def test_what_a_step_names_is_laid_out(remark: str, thing: str) -> None:
    assert thing in named_in(remark.lower(), "hold", ())


def _at_the_bench(key: str, detail: str = "") -> Held:
    bench = next(d for d in SHOP.holding if d.device == "bench vice")
    link = Link(holder=bench, detail=detail)
    scheme = replace(bench_scheme(bench, key=key, can=frozenset()), links=(link,))
    return Held(scheme=scheme, part=SHAFT, units="mm", standing=(0.0, 0.0))


def test_nothing_is_heated_in_the_vice() -> None:
    hot = _at_the_bench(HEARTH)

    assert bench_vice_words(hot) == (
        "On the hearth, on firebrick; lifted in warmed tongs, or by wire through a hole."
    )
    assert holding_in_short(hot.scheme) == "hearth"
    assert bench_vice_words(_at_the_bench("bench vice")) == "In the bench vice."
    soft = _at_the_bench("bench vice", "soft jaws on finished faces")
    assert bench_vice_words(soft) == "In the bench vice, soft jaws on finished faces."


def test_the_pen_has_one_name() -> None:
    assert named_in("its name goes on with a felt pen", "measure", ()) == ("felt pen",)
    assert named_in("mark the work against no. 1 jaw", "measure", ()) == ("felt pen",)


def _clamped(detail: str) -> Held:
    scheme = on_the_mill(device="clamps", faces=UP, across=(1.0, 0.0, 0.0), grips=(),
                         seats=("bottom",), true_on=()).scheme  # fmt: skip
    link = Link(holder=scheme.links[-1].holder, detail=detail)
    part = replace(SHAFT, features=())
    return Held(scheme=replace(scheme, links=(link,)), part=part, units="mm", standing=(0, 0))


def test_clamps_are_told_where_they_go() -> None:
    said = clamps_words(_clamped("clamps straight over the seat, on both ends of the foot top"))

    assert "clamps on both ends of the foot top, straight over them" in said


def test_work_held_by_one_strap_is_told_of_no_other_clamps() -> None:
    said = clamps_words(_clamped("the halves set edge to edge, one strap across the middle"))

    assert "clamps" not in said


def test_docs_have_one_word_for_a_plug_of_two_ends() -> None:
    page = (Path(__file__).parents[3] / "docs" / "words.md").read_text(encoding="utf-8")

    assert "| go and no-go plug |" in page
    assert "plug pair" not in page
    assert "go and no-go plug" in words.PLUG
