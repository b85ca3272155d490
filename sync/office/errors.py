"""Errors of the office's database, each with its code and sentence."""

from __future__ import annotations

from models.errors import CrewError


class OfficeError(CrewError):
    """Root of everything that can go wrong with the office's database."""


class OfficeAddressError(OfficeError, ValueError):
    """A text does not name a database."""

    code = "office.address"
    sentence = (
        "Cannot tell which database {text!r} is: {why}. The name of a file, such as "
        "office.db, or postgresql+psycopg://USER@HOST/NAME would be accepted."
    )


class OfficeDriverAbsentError(OfficeError, ImportError):
    """PostgreSQL was named on a machine without its library."""

    code = "office.driver_absent"
    sentence = (
        "Cannot reach PostgreSQL from here: its library is not installed ({missing}). "
        "A file such as office.db needs nothing more. To use PostgreSQL, install the wheel "
        "file you were given once more, with [office] or [all] behind its name."
    )


class OfficeUnreachableError(OfficeError, OSError):
    """The database does not answer, or does not let us in."""

    code = "office.unreachable"
    sentence = (
        "Cannot open the office's database {where}: {why}. Nothing was written. "
        "Check the name, that the server runs, and that this user may use it."
    )


class NoOfficeYetError(OfficeError, FileNotFoundError):
    """A database was to be read that nobody made yet."""

    code = "office.missing"
    sentence = (
        "There is no office's database at {where}. `crewapp office take` makes one of the jobs "
        "in a store."
    )


class NotAnOfficeError(OfficeError, ValueError):
    """The database holds something else."""

    code = "office.not_an_office"
    sentence = (
        "Cannot use {where} as the office's database: it is {found}. It has not been changed. "
        "An empty database, or one that crewapp made, would be accepted."
    )


class OfficeTooNewError(OfficeError):
    """A later version made the database."""

    code = "office.too_new"
    sentence = (
        "Cannot use the office's database {where}: it has schema {found}, and this version "
        "knows schemas up to {newest}. It has not been changed. Install the newer version."
    )


class OfficeFailedError(OfficeError, OSError):
    """The database gave up midway."""

    code = "office.failed"
    sentence = (
        "The office's database {where} stopped: {why}. What it had confirmed before stands. "
        "Run it again: it goes on where it stopped, and nothing comes in twice."
    )


class NoSuchJobError(OfficeError, LookupError):
    """A job was named that the office does not hold, or a name that several have."""

    code = "office.no_such_job"
    sentence = "The office has {met} job called {text!r}. It has: {jobs}."


class NothingToTakeError(OfficeError, ValueError):
    """No source was named, or no job lies where one was named."""

    code = "office.nothing_to_take"
    sentence = (
        "Nothing was taken in: {why}. A store (--store WHERE), or books, hand-over files and "
        "folders of them (--files PATH) would be accepted."
    )


class UnsoundBookError(OfficeError, ValueError):
    """A book is not as it was written."""

    code = "office.unsound_book"
    sentence = (
        "Nothing was taken from {path}: {why}. `crewapp verify {path}` says what is wrong; "
        "what the tablets sent to a store can be taken in from there."
    )
