"""Figures of a take-off as the trade writes them, in either system of units."""

from __future__ import annotations

from fractions import Fraction

from models.science.materials.sand import KG_PER_M3, LB_PER_FT3
from models.science.takeoff.items import Amount, Kind
from models.units import (
    LengthStyle,
    MassStyle,
    UnitSystem,
    VolumeStyle,
    round_half_even,
    show_length,
    show_mass,
    show_volume,
)
from models.units.rounding import show_decimal
from models.units.spec import FOOT_NM, INCH_NM

_AREAS: dict[UnitSystem, tuple[tuple[int, str], tuple[int, str]]] = {
    UnitSystem.US: ((FOOT_NM**2, "ft\u00b2"), (INCH_NM**2, "in\u00b2")),
    UnitSystem.METRIC: ((10**18, "m\u00b2"), (10**14, "cm\u00b2")),
}
"""The unit of an area, and the one used below a unit of it [nm2]."""


def _decimal(size: int | Fraction, step: int | Fraction, places: int) -> str:
    """A size in steps, with so many places."""
    return show_decimal(round_half_even(Fraction(size) * 10**places, step), places)


def show_amount(amount: Amount, system: UnitSystem) -> str:
    """Write a figure of a take-off, with its unit.

    Parameters
    ----------
    amount : Amount
        The figure. [base unit of its kind]
    system : UnitSystem
        US or metric. [-]

    Returns
    -------
    text : str
        Feet, inches, cubic yards, short tons; or metres, millimetres, cubic
        metres, tonnes. Money without a sign. [-]

    Notes
    -----
    Ties go to even. A width or depth that isn't exactly an eighth of an inch
    or a millimetre is marked ``~``.

    Examples
    --------
    By inspection of the units' definitions.

    >>> show_amount(Amount(25_400_000, Kind.DEPTH), UnitSystem.US)
    '1 in'
    >>> show_amount(Amount(Fraction(1, 20), Kind.SHARE), UnitSystem.METRIC)
    '5 %'
    >>> show_amount(Amount(1250, Kind.MONEY), UnitSystem.US)
    '12.50'
    """
    is_us = system is UnitSystem.US
    size, whole = amount.size, round_half_even(amount.size)
    match amount.kind:
        case Kind.LENGTH:
            return show_length(whole, LengthStyle.FT_10 if is_us else LengthStyle.M_100)
        case Kind.DEPTH:
            return show_length(whole, LengthStyle.IN_8 if is_us else LengthStyle.MM, mark=True)
        case Kind.AREA:
            large, small = _AREAS[system]
            step, name = large if size >= large[0] else small
            return f"{_decimal(size, step, 2)} {name}"
        case Kind.VOLUME:
            return show_volume(whole, VolumeStyle.YD3_100 if is_us else VolumeStyle.M3_100)
        case Kind.MASS:
            return show_mass(whole, MassStyle.TON_100 if is_us else MassStyle.TONNE_100)
        case _:
            return _show_bare(amount, is_us)


def _show_bare(amount: Amount, is_us: bool) -> str:
    """Densities, shares, counts, days and money."""
    match amount.kind:
        case Kind.DENSITY if is_us:
            return f"{_decimal(amount.size, LB_PER_FT3, 1)} lb/ft\u00b3"
        case Kind.DENSITY:
            return f"{_decimal(amount.size, KG_PER_M3, 0)} kg/m\u00b3"
        case Kind.SHARE:
            percent = Fraction(amount.size) * 100
            return f"{_decimal(percent, 1, 0 if percent.denominator == 1 else 1)} %"
        case Kind.MONEY:
            return _decimal(amount.size, 100, 2)
        case Kind.DAYS:
            return (
                f"{_decimal(amount.size, 1, 0 if Fraction(amount.size).denominator == 1 else 1)} d"
            )
        case _:
            return _decimal(amount.size, 1, 0)
