"""Day sheets as files: named safely, put in place whole."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from sync.papers.day.day_files import SheetFormat, build_day_sheet, write_day_sheets
from tests.sync.papers.day_writer import DayWriter
from tests.sync.papers.sample_day import US_DAY, us_book


def test_three_files_are_written_and_are_what_is_built(tmp_path: Path) -> None:
    """PDF, XLSX and CSV lie in the folder, byte for byte as they are built."""
    book = us_book()
    board = book.board()
    paths = write_day_sheets(book.state, board, US_DAY, tmp_path / "sheets")

    assert [path.name for path in paths] == [
        f"j1-{US_DAY}-day-sheet.{ending}" for ending in ("pdf", "xlsx", "csv")
    ]
    for path, format in zip(paths, SheetFormat, strict=True):
        assert path.read_bytes() == build_day_sheet(book.state, board, US_DAY, format=format)
    assert sorted(paths) == sorted((tmp_path / "sheets").iterdir())


def test_later_revision_has_its_own_name(tmp_path: Path) -> None:
    """A sheet made after the day was reopened does not overwrite the one handed over."""
    book = us_book()
    first = write_day_sheets(book.state, book.board(), US_DAY, tmp_path, (SheetFormat.CSV,))
    book.write("day_closed", of_day=US_DAY, open_flags=0, check_code="x")
    book.write("day_reopened", of_day=US_DAY, why="a load was left out")
    second = write_day_sheets(book.state, book.board(), US_DAY, tmp_path, (SheetFormat.CSV,))

    assert first[0].exists()
    assert second[0].name == f"j1-{US_DAY}-day-sheet-r2.csv"


@pytest.mark.parametrize("job_id", ["../../evil", "/abs", "a\\b", "nul\x00", "x" * 80, "中文"])
def test_job_name_cannot_lead_out_of_the_folder(job_id: str, tmp_path: Path) -> None:
    """Whatever a job is called, its files lie in the folder that was named."""
    book = DayWriter()
    book.write("job", job_id=job_id, name="x")
    folder = tmp_path / "sheets"
    paths = write_day_sheets(book.state, book.board(), book.day, folder, (SheetFormat.CSV,))

    assert [path.resolve().parent for path in paths] == [folder.resolve()]
    assert list(tmp_path.iterdir()) == [folder]


def test_failure_leaves_the_old_file_and_no_half(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When the disk refuses, the sheet before it still stands and nothing else lies about."""
    book = us_book()
    (path,) = write_day_sheets(book.state, book.board(), US_DAY, tmp_path, (SheetFormat.CSV,))
    before = path.read_bytes()

    def refuse(handle: int) -> None:
        raise OSError("no space left")

    monkeypatch.setattr(os, "fsync", refuse)
    with pytest.raises(OSError, match="no space"):
        write_day_sheets(book.state, book.board(), US_DAY, tmp_path, (SheetFormat.CSV,))

    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


def test_gathering_facts_loads_no_printing_library() -> None:
    """Facts and drawings are cheap to import: the tablet needs them without a printer."""
    code = (
        "import sys, sync.papers.day.day_files, sync.papers.printed_code, "
        "sync.papers.day.facts.profile_views;"
        "print([n for n in ('fpdf', 'xlsxwriter', 'uharfbuzz', 'kivy', 'fontTools')"
        " if n in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "[]"
