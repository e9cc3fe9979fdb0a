"""What a person gets who installs the wheel: it starts, alone, and plans."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import sysconfig
import tomllib
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "halfthou"

# dev packages by the name they are imported under, where that differs
IMPORTED_AS = {
    "axe-playwright-python": "axe_playwright_python",
    "import-linter": "importlinter",
    "pytest-randomly": "pytest_randomly",
}

PIP = (sys.executable, "-m", "pip", "--disable-pip-version-check")

BLOCKED_START = """
import sys
for name in {names!r}:
    sys.modules[name] = None
import halfthou.cli
"""


def dev_modules() -> list[str]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    names = [item.split(">")[0] for item in project["optional-dependencies"]["dev"]]
    return [IMPORTED_AS.get(name, name.replace("-", "_")) for name in names]


def test_the_program_starts_without_the_packages_of_the_tests() -> None:
    code = BLOCKED_START.format(names=dev_modules())
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False
    )

    assert (done.returncode, done.stderr) == (0, "")


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel from a copy of the source, with no network."""
    source = tmp_path_factory.mktemp("source")
    leave = shutil.ignore_patterns("__pycache__", "*.egg-info")
    shutil.copytree(ROOT / "src", source / "src", ignore=leave)
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, source)
    options = ("--quiet", "--no-deps", "--no-build-isolation", "--wheel-dir", str(source / "dist"))
    subprocess.run([*PIP, "wheel", *options, str(source)], check=True, capture_output=True)
    (built,) = (source / "dist").glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Install the wheel alone, its dependencies borrowed; give the folder of commands."""
    home = tmp_path_factory.mktemp("installed")
    venv.create(home, with_pip=False)
    scripts = home / ("Scripts" if os.name == "nt" else "bin")
    variables = {"base": str(home), "platbase": str(home)}
    packages = Path(sysconfig.get_path("purelib", "venv", vars=variables))
    into = ("--python", str(scripts / "python"), "install", "--quiet", "--no-deps")
    subprocess.run([*PIP, *into, str(wheel)], check=True, capture_output=True)
    # a plain path line; .pth files over there are not followed, so no editable copy creeps in
    (packages / "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n", "utf-8")
    return scripts


def run(scripts: Path, *words: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [str(scripts / words[0]), *words[1:]],
        cwd=folder,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


@pytest.mark.slow
def test_the_wheel_carries_every_file_of_the_package(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        carried = {name for name in archive.namelist() if ".dist-info/" not in name}
    files = (path for path in PACKAGE.rglob("*") if path.is_file())
    wanted = {
        path.relative_to(ROOT / "src").as_posix()
        for path in files
        if path.parent.name != "__pycache__"
    }

    assert carried == wanted


@pytest.mark.slow
def test_the_installed_package_is_the_wheel_and_not_the_source(
    installed: Path, tmp_path: Path
) -> None:
    done = run(
        installed, "python", "-c", "import halfthou; print(halfthou.__file__)", folder=tmp_path
    )

    assert str(installed.parent.resolve()) in str(Path(done.stdout.strip()).resolve())


@pytest.mark.slow
def test_the_installed_command_explains_itself(installed: Path, tmp_path: Path) -> None:
    done = run(installed, "halfthou", "--help", folder=tmp_path)

    assert (done.returncode, done.stderr) == (0, "")
    for command in ("new", "check", "plan", "cards", "open", "demo"):
        assert command in done.stdout


@pytest.mark.slow
def test_the_installed_command_plans_a_part(installed: Path, tmp_path: Path) -> None:
    made = run(installed, "halfthou", "new", "spacer.toml", folder=tmp_path)
    planned = run(installed, "halfthou", "plan", "spacer.toml", "--json", folder=tmp_path)

    assert (made.returncode, made.stderr) == (0, "")
    assert planned.returncode == 0, planned.stderr
    assert planned.stdout.lstrip().startswith("{")
