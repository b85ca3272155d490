"""Records of invented jobs, gathered and printed once."""

from __future__ import annotations

from pathlib import Path

import pytest

from sync.papers.asbuilt.pdf_file import build_as_built_pdf
from sync.papers.asbuilt.records.facts import Facts, gather_facts
from tests.sync.papers.asbuilt.record_books import after_rain, us_record
from tests.sync.papers.asbuilt.small_green import written_green
from tests.sync.papers.day_writer import DayWriter


def facts_of_book(book: DayWriter) -> Facts:
    """Facts of a book as it stands."""
    return gather_facts(book.state, book.board())


@pytest.fixture(scope="session")
def us_facts() -> Facts:
    """A green in feet, half cut, with a belly, a struck probe, and what came after the rain."""
    book = us_record()
    after_rain(book)
    return facts_of_book(book)


@pytest.fixture(scope="session")
def green_facts() -> Facts:
    """The small green with keep-outs, joints, ties and utilities."""
    return facts_of_book(written_green())


@pytest.fixture(scope="session")
def us_pdf(us_facts: Facts, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The printed record of the green in feet."""
    path = tmp_path_factory.mktemp("record") / "asbuilt.pdf"
    path.write_bytes(build_as_built_pdf(us_facts))
    return path
