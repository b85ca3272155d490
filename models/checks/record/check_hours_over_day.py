"""hours_over_day: a person or machine has more hours on a day than the day has."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.day import Hours
from models.entries.envelope import AnyEntry, Entry
from models.state.indexes import HOURS_ON
from models.state.job_state import JobState

DAY_MIN = 24 * 60


def _examine(state: JobState, day: str) -> Iterator[Finding]:
    told: dict[tuple[str, str], list[Entry[Hours]]] = {}
    for entry in state.current(HOURS_ON, day):
        hours = entry.body
        told.setdefault((hours.of, hours.who), []).append(entry)
    for (of, who), entries in told.items():
        minutes = sum(_minutes(entry.body) for entry in entries)
        if minutes > DAY_MIN:
            yield make_finding(
                CHECK.id,
                day,
                entries,
                place=f"{of}/{who}",
                name=who,
                day=day,
                amount=_clock(minutes),
            )


def _minutes(hours: Hours) -> int:
    return hours.run_min + hours.idle_min + hours.down_min


def _clock(minutes: int) -> str:
    """Minutes as hours and minutes, in figures that need no words."""
    return f"{minutes // 60}:{minutes % 60:02d}"


def _its_day(state: JobState, entry: AnyEntry) -> Iterable[str]:
    return (entry.day,)


CHECK = Check(
    id="hours_over_day",
    severity=Severity.FIX,
    problem="More hours are logged for one day than a day has.",
    why="Hours are paid and billed from the sheet; some stand twice, or on the wrong day.",
    cure="Strike the hours that stand twice, or correct those that were typed wrong.",
    message="{name} has {amount} hours on {day}.",
    watches={"hours": _its_day},
    subjects=lambda state: state.every_name(HOURS_ON),
    examine=_examine,
)
