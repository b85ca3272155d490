"""Reads what the Day screen shows."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.kit.input.list_rows import DayRow, NamedItem
from crewapp.pages.day.lists_presenter import day_entry_rows, days_of, signatures_of, tickets_of
from crewapp.pages.day.missing_presenter import missing_of
from crewapp.pages.day.view import DayView, ReadClock, ShowDay, Worker
from crewapp.pages.flags.presenter import open_rows
from crewapp.pages.lines.entry_line import entry_line
from crewapp.pages.today.readiness_presenter import readiness_rows
from crewapp.words.translate import say
from models.checks.finding import Severity
from models.entries.bodies.day import Hours
from models.entries.bodies.job import Machine, Person
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.envelope import AnyEntry
from models.entries.index import EntryKind
from models.entries.keys import line_key
from models.entries.kind_names import COLLECTOR, MACHINE, PERSON, SURFACE
from models.state.indexes import CUTS_OF
from models.units import show_duration

COUNTED = ("hours", "weather", "delay", "utility", "note", "photo", "tomorrow", "signature")


@answers(ShowDay)
def day_view(job: OpenJob, query: ShowDay) -> DayView:
    """Read the view of a day, today unless another is named; the sheet only for its part."""
    day = query.day
    moment = job.clock.now()
    day = day if day in job.state.days else moment.day  # a draft may be of another book
    standing = [e for e in job.state.days.get(day, ()) if not job.state.is_struck(e.id)]
    flags = [flag for flag in job.board.open_flags() if flag.finding.day <= day]
    title, sheet = _sheet(job, day) if query.part == "sheet" else ("", ())
    owner = job.state.job.owner if job.state.job else ""
    return DayView(
        figures=job.figures,
        has_job=job.state.job is not None,
        day=day,
        today=moment.day,
        now_ms=moment.at_ms,
        is_closed=job.state.is_closed(day),
        author=job.author,
        owner=owner,
        workers=_workers(job, standing),
        people=_people(job),
        places=_places(job),
        counts=dict(Counter(entry.kind for entry in standing if entry.kind in COUNTED)),
        last=_last(job, standing),
        tickets=tickets_of(job, moment.day),
        ticket_status=readiness_rows(job, moment.day, [])[1].status,
        written=day_entry_rows(job, day),
        open_flags=open_rows(job, flags),
        stops=sum(flag.severity is Severity.STOP for flag in flags),
        missing=missing_of(job, day, standing),
        signatures=signatures_of(job, day),
        days=days_of(job, moment.day),
        sheet=sheet,
        sheet_title=title,
        is_all_cut=is_all_cut(job),
    )


def is_all_cut(job: OpenJob) -> bool:
    """Whether every planned line is cut; a plan without lines has nothing cut."""
    state = job.state
    surfaces = [state.latest(SURFACE, name) for name in state.every_name(SURFACE)]
    lines = [(one.surface_id, line) for one in surfaces if one is not None for line in one.lines]
    return bool(lines) and all(
        state.current(CUTS_OF, line_key(surface_id, line.line_id)) for surface_id, line in lines
    )


@answers(ReadClock)
def clock_time(job: OpenJob, query: ReadClock) -> int:
    """Read the clock: milliseconds, as entries carry them."""
    return job.clock.now().at_ms


def _sheet(job: OpenJob, day: str) -> tuple[str, tuple[DayRow, ...]]:
    # Only now: what gathers a sheet is heavy, and the part is not always looked at.
    from crewapp.pages.day.sheet_presenter import sheet_rows

    return sheet_rows(job, day)


def _workers(job: OpenJob, standing: list[AnyEntry]) -> tuple[Worker, ...]:
    """People first, then machines, each with the hours that stand for the day."""
    hours: dict[tuple[str, str], AnyEntry] = {
        (entry.body.of, entry.body.who): entry
        for entry in standing
        if isinstance(entry.body, Hours)
    }
    found = [
        *(("person", one.name, one.text) for one in _people(job)),
        *(("person", name, name) for name in _not_planned(job, hours)),
        *(("machine", one.name, one.text) for one in _machines(job)),
    ]
    return tuple(_worker(of, who, text, hours.get((of, who))) for of, who, text in found)


def _not_planned(job: OpenJob, hours: Iterable[tuple[str, str]]) -> list[str]:
    """Name who worked and stands in no plan: whoever writes here, and those with hours.

    A job that was started by its size has no crew in its plan, and its foreman works all the same.
    """
    people = [job.state.latest(PERSON, name) for name in job.state.every_name(PERSON)]
    planned = {name for one in people if isinstance(one, Person) for name in _names(one)}
    wrote = [job.author] if job.author else []
    named = dict.fromkeys([*wrote, *(who for of, who in hours if of == "person")])
    return [name for name in named if name not in planned]


def _names(person: Person) -> tuple[str, str]:
    return person.person_id, person.name


def _worker(of: str, who: str, text: str, entry: AnyEntry | None) -> Worker:
    if entry is None or not isinstance(entry.body, Hours):
        return Worker(of, who, text)
    body = entry.body
    parts = [show_duration(body.run_min)]
    if body.idle_min:
        parts.append(say("{time} standing by", time=show_duration(body.idle_min)))
    if body.down_min:
        parts.append(say("{time} down", time=show_duration(body.down_min)))
    return Worker(of, who, text, ", ".join(parts), entry.id)


def _people(job: OpenJob) -> tuple[NamedItem, ...]:
    found = [job.state.latest(PERSON, name) for name in job.state.every_name(PERSON)]
    return tuple(
        NamedItem(one.person_id, f"{one.name}, {one.role}" if one.role else one.name)
        for one in found
        if isinstance(one, Person)
    )


def _machines(job: OpenJob) -> tuple[NamedItem, ...]:
    found = [job.state.latest(MACHINE, name) for name in job.state.every_name(MACHINE)]
    return tuple(
        NamedItem(one.machine_id, one.machine_id) for one in found if isinstance(one, Machine)
    )


def _places(job: OpenJob) -> tuple[NamedItem, ...]:
    kinds: tuple[EntryKind[Surface | Collector], ...] = (SURFACE, COLLECTOR)
    found = []
    for kind in kinds:
        for name in job.state.every_name(kind):
            place = job.state.latest(kind, name)
            found.append(NamedItem(name, place.name if place and place.name else name))
    return tuple(found)


def _last(job: OpenJob, standing: list[AnyEntry]) -> dict[str, str]:
    """What was logged last of each kind, in one line."""
    return {
        entry.kind: entry_line(entry, job.figures) for entry in standing if entry.kind in COUNTED
    }
