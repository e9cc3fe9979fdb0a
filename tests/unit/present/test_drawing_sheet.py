from __future__ import annotations

from halfthou.drawing.solve import solve
from halfthou.present.drawing_sheet import SheetRow, drawing_rows
from halfthou.store.part_file import read_part_text

BUSH = """
[part]
name = "depthing bush"
material = "phosphor bronze"
units = "mm"
otherwise = "ISO 2768-mK"

[blank]
bar = "round 25 x 60"

[round.body]
diameter = "20 h9"
long = "12"
must = "run-out to bore within 0.02"

[hole.bore]
in = "right"
size = "8 H7 through"
"""


def test_sizes_stand_by_feature_in_the_authors_own_text() -> None:
    rows = drawing_rows(solve(read_part_text(BUSH, name="bush.toml")))

    assert [group.feature for group in rows][:2] == ["body", "bore"]
    assert rows[0].rows == (
        SheetRow(what="diameter", drawn="20 h9", allows="19.948–20.000", origin="as drawn"),
        SheetRow(what="long", drawn="12", allows="11.80–12.20", origin="general tolerance"),
        SheetRow(what="must", drawn="run-out to bore within 0.02", allows="", origin="as drawn"),
    )


def test_what_is_taken_as_meant_stands_last_and_together() -> None:
    rows = drawing_rows(solve(read_part_text(BUSH, name="bush.toml")))

    assert rows[-1].feature == "taken as meant"
    assert {row.origin for row in rows[-1].rows} == {""}
