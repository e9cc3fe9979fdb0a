"""Shop mathematics against answers printed by others."""

from __future__ import annotations

import csv
import math
from fractions import Fraction
from pathlib import Path

import pytest

from halfthou.handbook import shop_maths as maths

CHECKS = Path(__file__).parents[2] / "data" / "shop_math_checks.csv"


def printed(topic: str, problem: str) -> str:
    lines = CHECKS.read_text("utf-8").splitlines()
    for row in csv.DictReader(line for line in lines if not line.startswith("# ")):
        if row["topic"] == topic and row["problem"].startswith(problem):
            return row["printed"]
    raise LookupError(f"{topic}: {problem}")


@pytest.mark.published(source="Machinery's Handbook 23, p. 950, and its jig-boring table")
def test_holes_on_a_circle_stand_at_the_printed_coordinates() -> None:
    three = maths.pitch_circle(count=3, diameter=4, first=math.pi / 2)
    five = maths.pitch_circle(count=5, diameter=1, first=math.pi / 2)
    twelve = maths.pitch_circle(count=12, diameter=8, first=math.radians(15))

    assert abs(three[1][0]) == pytest.approx(
        float(printed("bolt circle", "3 holes on 4 in")), abs=5e-5
    )
    assert abs(five[1][0]) == pytest.approx(
        float(printed("bolt circle", "5 holes dia 1: x2")), abs=5e-6
    )
    assert five[1][1] == pytest.approx(
        float(printed("bolt circle", "5 holes dia 1: y2")), abs=5e-6
    )
    assert twelve[0][1] == pytest.approx(
        float(printed("bolt circle", "12 holes on 8 in")), abs=5e-6
    )


@pytest.mark.derived(by="equal steps round a circle close on themselves")
def test_dividers_set_to_the_chord_step_round_the_circle() -> None:
    holes = maths.pitch_circle(count=6, diameter=56, first=math.pi / 2, centre=(50, 40))
    step = maths.chord(diameter=56, angle=2 * math.pi / 6)

    assert holes[0] == pytest.approx((50, 68))
    assert all(
        math.dist(a, b) == pytest.approx(step)
        for a, b in zip(holes, (*holes[1:], holes[0]), strict=True)
    )


@pytest.mark.published(source="printed answers: arcs, keyway, taper set-over, sine bar")
def test_arcs_keyways_tapers_and_sine_bars_give_the_printed_answers() -> None:
    assert maths.arc_radius(chord=96, rise=24) == float(printed("arc", "chord 96 rise 24"))
    assert maths.arc_radius(chord=36, rise=0.719) == pytest.approx(
        float(printed("arc", "chord 36")), abs=0.05
    )
    assert maths.flat_rise(diameter=1, width=0.25) == pytest.approx(
        float(printed("keyway", "shaft dia 1.000")), abs=5e-5
    )
    assert maths.tailstock_set_over(ratio=1 / 24, length=18) == float(
        printed("taper set-over", "1/2 in/ft, 18 in")
    )
    assert maths.tailstock_set_over(ratio=0.0625, length=15) == float(
        printed("taper set-over", ".0625 in/in, 15 in")
    )
    for angle in (27, 18):
        assert maths.sine_bar_stack(bar=5, angle=math.radians(angle)) == pytest.approx(
            float(printed("sine bar", f"5 in, {angle} deg")),
            abs=1e-4,  # printed to three or two places
        )


@pytest.mark.published(
    source="Turning and Boring Tapers (1902), with its two misread rows left out"
)
@pytest.mark.parametrize("angle", [1, 20, 25, 30, 45])
def test_the_taper_of_an_angle_is_the_printed_one_and_goes_back(angle: int) -> None:
    ratio = maths.taper_ratio(math.radians(angle))

    assert ratio == pytest.approx(
        float(printed("taper", f"included {angle} deg -> taper per inch")), abs=2e-5
    )
    assert math.degrees(maths.taper_angle(ratio)) == pytest.approx(angle)


@pytest.mark.published(source="dividing head tables: 6 and 42 divisions")
def test_indexing_gives_the_printed_turns_and_holes() -> None:
    six = maths.indexing_turns(6)

    assert maths.holes_in_circle(six, 39) == (6, 26)
    assert maths.holes_in_circle(six, 18) == (6, 12)
    assert maths.holes_in_circle(maths.indexing_turns(42), 21) == (0, 20)
    assert maths.holes_in_circle(Fraction(40, 51), 39) is None


def test_what_cannot_be_reckoned_is_refused() -> None:
    with pytest.raises(ValueError, match="a circle of 0 holes"):
        maths.pitch_circle(count=0, diameter=10)
    with pytest.raises(ValueError, match="a flat 12 mm wide does not go"):
        maths.flat_rise(diameter=10, width=12)
    with pytest.raises(ValueError, match="an arc with a rise of 0 mm"):
        maths.arc_radius(chord=10, rise=0)
    with pytest.raises(ValueError, match="0 divisions"):
        maths.indexing_turns(0)
