"""What can be read off the source text: sizes, docstrings, words that may not stand in a file."""

from __future__ import annotations

import ast
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "halfthou"
MODULES = sorted(PACKAGE.rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("test_*.py"))

MODULE_LINES = 500
FUNCTION_LINES = 40
# "module path: function" -> why it is longer; an entry no longer needed fails the test
_ONE_PICTURE = "the parts of one picture laid one over another, in the order they are drawn"
LONG_FUNCTIONS: dict[str, str] = {
    "src/halfthou/present/picture/detail.py: drawn_detail": _ONE_PICTURE,
    "src/halfthou/present/picture/devices_lathe.py: _jaws_outside": _ONE_PICTURE,
    "src/halfthou/present/picture/milled.py: milled_sheet": _ONE_PICTURE,
    "src/halfthou/present/picture/turned.py: _drawn": _ONE_PICTURE,
}

Function = ast.FunctionDef | ast.AsyncFunctionDef


def relative(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def tracked_files() -> list[Path]:
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True, text=True
    )
    paths = [ROOT / name for name in listed.stdout.split("\0") if name]
    return [path for path in paths if path.is_file()]


def body_lines(function: Function) -> int:
    """Lines of a function without its decorators and docstring."""
    first = function.body[0]
    total = (function.end_lineno or function.lineno) - function.lineno + 1
    if ast.get_docstring(function) is None:
        return total
    return total - ((first.end_lineno or first.lineno) - first.lineno + 1)


def functions(path: Path) -> Iterator[Function]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, Function):
            yield node


def public_names(tree: ast.Module) -> Iterator[tuple[str, ast.AST]]:
    """Public functions and classes of a module, and the public methods of those classes."""
    for node in tree.body:
        if not isinstance(node, Function | ast.ClassDef) or node.name.startswith("_"):
            continue
        yield node.name, node
        if isinstance(node, ast.ClassDef):
            for inner in node.body:
                if isinstance(inner, Function) and not inner.name.startswith("_"):
                    yield f"{node.name}.{inner.name}", inner


def test_no_module_is_longer_than_500_lines() -> None:
    lengths = {relative(path): len(path.read_text("utf-8").splitlines()) for path in MODULES}

    assert {name: length for name, length in lengths.items() if length > MODULE_LINES} == {}


def test_no_function_is_longer_than_40_lines_unless_listed_with_a_reason() -> None:
    long = {
        f"{relative(path)}: {function.name}": body_lines(function)
        for path in MODULES
        for function in functions(path)
        if body_lines(function) > FUNCTION_LINES
    }

    assert {name: lines for name, lines in long.items() if name not in LONG_FUNCTIONS} == {}
    assert set(LONG_FUNCTIONS) - set(long) == set(), "no longer long: take it off the list"


@pytest.mark.parametrize("path", MODULES, ids=relative)
def test_every_public_name_has_a_docstring(path: Path) -> None:
    tree = ast.parse(path.read_text("utf-8"))
    bare = [
        name
        for name, node in public_names(tree)
        if not ast.get_docstring(node)  # type: ignore[arg-type]
    ]
    if tree.body and not ast.get_docstring(tree):
        bare.insert(0, "the module itself")

    assert bare == []


def test_every_room_is_a_package() -> None:
    rooms = [room for room in PACKAGE.iterdir() if room.is_dir() and room.name != "__pycache__"]

    assert [room.name for room in rooms if not (room / "__init__.py").is_file()] == []


NEEDS = {"published": "source", "derived": "by"}


def marks(path: Path) -> Iterator[tuple[int, str, ast.expr]]:
    """Each ``pytest.mark.published`` or ``.derived`` of a test file, called or not."""
    tree = ast.parse(path.read_text("utf-8"))
    called = {id(node.func): node for node in ast.walk(tree) if isinstance(node, ast.Call)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and node.attr in NEEDS:
            owner = node.value
            if isinstance(owner, ast.Attribute) and owner.attr == "mark":
                yield node.lineno, node.attr, called.get(id(node), node)


def says_its_source(mark: str, node: ast.expr) -> bool:
    """Tell whether the mark was called with a text that says something."""
    if not isinstance(node, ast.Call):
        return False
    for keyword in node.keywords:
        if keyword.arg == NEEDS[mark]:
            value = keyword.value
            return not isinstance(value, ast.Constant) or bool(str(value.value).strip())
    return False


def test_every_published_or_derived_number_says_where_from() -> None:
    silent = [
        f"{relative(path)}:{line} {mark}"
        for path in TESTS
        for line, mark, node in marks(path)
        if not says_its_source(mark, node)
    ]

    assert silent == []


# written in pieces, so that this file does not hold what it forbids
FORBIDDEN = (
    "pypi" + r"\.org",
    "pythonhosted" + r"\.org",
    "registry" + r"\.npmjs",
    "deb" + r"\.debian\.org",
    "/wo" + r"rk/(main|shared)",
    r"(?<![\w.])/tm" + r"p/",
    "/ho" + r"me/\w+",
    "/Us" + r"ers/\w+",
    r"[A-Z]:\\Us" + r"ers\\",
    "seed" + " document",
    "sub" + "agent",
    "issue" + " tracker",
)


def test_no_tracked_file_names_a_machine_or_a_registry() -> None:
    pattern = re.compile("|".join(FORBIDDEN))
    found = []
    for path in tracked_files():
        try:
            lines = path.read_text("utf-8").splitlines()
        except UnicodeDecodeError:
            continue  # a picture or a font: no words in it
        found += [
            f"{relative(path)}:{number}: {match.group()}"
            for number, line in enumerate(lines, start=1)
            if (match := pattern.search(line))
        ]

    assert found == []


def test_committed_requirements_name_no_index_and_hash_everything() -> None:
    for path in sorted((ROOT / "requirements").glob("*.txt")):
        text = path.read_text("utf-8")
        pins = re.findall(r"^[a-z0-9][\w.-]*==", text, flags=re.MULTILINE)

        assert "://" not in text, path.name
        assert "--index" not in text
        assert "--find-links" not in text
        assert len(pins) == len(re.findall(r"== ?[^ ]+(?: ;[^\\]*)? \\\n +--hash=", text))
