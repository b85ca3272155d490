"""Jobs come into the office from stores, hand-over files and books, each entry once."""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from models.book.row import Row
from sync.exchange.request import ExchangeRequest
from sync.handover.maker import make_handover
from sync.office.database import Office
from sync.office.errors import NothingToTakeError
from sync.office.intake import IntakeResult, take_files, take_store
from sync.segments.file_name import SegmentName
from sync.segments.writer import SealedSegment, seal_rows
from sync.trust.keys import MemoryKeyRing, Signer
from tests.sync.exchange.crew import Crew, MemoryStore, draft, forged

Recruit = Callable[[str], Crew]
TERMS = ExchangeRequest(where="memory")


@pytest.fixture
def recruit(tmp_path: Path) -> Iterator[Recruit]:
    """Make a tablet of a name, with a key that follows from it."""
    made: list[Crew] = []

    def make(name: str) -> Crew:
        (tmp_path / name).mkdir()
        signer = Signer(hashlib.sha256(name.encode()).digest())
        made.append(Crew(tmp_path / name / f"{name}.book", signer))
        return made[-1]

    yield make
    for one in made:
        one.close()


@pytest.fixture
def store() -> MemoryStore:
    """Return a store that keeps its word."""
    return MemoryStore()


def take(office: Office, keep: Path, store: MemoryStore, *only: str) -> list[IntakeResult]:
    """Take all that a store holds."""
    return list(take_store(office, keep, store, TERMS, only))


def rows_in(office: Office, key: str) -> list[Row]:
    """Return what the office holds of a job."""
    return list(office.source_of(key).rows())


def test_all_jobs_of_a_store(
    office: Office, tmp_path: Path, recruit: Recruit, store: MemoryStore
) -> None:
    """Two jobs, one of them written by two tablets, come in as their books hold them."""
    first, second, other = recruit("a"), recruit("b"), recruit("c")
    first.found()
    first.add(second)
    first.sync(store)
    join(second, first)
    second.ink(draft(), draft())
    second.sync(store)
    first.sync(store)
    other.found()
    other.sync(store)

    told = take(office, tmp_path / "keep", store)

    assert all(one.is_complete for one in told)
    assert sorted(one.job for one in told) == sorted([first.key, other.key])
    assert rows_in(office, first.key) == list(first.book.rows())
    assert rows_in(office, other.key) == list(other.book.rows())
    assert {job.key: job.founder for job in office.jobs()} == {
        first.key: first.signer.stream,
        other.key: other.signer.stream,
    }


def join(crew: Crew, founder: Crew) -> None:
    """Give a tablet what another holds, as its first exchange would."""
    crew.book.import_rows(list(founder.book.rows()))


def test_taking_again_brings_what_is_new(
    office: Office, tmp_path: Path, recruit: Recruit, store: MemoryStore
) -> None:
    """A second time nothing comes twice, a third time only what was written since."""
    one = recruit("a")
    one.found()
    one.sync(store)
    before = dict(store.files)
    counts = [take(office, tmp_path / "keep", store)[0].new_rows for _ in range(2)]
    one.ink()
    one.sync(store)

    assert (*counts, take(office, tmp_path / "keep", store)[0].new_rows) == (1, 0, 1)
    assert {name: store.files[name] for name in before} == before
    assert rows_in(office, one.key) == list(one.book.rows())


def test_without_its_notes_everything_is_met_again(
    office: Office, tmp_path: Path, recruit: Recruit, store: MemoryStore
) -> None:
    """The folder of kept segments can be lost: the database alone knows what it holds."""
    one = recruit("a")
    one.found()
    one.sync(store)
    take(office, tmp_path / "keep", store)

    told = take(office, tmp_path / "elsewhere", store)[0]

    assert (told.new_rows, told.segments, told.is_complete) == (0, 1, True)
    assert office.jobs()[0].entries == 1


def test_a_stranger_is_set_aside(
    office: Office, tmp_path: Path, recruit: Recruit, store: MemoryStore
) -> None:
    """What a tablet wrote that nobody added waits with its reason; the rest goes on."""
    one, stranger = recruit("a"), recruit("b")
    one.found()
    one.sync(store)
    join(stranger, one)
    stranger.ink()
    stranger.sync(store)

    told = take(office, tmp_path / "keep", store)[0]

    assert [aside.code for aside in told.aside] == ["exchange.unknown_tablet"]
    assert stranger.code in told.aside[0].sentence
    assert rows_in(office, one.key) == list(one.book.rows())


