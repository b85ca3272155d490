"""The keys of the Day screen's first part: what each leads to and what stands there."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.pages.day.view import DayView
from crewapp.words.dates import full_day
from crewapp.words.translate import say


@dataclass(frozen=True, slots=True)
class MenuKey:
    """Key of the menu: the form or part it leads to, its words, and how that stands."""

    leads_to: str
    text: str
    note: str = ""
    is_form: bool = False
    is_next: bool = False


def menu_keys(view: DayView, running: str = "") -> tuple[MenuKey, ...]:
    """Return the keys of a day: all of them today, only what may still be done on another."""
    finish = _finish(view)
    if view.is_closed or not view.is_today:
        others = MenuKey("days", say("Other days"))
        if not view.is_closed:
            return (*finish, others)
        return (*finish, MenuKey("one_file", say("One file"), say("for another tablet")), others)
    return (*_log(view, running), *finish)


def _log(view: DayView, running: str) -> tuple[MenuKey, ...]:
    workers = view.workers
    with_hours = sum(bool(one.hours) for one in workers)
    hours = say("{count} of {all}", count=with_hours, all=len(workers))
    delay = running or _counted(view, "delay")
    return (
        MenuKey("delay", say("Delay"), delay, True, bool(running)),
        MenuKey("hours", say("Crew, machines"), hours),
        MenuKey("weather", say("Weather, ground"), _counted(view, "weather"), True),
        MenuKey("utility", say("Found or hit"), _counted(view, "utility"), True),
        MenuKey("note", say("Note"), _counted(view, "note"), True),
        MenuKey("photo", say("Photo"), _counted(view, "photo"), True),
        MenuKey("tomorrow", say("Tomorrow"), _counted(view, "tomorrow"), True),
        _ground_key(view),
    )


def _ground_key(view: DayView) -> MenuKey:
    """While there is ground to dig, what allows it; once it is all cut, what comes after."""
    if view.is_all_cut:
        return MenuKey("after", say("After the rain"))
    return MenuKey("tickets", say("Locate tickets"), str(len(view.tickets)))


def _finish(view: DayView) -> tuple[MenuKey, ...]:
    entries = sum(not row.is_struck for row in view.written)
    signed = say("{count} signed", count=len(view.signatures)) if view.signatures else say("none")
    ending = say("Closed: hand over") if view.is_closed else say("Close the day")
    stands = say("flags: {count}", count=len(view.open_flags)) if view.open_flags else ""
    return (
        MenuKey("written", say("Written"), str(entries)),
        MenuKey("sheet", say("Day sheet")),
        MenuKey("sign", say("Sign"), signed),
        MenuKey("close", ending, stands, is_next=True),
    )


def _counted(view: DayView, kind: str) -> str:
    count = view.counts.get(kind, 0)
    return str(count) if count else say("none")


def day_words(view: DayView) -> str:
    """Say which day it is and whether it is closed."""
    words = full_day(view.day, view.figures.is_us)
    if view.is_closed:
        words = say("{day}, closed", day=words)
    return words if view.is_today else say("{day} (past)", day=words)
