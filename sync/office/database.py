"""Database of the office: opened, made if need be, and its jobs."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from dataclasses import dataclass
from threading import RLock

from sqlalchemy import Connection, Engine, inspect, select, text

from models.book.views import Dialect
from models.closing import Closing
from sync.office.address import Address, read_address
from sync.office.connections import driver_errors, first_line, make_engine, translate_errors
from sync.office.errors import (
    NoOfficeYetError,
    NotAnOfficeError,
    OfficeFailedError,
    OfficeUnreachableError,
)
from sync.office.job_source import JobSource
from sync.office.schema import migrate, refresh_views, require_office_file
from sync.office.tables import job

_LOCK = text("SELECT no FROM office_job WHERE no = :no FOR UPDATE")


@dataclass(frozen=True, slots=True)
class OfficeJob:
    """A job that the office holds."""

    no: int
    key: str
    founder: str
    entries: int


class Office(Closing):
    """Database of all jobs, made by :meth:`open`; it may be used from several threads."""

    def __init__(self, address: Address, engine: Engine, connection: Connection) -> None:
        self.address = address
        self._engine = engine
        self._connection = connection
        self._turn = RLock()

    @classmethod
    def open(cls, where: str, *, make: bool = False) -> Office:
        """Open a database, a file or a URL; an empty one is laid out only with ``make``.

        Raises
        ------
        OfficeError
            If it can't be reached, or holds something else; it is then as it was.
        """
        address = read_address(where)
        _prepare_file(address, make)
        engine = make_engine(address)
        try:
            connection = engine.connect()
        except driver_errors() as fault:
            raise OfficeUnreachableError(
                where=address.text_without_password, why=first_line(fault)
            ) from fault
        office = cls(address, engine, connection)
        try:
            office._settle(make)
        except BaseException:
            office.close()
            raise
        return office

    @property
    def dialect(self) -> Dialect:
        """Kind of database, SQLite or PostgreSQL."""
        return self.address.dialect

    def close(self) -> None:
        """Close the database; a second time is no error."""
        with self._turn, contextlib.suppress(*driver_errors()):
            self._connection.close()
            self._engine.dispose()

    @contextlib.contextmanager
    def reading(self) -> Iterator[Connection]:
        """Transaction in which all reads fit together."""
        with self._transaction(writes=False) as connection:
            yield connection

    @contextlib.contextmanager
    def writing(self) -> Iterator[Connection]:
        """Transaction whose writes hold when the block ends, or not at all.

        Raises
        ------
        OfficeFailedError
            If the database gave up.
        """
        with self._transaction(writes=True) as connection:
            yield connection

    def lock(self, connection: Connection, no: int) -> None:
        """Let one at a time write to a job; in a file there is one writer anyway."""
        if self.dialect is Dialect.POSTGRESQL:
            connection.execute(_LOCK, {"no": no})

    def jobs(self) -> list[OfficeJob]:
        """Return every job, by key."""
        with self.reading() as connection:
            found = connection.execute(select(job).order_by(job.c.key)).all()
        return [OfficeJob(*one) for one in found]

    def source_of(self, key: str, founder: str = "") -> JobSource:
        """Return the entries of one job; it need not be here yet."""
        return JobSource(self, key, founder)

    def number_of(self, key: str) -> int | None:
        """Return the number of a job, None if it is not here."""
        with self.reading() as connection:
            return self.find_number(connection, key)

    def find_number(self, connection: Connection, key: str) -> int | None:
        """Return the number of a job as an open transaction sees it."""
        found = connection.execute(select(job.c.no).where(job.c.key == key)).scalar()
        return None if found is None else int(found)

    @contextlib.contextmanager
    def _transaction(self, *, writes: bool) -> Iterator[Connection]:
        with self._turn, translate_errors(self.address):
            connection = self._connection.execution_options(writes=writes)
            # At once, and not with the first statement: rows go in past the engine.
            connection.begin()
            try:
                yield connection
                connection.commit()
            except BaseException:
                with contextlib.suppress(*driver_errors()):
                    connection.rollback()
                raise

    def _settle(self, make: bool) -> None:
        with self.writing() as connection:
            if self.dialect is Dialect.POSTGRESQL:
                _need_utf8(self.address, connection)
            if not make and _is_bare(connection):
                raise NoOfficeYetError(where=self.address.text_without_password)
            migrate(connection, self.address)
        # Nothing rests on the views: where somebody's own view keeps one, the old ones stay.
        with contextlib.suppress(OfficeFailedError), self.writing() as connection:
            refresh_views(connection, self.dialect)


def _prepare_file(address: Address, make: bool) -> None:
    """See that there is a file to open: the office's, or an empty one if one is to be made."""
    path = address.path
    if path is None:
        return
    try:
        if make and not path.exists():
            path.touch()
        require_office_file(address, path)
    except FileNotFoundError as fault:
        if make:
            said = f"there is no folder {path.parent}"
            raise OfficeUnreachableError(where=address.text_without_password, why=said) from fault
        raise NoOfficeYetError(where=address.text_without_password) from fault
    except OSError as fault:
        said = fault.strerror or str(fault)
        raise OfficeUnreachableError(where=address.text_without_password, why=said) from fault


def _is_bare(connection: Connection) -> bool:
    return not inspect(connection).get_table_names()


def _need_utf8(address: Address, connection: Connection) -> None:
    found = str(connection.exec_driver_sql("SHOW server_encoding").scalar())
    if found != "UTF8":
        raise NotAnOfficeError(
            where=address.text_without_password,
            found=f"a database whose texts are {found} and not UTF8",
        )
