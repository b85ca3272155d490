"""Units of a job: how it reads and writes its figures, on pages and papers alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from models.units import (
    GradeStyle,
    LengthStyle,
    LengthUnit,
    MassStyle,
    MassUnit,
    StationStyle,
    UnitSystem,
    VolumeStyle,
    VolumeUnit,
    parse_length,
    parse_mass,
    parse_station,
    parse_volume,
    show_grade,
    show_length,
    show_mass,
    show_station,
    show_volume,
)
from models.units.length import STEP_NM
from models.units.rounding import show_decimal
from models.units.spec import FOOT_NM, METRE_NM

_US = UnitSystem.US
_LENGTH_STYLES = {
    "depth": (
        (LengthStyle.IN_8, LengthStyle.IN_16, LengthStyle.IN_64, LengthStyle.IN_1000),
        (LengthStyle.MM, LengthStyle.MM_10),
    ),
    "length": (
        (LengthStyle.FT_10, LengthStyle.FT_100, LengthStyle.FT_1000),
        (LengthStyle.M_100, LengthStyle.M_1000),
    ),
    "distance": ((LengthStyle.FT_1,), (LengthStyle.M_10,)),
    "level": ((LengthStyle.FT_100,), (LengthStyle.M_1000,)),
    "rise": ((LengthStyle.FT_100, LengthStyle.FT_1000), (LengthStyle.MM, LengthStyle.MM_10)),
    "fine": ((LengthStyle.FT_1000,), (LengthStyle.MM_10,)),
}
"""How each field shows a length, US and metric: first as usual, then finer and finer."""
_FINER_VOLUME = (VolumeStyle.YD3_1000, VolumeStyle.M3_1000)
_SIGHT_US_NM, _SIGHT_METRIC_NM = 100 * FOOT_NM, 40 * METRE_NM
"""Lengths that an error of the line of sight is told over: 100 ft and 40 m."""
_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


@dataclass(frozen=True, slots=True)
class Figures:
    """Units of one job. Each method shows one quantity by the rule of its field.

    Depths and widths: eighths of an inch, or whole millimetres. Lengths along
    the ground: tenths of a foot, or hundredths of a metre. Levels and rod
    readings: hundredths of a foot, or millimetres as metres.
    """

    system: UnitSystem = UnitSystem.US
    stations: StationStyle = StationStyle.US_100FT

    @property
    def is_us(self) -> bool:
        """Whether figures are in feet and inches."""
        return self.system is _US

    def _styles(self, field: str) -> tuple[LengthStyle, ...]:
        """Styles in which a field shows a length, the usual one first, then finer ones."""
        return _LENGTH_STYLES[field][0 if self.is_us else 1]

    def depth(self, nm: int) -> str:
        """Depth, width or thickness: ``8-1/2 in`` or ``216 mm``."""
        return show_length(nm, self._styles("depth")[0], mark=True)

    def length(self, nm: int) -> str:
        """Length along the ground: ``52.5 ft`` or ``16.00 m``."""
        return show_length(nm, self._styles("length")[0])

    def distance(self, nm: int, *, unit: bool = True) -> str:
        """Length for a summary, rounded: ``582 ft`` or ``177.4 m``."""
        return show_length(nm, self._styles("distance")[0], unit=unit)

    def level(self, nm: int) -> str:
        """Elevation or rod reading without its unit: ``98.43`` or ``30.002``."""
        return show_length(nm, self._styles("level")[0], unit=False)

    def rise(self, nm: int) -> str:
        """Small height without sign: ``0.03 ft`` or ``9 mm``."""
        return show_length(abs(nm), self._styles("rise")[0])

    def fine(self, nm: int) -> str:
        """Small height beside its limit, one figure finer: ``0.045 ft`` or ``12.5 mm``."""
        return show_length(abs(nm), self._styles("fine")[0])

    def water(self, pl: int) -> str:
        """Water held in a pipe: ``1.3 gal`` or ``4.9 L``."""
        return show_volume(pl, VolumeStyle.GAL_10 if self.is_us else VolumeStyle.L_10)

    def station(self, nm: int) -> str:
        """Station along a collector: ``1+25.5`` or ``0+125.5``."""
        return show_station(nm, self.stations)

    def volume(self, pl: int) -> str:
        """Volume: cubic yards or cubic metres, to hundredths."""
        return show_volume(pl, VolumeStyle.YD3_100 if self.is_us else VolumeStyle.M3_100)

    def mass(self, ug: int) -> str:
        """Mass: short tons or tonnes, to hundredths."""
        return show_mass(ug, MassStyle.TON_100 if self.is_us else MassStyle.TONNE_100)

    def grade(self, fall_ppm: int) -> str:
        """Grade held as parts per million of fall: ``0.50 %``."""
        return show_grade(Fraction(fall_ppm, 1_000_000), GradeStyle.PERCENT_100)

    def sight_error(self, error: Fraction) -> str:
        """Rise of a line of sight without sign: ``0.012 ft in 100 ft`` or ``5.0 mm in 40 m``."""
        if self.is_us:
            return f"{self.fine(round(error * _SIGHT_US_NM))} in 100 ft"
        return f"{self.fine(round(error * _SIGHT_METRIC_NM))} in 40 m"

    def show_distinct(self, way: str, values: Sequence[int]) -> list[str]:
        """Show quantities that stand in one sentence, by the method named ``way``.

        Different ones that rounding would make look equal are shown finer, as far as it takes:
        219.7 mm beside a least of 220 mm, not twice 220 mm.
        """
        texts = [str(getattr(self, way)(value)) for value in values]
        if way == "volume" and _alike(texts, values):
            finer = _FINER_VOLUME[0 if self.is_us else 1]
            return [show_volume(value, finer) for value in values]
        if way == "grade" and _alike(texts, values):
            return _grades_apart(values)
        styles = self._styles(way) if way in _LENGTH_STYLES else ()
        for coarse, style in zip(styles, styles[1:], strict=False):
            alike = _alike(texts, values)
            for place, (text, value) in enumerate(zip(texts, values, strict=True)):
                if text.lstrip("~") in alike and value % STEP_NM[coarse]:
                    value = abs(value) if way == "rise" else value
                    texts[place] = show_length(value, style, mark=way == "depth")
        return texts

    def day(self, iso: str) -> str:
        """Day in words, in the order of the system; as given if it is no day."""
        return plain_day(iso, self.is_us)

    def read_depth(self, text: str) -> int:
        """Read a depth or width; a bare number is inches or millimetres."""
        return parse_length(text, LengthUnit.IN if self.is_us else LengthUnit.MM)

    def read_length(self, text: str) -> int:
        """Read a length along the ground; a bare number is feet or metres."""
        return parse_length(text, LengthUnit.FT if self.is_us else LengthUnit.M)

    def read_level(self, text: str) -> int:
        """Read an elevation or rod reading; a bare number is feet or metres."""
        return parse_length(text, LengthUnit.FT if self.is_us else LengthUnit.M, signed=True)

    def read_station(self, text: str) -> int:
        """Read a station in the job's way of writing them."""
        return parse_station(text, self.stations)

    def read_volume(self, text: str) -> int:
        """Read a volume; a bare number is cubic yards or cubic metres."""
        return parse_volume(text, VolumeUnit.YD3 if self.is_us else VolumeUnit.M3)

    def read_mass(self, text: str) -> int:
        """Read a mass; a bare number is short tons or tonnes."""
        return parse_mass(text, MassUnit.TON if self.is_us else MassUnit.TONNE)


