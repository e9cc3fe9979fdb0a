"""docs/part-file.md: every example on the page is read and solved, and every kind has one."""

import re
from pathlib import Path

import pytest

from halfthou.drawing.grammar import KINDS
from halfthou.drawing.solve import solve
from halfthou.store.part_file import read_part_text
from halfthou.store.project_file import read_project_text

PAGE = (Path(__file__).parents[3] / "docs" / "part-file.md").read_text("utf-8")
EXAMPLES = re.findall(r"(?:<!-- (\w+) -->\n)?```toml\n(.*?)```", PAGE, flags=re.DOTALL)
WHOLE = [text for mark, text in EXAMPLES if not mark]
KINDS_OF_PART = ("turned", "milled", "lever", "cast")
BEGINNINGS = dict(zip(KINDS_OF_PART, WHOLE, strict=True))
GOES_WITH = [(mark, text) for mark, text in EXAMPLES if mark in BEGINNINGS]


@pytest.mark.parametrize("text", WHOLE, ids=KINDS_OF_PART)
def test_all_beginnings_are_whole_parts(text: str) -> None:
    assert solve(read_part_text(text, name="page.toml")).findings == ()


@pytest.mark.parametrize(
    ("mark", "text"), GOES_WITH, ids=[text.splitlines()[0] for _, text in GOES_WITH]
)
def test_every_example_is_solved_with_nothing_to_mend(mark: str, text: str) -> None:
    part = solve(read_part_text(f"{BEGINNINGS[mark]}\n{text}", name="page.toml"))

    assert [finding.what for finding in part.findings] == []


def test_the_example_of_a_project_is_read() -> None:
    (text,) = (text for mark, text in EXAMPLES if mark == "project")

    assert [part.quantity for part in read_project_text(text, name="p.toml").parts] == [1, 2]


def test_every_kind_of_feature_has_an_example() -> None:
    shown = set(re.findall(r"^\[(\w+)", "\n".join(text for _, text in EXAMPLES), re.MULTILINE))

    assert set(KINDS) - shown == {"plate"}, "a plate is another word for a block"
