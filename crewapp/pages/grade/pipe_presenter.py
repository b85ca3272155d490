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
    LaidBelly,
    LaidPipe,
    LaidReach,
    NewestShot,
    inverts,
    laid_pipe,
    least_grade,
    length_that_proves,
    newest_shots,
    prove,
)
from models.queries.grade.relay_advice import Move, RelayAdvice, relay_answers
from models.queries.levelling.elevations import stationing_of
from models.science.grade.reach_grade import GradeLimits, margin_nm
from models.science.levelling.laser_plane import Length
from models.science.levelling.uncertainty import PLANE_ASEC10
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
    lines = [_fall_words(job.figures, neighbour.station_nm, fall_nm, length_nm)]
    if shot.on in _PIPE:
        lines += grade_words(job, low, high, fall_nm, least_grade(collector.design))
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
    job: OpenJob, low: NewestShot, high: NewestShot, fall_nm: Length, least: Fraction
) -> list[str]:
    """Say whether the grade holds, and what would prove it where the readings don't."""
    length_nm = high.station_nm - low.station_nm
    margin = margin_nm(fall_nm, length_nm, GradeLimits(least=least))
    proof = prove(job.state, margin, high, low)
    flat = job.figures.grade(_ppm(least))
    if proof.verdict is Verdict.OK:
        return []
    if fall_nm < 0 and prove(job.state, fall_nm, high, low).verdict is Verdict.OUT:
        return [say("It runs backward here: lift the head end or lower the outlet end.")]
    if proof.verdict is Verdict.OUT:
        return [say("Flatter than {grade}.", grade=flat)]
    proving = _proving_words(job, Fraction(margin) / length_nm, low, high)
    if proof.verdict is Verdict.WITHIN:
        words = [say("OK as read, not proven: {proving}", proving=proving)]
    elif fall_nm < 0:
        words = [say("Backward as read: {proving}", proving=proving)]
    else:
        words = [say("Flatter than {grade} as read: {proving}", grade=flat, proving=proving)]
    return words if proof.is_stated else [*words, assumed_words()]


def _proving_words(job: OpenJob, margin: Fraction, low: NewestShot, high: NewestShot) -> str:
    """Say what would prove on which side of its limit a reach lies."""
    if low.errors != high.errors:
        return say("shoot both ends from one setup.")
    needed_nm = length_that_proves(job.state, margin, low, high)
    if needed_nm is None:
        return say("it is too near the least grade for any reach to tell.")
    return say("shoot at least {length} on.", length=job.figures.length(needed_nm))


def assumed_words() -> str:
    """Say what the laser is taken for where its error is not written down."""
    return say("The laser is taken as good to {seconds} arc seconds.", seconds=PLANE_ASEC10 // 10)


def _ppm(grade: Length) -> int:
    return round(grade * 1_000_000)


def pipe_advice(job: OpenJob, collector_id: str) -> tuple[PipeAdvice, ...]:
    """Name every low place and bad reach, and the least that has to be laid again."""
    pipe = laid_pipe(job.state, collector_id)
    if pipe is None:
        return ()
    figures = job.figures
    found = [_belly(figures, belly) for belly in pipe.bellies]
    found += [told for reach in pipe.reaches if (told := _reach(job, pipe, reach))]
    answers = relay_answers(job.state, collector_id)
    if answers and answers[-1].is_needed:
        found += _refused(figures, answers)
        found += _relay(figures, answers[-1])
    return tuple(found)


def _belly(figures: Figures, laid: LaidBelly) -> PipeAdvice:
    belly, is_proven = laid.belly, laid.proof.verdict is Verdict.OUT
    template = (
        translate_later("Belly {low} to {high}")
        if is_proven
        else translate_later("Belly as read {low} to {high}: shoot again")
    )
    return PipeAdvice(
        say(template, low=figures.station(belly.start_nm), high=figures.station(belly.end_nm)),
        say(
            "holds {depth} of water, {amount}",
            depth=figures.rise(round(belly.depth_nm)),
            amount=figures.water(belly.volume_pl),
        ),
        Status.OUT if is_proven else Status.CHECK,
    )


def _reach(job: OpenJob, pipe: LaidPipe, reach: LaidReach) -> PipeAdvice | None:
    """Name a reach that is at fault in itself; ends off grade are told by their shots."""
    figures, is_proven = job.figures, reach.proof.verdict is Verdict.OUT
    ends = {
        "low": figures.station(reach.low.at.station_nm),
        "high": figures.station(reach.high.at.station_nm),
    }
    status = Status.OUT if is_proven else Status.CHECK
    if reach.fault is Fault.ADVERSE:
        title = (
            translate_later("Runs backward {low} to {high}")
            if is_proven
            else translate_later("Backward as read {low} to {high}: shoot again")
        )
        rise = figures.rise(round(reach.fall_nm))
        return PipeAdvice(say(title, **ends), say("{rise} the wrong way", rise=rise), status)
    if reach.fault is Fault.FLAT:
        title = (
            translate_later("Too flat {low} to {high}")
            if is_proven
            else translate_later("Too flat as read {low} to {high}: shoot again")
        )
        least = figures.grade(_ppm(pipe.least_grade))
        return PipeAdvice(say(title, **ends), say("less than {grade}", grade=least), status)
    if reach.fault is Fault.TOO_SHORT:
        margin = reach.fall_nm - pipe.least_grade * reach.length_nm
        detail = _proving_words(
            job, Fraction(margin) / reach.length_nm, reach.low.at, reach.high.at
        )
        return PipeAdvice(say("OK as read {low} to {high}", **ends), detail, Status.OK)
    return None


def _refused(figures: Figures, answers: list[RelayAdvice]) -> list[PipeAdvice]:
    """Say what no re-lay could leave, where one that leaves less would do."""
    found = []
    for answer in answers[:-1] if not answers[-1].no_way else ():
        title = (
            translate_later("No re-lay leaves all that is covered: {where}")
            if answer.leaves == "covered"
            else translate_later("No re-lay leaves every joint: {where}")
        )
        low, high = answer.stuck_nm or (0, 0)
        where = say("{low} to {high}", low=figures.station(low), high=figures.station(high))
        found.append(PipeAdvice(say(title, where=where), say(answer.no_way), Status.CHECK))
    return found


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
        *_costs(figures, plan),
        *(_move(figures, move) for move in moves),
    ]


def _costs(figures: Figures, plan: RelayAdvice) -> list[PipeAdvice]:
    """Say what a re-lay opens again, and which joints it undoes."""
    found = []
    if plan.opens_nm:
        length = figures.length(plan.opens_nm)
        found.append(PipeAdvice(say("This opens {length} that is covered", length=length)))
    if plan.joints:
        names = ", ".join(plan.joints)
        found.append(PipeAdvice(say("Joints to be made again: {names}", names=names)))
    return found


def _move(figures: Figures, move: Move) -> PipeAdvice:
    template = (
        translate_later("Lift {station} by {rise}")
        if move.rise_nm > 0
        else translate_later("Lower {station} by {rise}")
    )
    rise = round_half_even(abs(move.rise_nm), 1)
    text = say(template, station=figures.station(move.station_nm), rise=figures.rise(rise))
    return PipeAdvice(text, "", Status.CHECK)
