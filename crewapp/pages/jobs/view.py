"""View of the Jobs screen, and a new job as its form gives it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BookRow:
    """Book in the list: its file, the job's name, and how it stands."""

    path: str
    name: str
    detail: str
    is_broken: bool = False
    can_salvage: bool = False


@dataclass(frozen=True, slots=True)
class JobsView:
    """Books of this tablet, the newest first, and plan files in the inbox."""

    books: tuple[BookRow, ...] = ()
    plans: tuple[str, ...] = ()
    inbox: str = ""
    handed: tuple[str, ...] = ()  # handed-over files waiting there
    open_job: str = ""  # name of the job that is open, if one is


@dataclass(frozen=True, slots=True)
class NewJob:
    """A job to be started. ``along`` and ``across`` carry their unit, or are empty.

    Without a ``zone`` it is the tablet's own.
    """

    name: str = ""
    owner: str = ""
    unit_system: str = "us"
    zone: str = ""
    surface: str = ""
    use: str = "field"
    along: str = ""
    across: str = ""
