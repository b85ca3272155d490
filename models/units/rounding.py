"""The one rounding rule: once, when showing, to the nearest, ties to the even figure."""

from __future__ import annotations

from fractions import Fraction


def round_half_even(numerator: int | Fraction, denominator: int | Fraction = 1) -> int:
    """Divide and round to the nearest whole number, an exact half to the even one.

    Whole numbers and fractions only: on floats a half is seldom a half.

    Raises
    ------
    ZeroDivisionError
        If the denominator is zero.

    Examples
    --------
    >>> round_half_even(5, 2), round_half_even(7, 2), round_half_even(-5, 2)
    (2, 4, -2)
    """
    if type(numerator) is int and type(denominator) is int:
        whole, rest = divmod(numerator, denominator)
        twice = 2 * abs(rest)
        size = abs(denominator)
        return whole + 1 if twice > size or (twice == size and whole % 2) else whole
    return round(Fraction(numerator) / Fraction(denominator))


def show_decimal(count: int, places: int) -> str:
    """Write a count of tenths, hundredths, ... with its point, trailing zeros kept.

    Examples
    --------
    >>> show_decimal(-543, 2), show_decimal(5, 0)
    ('-5.43', '5')
    """
    if not places:
        return str(count)
    digits = str(abs(count)).rjust(places + 1, "0")
    return f"{'-' if count < 0 else ''}{digits[:-places]}.{digits[-places:]}"


def show_mixed(count: int, denominator: int) -> str:
    """Write a count of eighths, sixteenths, ... as whole number and lowest fraction.

    Examples
    --------
    >>> show_mixed(68, 8), show_mixed(-3, 16), show_mixed(16, 8)
    ('8-1/2', '-3/16', '2')
    """
    sign = "-" if count < 0 else ""
    whole, rest = divmod(abs(count), denominator)
    if not rest:
        return f"{sign}{whole}"
    part = Fraction(rest, denominator)
    fraction = f"{part.numerator}/{part.denominator}"
    return f"{sign}{whole}-{fraction}" if whole else f"{sign}{fraction}"
