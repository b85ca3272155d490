"""Sand delivered, placed and on hand, in loose volume."""

from __future__ import annotations

from fractions import Fraction

from models.entries.job import Material
from models.job_state import JobState
from models.units import round_half_even

_UG_PER_PL_FOR_1_G_M3 = Fraction(1, 10**9)
"""1 g per cubic metre is 10**6 ug per 10**15 pl."""


def volume_of_mass_pl(mass_ug: int, density_g_per_m3: int) -> int:
    """Loose volume of a mass, in picolitres, by the bulk density as weighed."""
    volume = Fraction(mass_ug) / (density_g_per_m3 * _UG_PER_PL_FOR_1_G_M3)
    return round_half_even(volume.numerator, volume.denominator)


def mass_of_volume_ug(volume_pl: int, density_g_per_m3: int) -> int:
    """Mass of a loose volume, in micrograms, by the bulk density as weighed."""
    mass = volume_pl * density_g_per_m3 * _UG_PER_PL_FOR_1_G_M3
    return round_half_even(mass.numerator, mass.denominator)


def on_hand_pl(state: JobState, material_id: str) -> int | None:
    """Loose volume delivered less placed; None when masses can't be turned into volume."""
    delivered = in_volume_pl(
        state,
        material_id,
        state.sums[("delivered_ug", material_id)],
        state.sums[("delivered_pl", material_id)],
    )
    placed = in_volume_pl(
        state,
        material_id,
        state.sums[("placed_ug", material_id)],
        state.sums[("placed_pl", material_id)],
    )
    return None if delivered is None or placed is None else delivered - placed


def in_volume_pl(state: JobState, material_id: str, mass_ug: int, volume_pl: int) -> int | None:
    """A mass and a volume of one material as one volume, or None without its density."""
    if mass_ug == 0:
        return volume_pl
    material = state.latest("material", material_id)
    if not isinstance(material, Material) or material.bulk_density_g_per_m3 is None:
        return None
    return volume_pl + volume_of_mass_pl(mass_ug, material.bulk_density_g_per_m3)
