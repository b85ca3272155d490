"""One job's entries in the office's database behave as in a book, in a file and in PostgreSQL."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sqlalchemy import text

from models.book.errors import EntryClashError
from models.book.row import GENESIS, Row, make_row
from models.book.views import Dialect
from sync.exchange.entry_source import EntrySource
from sync.office.database import Office
from sync.office.errors import OfficeFailedError
from tests.sync.office.written import KEY, OTHER_KEY, STREAM, by_turn, draft, notes, written

HOSTILE = (
    "Robert'); DROP TABLE entry;--",
    "zero \x00 in the middle",
    "written \\u0000 as six letters",
    "already \ufffd there",
    'quote " backslash \\ percent %s %% {0}',
    "\u202eturned\u202c \U0001f9ea e\u0301",
    "tab\tline\nreturn\r",
    "x" * 4000,
)


def put(source: EntrySource, rows: list[Row]) -> int:
    """Take rows in; the argument's type is the proof that the office is an entry source."""
    return source.import_rows(rows)


def test_rows_come_back_as_they_went_in(office: Office) -> None:
    """Every byte is there, in the order of entries, and job and count are noted."""
    rows = notes(4500)
    source = office.source_of(KEY, STREAM)

    assert put(source, rows) == 4500
    assert list(source.rows()) == rows
    assert [(job.key, job.founder, job.entries) for job in office.jobs()] == [(KEY, STREAM, 4500)]


def test_taking_in_again_changes_nothing(office: Office) -> None:
    """What is here already is no fault and no change, also beside what is new."""
    rows = notes(30)
    source = office.source_of(KEY)
    put(source, rows[:20])

    assert put(source, rows) == 10
    assert put(office.source_of(KEY), rows) == 0
    assert list(source.rows()) == rows
    assert office.jobs()[0].entries == 30


def test_known_rows_in_the_middle(office: Office) -> None:
    """Wherever in a portion what is here already lies, the others come in and nothing twice."""
    rows = notes(40)
    source = office.source_of(KEY)
    put(source, rows[10:20])

    assert put(source, rows) == 30
    assert list(source.rows()) == rows
    assert office.jobs()[0].entries == 40


@pytest.mark.parametrize("twice_at_once", [False, True])
def test_other_bytes_under_a_known_id(office: Office, twice_at_once: bool) -> None:
    """One id for two entries is refused, with all that came along."""
    first, other = draft(1), replace(draft(1), author="Somebody else")
    source = office.source_of(KEY)
    start = [make_row(first, STREAM, 1, 1, GENESIS)]
    clash = [*written([draft(2)], "ab" * 16), make_row(other, STREAM, 1, 1, GENESIS)]
    if not twice_at_once:
        put(source, start)

    with pytest.raises(EntryClashError, match=first.id):
        put(source, [*start, *clash] if twice_at_once else clash)

    assert list(source.rows()) == ([] if twice_at_once else start)


def test_one_job_cannot_touch_another(office: Office) -> None:
    """An id means an entry of its job: another job's tablets can neither take nor strike it."""
    ours = written([draft(1, text="ours", needs_owner=False)])
    theirs = written(
        [
            draft(1, text="theirs", needs_owner=False),
            draft(2, "struck", strikes=[ours[0].id], reason="mischief", why="mischief"),
        ]
    )
    put(office.source_of(KEY), ours)

    assert put(office.source_of(OTHER_KEY), theirs) == 2
    assert list(office.source_of(KEY).rows()) == ours
    with office.reading() as connection:
        told = text("SELECT job_key, text, struck FROM note ORDER BY job_key")
        assert [tuple(row) for row in connection.execute(told)] == [
            (KEY, "ours", 0),
            (OTHER_KEY, "theirs", 1),
        ]


_AGAIN = (
    "INTO entry SELECT job_no, id, stream, seq, lc, kind, v, at_ms, offset_min, zone, 'x', job, "
    "day, strikes, reason, {0}, hash FROM entry WHERE true"
)
CHANGES = {
    Dialect.SQLITE: (
        "UPDATE entry SET author = 'x'",
        "DELETE FROM entry",
        "INSERT OR REPLACE " + _AGAIN.format("x'00'"),
        "REPLACE " + _AGAIN.format("x'00'"),
        "INSERT OR REPLACE INTO entry (rowid, job_no, id, stream, seq, lc, kind, v, at_ms, "
        "offset_min, zone, author, job, day, strikes, reason, raw, hash) SELECT rowid, job_no, "
        "id || 'x', stream, seq, lc, kind, v, at_ms, offset_min, zone, author, job, day, strikes, "
        "reason, raw, hash FROM entry",
        f"INSERT {_AGAIN} ".format("x'00'") + "ON CONFLICT (job_no, id) DO UPDATE SET author = 'x'",
    ),
    Dialect.POSTGRESQL: (
        "UPDATE entry SET author = 'x'",
        "DELETE FROM entry",
        "TRUNCATE entry",
        f"INSERT {_AGAIN.format('raw')} ON CONFLICT (job_no, id) DO UPDATE SET author = 'x'",
    ),
}


