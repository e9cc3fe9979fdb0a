"""Every table says where it was printed; every formula is checked against an outside number."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "halfthou"
TABLES = sorted(PACKAGE.rglob("*.csv"))
TEST_DATA = sorted((ROOT / "tests" / "data").rglob("*.csv"))
OUTSIDE = {"published", "derived"}

Function = ast.FunctionDef | ast.AsyncFunctionDef


def heads(path: Path) -> list[str]:
    return [line for line in path.read_text("utf-8").splitlines() if line.startswith("#")]


def test_every_table_of_the_package_says_its_source_and_how_far_to_trust_it() -> None:
    silent = [
        f"{path.name}: {key}"
        for path in TABLES
        for key in ("# source: ", "# status: ")
        if not any(line.startswith(key) and line[len(key) :].strip() for line in heads(path))
    ]

    assert TABLES
    assert silent == []


def test_every_table_of_the_tests_says_its_source() -> None:
    assert [path.name for path in TEST_DATA if not heads(path)] == []


def formulas() -> Iterator[str]:
    """Public functions of the package whose docstring displays a formula."""
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.parse(path.read_text("utf-8")).body:
            if not isinstance(node, Function) or node.name.startswith("_"):
                continue
            if ".. math::" in (ast.get_docstring(node) or ""):
                yield node.name


def names_in(node: ast.AST) -> set[str]:
    """Every name that a piece of code uses, alone or after a dot."""
    names = {each.id for each in ast.walk(node) if isinstance(each, ast.Name)}
    return names | {each.attr for each in ast.walk(node) if isinstance(each, ast.Attribute)}


def checked_from_outside() -> set[str]:
    """Names used in tests that carry a published or a derived number."""
    found: set[str] = set()
    for path in sorted((ROOT / "tests").rglob("test_*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        whole = any(
            names_in(node) & OUTSIDE
            for node in tree.body
            if isinstance(node, ast.Assign) and "pytestmark" in names_in(node)
        )
        for node in ast.walk(tree):
            if not isinstance(node, Function):
                continue
            if whole or any(names_in(mark) & OUTSIDE for mark in node.decorator_list):
                found |= names_in(node)
    return found


def test_every_formula_is_checked_against_a_number_that_is_not_our_own() -> None:
    checked = checked_from_outside()

    assert [name for name in formulas() if name not in checked] == []
