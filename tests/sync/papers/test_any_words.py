"""Words of any script and any intent: printed as they are, or named, never obeyed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from models.entries.kinds import KINDS
from sync.papers.pdf.pen import PdfPen
from sync.papers.wording import entry_text as entry_words
from sync.papers.wording.safe_text import clean, single_line, slug
from tests.sync.papers.conftest import PrintSheet
from tests.sync.papers.day_writer import DayWriter
from tests.sync.papers.pdf_reading import outside_margins, run, text_of, unembedded
from tests.sync.papers.sample_day import US_DAY, us_book

NAMES = {
    "Latin with marks": "Søren Żółkiewski-Ångström",
    "Cyrillic": "Дмитро Соколенко",
    "Greek": "Νίκος Παππάς",
    "Arabic": "علي حسن",
    "Hebrew": "דוד לוי",
    "Devanagari": "राम प्रसाद",
    "Tamil": "கண்ணன்",
    "Thai": "สมชาย ใจดี",
    "Chinese": "張偉",
    "Japanese": "田中さくら",
    "Amharic": "አበበ",
}
HOSTILE = {
    "formula": '=HYPERLINK("http://example.com","x")',
    "markup": "**bold** __under__ <b>tag</b> [link](http://example.com) &amp;",
    "PDF string": ") Tj ET /JS (app.alert(1)) \\( endstream",
    "path": "../../../etc/passwd",
    "turned writing": "abc \u202egnp.exe",
    "control characters": "bell\x07 null\x00 escape\x1b[31m",
    "lines": "one\r\ntwo\rthree\u2028four",
    "long word": "W" * 600,
    "piled marks": "Z" + "\u0300" * 300,
    "template": "{nb} {page} %s ${x} {{7*7}}",
    "picture": "done \U0001f44d\U0001f3fd",
}


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES.keys())
def test_name_prints_in_its_own_letters(name: str, print_sheet: PrintSheet) -> None:
    """A name in any script is printed with its own letters, embedded and copyable."""
    book = us_book()
    book.write("person", person_id="X", name=name)
    book.write("hours", of="person", who="X", run_min=60)
    path = print_sheet(book, US_DAY)
    letters = set(text_of(path))

    assert {letter for letter in name if letter.isalpha()} - letters == set()
    assert unembedded(path) == []


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE.keys())
def test_hostile_text_prints_as_text(text: str, print_sheet: PrintSheet) -> None:
    """Whatever is typed, the file is sound, has no link or action, and keeps its margins."""
    book = us_book()
    book.write("note", text=text, needs_owner=True)
    book.write("delivery", material_id=text[:80] or "x", ticket=text[:80], length_nm=10**9)
    path = print_sheet(book, US_DAY)
    run("qpdf", "--check", str(path))
    plain = run("qpdf", "--qdf", "--object-streams=disable", str(path), "-")

    assert not re.search(r"/(URI|JS|JavaScript|Launch|SubmitForm|Annots|EmbeddedFile)\b", plain)
    assert outside_margins(path) == []


def test_job_named_by_an_enemy_keeps_its_place(print_sheet: PrintSheet) -> None:
    """A job's name of eighty wide letters is cut on the page, with dots to say so."""
    book = DayWriter()
    book.write("job", job_id="J", name="W" * 80, site="S" * 900, owner="O" * 900)
    path = print_sheet(book, book.day)

    assert outside_margins(path) == []
    assert "WWW..." in text_of(path)


def test_letter_without_a_font_is_named() -> None:
    """A letter that no font has is printed as its number, never as a silent box."""
    with PdfPen(100, 100) as pen:
        assert pen.printable_text("ok \U000e0041") == "ok [U+E0041]"
        assert pen.printable_text("plain") == "plain"


def test_unseen_characters_are_named_or_dropped() -> None:
    """What steers or hides text is named; what only helps layout is left out."""
    assert clean("a\u202eb\x00c") == "a[U+202E]b[U+0000]c"
    assert clean("soft\u00adhyphen\u200b\ufeff") == "softhyphen"
    assert clean("\ue000") == "[U+E000]"
    assert clean("Z" + "\u0300" * 300).count("\u0300") <= 4


def test_joiners_stay_for_scripts_that_need_them() -> None:
    """Letters of Persian and Hindi keep the marks that join and part them."""
    assert clean("می\u200cخواهم") == "می\u200cخواهم"


def test_lines_become_one_where_there_is_one() -> None:
    """Breaks of every kind are shown as a slash."""
    assert single_line("one\r\ntwo\rthree\u2028four") == "one / two / three / four"
    assert single_line("  a \t b  ") == "a b"


@pytest.mark.parametrize(
    "text", ["../../etc", "C:\\x", "a/b", "..", "", "\x00", "con", "x" * 400, "中文", "=1"]
)
def test_file_name_is_never_a_path(text: str) -> None:
    """Only small letters, figures and hyphens come out, and not too many."""
    assert re.fullmatch(r"[a-z0-9-]{1,60}", slug(text))


def test_long_note_is_printed_whole(print_sheet: PrintSheet, tmp_path: Path) -> None:
    """A note of two thousand characters is there to its last word."""
    book = us_book()
    book.write("note", text="word " * 398 + "lastword")
    path = print_sheet(book, US_DAY)
    text = text_of(path)

    assert text.count("word ") + text.count("word\n") >= 398
    assert "lastword" in text
    assert outside_margins(path) == []


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_entry_has_its_line(kind: str) -> None:
    """No kind that may be on a sheet is without words there."""
    assert kind in entry_words.SAY
    assert entry_words.title_of(kind)
