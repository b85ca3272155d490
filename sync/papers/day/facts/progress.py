"""Summary of a day sheet: a word for the day, how far the job is, four numbers."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from models.checks.finding import Severity
from models.counted import CountedNoun
from models.queries.schedule.forecast import Finish, progress
from models.queries.schedule.worked_days import worked_days
from models.science.quality.verdict import Verdict
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.day.facts.collector import ShotLine
from sync.papers.day.facts.flags import FlagLine
from sync.papers.day.facts.quantities import Quantity, SandToday, length_done
from sync.papers.day.facts.slits import PassLine
from sync.papers.wording.measures import percent, plain_day

LONGEST_FORECAST_DAYS = 1000
FINISHED = "finished"


class DayStatus(StrEnum):
    """Status of the day, in the words of every status."""

    OK = "OK"
    CHECK = "CHECK"
    OUT = "OUT"


@dataclass(frozen=True, slots=True)
class Bar:
    """Bar at the top: status with its reason, share done, and when it may be finished."""

    standing: DayStatus
    why: str
    done_nm: int
    today_nm: int
    planned_nm: int
    done_words: str
    finish: str
    basis: str


@dataclass(frozen=True, slots=True)
class BigNumber:
    """A number of the four large ones; ``standing`` is None where nothing is judged."""

    label: str
    value: str
    remark: str
    status: DayStatus | None = None


def bar_of(
    state: JobState,
    day: str,
    figures: Figures,
    flags: tuple[FlagLine, ...],
    quantities: tuple[Quantity, ...],
    passes: tuple[PassLine, ...],
    shots: tuple[ShotLine, ...],
) -> Bar:
    """Bar at the top of a day sheet, summing the day up."""
    today, done, planned = length_done(quantities)
    standing, why = _standing(flags, passes, shots)
    finish, basis = _forecast(state, day, figures, done, planned)
    words = "nothing planned yet"
    if planned:
        is_done = finish.startswith(FINISHED)
        share = "all" if is_done else percent(done, planned)
        words = f"{share} of the planned length done"
    return Bar(standing, why, done, min(today, done), planned, words, finish, basis)


def _standing(
    flags: tuple[FlagLine, ...], passes: tuple[PassLine, ...], shots: tuple[ShotLine, ...]
) -> tuple[DayStatus, str]:
    """OUT while work is stopped, CHECK while something is to be put right, else OK."""
    stops = sum(flag.is_open and flag.severity is Severity.STOP for flag in flags)
    if stops:
        return DayStatus.OUT, f"{CountedNoun(stops):flag stops|flags stop} the work"
    fixes = sum(flag.is_open and flag.severity is Severity.FIX for flag in flags)
    if fixes:
        return DayStatus.CHECK, f"{CountedNoun(fixes):thing|things} to put right"
    readings = [probe.verdict for cut in passes for probe in cut.probes_that_count()]
    readings += [shot.verdict for shot in shots]
    out = sum(verdict is Verdict.OUT for verdict in readings)
    answered = sum(not flag.is_open for flag in flags)
    if out and not answered:
        return DayStatus.CHECK, f"{CountedNoun(out):reading|readings} out of tolerance"
    if answered:
        return DayStatus.OK, f"all answered: {CountedNoun(answered):flag|flags}"
    judged = sum(verdict is Verdict.OK for verdict in readings)
    return DayStatus.OK, "every reading in tolerance" if judged else "nothing stands open"


def _forecast(
    state: JobState, day: str, figures: Figures, done_nm: int, planned_nm: int
) -> tuple[str, str]:
    """When the work may be finished, and what that rests on, in words."""
    job = state.job
    due = job.planned_finish if job and job.planned_finish else ""
    due_words = f"planned {plain_day(due, figures.is_us)}" if due else "no finish planned"
    worked = len(worked_days(state, day))
    if planned_nm and done_nm >= planned_nm:
        return f"{FINISHED}; {due_words}", "every planned length is done"
    if not worked or not done_nm or not planned_nm:
        return f"no forecast yet; {due_words}", "a forecast needs a plan and a day of work"
    told = progress(state, day)
    if told.is_done:
        short = figures.length(planned_nm - done_nm)
        basis = f"every planned line is done; tapes read {short} less than the plan in all"
        return f"{FINISHED}; {due_words}", basis
    if (planned_nm - done_nm) * worked > done_nm * LONGEST_FORECAST_DAYS:
        return f"no forecast yet; {due_words}", "too little is done to tell"
    if told.finish is None or told.finish.range.late_days > LONGEST_FORECAST_DAYS:
        return f"no forecast yet; {due_words}", "too little is done to tell"
    late = " (late)" if told.is_late else ""
    rate = figures.length(round(Fraction(done_nm, worked)))
    lost = f", {CountedNoun(told.lost_days):day|days} lost" if told.lost_days else ""
    basis = f"{rate} a day over {CountedNoun(worked):day|days} worked{lost}, {_drawn(told.finish)}"
    return f"finish {ends_between(told.finish, figures.is_us)}{late}; {due_words}", basis


def ends_between(finish: Finish, is_us: bool) -> str:
    """Days between which the work may end, the year written once."""
    last = plain_day(finish.late, is_us)
    if finish.early == finish.late:
        return last
    first = plain_day(finish.early, is_us)
    if finish.early[:4] == finish.late[:4]:
        first = first.removesuffix(finish.early[:4]).rstrip(", ")
    return f"{first} to {last}"


def _drawn(finish: Finish) -> str:
    """What the range rests on."""
    thin = "; few days yet" if finish.range.is_thin else ""
    return f"as these days went, 8 jobs in 10 end then{thin}"


def big_numbers(
    figures: Figures,
    quantities: tuple[Quantity, ...],
    sand: SandToday,
    passes: tuple[PassLine, ...],
) -> tuple[BigNumber, ...]:
    """The four large numbers: cut today, done to date, sand, probes."""
    today, done, planned = length_done(quantities)
    cut = sum(line.cut_nm for line in passes)
    laid = today - cut
    pipe = f"and {figures.length(laid)} of collector pipe" if laid else ""
    passes_cut = f"{CountedNoun(len(passes)):pass|passes}" if passes else "no pass today"
    plan = f"{figures.length(done)} of {figures.length(planned)}" if planned else "no plan"
    return (
        BigNumber("cut today", figures.length(cut), pipe or passes_cut),
        BigNumber("of plan to date", percent(done, planned), plan),
        _sand_number(figures, sand),
        _probe_number(passes),
    )


def _sand_number(figures: Figures, sand: SandToday) -> BigNumber:
    label = "of sand calculated"
    if not sand.is_comparable:
        return BigNumber(label, "-", "bulk density not weighed: cannot compare")
    placed, due = figures.volume(sand.placed_pl), figures.volume(sand.due_pl)
    placed += " placed as dry" if sand.is_as_dry else " placed"
    if not sand.due_pl:
        remark = placed if sand.placed_pl else "no sand placed today"
        return BigNumber(label, "-", remark)
    return BigNumber(label, percent(sand.placed_pl, sand.due_pl), f"{placed}, {due} due")


def _probe_number(passes: tuple[PassLine, ...]) -> BigNumber:
    verdicts = [probe.verdict for cut in passes for probe in cut.probes_that_count()]
    judged = [verdict for verdict in verdicts if verdict is not Verdict.NOT_MEASURED]
    inside = sum(verdict is Verdict.OK for verdict in judged)
    label = "depth probes in tolerance"
    if not judged:
        return BigNumber(label, "-", "not yet measured")
    standing = DayStatus.OK if inside == len(judged) else DayStatus.CHECK
    out = len(judged) - inside
    return BigNumber(
        label, f"{inside}/{len(judged)}", f"{out} out" if out else "none out", standing
    )
