"""Opens a screen on the small job, and lets go of its book afterwards."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.crewapp.pages.grade_driver import Begin, GradeDriver, put_job
from tests.in_full import EVERY_FRAME

if TYPE_CHECKING:
    from crewapp.job.open_job import OpenJob
    from tests.uidriver import UI


@pytest.fixture
def ui(ui: UI, request: pytest.FixtureRequest) -> Iterator[UI]:
    """A glass that is drawn by tests that go round all ways of holding it, and laid out by others.

    They read what a page holds and no pixel; a third of their time went into pictures.
    """
    ui.draw(EVERY_FRAME or hasattr(request.module, "HOLDS"))
    yield ui
    ui.draw(True)


@pytest.fixture
def begin(ui: UI, tmp_path: Path) -> Iterator[Begin]:
    """Open the screen on the small job, after some work was written without touches."""
    hands: list[GradeDriver] = []

    def open_after(*work: Callable[[OpenJob], None], **changed: object) -> GradeDriver:
        book = tmp_path / "small.book"
        driver = GradeDriver(ui, tmp_path, book if book.exists() else put_job(tmp_path, **changed))
        for one in work:
            one(driver.job)
        driver.page.refresh()
        driver.settle()
        hands.append(driver)
        return driver

    yield open_after
    for driver in hands:
        driver.worker.close()
