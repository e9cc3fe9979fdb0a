from __future__ import annotations

import pytest

from halfthou.handbook.capability import capability_of, processes_for


@pytest.mark.pinned
def test_processes_hold_the_grades_of_the_chart_as_recalled() -> None:
    held = {
        process: (found.finest, found.coarsest)
        for process in ("drill", "ream", "bore", "turn", "mill")
        if (found := capability_of(process))
    }

    assert held == {
        "drill": (10, 13),
        "ream": (6, 10),
        "bore": (8, 13),
        "turn": (7, 13),
        "mill": (10, 13),
    }


def test_the_cheapest_process_that_holds_the_grade_comes_first() -> None:
    assert processes_for(11, "inside")[0].process == "drill"
    assert processes_for(8, "inside")[0].process == "bore"
    assert processes_for(7, "inside")[0].process == "ream"
    assert processes_for(7, "outside")[0].process == "turn"
    assert processes_for(6, "outside")[0].process == "grind round"
    assert capability_of("whittle") is None


def test_a_finer_finish_leaves_fewer_processes() -> None:
    smooth = processes_for(11, "inside", roughness=0.0008)

    assert "drill" not in [each.process for each in smooth]
    assert smooth[0].process == "mill"
