"""Rate of production, and the range of days until the work is done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from random import Random

from models.errors import CalculationInputError

LONGEST_DAYS = 3650
"""A trial stops here: whatever takes ten years is not a forecast."""

FEW_DAYS = 5
"""With fewer days of record than this a range says little (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Output:
    """Yield of one pass or one day.

    Attributes
    ----------
    length_nm : int
        Length finished. [nm]
    machine_min : int
        Time that the machine ran. [min]
    """

    length_nm: int
    machine_min: int


def rate_nm_per_h(outputs: Sequence[Output]) -> Fraction:
    """Length finished for each hour that the machine ran.

    Parameters
    ----------
    outputs : sequence of Output
        Passes or days. [nm, min]

    Returns
    -------
    rate : Fraction
        All lengths over all hours: a long day counts for more. [nm/h]

    Raises
    ------
    CalculationInputError
        If the machine did not run.

    Notes
    -----
    Not the mean of daily rates, which a short day would pull about.

    Examples
    --------
    By hand: 300 in 90 minutes.

    >>> rate_nm_per_h([Output(100, 60), Output(200, 30)])
    Fraction(200, 1)
    """
    minutes = sum(output.machine_min for output in outputs)
    if minutes <= 0:
        raise CalculationInputError(
            what="a rate of production",
            why="the machine has not run",
            accepted="Note the hours of the machine with the length it cut",
        )
    return Fraction(sum(output.length_nm for output in outputs) * 60, minutes)


def remaining_nm(planned_nm: int, done_nm: int) -> int:
    """Length that is still to be cut.

    Parameters
    ----------
    planned_nm : int
        Length planned. [nm]
    done_nm : int
        Length finished. [nm]

    Returns
    -------
    remaining : int
        Not below nothing, where more was cut than planned. [nm]

    Notes
    -----
    What is given as done is taken at its word: rework that waits is not known here.

    Examples
    --------
    By hand.

    >>> remaining_nm(100, 40), remaining_nm(100, 101)
    (60, 0)
    """
    return max(0, planned_nm - done_nm)


@dataclass(frozen=True, slots=True)
class FinishRange:
    """Working days until the end, as a range.

    Attributes
    ----------
    early_days : int
        One trial in ten needs no more than this. [d]
    middle_days : int
        Half of the trials need no more. [d]
    late_days : int
        Nine trials in ten need no more. [d]
    is_thin : bool
        Whether the record is too short for the range to say much. [-]
    """

    early_days: int
    middle_days: int
    late_days: int
    is_thin: bool


def finish_range(
    remaining: int, daily_nm: Sequence[int], lost_days: int, seed: int, trials: int = 1000
) -> FinishRange:
    """Days until the end, by drawing days of the record again and again.

    Parameters
    ----------
    remaining : int
        Length still to be cut. [nm]
    daily_nm : sequence of int
        Length finished on each day that was worked. [nm]
    lost_days : int
        Days of the same stretch of time on which nothing could be done. [d]
    seed : int
        Where chance starts; the same seed gives the same answer. [-]
    trials : int
        How often to play the rest of the job. [-]

    Returns
    -------
    range : FinishRange
        What one, five and nine trials in ten need at most. [d]

    Raises
    ------
    CalculationInputError
        If nothing was ever finished on a day, a figure is below zero, or there
        are no trials.

    Notes
    -----
    Days are drawn with equal chance and independently, so rain that comes in
    weeks makes the true range wider. The record is taken as typical of what is
    left. A trial stops at LONGEST_DAYS. Derived here (bootstrap).

    Examples
    --------
    By hand: 100 a day without a lost day does 250 in 3 days, whatever chance says.

    >>> finish_range(250, [100] * 5, 0, seed=1)
    FinishRange(early_days=3, middle_days=3, late_days=3, is_thin=False)
    """
    figures = [*daily_nm, remaining, lost_days]
    if min(figures) < 0 or not any(daily_nm) or trials < 1:
        raise CalculationInputError(
            what="when the work will be done",
            why="no day of the record has a length, or a figure is below zero",
            accepted="Give the length of each day worked, the days lost, and one trial at least",
        )
    chance = Random(seed)
    record = [*daily_nm, *([0] * lost_days)]
    needed = sorted(_one_trial(remaining, record, chance) for _ in range(trials))
    early, middle, late = (needed[-(-trials * tenth // 10) - 1] for tenth in (1, 5, 9))
    return FinishRange(early, middle, late, len(record) < FEW_DAYS)


def _one_trial(remaining: int, record: Sequence[int], chance: Random) -> int:
    """Days until the rest is done, drawing one day after the other [d]."""
    days = 0
    while remaining > 0 and days < LONGEST_DAYS:
        remaining -= record[int(chance.random() * len(record))]
        days += 1
    return days


def working_date(today: date, days: int, rest: frozenset[int]) -> date:
    """The calendar day on which a number of working days is over.

    Parameters
    ----------
    today : date
        The day before the first that counts. [date]
    days : int
        Working days; 0 gives today itself. [d]
    rest : frozenset of int
        Weekdays off, Monday as 0. [-]

    Returns
    -------
    day : date
        The last of them. [date]

    Raises
    ------
    CalculationInputError
        If every weekday is off, or the days are negative.

    Notes
    -----
    Public holidays are not known here; count them as lost days.

    Examples
    --------
    By a calendar: 2 October 2026 is a Friday.

    >>> working_date(date(2026, 10, 2), 2, rest=frozenset({5, 6}))
    datetime.date(2026, 10, 6)
    """
    if days < 0 or rest >= frozenset(range(7)):
        raise CalculationInputError(
            what="the day on which the work is done",
            why="every weekday is off, or the number of days is negative",
            accepted="Leave a weekday to work on",
        )
    while days:
        today += timedelta(days=1)
        days -= today.weekday() not in rest
    return today
