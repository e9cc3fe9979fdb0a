"""What a person gets told when a part file is wrong: the whole text, cause first, no cascade."""

from pathlib import Path

import pytest

from halfthou.drawing.solve import solve
from halfthou.errors import Faults
from halfthou.store.part_file import read_part, read_part_text
from halfthou.store.part_on_disk import look_at_part

PLATE = (Path(__file__).parents[2] / "data" / "parts" / "flange-plate.toml").read_text("utf-8")


def told(text: str) -> str:
    with pytest.raises(Faults) as caught:
        solve(read_part_text(text, name="plate.toml"))
    return str(caught.value)


def plate_with(old: str, new: str, *more: tuple[str, str]) -> str:
    text = PLATE
    for before, after in ((old, new), *more):
        assert before in text
        text = text.replace(before, after, 1)
    return text


def test_an_unknown_key_is_named_with_the_near_one() -> None:
    assert told(plate_with('thick = "10"', 'thik = "10"')) == (
        "'thik' is not a key of block\n"
        "  where: plate.toml, block.plate thik\n"
        "  why: its keys are wide, high, thick, at, must, machined, fillet, comes_off, suits, "
        "note\n"
        "  try: write 'thick'"
    )


def test_a_misspelt_kind_of_feature_is_one_fault_although_others_are_measured_from_it() -> None:
    assert told(plate_with("[hole.spigot]", "[hoel.spigot]")) == (
        "[hoel] is no kind of feature\n"
        "  where: plate.toml, hoel\n"
        "  why: the kinds are part, blank, round, block, plate, boss, ring, arm, hole, pocket, "
        "slot, step, groove, keyway, chamfer, centres, face, view, piece, joint\n"
        "  try: write [hole]"
    )


def test_a_misspelt_name_is_one_fault_with_the_near_name() -> None:
    assert told(plate_with("level with spigot", "level with spigott")) == (
        "nothing in this file is called 'spigott'\n"
        "  where: plate.toml, hole.ring at\n"
        "  why: 'level with spigott' refers to it\n"
        "  try: write 'spigot'"
    )


def test_a_bare_number_is_told_why_sizes_are_texts() -> None:
    assert told(plate_with('wide = "100"', "wide = 100")) == (
        "'wide' is a bare number: 100\n"
        "  where: plate.toml, block.plate wide\n"
        "  why: 20.00 and 20 mean different tolerances, and a bare number forgets which it was\n"
        '  try: write wide = "100"'
    )


def test_all_faults_of_a_file_come_together() -> None:
    text = plate_with('wide = "100"', "wide = 100", ("with spigot", "with spigott"))

    assert told(text).count("where: plate.toml") == 2


def test_a_size_that_cannot_be_read_shows_the_forms_that_can() -> None:
    first = told(plate_with('high = "14"', 'high = "l4"')).splitlines()

    assert first[0] == "'l4' cannot be read as a size"
    assert first[1] == "  where: plate.toml, pocket.relief high"
    assert first[2] == "  why: high is bottom to top (front to back in top or bottom)"
    assert first[3].startswith("  try: write it like 35, 1 3/8 in, 25 H7")


def test_a_fraction_of_a_millimetre_is_questioned() -> None:
    assert told(plate_with('wide = "20"', 'wide = "3/4"')) == (
        "'3/4' is a fraction without a unit on a drawing in mm\n"
        "  where: plate.toml, pocket.relief wide\n"
        "  why: fractions are sizes in inches; fractions of a millimetre are not drawn\n"
        "  try: write '3/4 in', or write the size in mm as a decimal"
    )


def test_a_name_carried_by_two_features_is_a_fault() -> None:
    assert told(plate_with("[pocket.relief]", "[pocket.ring]")) == (
        "'ring' names two features: hole.ring and pocket.ring\n"
        "  where: plate.toml, pocket.ring\n"
        "  why: others are measured from it by its name alone\n"
        "  try: give one of the two another name"
    )


