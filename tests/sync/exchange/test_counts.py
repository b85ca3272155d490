"""Counts of an exchange agree with what it did, also of one that was cut and of the next."""

from __future__ import annotations

import hashlib

import pytest

from sync.exchange.request import ExchangeReport
from sync.exchange.sending import SendResult
from sync.segments.file_name import SegmentName
from sync.trust.members import Job
from tests.sync.exchange.bad_stores import FailingStore
from tests.sync.exchange.crew import Crew, MemoryStore


def rows_in(store: MemoryStore) -> int:
    """Entries in the whole segments that lie in a store, by their names and their bytes."""
    found = [(SegmentName.find(path), data) for path, data in store.files.items()]
    return sum(
        name.count
        for name, data in found
        if name is not None and hashlib.sha256(data).hexdigest() == name.digest
    )


def three_segments(pair: tuple[Crew, Crew]) -> Crew:
    """A tablet whose entries lie in segments of their own, made while no store answered."""
    one, _ = pair
    for _ in range(3):
        one.ink()
        one.sync(FailingStore(MemoryStore(), 1), allow_less=True)
    return one


@pytest.mark.parametrize("verbs", range(1, 16))
def test_a_failed_exchange_and_the_next_add_up(pair: tuple[Crew, Crew], verbs: int) -> None:
    """The store fails after so many verbs, then works: no entry is told as sent twice.

    What was written and could not be read back any more is not told as sent, and the next
    exchange finds it there: that is one segment at most, of one or two entries.
    """
    one = three_segments(pair)
    store, total = MemoryStore(), len(one.raws())
    before = one.sync(FailingStore(store, verbs), allow_less=True)
    sent_first, there = before.out.rows, rows_in(store)
    after = one.sync(store, allow_less=True)

    assert before.out.to_send == total
    assert sent_first <= there <= sent_first + 2
    assert after.out.rows == after.out.to_send == total - there
    assert not after.cut
    assert one.sync(store).out == SendResult()


def test_what_was_only_sealed_is_not_told_as_sent(pair: tuple[Crew, Crew]) -> None:
    """The store stops before anything went out: nothing was sent, and all of it waits."""
    one, _ = pair
    one.ink()
    report = one.sync(FailingStore(MemoryStore(), 1), allow_less=True)

    assert report.cut
    assert (report.out.rows, report.out.files) == (0, 0)
    assert report.to_send == len(one.raws())


def test_a_copied_book_waits_for_the_key(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """Entries in no segment whose key is elsewhere are told as waiting, and it is not whole."""
    one, two = pair
    extra = one.ink()
    two.book.import_rows(extra)
    report = two.sync(store, allow_less=True)

    assert report.unsigned_rows == len(extra)
    assert not report.is_complete
    assert report.to_send == report.out.rows + len(extra)


def test_two_looks_add_up() -> None:
    """A second look at a store, right after the first, adds to all that is counted."""
    first, second = ExchangeReport(Job("", "k")), ExchangeReport(Job("", "k"))
    for one, rows in ((first, 2), (second, 3)):
        one.fetched, one.new_rows, one.out = rows, rows, SendResult(rows, ["n"] * rows, rows=rows)
        one.out.to_send = rows
    first.add_retry(second)

    assert (first.fetched, first.new_rows) == (5, 5)
    assert (first.out.files, first.out.rows, first.out.to_send, len(first.out.names)) == (
        5,
        5,
        5,
        5,
    )
