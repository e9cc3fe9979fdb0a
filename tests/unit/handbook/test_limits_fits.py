from __future__ import annotations

import pytest

from halfthou.errors import OutOfRangeError
from halfthou.handbook.limits_fits import fit_words, it_grade, limits


@pytest.mark.parametrize(
    ("size", "letter", "grade", "what"),
    [
        (600, "H", 7, "no ISO 286 limits for 600 mm"),
        (0, "H", 7, "no ISO 286 limits for 0 mm"),
        (20, "t", 6, "ISO 286 has no t6 at 20 mm"),
        (20, "V", 7, None),
        (10, "V", 7, "ISO 286 has no V7 at 10 mm"),
        (0.8, "a", 11, "ISO 286 has no a11 at 0.8 mm"),
        (20, "K", 9, "ISO 286 has no K9 at 20 mm"),
        (20, "J", 9, "ISO 286 has no J9 at 20 mm"),
        (20, "j", 9, "ISO 286 has no j9 at 20 mm"),
        (12, "CD", 7, "ISO 286 has no CD7 at 12 mm"),
        (0.5, "H", 14, "no tolerance grade IT14 at 0.5 mm"),
    ],
)
def test_a_class_the_standard_leaves_out_is_refused(
    size: float, letter: str, grade: int, what: str | None
) -> None:
    if what is None:
        assert limits(size, letter, grade)
        return
    with pytest.raises(OutOfRangeError) as fault:
        limits(size, letter, grade)

    assert fault.value.what == what
    assert fault.value.tries


def test_a_shaft_k_outside_grades_4_to_7_begins_at_nought() -> None:
    assert limits(20, "k", 8) == (0, it_grade(20, 8))


@pytest.mark.derived(by="clearance and interference counted from the classes by hand")
def test_fits_in_words_go_from_loose_to_tight() -> None:
    mean = {
        word: sum(limits(20, fit.hole.letter, fit.hole.grade))
        - sum(limits(20, fit.shaft.letter, fit.shaft.grade))
        for word, fit in fit_words().items()
    }
    order = ["running", "sliding", "push", "drive", "press", "shrink"]

    assert [mean[word] for word in order] == sorted((mean[word] for word in order), reverse=True)
    assert mean["running"] > 0 > mean["press"]
