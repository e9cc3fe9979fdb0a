import subprocess
import sys
from pathlib import Path

import pytest

from halfthou.shapes.kernel import kernel_missing

ASK = """
from halfthou.errors import HalfthouError
try:
    import halfthou.shapes.solids
except HalfthouError as fault:
    print(fault)
"""


def _said(folder: Path, fault: str) -> str:
    package = folder / "OCP"
    package.mkdir()
    (package / "__init__.py").write_text(f"raise {fault}\n", encoding="utf-8")
    ask = f"import sys; sys.path.insert(0, {str(folder)!r}){ASK}"
    ran = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    return ran.stdout


def test_a_missing_system_library_is_named_with_its_debian_packages(tmp_path: Path) -> None:
    fault = 'ImportError("libGL.so.1: cannot open shared object file: No such file")'

    said = _said(tmp_path, fault)

    assert said.startswith("no solids or views can be made: ")
    assert "libGL.so.1" in said
    assert "apt-get install libgl1 libx11-6 libexpat1" in said


def test_a_missing_package_is_named_with_the_command_that_gets_it(tmp_path: Path) -> None:
    said = _said(tmp_path, "ModuleNotFoundError(\"No module named 'OCP'\")")

    assert "pip install cadquery-ocp-novtk" in said


@pytest.mark.parametrize("fault", [ImportError("one\ntwo"), ModuleNotFoundError("one\ntwo")])
def test_what_is_missing_is_said_in_one_line(fault: ImportError) -> None:
    assert "\n" not in kernel_missing(fault).what
