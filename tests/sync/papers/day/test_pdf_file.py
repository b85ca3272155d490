"""The printed day sheet, read back by programs that did not write it."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from sync.papers.day.facts.day import DaySheet, gather_day
from sync.papers.day.pdf_file import build_pdf
from sync.papers.wording.measures import Measure, measure_text, number_text
from tests.sync.papers.conftest import PrintSheet
from tests.sync.papers.day_writer import DayWriter
from tests.sync.papers.pdf_reading import (
    facts_of,
    outside_margins,
    pages_of,
    run,
    text_of,
    unembedded,
)
from tests.sync.papers.sample_day import (
    EMPTY_DAY,
    METRIC_DAY,
    US_DAY,
    answer_all,
    metric_book,
    us_book,
)


def test_ordinary_day_fits_on_one_letter_page(ordinary_pdf: Path) -> None:
    """A day of nine passes and nine shots is one page of American size."""
    facts = facts_of(ordinary_pdf)

    assert facts["Pages"] == "1"
    assert facts["Page size"].endswith("(letter)")


def test_metric_job_is_printed_on_a4(print_sheet: PrintSheet) -> None:
    """Where metres are measured, paper is A4."""
    path = print_sheet(metric_book(), METRIC_DAY)

    assert facts_of(path)["Page size"].endswith("(A4)")
    assert pages_of(path) == 1


def test_every_number_of_the_day_is_printed(ordinary: DaySheet, ordinary_pdf: Path) -> None:
    """Depths, rods, levels, quantities, tickets and hours are all found on the page."""
    figures, printed = ordinary.figures, set(text_of(ordinary_pdf).replace(",", " ").split())
    wanted = {
        number_text(Measure.DEPTH, p.body.depth_nm, figures)
        for c in ordinary.passes
        for p in c.probes
    }
    wanted |= {cut.body.pass_id for cut in ordinary.passes}
    wanted |= {figures.station(shot.station_nm) for shot in ordinary.shots}
    wanted |= {figures.level(shot.reading_nm) for shot in ordinary.shots}
    wanted |= {measure_text(Measure.LEVEL, shot.elevation_nm, figures) for shot in ordinary.shots}
    wanted |= {number_text(Measure.OFF, shot.off_nm, figures) for shot in ordinary.shots}
    for one in ordinary.quantities:
        amounts = (one.today, one.to_date, one.left, one.plan)
        wanted |= {number_text(one.measure, amount, figures) for amount in amounts}
    for row in ordinary.balances:
        stock = (row.delivered, row.used, row.on_hand)
        wanted |= {number_text(row.measure, amount, figures) for amount in stock}
    wanted |= {load.ticket for load in ordinary.loads if load.ticket} | {ordinary.head.code}

    assert sorted(wanted - printed) == []


def test_lengths_of_passes_come_to_what_was_cut(ordinary: DaySheet, ordinary_pdf: Path) -> None:
    """Whoever adds the column up, legs and all, gets the length that the sheet says was cut."""
    rows = re.findall(r"^ *G7-\d\d +(?:(\d+) x )?([\d.]+) ", text_of(ordinary_pdf), re.MULTILINE)
    cut = sum(int(legs or 1) * Fraction(length) for legs, length in rows)

    assert len(rows) == len([one for one in ordinary.passes if one.is_cut_today])
    assert cut * 304_800_000 == sum(one.cut_nm for one in ordinary.passes)


def test_owner_reads_the_answer_in_the_upper_part(ordinary_pdf: Path) -> None:
    """Status, share done, forecast and what is needed come before any table."""
    top = text_of(ordinary_pdf).split("quantity")[0]

    for words_ in ("OK", "57 % of the planned length done", "planned Wed Jun 17", "Needs you"):
        assert words_ in top
    for words_ in ("Where should the spare sod go?", "L-2209 runs out", "Green 7 until noon"):
        assert words_ in top


@pytest.mark.parametrize("day", [US_DAY, EMPTY_DAY, "2026-06-08"])
def test_no_word_leaves_the_margins(day: str, print_sheet: PrintSheet) -> None:
    """Every word lies inside the margins, whatever the day."""
    assert outside_margins(print_sheet(us_book(), day)) == []


def test_long_day_flows_on(long_day: DaySheet, tmp_path: Path) -> None:
    """Four hundred probes, sixty tickets and a long note are all there, on more pages."""
    path = tmp_path / "long.pdf"
    path.write_bytes(build_pdf(long_day))
    text = text_of(path)

    assert 2 <= pages_of(path) <= 8
    assert outside_margins(path) == []
    assert all(f"T{number:04d}" in text for number in range(60))
    assert all(cut.body.pass_id in text for cut in long_day.passes)
    assert text.count("edge and was made") + text.count("made good") > 38
    assert text.index("G7-59") < text.index("Foreman")


def test_every_page_says_which_it_is(long_day: DaySheet, tmp_path: Path) -> None:
    """Each page carries its number of how many, the job, the day, the revision and the code."""
    path = tmp_path / "long.pdf"
    path.write_bytes(build_pdf(long_day))
    pages = text_of(path).split("\f")[:-1]

    for number, page in enumerate(pages, start=1):
        assert f"Page {number} of {len(pages)}, 2026-06-09, revision 1, Willow Bend" in page
        assert f"Check code {long_day.head.code}" in page


def test_empty_day_prints(print_sheet: PrintSheet) -> None:
    """A day without an entry is still a sheet, which says so."""
    book = us_book()
    answer_all(book)
    text = text_of(print_sheet(book, EMPTY_DAY))

    assert "Day without work" in text
    assert "no pass today" in text
    assert "not yet measured" in text


def test_book_without_a_job_prints(print_sheet: PrintSheet) -> None:
    """A book that holds nothing at all gives a sheet instead of a fault."""
    text = text_of(print_sheet(DayWriter(), EMPTY_DAY))

    assert "Job without a name" in text
    assert "nothing yet" in text


def test_same_day_gives_the_same_bytes(ordinary: DaySheet) -> None:
    """Printed twice, from facts gathered twice, the file is the same to the byte."""
    book = us_book()
    first = build_pdf(gather_day(book.state, book.board(), US_DAY))
    second = build_pdf(gather_day(us_book().state, us_book().board(), US_DAY))

    assert first == second
    assert build_pdf(ordinary) != first


def test_file_is_sound_and_carries_its_fonts(ordinary_pdf: Path) -> None:
    """Another program finds no fault in the file, and every font is inside."""
    run("qpdf", "--check", str(ordinary_pdf))
    facts = facts_of(ordinary_pdf)

    assert unembedded(ordinary_pdf) == []
    assert facts["Title"] == "Day sheet 2026-06-09, Willow Bend: greens 7 and 9"
    assert facts["Author"] == "crewapp"
    assert facts["CreationDate"].startswith("2026-06-09")


def test_spoilt_file_is_refused_by_the_reader(ordinary_pdf: Path, tmp_path: Path) -> None:
    """The independent check can fail: half a file does not pass it."""
    half = tmp_path / "half.pdf"
    half.write_bytes(ordinary_pdf.read_bytes()[: ordinary_pdf.stat().st_size // 2])

    with pytest.raises(AssertionError):
        run("qpdf", "--check", str(half))