def test_a_clash_is_set_aside(
    office: Office, tmp_path: Path, recruit: Recruit, store: MemoryStore
) -> None:
    """A member's segment that says something else under a known id does not come in."""
    one, bad = recruit("a"), recruit("b")
    one.found()
    one.add(bad)
    note = draft()
    one.ink(note)
    one.sync(store)
    take(office, tmp_path / "keep", store)
    bad.ink(replace(note, author="Not Wren"))
    seal_as(bad, one.key, store)

    told = take(office, tmp_path / "keep", store)[0]

    assert [aside.code for aside in told.aside] == ["exchange.clash"]
    assert rows_in(office, one.key) == list(one.book.rows())


def seal_as(crew: Crew, key: str, store: MemoryStore) -> None:
    """Put what a tablet wrote into a store as segments of some job."""
    sealed = seal_rows(list(crew.book.rows()), bytes(32), key, crew.signer)
    store.write(f"{key}/seg/{sealed.name}", sealed.data)


def test_a_forged_segment_is_set_aside(
    office: Office, tmp_path: Path, recruit: Recruit, store: MemoryStore
) -> None:
    """Signed by another key, a segment is refused with its reason, and nothing of it is in."""
    one = recruit("a")
    one.found()
    one.sync(store)
    path, data = next(iter(store.files.items()))
    name = SegmentName.find(path)
    assert name is not None
    made = forged(SealedSegment(name, data), Signer.new())
    store.files = {f"{one.key}/seg/{made.name}": made.data}

    told = take(office, tmp_path / "keep", store)[0]

    assert [aside.code for aside in told.aside] == ["segment.forged"]
    assert office.jobs() == []


def test_a_job_that_is_not_there(office: Office, tmp_path: Path, store: MemoryStore) -> None:
    """A store without jobs, or without the one named, is said to have none."""
    with pytest.raises(NothingToTakeError, match="no such job"):
        take(office, tmp_path / "keep", store)


def test_books_and_handovers_of_a_folder(office: Office, tmp_path: Path, recruit: Recruit) -> None:
    """All books and hand-over files of a folder come in, and other files are left alone."""
    book, other = recruit("a"), recruit("b")
    for one in (book, other):
        one.found()
        one.ink()
    make_handover(other.book, MemoryKeyRing(other.signer), tmp_path / "a" / "other.crew")
    (tmp_path / "a" / "notes.txt").write_text("no book", encoding="utf-8")

    told = list(take_files(office, tmp_path / "keep", [tmp_path / "a"]))

    assert [(Path(one.source).name, one.new_rows, one.cut) for one in told] == [
        ("a.book", 2, ""),
        ("other.crew", 2, ""),
    ]
    assert rows_in(office, other.key) == list(other.book.rows())
    assert [one.new_rows for one in take_files(office, tmp_path / "k", [tmp_path / "a"])] == [0, 0]


def test_a_tampered_book_is_told_and_the_next_is_taken(
    office: Office, tmp_path: Path, recruit: Recruit
) -> None:
    """A book that is not as it was written gives nothing; the file after it does."""
    bad, good = recruit("a"), recruit("b")
    for one in (bad, good):
        one.found()
        one.book.close()
    with sqlite3.connect(bad.path) as file:
        file.executescript("DROP TRIGGER entry_no_update; UPDATE entry SET author = 'x'; VACUUM;")
    (tmp_path / "c.crew").write_bytes(b"no hand-over")

    files = [bad.path, good.path, tmp_path / "c.crew"]
    told = list(take_files(office, tmp_path / "keep", files))

    assert [one.new_rows for one in told] == [0, 1, 0]
    assert "crewapp verify" in told[0].cut
    assert told[2].cut
    assert len(office.jobs()) == 1


def test_nothing_lies_there(office: Office, tmp_path: Path) -> None:
    """A folder without books, and a path that is not there, are said so."""
    for path in (tmp_path, tmp_path / "gone"):
        with pytest.raises(NothingToTakeError):
            list(take_files(office, tmp_path / "keep", [path]))


def test_book_with_a_time_that_is_none_is_taken_up_to_it(
    office: Office, tmp_path: Path, recruit: Recruit
) -> None:
    """What no segment could bring is not taken from a book either; the others' entries are."""
    one, other = recruit("a"), recruit("b")
    one.found()
    one.ink(draft(), replace(draft(), at_ms=253_402_300_799_999, offset_min=60), draft())
    one.book.switch_stream(other.signer.stream)
    one.ink(draft("note", colour="red"), draft())
    (told,) = take_files(office, tmp_path / "keep", [one.path])

    assert (told.new_rows, told.is_complete) == (4, False)
    assert f"Entry 3 of tablet {one.code} was not taken in" in told.notes[0]
    assert "its time is none between 1970 and 2199" in told.notes[0]