def test_a_table_written_twice_is_told_with_its_line() -> None:
    text = PLATE + '\n[hole.dowel]\nin = "front"\nsize = "4 through"\n'
    line = text.splitlines().index("[hole.dowel]", text.splitlines().index("[hole.dowel]") + 1) + 1

    assert told(text) == (
        "'dowel' is written twice\n"
        f"  where: plate.toml, line {line}\n"
        "  why: names of features, and keys in a table, are written once\n"
        "  try: give one of the two another name, or take one of the two out"
    )


def test_an_empty_file_is_told_how_to_begin() -> None:
    assert told("# nothing yet\n") == (
        "plate.toml is empty\n"
        "  where: plate.toml\n"
        "  try: begin with [part], or let halfthou new write a file to start from"
    )


def test_a_file_that_is_not_toml_is_told_its_line() -> None:
    line = PLATE.splitlines().index('wide = "100"') + 1

    assert told(plate_with('wide = "100"', 'wide = "100')) == (
        f"plate.toml is not TOML: line {line} cannot be read\n"
        f'  where: plate.toml, line {line}: wide = "100\n'
        "  why: a text that begins with a quotation mark ends with one on the same line\n"
        '  try: write keys as key = "text" and tables as [kind.name]'
    )


def test_a_size_measured_across_a_side_is_refused() -> None:
    assert told(plate_with("12 above bottom", "12 above left")) == (
        "'12 above left' measures bottom to top from a side that faces left\n"
        "  where: plate.toml, hole.dowel\n"
        "  why: a distance runs square to the side it starts from\n"
        "  try: measure from 'bottom', or measure from 'top'"
    )


def test_a_side_that_does_not_move_that_way_is_refused() -> None:
    assert told(plate_with("right: 6 left of right", "right: 6 above bottom")) == (
        "'right: 6 above bottom' places its right above something\n"
        "  where: plate.toml, pocket.relief at\n"
        "  why: right moves left to right, 'above' measures bottom to top\n"
        "  try: leave out 'right:'"
    )


def test_a_feature_placed_from_itself_is_refused() -> None:
    assert told(plate_with("level with spigot", "level with ring")) == (
        "'level with ring' places ring from itself\n"
        "  where: plate.toml, hole.ring at\n"
        "  why: a feature cannot be the place it is measured from\n"
        "  try: name another feature, or name a side of the part"
    )


def test_units_that_no_drawing_has_are_refused() -> None:
    assert told(plate_with('units = "mm"', 'units = "cm"')) == (
        "'units' is 'cm'\n"
        "  where: plate.toml, part units\n"
        "  why: it may be mm, in\n"
        "  try: write 'mm', or write 'in'"
    )


def test_a_misspelt_unit_is_one_fault_and_not_one_a_fraction() -> None:
    told_of = told(plate_with('units = "mm"', 'units = "inch"', ('wide = "20"', 'wide = "3/4"')))

    assert told_of.count("where:") == 1


def test_a_key_that_is_near_none_can_be_kept_as_a_remark() -> None:
    assert told(plate_with('thick = "10"', 'thick = "10"\nxyzzy = "1"')).splitlines()[-1] == (
        "  try: begin its line with # to keep it as a remark, or take it out"
    )


def test_an_empty_text_says_what_stands_there() -> None:
    assert told(plate_with('thick = "10"', 'thick = ""')) == (
        "'thick' is empty\n"
        "  where: plate.toml, block.plate thick\n"
        "  why: thick is front to back\n"
        "  try: give it a text, or leave it out"
    )


def test_a_line_of_prose_is_told_without_the_readers_own_words() -> None:
    assert told(f"a bush for the clock\n{PLATE}") == (
        "plate.toml is not TOML: line 1 cannot be read\n"
        "  where: plate.toml, line 1: a bush for the clock\n"
        "  why: it is neither a key with its text nor the name of a table in brackets\n"
        '  try: write keys as key = "text" and tables as [kind.name]'
    )


