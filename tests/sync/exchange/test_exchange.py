"""One exchange after another, with stores that keep their word and stores that do not."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from sync.exchange.errors import LocalStorageError, NoJobYetError
from sync.exchange.exchange_log import ExchangeLog, StoreListing
from sync.exchange.job_folder import write_atomically
from sync.exchange.job_key import is_job_key, job_of
from sync.exchange.joining import join_book
from sync.exchange.listing import find_jobs
from sync.exchange.request import ExchangeRequest
from sync.exchange.status import exchange_status
from sync.segments.file_name import SegmentName
from sync.trust.keys import MemoryKeyRing, Signer
from tests.sync.exchange.crew import Crew, MemoryStore, draft

Recruit = Callable[[str], Crew]


def test_entries_go_both_ways(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """What one wrote the other has, byte for byte and in the same order."""
    a, b = pair
    a.ink()
    b.ink()
    a.sync(store)
    came, back = b.sync(store), a.sync(store)

    assert (came.new_rows, came.sealed_rows, back.new_rows) == (1, 1, 1)
    assert a.raws() == b.raws()
    assert back.is_complete


def test_nothing_to_do_writes_nothing(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """The second time, no file is read or written."""
    a, _ = pair
    a.sync(store)
    before, store.reads = dict(store.files), []
    report = a.sync(store)

    assert (report.sealed_rows, report.out.files, store.reads) == (0, 0, [])
    assert store.files == before


def test_joined_book_is_the_same(recruit: Recruit, store: MemoryStore, tmp_path: Path) -> None:
    """A tablet that knows the job by its key alone gets all of it, and knows who founded it."""
    founder = recruit("a")
    founder.found()
    founder.ink()
    founder.sync(store)
    new = Signer.new()
    terms = ExchangeRequest(where="memory", ring=MemoryKeyRing(new), own_stream=new.stream)
    report, book = join_book(tmp_path / "new.book", founder.key, store, terms)
    with book:
        assert [row.raw for row in book.rows()] == founder.raws()
        assert job_of(book).key == founder.key
    assert report.job.founder == founder.signer.stream


def test_jobs_in_a_store_are_listed(recruit: Recruit, store: MemoryStore) -> None:
    """By key and name, and nothing else that lies there."""
    founder = recruit("a")
    founder.found()
    founder.sync(store)
    store.files |= {"notes.txt": b"x", "other/seg/x.seg": b"x", "../up": b"x"}

    (found,) = find_jobs(store)
    assert (found.key, found.name, found.segments) == (founder.key, "green-7", 1)
    assert is_job_key(found.key)


def test_book_without_a_job_is_told(recruit: Recruit, store: MemoryStore) -> None:
    """There is no folder for it."""
    with pytest.raises(NoJobYetError, match="holds no job yet"):
        recruit("a").sync(store)


def test_it_can_be_cancelled_and_goes_on(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """At every step that it tells of."""
    a, b = pair
    a.ink()
    a.sync(store)
    steps: list[str] = []
    for stop in range(1, 6):
        steps.clear()
        report = b.sync(
            store,
            on_step=lambda step, _done, _total: steps.append(step),
            is_cancelled=lambda stop=stop: len(steps) >= stop,
        )
    assert b.sync(store).is_complete
    assert report.is_cancelled or report.is_complete
    assert b.raws() == a.raws()


def test_steps_are_told_in_order(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """For the bar on the screen."""
    a, b = pair
    a.ink()
    a.sync(store)
    told: list[str] = []
    b.ink()
    b.sync(store, on_step=lambda step, _done, _total: told.append(step))

    assert list(dict.fromkeys(told)) == ["list", "fetch", "seal", "open", "merge", "send"]


def test_segment_of_a_newer_version_is_kept_and_passed_on(
    pair: tuple[Crew, Crew], store: MemoryStore
) -> None:
    """It is not understood, and reaches the one who understands it."""
    from sync.segments.writer import pack

    a, _ = pair
    line = b'{"format":"crewapp-segment","version":2}'
    newer = pack(line, [b"x"], (a.signer.stream, 900, 900))
    store.files[f"{a.key}/seg/{newer.name}"] = newer.data
    report = a.sync(store)
    other = MemoryStore()
    a.sync(other, where="stick")

    assert [one.code for one in report.aside] == ["segment.too_new"]
    assert f"{a.key}/seg/{newer.name}" in other.files


def test_two_can_meet_without_the_third(recruit: Recruit, store: MemoryStore) -> None:
    """Anyone carries on what they hold, as it was signed."""
    a, b, c = recruit("a"), recruit("b"), recruit("c")
    a.found()
    a.add(b, c)
    a.sync(store)
    for one in (b, c):
        one.close()
        one.path.unlink()
    terms = ExchangeRequest(where="x", own_stream=b.signer.stream)
    join_book(b.path, a.key, store, terms)[1].close()
    b = recruit("b")
    b.ink()
    stick = MemoryStore()
    b.sync(stick, where="stick")
    terms = ExchangeRequest(where="stick", own_stream=c.signer.stream)
    join_book(c.path, a.key, stick, terms)[1].close()

    assert recruit("c").raws() == b.raws()


def test_notes_that_are_lost_or_rubbish_do_no_harm(
    pair: tuple[Crew, Crew], store: MemoryStore
) -> None:
    """Everything is only looked at once more."""
    a, b = pair
    b.ink()
    b.sync(store)
    a.sync(store)
    for rubbish in (b"", b"{", b"[]", b'{"taken":7}', b"[" * 5000, json.dumps({"a": 1}).encode()):
        a.place.log.write_bytes(rubbish)
        assert a.sync(store).is_complete
    assert a.raws() == b.raws()
    assert ExchangeLog.read(a.place.log).key == a.key


def test_full_storage_is_told(
    pair: tuple[Crew, Crew], store: MemoryStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The exchange ends with a sentence, and goes on when there is room."""
    a, b = pair
    a.ink()
    a.sync(store)

    def refuse(name: SegmentName, _data: bytes) -> None:
        raise LocalStorageError(name=name, why="no space left")

    with monkeypatch.context() as patch:
        patch.setattr(
            "sync.exchange.job_folder.JobFolder.save_segment", lambda _, *rest: refuse(*rest)
        )
        assert "no space left" in b.sync(store).cut
    assert b.sync(store).new_rows == 1


