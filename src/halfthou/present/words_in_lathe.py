"""Work held in the lathe, put into words."""

from __future__ import annotations

from halfthou.present.words_held import Held, back_words, copper_words, end_out, grip_words


def soft_jaws_words(held: Held) -> str:
    """Say how work is held in soft jaws."""
    return f"{grip_words(held, f'in soft jaws bored {held.size}', 'their step')} {held.out}"


def four_jaw_words(held: Held) -> str:
    """Say how work is held in the four-jaw."""
    against = "the jaw steps or equal packing"
    return f"{grip_words(held, 'in the four-jaw', against)} {held.out}{copper_words(held)}"


def collet_words(held: Held) -> str:
    """Say how work is held in a collet."""
    return f"{grip_words(held, f'in the {held.size} collet', 'its stop')} {held.out}"


def centres_words(held: Held) -> str:
    """Say how work is held between centres."""
    tail = end_out(held.scheme)
    driven = "left" if tail == "right" else "right"
    where = f"driver on the {driven} end, {tail} end at the tailstock"
    return f"Between centres, {where}: no shake, no bind."


def mandrel_words(held: Held) -> str:
    """Say how work is held on a mandrel."""
    return (
        f"On a stub mandrel turned to a light push fit in {held.gripped}"
        f"{back_words(held, 'its shoulder')}; nut and washer. "
        f"{end_out(held.scheme).capitalize()} end out."
    )


def faceplate_words(held: Held) -> str:
    """Say how work is held on the faceplate."""
    seat = f"{held.seat} flat on it, " if held.seat else ""
    return f"On the faceplate, {seat}{end_out(held.scheme)} end out. Paper between."


def cross_slide_words(held: Held) -> str:
    """Say how work is bolted to the cross-slide, to be bored by a bar between centres."""
    seat = f", {held.seat} down" if held.seat else ""
    return (
        f"Bolted to the cross-slide in place of the top-slide{seat} on packing, until the bar, "
        "held between centres and driven, runs down the middle of the core. Lock the cross-slide."
    )
