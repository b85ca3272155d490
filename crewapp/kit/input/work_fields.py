"""The fields of slit work and loads, with what is odd in each."""

from __future__ import annotations

import re

from crewapp.kit.input.fields import LengthEntry, length_field, mass_field
from crewapp.kit.input.key_grammar import Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Band, Bands
from models.entries.shows import DEEPEST_NM
from models.units import NM_PER, PL_PER, UG_PER, LengthUnit, MassUnit, UnitSystem, VolumeUnit
from models.units.job_units import Figures
from models.units.volume import VOLUME_UNITS

LONGEST_NM = 5_000 * NM_PER[LengthUnit.FT]
MOST_PL = 100 * PL_PER[VolumeUnit.YD3]
HEAVIEST_UG = 60 * UG_PER[MassUnit.TON]
TRUCK_UG = Band(UG_PER[MassUnit.TON], 30 * UG_PER[MassUnit.TON])
TRUCK_PL = Band(PL_PER[VolumeUnit.YD3] // 2, 25 * PL_PER[VolumeUnit.YD3])


def depth_field(figures: Figures, name: str, design_nm: int | None) -> FieldSpec:
    """Return a field for a depth; more than a third off its design is questioned."""
    expected = None if not design_nm else Band(design_nm * 2 // 3, design_nm * 4 // 3)
    return _narrow(figures, name, Bands(Band(1, DEEPEST_NM), expected, design_nm or None))


def width_field(figures: Figures, name: str, design_nm: int | None) -> FieldSpec:
    """Return a field for a width; below half or above twice its design is questioned."""
    expected = None if not design_nm else Band(design_nm // 2, design_nm * 2)
    return _narrow(figures, name, Bands(Band(1, DEEPEST_NM), expected, design_nm or None))


def shift_field(figures: Figures, name: str) -> FieldSpec:
    """Return a field for the shift from the pass before, in inches or millimetres."""
    return _narrow(figures, name, Bands(Band(1, 10 * DEEPEST_NM)))


def _narrow(figures: Figures, name: str, bands: Bands) -> FieldSpec:
    entry = LengthEntry.INCHES if figures.is_us else LengthEntry.MM
    return length_field(name, entry, bands)


def run_field(
    figures: Figures, name: str, planned_nm: int | None = None, longest_nm: int = LONGEST_NM
) -> FieldSpec:
    """Return a field for a length along the ground, in tenths of a foot or hundredths of a metre.

    With ``planned_nm`` a figure more than a quarter away from it is asked about.
    """
    expected = None if not planned_nm else Band(planned_nm * 3 // 4, planned_nm * 5 // 4)
    least = 1 if planned_nm else 0
    entry = LengthEntry.FEET_TENTHS if figures.is_us else LengthEntry.METRE_HUNDREDTHS
    return length_field(name, entry, Bands(Band(least, longest_nm), expected, planned_nm or None))


def weight_field(figures: Figures, name: str, usual_ug: Band = TRUCK_UG) -> FieldSpec:
    """Return a field for the weight of a load, in hundredths of a ton or tonne."""
    unit = MassUnit.TON if figures.is_us else MassUnit.TONNE
    return mass_field(name, unit, Bands(Band(1, HEAVIEST_UG), usual_ug))


def volume_field(figures: Figures, name: str, usual_pl: Band = TRUCK_PL) -> FieldSpec:
    """Return a field for a volume, in hundredths of a cubic yard or metre."""
    other = Figures(UnitSystem.METRIC if figures.is_us else UnitSystem.US, figures.stations)
    unit = VOLUME_UNITS[VolumeUnit.YD3 if figures.is_us else VolumeUnit.M3]
    return FieldSpec(
        name=name,
        unit=unit.symbol,
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=3, places=unit.decimals),
        parse=figures.read_volume,
        show=figures.volume,
        echo=other.volume,
        bands=Bands(Band(1, MOST_PL), usual_pl),
    )


def ticket_field(name: str, prefix: str = "") -> FieldSpec:
    """Return a field for what stands on a ticket: letters, digits and dashes, zeros kept.

    ``prefix`` is offered as one key. The pad's figures are the bytes of the text.
    """
    return FieldSpec(
        name=name,
        unit="",
        grammar=Grammar(KeyKind.NAME, whole_digits=14, prefix=prefix),
        parse=lambda text: int.from_bytes(text.encode()),
        show=lambda value: value.to_bytes(14).lstrip(b"\0").decode(),
    )


def ticket_letters(ticket: str) -> str:
    """Return the letters that a ticket begins with, a dash after them too; never its number."""
    found = re.match(r"[A-Z]{1,5}-?(?=[0-9])", ticket.upper())
    return found[0] if found else ""