def plain_day(day: str, is_us: bool) -> str:
    """Day in words: ``Tue Jun 9, 2026`` or ``Tue 9 Jun 2026``; as given if it is no day."""
    try:
        on = date.fromisoformat(day)
    except ValueError:
        return day
    name, month = _WEEKDAYS[on.weekday()], _MONTHS[on.month - 1]
    if is_us:
        return f"{name} {month} {on.day}, {on.year}"
    return f"{name} {on.day} {month} {on.year}"


def _grades_apart(values: Sequence[int]) -> list[str]:
    """Grades in parts per million to thousandths of a percent, or to their last figure."""
    style = GradeStyle.PERCENT_1000
    texts = [show_grade(Fraction(value, 1_000_000), style) for value in values]
    if _alike(texts, values):
        return [f"{show_decimal(value, 4)} %" for value in values]
    return texts


def _alike(texts: Sequence[str], values: Sequence[int]) -> set[str]:
    """Texts that stand for more than one value."""
    meant: dict[str, set[int]] = {}
    for text, value in zip(texts, values, strict=True):
        meant.setdefault(text.lstrip("~"), set()).add(value)
    return {text for text, found in meant.items() if len(found) > 1}


def figures_of(unit_system: str, station_style: str) -> Figures:
    """Figures for a job's settings, as its ``job`` entry names them."""
    return Figures(UnitSystem(unit_system), StationStyle(station_style))