def test_what_could_not_be_kept_leaves_no_half(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A photo that fills the disk gives the room back; the file of before stands."""
    write_atomically(tmp_path / "a.jpg", b"before")

    def full(_descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("sync.exchange.job_folder.os.fsync", full)
    with pytest.raises(LocalStorageError, match="No space left"):
        write_atomically(tmp_path / "a.jpg", bytes(1000))

    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("a.jpg", b"before")]


def test_standing_tells_what_waits(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """Without asking the store."""
    a, _ = pair
    ring = MemoryKeyRing(a.signer)
    a.ink(draft(), draft())
    before = exchange_status(a.book, "memory", ring, a.signer.stream)
    a.sync(store, at_ms=7)
    after = exchange_status(a.book, "memory", ring, a.signer.stream)

    assert (before.waiting_rows, before.may_write) == (2, True)
    assert (after.waiting_rows, after.waiting_segments, after.last_ms) == (0, 0, 7)


def test_lost_folder_of_segments_is_made_anew(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """What this tablet wrote is sealed again, though its notes say that it was."""
    a, b = pair
    a.ink()
    a.sync(store)
    shutil.rmtree(a.place.folder / "seg")
    fresh = MemoryStore()
    report = a.sync(fresh, where="fresh")

    assert (report.sealed_rows, report.out.files) == (3, 1)
    assert b.sync(fresh, where="fresh").new_rows == 1
    assert a.raws() == b.raws()


def test_notes_are_read_however_long_a_store_made_them(tmp_path: Path) -> None:
    """Half a million junk files in a store do not make a tablet forget what it showed."""
    log = ExchangeLog(founder="ab" * 16, key="green-7-0011223344556677")
    log.stores["memory"] = StoreListing(7, ["x" * 100_000] * 700)
    log.write(tmp_path / "ledger.json")

    assert (tmp_path / "ledger.json").stat().st_size > 64 * 1024 * 1024
    assert ExchangeLog.read(tmp_path / "ledger.json") == log
