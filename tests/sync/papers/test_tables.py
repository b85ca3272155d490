"""The same facts as a workbook and as a long table, read back independently."""

from __future__ import annotations

import csv
import io
from fractions import Fraction

import openpyxl
import pytest

from sync.papers.day.csv_file import HEADER, build_csv, guard_formula, plain_number
from sync.papers.day.facts.day import DaySheet, gather_day
from sync.papers.day.tables import day_tables
from sync.papers.day.xlsx_file import build_xlsx
from tests.sync.papers.day_writer import IN
from tests.sync.papers.sample_day import METRIC_DAY, US_DAY, metric_book, us_book

EVIL = "=1+1"


@pytest.fixture(scope="module")
def evil() -> DaySheet:
    """A day in which a formula was typed wherever words are taken."""
    book = us_book()
    book.write("note", text=EVIL)
    book.write("delivery", material_id=EVIL, ticket="+49", length_nm=10**9, note="@cmd")
    book.write("delay", cause="-2", lost_min=5)
    return gather_day(book.state, book.board(), US_DAY)


def rows_of(day: DaySheet) -> list[dict[str, str]]:
    """Rows of the CSV by column."""
    text = build_csv(day).decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def book_of(day: DaySheet) -> openpyxl.Workbook:
    """The workbook, opened by another library."""
    return openpyxl.load_workbook(io.BytesIO(build_xlsx(day)))


def test_workbook_has_a_tab_for_each_section(ordinary: DaySheet) -> None:
    """Tabs, headers with units, frozen first row."""
    book = book_of(ordinary)

    assert book.sheetnames == [table.name for table in day_tables(ordinary)]
    for name in ("summary", "quantities", "passes", "probes", "grade shots", "loads"):
        assert book[name].freeze_panes == "A2"
    assert {"depth_in", "along_ft", "depth_typed"} <= {c.value for c in book["probes"][1]}


def test_metric_workbook_names_metric_units() -> None:
    """A job in metres has millimetres and metres in its headers."""
    book = metric_book()
    sheet = book_of(gather_day(book.state, book.board(), METRIC_DAY))

    assert {"depth_mm", "along_m"} <= {cell.value for cell in sheet["probes"][1]}


def test_numbers_are_numbers_and_exact(ordinary: DaySheet) -> None:
    """A depth of eight and seven eighths is the number 8.875, next to what was typed."""
    tab = book_of(ordinary)["probes"]
    names = [cell.value for cell in tab[1]]
    at, typed = names.index("depth_in"), names.index("depth_typed")
    read = [(row[at].data_type, row[at].value, row[typed].data_type) for row in tab.iter_rows(2)]
    depths = [float(Fraction(p.body.depth_nm, IN)) for c in ordinary.passes for p in c.probes]

    assert [value for _, value, _ in read] == depths
    assert {kind for kind, _, _ in read} == {"n"}
    assert {kind for _, _, kind in read} <= {"s", "n"}


def test_workbook_has_no_formula_and_no_link(evil: DaySheet) -> None:
    """Text that looks like a formula or an address stays text."""
    book = book_of(evil)
    cells = [cell for tab in book for row in tab.iter_rows() for cell in row]

    assert any(cell.value == EVIL and cell.data_type == "s" for cell in cells)
    assert all(cell.data_type != "f" and cell.hyperlink is None for cell in cells)


def test_long_table_guards_words_and_leaves_numbers(evil: DaySheet) -> None:
    """No words begin as a formula, and a negative number is still a number."""
    rows = rows_of(evil)

    assert tuple(rows[0]) == HEADER
    assert not [row for row in rows if row["text"].startswith(("=", "+", "-", "@", "\t", "\r"))]
    assert any(row["text"] == f"'{EVIL}" for row in rows)
    assert any(row["number"].startswith("-") for row in rows)
    assert all(float(row["number"]) is not None for row in rows if row["number"])


def test_long_table_is_marked_utf8_with_full_line_ends(ordinary: DaySheet) -> None:
    """A spreadsheet opens it without asking for a character set."""
    data = build_csv(ordinary)

    assert data.startswith(b"\xef\xbb\xbfsection,row,column,unit,number,text\r\n")
    assert b"\n" not in data.replace(b"\r\n", b"")


def test_both_hold_the_same_facts(ordinary: DaySheet) -> None:
    """Every filled cell of the workbook is a row of the long table, and no more."""
    book = book_of(ordinary)
    cells = [c.value for tab in book for row in tab.iter_rows(2) for c in row]

    assert len(rows_of(ordinary)) == sum(value not in (None, "") for value in cells)


def test_amounts_state_their_unit(ordinary: DaySheet) -> None:
    """A quantity's number carries the unit that stands beside it in the workbook."""
    rows = [r for r in rows_of(ordinary) if (r["section"], r["column"]) == ("quantities", "today")]

    assert [row["unit"] for row in rows] == ["ft", "ft", "ft", "ft", "yd3", "yd3"]


def test_same_day_gives_the_same_bytes() -> None:
    """Workbook and table are the same to the byte for the same book."""
    days = [gather_day(book.state, book.board(), US_DAY) for book in (us_book(), us_book())]

    assert build_xlsx(days[0]) == build_xlsx(days[1])
    assert build_csv(days[0]) == build_csv(days[1])


@pytest.mark.parametrize("text", ["=x", "+x", "-x", "@x", " =x", "\uff1dx", "|x", "%x"])
def test_guard_covers_every_beginning(text: str) -> None:
    """Whatever a spreadsheet may take for a formula gets an apostrophe."""
    assert guard_formula(text) == f"'{text}"


def test_small_numbers_have_no_exponent() -> None:
    """A number is written out, since an exponent is read as words or dates by some."""
    assert plain_number(0.000001) == "0.000001"
    assert plain_number(-8.125) == "-8.125"
