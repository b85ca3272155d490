"""The workbook of the record, read back by another library."""

from __future__ import annotations

import io

import openpyxl
import pytest

from sync.papers.asbuilt.records.facts import Facts
from sync.papers.asbuilt.xlsx_file import build_as_built_xlsx
from tests.sync.papers.asbuilt.conftest import facts_of_book
from tests.sync.papers.asbuilt.record_books import struck_shot_book
from tests.sync.papers.asbuilt.small_green import written_green

FORMULA = '=HYPERLINK("http://example.com","x")'


def opened(facts: Facts) -> openpyxl.Workbook:
    """The workbook as another library reads it."""
    return openpyxl.load_workbook(io.BytesIO(build_as_built_xlsx(facts)))


def test_every_table_is_a_tab_with_all_its_rows(us_facts: Facts) -> None:
    """Tabs stand in the order of the record; cells hold what the tables hold."""
    book = opened(us_facts)

    assert book.sheetnames == [table.name for table in us_facts.every_table]
    for table in us_facts.every_table:
        rows = list(book[table.name].iter_rows(values_only=True))
        assert rows[0] == tuple(field.header for field in table.fields)
        read = [[cell if cell is not None else "" for cell in row] for row in rows[1:]]
        told = [[i.value if i.value is not None else "" for i in row.items] for row in table.rows]
        assert read == told


def test_numbers_are_numbers_with_their_unit_above(us_facts: Facts) -> None:
    """Lengths cut are numbers in feet, and add up to what was placed."""
    tab = opened(us_facts)["lines"]
    heads = [cell.value for cell in tab[1]]
    cut = [row[heads.index("cut_ft")] for row in tab.iter_rows(min_row=2, values_only=True)]

    assert sum(value for value in cut if isinstance(value, float | int)) == pytest.approx(1170)


def test_no_text_becomes_a_formula() -> None:
    """A name that begins like a formula stays text in every cell it stands in."""
    book = opened(facts_of_book(written_green(FORMULA)))
    kinds = {cell.data_type for tab in book for row in tab.iter_rows() for cell in row}
    values = {cell.value for tab in book for row in tab.iter_rows() for cell in row}

    assert kinds <= {"s", "n"}
    assert FORMULA in values


def test_struck_rows_are_crossed_out() -> None:
    """The struck shot has a line through it, and what stands has none."""
    tab = opened(facts_of_book(struck_shot_book()))["inverts"]
    rows = [row for row in tab.iter_rows(min_row=2) if row[-1].value != "stands"]

    assert [row[0].font.strike for row in rows] == [True]
    assert not any(r[0].font.strike for r in tab.iter_rows(min_row=2) if r[-1].value == "stands")


def test_same_book_gives_the_same_workbook() -> None:
    """Two workbooks of two equal books are the same bytes."""
    first, second = (build_as_built_xlsx(facts_of_book(written_green())) for _ in range(2))

    assert first == second
