"""Writing and reading: places in the stream, order, retries, strikes."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from dataclasses import replace

import pytest

from models.book.errors import (
    BookReadOnlyError,
    EntryClashError,
    NoStrikeReasonError,
    NotStorableError,
    UnknownStrikeError,
)
from models.book.row import Draft, Row, chain_hash, make_row
from models.book.store import Book

Make = Callable[..., Draft]


def test_rows_carry_their_place_bytes_and_hash(book: Book, draft: Make) -> None:
    """Numbers run from 1, raw is the canonical envelope, each hash is over the one before."""
    first, second = book.commit_all([draft(), draft(reason="späť")])

    assert [(row.seq, row.lc) for row in (first, second)] == [(1, 1), (2, 2)]
    told = json.loads(second.raw)
    assert told["reason"] == "späť"
    assert "späť".encode() in second.raw
    assert sorted(told) == list(told)
    assert told.keys() == {*Row._fields, "body"} - {"raw", "hash"}
    assert first.hash == hashlib.sha256(bytes(32) + first.raw).digest()
    assert second.hash == hashlib.sha256(first.hash + second.raw).digest()


def test_ink_takes_the_fields_one_by_one(book: Book, draft: Make) -> None:
    """The form for one entry writes the same row as the form for many."""
    one = draft()

    row = book.commit(**{name: getattr(one, name) for name in Draft.__slots__})

    assert list(book.rows()) == [row]
    assert book.count() == 1
    assert book.heads() == {row.stream: (1, row.hash)}


def test_a_book_goes_on_where_it_was_closed(open_book: Callable[..., Book], draft: Make) -> None:
    """After closing and opening the numbers and the chain go on without a break."""
    book = open_book()
    first = book.commit_all([draft()])[0]
    book.close()

    second = open_book().commit_all([draft()])[0]

    assert (second.seq, second.lc) == (2, 2)
    assert second.hash == chain_hash(first.hash, second.raw)


def test_order_stays_when_the_clock_steps_back(book: Book, draft: Make) -> None:
    """An hour or ten years either way changes nothing in the order of entries."""
    times = [1_780_000_000_000, 1_779_996_400_000, 2_095_000_000_000, 1_780_000_001_000]
    ids = [f"00000000-0000-7000-8000-{9 - number:012d}" for number in range(4)]
    for id, at_ms in zip(ids, times, strict=True):
        book.commit_all([draft(id=id, at_ms=at_ms)])

    assert [row.at_ms for row in book.rows()] == times
    assert [row.id for row in book.rows(after_lc=2)] == ids[2:]


def test_counter_goes_on_from_the_highest_seen(book: Book, draft: Make) -> None:
    """An entry written after one from another tablet stands behind it."""
    other = make_row(draft(), "aa" * 16, 1, 700, bytes(32))

    assert book.import_rows([other]) == 1
    assert book.import_rows([other]) == 0
    mine = book.commit_all([draft()])[0]

    assert (mine.seq, mine.lc) == (1, 701)
    assert list(book.rows()) == [other, mine]


def test_many_rows_come_in_order_over_all_chunks(book: Book, draft: Make) -> None:
    """Reading in pieces neither skips nor repeats a row."""
    written = book.commit_all([draft() for _ in range(4_100)])

    assert list(book.rows()) == written


def test_equal_counters_are_told_apart_by_id(book: Book, draft: Make) -> None:
    """Tablets that never met give out the same counters: reading loses none of their rows."""
    rows = [make_row(draft(), f"{number:032x}", 1, 7, bytes(32)) for number in range(4_100)]
    book.import_rows(rows)

    assert list(book.rows()) == sorted(rows, key=lambda row: row.id)
    assert len(book.heads()) == 4_100
    assert list(book.rows(after_lc=7)) == []


def test_writing_while_reading_shows_the_new_row_too(book: Book, draft: Make) -> None:
    """A reading that has begun goes on to the entries written meanwhile."""
    book.commit_all([draft() for _ in range(3)])
    reading = book.rows()
    next(reading)

    book.commit_all([draft()])

    assert [row.seq for row in reading] == [2, 3, 4]


def test_same_entry_again_is_found_and_not_written(book: Book, draft: Make) -> None:
    """Repeating a call, even much later and in other company, writes each entry once."""
    one, two, three = draft(), draft(), draft()
    stored = book.commit_all([one, two])

    assert book.commit_all([one]) == stored[:1]
    assert book.commit_all([one, three, two])[::2] == stored
    assert [row.id for row in book.rows()] == [one.id, two.id, three.id]
    assert book.verify().is_sound


def test_same_id_with_other_words_is_refused(book: Book, draft: Make) -> None:
    """An id that is taken cannot be used to say something else, alone or within a batch."""
    one = draft()
    book.commit_all([one])

    with pytest.raises(EntryClashError) as caught:
        book.commit_all([draft(), replace(one, author="Tomas")])
    assert caught.value.context["id"] == one.id
    twin = draft()
    with pytest.raises(EntryClashError):
        book.commit_all([twin, replace(twin, day="2026-05-29")])
    assert book.count() == 1


def test_taking_in_refuses_other_bytes_under_a_known_id(book: Book, draft: Make) -> None:
    """A foreign row with an id that is taken is refused, and its company with it."""
    one = draft()
    book.commit_all([one])
    forged = make_row(replace(one, author="Tomas"), "aa" * 16, 1, 1, bytes(32))

    with pytest.raises(EntryClashError) as caught:
        book.import_rows([make_row(draft(), "aa" * 16, 1, 1, bytes(32)), forged])

    assert caught.value.context["id"] == one.id
    assert book.count() == 1


def test_strike_names_entries_of_this_book_and_says_why(book: Book, draft: Make) -> None:
    """A strike of a known entry is kept; of an unknown one, or without reason, refused."""
    one = book.commit_all([draft()])[0]
    strike = draft(strikes=(one.id,), reason="rod misread")

    assert book.commit_all([strike])[0].strikes == (one.id,)
    assert next(book.rows(after_lc=1)).strikes == (one.id,)
    with pytest.raises(UnknownStrikeError) as caught:
        book.commit_all([draft(strikes=(one.id, "nobody"), reason="gone")])
    assert caught.value.context["struck"] == "nobody"
    with pytest.raises(NoStrikeReasonError):
        book.commit_all([draft(strikes=(one.id,), reason=" ")])
    assert book.count() == 2


def test_strike_of_an_entry_in_the_same_batch_holds(book: Book, draft: Make) -> None:
    """Entries typed up together may strike those above them, not those below or themselves."""
    one = draft()
    two = draft(strikes=(one.id,), reason="twice on paper")

    assert [row.id for row in book.commit_all([one, two])] == [one.id, two.id]
    late = draft()
    with pytest.raises(UnknownStrikeError):
        book.commit_all([draft(strikes=(late.id,), reason="too early"), late])
    itself = draft(id="self", strikes=("self",), reason="round")
    with pytest.raises(UnknownStrikeError):
        book.commit_all([itself])


@pytest.mark.parametrize("bad", [0.5, float("nan"), b"bytes", {1, 2}])
def test_batch_is_all_or_nothing(book: Book, draft: Make, bad: object) -> None:
    """One body that is not whole keeps the entries beside it out, and is named."""
    with pytest.raises(NotStorableError) as caught:
        book.commit_all([draft(), draft(body={"depths": [1, {"width_nm": bad}]})])

    assert caught.value.context["place"] == "body.depths[1].width_nm"
    assert book.count() == 0
    assert book.commit_all([draft()])[0].seq == 1


def test_nothing_to_write_is_no_error(book: Book) -> None:
    """An empty batch writes nothing."""
    assert book.commit_all([]) == []
    assert list(book.rows()) == []


def test_a_closed_book_says_so(book: Book, draft: Make) -> None:
    """Writing to or reading from a book that was closed is refused in words."""
    book.close()
    book.close()

    with pytest.raises(BookReadOnlyError, match="it is closed"):
        book.commit_all([draft()])
    with pytest.raises(BookReadOnlyError, match="it is closed"):
        book.count()
