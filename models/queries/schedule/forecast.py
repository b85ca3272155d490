"""Forecast: rate of work, range of finish dates, when to call in sand, tomorrow's work.

All from the record of the book up to a day; the same book and day give the same answer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from models.counted import CountedNoun
from models.entries.bodies.planning import TakeoffTerms
from models.entries.kind_names import TAKEOFF_TERMS
from models.queries.schedule.daily_work import USES, PartRecord, part_records
from models.queries.schedule.sand_order import SandCall, needed_pl, sand_calls
from models.queries.schedule.tomorrow_work import Tomorrow, tomorrow_work
from models.queries.schedule.worked_days import worked_days
from models.science.schedule.production import (
    FinishRange,
    Output,
    finish_range,
    rate_nm_per_h,
    working_date,
)
from models.state.job_state import JobState
from models.units import round_half_even

SEED = 1
"""Where chance starts: the same record gives the same range."""
WEEKEND = frozenset({5, 6})
SCALE = 10**6
"""Work is drawn in millionths of a planned day, or in nm, so that it is whole."""


@dataclass(frozen=True, slots=True)
class UseProgress:
    """Progress of one use over all surfaces: lengths, and length per machine hour.

    ``nm_per_h`` is None while no pass of it has its machine time noted.
    """

    use: str
    planned_nm: int
    done_nm: int
    left_nm: int
    nm_per_h: Fraction | None
    timed: int


@dataclass(frozen=True, slots=True)
class Finish:
    """Range of the finish: days still to work, and the dates they end on."""

    range: FinishRange
    early: str
    middle: str
    late: str


@dataclass(frozen=True, slots=True)
class Progress:
    """Progress of a job by its record; ``told`` holds sentences on doubtful figures.

    ``finish`` is None while there is nothing to forecast from, or nothing is left; a finished
    job calls in no sand either.
    ``due`` is the planned finish, empty where none is planned.
    """

    day: str
    uses: tuple[UseProgress, ...]
    worked_days: int
    lost_days: int
    finish: Finish | None
    due: str
    calls: tuple[SandCall, ...]
    tomorrow: Tomorrow | None
    remarks: tuple[str, ...]

    @property
    def is_done(self) -> bool:
        """Whether nothing of the plan is left."""
        return bool(self.uses) and not any(use.left_nm for use in self.uses)

    @property
    def is_late(self) -> bool:
        """Whether half of the trials end after the planned finish."""
        return bool(self.finish and self.due and self.finish.middle > self.due)


def progress(state: JobState, day: str) -> Progress:
    """Progress of the job at the end of a day (YYYY-MM-DD)."""
    parts = part_records(state, day)
    worked = worked_days(state, day)
    rest = _rest(worked)
    lost = _lost(worked, rest)
    uses = tuple(_use(use, [part for part in parts if part.use == use]) for use in USES)
    uses = tuple(use for use in uses if use.planned_nm)
    is_done = bool(uses) and not any(use.left_nm for use in uses)
    told: list[str] = []
    finish = None if is_done else _finish(state, day, parts, worked, lost, rest, told)
    told += _told(uses)
    job = state.job
    return Progress(
        day,
        uses,
        len(worked),
        lost,
        finish,
        job.planned_finish or "" if job else "",
        () if is_done and not needed_pl(state, day, parts) else sand_calls(state, day, parts, rest),
        tomorrow_work(state, day, parts, rest),
        tuple(told),
    )


def _use(use: str, parts: Sequence[PartRecord]) -> UseProgress:
    timed: list[Output] = [output for part in parts for output in part.timed]
    return UseProgress(
        use,
        sum(part.planned_nm for part in parts),
        sum(part.done_nm for part in parts),
        sum(part.left_nm for part in parts),
        rate_nm_per_h(timed) if timed else None,
        len(timed),
    )


def _rest(worked: Sequence[str]) -> frozenset[int]:
    """Weekdays off: Saturday and Sunday, unless the record has work on them."""
    return WEEKEND - {date.fromisoformat(on).weekday() for on in worked}


def _lost(worked: Sequence[str], rest: frozenset[int]) -> int:
    """Working days between the first and the last day of work on which nothing was done."""
    if not worked:
        return 0
    on, last = date.fromisoformat(worked[0]), date.fromisoformat(worked[-1])
    lost, known = 0, set(worked)
    while on < last:
        on += timedelta(days=1)
        lost += on.weekday() not in rest and on.isoformat() not in known
    return lost


def _finish(
    state: JobState,
    day: str,
    parts: Sequence[PartRecord],
    worked: Sequence[str],
    lost: int,
    rest: frozenset[int],
    told: list[str],
) -> Finish | None:
    """The finish as a range, drawn from the days of the record."""
    weights = _weights(state, parts)
    if weights is None:
        told.append(
            "Every foot of work counts alike, whatever its use: daily rates in the take-off's "
            "terms would weigh them."
        )
    left = round_half_even(sum((_work(p, p.left_nm, weights) for p in parts), Fraction(0)))
    daily = [
        round_half_even(sum((_work(p, p.daily_nm.get(on, 0), weights) for p in parts), Fraction(0)))
        for on in worked
    ]
    if not left:
        return None
    if not any(daily):
        told.append("Nothing of the plan is done yet: there is nothing to forecast from.")
        return None
    found = finish_range(left, daily, lost, SEED)
    if found.is_thin:
        told.append(
            f"The record is thin ({CountedNoun(len(daily)):day|days} "
            "worked): the range says little yet."
        )
    today = date.fromisoformat(day)
    dates = [
        working_date(today, days, rest).isoformat()
        for days in (found.early_days, found.middle_days, found.late_days)
    ]
    return Finish(found, *dates)


def _weights(state: JobState, parts: Sequence[PartRecord]) -> dict[str, int] | None:
    """Length of a planned day of each use, where the terms give one for all that is planned."""
    terms = state.latest(TAKEOFF_TERMS)
    if not isinstance(terms, TakeoffTerms):
        return None
    rates = {
        "sand_slit": terms.sand_slit_a_day_nm,
        "piped_slit": terms.piped_slit_a_day_nm,
        "collector": terms.collector_a_day_nm,
    }
    needed = {part.use for part in parts if part.planned_nm}
    known = {use: rate for use, rate in rates.items() if rate}
    return known if needed <= set(known) else None


def _work(part: PartRecord, length_nm: int, weights: dict[str, int] | None) -> Fraction:
    """A length as work: in millionths of a planned day, or as it is."""
    return Fraction(length_nm * SCALE, weights[part.use]) if weights else Fraction(length_nm)


def _told(uses: Sequence[UseProgress]) -> list[str]:
    if not uses:
        return ["Nothing is planned yet: there is no length to be done."]
    slits = [use for use in uses if use.use != "collector" and use.done_nm]
    if slits and not any(use.timed for use in slits):
        return ["No pass has its machine time noted: there is no rate for a machine-hour."]
    return []
