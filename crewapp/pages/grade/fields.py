"""The fields of levelling and of the collector: how each is typed, and what is odd in it."""

from __future__ import annotations

from fractions import Fraction

from crewapp.kit.input.fall_field import fall_field
from crewapp.kit.input.key_grammar import Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Band, Bands
from crewapp.words.translate import say
from models.units import StationStyle, UnitSystem
from models.units.job_units import Figures

ROD_LONGEST_NM = 7_620_000_000  # 25 ft, the longest rod in the trade: common practice, no source
ODD_NM = 304_800_000  # a foot off grade is asked about: common practice, no source
DEEPEST_NM = 6_096_000_000  # 20 ft
THICKEST_NM = 3_048_000_000  # 10 ft
LONGEST_AGO_DAYS = 999
LONGEST_SIGHT_NM = 304_800_000_000  # 1000 ft, the reach of a rotating laser: common practice
MOST_SECONDS_TENTHS = 6_000  # ten minutes of arc: nothing sold as a level states more
MOST_LIMIT_MILLIONTHS = 1_000  # 1 in 1000: a laser that is worse lays no pipe to grade


def _echo(figures: Figures) -> Figures:
    """Return the figures of the other system."""
    return Figures(UnitSystem.METRIC if figures.is_us else UnitSystem.US, figures.stations)


def _level_unit(figures: Figures) -> str:
    return "ft" if figures.is_us else "m"


def rod_field(figures: Figures, name: str, near_nm: Fraction | None = None) -> FieldSpec:
    """Return the field of a rod reading: digits without a point, nothing offered.

    ``near_nm`` is what it would read on grade; a figure more than a foot off is
    asked about.
    """
    unit, other = _level_unit(figures), _echo(figures)
    expected = None
    if near_nm is not None and near_nm >= 0:
        expected = Band(max(round(near_nm) - ODD_NM, 0), round(near_nm) + ODD_NM)
    return FieldSpec(
        name=name,
        unit=unit,
        grammar=Grammar(KeyKind.ROD, whole_digits=4, places=2 if figures.is_us else 3),
        parse=figures.read_level,
        show=lambda nm: f"{figures.level(nm)} {unit}",
        echo=lambda nm: f"{other.level(nm)} {_level_unit(other)}",
        bands=Bands(Band(0, ROD_LONGEST_NM), expected),
    )


def station_field(figures: Figures, name: str, start_nm: int, end_nm: int) -> FieldSpec:
    """Return the field of a station on this collector."""
    digits = 3 if figures.stations is StationStyle.METRIC_1000M else 2
    return FieldSpec(
        name=name,
        unit=_level_unit(figures),
        grammar=Grammar(KeyKind.STATION, whole_digits=3, places=1, station_digits=digits),
        parse=figures.read_station,
        show=figures.station,
        bands=Bands(Band(start_nm, end_nm)),
    )


def grade_field(figures: Figures) -> FieldSpec:
    """Return the field of a dialled grade."""
    return fall_field(figures, say("Grade dialled, % or 1:n"))


def days_field() -> FieldSpec:
    """Return the field of how many days ago the laser was last checked."""
    return FieldSpec(
        name=say("Days since it was calibrated"),
        unit=say("days"),
        grammar=Grammar(KeyKind.INTEGER, whole_digits=3, places=0),
        parse=int,
        show=lambda days: say("{count:day|days}", count=days),
        bands=Bands(Band(0, LONGEST_AGO_DAYS)),
    )


def thickness_field(figures: Figures, name: str) -> FieldSpec:
    """Return the field of a layer's thickness."""
    is_us = figures.is_us
    return FieldSpec(
        name=name,
        unit="in" if is_us else "mm",
        grammar=Grammar(KeyKind.INCHES if is_us else KeyKind.INTEGER, whole_digits=3, places=0),
        parse=figures.read_depth,
        show=figures.depth,
        echo=_echo(figures).depth,
        bands=Bands(Band(1, THICKEST_NM)),
    )


def trench_depth_field(figures: Figures) -> FieldSpec:
    """Return the field of a trench's depth."""
    return FieldSpec(
        name=say("Trench depth"),
        unit=_level_unit(figures),
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=2, places=1 if figures.is_us else 2),
        parse=figures.read_length,
        show=figures.length,
        echo=_echo(figures).length,
        bands=Bands(Band(1, DEEPEST_NM)),
    )


def sight_field(figures: Figures, name: str) -> FieldSpec:
    """Return the field of the length of a sight."""
    return FieldSpec(
        name=name,
        unit=_level_unit(figures),
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=3, places=1 if figures.is_us else 2),
        parse=figures.read_length,
        show=figures.length,
        echo=_echo(figures).length,
        bands=Bands(Band(0, LONGEST_SIGHT_NM)),
    )


def seconds_field() -> FieldSpec:
    """Return the field of a stated error in arc seconds; its figures are tenths of one."""
    return FieldSpec(
        name=say("Error its maker states"),
        unit=say("arc seconds"),
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=3, places=1),
        parse=lambda text: int(Fraction(text) * 10),
        show=lambda tenths: say("{seconds} arc seconds", seconds=f"{tenths / 10:g}"),
        bands=Bands(Band(1, MOST_SECONDS_TENTHS)),
    )


def peg_limit_field(figures: Figures) -> FieldSpec:
    """Return the field of a peg test's limit; its figures are millionths of the distance."""
    a_unit = 10_000 if figures.is_us else 25  # millionths in 1 ft over 100 ft, 1 mm over 40 m
    return FieldSpec(
        name=say("Largest error of a peg test"),
        unit=say("ft in 100 ft") if figures.is_us else say("mm in 40 m"),
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=2, places=3 if figures.is_us else 1),
        parse=lambda text: round(Fraction(text) * a_unit),
        show=lambda millionths: figures.sight_error(Fraction(millionths, 1_000_000)),
        bands=Bands(Band(1, MOST_LIMIT_MILLIONTHS)),
    )
