"""Go-aheads that guard people: whether ground may be opened, and a trench entered.

A go-ahead is asked before the act; the flag that a check raises afterwards stays as it
is. No ticket in date is no digging, and no protection noted is no entering. Whoever goes
on anyway says why, and the reason is inked; it holds for that place and that day, and
what is missing stays told. Local codes and a competent person come first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from models.checks.safety.check_locate_ticket_about_to_expire import DAYS_AHEAD
from models.checks.safety.locate_cover import begun_by, covers, newest_tickets
from models.entries.bodies.collector_work import TrenchProtection
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, GO_AHEAD, TRENCH_PROTECTION
from models.queries.grade.trench_depth import (
    PlannedTrench,
    ShotDepth,
    planned_trench,
    protection_limit_nm,
    protects,
    shot_depths,
)
from models.science.levelling.laser_plane import Length
from models.state.job_state import JobState


class Answer(StrEnum):
    """Answer of a go-ahead: yes, look first, or no."""

    YES = "yes"
    LOOK = "look"
    NO = "no"


class DigReason(StrEnum):
    """Reason why ground may be opened or not."""

    IN_DATE = "a ticket is in date"
    ENDS_SOON = "it ends within days"
    NONE = "no ticket covers the place"
    NOT_YET = "its first day has not come"
    RAN_OUT = "its last day is over"
    GONE_ON = "gone on without a ticket, with a reason"


@dataclass(frozen=True, slots=True)
class DigGoAhead:
    """Whether ground may be opened at a place; ``on`` is the day that ``why`` speaks of."""

    answer: Answer
    why: DigReason
    ticket: str = ""
    on: str = ""
    days_left: int = 0
    reason: str = ""


class TrenchReason(StrEnum):
    """Reason why a trench may be entered or not."""

    SHALLOW = "less deep than the limit"
    PROTECTED = "protection noted today"
    BARE = "deep, and no protection noted"
    GONE_ON = "gone on without protection, with a reason"
    LOOK_AGAIN = "protection noted on an earlier day"
    NOT_KNOWN = "ground over a floor that was shot is not known"
    PLANNED_DEEP = "deep as planned, not dug yet"
    PLAN_NOT_KNOWN = "depth as planned is not known"


@dataclass(frozen=True, slots=True)
class TrenchGoAhead:
    """Whether a collector's trench may be entered, the worst place named; lengths are in nm.

    ``from_nm`` to ``to_nm`` is the stretch that protection is missing for: from the first
    to the last such station, and on to their neighbours a shot away.
    """

    answer: Answer
    why: TrenchReason
    station_nm: int = 0
    depth_nm: Length = 0
    limit_nm: int = 0
    on: str = ""
    reason: str = ""
    from_nm: int = 0
    to_nm: int = 0


def dig_go_ahead(state: JobState, place: str, day: str) -> DigGoAhead:
    """Say whether ground may be opened at a surface or along a collector on a day."""
    begun = begun_by(state, day, place)
    last = max(begun, key=lambda one: (one.expires_on, one.ticket), default=None)
    if last is not None and day <= last.expires_on:
        left = (date.fromisoformat(last.expires_on) - date.fromisoformat(day)).days
        soon = left <= DAYS_AHEAD
        answer, why = (
            (Answer.LOOK, DigReason.ENDS_SOON) if soon else (Answer.YES, DigReason.IN_DATE)
        )
        return DigGoAhead(answer, why, last.ticket, last.expires_on, left)
    reason = _reason(state, place, "locate_ticket", day)
    if reason:
        return DigGoAhead(Answer.LOOK, DigReason.GONE_ON, reason=reason)
    if last is not None:
        return DigGoAhead(Answer.NO, DigReason.RAN_OUT, last.ticket, last.expires_on)
    coming = [one.body for one in newest_tickets(state) if covers(one.body, place)]
    first = min(coming, key=lambda one: (one.valid_from, one.ticket), default=None)
    if first is not None:
        return DigGoAhead(Answer.NO, DigReason.NOT_YET, first.ticket, first.valid_from)
    return DigGoAhead(Answer.NO, DigReason.NONE)


def trench_go_ahead(state: JobState, collector_id: str, day: str) -> TrenchGoAhead:
    """Say whether a collector's trench may be entered on a day, the worst place first."""
    collector = state.latest(COLLECTOR, collector_id)
    if not isinstance(collector, Collector):
        return TrenchGoAhead(Answer.LOOK, TrenchReason.PLAN_NOT_KNOWN)
    found = shot_depths(state, collector_id)
    noted = state.current(TRENCH_PROTECTION, collector_id)
    return _as_found(state, collector, found, noted, day) or _as_dug(state, collector, found, noted)


