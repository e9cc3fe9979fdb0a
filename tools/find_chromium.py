"""Print the path of a Chromium for the browser tests.

With --install, get Debian's if there is none. HALFTHOU_CHROMIUM, if set, names the one to use.
Exit 1, with one line saying so, when none is found.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

COMMANDS = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome")
MACOS = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
)
WINDOWS = (
    r"Chromium\Application\chrome.exe",
    r"Google\Chrome\Application\chrome.exe",
    r"Microsoft\Edge\Application\msedge.exe",
)
WINDOWS_ROOTS = ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA")


def find() -> Path | None:
    """Path of a Chromium on this machine, or None."""
    named = os.environ.get("HALFTHOU_CHROMIUM")
    if named:
        return Path(named) if Path(named).exists() else None
    for command in COMMANDS:
        found = shutil.which(command)
        if found:
            return Path(found)
    roots = [os.environ[root] for root in WINDOWS_ROOTS if root in os.environ]
    places = [*map(Path, MACOS), *(Path(root) / tail for root in roots for tail in WINDOWS)]
    return next((place for place in places if place.exists()), None)


def can_install() -> bool:
    """Tell whether this is Debian and we are root on it."""
    is_root = hasattr(os, "geteuid") and os.geteuid() == 0
    return is_root and Path("/etc/debian_version").exists() and bool(shutil.which("apt-get"))


def install() -> None:
    """Install Debian's chromium."""
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for words in (["update"], ["install", "-y", "--no-install-recommends", "chromium"]):
        subprocess.run(["apt-get", "-qq", *words], check=True, env=environment, stdout=sys.stderr)


def main() -> int:
    """Find, or install and find."""
    path = find()
    if path is None and "--install" in sys.argv and can_install():
        print("no Chromium here: installing Debian's", file=sys.stderr)
        try:
            install()
        except subprocess.CalledProcessError as fault:
            print(f"Debian's chromium could not be installed: {fault}", file=sys.stderr)
        path = find()
    if path is None:
        print(
            "no Chromium found for the browser tests: install one (Debian: apt-get install "
            "chromium), or give its path in HALFTHOU_CHROMIUM",
            file=sys.stderr,
        )
        return 1
    print(path)
    return 0


if __name__ == "__main__":
    sys.exit(main())
