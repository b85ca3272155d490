"""Signatures on the printed sheet: strokes as drawn, and whether they still hold."""

from __future__ import annotations

import re
from pathlib import Path

from models.state.check_code import check_code
from tests.sync.papers.conftest import PrintSheet, ordinary_book
from tests.sync.papers.pdf_reading import run, text_of
from tests.sync.papers.sample_day import US_DAY, us_book

MONDAY = "2026-06-08"


def strokes_in(path: Path) -> int:
    """Pen strokes of the signature's weight, 0.45 mm or 1.28 pt, on the pages."""
    plain = run("qpdf", "--qdf", "--object-streams=disable", str(path), "-")
    after = plain.split("1.28 w")[1:]
    return sum(len(re.findall(r" l\b", part.split(" w\n")[0])) for part in after)


def test_strokes_are_drawn_as_lines(ordinary_pdf: Path, print_sheet: PrintSheet) -> None:
    """Two signatures of two strokes each give two times twelve lines; unsigned gives none."""
    assert strokes_in(ordinary_pdf) == 2 * (6 + 6)
    assert strokes_in(print_sheet(us_book(), US_DAY)) == 0


def test_signature_says_who_and_what(ordinary_pdf: Path) -> None:
    """Name and meaning stand below; received is not agreed."""
    text = text_of(ordinary_pdf)

    assert "Ruth Okafor" in text
    assert "This is a true record of the day." in text
    assert "A. Lindqvist" in text
    assert "Received." in text
    assert "agreed" not in text.split("Foreman")[1]


def test_signature_over_older_entries_says_so(print_sheet: PrintSheet) -> None:
    """When something was written after the signing, the sheet tells it beside the signature."""
    book = ordinary_book()
    book.write("note", text="Late addition")
    text = text_of(print_sheet(book, US_DAY))

    assert text.count("entries were written since") == 2


def test_note_on_older_entries_lies_on_no_other_word(print_sheet: PrintSheet) -> None:
    """The note has a line of its own below the signature: no box of a word meets another's."""
    book = ordinary_book()
    book.write("note", text="Late addition")
    page = run("pdftotext", "-bbox", str(print_sheet(book, US_DAY)), "-")
    found = re.findall(
        r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)<', page
    )
    boxes = [(*map(float, box[:4]), box[4]) for box in found]
    noted = [box for box in boxes if box[4] in ("Signed", "written", "since")]
    met = [
        (one[4], other[4])
        for one in noted
        for other in boxes
        if one != other and one[0] < other[2] and other[0] < one[2]
        if min(one[3], other[3]) - max(one[1], other[1]) > 2.0  # lines touch at their edges
    ]

    assert len(noted) == 6
    assert not met


def test_unsigned_sheet_has_room_to_sign(print_sheet: PrintSheet) -> None:
    """Without a signature there is an empty line that says it is not signed."""
    assert text_of(print_sheet(us_book(), US_DAY)).count("not signed: name, date, time") == 2


def test_signature_bears_the_day_it_was_drawn(print_sheet: PrintSheet) -> None:
    """Monday signed on Tuesday at ten past seven says so: no signature is dated back."""
    book = us_book()
    code = check_code(book.state, MONDAY)
    book.on(US_DAY, 7 * 60 + 9).write(
        "signature",
        for_day=MONDAY,
        of_day=MONDAY,
        role="foreman",
        name="Ruth Okafor",
        meaning="true_record",
        strokes=(((0, 0), (9, 9)),),
        check_code=code,
    )

    text = text_of(print_sheet(book, MONDAY))

    assert f"Ruth Okafor, {US_DAY} 7:10 am" in text