def test_a_requirement_without_its_figure_is_refused() -> None:
    assert told(plate_with("to spigot within 0.05", "to spigot")) == (
        "'in position to spigot' cannot be read as a requirement\n"
        "  where: plate.toml, hole.dowel must\n"
        "  why: it does not say within how much\n"
        "  try: write it like run-out to journal within 0.02, "
        "or like front: square to bore within 0.05"
    )


def test_a_feature_of_a_later_version_says_so() -> None:
    assert told(PLATE + '\n[taper.nose]\nin = "right"\n').splitlines()[:2] == [
        "[taper] cannot be solved yet",
        "  where: plate.toml, taper",
    ]


@pytest.mark.parametrize("table", ["part", "blank"])
def test_a_missing_table_is_told_with_what_stands_in_it(table: str) -> None:
    start = PLATE.index(f"[{table}]")
    end = PLATE.index("\n[", start + 1) + 1

    assert told(PLATE[:start] + PLATE[end:]).startswith(f"plate.toml has no [{table}]\n")


def test_a_part_without_metal_is_refused() -> None:
    text = PLATE[: PLATE.index("[block.plate]")]

    assert told(text).startswith("plate.toml has no metal\n")


def test_a_file_over_one_megabyte_is_refused_by_its_size(tmp_path: Path) -> None:
    path = tmp_path / "large.toml"
    path.write_bytes(b"#" * 1_500_000)
    with pytest.raises(Faults) as caught:
        read_part(path)

    assert str(caught.value) == (
        "large.toml is too large: 1.5 MB against 1 MB\n"
        f"  where: {path}\n"
        "  why: a drawing of one part is some kilobytes; this is something else\n"
        "  try: name another file"
    )


def test_a_file_that_is_not_utf8_is_told_its_line(tmp_path: Path) -> None:
    path = tmp_path / "old.toml"
    path.write_bytes('[part]\nname = "kurze Büchse"\n'.encode("latin-1"))
    with pytest.raises(Faults) as caught:
        read_part(path)

    assert str(caught.value) == (
        "old.toml is not UTF-8 text: byte 0xfc on line 2\n"
        "  where: old.toml, line 2\n"
        "  why: the file was saved in another encoding, or is no text at all\n"
        "  try: save it again as UTF-8"
    )


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(Faults, match=r"there is no file none\.toml"):
        read_part(tmp_path / "none.toml")


def test_a_folder_named_as_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "clock.toml").mkdir()
    with pytest.raises(Faults) as caught:
        read_part(tmp_path / "clock.toml")

    assert str(caught.value) == (
        "clock.toml cannot be read\n"
        f"  where: {tmp_path / 'clock.toml'}\n"
        "  why: it is a folder\n"
        "  try: see who may read it, or name another file"
    )


def test_a_part_file_that_is_missing_is_told_with_the_near_name(tmp_path: Path) -> None:
    (tmp_path / "flange-plate.toml").write_text(PLATE, encoding="utf-8")
    (fault,) = look_at_part(tmp_path / "flange-palte.toml").faults
    (other,) = look_at_part(tmp_path / "none" / "x.toml").faults
    (whole,) = look_at_part(tmp_path).faults

    assert fault.why == "part files there: flange-plate.toml"
    assert fault.tries == (f"name {tmp_path / 'flange-plate.toml'}",)
    assert other.why == f"there is no folder {tmp_path / 'none'}"
    assert whole.what == f"{tmp_path} is a folder"
    assert whole.tries == (f"name one part file: {tmp_path / 'flange-plate.toml'}",)


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
@pytest.mark.parametrize("start", [b"", b"\xef\xbb\xbf"])
def test_byte_order_marks_and_line_ends_make_no_difference(
    tmp_path: Path, start: bytes, ending: str
) -> None:
    path = tmp_path / "plätte of the clock.toml"
    path.write_bytes(start + PLATE.replace("\n", ending).encode())

    assert read_part(path) == solve(read_part_text(PLATE, name=path.name))
