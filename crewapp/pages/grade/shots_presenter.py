"""The shots of a collector as written, newest first, struck ones among them."""

from __future__ import annotations

from crewapp.job.open_job import OpenJob
from crewapp.pages.grade.presenter import verdict_of
from crewapp.pages.grade.shots_view import ShotRow, ShotsView
from crewapp.pages.grade.view import ON_WORDS
from crewapp.pages.lines.undo_presenter import local_time
from crewapp.words.dates import day_and_time
from crewapp.words.translate import say
from models.entries.bodies.levels import CheckShot, GradeShot, LaserSetup, TurningPoint
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, SETUP

_LEVELS = (CheckShot, LaserSetup, TurningPoint)


def shots_view(job: OpenJob, collector_id: str = "") -> ShotsView:
    """Read every reading that belongs to a collector."""
    collector = job.state.latest(COLLECTOR, collector_id)
    if not isinstance(collector, Collector):
        return ShotsView(collector_id, job.figures)
    found = [
        row
        for entry in job.state.entries_in_order()
        if (row := _row(job, collector, entry)) is not None
    ]
    return ShotsView(
        collector_id,
        job.figures,
        tuple(row for _, row in sorted(found, key=lambda one: one[0], reverse=True)),
    )


def _row(
    job: OpenJob, collector: Collector, entry: AnyEntry
) -> tuple[tuple[int, str], ShotRow] | None:
    body = entry.body
    if isinstance(body, GradeShot) and body.collector_id == collector.collector_id:
        return (entry.lc, entry.id), _shot_row(job, collector, entry, body)
    if isinstance(body, _LEVELS) and _serves(job, body, collector.collector_id):
        return (entry.lc, entry.id), _level_row(job, entry, body)
    return None


def _serves(job: OpenJob, body: CheckShot | LaserSetup | TurningPoint, collector_id: str) -> bool:
    setup = body if isinstance(body, LaserSetup) else job.state.latest(SETUP, body.setup_id)
    return isinstance(setup, LaserSetup) and setup.collector_id in {"", collector_id}


def _shot_row(job: OpenJob, collector: Collector, entry: AnyEntry, shot: GradeShot) -> ShotRow:
    is_struck = job.state.is_struck(entry.id)
    verdict = verdict_of(job, collector, shot)
    return ShotRow(
        key=entry.id,
        title=say(
            "{station} {what}",
            station=job.figures.station(shot.station_nm),
            what=say(ON_WORDS[shot.on]),
        ),
        detail=_why(job, entry) if is_struck else verdict.short,
        figure=job.figures.level(shot.reading_nm),
        status="" if is_struck else verdict.status,
        is_struck=is_struck,
    )


def _level_row(
    job: OpenJob, entry: AnyEntry, body: CheckShot | LaserSetup | TurningPoint
) -> ShotRow:
    if isinstance(body, LaserSetup):
        title = say("{setup} on {point}", setup=body.setup_id, point=body.on_point)
        nm, what = body.backsight_nm, say("backsight")
    elif isinstance(body, TurningPoint):
        title, nm = (
            say("{point} from {setup}", point=body.point_id, setup=body.setup_id),
            (body.foresight_nm),
        )
        what = say("foresight")
    else:
        title = say("{setup} check on {point}", setup=body.setup_id, point=body.on_point)
        nm, what = body.reading_nm, say("check shot")
    is_struck = job.state.is_struck(entry.id)
    at = day_and_time(entry.day, local_time(entry), job.figures.is_us)
    return ShotRow(
        key=entry.id,
        title=title,
        detail=_why(job, entry) if is_struck else f"{what}, {at}",
        figure="" if nm is None else job.figures.level(nm),
        is_struck=is_struck,
        kind=entry.kind,
    )


def _why(job: OpenJob, entry: AnyEntry) -> str:
    """Say why an entry was struck."""
    by = job.state.strikers_of(entry)
    reason = by[0].reason if by else ""
    return say("struck: {why}", why=reason)
