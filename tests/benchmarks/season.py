"""A season of many tablets, as segments and as jobs; and a program that takes it in.

Called with ``bare`` or ``merge``, the name of a database and the folder of the season.
"""

from __future__ import annotations

import hashlib
import marshal
import resource
import sqlite3
import sys
from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from pathlib import Path

from models.book.reading import COLUMNS
from models.book.row import GENESIS, Draft, Row, make_row, to_columns
from models.book.views import Dialect
from models.entries.envelope import body_fields, build_body
from models.entries.tablet_code import code_of
from sync.exchange.exchange_log import ExchangeLog
from sync.exchange.job_folder import JobFolder
from sync.exchange.job_key import job_of_row
from sync.exchange.merging import MergeRules, merge
from sync.exchange.progress import ProgressReporter
from sync.office.database import Office
from sync.segments.writer import seal_rows, split_rows
from sync.trust.keys import Signer
from sync.trust.members import Job
from tests.benchmarks.big_job import drafts, drafts_without_end

TABLETS = 20
JOB_ROWS = 50_000
NOW_MS = 1_790_000_000_000
A_DAY = "2026-03-05"
_TYPES = (
    *("int4", "text", "text", "int8", "int8", "text", "int8", "int8", "int4"),
    *("text", "text", "text", "text", "text", "text", "bytea", "bytea"),
)


def signer_of(number: int) -> Signer:
    """Key of one tablet."""
    return Signer(hashlib.sha256(f"tablet {number}".encode()).digest())


def tablet_drafts(number: int, count: int) -> Iterator[Draft]:
    """What one tablet wrote: the first founds the job and adds all others."""
    some = islice(drafts_without_end(), count)
    if number == 0:
        yield next(some)
        for other in range(1, TABLETS):
            body = build_body("tablet_added", {"code": code_of(signer_of(other).stream)})
            blank = next(some)
            yield replace(blank, kind="tablet_added", v=1, body=body_fields(body))
    yield from (one for one in some if number == 0 or one.kind != "job")


def tablet_rows(number: int, count: int) -> Iterator[Row]:
    """Rows of one tablet, with ids that are its own and strikes within it."""
    stream, previous = signer_of(number).stream, GENESIS
    for seq, one in enumerate(tablet_drafts(number, count), start=1):
        own = replace(
            one, id=_own(one.id, number), strikes=tuple(_own(s, number) for s in one.strikes)
        )
        row = make_row(own, stream, seq, seq * TABLETS + number, previous)
        previous = row.hash
        yield row


def _own(id: str, number: int) -> str:
    """Ids that grow with time and lie mixed among those of the other tablets."""
    return f"{id[:9]}{number:04x}{id[13:]}"


def write_season(folder: Path, rows: int) -> None:
    """Write every tablet's segments where the office keeps those it fetched."""
    founding = next(tablet_rows(0, 1))
    job = job_of_row(founding)
    (folder / "job").write_text(f"{job.founder} {job.key}", encoding="ascii")
    place = JobFolder(folder / "kept", folder / "photos")
    (folder / "ready").mkdir()
    for number in range(TABLETS):
        previous = GENESIS
        for portion in split_rows(tablet_rows(number, rows // TABLETS)):
            sealed = seal_rows(portion, previous, job.key, signer_of(number))
            place.save_segment(sealed.name, sealed.data)
            ready = [(1, *to_columns(row)) for row in portion]
            (folder / "ready" / str(sealed.name)).write_bytes(marshal.dumps(ready))
            previous = portion[-1].hash


def fill(office: Office, rows: int) -> None:
    """Put jobs of up to 50,000 entries into an office, each of one tablet."""
    for number in range(-(-rows // JOB_ROWS)):
        count = min(JOB_ROWS, rows - number * JOB_ROWS)
        stream, previous, some = signer_of(number).stream, GENESIS, []
        source = office.source_of(f"long-job-{number:016x}", stream)
        for seq, one in enumerate(drafts(count), start=1):
            some.append(make_row(one, stream, seq, seq, previous))
            previous = some[-1].hash
            if len(some) == 5000 or seq == count:
                source.import_rows(some)
                some = []


def _job_in(folder: Path) -> Job:
    founder, key = (folder / "job").read_text("ascii").split()
    return Job(founder, key)


def merge_all(where: str, folder: Path) -> int:
    """Merge the season into an empty database, as ``office take`` does once all is fetched."""
    job = _job_in(folder)
    with Office.open(where, make=True) as office:
        source = office.source_of(job.key, job.founder)
        place = JobFolder(folder / "kept", folder / "photos")
        return merge(source, place, ExchangeLog(), job, MergeRules(), ProgressReporter()).rows


def bare_all(where: str, folder: Path) -> int:
    """Put the same rows into the same tables by the plainest fast way; no row is looked at."""
    job = _job_in(folder)
    count = 0
    with Office.open(where, make=True) as office:
        with office.writing() as connection:
            connection.exec_driver_sql(
                f"INSERT INTO office_job (key, founder, entries) VALUES ('{job.key}', '', 0)"
            )
            if office.dialect is Dialect.SQLITE:
                connection.exec_driver_sql("DROP TRIGGER entry_once")
        for portion in bare_rows(folder):
            count += len(portion)
            with office.writing() as connection:
                driver = connection.connection.driver_connection
                if isinstance(driver, sqlite3.Connection):
                    marks = ", ".join("?" * 17)
                    into = f"INSERT INTO entry (job_no, {COLUMNS}) VALUES ({marks})"
                    driver.executemany(into, portion)
                    continue
                assert driver is not None
                into = f"COPY entry (job_no, {COLUMNS}) FROM STDIN (FORMAT BINARY)"
                with driver.cursor() as cursor, cursor.copy(into) as copy:
                    copy.set_types(_TYPES)
                    for values in portion:
                        copy.write_row(values)
    return count


def bare_rows(folder: Path) -> Iterator[list[tuple[object, ...]]]:
    """Rows as columns, ready, in the order in which the merge comes to them."""
    for path in sorted((folder / "ready").iterdir()):
        yield marshal.loads(path.read_bytes())


if __name__ == "__main__":
    run = merge_all if sys.argv[1] == "merge" else bare_all
    rows = run(sys.argv[2], Path(sys.argv[3]))
    peak_kib = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    print(f"{rows} rows, peak {peak_kib // 1024} MiB")
