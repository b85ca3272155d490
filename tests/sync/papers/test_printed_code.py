"""Proving a printed sheet against the book."""

from __future__ import annotations

from models.state.check_code import check_code
from sync.papers.printed_code import Outcome, verify_day, verify_sheet
from tests.sync.papers.conftest import ordinary_book
from tests.sync.papers.sample_day import US_DAY, us_book


def test_code_on_the_sheet_is_proven() -> None:
    """The code of a day is proven, however it is typed."""
    state = us_book().state
    code = check_code(state, US_DAY)

    for typed in (code, code.lower(), code.replace("-", " "), code.replace("0", "O")):
        proof = verify_sheet(state, typed)
        assert proof.is_proven
        assert proof.day == US_DAY


def test_entries_added_since_are_named() -> None:
    """An older code is known, and what was written since is listed."""
    book = us_book()
    code = check_code(book.state, US_DAY)
    book.write("note", text="Added after the sheet was printed")
    proof = verify_sheet(book.state, code)

    assert proof.outcome is Outcome.NOT_PROVEN
    assert proof.day == US_DAY
    assert len(proof.differs) == 1
    assert "Added after the sheet was printed" in proof.differs[0]


def test_entry_from_another_tablet_in_between_is_named() -> None:
    """An entry that came in later with an earlier place in the book is found as well."""
    book, other = us_book(), us_book()
    code = check_code(book.state, US_DAY)
    other.stream, other.count = "tablet-2", 40
    late = other.on(US_DAY).write("note", text="From the second tablet")
    book.state.add(late)
    proof = verify_sheet(book.state, code)

    assert not proof.is_proven
    assert [line for line in proof.differs if "From the second tablet" in line]


def test_foreign_code_is_not_proven() -> None:
    """A code of no day of this book is said to be that."""
    proof = verify_sheet(us_book().state, "0000-0000-0000-0000-0000")

    assert not proof.is_proven
    assert "no day of this book" in proof.sentence


def test_text_that_is_no_code_gets_a_sentence() -> None:
    """Too short a code is not looked up."""
    proof = verify_sheet(us_book().state, "12-34")

    assert not proof.is_proven
    assert "20 letters and figures" in proof.sentence


def test_signed_day_is_proven_until_something_is_added() -> None:
    """A day stands as it was signed; one more entry and it does not."""
    book = ordinary_book()
    assert verify_day(book.state, US_DAY).is_proven
    assert verify_sheet(book.state, US_DAY).is_proven

    book.write("note", text="One more")
    proof = verify_day(book.state, US_DAY)
    assert not proof.is_proven
    assert "One more" in proof.differs[0]


def test_day_that_nobody_signed_is_not_proven() -> None:
    """Without a signature or a closing there is nothing to prove a day by."""
    proof = verify_day(us_book().state, US_DAY)

    assert not proof.is_proven
    assert "neither signed nor closed" in proof.sentence
