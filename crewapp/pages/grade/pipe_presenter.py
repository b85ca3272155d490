"""Reads what the shots mean for the pipe: fall since the last one, low places, re-laying."""

from __future__ import annotations

from fractions import Fraction

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.grade.view import PipeAdvice
from crewapp.words.translate import say, translate_later
from models.entries.bodies.levels import GradeShot
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.queries.grade.laid_pipe import (
    Fault,
    LaidPipe,
    LaidReach,
    NewestShot,
    inverts,
    laid_pipe,
    least_grade,
    newest_shots,
)
from models.queries.grade.relay_advice import Move, RelayAdvice, relay_advice
from models.queries.levelling.elevations import stationing_of
from models.science.grade.bellies import Belly
from models.science.grade.reach_grade import (
    NOT_ADVERSE,
    GradeLimits,
    judge_grade,
    length_to_tell_nm,
)
from models.science.levelling.laser_plane import Length
from models.science.quality.verdict import Verdict
from models.units import round_half_even
from models.units.job_units import Figures

NO_WAY = (
    translate_later("this point is fixed and out of tolerance"),
    translate_later("both points are fixed and the grade between them is out of limits"),
    translate_later("no grade within limits ends within tolerance of the design at the head"),
)
_PIPE = frozenset({"invert", "obvert"})


def story_of(job: OpenJob, collector: Collector, entry: AnyEntry) -> tuple[str, ...]:
    """Say how the last shot follows from its neighbour: fall, grade, and what that means."""
    shot = entry.body
    if not isinstance(shot, GradeShot):
        return ()
    neighbour, own = _neighbour(job, collector, entry, shot)
    if neighbour is None or own is None:
        return ()
    low, high = sorted((own, neighbour), key=lambda one: one.station_nm)
    fall_nm = stationing_of(collector).climb * (high.level_nm - low.level_nm)
    length_nm = high.station_nm - low.station_nm
    error_nm = max(low.error_nm, high.error_nm)
    lines = [_fall_words(job.figures, neighbour.station_nm, fall_nm, length_nm)]
    if shot.on in _PIPE:
        limits = GradeLimits(least=least_grade(collector.design))
        lines.append(grade_words(job.figures, fall_nm, length_nm, limits, error_nm))
    return tuple(line for line in lines if line)


def _neighbour(
    job: OpenJob, collector: Collector, entry: AnyEntry, shot: GradeShot
) -> tuple[NewestShot | None, NewestShot | None]:
    """Find the shot beside this one on the same thing, the one shot last if there are two."""
    if shot.on in _PIPE:
        row = inverts(job.state, collector.collector_id, collector.design.bore_nm)
    else:
        found = newest_shots(job.state, collector.collector_id).get(shot.on, {})
        row = [found[station] for station in sorted(found)]
    place = next((n for n, one in enumerate(row) if one.entry.id == entry.id), None)
    if place is None:
        return None, None
    beside = row[max(place - 1, 0) : place] + row[place + 1 : place + 2]
    newest = max(beside, key=lambda one: job.state.place_of(one.entry), default=None)
    return newest, row[place]


def _fall_words(figures: Figures, since_nm: int, fall_nm: Length, length_nm: int) -> str:
    """Say the fall since the neighbour and the grade it makes."""
    since, rise = figures.station(since_nm), figures.rise(round(fall_nm))
    length = figures.length(length_nm)
    if fall_nm < 0:
        return say(
            "From {since} it rises {rise} the wrong way in {length}.",
            since=since,
            rise=rise,
            length=length,
        )
    ppm = Fraction(fall_nm) * 1_000_000 / length_nm
    return say(
        "Fall from {since}: {rise} in {length}, {grade}.",
        since=since,
        rise=rise,
        length=length,
        grade=figures.grade(round(ppm)),
    )