def _as_found(
    state: JobState,
    collector: Collector,
    found: Sequence[ShotDepth],
    noted: Sequence[AnyEntry],
    day: str,
) -> TrenchGoAhead | None:
    """What stands against entering the trench as its shots show it."""
    deep = _deep(collector, found)
    bare = [one for one in deep if not _noted_for(one, noted)]
    if bare:
        reason = _reason(state, collector.collector_id, "trench_protection", day)
        why = TrenchReason.GONE_ON if reason else TrenchReason.BARE
        return _at(why, collector, bare, reason=reason)
    unknown = next((one for one in found if one.depth_nm is None), None)
    if unknown is not None:
        return TrenchGoAhead(Answer.LOOK, TrenchReason.NOT_KNOWN, unknown.station_nm)
    stale = [one for one in deep if not _noted_for(one, [n for n in noted if n.day == day])]
    if stale:
        return _at(TrenchReason.LOOK_AGAIN, collector, stale, on=max(one.day for one in noted))
    return None


def _as_dug(
    state: JobState, collector: Collector, found: Sequence[ShotDepth], noted: Sequence[AnyEntry]
) -> TrenchGoAhead:
    """What the plan warns of ahead of the shots; else how deep it was found."""
    ahead = _as_planned(planned_trench(state, collector), noted, found)
    deep = _deep(collector, found)
    if ahead is not None:
        return ahead
    if found:
        why = TrenchReason.PROTECTED if deep else TrenchReason.SHALLOW
        return _at(why, collector, deep or found)
    limit_nm = protection_limit_nm(collector.design)
    return TrenchGoAhead(Answer.YES, TrenchReason.SHALLOW, limit_nm=limit_nm)


def _deep(collector: Collector, found: Sequence[ShotDepth]) -> list[ShotDepth]:
    limit_nm = protection_limit_nm(collector.design)
    return [one for one in found if one.depth_nm is not None and one.depth_nm >= limit_nm]


def _as_planned(
    plan: PlannedTrench, noted: Sequence[AnyEntry], found: Sequence[ShotDepth]
) -> TrenchGoAhead | None:
    """What the plan warns of where nothing is shot or noted yet."""
    for deep in plan.deep:
        is_shot = any(deep.from_nm <= one.station_nm <= deep.to_nm for one in found)
        is_noted = any(
            isinstance(one.body, TrenchProtection)
            and protects(one.body, deep.at_nm, deep.deepest_nm)
            for one in noted
        )
        if not is_shot and not is_noted:
            return TrenchGoAhead(
                Answer.LOOK,
                TrenchReason.PLANNED_DEEP,
                deep.from_nm,
                deep.deepest_nm,
                plan.limit_nm,
                from_nm=deep.from_nm,
                to_nm=deep.to_nm,
            )
    if plan.unknown and not found:
        return TrenchGoAhead(Answer.LOOK, TrenchReason.PLAN_NOT_KNOWN, plan.unknown[0][0])
    return None


def _noted_for(deep: ShotDepth, noted: Sequence[AnyEntry]) -> bool:
    return any(
        isinstance(one.body, TrenchProtection)
        and protects(one.body, deep.station_nm, deep.depth_nm or 0)
        for one in noted
    )


_ANSWERS = {
    TrenchReason.BARE: Answer.NO,
    TrenchReason.GONE_ON: Answer.LOOK,
    TrenchReason.LOOK_AGAIN: Answer.LOOK,
    TrenchReason.PROTECTED: Answer.YES,
    TrenchReason.SHALLOW: Answer.YES,
}


def _at(
    why: TrenchReason,
    collector: Collector,
    depths: Sequence[ShotDepth],
    on: str = "",
    reason: str = "",
) -> TrenchGoAhead:
    """Name the deepest of some stations, and the stretch that they lie in."""
    design = collector.design
    deepest = max(depths, key=lambda one: one.depth_nm or 0)
    stations = [one.station_nm for one in depths]
    last_nm = design.start_nm + design.length_nm
    return TrenchGoAhead(
        _ANSWERS[why],
        why,
        deepest.station_nm,
        deepest.depth_nm or 0,
        protection_limit_nm(design),
        on,
        reason,
        max(min(stations) - design.shot_every_nm, design.start_nm),
        min(max(stations) + design.shot_every_nm, last_nm),
    )


def _reason(state: JobState, place: str, missing: str, day: str) -> str:
    """Reason given on a day for going on at a place without what is missing, or ""."""
    given = [
        one.body.reason
        for one in state.current(GO_AHEAD, place)
        if one.body.missing == missing and one.day == day
    ]
    return given[-1] if given else ""
