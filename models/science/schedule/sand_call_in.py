"""When to call in the next load of sand."""

from __future__ import annotations

from dataclasses import dataclass

from models.errors import CalculationInputError


@dataclass(frozen=True, slots=True)
class CallIn:
    """When sand runs short, and when to call for more.

    Attributes
    ----------
    good_for_days : int
        Whole working days that the stock lasts before it eats into the reserve. [d]
    call_in_days : int
        Working days from today until the call; 0 is today. [d]
    is_late : bool
        Whether a call today comes too late for the crew not to wait. [-]
    """

    good_for_days: int
    call_in_days: int
    is_late: bool


def sand_call_in(on_hand: int, daily_use: int, lead_days: int, reserve: int = 0) -> CallIn:
    """Day on which to call in the next load of sand.

    Parameters
    ----------
    on_hand : int
        Sand on the site. [ug or pl]
    daily_use : int
        Sand used in a day of full work. [same unit]
    lead_days : int
        Working days from the call to the truck in the yard. [d]
    reserve : int
        Stock that is not to be used up. [same unit]

    Returns
    -------
    call : CallIn
        When it runs short, and when to call. [d]

    Raises
    ------
    CalculationInputError
        If no sand is used in a day, or the lead or the reserve is negative.

    Notes
    -----
    The truck called on a day stands in the yard ``lead_days`` later, before
    work begins. Use the largest daily use, not the mean: a crew that waits
    costs more than a heap that waits.

    Examples
    --------
    By hand: 10 less 1 in reserve lasts 4 days at 2 a day; the fifth morning
    needs more, so with 2 days of lead the call is due in 2 days.

    >>> sand_call_in(10, 2, lead_days=2, reserve=1)
    CallIn(good_for_days=4, call_in_days=2, is_late=False)
    """
    if daily_use <= 0 or lead_days < 0 or reserve < 0:
        raise CalculationInputError(
            what="when to call in sand",
            why="no sand is used in a day, or the lead or the reserve is negative",
            accepted="Give what a day takes, and the days from the call to the truck",
        )
    good_for = max(0, (on_hand - reserve) // daily_use)
    return CallIn(good_for, max(0, good_for - lead_days), good_for < lead_days)
