"""Check the system libraries that OpenCascade's wheel links to; on Debian as root, install them.

Says nothing when all is there. Otherwise one line, and exit 1.
"""

from __future__ import annotations

import ctypes
import os
import shutil
import subprocess
import sys
from pathlib import Path

# library file -> Debian package
NEEDED = {"libGL.so.1": "libgl1", "libX11.so.6": "libx11-6", "libexpat.so.1": "libexpat1"}


def missing() -> list[str]:
    """Debian packages whose library does not load; elsewhere the wheels bring their own."""
    if not sys.platform.startswith("linux"):
        return []
    absent = []
    for library, package in NEEDED.items():
        try:
            ctypes.CDLL(library)
        except OSError:
            absent.append(package)
    return absent


def install(packages: list[str]) -> None:
    """Install Debian packages; needs root."""
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for words in (["update"], ["install", "-y", "--no-install-recommends", *packages]):
        subprocess.run(["apt-get", "-qq", *words], check=True, env=environment, stdout=sys.stderr)


def main() -> int:
    """Check, install if that is possible, check again."""
    absent = missing()
    is_root = hasattr(os, "geteuid") and os.geteuid() == 0
    if absent and is_root and Path("/etc/debian_version").exists() and shutil.which("apt-get"):
        print(f"installing {' '.join(absent)}", file=sys.stderr)
        try:
            install(absent)
        except subprocess.CalledProcessError as fault:
            print(f"apt-get failed: {fault}", file=sys.stderr)
        absent = missing()
    if absent:
        print(
            f"system libraries missing: {', '.join(absent)} "
            f"(on Debian: apt-get install {' '.join(absent)})",
            file=sys.stderr,
        )
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
