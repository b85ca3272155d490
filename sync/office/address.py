"""Address of the office's database: a file, or PostgreSQL by its URL; its secret stays hidden."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path

from sqlalchemy import URL, make_url
from sqlalchemy.exc import ArgumentError

from models.book.views import Dialect
from sync.office.errors import OfficeAddressError, OfficeDriverAbsentError

_POSTGRESQL = "postgresql+psycopg"


@dataclass(frozen=True, slots=True)
class Address:
    """Address of a database, as a URL."""

    url: URL

    @property
    def dialect(self) -> Dialect:
        """Kind of database at the address, SQLite or PostgreSQL."""
        is_file = self.url.get_backend_name() == "sqlite"
        return Dialect.SQLITE if is_file else Dialect.POSTGRESQL

    @property
    def path(self) -> Path | None:
        """The file, if it is one."""
        is_file = self.dialect is Dialect.SQLITE
        return Path(self.url.database) if is_file and self.url.database else None

    @property
    def text_without_password(self) -> str:
        """Address without its password, wherever that was put."""
        if self.path is not None:
            return str(self.path)
        return self.url.set(query={}).render_as_string(hide_password=True)

    @property
    def digest(self) -> str:
        """Short digest of the address, which names a folder of its own."""
        path = self.path
        plain = self.url.set(password=None, query={}).render_as_string()
        plain = plain if path is None else str(path.resolve())
        return hashlib.sha256(plain.encode()).hexdigest()[:16]


def read_address(text: str) -> Address:
    """Read the name of a file or a URL.

    Raises
    ------
    OfficeAddressError
        If it names no database that is served.
    OfficeDriverAbsentError
        If it names PostgreSQL and its library is not installed.
    """
    if "\0" in text or not text.strip():
        raise OfficeAddressError(text=text[:60], why="it is no name")
    if "://" not in text:
        return Address(URL.create("sqlite", database=text))
    try:
        url = make_url(text)
        name = url.get_backend_name()
    except (ArgumentError, ValueError) as fault:
        shown = text.partition("://")[0][:30] + "://..."
        raise OfficeAddressError(text=shown, why="it can't be read as a URL") from fault
    if name == "sqlite":
        return _file_address(url)
    if url.drivername not in {"postgresql", "postgres", _POSTGRESQL}:
        raise OfficeAddressError(text=url.drivername, why="that kind is not served")
    _need_driver()
    return Address(url.set(drivername=_POSTGRESQL))


def _file_address(url: URL) -> Address:
    if url.drivername != "sqlite" or not url.database or url.database == ":memory:" or url.query:
        raise OfficeAddressError(text=url.drivername, why="only a plain file is kept")
    return Address(url)


def _need_driver() -> None:
    try:
        import_module("psycopg")
    except ImportError as fault:
        raise OfficeDriverAbsentError(missing=fault.name or "psycopg") from fault
