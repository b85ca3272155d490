"""The keys of the Day screen's first part: what each leads to and what stands there."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.pages.day.view import DayFace
from crewapp.words.dates import full_day
from crewapp.words.translate import say


@dataclass(frozen=True, slots=True)
class MenuKey:
    """One key: the form or part it leads to, its words, what stands, whether it leads on."""

    leads_to: str
    text: str
    note: str = ""
    is_form: bool = False
    is_next: bool = False


def menu_keys(face: DayFace, running: str = "") -> tuple[MenuKey, ...]:
    """Return the keys of a day: all of them today, only what may still be done on another."""
    finish = _finish(face)
    if face.is_closed or not face.is_today:
        others = MenuKey("days", say("Other days"))
        if not face.is_closed:
            return (*finish, others)
        return (*finish, MenuKey("one_file", say("One file"), say("for another tablet")), others)
    return (*_log(face, running), *finish)


def _log(face: DayFace, running: str) -> tuple[MenuKey, ...]:
    workers = face.workers
    with_hours = sum(bool(one.hours) for one in workers)
    hours = say("{count} of {all}", count=with_hours, all=len(workers))
    delay = running or _counted(face, "delay")
    return (
        MenuKey("delay", say("Delay"), delay, True, bool(running)),
        MenuKey("hours", say("Crew, machines"), hours),
        MenuKey("weather", say("Weather, ground"), _counted(face, "weather"), True),
        MenuKey("utility", say("Found or hit"), _counted(face, "utility"), True),
        MenuKey("note", say("Note"), _counted(face, "note"), True),
        MenuKey("photo", say("Photo"), _counted(face, "photo"), True),
        MenuKey("tomorrow", say("Tomorrow"), _counted(face, "tomorrow"), True),
        _ground_key(face),
    )


def _ground_key(face: DayFace) -> MenuKey:
    """While there is ground to dig, what allows it; once it is all cut, what comes after."""
    if face.is_all_cut:
        return MenuKey("after", say("After the rain"))
    return MenuKey("tickets", say("Locate tickets"), str(len(face.tickets)))


def _finish(face: DayFace) -> tuple[MenuKey, ...]:
    entries = sum(not row.is_struck for row in face.written)
    signed = say("{count} signed", count=len(face.signatures)) if face.signatures else say("none")
    ending = say("Closed: hand over") if face.is_closed else say("Close the day")
    stands = say("flags: {count}", count=len(face.open_flags)) if face.open_flags else ""
    return (
        MenuKey("written", say("Written"), str(entries)),
        MenuKey("sheet", say("Day sheet")),
        MenuKey("sign", say("Sign"), signed),
        MenuKey("close", ending, stands, is_next=True),
    )


def _counted(face: DayFace, kind: str) -> str:
    count = face.counts.get(kind, 0)
    return str(count) if count else say("none")


def day_words(face: DayFace) -> str:
    """Say which day it is and whether it is closed."""
    words = full_day(face.day, face.figures.is_us)
    if face.is_closed:
        words = say("{day}, closed", day=words)
    return words if face.is_today else say("{day} (past)", day=words)
