"""The go-aheads in words: locate ticket before a cut, protection before a trench is entered."""

from __future__ import annotations

from crewapp.job.open_job import OpenJob
from crewapp.kit.input.list_rows import shorten
from crewapp.kit.look.palette import Status
from crewapp.pages.go_ahead.view import LOCATE, TRENCH, GoAheadView
from crewapp.words.dates import full_day, without_year
from crewapp.words.translate import say
from models.checks.safety.go_ahead import (
    Answer,
    DigGoAhead,
    DigReason,
    TrenchGoAhead,
    TrenchReason,
    dig_go_ahead,
    trench_go_ahead,
)

_STATUS = {Answer.YES: Status.OK, Answer.LOOK: Status.CHECK, Answer.NO: Status.OUT}
_LONGEST = 30


def cutting_view(job: OpenJob, surface_id: str, name: str) -> GoAheadView:
    """Whether the next pass may be cut on a surface today."""
    found = dig_go_ahead(job.state, surface_id, job.clock.now().day)
    return _dig(job, found, surface_id, name, say("Good to cut"), say("Do not cut yet"))


def digging_view(job: OpenJob, collector_id: str) -> GoAheadView:
    """Whether the trench of a collector may be opened today."""
    found = dig_go_ahead(job.state, collector_id, job.clock.now().day)
    return _dig(job, found, collector_id, collector_id, say("Good to dig"), say("Do not dig yet"))


def _dig(
    job: OpenJob, found: DigGoAhead, place: str, name: str, good: str, not_yet: str
) -> GoAheadView:
    if found.answer is Answer.NO:
        title = not_yet
    else:
        title = say("Ticket missing") if found.why is DigReason.GONE_ON else good
    return GoAheadView(
        LOCATE,
        place,
        _STATUS[found.answer],
        title,
        _dig_words(job, found, shorten(name, _LONGEST)),
        say("Add the ticket"),
    )


def _dig_words(job: OpenJob, found: DigGoAhead, name: str) -> str:
    day = full_day(found.on, job.figures.is_us)
    if found.why is DigReason.GONE_ON:
        return found.reason
    if found.why is DigReason.ENDS_SOON:
        if not found.days_left:
            return say("last day: renew it")
        return say("ends {day}: renew it", day=without_year(found.on))
    if found.why is DigReason.IN_DATE:
        return say("ticket to {day}", day=without_year(found.on))
    if found.why is DigReason.RAN_OUT:
        return say("The locate ticket for {place} ended {day}.", place=name, day=day)
    if found.why is DigReason.NOT_YET:
        return say("The locate ticket for {place} begins {day}.", place=name, day=day)
    return say("No locate ticket covers {place}.", place=name)


def trench_view(job: OpenJob, collector_id: str) -> GoAheadView:
    """Whether the trench of a collector may be entered today."""
    found = trench_go_ahead(job.state, collector_id, job.clock.now().day)
    title, text = _trench_words(job, found)
    status = _STATUS[found.answer]
    if found.why is TrenchReason.SHALLOW:
        status = Status.NOT_MEASURED  # less than the limit is no leave to climb in
    return GoAheadView(
        TRENCH,
        collector_id,
        status,
        title,
        text,
        say("Note protection"),
        found.from_nm,
        found.to_nm,
    )


def _trench_words(job: OpenJob, found: TrenchGoAhead) -> tuple[str, str]:
    depth, limit = job.figures.show_distinct("rise", [round(found.depth_nm), found.limit_nm])
    station = job.figures.station(found.station_nm)
    if found.why is TrenchReason.BARE:
        text = say("{depth} deep at {station}, nothing noted.", depth=depth, station=station)
        return say("Do not enter"), text
    if found.why is TrenchReason.GONE_ON:
        return say("Nobody enters"), found.reason
    if found.why is TrenchReason.LOOK_AGAIN:
        text = say(
            "Judged {day}: judged again each day.", day=full_day(found.on, job.figures.is_us)
        )
        return say("Judge the trench"), text
    if found.why is TrenchReason.PLANNED_DEEP:
        text = say("From {station} on: planned {depth} deep.", depth=depth, station=station)
        return say("Protect as you dig"), text
    if found.why is TrenchReason.NOT_KNOWN:
        text = say("No ground level at {station}.", station=station)
        return say("Depth not known"), text
    if found.why is TrenchReason.PLAN_NOT_KNOWN:
        return say("Depth not known"), say("No ground level in the plan.")
    if found.why is TrenchReason.PROTECTED:
        return say("Trench"), say("{depth} deep, protection noted today.", depth=depth)
    text = say("Under {limit}; a competent person looks each day.", limit=limit)
    return say("Trench"), text
