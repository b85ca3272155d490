"""The fields that crews type into, ready for the keypad: their unit, pad and bands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from crewapp.kit.input.key_grammar import Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Bands
from models.units.length import LengthStyle, LengthUnit, parse_length, show_length
from models.units.mass import MASS_UNITS, MassStyle, MassUnit, parse_mass, show_mass
from models.units.station import STATION_UNIT, StationStyle, parse_station, show_station

NO_BANDS = Bands()


class LengthEntry(StrEnum):
    """The ways in which a length is typed."""

    INCHES = "inches"  # 8-1/8
    INCH_TENTHS = "inch tenths"  # 8.5
    FEET = "feet"  # 48
    FEET_TENTHS = "feet tenths"  # 48.5
    FEET_HUNDREDTHS = "feet hundredths"  # 98.43
    ROD_FEET = "rod feet"  # 543 is 5.43 ft: no point key
    MM = "mm"  # 216
    CM_TENTHS = "cm tenths"  # 21.6
    METRES = "metres"  # 14.8
    METRE_HUNDREDTHS = "metre hundredths"  # 14.82
    METRE_THOUSANDTHS = "metre thousandths"  # 98.432
    ROD_METRES = "rod metres"  # 1543 is 1.543 m: no point key


@dataclass(frozen=True, slots=True)
class _Way:
    """How one way of typing is read, shown and echoed."""

    unit: LengthUnit
    style: LengthStyle
    echo: LengthStyle
    kind: KeyKind
    whole_digits: int
    places: int


_IN, _FT, _MM, _CM, _M = (
    LengthUnit.IN,
    LengthUnit.FT,
    LengthUnit.MM,
    LengthUnit.CM,
    LengthUnit.M,
)
_WAYS: dict[LengthEntry, _Way] = {
    LengthEntry.INCHES: _Way(_IN, LengthStyle.IN_16, LengthStyle.FT_100, KeyKind.INCHES, 3, 0),
    LengthEntry.INCH_TENTHS: _Way(
        _IN, LengthStyle.IN_10, LengthStyle.FT_100, KeyKind.DECIMAL, 3, 1
    ),
    LengthEntry.FEET: _Way(_FT, LengthStyle.FT_1, LengthStyle.M_10, KeyKind.INTEGER, 5, 0),
    LengthEntry.FEET_TENTHS: _Way(_FT, LengthStyle.FT_10, LengthStyle.M_10, KeyKind.DECIMAL, 5, 1),
    LengthEntry.FEET_HUNDREDTHS: _Way(
        _FT, LengthStyle.FT_100, LengthStyle.M_1000, KeyKind.DECIMAL, 5, 2
    ),
    LengthEntry.ROD_FEET: _Way(_FT, LengthStyle.FT_100, LengthStyle.M_1000, KeyKind.ROD, 4, 2),
    LengthEntry.MM: _Way(_MM, LengthStyle.MM, LengthStyle.IN_8, KeyKind.INTEGER, 5, 0),
    LengthEntry.CM_TENTHS: _Way(_CM, LengthStyle.CM_10, LengthStyle.IN_8, KeyKind.DECIMAL, 4, 1),
    LengthEntry.METRES: _Way(_M, LengthStyle.M_10, LengthStyle.FT_10, KeyKind.DECIMAL, 5, 1),
    LengthEntry.METRE_HUNDREDTHS: _Way(
        _M, LengthStyle.M_100, LengthStyle.FT_100, KeyKind.DECIMAL, 5, 2
    ),
    LengthEntry.METRE_THOUSANDTHS: _Way(
        _M, LengthStyle.M_1000, LengthStyle.FT_100, KeyKind.DECIMAL, 5, 3
    ),
    LengthEntry.ROD_METRES: _Way(_M, LengthStyle.M_1000, LengthStyle.FT_100, KeyKind.ROD, 5, 3),
}


def length_field(
    name: str, entry: LengthEntry, bands: Bands = NO_BANDS, *, is_signed: bool = False
) -> FieldSpec:
    """Return a field for a length; its figures are whole nanometres."""
    way = _WAYS[entry]
    is_rod = way.kind is KeyKind.ROD
    return FieldSpec(
        name=name,
        unit=str(way.unit),
        grammar=Grammar(way.kind, way.whole_digits, way.places, is_signed and not is_rod),
        parse=lambda text: parse_length(text, way.unit, signed=is_signed),
        show=show_in(way.style),
        echo=lambda value: show_length(value, way.echo, mark=True),
        bands=bands,
    )


def show_in(style: LengthStyle) -> Callable[[int], str]:
    """Return what writes a length in a style, marked when it is not exact."""
    return lambda value: show_length(value, style, mark=True)


def chip_text(entry: LengthEntry) -> Callable[[int], str]:
    """Return what writes a chip: the figure as it would be typed, without its unit."""
    style = _WAYS[entry].style
    return lambda value: show_length(value, style, unit=False)


def station_field(name: str, style: StationStyle, bands: Bands = NO_BANDS) -> FieldSpec:
    """Return a field for a station; its figures are nanometres from station zero."""
    figures = 3 if style is StationStyle.METRIC_1000M else 2
    return FieldSpec(
        name=name,
        unit=str(STATION_UNIT[style]),
        grammar=Grammar(KeyKind.STATION, whole_digits=4, places=2, station_digits=figures),
        parse=lambda text: parse_station(text, style),
        show=lambda value: show_station(value, style, 2),
        bands=bands,
    )


def mass_field(name: str, unit: MassUnit, bands: Bands = NO_BANDS) -> FieldSpec:
    """Return a field for a mass; its figures are whole micrograms."""
    style, other = {
        MassUnit.TON: (MassStyle.TON_100, MassStyle.TONNE_100),
        MassUnit.TONNE: (MassStyle.TONNE_100, MassStyle.TON_100),
        MassUnit.LB: (MassStyle.LB_10, MassStyle.KG_10),
        MassUnit.KG: (MassStyle.KG_10, MassStyle.LB_10),
    }[unit]
    return FieldSpec(
        name=name,
        unit=str(unit),
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=5, places=MASS_UNITS[unit].decimals),
        parse=lambda text: parse_mass(text, unit),
        show=lambda value: show_mass(value, style, mark=True),
        echo=lambda value: show_mass(value, other, mark=True),
        bands=bands,
    )


def count_field(name: str, unit: str = "", bands: Bands = NO_BANDS, digits: int = 5) -> FieldSpec:
    """Return a field for a count: minutes, coils, a ticket's number."""
    return FieldSpec(
        name=name,
        unit=unit,
        grammar=Grammar(KeyKind.INTEGER, whole_digits=digits, places=0),
        parse=int,
        show=lambda value: f"{value} {unit}".strip(),
        bands=bands,
    )