def grade_words(
    figures: Figures, fall_nm: Length, length_nm: int, limits: GradeLimits, error_nm: int
) -> str:
    """Say whether the grade holds, or how far on the next shot must be to tell."""
    verdict = judge_grade(fall_nm, length_nm, limits, error_nm)
    least = limits.least or Fraction(0)
    if verdict is Verdict.OK:
        return ""
    if judge_grade(fall_nm, length_nm, NOT_ADVERSE, error_nm) is Verdict.OUT:
        return say("It runs backward here: lift the head end or lower the outlet end.")
    if verdict is Verdict.OUT:
        return say("Flatter than {grade}.", grade=figures.grade(_ppm(least)))
    margin = abs(Fraction(fall_nm) - least * length_nm) / length_nm
    if not margin:
        return say("Too short to tell: exactly on the least grade.")
    needed = figures.length(length_to_tell_nm(margin, error_nm))
    return say("Too short to tell: shoot at least {length} on.", length=needed)


def _ppm(grade: Length) -> int:
    return round(grade * 1_000_000)


def pipe_advice(job: OpenJob, collector_id: str) -> tuple[PipeAdvice, ...]:
    """Name every low place and bad reach, and the least that has to be laid again."""
    pipe = laid_pipe(job.state, collector_id)
    if pipe is None:
        return ()
    figures = job.figures
    found = [_belly(figures, belly) for belly in pipe.bellies]
    found += [told for reach in pipe.reaches if (told := _reach(figures, pipe, reach))]
    plan = relay_advice(job.state, collector_id)
    if plan is not None and plan.is_needed:
        found += _relay(figures, plan)
    return tuple(found)


def _belly(figures: Figures, belly: Belly) -> PipeAdvice:
    return PipeAdvice(
        say(
            "Belly {low} to {high}",
            low=figures.station(belly.start_nm),
            high=figures.station(belly.end_nm),
        ),
        say(
            "holds {depth} of water, {amount}",
            depth=figures.rise(round(belly.depth_nm)),
            amount=figures.water(belly.volume_pl),
        ),
    )


def _reach(figures: Figures, pipe: LaidPipe, reach: LaidReach) -> PipeAdvice | None:
    """Name a reach that is at fault in itself; ends off grade are told by their shots."""
    low = figures.station(reach.low.at.station_nm)
    high = figures.station(reach.high.at.station_nm)
    if reach.fault is Fault.ADVERSE:
        rise = figures.rise(round(reach.fall_nm))
        return PipeAdvice(
            say("Runs backward {low} to {high}", low=low, high=high),
            say("{rise} the wrong way", rise=rise),
        )
    if reach.fault is Fault.FLAT:
        least = figures.grade(_ppm(pipe.least_grade))
        return PipeAdvice(
            say("Too flat {low} to {high}", low=low, high=high),
            say("less than {grade}", grade=least),
        )
    if reach.fault is Fault.TOO_SHORT:
        return PipeAdvice(
            say("Too short to tell {low} to {high}", low=low, high=high),
            grade_words(
                figures,
                reach.fall_nm,
                reach.length_nm,
                GradeLimits(least=pipe.least_grade),
                reach.error_nm,
            ),
            Status.CHECK,
        )
    return None


def _relay(figures: Figures, plan: RelayAdvice) -> list[PipeAdvice]:
    """Say what to lift and what to lower, station by station."""
    if plan.no_way:
        low, high = plan.stuck_nm or (0, 0)
        where = say("{low} to {high}", low=figures.station(low), high=figures.station(high))
        return [PipeAdvice(say("No re-lay will do: {where}", where=where), say(plan.no_way))]
    length = figures.length(plan.disturbed_nm)
    moves = sorted((*plan.lift, *plan.lower), key=lambda move: move.station_nm)
    return [
        PipeAdvice(
            say("Least re-lay: {length} of pipe comes up", length=length),
            say(
                "into limits, not to design; moved: {moved}, kept: {kept}",
                moved=len(moves),
                kept=len(plan.keep_nm),
            ),
            Status.CHECK,
        ),
        *(_move(figures, move) for move in moves),
    ]


def _move(figures: Figures, move: Move) -> PipeAdvice:
    template = (
        translate_later("Lift {station} by {rise}")
        if move.rise_nm > 0
        else translate_later("Lower {station} by {rise}")
    )
    rise = round_half_even(abs(move.rise_nm), 1)
    text = say(template, station=figures.station(move.station_nm), rise=figures.rise(rise))
    return PipeAdvice(text, "", Status.CHECK)
