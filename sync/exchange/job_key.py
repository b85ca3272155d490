"""Identity of a job: its founder, and the key of its folder in every store."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from typing import Final

from models.book.row import Row, entry_of
from models.book.store import Book
from models.entries.bodies.job import Job as JobBody
from sync.exchange.errors import NoJobYetError
from sync.trust.members import Job

KEY_FORM: Final = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*-(?P<digest>[0-9a-f]{16})")
LONGEST_KEY: Final = 41
_SLUG_LETTERS = 24
_DOMAIN = b"crewapp job\n"


def job_of(book: Book) -> Job:
    """Return the job of a book by its first entry of kind job.

    Raises
    ------
    NoJobYetError
        If it holds none.
    """
    rows = book.of_kinds(["job"])
    if not rows:
        raise NoJobYetError(path=book.path)
    return job_of_row(rows[0])


def job_of_row(row: Row) -> Job:
    """Return the job that an entry of kind job founds."""
    body = entry_of(row).body
    name = (body.name if isinstance(body, JobBody) else "") or "job"
    return Job(row.stream, f"{_slug(name)}-{_digest(row)}")


def is_founded_by(key: str, row: Row) -> bool:
    """Whether a row is the one that a job key was made from; its name may have changed since."""
    found = KEY_FORM.fullmatch(key)
    return found is not None and row.kind == "job" and found["digest"] == _digest(row)


def is_job_key(text: str) -> bool:
    """Whether a text has the form of a job key."""
    return len(text) <= LONGEST_KEY and KEY_FORM.fullmatch(text) is not None


def _digest(row: Row) -> str:
    told = _DOMAIN + row.stream.encode() + b"\n" + row.id.encode()
    return hashlib.sha256(told).hexdigest()[:16]


def _slug(name: str) -> str:
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_SLUG_LETTERS].strip("-") or "job"
