"""Faults of a day: flags with their answers, struck readings, and what needs the owner."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from models.checks.finding import Severity
from models.checks.finding_text import sentence
from models.checks.flag_board import Flag, FlagBoard
from models.checks.registry import BY_ID
from models.entries.bodies.day import Disposition, Note, Struck, Tomorrow
from models.entries.bodies.job import LocateTicket
from models.entries.envelope import AnyEntry
from models.entries.id_fields import body_reason
from models.entries.kind_names import LOCATE_TICKET
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.day.facts.slits import current_of
from sync.papers.wording.entry_text import details_of, title_of
from sync.papers.wording.measures import plain_day

EXPIRES_SOON_DAYS = 2
_ANSWERS = {"accept": "accepted as is", "rework": "to be reworked", "waive": "waived"}


@dataclass(frozen=True, slots=True)
class FlagLine:
    """A flag and its answer; ``answer`` is empty while the flag is open."""

    severity: Severity
    key: str
    check: str
    problem: str
    day: str
    said: str
    cure: str
    answer: str
    by: str
    why: str

    @property
    def is_open(self) -> bool:
        """Whether nobody has answered it."""
        return not self.answer


@dataclass(frozen=True, slots=True)
class StruckLine:
    """An entry of the day that was crossed out, with the reason and what replaces it."""

    at: str
    kind: str
    said: str
    reason: str
    by: str
    instead: str


@dataclass(frozen=True, slots=True)
class Need:
    """A thing that the owner must decide, give or know."""

    kind: str
    said: str


def flags_of(board: FlagBoard, figures: Figures, day: str) -> tuple[FlagLine, ...]:
    """Flags of the day, and older ones that still stand open, worst first."""
    return tuple(
        _flag_line(flag, figures)
        for flag in board.flags()
        if flag.finding.day == day
        or (flag.answer is None and flag.finding.day < day)
        or (flag.answer is not None and flag.answer.day == day)
    )


def _flag_line(flag: Flag, figures: Figures) -> FlagLine:
    finding = flag.finding
    answer = flag.answer.body if flag.answer else None
    given = answer if isinstance(answer, Disposition) else None
    return FlagLine(
        severity=flag.severity,
        key=finding.key,
        check=finding.check,
        problem=BY_ID[finding.check].problem,
        day=finding.day,
        said=sentence(finding, figures),
        cure=BY_ID[finding.check].cure_of(finding),
        answer=_ANSWERS[given.answer] if given else "",
        by=(flag.answer.author or "nobody named") if flag.answer and given else "",
        why=given.why if given else "",
    )


def struck_of(
    state: JobState, figures: Figures, day: str, time_of: dict[str, str]
) -> tuple[StruckLine, ...]:
    """Entries of the day that are crossed out, in the order of the book."""
    return tuple(
        _struck_line(state, figures, entry, time_of)
        for entry in state.days.get(day, ())
        if state.is_struck(entry.id)
    )


def _struck_line(
    state: JobState, figures: Figures, entry: AnyEntry, time_of: dict[str, str]
) -> StruckLine:
    strikers = [state.entries[by] for by in state.struck_by[entry.id] if by in state.entries]
    instead = [one for one in strikers if not isinstance(one.body, Struck)]
    return StruckLine(
        at=time_of.get(entry.id, ""),
        kind=title_of(entry.kind),
        said=details_of(entry, figures),
        reason="; ".join(dict.fromkeys(reason_of(one) for one in strikers)),
        by=", ".join(dict.fromkeys(one.author for one in strikers)),
        instead="; ".join(details_of(one, figures) for one in instead),
    )


def reason_of(striker: AnyEntry) -> str:
    """Why an entry strikes others, as written in it or in its body."""
    return striker.reason or body_reason(striker.body) or "no reason given"


def needs_of(
    state: JobState, figures: Figures, day: str, flags: tuple[FlagLine, ...]
) -> tuple[Need, ...]:
    """Things that the owner must decide, give or know, most pressing first."""
    notes = [entry.body for entry in _standing(state, day) if isinstance(entry.body, Note)]
    tomorrow = [e.body for e in _standing(state, day) if isinstance(e.body, Tomorrow)]
    return (
        *(Need("Decide", note.text) for note in notes if note.needs_owner),
        *_stops(flags),
        *_tickets(state, figures, day),
        *(Need("Keep clear", plan.must_be_clear) for plan in tomorrow[-1:] if plan.must_be_clear),
    )


def _stops(flags: tuple[FlagLine, ...]) -> list[Need]:
    """Open flags that stop the work, those of one kind together."""
    stops = [flag for flag in flags if flag.is_open and flag.severity is Severity.STOP]
    found = []
    for check in dict.fromkeys(flag.check for flag in stops):
        alike = [flag for flag in stops if flag.check == check]
        said = alike[0].said
        if len(alike) > 1:
            said = f"{alike[0].problem.rstrip('.')}, {len(alike)} times. First: {said}"
        found.append(Need("Work stopped", said))
    return found


def _standing(state: JobState, day: str) -> list[AnyEntry]:
    return [entry for entry in state.days.get(day, ()) if not state.is_struck(entry.id)]


def _tickets(state: JobState, figures: Figures, day: str) -> list[Need]:
    """Locate tickets that have run out or are about to, unless a newer one follows."""
    tickets = [entry.body for entry in current_of(state, LOCATE_TICKET)]
    found = []
    for ticket in tickets:
        left = (date.fromisoformat(ticket.expires_on) - date.fromisoformat(day)).days
        if left > EXPIRES_SOON_DAYS or _is_followed(ticket, tickets):
            continue
        word = "ran out" if left < 0 else "runs out"
        when = plain_day(ticket.expires_on, figures.is_us)
        found.append(Need("Locate ticket", f"{ticket.ticket} {word} {when}: no digging after"))
    return found


def _is_followed(ticket: LocateTicket, tickets: list[LocateTicket]) -> bool:
    return any(
        other.expires_on > ticket.expires_on
        and (
            not other.surfaces
            or (bool(ticket.surfaces) and {*ticket.surfaces} <= {*other.surfaces})
        )
        for other in tickets
    )
