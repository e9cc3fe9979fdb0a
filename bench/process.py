"""Run the program as a person does, in a process of its own, and see what it took."""

from __future__ import annotations

import math
import os
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

KB_PER_MB = 1024


class BenchFailedError(Exception):
    """The program did not do what the benchmark asked of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spent:
    """What one run took, and what it printed."""

    seconds: float
    peak_mb: float
    printed: str


def reap(process: subprocess.Popen[bytes]) -> tuple[int, float]:
    """Exit status and peak memory of a process and its children.

    The peak is the largest of them, and is known on POSIX only (not a number elsewhere).
    """
    if not hasattr(os, "wait4"):
        return process.wait(), math.nan
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    kilobytes = usage.ru_maxrss / (1024 if sys.platform == "darwin" else 1)
    return process.returncode, kilobytes / KB_PER_MB


def spent(command: list[str], *, folder: Path) -> Spent:
    """Run one command, cold; raise if it does not end with 0."""
    with tempfile.TemporaryFile() as out:
        started = time.perf_counter()
        process = subprocess.Popen(command, cwd=folder, stdout=out, stderr=subprocess.STDOUT)
        status, peak_mb = reap(process)
        seconds = time.perf_counter() - started
        out.seek(0)
        printed = out.read().decode("utf-8", errors="replace")
    if status != 0:
        message = f"{' '.join(command)} ended with {status}:\n{printed[-2000:]}"
        raise BenchFailedError(message)
    return Spent(seconds=seconds, peak_mb=peak_mb, printed=printed)


def halfthou(*words: str, folder: Path) -> Spent:
    """Run the installed program in a folder."""
    found = shutil.which("halfthou", path=str(Path(sys.executable).parent))
    if found is None:
        message = "no halfthou command beside this Python: pip install -e ."
        raise BenchFailedError(message)
    return spent([found, *words], folder=folder)
