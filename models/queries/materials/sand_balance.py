"""Sand delivered, placed and on hand, in loose volume as dry.

A mass becomes a volume through the newest box weighed, else the planned density; damp
sand counts by what a flooded jar says it is dry (models/queries/materials/material_properties.py).
"""

from __future__ import annotations

from fractions import Fraction

from models.queries.materials.material_properties import UG_PER_PL, dry_share_of, dry_volume_of
from models.science.materials.sand import sand_mass_ug
from models.state.indexes import (
    DELIVERED_DAMP_PL,
    DELIVERED_PL,
    DELIVERED_UG,
    PLACED_DAMP_PL,
    PLACED_PL,
    PLACED_UG,
)
from models.state.job_state import JobState
from models.units import round_half_even


def volume_of_mass_pl(mass_ug: int, density_g_per_m3: int | Fraction) -> int:
    """Loose volume of a mass, in picolitres, by the bulk density as weighed."""
    return round_half_even(Fraction(mass_ug) / (density_g_per_m3 * UG_PER_PL))


_TOTALS = {
    "delivered": (DELIVERED_PL, DELIVERED_DAMP_PL, DELIVERED_UG),
    "placed": (PLACED_PL, PLACED_DAMP_PL, PLACED_UG),
}
"""Volume, what of it is damp, and mass, of each way that sand goes."""


def mass_of_volume_ug(volume_pl: int, density_g_per_m3: int | Fraction) -> int:
    """Mass of a loose volume, in micrograms, by the bulk density as weighed."""
    return sand_mass_ug(volume_pl, density_g_per_m3 * UG_PER_PL)


def on_hand_pl(state: JobState, material_id: str) -> int | None:
    """Loose volume delivered less placed; None when masses can't be turned into volume."""
    delivered = total_pl(state, "delivered", material_id)
    placed = total_pl(state, "placed", material_id)
    return None if delivered is None or placed is None else delivered - placed


def total_pl(state: JobState, way: str, material_id: str) -> int | None:
    """Sand ``delivered`` or ``placed``, as dry loose volume; None without a density."""
    in_pl, in_damp_pl, in_ug = _TOTALS[way]
    volume_pl: int | Fraction = state.total(in_pl, material_id)
    damp_pl = state.total(in_damp_pl, material_id)
    if damp_pl:
        volume_pl -= damp_pl * (1 - dry_share_of(state, material_id, "damp"))
    mass_ug = state.total(in_ug, material_id)
    return in_volume_pl(state, material_id, mass_ug, round_half_even(volume_pl))


def in_volume_pl(state: JobState, material_id: str, mass_ug: int, volume_pl: int) -> int | None:
    """A mass and a volume of one material as one volume, or None without its density."""
    if mass_ug == 0:
        return volume_pl
    volume = dry_volume_of(state, material_id, mass_ug)
    return None if volume is None else volume_pl + round_half_even(volume)


def dry_pl(
    state: JobState, material_id: str, mass_ug: int, volume_pl: int, moisture: str | None
) -> int | None:
    """Dry loose volume of a load that was measured either way; None without a density."""
    dry = volume_pl * dry_share_of(state, material_id, moisture)
    return in_volume_pl(state, material_id, mass_ug, round_half_even(dry))
