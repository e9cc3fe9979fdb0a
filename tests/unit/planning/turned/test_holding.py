"""How turned work is held: what each grip may cut, and what it must not."""

from __future__ import annotations

from halfthou.planning.assemble import Case
from halfthou.planning.model import Scheme

from .parts import cases_of, sawn

SHAFT = """
[blank]
bar = "round 18 x 400"
[round.journal]
diameter = "12 f7"
long = "60"
[round.seat]
diameter = "16 k6"
long = "30"
must = "run-out to journal within 0.02"
"""
CENTRED = SHAFT + '[centres]\nboth = "BS 1/8"\nleft_in = {}\n'


def named(case: Case, *words: str) -> list[Scheme]:
    return [s for s in case.schemes if all(word in s.key for word in words)]


def test_a_slender_round_is_not_finished_without_a_centre() -> None:
    # 60 of a 12 mm journal stand out: five diameters.
    free = named(sawn(SHAFT), "left end out")
    carried = named(sawn(CENTRED.format("true")), "left end out", "tailstock centre")

    assert not any("journal finish from left" in s.can for s in free)
    assert any("journal finish from left" in s.can for s in carried)


def test_stick_out_counts_the_metal_beyond_the_finished_end() -> None:
    case = sawn(SHAFT)
    on_bar = named(case, "on the bar", "right end out")[0]

    assert case.stock is not None
    assert on_bar.stick_out == case.stock.high - on_bar.grip_high


def test_no_hard_jaws_on_metal_that_is_finished() -> None:
    for scheme in sawn(SHAFT).schemes:
        if scheme.device.device == "three-jaw chuck":
            assert scheme.grips[0].startswith("stock") or "as roughed" in scheme.grips[0]
        if scheme.device.device == "four-jaw chuck":
            assert "soft pads" in scheme.reason


def test_what_goes_into_the_chuck_is_turned_down_first() -> None:
    case = sawn(SHAFT)
    soft = named(case, "soft jaws bored to the seat", "right end out")[0]

    assert "journal rough from left" in {key for key, _ in soft.need}


def test_a_centre_that_is_faced_off_stays_while_the_work_hangs_on_it() -> None:
    case = sawn(CENTRED.format("false"))
    between = named(case, "between centres")

    assert between
    for scheme in between:
        waits = {key for key, _ in scheme.ban}
        assert {"face left to finish", "face right to finish"} <= waits


def test_a_chucking_piece_too_thick_to_part_is_sawn_off() -> None:
    disc = '[blank]\nbar = "round 60 x 200"\n[round.disc]\ndiameter = "56"\nlong = "20"\n'
    thin = disc.replace("60", "25").replace("56", "22")

    assert {c.stock.sawn_off for c in cases_of(disc)[1:] if c.stock} == {True}
    assert {c.stock.sawn_off for c in cases_of(thin)[1:] if c.stock} == {False}
