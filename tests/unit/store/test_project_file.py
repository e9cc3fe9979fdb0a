"""Project files: parts, fits between them, and what comes first."""

from importlib.resources import files
from pathlib import Path

import pytest

from halfthou.errors import Faults
from halfthou.store.project_file import ProjectPart, SurfaceOf, read_project, read_project_text

GOOD = """
name = "winding gear"
first = "arbor"
assembled = [["arbor", "wheel"]]

[part.arbor]
[part.wheel]
file = "great-wheel.toml"
quantity = 2

[fit.wheel-on-arbor]
hole = "bore of wheel"
shaft = "seat of arbor"
as = "pressed"

[waits]
wheel = ["pin it", "crop the pin"]
"""


def told(text: str) -> str:
    with pytest.raises(Faults) as caught:
        read_project_text(text, name="project.toml")
    return str(caught.value)


def test_a_project_lists_parts_fits_and_order() -> None:
    project = read_project_text(GOOD, name="project.toml")

    assert project.parts == (
        ProjectPart(name="arbor", file="arbor.toml"),
        ProjectPart(name="wheel", file="great-wheel.toml", quantity=2),
    )
    assert project.fits[0].hole == SurfaceOf(surface="bore", part="wheel")
    assert project.first == ("arbor",)
    assert project.assembled == (("arbor", "wheel"),)
    assert project.waits == (("wheel", "pin it"), ("wheel", "crop the pin"))


def test_the_demo_project_is_read_and_its_files_are_there() -> None:
    folder = Path(str(files("halfthou.demo")))
    project = read_project(folder / "project.toml")

    assert all((folder / part.file).is_file() for part in project.parts)


def test_a_misspelt_part_is_told_with_the_near_one() -> None:
    assert told(GOOD.replace("seat of arbor", "seat of abor")) == (
        "no part of this project is called 'abor'\n"
        "  where: project.toml, fit.wheel-on-arbor shaft\n"
        "  why: its parts are arbor, wheel\n"
        "  try: write 'arbor'"
    )


def test_an_unknown_key_is_told_with_the_near_one() -> None:
    assert told(GOOD.replace("quantity", "quantitiy")) == (
        "'quantitiy' is not a key of part.wheel\n"
        "  where: project.toml, part.wheel quantitiy\n"
        "  why: its keys are file, quantity\n"
        "  try: write 'quantity'"
    )


def test_a_surface_without_its_part_is_told() -> None:
    assert told(GOOD.replace('"seat of arbor"', '"seat"')) == (
        "'shaft' is 'seat'\n"
        "  where: project.toml, fit.wheel-on-arbor shaft\n"
        "  why: it is not of the form that is read there\n"
        '  try: write shaft = "bore of barrel-end"'
    )


@pytest.mark.parametrize(
    ("text", "first_line"),
    [
        ('name = "nothing yet"', "project.toml names no parts"),
        ('part = "arbor"', "'part' is a table and has a plain value"),
        ('[part]\nfile = "arbor.toml"', "[part] has no name of its own"),
        ("[part.a]\nquantity = 0", "'quantity' is 0"),
        ("[part.a]\nquantity = true", "'quantity' is True"),
        ("[part.a]\nfile = 3", "'file' is 3"),
        ('waits = "later"\n[part.a]', "'waits' is 'later'"),
        ('frist = "a"\n[part.a]', "'frist' is not a key of a project"),
    ],
)
def test_other_faults_are_told(text: str, first_line: str) -> None:
    assert told(text).splitlines()[0] == first_line
