"""The table of units: every spelling means one unit, and what reads them reads the table."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from models.units import (
    LengthUnit,
    MassUnit,
    VolumeUnit,
    parse_area,
    parse_density,
    parse_flow,
    parse_length,
    parse_mass,
    parse_share,
    parse_volume,
    parse_water_rate,
)
from models.units.spec import (
    AREAS,
    DENSITIES,
    FLOWS,
    LENGTHS,
    MASSES,
    SHARES,
    VOLUMES,
    WATER_RATES,
    UnitSpec,
)

TABLES = {
    "lengths": (LENGTHS, lambda text: parse_length(text, LengthUnit.M)),
    "masses": (MASSES, lambda text: parse_mass(text, MassUnit.KG)),
    "volumes": (VOLUMES, lambda text: parse_volume(text, VolumeUnit.M3)),
    "shares": (SHARES, parse_share),
    "rates of water": (WATER_RATES, parse_water_rate),
    "flows": (FLOWS, parse_flow),
    "areas": (AREAS, parse_area),
    "densities": (DENSITIES, parse_density),
}


def meant_twice(units: tuple[UnitSpec, ...]) -> list[str]:
    """Spellings that stand in more than one row, or twice in one."""
    counts = Counter(word for unit in units for word in unit.words)
    return [word for word, count in counts.items() if count > 1]


@pytest.mark.parametrize("name", TABLES)
def test_every_spelling_is_read_as_its_own_unit(name: str) -> None:
    """A figure with any spelling of a unit is that many of the row's size, to a base unit."""
    units, parse = TABLES[name]
    for unit in units:
        for word in unit.words:
            off = parse(f"4 {word}") - 4 * unit.size
            assert abs(off) <= Fraction(1, 2), (word, off)


def test_no_spelling_means_two_units() -> None:
    """Within a quantity a spelling stands once; a planted second meaning is named."""
    assert [meant_twice(units) for units, _ in TABLES.values()] == [[]] * len(TABLES)
    planted = (*MASSES, UnitSpec("T", Fraction(1), ("ton",)))
    assert meant_twice(planted) == ["ton"]


def test_lengths_masses_and_volumes_are_whole_in_base_units() -> None:
    """Nothing is lost where a unit's size is used as a whole number."""
    for unit in (*LENGTHS, *MASSES, *VOLUMES):
        assert unit.base == unit.size, unit.symbol


def test_a_symbol_is_one_of_its_spellings() -> None:
    """What a unit is called in columns can be typed as well."""
    for units, _ in TABLES.values():
        for unit in units:
            assert unit.symbol.lower() in unit.words, unit.symbol
