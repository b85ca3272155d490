"""Reads what the Flags screen shows."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.kit.input.list_rows import DayRow
from crewapp.pages.flags.view import ANSWER_WORDS, FlagCard, FlagRow, FlagsView, ShowFlags
from crewapp.pages.lines.entry_line import entry_line
from crewapp.pages.lines.finding_line import finding_line
from crewapp.pages.lines.undo_presenter import local_time
from crewapp.words.dates import day_and_time, full_day
from crewapp.words.translate import say
from models.checks.finding import Finding
from models.checks.flag_board import Flag
from models.checks.registry import BY_ID
from models.entries.bodies.day import Disposition
from models.entries.body import Body
from models.entries.envelope import AnyEntry, Entry
from models.entries.id_fields import collector_id_of, pass_id_of, surface_id_of
from models.entries.kind_names import PASS

MOST_ENTRIES = 40
_PAGES = (("pass_id", "pass"), ("surface_id", "pass"), ("collector_id", "grade"))
_NAMED: dict[str, Callable[[Body | None], str]] = {
    "pass_id": pass_id_of,
    "surface_id": surface_id_of,
    "collector_id": collector_id_of,
}
"""What reads each of these off the last entry that a flag rests on."""
_LOADS = frozenset({"delivery", "spoil", "material"})
_GRADE = frozenset({"setup", "check_shot", "turning_point", "benchmark"})


@answers(ShowFlags)
def flags_view(job: OpenJob, query: ShowFlags) -> FlagsView:
    """Read every flag, and the one of a key in full."""
    flags = job.board.flags()
    chosen = next((flag for flag in flags if flag.finding.key == query.key), None)
    return FlagsView(
        day=job.clock.now().day,
        open=tuple(flag_row(job, flag) for flag in flags if flag.answer is None),
        answered=tuple(flag_row(job, flag) for flag in flags if flag.answer is not None),
        card=flag_card(job, chosen) if chosen else None,
    )


def open_rows(job: OpenJob, flags: Iterable[Flag]) -> tuple[DayRow, ...]:
    """Return open flags as rows of a list."""
    return tuple(flag_row(job, flag).to_row() for flag in flags)


def flag_row(job: OpenJob, flag: Flag) -> FlagRow:
    """Return one flag in a line."""
    finding, is_us = flag.finding, job.figures.is_us
    return FlagRow(
        key=finding.key,
        severity=flag.severity.value,
        said=finding_line(finding, job.figures),
        day=full_day(finding.day, job.figures.is_us),
        answer=_answered(flag.answer, is_us) if flag.answer else "",
        lapsed=_answered(flag.lapsed, is_us) if flag.lapsed else "",
    )


def flag_card(job: OpenJob, flag: Flag) -> FlagCard:
    """Return one flag in full."""
    finding, check = flag.finding, BY_ID[flag.finding.check]
    entries = [job.state.entries[id] for id in finding.entries if id in job.state.entries]
    leads_to, arrive = place_of(job, finding, entries)
    return FlagCard(
        row=flag_row(job, flag),
        figures=finding.figures,
        why=say(check.why),
        cure=say(check.cure_of(finding)),
        rests_on=tuple(_entry_row(job, entry) for entry in reversed(entries[-MOST_ENTRIES:])),
        answered=_answered(flag.answer, job.figures.is_us) if flag.answer else "",
        lapsed=_lapsed(flag.lapsed, job.figures.is_us) if flag.lapsed else "",
        leads_to=leads_to,
        arrive=arrive,
    )


def place_of(
    job: OpenJob, finding: Finding, entries: list[AnyEntry]
) -> tuple[str, tuple[tuple[str, str], ...]]:
    """Return the page where a flag's work is done, and what to arrive with."""
    last = entries[-1] if entries else None
    if finding.check.startswith("locate_"):
        return "day", (("part", "tickets"),)
    if finding.check.startswith("plan/"):
        return "plan", _given("surface_id", None, finding)
    if finding.check == "day_closed_with_flags_open":
        return "day", (("part", "close"), ("day", finding.day))
    if last is not None and last.kind in _LOADS:
        return "loads", ()
    if last is not None and last.kind in _GRADE:
        return "grade", _given("collector_id", last, finding)
    for field, page in _PAGES:
        found = _given(field, last, finding)
        if found:
            return page, (_surface_of(job, found[0][1]) if field == "pass_id" else ()) + found
    is_load = any(name in finding.facts for name in ("material_id", "coil_id", "ticket"))
    return ("loads" if is_load else "day"), ()


def _surface_of(job: OpenJob, pass_id: str) -> tuple[tuple[str, str], ...]:
    """Surface on which a pass was cut."""
    cut = job.state.latest(PASS, pass_id)
    return (("surface_id", cut.surface_id),) if cut is not None else ()


def _given(field: str, last: AnyEntry | None, finding: Finding) -> tuple[tuple[str, str], ...]:
    name = str(finding.facts.get(field, ""))
    if not name and last is not None:
        name = _NAMED[field](last.body)
    return ((field, name),) if name else ()


def _entry_row(job: OpenJob, entry: AnyEntry) -> DayRow:
    at = day_and_time(entry.day, local_time(entry), job.figures.is_us)
    at = f"{at}  {entry.author}".strip()
    is_struck = job.state.is_struck(entry.id)
    return DayRow(entry.id, entry_line(entry, job.figures), at, is_struck=is_struck)


def _answered(entry: Entry[Disposition], is_us: bool) -> str:
    body = entry.body
    answer = say(ANSWER_WORDS[body.answer])
    return say(
        "{answer} by {author}, {day}: {why}",
        answer=answer,
        author=entry.author or say("nobody named"),
        day=full_day(entry.day, is_us),
        why=body.why,
    )


def _lapsed(entry: Entry[Disposition], is_us: bool) -> str:
    answer = _answered(entry, is_us)
    return say("{answer}. It then read: {said}", answer=answer, said=entry.body.said)
