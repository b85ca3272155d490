"""Verdict on a measured figure against its limits."""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction


class Verdict(StrEnum):
    """Words that a reading is judged in."""

    OK = "OK"
    OUT = "OUT"
    TOO_SHORT = "too short to tell"
    NOT_MEASURED = "not yet measured"


def judge(
    value: int | Fraction | None,
    low: int | Fraction | None = None,
    high: int | Fraction | None = None,
) -> Verdict:
    """Say whether a value lies within its limits; a value on a limit does.

    Parameters
    ----------
    value : int, Fraction or None
        What was measured; None when nothing was. [any one unit]
    low : int, Fraction or None
        Least allowed; None when there is no lower limit. [unit of value]
    high : int, Fraction or None
        Most allowed; None when there is no upper limit. [unit of value]

    Returns
    -------
    verdict : Verdict
        OK, OUT or NOT_MEASURED. [-]

    Notes
    -----
    Compared as whole numbers and fractions, so a limit is exact in either
    system of units. Derived here.

    Examples
    --------
    By inspection: 9 lies on its upper limit, 10 lies above it.

    >>> judge(9, 8, 9), judge(10, 8, 9)
    (<Verdict.OK: 'OK'>, <Verdict.OUT: 'OUT'>)
    """
    if value is None:
        return Verdict.NOT_MEASURED
    is_low = low is not None and value < low
    is_high = high is not None and value > high
    return Verdict.OUT if is_low or is_high else Verdict.OK
