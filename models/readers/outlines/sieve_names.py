"""Names of sieves: millimetres, micrometres, inches or US numbers, as openings.

US numbers and their openings are those of table 1 of ASTM E11 (the standard designation
beside the alternative one): read in a copy of E11-01 down to No. 7, from memory below it.
"""

from __future__ import annotations

import re
from fractions import Fraction

PAN = 0
"""Opening that stands for the pan [um]."""

US_NUMBERS_UM: dict[str, int] = {
    "3.5": 5600,
    "4": 4750,
    "5": 4000,
    "6": 3350,
    "7": 2800,
    "8": 2360,
    "10": 2000,
    "12": 1700,
    "14": 1400,
    "16": 1180,
    "18": 1000,
    "20": 850,
    "25": 710,
    "30": 600,
    "35": 500,
    "40": 425,
    "45": 355,
    "50": 300,
    "60": 250,
    "70": 212,
    "80": 180,
    "100": 150,
    "120": 125,
    "140": 106,
    "170": 90,
    "200": 75,
    "230": 63,
    "270": 53,
    "325": 45,
    "400": 38,
}
"""Opening of each US sieve number [um]."""

US_INCHES_UM: dict[Fraction, int] = {
    Fraction(3): 75_000,
    Fraction(5, 2): 63_000,
    Fraction(2): 50_000,
    Fraction(3, 2): 37_500,
    Fraction(5, 4): 31_500,
    Fraction(1): 25_000,
    Fraction(7, 8): 22_400,
    Fraction(3, 4): 19_000,
    Fraction(5, 8): 16_000,
    Fraction(1, 2): 12_500,
    Fraction(7, 16): 11_200,
    Fraction(3, 8): 9500,
    Fraction(5, 16): 8000,
    Fraction(1, 4): 6300,
}
"""Opening of each US sieve named in inches: 1/2 in is 12.5 mm by the standard, not 12.7 [um]."""

_PER_UNIT = {"mm": 1000, "um": 1, "\u00b5m": 1, "\u03bcm": 1, "micron": 1, "microns": 1}
_NUMBERED = re.compile(r"(?:no\.?|#|us|us no\.?) *(\d+(?:\.\d)?)")
_SIZED = re.compile(r"(\d+(?:\.\d+)?) *(mm|um|\u00b5m|\u03bcm|microns?)")
_INCHED = re.compile(r"(?:(\d+)[ -])?(\d+)(?:/(\d+))? *(?:in|in\.|inch|\"|\u2033)")
_BARE = re.compile(r"\d+(?:\.\d+)?")

ACCEPTED = "2 mm, 500 um, No. 35, 3/8 in or pan"


class SieveNameError(ValueError):
    """A cell that names no sieve; its text says why."""


def opening_um(text: str, unit: str = "") -> int:
    """Opening of a sieve by its name; ``unit`` is that of bare numbers: mm, um or no.

    Raises
    ------
    SieveNameError
        If it is no sieve, or a bare number where no unit was stated.
    """
    name = " ".join(text.lower().split())
    if name in {"pan", "bottom", "bottom pan"}:
        return PAN
    if _BARE.fullmatch(name):
        if not unit:
            raise SieveNameError("a bare number; the header says neither mm, um nor no.")
        name = f"no. {name}" if unit == "no" else f"{name} {unit}"
    if found := _SIZED.fullmatch(name):
        return _whole_um(Fraction(found[1]) * _PER_UNIT[found[2]])
    if found := _NUMBERED.fullmatch(name):
        if found[1] not in US_NUMBERS_UM:
            raise SieveNameError("no sieve number of ASTM E11")
        return US_NUMBERS_UM[found[1]]
    if found := _INCHED.fullmatch(name):
        return _inches_um(found)
    raise SieveNameError("no name of a sieve")


def _whole_um(size: Fraction) -> int:
    if size.denominator != 1:
        raise SieveNameError("finer than a whole micrometre")
    if not 20 <= size <= 125_000:
        raise SieveNameError("no opening from 20 um to 125 mm")
    return int(size)


def _inches_um(found: re.Match[str]) -> int:
    over = int(found[3] or 1)
    inches = int(found[1] or 0) + Fraction(int(found[2]), over) if over else Fraction(0)
    if inches not in US_INCHES_UM:
        raise SieveNameError("no sieve of ASTM E11 in inches")
    return US_INCHES_UM[inches]
