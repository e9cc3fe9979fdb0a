"""The pages on the workshop and project files: every example is read, every key is named."""

import re
from dataclasses import fields
from pathlib import Path
from typing import get_args, get_type_hints

import pytest

from halfthou.store.project_file import read_project_text
from halfthou.store.workshop_file import read_workshop
from halfthou.workshop.described import KINDS
from halfthou.workshop.model import Device, Dial, DrillSet, Gauge, Tool

DOCS = Path(__file__).parents[3] / "docs"
WORKSHOP = (DOCS / "workshop-file.md").read_text("utf-8")
PROJECT = (DOCS / "project-file.md").read_text("utf-8")


def examples(page: str) -> list[str]:
    return re.findall(r"```toml\n(.*?)```", page, flags=re.DOTALL)


@pytest.mark.parametrize("text", examples(WORKSHOP))
def test_every_example_of_a_workshop_is_read(text: str, tmp_path: Path) -> None:
    path = tmp_path / "workshop.toml"
    path.write_text(text, "utf-8")

    assert not read_workshop(path).built_in


@pytest.mark.parametrize("text", examples(PROJECT))
def test_every_example_of_a_project_is_read(text: str) -> None:
    assert read_project_text(text, name="project.toml").parts


@pytest.mark.parametrize("kind", [*KINDS.values(), Dial, DrillSet])
def test_every_key_of_a_workshop_is_told(kind: type) -> None:
    told = set(re.findall(r"`(\w+)`", WORKSHOP))
    ending = re.compile("_(mm|kw|rev_min)$")
    stems = told | {ending.sub("", key) for key in told}

    assert {field.name for field in fields(kind)} - stems == set()


@pytest.mark.parametrize("words", [Device, Tool, Gauge])
def test_every_kind_of_thing_is_told(words: object) -> None:
    kinds = get_args(get_type_hints(words)["kind"] if isinstance(words, type) else words)

    assert kinds
    assert [kind for kind in kinds if f"`{kind}`" not in WORKSHOP.replace("\n", " ")] == []
