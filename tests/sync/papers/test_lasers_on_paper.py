"""Lasers and their peg tests on the day sheet and in the as-built record."""

from __future__ import annotations

from pathlib import Path

import pytest

from models.entries.kind_names import SETUP
from sync.papers.asbuilt.pdf_file import build_as_built_pdf
from sync.papers.asbuilt.records.facts import gather_facts
from sync.papers.day.facts.day import gather_day
from sync.papers.tables.record_table import Record
from tests.sync.papers.conftest import PrintSheet
from tests.sync.papers.day_writer import FT, DayWriter
from tests.sync.papers.pdf_reading import outside_margins, text_of
from tests.sync.papers.sample_day import US_DAY, us_book

HUNDREDTH = FT // 100


def laser_book(end_a: int = 501) -> DayWriter:
    """Tuesday's job whose setup names a laser, peg-tested the Friday before.

    Pegs 200 ft apart, then 10 ft beyond B: 0.01 ft in 200 ft is 50 millionths, 0.04 ft 200.
    """
    book = us_book()
    laser = {"instrument_id": "laser 1", "what": "rotating_laser", "rod_step_nm": HUNDREDTH}
    book.write("instrument", serial="A-1755", for_day="2026-06-05", **laser)
    readings = {"mid_a_nm": 500, "mid_b_nm": 400, "end_a_nm": end_a, "end_b_nm": 400}
    nm = {name: value * HUNDREDTH for name, value in readings.items()}
    far = {"to_a_nm": 210 * FT, "to_b_nm": 10 * FT}
    book.write("peg_test", instrument_id="laser 1", for_day="2026-06-05", **nm, **far)
    (old,) = book.state.current(SETUP, "L1")
    fields = {"setup_id": "L1", "collector_id": "C1", "on_point": "BM1", "backsight_nm": 4 * FT}
    book.write("setup", strikes=(old.id,), reason="which laser", instrument_id="laser 1", **fields)
    return book


def printed(book: DayWriter, folder: Path) -> Path:
    """The as-built record as a PDF."""
    path = folder / "as-built.pdf"
    path.write_bytes(build_as_built_pdf(gather_facts(book.state, book.board())))
    return path


def table(book: DayWriter, name: str) -> Record:
    """One table of the record."""
    facts = gather_facts(book.state, book.board())
    return next(one for one in facts.tables if one.name == name)


@pytest.mark.parametrize(
    ("end_a", "says"),
    [
        (501, "L1: laser 1, peg test Fri Jun 5, 2026: rises 0.005 ft in 100 ft"),
        (504, "L1: laser 1 NOT PROVEN: its peg test failed"),
    ],
)
def test_day_sheet_names_the_laser_and_its_last_test(
    print_sheet: PrintSheet, end_a: int, says: str
) -> None:
    """Over the shots stands which laser they were taken with, and what proves it."""
    book = laser_book(end_a)

    assert gather_day(book.state, book.board(), US_DAY).lasers == (says,)
    path = print_sheet(book, US_DAY)
    assert says in " ".join(text_of(path).split())
    assert outside_margins(path) == []


def test_as_built_lists_lasers_and_peg_tests(tmp_path: Path) -> None:
    """Readings, distances and error of each test, and the setups say which laser."""
    book = laser_book(504)
    (row,) = table(book, "peg_tests").rows
    values = [item.value for item in row.items]

    assert values[:2] == ["laser 1", "Fri Jun 5, 2026"]
    assert values[6:13] == [5.0, 4.0, 5.04, 4.0, 210.0, 10.0, 200.0]
    assert row.items[5].shown == "rises 0.020 ft in 100 ft: OUT, 0.012 ft in 100 ft allowed"
    assert row.is_heavy
    proven = [one.items[4].shown for one in table(book, "setups").rows]
    assert any("laser 1 NOT PROVEN: its peg test failed" in one for one in proven)
    path = printed(book, tmp_path)
    assert "number A-1755" in " ".join(text_of(path).split())
    assert outside_margins(path) == []


def test_job_without_instruments_prints_as_before() -> None:
    """No table and no line of lasers where the job lists none."""
    book = us_book()
    facts = gather_facts(book.state, book.board())

    assert {"instruments", "peg_tests"} & {one.name for one in facts.tables} == set()
    assert gather_day(book.state, book.board(), US_DAY).lasers == ()
