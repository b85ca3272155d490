"""The people's part of a day: hours, words, photos, tomorrow, signatures, every entry."""

from __future__ import annotations

from dataclasses import dataclass

from models.entries.bodies.day import Hours, Photo, Tomorrow
from models.entries.bodies.job import Person
from models.entries.envelope import AnyEntry
from models.entries.kind_names import PERSON
from models.state.indexes import SIGNED
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.wording.entry_text import details_of, moment_of, time_of, title_of

_MEANINGS = {
    "true_record": "This is a true record of the day.",
    "received": "Received.",
    "agreed": "Received and agreed.",
}


@dataclass(frozen=True, slots=True)
class HoursLine:
    """Hours of one person or one machine."""

    of: str
    who: str
    run_min: int
    idle_min: int
    down_min: int
    note: str
    body: Hours


@dataclass(frozen=True, slots=True)
class EntryLine:
    """An entry in words: when, what, by whom, and whether it is still in force."""

    entry_id: str
    at: str
    kind: str
    title: str
    said: str
    author: str
    is_struck: bool


@dataclass(frozen=True, slots=True)
class PhotoLine:
    """A photo, listed by the start of its file's digest."""

    number: int
    caption: str
    where: str
    sha256: str


@dataclass(frozen=True, slots=True)
class TomorrowNeed:
    """A thing that tomorrow needs."""

    what: str
    said: str


@dataclass(frozen=True, slots=True)
class SignatureBox:
    """A signature as drawn; ``is_current`` when it was given over the entries as they stand."""

    role: str
    name: str
    says: str
    at: str
    strokes: tuple[tuple[tuple[int, int], ...], ...]
    check_code: str
    is_current: bool


def hours_of(state: JobState, day: str) -> tuple[HoursLine, ...]:
    """Hours of the day: people first, then machines."""
    bodies = [entry.body for entry in entries_in_force(state, day) if isinstance(entry.body, Hours)]
    lines = [
        HoursLine(
            hours.of,
            _name(state, hours),
            hours.run_min,
            hours.idle_min,
            hours.down_min,
            hours.note,
            hours,
        )
        for hours in bodies
    ]
    return tuple(sorted(lines, key=lambda line: line.of != "person"))


def _name(state: JobState, hours: Hours) -> str:
    person = state.latest(PERSON, hours.who) if hours.of == "person" else None
    if not isinstance(person, Person):
        return hours.who
    return f"{person.name}, {person.role}" if person.role else person.name


def entries_in_force(state: JobState, day: str) -> list[AnyEntry]:
    """Entries of a day that are not crossed out."""
    return [entry for entry in state.days.get(day, ()) if not state.is_struck(entry.id)]


def entries_of(state: JobState, figures: Figures, day: str) -> tuple[EntryLine, ...]:
    """Every entry of the day, struck ones included, in the order of the book."""
    return tuple(
        EntryLine(
            entry_id=entry.id,
            at=time_of(entry, figures),
            kind=entry.kind,
            title=title_of(entry.kind),
            said=details_of(entry, figures),
            author=entry.author,
            is_struck=state.is_struck(entry.id),
        )
        for entry in state.days.get(day, ())
    )


def photos_of(state: JobState, day: str) -> tuple[PhotoLine, ...]:
    """Photos of the day, numbered in the order they were taken."""
    found = [entry.body for entry in entries_in_force(state, day) if isinstance(entry.body, Photo)]
    return tuple(
        PhotoLine(number, photo.caption, photo.where, photo.sha256)
        for number, photo in enumerate(found, start=1)
    )


def tomorrow_of(state: JobState, figures: Figures, day: str) -> tuple[TomorrowNeed, ...]:
    """Needs of the next day, as last written on this one."""
    found = [
        entry.body for entry in entries_in_force(state, day) if isinstance(entry.body, Tomorrow)
    ]
    return tuple(
        TomorrowNeed(what, said)
        for plan in found
        for what, said in (
            ("Work", plan.work),
            ("Keep clear", plan.must_be_clear),
            ("Call in sand", figures.mass(plan.sand_ug) if plan.sand_ug else ""),
        )
        if said
    )


def signatures_of(
    state: JobState, figures: Figures, day: str, code: str
) -> tuple[SignatureBox, ...]:
    """Signatures for the day, the newest of each role."""
    newest: dict[str, SignatureBox] = {}
    for entry in state.current(SIGNED, day):
        body = entry.body
        newest[body.role] = SignatureBox(
            role=body.role,
            name=body.name,
            says=_MEANINGS[body.meaning],
            at=moment_of(entry, figures),
            strokes=body.strokes,
            check_code=body.check_code,
            is_current=body.check_code == code,
        )
    return tuple(newest[role] for role in ("foreman", "owner") if role in newest)
