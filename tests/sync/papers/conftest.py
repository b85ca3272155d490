"""Books of invented days, made once, and their printed sheets."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from models.state.check_code import check_code
from sync.papers.day.facts.day import DaySheet, gather_day
from sync.papers.day.pdf_file import build_pdf
from tests.sync.papers.day_writer import DayWriter
from tests.sync.papers.sample_day import US_DAY, answer_all, long_book, sign, us_book

PrintSheet = Callable[[DayWriter, str], Path]


@pytest.fixture
def print_sheet(tmp_path: Path) -> PrintSheet:
    """Print a day of a book and return the file."""

    def printed(book: DayWriter, day: str) -> Path:
        path = tmp_path / "sheet.pdf"
        path.write_bytes(build_pdf(gather_day(book.state, book.board(), day)))
        return path

    return printed


def ordinary_book() -> DayWriter:
    """The job in feet with its Tuesday answered, signed and closed."""
    book = us_book()
    answer_all(book.on(US_DAY, 16 * 60))
    sign(book.on(US_DAY, 17 * 60), check_code(book.state, US_DAY))
    return book


@pytest.fixture(scope="session")
def ordinary() -> DaySheet:
    """Facts of an ordinary day."""
    book = ordinary_book()
    return gather_day(book.state, book.board(), US_DAY)


@pytest.fixture(scope="session")
def ordinary_pdf(ordinary: DaySheet, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The printed sheet of an ordinary day."""
    path = tmp_path_factory.mktemp("sheet") / "ordinary.pdf"
    path.write_bytes(build_pdf(ordinary))
    return path


@pytest.fixture(scope="session")
def long_day() -> DaySheet:
    """Facts of a day with four hundred probes, sixty deliveries and a long note."""
    book = long_book()
    return gather_day(book.state, book.board(), US_DAY)
