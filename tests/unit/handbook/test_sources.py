from __future__ import annotations

import pytest

from halfthou.errors import OutOfRangeError
from halfthou.handbook.sources import all_sources, source_of
from halfthou.handbook.tables import rows, table_names


def test_every_table_says_what_it_is_where_it_was_printed_and_how_far_to_trust_it() -> None:
    for name, source in all_sources().items():
        assert source.title, name
        assert source.text, name
        assert source.status in {"published", "computed", "recalled", "usual practice"}
        assert rows(name), name


def test_recalled_figures_never_pass_for_the_standard() -> None:
    assert source_of("iso286_it_grades").standard
    assert not source_of("iso2768_geometry").standard
    assert not source_of("fit_words").standard


def test_every_row_has_a_cell_under_every_head() -> None:
    for name in table_names():
        heads = list(rows(name)[0])
        assert all(list(row) == heads and None not in row.values() for row in rows(name)), name


def test_an_unknown_table_is_named_with_those_there_are() -> None:
    with pytest.raises(OutOfRangeError) as fault:
        source_of("nothing")

    assert fault.value.what == "no table is called 'nothing'"
    assert "threads_ba" in fault.value.tries
