"""Check code printed on a sheet: proof of the entries that it was made from.

It is a digest of the stored bytes of every entry of the day, in the order of
the book, struck ones included, but for the acts that come after a sheet
(signatures, closing, reopening) and the list of tablets. The record of a whole
job covers every entry of its book, those acts included. Twenty base-32
characters, in groups of four, without letters that look like figures: 100 bits
of SHA-256.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator

from models.entries.envelope import AnyEntry
from models.state.job_state import JobState

_ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_WHOLE_BOOK = b"every entry of the book\n"
"""Goes before the entries, so that a book of one day and its day have each their own code."""
_AFTER_THE_SHEET = frozenset({"signature", "day_closed", "day_reopened"})
_AFTER_THE_SHEET |= {"tablet_added", "tablet_revoked"}  # no work of the day


def check_code(state: JobState, day: str) -> str:
    """Check code of a day as it stands in the job state."""
    return code_of(entry for entry in state.days.get(day, ()))


def code_of(entries: Iterable[AnyEntry]) -> str:
    """Check code of entries given in the order of the book."""
    digest = hashlib.sha256()
    for entry in entries:
        if entry.kind not in _AFTER_THE_SHEET:
            digest.update(hashlib.sha256(entry.raw).digest())
    return _printed(digest.digest())


def _printed(digest: bytes) -> str:
    bits = int.from_bytes(digest[:13], "big") >> 4
    letters = [_ALPHABET[(bits >> (5 * place)) & 31] for place in range(19, -1, -1)]
    return "-".join("".join(letters[start : start + 4]) for start in range(0, 20, 4))


def book_code(state: JobState) -> str:
    """Check code of a whole book: every entry of every day, acts after the sheet included."""
    digest = hashlib.sha256(_WHOLE_BOOK)
    for entry in in_order(state):
        digest.update(hashlib.sha256(entry.raw).digest())
    return _printed(digest.digest())


def in_order(state: JobState) -> list[AnyEntry]:
    """Every entry of a job in the order of the book, struck ones included."""
    return state.entries_in_order()


def codes_over(entries: Iterable[AnyEntry]) -> Iterator[tuple[int, str]]:
    """Code of a book of the first entry, the first two, and so on, with how many it covers."""
    digest = hashlib.sha256(_WHOLE_BOOK)
    for count, entry in enumerate(entries, start=1):
        digest.update(hashlib.sha256(entry.raw).digest())
        yield count, _printed(digest.digest())


def read_code(text: str) -> str:
    """Bring a code as somebody typed it to its printed form: O read as 0, I and L as 1."""
    plain = text.upper().translate(str.maketrans("OIL", "011"))
    letters = [letter for letter in plain if letter in _ALPHABET]
    return "-".join("".join(letters[start : start + 4]) for start in range(0, len(letters), 4))
