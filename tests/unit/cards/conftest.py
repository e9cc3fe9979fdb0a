"""The barrel end worked out by hand, as a job and as views."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfthou.present.card_view import CoverView, SetUpView
from halfthou.present.cover_card import cover_view
from halfthou.present.set_up_card import Job, set_up_view

from . import by_hand


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return by_hand.job(tmp_path)


@pytest.fixture
def cover(job: Job) -> CoverView:
    return cover_view(job, by_hand.plain_pictures())


@pytest.fixture
def set_ups(job: Job) -> tuple[SetUpView, ...]:
    pictures = by_hand.plain_pictures()
    return tuple(set_up_view(job, one, pictures) for one in job.worked.set_ups)
