"""Migration of the office's database to the newest schema in one transaction."""

from __future__ import annotations

import hashlib
import sqlite3
from pathlib import Path
from typing import Final

from sqlalchemy import Connection, inspect, text

from models.book.steps import APPLICATION_ID as BOOK_ID
from models.book.views import Dialect, Source, view_statements
from models.entries.kinds import KINDS
from models.plain_files import open_plain
from sync.office.address import Address
from sync.office.errors import NotAnOfficeError, OfficeTooNewError
from sync.office.steps import APPLICATION_ID, STEPS

_MAGIC = b"SQLite format 3\x00"
_BARE = -1  # no mark of any program: the file holds no table
_VIEWS: Final = "views"
_SCHEMA: Final = "office_schema"
_JOB_ENTRY = (
    'CREATE VIEW "job_entry" AS SELECT j.key AS job_key, e.* '
    "FROM entry AS e JOIN office_job AS j ON j.no = e.job_no"
)
_SOURCE = Source("job_entry", "job_key")


def require_office_file(address: Address, path: Path) -> None:
    """Refuse a file that is neither empty nor the office's; it is not opened as a database.

    Raises
    ------
    NotAnOfficeError
        With what it is.
    OSError
        If it can't be read.
    """
    with open_plain(path) as file:
        first = file.read(100)
    if not first:
        return
    if len(first) < 100 or not first.startswith(_MAGIC):
        raise NotAnOfficeError(where=address.text_without_password, found="no database")
    mark = int.from_bytes(first[68:72], "big") or _mark_in_journal(path)
    if mark == BOOK_ID:
        raise NotAnOfficeError(where=address.text_without_password, found="the book of one job")
    if mark not in {_BARE, APPLICATION_ID}:
        raise NotAnOfficeError(
            where=address.text_without_password, found="a database of another program"
        )


def _mark_in_journal(path: Path) -> int:
    """Ask a file that says nothing of itself: what it says may lie in its journal still.

    One without any table counts as empty, as when its making was cut short.
    """
    try:
        connection = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)
        try:
            tables = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
            mark = int(connection.execute("PRAGMA application_id").fetchone()[0])
        finally:
            connection.close()
    except sqlite3.Error:
        return 0
    return mark if tables else _BARE


def migrate(connection: Connection, address: Address) -> None:
    """Run the steps that the database has not seen yet; the caller commits.

    Raises
    ------
    NotAnOfficeError, OfficeTooNewError
        If it is not one to use; it is as it was.
    """
    dialect = address.dialect
    if dialect is Dialect.POSTGRESQL:  # one after the other, if two make it at the same moment
        connection.execute(text("SELECT pg_advisory_xact_lock(:no)"), {"no": APPLICATION_ID})
    found = _schema_of(connection, address)
    if found > len(STEPS):
        raise OfficeTooNewError(where=address.text_without_password, found=found, newest=len(STEPS))
    for step in STEPS[found:]:
        for statement in step[dialect]:
            connection.exec_driver_sql(statement)
    if found < len(STEPS):
        write_note(connection, _SCHEMA, str(len(STEPS)))
        if dialect is Dialect.SQLITE:
            connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")


def _schema_of(connection: Connection, address: Address) -> int:
    tables = set(inspect(connection).get_table_names())
    if not tables:
        return 0
    noted = read_note(connection, _SCHEMA) if {"meta", "office_job"} <= tables else ""
    if not noted.isdecimal():
        raise NotAnOfficeError(
            where=address.text_without_password, found="a database of another program"
        )
    return int(noted)


def refresh_views(connection: Connection, dialect: Dialect) -> bool:
    """Make the read views anew if others are there; tell whether it did. The caller commits."""
    wanted = {"job_entry": _JOB_ENTRY, **view_statements(KINDS, dialect, _SOURCE)}
    fingerprint = hashlib.sha256("\n".join(wanted.values()).encode()).hexdigest()
    noted = read_note(connection, _VIEWS).split()
    if noted[:1] == [fingerprint]:
        return False
    known = {*wanted, *noted[1:]}
    here = [name for name in inspect(connection).get_view_names() if name in known]
    # Those that read others go first.
    for name in sorted(here, key=lambda name: (name == "job_entry", name == "strike")):
        connection.exec_driver_sql(f'DROP VIEW "{name}"')
    for statement in wanted.values():
        # PostgreSQL's driver takes a single percent sign for the place of a value.
        is_doubled = dialect is Dialect.POSTGRESQL
        connection.exec_driver_sql(statement.replace("%", "%%") if is_doubled else statement)
    write_note(connection, _VIEWS, " ".join((fingerprint, *wanted)))
    return True


def read_note(connection: Connection, name: str) -> str:
    """Return a note about the database itself, "" if there is none."""
    statement = text("SELECT value FROM meta WHERE name = :name")
    return str(connection.execute(statement, {"name": name}).scalar() or "")


def write_note(connection: Connection, name: str, value: str) -> None:
    """Keep a note about the database itself."""
    statement = text(
        "INSERT INTO meta (name, value) VALUES (:name, :value) "
        "ON CONFLICT (name) DO UPDATE SET value = excluded.value"
    )
    connection.execute(statement, {"name": name, "value": value})