def test_the_database_itself_refuses_changes(office: Office) -> None:
    """No statement changes, deletes or replaces an entry, whoever gives it."""
    rows = notes(3)
    put(office.source_of(KEY), rows)

    for statement in CHANGES[office.dialect]:
        with (
            pytest.raises(OfficeFailedError, match="entries are never"),
            office.writing() as connection,
        ):
            connection.exec_driver_sql(statement)

    assert list(office.source_of(KEY).rows()) == rows
    with office.reading() as connection:
        told = connection.exec_driver_sql("SELECT DISTINCT author FROM entry").fetchall()
    assert [tuple(row) for row in told] == [("Wren",)]


def test_heads_and_forks(office: Office) -> None:
    """Each stream has its last entry; where a number was given twice both are kept."""
    trunk = notes(3)
    fork = make_row(replace(draft(90), author="Copy"), STREAM, 3, 9, trunk[1].hash)
    beside = written([draft(50), draft(51)], "aa" * 16)
    source = office.source_of(KEY)
    put(source, [*trunk, fork, *beside])

    assert source.heads() == {STREAM: (3, fork.hash), "aa" * 16: (2, beside[1].hash)}
    assert source.hashes_at(STREAM, 3) == {trunk[2].hash, fork.hash}
    assert source.hashes_at(STREAM, 4) == set()
    assert [row.id for row in source.of_stream(STREAM, 1)] == [trunk[1].id, trunk[2].id, fork.id]


def test_rare_kinds_are_found(office: Office) -> None:
    """What the exchange asks for by name comes in the order of entries, known kind or not."""
    bodies: list[tuple[str, dict[str, str]]] = [
        ("job", {"job_id": "green-7", "name": "Green 7"}),
        ("note", {}),
        ("photo", {"sha256": "ab" * 32}),
        ("job", {"job_id": "green-7", "name": "Green seven"}),
        ("odd", {"x": "y"}),
    ]
    told = [draft(n, kind, **body) for n, (kind, body) in enumerate(bodies, 1)]
    rows = written(told)
    source = office.source_of(KEY)
    put(source, rows)

    assert source.of_kinds(["job", "photo"]) == [rows[0], rows[2], rows[3]]
    assert source.of_kinds(["odd"]) == [rows[4]]


def test_order_is_that_of_bytes(office: Office) -> None:
    """Entries with one counter come by the bytes of their ids, whatever a server sorts by."""
    ids = ["B", "a", "a-b", "ab", "_", "Z", "\u00e9", "-a"]
    rows = [
        make_row(replace(draft(n), id=id), f"{n:032x}", 1, 7, GENESIS)
        for n, id in enumerate(ids, 1)
    ]
    source = office.source_of(KEY)
    put(source, rows)

    assert [row.id for row in source.rows()] == [row.id for row in by_turn(rows)]


def test_hostile_words_are_words(office: Office) -> None:
    """Every text comes back as it was written, and the views stay legible beside it."""
    told = [
        replace(draft(n, text=words, needs_owner=False), author=words, reason=words)
        for n, words in enumerate(HOSTILE, 1)
    ]
    rows = written([*told, draft(99, "k" * 9000)])
    source = office.source_of(KEY)
    put(source, rows)

    assert put(source, rows) == 0
    assert list(source.rows()) == rows
    with office.reading() as connection:
        found = connection.execute(text("SELECT text, author FROM note ORDER BY id")).fetchall()
        whole = connection.execute(text("SELECT count(*) FROM current_entry")).scalar()
    plain = [one for one in HOSTILE if "\x00" not in one and "u0000" not in one]
    assert [one for one, author in found if one == author and one in plain] == plain
    assert whole == len(rows)


def test_nothing_taken_leaves_no_trace(office: Office) -> None:
    """A job without rows is not noted, and can be asked all the same."""
    source = office.source_of(KEY)

    assert put(source, []) == 0
    assert (source.heads(), source.of_kinds(["job"]), list(source.rows())) == ({}, [], [])
    assert office.jobs() == []
