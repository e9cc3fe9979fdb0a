"""From file to card: the main job, cold, with the share of each stage."""

from __future__ import annotations

import importlib.metadata
import re
import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from bench import stages as stages_file
from bench.figures import Figure, figure
from bench.process import halfthou, spent

PART_SECONDS = 10.0
PEAK_MB = 1024.0
BYTES_PER_MB = 1e6
PART = "arbor.toml"


def part_folder(into: Path) -> Path:
    """Lay a copy of the demo project, with no plan made yet, and give its folder."""
    import halfthou as package  # noqa: PLC0415  (the package under measurement, and only its folder)

    for part in sorted(Path(package.__file__).parent.rglob(PART)):
        shutil.copytree(part.parent, into, ignore=shutil.ignore_patterns("*.plan.json", "*.py"))
        return into
    message = f"the package carries no demo part {PART}"
    raise FileNotFoundError(message)


@figure
def part() -> Iterator[Figure]:
    """Time and memory from a part file to its cards: one command after another, nothing kept."""
    with tempfile.TemporaryDirectory() as name:
        folder = part_folder(Path(name) / "demo")
        planned = halfthou("plan", PART, "--json", folder=folder)
        carded = halfthou("cards", PART, folder=folder)
    yield Figure(
        name="main.part_seconds",
        value=planned.seconds + carded.seconds,
        unit="s",
        limit=PART_SECONDS,
    )
    yield Figure(
        name="main.peak_mb",
        value=max(planned.peak_mb, carded.peak_mb),
        unit="MB",
        limit=PEAK_MB,
    )


@figure
def share_of_rooms() -> Iterator[Figure]:
    """Share of each room in the time from file to card, seen by the profiler."""
    with tempfile.TemporaryDirectory() as name:
        folder = part_folder(Path(name) / "demo")
        found = Path(name) / "shares.json"
        total: dict[str, float] = {}
        for words in (["plan", PART, "--json"], ["cards", PART]):
            spent([sys.executable, stages_file.__file__, str(found), *words], folder=folder)
            for room, seconds in stages_file.shares(found).items():
                total[room] = total.get(room, 0.0) + seconds
    whole = sum(total.values())
    for room, seconds in sorted(total.items(), key=lambda item: -item[1]):
        yield Figure(name=f"main.share.{room}", value=100 * seconds / whole, unit="%")


def requirement_names(name: str, seen: set[str]) -> set[str]:
    """Every distribution that one needs, itself included, extras left out."""
    key = re.sub(r"[-_.]+", "-", name).lower()
    if key in seen:
        return seen
    try:
        needed = importlib.metadata.requires(name) or []
    except importlib.metadata.PackageNotFoundError:
        return seen  # a marker for another platform
    seen.add(key)
    for line in needed:
        if "extra ==" not in line:
            requirement_names(re.split(r"[^\w.-]", line, maxsplit=1)[0], seen)
    return seen


@figure
def installed() -> Iterator[Figure]:
    """Weigh the program and all it needs on disk."""
    size = 0
    for name in requirement_names("halfthou", set()):
        files = importlib.metadata.files(name) or []
        size += sum(
            path.stat().st_size
            for path in map(Path, map(str, (f.locate() for f in files)))
            if path.is_file()
        )
    package = Path(__file__).parents[1] / "src"
    size += sum(path.stat().st_size for path in package.rglob("*") if path.is_file())
    yield Figure(name="main.installed_mb", value=size / BYTES_PER_MB, unit="MB")
