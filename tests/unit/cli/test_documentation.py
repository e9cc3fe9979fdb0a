"""What README.md and docs/first-part.md tell is what happens: files written, commands typed."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]
DOCS = sorted((ROOT / "docs").rglob("*.md"))
PAGES = ["README.md", *(path.relative_to(ROOT).as_posix() for path in DOCS)]


@pytest.mark.slow
@pytest.mark.parametrize("name", ["README.md", "docs/first-part.md"])
def test_every_command_of_a_page_answers_as_the_page_says(name: str, tmp_path: Path) -> None:
    """``make pictures`` puts the answers right where they have changed for good reason."""
    copy = tmp_path / "page.md"
    shutil.copyfile(ROOT / name, copy)
    tool = ROOT / "tools" / "run_page.py"
    subprocess.run([sys.executable, str(tool), str(copy)], check=True, capture_output=True)

    assert copy.read_text("utf-8") == (ROOT / name).read_text("utf-8")


@pytest.mark.parametrize("page", PAGES)
def test_every_link_of_a_page_leads_somewhere(page: str) -> None:
    text = (ROOT / page).read_text("utf-8")
    links = re.findall(r"\]\((?!https?:)([^)#]+)(?:#[^)]*)?\)", text)

    assert [link for link in links if not ((ROOT / page).parent / link).exists()] == []
