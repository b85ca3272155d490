"""The printed record read back with independent programs, on every paper."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pypdf
import pytest

from sync.papers.asbuilt.pages.flow_pages import column_mm
from sync.papers.asbuilt.pages.page_types import Frame
from sync.papers.asbuilt.pdf_file import build_as_built_pdf
from sync.papers.asbuilt.plans.paper_sizes import PaperSheet, PaperSize
from sync.papers.asbuilt.records.facts import Facts
from sync.papers.asbuilt.records.record_sections import heads_of
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import BODY_PT
from tests.sync.papers.asbuilt.conftest import facts_of_book
from tests.sync.papers.asbuilt.record_books import plan_alone, us_record
from tests.sync.papers.asbuilt.small_green import written_green
from tests.sync.papers.day_writer import DayWriter
from tests.sync.papers.pdf_reading import (
    outside_margins,
    pages_of,
    run,
    text_of,
    unembedded,
    words_of,
)
from tests.sync.papers.sample_day import metric_book

SIZES_PT = {
    PaperSize.LETTER: (792, 612),
    PaperSize.TABLOID: (1224, 792),
    PaperSize.A4: (841.89, 595.276),
    PaperSize.A3: (1190.55, 841.89),
}
BOOKS = {
    "in metres": metric_book,
    "nothing cut": plan_alone,
    "no job at all": DayWriter,
    "not tied to a map": lambda: written_green(is_tied=False),
}
HOSTILE = {
    "formula": '=HYPERLINK("http://example.com","x")',
    "markup": "**bold** <b>tag</b> [link](http://example.com) &amp;",
    "PDF string": ") Tj ET /JS (app.alert(1)) \\( endstream",
    "turned writing": "abc \u202egnp.exe",
    "lines": "one\r\ntwo\u2028three",
    "long word": "W" * 80,
    "scripts": "علي राम 張偉 Дмитро",
}


def printed(facts: Facts, path: Path, paper: PaperSize | None = None) -> Path:
    """Print a record into a file."""
    path.write_bytes(build_as_built_pdf(facts, paper=paper))
    return path


def test_every_number_of_the_tables_is_on_paper(us_facts: Facts, us_pdf: Path) -> None:
    """What a table shows in a figure is found among the words of the file."""
    words = {word.text for word in words_of(us_pdf)[0]}
    for table in us_facts.tables:
        if table.name in {"job", "probes"}:
            continue
        figures = {
            row.items[place].shown
            for row in table.rows
            for place in table.printed_columns
            if re.fullmatch(r"[-+]?\d[\d.,+-]*", row.items[place].shown)
        }
        assert figures <= words, table.name


def test_record_says_what_it_is_and_is_not(us_pdf: Path) -> None:
    """Whose, of when, from which datum, to which scale, no survey, open flags, care."""
    text = " ".join(text_of(us_pdf).split())

    for words in (
        "Willow Bend: greens 7 and 9",
        "It is not a survey",
        "2 that stop the work",
        "Mon Jun 8, 2026 to Sat Jun 20, 2026, 3 days worked",
        "tied to no map",
        "1/16 in = 1 ft (1:192)",
        "on letter, 11 x 8-1/2 in",
        "How to flush it and look after it",
        "Appendix: after the rain",
    ):
        assert words in text


def test_every_sheet_is_numbered_and_carries_the_code(us_facts: Facts, us_pdf: Path) -> None:
    """Each page says which of how many it is, and the code it is proven by."""
    count = pages_of(us_pdf)
    for number in range(1, count + 1):
        page = run("pdftotext", "-f", str(number), "-l", str(number), str(us_pdf), "-")
        assert f"Sheet {number} of {count}, as built" in page
        assert f"Check code {us_facts.head.code}" in page


@pytest.mark.parametrize("paper", PaperSize)
def test_paper_is_as_asked_and_margins_stay_clear(
    us_facts: Facts, paper: PaperSize, tmp_path: Path
) -> None:
    """On every paper the page has its size, all words stay inside, the file is sound."""
    path = printed(us_facts, tmp_path / "record.pdf", paper)
    _, width, height = words_of(path)

    assert (width, height) == pytest.approx(SIZES_PT[paper], abs=0.1)
    assert outside_margins(path) == []
    run("qpdf", "--check", str(path))


@pytest.mark.parametrize("book", BOOKS.values(), ids=BOOKS.keys())
def test_any_job_prints(book: object, tmp_path: Path) -> None:
    """In metres, before anything is cut, without a collector, a plan or a job: it prints."""
    assert callable(book)
    path = printed(facts_of_book(book()), tmp_path / "record.pdf")

    assert pages_of(path) >= 2
    assert outside_margins(path) == []
    assert unembedded(path) == []


def test_job_with_nothing_cut_says_so_on_its_first_sheet(tmp_path: Path) -> None:
    """Nobody can take the plan alone for a record of work."""
    path = printed(facts_of_book(plan_alone()), tmp_path / "record.pdf")

    assert "NOTHING HAS BEEN CUT OR LAID YET" in text_of(path)


@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE.keys())
def test_hostile_names_print_as_text(name: str, tmp_path: Path) -> None:
    """Whatever is typed wherever a name may stand: no action, no link, nothing over a margin."""
    path = printed(facts_of_book(written_green(name)), tmp_path / "record.pdf")
    run("qpdf", "--check", str(path))
    plain = run("qpdf", "--qdf", "--object-streams=disable", str(path), "-")

    assert not re.search(r"/(URI|JavaScript|Launch|SubmitForm|Annots|EmbeddedFile)\b", plain)
    assert outside_margins(path) == []
    assert unembedded(path) == []


def test_same_book_gives_the_same_bytes() -> None:
    """Two records of two equal books are the same file: no clock, no chance."""
    first, second = (build_as_built_pdf(facts_of_book(us_record())) for _ in range(2))

    assert first == second


def test_file_says_it_is_for_keeping(us_facts: Facts, us_pdf: Path) -> None:
    """Metadata names PDF/A-1b, colours have their profile, nothing is encrypted or scripted."""
    reader = pypdf.PdfReader(us_pdf)
    root: Any = reader.trailer["/Root"]
    metadata = root["/Metadata"].get_data().decode()
    intent = root["/OutputIntents"][0]

    assert "<pdfaid:part>1</pdfaid:part>" in metadata
    assert "<pdfaid:conformance>B</pdfaid:conformance>" in metadata
    assert us_facts.head.job in metadata
    assert intent["/S"] == "/GTS_PDFA1"
    assert intent["/DestOutputProfile"].get_data()[36:40] == b"acsp"  # an ICC profile's mark
    assert not reader.is_encrypted
    assert not {"/AA", "/Names"} & set(root)
    assert root["/OpenAction"][1] == "/FitH"  # a place to begin reading at, no program


@pytest.mark.parametrize("paper", PaperSize)
def test_heads_of_columns_are_whole(us_facts: Facts, paper: PaperSize) -> None:
    """On every paper, in feet and in metres, each column is as wide as its head."""
    for facts in (us_facts, facts_of_book(metric_book())):
        width = column_mm(Frame(PaperSheet(paper), facts.head))
        with PdfPen(100, 100) as pen:
            for table in (*facts.tables, *facts.after_rain):
                for head, room in heads_of(table, width):
                    assert pen.measure(head, BODY_PT) <= room + 1e-6, (table.name, head)


def test_drawings_stay_lines(us_pdf: Path) -> None:
    """Plans are drawn, not painted: no picture is in a record without photos."""
    assert run("pdfimages", "-list", str(us_pdf)).count("\n") == 2  # its two lines of heading
