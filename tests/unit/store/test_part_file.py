"""Part files read as written, and written back with nothing lost."""

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import tomlkit

from halfthou.store.part_file import changed, read_part, read_part_text
from halfthou.store.schema import part_file_schema

ROOT = Path(__file__).parents[3]
DEMO = Path(str(files("halfthou.demo")))
PARTS = [
    *sorted(path for path in DEMO.glob("*.toml") if path.name != "project.toml"),
    *sorted((ROOT / "tests" / "data" / "parts").glob("*.toml")),
]


@pytest.mark.parametrize("path", PARTS, ids=lambda path: path.stem)
def test_reading_keeps_the_text_character_for_character(path: Path) -> None:
    text = path.read_text("utf-8")

    assert read_part_text(text, name=path.name).source == text
    assert tomlkit.dumps(tomlkit.parse(text)) == text


@pytest.mark.parametrize("path", PARTS, ids=lambda path: path.stem)
def test_every_part_file_here_is_solved_and_nothing_grave_is_found(path: Path) -> None:
    part = read_part(path)

    assert [finding.what for finding in part.findings] == []


@pytest.mark.parametrize("path", PARTS, ids=lambda path: path.stem)
def test_every_part_file_here_fits_the_schema(path: Path) -> None:
    document: Any = tomlkit.parse(path.read_text("utf-8")).unwrap()

    jsonschema.validate(document, part_file_schema())


def test_the_schema_itself_is_sound_and_refuses_a_bare_number() -> None:
    schema = part_file_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    document: Any = tomlkit.parse(PARTS[0].read_text("utf-8")).unwrap()
    document["round"]["collar"]["long"] = 6.35

    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(document, schema)


def test_the_published_schema_is_the_one_the_reader_uses() -> None:
    published = json.loads((ROOT / "docs" / "part-file.schema.json").read_text("utf-8"))

    assert published == part_file_schema()


def test_changing_one_size_leaves_every_other_character() -> None:
    text = (DEMO / "arbor.toml").read_text("utf-8")
    written = read_part_text(text, name="arbor.toml")

    assert changed(written, table="keyway.key", key="leaves", text="12.9 mm") == text.replace(
        '"13 mm +0/-0.1"', '"12.9 mm"'
    )


def test_the_order_of_tables_carries_no_meaning_but_for_rounds() -> None:
    text = (ROOT / "tests" / "data" / "parts" / "flange-plate.toml").read_text("utf-8")
    head, *tables = text.split("\n[")
    turned_round = "\n[".join([head, *reversed(tables)])
    first = read_part_text(text, name="plate.toml")
    second = read_part_text(turned_round, name="plate.toml")

    assert {table.name for table in first.features} == {table.name for table in second.features}
