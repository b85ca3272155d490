"""A sheet says how many of its entries hold more than this version shows."""

from __future__ import annotations

import csv
import io

import pytest

from sync.papers.day.day_files import SheetFormat, build_day_sheet
from tests.sync.papers.conftest import PrintSheet
from tests.sync.papers.day_writer import DayWriter
from tests.sync.papers.pdf_reading import text_of
from tests.sync.papers.sample_day import US_DAY, us_book


def written(count: int) -> DayWriter:
    """A day with some notes of a newer version, and one of them crossed out."""
    book = us_book()
    for number in range(count):
        book.write("note", text=f"note {number}", newer={"colour": "red"})
    struck = book.write("note", text="twice", newer={"colour": "red"})
    book.write("struck", why="twice", strikes=[struck.id], reason="twice")
    return book


@pytest.mark.parametrize(
    ("count", "said"),
    [
        (0, ""),
        (1, "1 entry holds more than this version shows."),
        (2, "2 entries hold more than this version shows."),
    ],
)
def test_foot_counts_entries_that_hold_more(count: int, said: str, print_sheet: PrintSheet) -> None:
    """The printed sheet and the table say the same; where there is none, neither says a word."""
    book = written(count)
    sheet = text_of(print_sheet(book, US_DAY))
    data = build_day_sheet(book.state, book.board(), US_DAY, format=SheetFormat.CSV)
    rows = csv.DictReader(io.StringIO(data.decode("utf-8-sig")))
    told = [row["text"] for row in rows if "more than this version" in row["text"]]

    assert told == ([said] if said else [])
    assert said in sheet
    assert ("more than this version" in sheet) == bool(said)
