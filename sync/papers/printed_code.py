"""Proof of a printed sheet: whether its check code belongs to the entries of the book."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from models.counted import CountedNoun
from models.entries.bodies.day import DayClosed, Signature
from models.entries.envelope import AnyEntry
from models.state.check_code import book_code, check_code, code_of, codes_over, in_order, read_code
from models.state.job_state import JobState
from sync.papers.day.facts.day import figures_for
from sync.papers.wording.entry_text import details_of, time_of, title_of

_AFTER_THE_SHEET = frozenset({"signature", "day_closed", "day_reopened"})
_AFTER_THE_SHEET |= {"tablet_added", "tablet_revoked"}  # no work of the day
_CODE_LETTERS = 20
MOST_TOLD = 200
"""Entries told one by one where a whole book has gone on since."""


class Outcome(StrEnum):
    """Outcome of a proof, in words."""

    PROVEN = "proven"
    NOT_PROVEN = "not proven"


@dataclass(frozen=True, slots=True)
class Proof:
    """The outcome, in a sentence, with what differs line by line."""

    outcome: Outcome
    day: str
    code: str
    sentence: str
    differs: tuple[str, ...] = ()

    @property
    def is_proven(self) -> bool:
        """Whether the code belongs to the entries as they stand."""
        return self.outcome is Outcome.PROVEN


def verify_sheet(state: JobState, text: str) -> Proof:
    """Prove a check code as printed, or the codes that a day was signed and closed with.

    ``text`` is a code, in any grouping and with O for 0, or a day written YYYY-MM-DD.
    """
    day = text.strip()
    if day in state.days:
        return verify_day(state, day)
    code = read_code(text)
    if len(code.replace("-", "")) != _CODE_LETTERS:
        why = f"is no check code of {_CODE_LETTERS} letters and figures, and no day of this book"
        return Proof(Outcome.NOT_PROVEN, "", code, f"Not proven: {text.strip()!r} {why}.")
    for one in sorted(state.days):
        if check_code(state, one) == code:
            count = len(_covered(state, one))
            words = (
                f"Proven: {code} is made from {CountedNoun(count):entry|entries} "
                f"of {one} as {CountedNoun(count):!it stands|they stand}."
            )
            return Proof(Outcome.PROVEN, one, code, words)
    for one in sorted(state.days):
        later = _written_since(state, one, code)
        if later is not None:
            return _outdated(state, one, code, later)
    return _verify_book(state, code)


def _verify_book(state: JobState, code: str) -> Proof:
    """Prove a code made from every entry, as on the record of a whole job.

    Tried in turn: the first entries in the order of the book; the same without one
    stream, for when another tablet's entries came in between.
    """
    entries = in_order(state)
    if book_code(state) == code:
        words = (
            f"Proven: {code} is made from all {CountedNoun(len(entries)):entry|entries} "
            f"of the book as {CountedNoun(len(entries)):!it stands|they stand}."
        )
        return Proof(Outcome.PROVEN, "", code, words)
    for left_out in ("", *sorted({entry.stream for entry in entries})):
        kept = [entry for entry in entries if entry.stream != left_out]
        count = next((count for count, made in codes_over(kept) if made == code), 0)
        if count:
            covered = {entry.id for entry in kept[:count]}
            later = [entry for entry in entries if entry.id not in covered]
            return _book_outdated(state, code, later)
    words = f"Not proven: no day of this book has, or had, the code {code}, nor had all of it."
    return Proof(Outcome.NOT_PROVEN, "", code, words)


def _book_outdated(state: JobState, code: str, later: list[AnyEntry]) -> Proof:
    count = f"{CountedNoun(len(later)):entry was|entries were}"
    words = (
        f"Not proven as it stands now: the book had the code {code}; {count} written since. "
        f"Its code is now {book_code(state)}."
    )
    return Proof(Outcome.NOT_PROVEN, "", code, words, _told(state, later[:MOST_TOLD]))


def _told(state: JobState, later: list[AnyEntry]) -> tuple[str, ...]:
    figures = figures_for(state)
    return tuple(
        f"{time_of(entry, figures)} {title_of(entry.kind)}: {details_of(entry, figures)}"
        f" ({entry.author})"
        for entry in later
    )


def verify_day(state: JobState, day: str) -> Proof:
    """Prove that a day stands as it was signed and closed."""
    now = check_code(state, day)
    given = [
        entry.body
        for entry in state.days.get(day, ())
        if isinstance(entry.body, Signature | DayClosed) and not state.is_struck(entry.id)
    ]
    if not given:
        words = f"Not proven: {day} was neither signed nor closed. Its code is now {now}."
        return Proof(Outcome.NOT_PROVEN, day, now, words)
    last = given[-1]
    if last.check_code == now:
        words = f"Proven: {day} stands as it was signed or closed, code {now}."
        return Proof(Outcome.PROVEN, day, now, words)
    later = _written_since(state, day, last.check_code)
    return _outdated(state, day, last.check_code, later or [])


def _outdated(state: JobState, day: str, code: str, later: list[AnyEntry]) -> Proof:
    now = check_code(state, day)
    count = f"{CountedNoun(len(later)):entry was|entries were}"
    since = f"{count} written for it since" if later else "its entries are not the same"
    words = f"Not proven: {day} has changed; {since}. Its code is now {now}."
    return Proof(Outcome.NOT_PROVEN, day, code, words, _told(state, later))


def _covered(state: JobState, day: str) -> list[AnyEntry]:
    return [entry for entry in state.days.get(day, ()) if entry.kind not in _AFTER_THE_SHEET]


def _written_since(state: JobState, day: str, code: str) -> list[AnyEntry] | None:
    """Entries of a day that a code does not cover yet; None when the code was never the day's.

    Tried in turn: the first entries in the order of the book; the entries of each
    stream up to some moment, for when another tablet's entries came in between.
    """
    covered = _covered(state, day)
    for count in range(len(covered), -1, -1):
        if code_of(covered[:count]) == code and count:
            return covered[count:]
    by_time = sorted(covered, key=lambda entry: entry.at_ms)
    for count in range(len(covered), 0, -1):
        early = {entry.id for entry in by_time[:count]}
        if code_of(entry for entry in covered if entry.id in early) == code:
            return [entry for entry in covered if entry.id not in early]
    for left_out in {entry.stream for entry in covered}:
        kept = [entry for entry in covered if entry.stream != left_out]
        if kept and code_of(kept) == code:
            return [entry for entry in covered if entry.stream == left_out]
    return None
