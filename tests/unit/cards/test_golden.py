"""Every word of a whole job, as it stood when it was last read through."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

import pytest

from halfthou.present.card_view import CoverView, SetUpView

GOLDEN = Path(__file__).parents[2] / "golden" / "barrel_end_by_hand.json"


@pytest.mark.pinned
def test_no_word_of_the_barrel_ends_cards_has_changed(
    cover: CoverView, set_ups: tuple[SetUpView, ...]
) -> None:
    words = {"cover": asdict(cover), "set-ups": [asdict(one) for one in set_ups]}

    assert json.loads(json.dumps(words)) == json.loads(GOLDEN.read_text(encoding="utf-8"))
