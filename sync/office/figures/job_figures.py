"""Figures of a job for the index: its totals, its flags, its tablets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from models.book.row import Row, entry_of
from models.checks.finding_text import sentence
from models.checks.flag_board import Flag, FlagBoard
from models.entries.bodies.job import Person
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.bodies.tablets import TabletAdded
from models.entries.bounds import NEWER
from models.entries.kind_names import COLLECTOR, HOURS, PERSON, SURFACE
from models.entries.tablet_code import code_of
from models.state.indexes import UNREAD
from models.state.job_state import JobState
from sync.office.figures.quality import QualityDays, crew_stream, quality_days
from sync.office.figures.totals import Days, SandBalance, day_totals, sand_balances
from sync.papers.day.facts.day import figures_for
from sync.papers.day.facts.slits import current_of

_WEIGHT = {"stop": 0, "fix": 1, "note": 2}


@dataclass(frozen=True, slots=True)
class OpenFlag:
    """A flag that nobody has answered."""

    weight: int  # 0 stops the work, 1 is to be put right, 2 is worth knowing
    day: str
    key: str
    check: str
    said: str


@dataclass(frozen=True, slots=True)
class JobTablet:
    """A tablet that wrote to a job."""

    stream: str
    code: str
    name: str  # as the job's list of tablets calls it


@dataclass(frozen=True, slots=True)
class Writer:
    """How many entries of a tablet one author wrote."""

    stream: str
    author: str
    entries: int


@dataclass(frozen=True, slots=True)
class PersonHours:
    """Minutes of one person on one day, as one tablet has them."""

    day: str
    stream: str
    who: str
    run_min: int


@dataclass(slots=True)
class JobDigest:
    """Figures of a job as the index stores them."""

    name: str = ""
    job_id: str = ""
    is_us: bool = True
    first_day: str = ""
    last_day: str = ""
    planned_nm: int = 0
    answered: int = 0
    newer: int = 0  # entries of kinds or versions not known here; kept, passed on, counted
    unreadable: int = 0
    fault: str = ""  # why nothing below could be worked out
    days: Days = field(default_factory=dict)
    flags: list[OpenFlag] = field(default_factory=list)
    sands: list[SandBalance] = field(default_factory=list)
    tablets: list[JobTablet] = field(default_factory=list)
    writers: list[Writer] = field(default_factory=list)
    persons: list[PersonHours] = field(default_factory=list)
    quality: QualityDays = field(default_factory=dict)


def job_digest(rows: Iterable[Row], now_ms: int | None) -> JobDigest:
    """Look at all entries of a job.

    A fault of our own in one job is kept as a sentence: it is not to hide the other jobs.
    """
    found = JobDigest()
    state = JobState(map(entry_of, rows))
    state.now_ms = now_ms
    _add_head(state, found)
    try:
        found.days = day_totals(state)
        found.sands = sand_balances(state)
        flags = _add_flags(state, found)
        found.quality = quality_days(state, flags)
    except Exception as fault:
        found.fault = f"{type(fault).__name__}: {fault}"[:300]
    return found


def _add_head(state: JobState, found: JobDigest) -> None:
    job = state.job
    found.name = job.name if job else ""
    found.job_id = job.job_id if job else ""
    found.is_us = figures_for(state).is_us
    days = sorted(day for day in state.days if state.days[day])
    found.first_day, found.last_day = (days[0], days[-1]) if days else ("", "")
    unread = state.current(UNREAD)
    found.newer = sum(entry.unfit in NEWER for entry in unread)
    found.unreadable = len(unread) - found.newer
    found.planned_nm = _planned_nm(state)
    found.tablets = _tablets(state)
    wrote = Counter((entry.stream, entry.author) for entry in state.entries.values())
    found.writers = [Writer(*one, wrote[one]) for one in sorted(wrote)]
    found.persons = list(_persons(state))


def _tablets(state: JobState) -> list[JobTablet]:
    names: dict[str, str] = {}
    for entry in state.entries_in_order():
        if isinstance(entry.body, TabletAdded) and entry.body.name:
            names[entry.body.code] = entry.body.name
    codes = {stream: code_of(stream) for stream in sorted(state.streams)}
    return [JobTablet(stream, code, names.get(code, "")) for stream, code in codes.items()]


def _persons(state: JobState) -> Iterable[PersonHours]:
    """Persons with hours, under the names that the job's list of persons gives them."""
    for entry in current_of(state, HOURS):
        hours = entry.body
        if hours.of == "person" and hours.run_min:
            person = state.latest(PERSON, hours.who)
            who = person.name if isinstance(person, Person) else hours.who
            yield PersonHours(entry.day, crew_stream(state, entry), who, hours.run_min)


def _planned_nm(state: JobState) -> int:
    total = 0
    for name in state.every_name(SURFACE):
        surface = state.latest(SURFACE, name)
        if isinstance(surface, Surface):
            total += sum(line.length_nm for line in surface.lines)
    for name in state.every_name(COLLECTOR):
        collector = state.latest(COLLECTOR, name)
        if isinstance(collector, Collector):
            total += collector.design.length_nm
    return min(total, 2**63 - 1)


def _add_flags(state: JobState, found: JobDigest) -> Sequence[Flag]:
    """Keep the open flags; return all of them."""
    board = FlagBoard(state)
    figures = figures_for(state)
    flags = board.flags()
    found.answered = sum(flag.answer is not None for flag in flags)
    for flag in flags:
        if flag.answer is None:
            finding = flag.finding
            weight = _WEIGHT[flag.severity.value]
            said = sentence(finding, figures)
            found.flags.append(OpenFlag(weight, finding.day, finding.key, finding.check, said))
    return flags
