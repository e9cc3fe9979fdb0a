"""Measure everything, print it as a table, write ``build/bench.json``.

Exit 1 if a figure does not keep within its limit.
"""

from __future__ import annotations

import importlib
import json
import sys
from pathlib import Path

from bench.figures import MEASURES, Figure

ROOT = Path(__file__).parents[1]
PLUMBING = {"__init__", "__main__", "figures", "process", "stages"}


def measured() -> list[Figure]:
    """Every figure of every bench file, by name of file."""
    for path in sorted(Path(__file__).parent.glob("*.py")):
        if path.stem not in PLUMBING:
            importlib.import_module(f"bench.{path.stem}")
    found = []
    for measure in MEASURES:
        found += list(measure())
    return found


def main() -> int:
    """Measure, show, write."""
    found = measured()
    for each in found:
        limit = "" if each.limit is None else f"under {each.limit:g}"
        print(f"{each.name:32} {each.value:10.2f} {each.unit:4} {limit:12}", end=" ")
        print("" if each.holds else "BROKEN")
    target = ROOT / "build" / "bench.json"
    target.parent.mkdir(exist_ok=True)
    flat = {each.name: each.as_entry() for each in found}
    target.write_text(json.dumps(flat, indent=2, ensure_ascii=False) + "\n", "utf-8")
    print(f"written to {target.relative_to(ROOT)}")
    return 0 if all(each.holds for each in found) else 1


if __name__ == "__main__":
    sys.exit(main())
