"""Figures of every job and day kept ready in tables that can be thrown away and rebuilt.

Truth is the entries alone. A job's part of the index stands for as many entries as it was
made of; rows that came since, a crash between the two, or a newer way of counting make it
stale, and it is made anew before anything is read off it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import astuple, dataclass
from typing import Any, Final

from sqlalchemy import Connection, inspect, text

from models.book.views import Dialect
from models.checks.registry import CHECKS
from sync.office.database import Office
from sync.office.figures.job_figures import JobDigest, job_digest
from sync.office.figures.quality import COUNTS
from sync.office.figures.totals import FIGURES
from sync.office.schema import read_note, write_note

_VERSION: Final = 2  # raise it when anything is counted in another way
_NOTE: Final = "index"

_JOB_COLUMNS = (
    *("name", "job_id", "is_us", "first_day", "last_day", "planned_nm"),
    *("answered", "newer", "unreadable", "fault"),
)

_TABLES: dict[str, tuple[str, ...]] = {
    "office_seen": ("entries", *_JOB_COLUMNS),
    "office_day": ("day", "stream", *FIGURES),
    "office_flag": ("place", "weight", "day", "key", "check_id", "said"),
    "office_sand": ("material", "delivered_ul", "placed_ul"),
    "office_tablet": ("stream", "code", "name"),
    "office_writer": ("stream", "author", "entries"),
    "office_person": ("day", "stream", "who", "run_min"),
    "office_quality": ("day", "stream", "what", *COUNTS),
}
_TEXTS = {
    "day",
    "stream",
    "key",
    "check_id",
    "said",
    "material",
    "code",
    "author",
    "name",
    "who",
    "what",
}
_TEXTS |= {"job_id", "first_day", "last_day", "fault"}
_MAY_LACK = {"delivered_ul", "placed_ul"}

OnJob = Callable[[str, int, int], None]
"""Told the key of the job that is looked at, how many are done, and of how many."""


@dataclass(frozen=True, slots=True)
class StaleJob:
    """A job whose figures are not those of its entries."""

    no: int
    key: str
    entries: int


def refresh_index(office: Office, now_ms: int, on_job: OnJob | None = None) -> int:
    """Make the stale parts of the index anew; return how many jobs that were.

    Raises
    ------
    sync.office.errors.OfficeFailedError
        If the database gave up; what was finished stands.
    """
    _make_tables(office)
    stale = find_stale(office)
    for number, job in enumerate(stale):
        if on_job is not None:
            on_job(job.key, number, len(stale))
        digest = job_digest(office.source_of(job.key).rows(), now_ms)
        with office.writing() as connection:
            office.lock(connection, job.no)
            _replace(connection, job, digest)
    return len(stale)


def drop_index(office: Office) -> None:
    """Drop the whole index; the next refresh makes all of it anew."""
    with office.writing() as connection:
        _drop_tables(connection)
        write_note(connection, _NOTE, "")


def find_stale(office: Office) -> list[StaleJob]:
    """Return the jobs whose part of the index is not made of all their entries."""
    ask = text(
        "SELECT j.no, j.key, j.entries FROM office_job AS j "
        "LEFT JOIN office_seen AS s ON s.job_no = j.no "
        "WHERE s.entries IS NULL OR s.entries <> j.entries ORDER BY j.key"
    )
    with office.reading() as connection:
        return [StaleJob(*found) for found in connection.execute(ask).all()]


def _make_tables(office: Office) -> None:
    wanted = [*_statements(office.dialect)]
    counted = [f"{check.id}{check.severity}{check.message}" for check in CHECKS]
    told = "\n".join([str(_VERSION), *counted, *wanted])
    fingerprint = hashlib.sha256(told.encode()).hexdigest()
    with office.reading() as connection:
        if read_note(connection, _NOTE) == fingerprint:
            return
    with office.writing() as connection:
        _drop_tables(connection)
        for statement in wanted:
            connection.exec_driver_sql(statement)
        write_note(connection, _NOTE, fingerprint)


def _drop_tables(connection: Connection) -> None:
    here = set(inspect(connection).get_table_names())
    for name in _TABLES:
        if name in here:
            connection.exec_driver_sql(f"DROP TABLE {name}")


def _statements(dialect: Dialect) -> list[str]:
    text_type = "TEXT" if dialect is Dialect.SQLITE else 'TEXT COLLATE "C"'
    made = []
    for name, columns in _TABLES.items():
        told = [
            f"{column} {text_type if column in _TEXTS else 'BIGINT'}"
            + ("" if column in _MAY_LACK else " NOT NULL")
            for column in columns
        ]
        made.append(f"CREATE TABLE {name} (job_no INTEGER NOT NULL, {', '.join(told)})")
    made.append("CREATE UNIQUE INDEX office_seen_job ON office_seen (job_no)")
    made.append("CREATE INDEX office_day_job ON office_day (job_no)")
    made.append("CREATE INDEX office_day_day ON office_day (day)")
    made.append("CREATE INDEX office_quality_day ON office_quality (day)")
    made.append("CREATE INDEX office_flag_weight ON office_flag (weight, day)")
    return made


def _replace(connection: Connection, job: StaleJob, digest: JobDigest) -> None:
    head = [getattr(digest, name) for name in _JOB_COLUMNS]
    days = sorted(digest.days.items())
    parts: dict[str, list[tuple[Any, ...]]] = {
        "office_seen": [(job.entries, *(int(v) if isinstance(v, bool) else v for v in head))],
        "office_day": [(day, stream, *sums.values()) for (day, stream), sums in days],
        "office_flag": [
            (place, flag.weight, flag.day, flag.key, flag.check, flag.said)
            for place, flag in enumerate(digest.flags)
        ],
        "office_sand": [
            (sand.material, sand.delivered_ul, sand.placed_ul) for sand in digest.sands
        ],
        "office_tablet": [astuple(one) for one in digest.tablets],
        "office_writer": [astuple(one) for one in digest.writers],
        "office_person": [astuple(one) for one in digest.persons],
        "office_quality": [(*key, *one.values()) for key, one in sorted(digest.quality.items())],
    }
    for name, rows in parts.items():
        connection.execute(text(f"DELETE FROM {name} WHERE job_no = :no"), {"no": job.no})
        _insert(connection, name, job.no, rows)


def _insert(
    connection: Connection, table: str, job_no: int, rows: Sequence[tuple[Any, ...]]
) -> None:
    columns = ("job_no", *_TABLES[table])
    places = ", ".join(f":{column}" for column in columns)
    statement = text(f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({places})")
    told = [dict(zip(columns, map(_kept, (job_no, *row)), strict=True)) for row in rows]
    if told:
        connection.execute(statement, told)


def _kept(value: Any) -> Any:
    """What PostgreSQL's texts can't hold is shown as such."""
    return value.replace("\0", "\ufffd") if isinstance(value, str) else value
