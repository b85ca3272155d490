"""Opens a screen on the small job, and lets go of its book afterwards."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.crewapp.pages.grade_hand import Begin, GradeHand, put_job

if TYPE_CHECKING:
    from crewapp.job.open_job import OpenJob
    from tests.uidriver import UI


@pytest.fixture
def begin(ui: UI, tmp_path: Path) -> Iterator[Begin]:
    """Open the screen on the small job, after some work was written without touches."""
    hands: list[GradeHand] = []

    def open_after(*work: Callable[[OpenJob], None], **changed: object) -> GradeHand:
        book = tmp_path / "small.book"
        hand = GradeHand(ui, tmp_path, book if book.exists() else put_job(tmp_path, **changed))
        for one in work:
            one(hand.job)
        hand.page.refresh()
        hand.settle()
        hands.append(hand)
        return hand

    yield open_after
    for hand in hands:
        hand.desk.close()
